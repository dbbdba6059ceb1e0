//! Temperatures, and the limits within which a layer may be laid and may dry.

use crate::error::Fault;
use crate::limits::{Limits, read_limits};
use crate::print::{exact_decimal, rounded_decimal};
use crate::reading::{Scaled, Scanner, Unit, Written, read_scaled, written_as_string};
use crate::units::Units;
use std::fmt;

/// A temperature as a whole number of 1/18 000 °C, in which 0.0005 °C and 0.0001 °F are both whole
/// (°F = °C × 9/5 + 32; NIST Special Publication 811, appendix B, published).
///
/// Reads `21.5 C`, `21.5 °C`, `-5 C`, `70 F`, `70 °F`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Temperature(i64);

/// Limits of temperature, both included: `10..27 C`, `50 F..90 F`, `>= 10 C`, `<= 90 F`.
///
/// ```
/// use grounds_measure::TemperatureRange;
/// let limits: TemperatureRange = "50..90 F".parse()?;
/// assert!(limits.contains("10 C".parse()?));
/// assert!(!limits.contains("9.9 C".parse()?));
/// # Ok::<(), grounds_measure::MeasureError>(())
/// ```
pub type TemperatureRange = Limits<Temperature>;

const CELSIUS: i64 = 18_000;
const FAHRENHEIT: i64 = 10_000;
const ZERO_FAHRENHEIT: i64 = -320_000;

impl Temperature {
    /// The coldest temperature there is: −273.15 °C.
    pub const ABSOLUTE_ZERO: Self = Self(-4_916_700);
    /// The hottest temperature that is read: 2 000 °C.
    pub const HOTTEST: Self = Self(2000 * CELSIUS);

    /// The nearest temperature to a reading in degrees Celsius; `None` unless it lies between
    /// absolute zero and [`Temperature::HOTTEST`].
    #[must_use]
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_precision_loss,
        reason = "held in range"
    )]
    pub fn from_celsius_f64(celsius: f64) -> Option<Self> {
        let units = (celsius * CELSIUS as f64).round();
        let range = Self::ABSOLUTE_ZERO.0 as f64..=Self::HOTTEST.0 as f64;
        range.contains(&units).then_some(Self(units as i64))
    }

    /// Degrees Celsius, for computing with physics.
    #[must_use]
    #[expect(
        clippy::cast_precision_loss,
        reason = "a nearest number is what is asked for"
    )]
    pub fn celsius(self) -> f64 {
        self.0 as f64 / CELSIUS as f64
    }

    /// Prints for people in the job's units, to tenths of a degree: `21.5 °C`, `70.7 °F`.
    #[must_use]
    pub fn display(self, units: Units) -> impl fmt::Display {
        match units {
            Units::Metric => format!("{} °C", rounded_decimal(self.0, CELSIUS, 1)),
            Units::Imperial => {
                format!(
                    "{} °F",
                    rounded_decimal(self.0 - ZERO_FAHRENHEIT, FAHRENHEIT, 1)
                )
            }
        }
    }
}

impl Scaled for Temperature {
    const UNITS: &'static [Unit] = &[
        Unit::new(&["C", "°C", "° C", "deg C", "℃", "Celsius"], CELSIUS),
        Unit {
            zero: ZERO_FAHRENHEIT,
            ..Unit::new(&["F", "°F", "° F", "deg F", "℉", "Fahrenheit"], FAHRENHEIT)
        },
    ];
    const RANGE: (i64, i64) = (Self::ABSOLUTE_ZERO.0, Self::HOTTEST.0);
    const RANGE_SAID: &'static str = "a temperature from -273.15 C to 2000 C";
    const FINEST_SAID: Option<&'static str> =
        Some("a temperature to 0.001 C or 0.0001 F, no finer");

    fn from_small(small: i64) -> Self {
        Self(small)
    }
}

impl Written for Temperature {
    const WHAT: &'static str = "temperature";
    const EXAMPLE: &'static str = "a temperature like 21.5 C or 70 F";

    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        read_scaled(scan)
    }
}

written_as_string!(Temperature, "Temperature", "temperature");

impl Written for TemperatureRange {
    const WHAT: &'static str = "temperature range";
    const EXAMPLE: &'static str = "limits like 10..27 C, 50..90 F or >= 10 C";

    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        read_limits(scan)
    }
}

written_as_string!(TemperatureRange, "TemperatureRange", "temperature-range");

impl fmt::Display for Temperature {
    /// Degrees Celsius if two decimals say it exactly, else Fahrenheit, in which any temperature is
    /// exact.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let text = match exact_decimal(self.0, CELSIUS, 2) {
            Some(celsius) => format!("{celsius} C"),
            None => {
                let fahrenheit = exact_decimal(self.0 - ZERO_FAHRENHEIT, FAHRENHEIT, 4);
                format!("{} F", fahrenheit.unwrap_or_default())
            }
        };
        f.pad(&text)
    }
}
