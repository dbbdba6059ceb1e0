//! Rates of work.

use crate::error::Fault;
use crate::quantity::{Count, Quantity, QuantityKind};
use crate::reading::{Scanner, Written, written_as_string};
use std::fmt;

/// How much one crew does in an hour: `6 m2/h`, `40 ft2/h`, `12 m/h`, `3 /h` (pieces). Always above
/// zero.
///
/// ```
/// use grounds_measure::{Quantity, Rate};
/// let rate: Rate = "6 m2/h".parse()?;
/// assert_eq!(rate.minutes_for(Quantity::Area("10 m2".parse()?)), Some(100));
/// # Ok::<(), grounds_measure::MeasureError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Rate(Quantity);

impl Rate {
    /// A rate of so much per crew-hour; `None` unless it is above zero.
    #[must_use]
    pub fn per_hour(quantity: Quantity) -> Option<Self> {
        (quantity.small() > 0).then_some(Self(quantity))
    }

    /// What one crew does in an hour.
    #[must_use]
    pub fn quantity(self) -> Quantity {
        self.0
    }

    /// What the rate counts.
    #[must_use]
    pub fn kind(self) -> QuantityKind {
        self.0.kind()
    }

    /// Minutes of one crew's work for a quantity, rounded up; `None` if the quantity is of another
    /// kind. Below zero counts as nothing; more than a `u32` holds is its largest value.
    #[must_use]
    pub fn minutes_for(self, work: Quantity) -> Option<u32> {
        if work.kind() != self.kind() {
            return None;
        }
        let minutes = (i128::from(work.small().max(0)) * 60 + i128::from(self.0.small()) - 1)
            / i128::from(self.0.small());
        Some(u32::try_from(minutes).unwrap_or(u32::MAX))
    }
}

impl Written for Rate {
    const WHAT: &'static str = "rate of work";
    const EXAMPLE: &'static str = "a rate per crew-hour like 6 m2/h, 40 ft2/h, 12 m/h or 3 /h";

    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        let at = scan.at();
        let quantity = read_quantity(scan)?;
        scan.skip_space();
        if !scan.eat_any(&['/']) && !scan.eat_word("per") {
            return Err(scan.fault("`/h`"));
        }
        scan.skip_space();
        if !["h", "hr", "hour", "crew-hour"]
            .iter()
            .any(|word| scan.eat_word(word))
        {
            return Err(scan.fault("`h`: rates are per crew-hour"));
        }
        Self::per_hour(quantity).ok_or_else(|| scan.fault_at(at, "a rate above zero"))
    }
}

written_as_string!(Rate, "Rate", "rate");

/// An area or a length, or a number of pieces with or without a word for them.
fn read_quantity(scan: &mut Scanner<'_>) -> Result<Quantity, Fault> {
    scan.clone().number()?;
    if let Some(quantity) = Quantity::read_or_one(scan)? {
        return Ok(quantity);
    }
    let count = Count::read_bare(scan)?;
    scan.skip_space();
    let pieces = ["piece", "pieces"].iter().any(|word| scan.eat_word(word));
    if !pieces && !scan.at_any(&['/']) && !scan.clone().eat_word("per") {
        return Err(scan.fault("m2, ft2, m, ft or pieces, and `/h`"));
    }
    Ok(Quantity::Count(count))
}

impl fmt::Display for Rate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let per = if self.kind() == QuantityKind::Count {
            " /h"
        } else {
            "/h"
        };
        f.pad(&format!("{}{per}", self.0))
    }
}
