//! Thicknesses with their tolerances.

use crate::error::Fault;
use crate::length::{Length, Side, no_unit, read_side};
use crate::reading::{Scanner, Unit, Written, written_as_string};
use std::fmt;

/// A thickness and how far the finished work may depart from it.
///
/// Reads `12 mm ±1.5`, `12 mm +-1.5 mm`, `12 mm +2/-1`, `1/2" ±1/32"` and `12 mm` alone, which has
/// no tolerance. A tolerance without a unit is in the unit of the thickness.
///
/// ```
/// use grounds_measure::{Length, Thickness};
/// let coat: Thickness = "12 mm +2/-1".parse()?;
/// assert_eq!((coat.least(), coat.most()), (Length::from_mm(11), Length::from_mm(14)));
/// # Ok::<(), grounds_measure::MeasureError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Thickness {
    nominal: Length,
    plus: Length,
    minus: Length,
}

impl Thickness {
    /// A thickness with its tolerances above and below; `None` if any of the three is below zero or
    /// the tolerance below is more than the thickness.
    #[must_use]
    pub fn new(nominal: Length, plus: Length, minus: Length) -> Option<Self> {
        let sound = !plus.is_negative() && !minus.is_negative() && minus <= nominal;
        sound.then_some(Self {
            nominal,
            plus,
            minus,
        })
    }

    /// The thickness aimed at.
    #[must_use]
    pub fn nominal(self) -> Length {
        self.nominal
    }

    /// How much thicker it may be, never below zero.
    #[must_use]
    pub fn plus(self) -> Length {
        self.plus
    }

    /// How much thinner it may be, never below zero and never more than the thickness.
    #[must_use]
    pub fn minus(self) -> Length {
        self.minus
    }

    /// The thinnest it may be.
    #[must_use]
    pub fn least(self) -> Length {
        self.nominal - self.minus
    }

    /// The thickest it may be.
    #[must_use]
    pub fn most(self) -> Length {
        self.nominal + self.plus
    }
}

impl Written for Thickness {
    const WHAT: &'static str = "thickness";
    const EXAMPLE: &'static str = "a thickness like 12 mm ±1.5, 12 mm +2/-1 or 1/2\" ±1/32\"";

    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        let at = scan.at();
        let Side::Whole {
            length: nominal,
            unit,
        } = read_side(scan)?
        else {
            return Err(no_unit(scan));
        };
        let (plus, minus) = read_tolerance(scan, unit)?;
        Self::new(nominal, plus, minus)
            .ok_or_else(|| scan.fault_at(at, "a thickness not below zero, even at its thinnest"))
    }
}

written_as_string!(Thickness, "Thickness", "thickness");

/// The tolerances above and below after a thickness; both zero if there are none.
fn read_tolerance(
    scan: &mut Scanner<'_>,
    unit: Option<&'static Unit>,
) -> Result<(Length, Length), Fault> {
    scan.skip_space();
    if scan.at_end() {
        return Ok((Length::ZERO, Length::ZERO));
    }
    if scan.eat_any(&['±']) || scan.eat_word("+-") || scan.eat_word("+/-") {
        let both = read_part(scan, unit)?;
        return Ok((both, both));
    }
    if !scan.eat_any(&['+']) {
        return Err(scan.fault("a tolerance like ±1.5 or +2/-1, or nothing more"));
    }
    let plus = read_part(scan, unit)?;
    scan.skip_space();
    scan.eat_any(&['/']);
    scan.skip_space();
    if !scan.eat_any(&['-', '−']) {
        return Err(scan.fault("the tolerance below, like /-1"));
    }
    Ok((plus, read_part(scan, unit)?))
}

/// One tolerance without sign, in the thickness's unit if it has none of its own.
fn read_part(scan: &mut Scanner<'_>, unit: Option<&'static Unit>) -> Result<Length, Fault> {
    scan.skip_space();
    if !scan.at_number() {
        return Err(scan.fault("a tolerance without a sign of its own"));
    }
    match (read_side(scan)?, unit) {
        (Side::Whole { length, .. }, _) => Ok(length),
        (Side::Bare(number), Some(unit)) => number.of(scan, unit),
        (Side::Bare(_), None) => Err(scan.fault("a unit after the tolerance")),
    }
}

impl fmt::Display for Thickness {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.plus == Length::ZERO && self.minus == Length::ZERO {
            return self.nominal.fmt(f);
        }
        let nominal = self.nominal;
        let text = if self.plus == self.minus {
            format!("{nominal} ±{}", self.plus)
        } else {
            format!("{nominal} +{}/-{}", self.plus, self.minus)
        };
        f.pad(&text)
    }
}
