//! Measures that are a number and a unit from a table.

use super::{Number, Scanner};
use crate::error::Fault;

/// A unit: how it may be spelt and how many of the measure's small units it is.
#[derive(Debug)]
pub(crate) struct Unit {
    /// All spellings; the first is the one shown in errors.
    pub(crate) spellings: &'static [&'static str],
    /// Small units in one of this unit.
    pub(crate) each: i64,
    /// Small units at the zero of this unit; only temperatures have one that is not 0.
    pub(crate) zero: i64,
    /// Whether a lone comma as in `1,032` surely parts thousands. With large units it may be meant
    /// as a decimal comma, and a thousandfold error is too dear to guess.
    pub(crate) comma_parts_thousands: bool,
}

impl Unit {
    /// A unit in which `1,032` is surely a thousand and thirty-two.
    pub(crate) const fn new(spellings: &'static [&'static str], each: i64) -> Self {
        Self {
            spellings,
            each,
            zero: 0,
            comma_parts_thousands: true,
        }
    }

    /// A unit so large that `1,032` could be meant as 1.032.
    pub(crate) const fn large(spellings: &'static [&'static str], each: i64) -> Self {
        Self {
            spellings,
            each,
            zero: 0,
            comma_parts_thousands: false,
        }
    }

    /// The fault of a lone comma before a large unit, if this is one.
    pub(crate) fn refuse_lone_comma(&self, scan: &Scanner<'_>, at: usize) -> Result<(), Fault> {
        if self.comma_parts_thousands {
            return Ok(());
        }
        let unit = self.name();
        let expected = format!("1.032 {unit} or 1032 {unit}, since a lone comma could mean either");
        Err(scan.fault_at(at, expected))
    }

    /// The first spelling.
    pub(crate) fn name(&self) -> &'static str {
        self.spellings.first().copied().unwrap_or_default()
    }
}

/// A measure kept as a whole number of small units and written as a number and a unit.
pub(crate) trait Scaled: Sized {
    /// The units it can be written in.
    const UNITS: &'static [Unit];
    /// The smallest and the largest value that is read, in small units.
    const RANGE: (i64, i64);
    /// What a value past the range should have been.
    const RANGE_SAID: &'static str;
    /// What a value finer than the small unit should have been; `None` to take the nearest instead.
    const FINEST_SAID: Option<&'static str>;

    /// The measure of this many small units, which are inside the range.
    fn from_small(small: i64) -> Self;

    /// The unit that stands at the cursor, if any.
    fn eat_unit(scan: &mut Scanner<'_>) -> Option<&'static Unit> {
        let mut ahead = scan.clone();
        ahead.skip_space();
        let unit = ahead.eat_spelling(Self::UNITS, |unit| unit.spellings)?;
        *scan = ahead;
        Some(unit)
    }

    /// The unit at the cursor, or the fault that there is none.
    fn expect_unit(scan: &mut Scanner<'_>) -> Result<&'static Unit, Fault> {
        if let Some(unit) = Self::eat_unit(scan) {
            return Ok(unit);
        }
        scan.skip_space();
        let names: Vec<&str> = Self::UNITS.iter().map(Unit::name).collect();
        Err(scan.fault(format!("a unit ({})", names.join(", "))))
    }

    /// Joins a number, its sign and its unit.
    fn from_parts(scan: &Scanner<'_>, number: Signed, unit: &Unit) -> Result<Self, Fault> {
        if number.number.one_comma {
            unit.refuse_lone_comma(scan, number.at)?;
        }
        let value = if number.negative {
            number.number.value.negated()
        } else {
            number.number.value
        };
        let small = match Self::FINEST_SAID {
            Some(finest) => value.whole(unit.each).ok_or(finest),
            None => value.nearest(unit.each).ok_or(Self::RANGE_SAID),
        };
        let small = small.map_err(|said| scan.fault_at(number.at, said))?;
        let (lowest, highest) = Self::RANGE;
        i64::try_from(small + i128::from(unit.zero))
            .ok()
            .filter(|small| (lowest..=highest).contains(small))
            .map(Self::from_small)
            .ok_or_else(|| scan.fault_at(number.at, Self::RANGE_SAID))
    }
}

/// A number with its sign.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Signed {
    at: usize,
    negative: bool,
    number: Number,
}

impl Signed {
    pub(crate) fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        scan.skip_space();
        let at = scan.at();
        let negative = scan.negative();
        scan.skip_space();
        Ok(Self {
            at,
            negative,
            number: scan.number()?,
        })
    }
}

/// Reads one number and its unit.
pub(crate) fn read_scaled<T: Scaled>(scan: &mut Scanner<'_>) -> Result<T, Fault> {
    let number = Signed::read(scan)?;
    let unit = T::expect_unit(scan)?;
    T::from_parts(scan, number, unit)
}

/// Reads a number and a unit, or a unit alone as one of it; `None`, and nothing passed over, if
/// neither stands here. Once the unit is this measure's own, a fault in the number is a fault.
pub(crate) fn read_scaled_or_one<T: Scaled>(scan: &mut Scanner<'_>) -> Result<Option<T>, Fault> {
    let mut ahead = scan.clone();
    if !ahead.at_number() {
        return Ok(T::eat_unit(scan).map(|unit| T::from_small(unit.each)));
    }
    ahead.number()?;
    if T::eat_unit(&mut ahead).is_none() {
        return Ok(None);
    }
    read_scaled(scan).map(Some)
}
