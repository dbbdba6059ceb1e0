//! Prices: a sum of money for one of something.

use crate::amount::Amount;
use crate::error::Fault;
use crate::money::Money;
use crate::print::without_one;
use crate::quantity::Quantity;
use crate::reading::{Scanner, Written, written_as_string};
use std::fmt;

/// A price: each (`12.50`), by time (`55 /h`, `480 /day`), by work (`18.40 /m2`, `6 /ft`) or by
/// material (`4.20 /L`, `31 /bag`, `89.00 /15 L`).
///
/// ```
/// use grounds_measure::{Money, Price};
/// let paint: Price = "89.00 /15 L".parse()?;
/// assert_eq!(paint.cost_of_material("5 L".parse()?), Some(Money::from_cents(2967)));
/// # Ok::<(), grounds_measure::MeasureError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Price {
    money: Money,
    per: Per,
}

/// What a price is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Per {
    /// One piece, or the whole.
    Each,
    /// One hour of a crew.
    Hour,
    /// One day.
    Day,
    /// So much work.
    Work(Quantity),
    /// So much material.
    Material(Amount),
}

impl Price {
    /// A price; `None` when it is for no work or no material at all.
    #[must_use]
    pub fn new(money: Money, per: Per) -> Option<Self> {
        let sound = match per {
            Per::Each | Per::Hour | Per::Day => true,
            Per::Work(work) => work.small() > 0,
            Per::Material(material) => material.small() > 0,
        };
        sound.then_some(Self { money, per })
    }

    /// A price for one piece, or for the whole.
    #[must_use]
    pub fn each(money: Money) -> Self {
        Self {
            money,
            per: Per::Each,
        }
    }

    /// The sum.
    #[must_use]
    pub fn money(self) -> Money {
        self.money
    }

    /// What the sum is for.
    #[must_use]
    pub fn per(self) -> Per {
        self.per
    }

    /// The cost of so much work, rounded up to a cent; `None` if the price is not by that kind of
    /// work.
    #[must_use]
    pub fn cost_of_work(self, work: Quantity) -> Option<Money> {
        match self.per {
            Per::Work(per) if per.kind() == work.kind() => {
                Some(self.in_proportion(work.small(), per.small()))
            }
            _ => None,
        }
    }

    /// The cost of so much material, rounded up to a cent; `None` if the price is not by that kind
    /// of material.
    #[must_use]
    pub fn cost_of_material(self, material: Amount) -> Option<Money> {
        match self.per {
            Per::Material(per) if per.is_like(material) => {
                Some(self.in_proportion(material.small(), per.small()))
            }
            _ => None,
        }
    }

    /// The cost of so many minutes, rounded up to a cent; `None` unless the price is by the hour.
    #[must_use]
    pub fn cost_of_minutes(self, minutes: u32) -> Option<Money> {
        (self.per == Per::Hour).then(|| self.in_proportion(i64::from(minutes), 60))
    }

    /// The sum × `over` / `under`, rounded up.
    fn in_proportion(self, over: i64, under: i64) -> Money {
        let scaled = i128::from(self.money.cents()) * i128::from(over.max(0));
        let under = i128::from(under);
        let cents = scaled.div_euclid(under) + i128::from(scaled.rem_euclid(under) > 0);
        let most = if cents < 0 { i64::MIN } else { i64::MAX };
        Money::from_cents(i64::try_from(cents).unwrap_or(most))
    }
}

impl Written for Price {
    const WHAT: &'static str = "price";
    const EXAMPLE: &'static str =
        "a price like 12.50, 55 /h, 18.40 /m2 or 31 /bag, without a currency sign";

    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        let money = Money::read(scan)?;
        scan.skip_space();
        if scan.at_end() {
            return Ok(Self::each(money));
        }
        if !scan.eat_any(&['/']) && !scan.eat_word("per") {
            return Err(scan.fault("`/` and a unit, or nothing more"));
        }
        scan.skip_space();
        let at = scan.at();
        let per = Per::read(scan)?;
        Self::new(money, per).ok_or_else(|| scan.fault_at(at, "more than nothing for the money"))
    }
}

written_as_string!(Price, "Price", "price");

impl Per {
    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        if ["h", "hr", "hour"].iter().any(|word| scan.eat_word(word)) {
            return Ok(Self::Hour);
        }
        if scan.eat_word("day") {
            return Ok(Self::Day);
        }
        if scan.eat_word("each") {
            return Ok(Self::Each);
        }
        if let Some(work) = Quantity::read_or_one(scan)? {
            return Ok(Self::Work(work));
        }
        match Amount::read_or_one(scan)? {
            Some(material) => Ok(Self::Material(material)),
            None => Err(scan.fault("h, day, each, m2, ft2, m, ft, L, gal, kg, lb, bag, box …")),
        }
    }
}

impl fmt::Display for Price {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let per = match self.per {
            Per::Each => return self.money.fmt(f),
            Per::Hour => "h".to_owned(),
            Per::Day => "day".to_owned(),
            Per::Work(work) => work.to_string(),
            Per::Material(material) => material.to_string(),
        };
        f.pad(&format!("{} /{}", self.money, without_one(&per)))
    }
}
