//! Relative humidity of the air.

use crate::error::Fault;
use crate::limits::{Limits, read_limits};
use crate::print::exact_decimal;
use crate::reading::{Scaled, Scanner, Unit, Written, read_scaled, written_as_string};
use std::fmt;

/// The relative humidity of air in tenths of a percent, 0 to 100 %: `65 %`, `47.5 % RH`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Humidity(u16);

/// Limits of relative humidity, both included: `<= 65 %`, `30..50 %`.
pub type HumidityRange = Limits<Humidity>;

const PERCENT: i64 = 10;
const FULL: u16 = 1000;

impl Humidity {
    /// A humidity of so many tenths of a percent; `None` above 100 %.
    #[must_use]
    pub fn from_tenths(tenths: u16) -> Option<Self> {
        (tenths <= FULL).then_some(Self(tenths))
    }

    /// The nearest humidity to a reading in percent; `None` unless it lies from 0 to 100.
    #[must_use]
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held in range"
    )]
    pub fn from_percent_f64(percent: f64) -> Option<Self> {
        (0.0..=100.0)
            .contains(&percent)
            .then(|| Self((percent * 10.0).round() as u16))
    }

    /// Tenths of a percent, 0 to 1000.
    #[must_use]
    pub fn tenths(self) -> u16 {
        self.0
    }

    /// Percent, 0 to 100, for computing with physics.
    #[must_use]
    pub fn percent(self) -> f64 {
        f64::from(self.0) / 10.0
    }
}

impl Scaled for Humidity {
    const UNITS: &'static [Unit] = &[Unit::new(&["%", "% RH", "%RH", "percent"], PERCENT)];
    const RANGE: (i64, i64) = (0, FULL as i64);
    const RANGE_SAID: &'static str = "a humidity from 0 % to 100 %";
    const FINEST_SAID: Option<&'static str> = Some("a humidity to a tenth of a percent");

    fn from_small(small: i64) -> Self {
        Self(u16::try_from(small).unwrap_or(FULL))
    }
}

impl Written for Humidity {
    const WHAT: &'static str = "humidity";
    const EXAMPLE: &'static str = "a humidity like 65 %";

    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        read_scaled(scan)
    }
}

written_as_string!(Humidity, "Humidity", "humidity");

impl Written for HumidityRange {
    const WHAT: &'static str = "humidity range";
    const EXAMPLE: &'static str = "limits like <= 65 % or 30..50 %";

    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        read_limits(scan)
    }
}

written_as_string!(HumidityRange, "HumidityRange", "humidity-range");

impl fmt::Display for Humidity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let percent = exact_decimal(i64::from(self.0), PERCENT, 1).unwrap_or_default();
        f.pad(&format!("{percent} %"))
    }
}
