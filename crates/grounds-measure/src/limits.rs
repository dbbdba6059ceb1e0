//! Limits on a reading: from, to, or both.

use crate::error::Fault;
use crate::print::join_sharing_unit;
use crate::reading::{Scaled, Scanner, Signed, read_scaled};
use std::fmt;

/// A lower limit, an upper limit, or both; the limits themselves are allowed. At least one is set
/// and the lower is never above the upper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Limits<T> {
    low: Option<T>,
    high: Option<T>,
}

impl<T: Copy + Ord> Limits<T> {
    /// Limits from `low` to `high`; `None` when neither is set or they are the wrong way round.
    #[must_use]
    pub fn new(low: Option<T>, high: Option<T>) -> Option<Self> {
        let ordered = match (low, high) {
            (None, None) => false,
            (Some(low), Some(high)) => low <= high,
            _ => true,
        };
        ordered.then_some(Self { low, high })
    }

    /// The lowest value allowed, if there is one.
    #[must_use]
    pub fn low(&self) -> Option<T> {
        self.low
    }

    /// The highest value allowed, if there is one.
    #[must_use]
    pub fn high(&self) -> Option<T> {
        self.high
    }

    /// Whether a reading is allowed; readings on a limit are.
    #[must_use]
    pub fn contains(&self, value: T) -> bool {
        self.low.is_none_or(|low| low <= value) && self.high.is_none_or(|high| value <= high)
    }
}

impl<T: fmt::Display> fmt::Display for Limits<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (&self.low, &self.high) {
            (Some(low), Some(high)) => f.pad(&join_sharing_unit(
                &[low.to_string(), high.to_string()],
                "..",
            )),
            (Some(low), None) => f.pad(&format!(">= {low}")),
            (None, Some(high)) => f.pad(&format!("<= {high}")),
            (None, None) => Ok(()),
        }
    }
}

/// Reads `low..high unit`, `low unit..high unit`, `>= low unit` or `<= high unit`.
pub(crate) fn read_limits<T: Scaled + Copy + Ord>(
    scan: &mut Scanner<'_>,
) -> Result<Limits<T>, Fault> {
    if scan.eat_word(">=") || scan.eat_word("≥") {
        let low = read_scaled(scan)?;
        return Ok(Limits {
            low: Some(low),
            high: None,
        });
    }
    if scan.eat_word("<=") || scan.eat_word("≤") {
        let high = read_scaled(scan)?;
        return Ok(Limits {
            low: None,
            high: Some(high),
        });
    }
    let at = scan.at();
    let low = Signed::read(scan)?;
    let low_unit = T::eat_unit(scan);
    scan.skip_space();
    if !(scan.eat_word("..") || scan.eat_word("to")) {
        return Err(scan.fault("`..` and the upper limit"));
    }
    let high = Signed::read(scan)?;
    let unit = T::expect_unit(scan)?;
    let low = T::from_parts(scan, low, low_unit.unwrap_or(unit))?;
    let high = T::from_parts(scan, high, unit)?;
    let limits = Limits::new(Some(low), Some(high));
    limits.ok_or_else(|| scan.fault_at(at, "the lower limit first"))
}
