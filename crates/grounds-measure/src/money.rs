//! Money in whole cents of the job's currency.

use crate::error::Fault;
use crate::reading::{Scanner, Written, written_as_string};
use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Mul, Neg, Sub};

/// A sum of money in whole cents. The currency belongs to the job, so the text has none: `12.50`,
/// `1,250`, `-3.20`.
///
/// ```
/// use grounds_measure::Money;
/// let bag: Money = "12.50".parse()?;
/// assert_eq!((bag * 3).to_string(), "37.50");
/// assert!("$12.50".parse::<Money>().is_err());
/// # Ok::<(), grounds_measure::MeasureError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Money(i64);

impl Money {
    /// Nothing.
    pub const ZERO: Self = Self(0);
    /// The largest sum that is read: a hundred thousand million.
    pub const LARGEST: Self = Self(10_000_000_000_000);

    /// A sum of so many cents.
    #[must_use]
    pub const fn from_cents(cents: i64) -> Self {
        Self(cents)
    }

    /// Whole cents.
    #[must_use]
    pub const fn cents(self) -> i64 {
        self.0
    }

    /// Prints with commas between thousands, for people: `1,250.00`.
    #[must_use]
    pub fn display(self) -> impl fmt::Display {
        let text = self.to_string();
        let (whole, cents) = text.split_once('.').unwrap_or((&text, "00"));
        let digits = whole.trim_start_matches('-');
        let mut grouped = String::new();
        for (place, digit) in digits.chars().enumerate() {
            if place > 0 && (digits.len() - place) % 3 == 0 {
                grouped.push(',');
            }
            grouped.push(digit);
        }
        let sign = if self.0 < 0 { "-" } else { "" };
        format!("{sign}{grouped}.{cents}")
    }
}

impl Written for Money {
    const WHAT: &'static str = "sum of money";
    const EXAMPLE: &'static str = "a sum like 12.50, without a currency sign";

    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        let at = scan.at();
        let negative = scan.negative();
        let number = scan.number()?;
        let cents = number
            .value
            .whole(100)
            .ok_or_else(|| scan.fault_at(at, "whole cents"))?;
        let cents = if negative { -cents } else { cents };
        i64::try_from(cents)
            .ok()
            .filter(|cents| cents.abs() <= Self::LARGEST.0)
            .map(Self)
            .ok_or_else(|| scan.fault_at(at, "a smaller sum"))
    }
}

written_as_string!(Money, "Money", "money");

impl fmt::Display for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        let cents = self.0.unsigned_abs();
        f.pad(&format!("{sign}{}.{:02}", cents / 100, cents % 100))
    }
}

impl Add for Money {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl AddAssign for Money {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl Sub for Money {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl Neg for Money {
    type Output = Self;
    fn neg(self) -> Self {
        Self(self.0.saturating_neg())
    }
}

impl Mul<i64> for Money {
    type Output = Self;
    fn mul(self, times: i64) -> Self {
        Self(self.0.saturating_mul(times))
    }
}

impl Sum for Money {
    fn sum<I: Iterator<Item = Self>>(sums: I) -> Self {
        sums.fold(Self::ZERO, Add::add)
    }
}
