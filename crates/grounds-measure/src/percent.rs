//! Shares of a whole.

use crate::error::Fault;
use crate::money::Money;
use crate::print::exact_decimal;
use crate::reading::{Scaled, Scanner, Unit, Written, read_scaled, written_as_string};
use std::fmt;

/// A share in hundredths of a percent, 0 to 1000 %: waste, progress, a surcharge. Reads `10 %`,
/// `12.5 %`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Percent(u32);

const ONE: i64 = 100;

impl Percent {
    /// Nothing.
    pub const ZERO: Self = Self(0);
    /// The whole: 100 %.
    pub const WHOLE: Self = Self(10_000);
    /// The largest share that is read: 1000 %.
    pub const LARGEST: Self = Self(100_000);

    /// A share of so many hundredths of a percent; `None` above 1000 %.
    #[must_use]
    pub fn from_hundredths(hundredths: u32) -> Option<Self> {
        (hundredths <= Self::LARGEST.0).then_some(Self(hundredths))
    }

    /// Hundredths of a percent.
    #[must_use]
    pub fn hundredths(self) -> u32 {
        self.0
    }

    /// The share as a number in which the whole is 1.
    #[must_use]
    pub fn share(self) -> f64 {
        f64::from(self.0) / f64::from(Self::WHOLE.0)
    }

    /// This share of a whole number, rounded up; for a number below zero, towards zero.
    #[must_use]
    pub fn of_up(self, whole: i64) -> i64 {
        let scaled = i128::from(whole) * i128::from(self.0);
        let full = i128::from(Self::WHOLE.0);
        let up = scaled.div_euclid(full) + i128::from(scaled.rem_euclid(full) > 0);
        i64::try_from(up).unwrap_or(if whole < 0 { i64::MIN } else { i64::MAX })
    }

    /// This share of a sum of money, rounded up to a cent.
    #[must_use]
    pub fn of_money(self, money: Money) -> Money {
        Money::from_cents(self.of_up(money.cents()))
    }
}

impl Scaled for Percent {
    const UNITS: &'static [Unit] = &[Unit::new(&["%", "percent"], ONE)];
    const RANGE: (i64, i64) = (0, Self::LARGEST.0 as i64);
    const RANGE_SAID: &'static str = "a share from 0 % to 1000 %";
    const FINEST_SAID: Option<&'static str> = Some("a share to a hundredth of a percent");

    fn from_small(small: i64) -> Self {
        Self(u32::try_from(small).unwrap_or(Self::LARGEST.0))
    }
}

impl Written for Percent {
    const WHAT: &'static str = "percentage";
    const EXAMPLE: &'static str = "a share like 10 %";

    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        read_scaled(scan)
    }
}

written_as_string!(Percent, "Percent", "percent");

impl fmt::Display for Percent {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let percent = exact_decimal(i64::from(self.0), ONE, 2).unwrap_or_default();
        f.pad(&format!("{percent} %"))
    }
}
