//! Sizes of rooms, doors, panes and tiles.

use crate::area::Area;
use crate::error::Fault;
use crate::length::{Length, Side, no_unit, read_side};
use crate::print::join_sharing_unit;
use crate::reading::{Scanner, Unit, Written, written_as_string};
use crate::units::Units;
use std::fmt;

/// Two or three lengths above zero: `4.2 m x 3.1 m x 2.6 m`, `34 in x 80 in`, `2' 10" × 6' 8"`,
/// `600 x 300 mm`.
///
/// The order is the writer's: width by height for what stands, length by width by height for a
/// room. A number without unit is in the unit of the last side.
///
/// ```
/// use grounds_measure::{Length, Size};
/// let tile: Size = "600 x 300 mm".parse()?;
/// assert_eq!(tile.first(), Length::from_mm(600));
/// assert_eq!(tile.area().to_string(), "0.18 m2");
/// # Ok::<(), grounds_measure::MeasureError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Size {
    first: Length,
    second: Length,
    third: Option<Length>,
}

const MOST_SIDES: usize = 3;

impl Size {
    /// A size of two or three sides; `None` unless all are above zero.
    #[must_use]
    pub fn new(first: Length, second: Length, third: Option<Length>) -> Option<Self> {
        let size = Self {
            first,
            second,
            third,
        };
        size.sides().all(Length::is_positive).then_some(size)
    }

    /// The first side.
    #[must_use]
    pub fn first(self) -> Length {
        self.first
    }

    /// The second side.
    #[must_use]
    pub fn second(self) -> Length {
        self.second
    }

    /// The third side, if there is one.
    #[must_use]
    pub fn third(self) -> Option<Length> {
        self.third
    }

    /// The sides in order.
    pub fn sides(self) -> impl Iterator<Item = Length> {
        [self.first, self.second].into_iter().chain(self.third)
    }

    /// First side by second side.
    #[must_use]
    pub fn area(self) -> Area {
        Area::of(self.first, self.second)
    }

    /// Prints for people in the job's units: `2' 10" × 6' 8"`.
    #[must_use]
    pub fn display(self, units: Units) -> impl fmt::Display {
        let sides: Vec<String> = self
            .sides()
            .map(|side| side.display(units).to_string())
            .collect();
        join_sharing_unit(&sides, " × ")
    }
}

impl Written for Size {
    const WHAT: &'static str = "size";
    const EXAMPLE: &'static str =
        "a size like 600 x 300 mm, 34 in x 80 in or 4.2 m x 3.1 m x 2.6 m";

    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        let mut sides = vec![(scan.at(), read_side(scan)?)];
        scan.skip_space();
        while sides.len() < MOST_SIDES && eat_by(scan) {
            scan.skip_space();
            sides.push((scan.at(), read_side(scan)?));
            scan.skip_space();
        }
        let unit = match sides.last() {
            _ if sides.len() < 2 => return Err(scan.fault("`x` and another length")),
            Some((_, Side::Whole { unit, .. })) => *unit,
            _ => return Err(no_unit(scan)),
        };
        let lengths: Vec<Length> = sides
            .iter()
            .map(|side| settle(scan, *side, unit))
            .collect::<Result<_, _>>()?;
        match lengths[..] {
            [first, second] => Ok(Self {
                first,
                second,
                third: None,
            }),
            [first, second, third] => Ok(Self {
                first,
                second,
                third: Some(third),
            }),
            _ => Err(scan.fault("two or three lengths")),
        }
    }
}

written_as_string!(Size, "Size", "size");

/// A side as a length above zero; a bare number is in the unit of the last side, if that has just
/// one.
fn settle(
    scan: &Scanner<'_>,
    (at, side): (usize, Side),
    unit: Option<&'static Unit>,
) -> Result<Length, Fault> {
    let length = match (side, unit) {
        (Side::Whole { length, .. }, _) => length,
        (Side::Bare(number), Some(unit)) => number.of(scan, unit)?,
        (Side::Bare(_), None) => return Err(scan.fault_at(at, "a length with its unit")),
    };
    let above_zero = length.is_positive().then_some(length);
    above_zero.ok_or_else(|| scan.fault_at(at, "a length above zero"))
}

fn eat_by(scan: &mut Scanner<'_>) -> bool {
    scan.eat_any(&['x', 'X', '×']) || scan.eat_word("by")
}

impl fmt::Display for Size {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sides: Vec<String> = self.sides().map(|side| side.to_string()).collect();
        f.pad(&join_sharing_unit(&sides, " x "))
    }
}
