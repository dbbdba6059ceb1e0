//! How far material goes.

use crate::amount::Amount;
use crate::error::Fault;
use crate::print::without_one;
use crate::quantity::{Count, Quantity};
use crate::reading::{Scanner, Written, written_as_string};
use crate::{Pack, Percent};
use std::fmt;

/// How far material goes, written either way round: work per material (`10 m2/L`, `350 ft2/gal`,
/// `60 ft2/bag`, `12 m/cartridge`) or material per work (`2.1 kg/m2`, `0.2 L/m`, `4 /m2` for
/// pieces).
///
/// ```
/// use grounds_measure::{Coverage, Quantity};
/// let coat: Coverage = "2.1 kg/m2".parse()?;
/// let wall = Quantity::Area("30 m2".parse()?);
/// assert_eq!(coat.material_for(wall), Some("63 kg".parse()?));
/// # Ok::<(), grounds_measure::MeasureError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Coverage {
    work: Quantity,
    material: Amount,
    order: Order,
}

/// Which way round a coverage is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
enum Order {
    WorkPerMaterial,
    MaterialPerWork,
}

impl Coverage {
    /// So much work from so much material, as in `10 m2/L`; `None` unless both are above zero and
    /// the work is not a count.
    #[must_use]
    pub fn work_per_material(work: Quantity, material: Amount) -> Option<Self> {
        Self::new(work, material, Order::WorkPerMaterial)
    }

    /// So much material for so much work, as in `2.1 kg/m2`; `None` unless both are above zero and
    /// the work is not a count.
    #[must_use]
    pub fn material_per_work(material: Amount, work: Quantity) -> Option<Self> {
        Self::new(work, material, Order::MaterialPerWork)
    }

    fn new(work: Quantity, material: Amount, order: Order) -> Option<Self> {
        let sound = work.small() > 0 && material.small() > 0 && !matches!(work, Quantity::Count(_));
        sound.then_some(Self {
            work,
            material,
            order,
        })
    }

    /// The work that [`Coverage::material`] covers.
    #[must_use]
    pub fn work(self) -> Quantity {
        self.work
    }

    /// The material that covers [`Coverage::work`].
    #[must_use]
    pub fn material(self) -> Amount {
        self.material
    }

    /// The material for a quantity of work, rounded up; `None` if the quantity is of another kind.
    /// Below zero counts as nothing.
    #[must_use]
    pub fn material_for(self, work: Quantity) -> Option<Amount> {
        self.material_with_waste(work, Percent::ZERO)
    }

    /// The same with a share added for cutting and loss.
    ///
    /// ```
    /// use grounds_measure::{Coverage, Quantity};
    /// let tiles: Coverage = "1.08 m2/box".parse()?;
    /// let floor = Quantity::Area("10 m2".parse()?);
    /// let boxes = tiles.material_with_waste(floor, "10 %".parse()?);
    /// assert_eq!(boxes.and_then(|amount| amount.packs_of("1 box".parse().ok()?)), Some(11));
    /// # Ok::<(), grounds_measure::MeasureError>(())
    /// ```
    #[must_use]
    pub fn material_with_waste(self, work: Quantity, waste: Percent) -> Option<Amount> {
        if work.kind() != self.work.kind() {
            return None;
        }
        let whole = i128::from(Percent::WHOLE.hundredths());
        let share = whole + i128::from(waste.hundredths());
        let wanted = i128::from(work.small().max(0)) * share;
        let under = i128::from(self.work.small()) * whole;
        // Both factors can be near 2^63 and 2^80; what does not fit is past any material.
        let small = wanted
            .checked_mul(i128::from(self.material.small()))
            .map_or(i128::MAX, |over| {
                over.div_euclid(under) + i128::from(over.rem_euclid(under) > 0)
            });
        Some(self.material.with_small(small))
    }
}

impl Written for Coverage {
    const WHAT: &'static str = "coverage";
    const EXAMPLE: &'static str = "a coverage like 10 m2/L, 350 ft2/gal, 2.1 kg/m2 or 60 ft2/bag";

    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        let at = scan.at();
        scan.clone().number()?;
        let first = Half::read(scan)?;
        scan.skip_space();
        if !scan.eat_any(&['/']) && !scan.eat_word("per") {
            return Err(scan.fault("`/` and a unit"));
        }
        scan.skip_space();
        let second_at = scan.at();
        let coverage = match (first, Half::read(scan)?) {
            (Half::Work(work), Half::Material(material)) => Self::work_per_material(work, material),
            (Half::Material(material), Half::Work(work)) => Self::material_per_work(material, work),
            (Half::Work(_), Half::Work(_)) => {
                return Err(scan.fault_at(second_at, "a unit of material (L, gal, kg, lb, bag …)"));
            }
            (Half::Material(_), Half::Material(_)) => {
                return Err(scan.fault_at(second_at, "a unit of work (m2, ft2, m, ft)"));
            }
        };
        coverage.ok_or_else(|| scan.fault_at(at, "a coverage above zero"))
    }
}

written_as_string!(Coverage, "Coverage", "coverage");

/// One side of the slash.
enum Half {
    Work(Quantity),
    Material(Amount),
}

impl Half {
    /// Reads a side; a unit alone is one of it, and a number alone before the slash counts pieces.
    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        if let Some(work) = Quantity::read_or_one(scan)? {
            return Ok(Self::Work(work));
        }
        if let Some(material) = Amount::read_or_one(scan)? {
            return Ok(Self::Material(material));
        }
        let mut ahead = scan.clone();
        if ahead.at_number() {
            let count = Count::read_bare(&mut ahead)?;
            ahead.skip_space();
            if ahead.at_any(&['/']) {
                *scan = ahead;
                return Ok(Self::Material(Amount::Packs(Pack::Piece, count)));
            }
        }
        Err(ahead.fault("a unit of work (m2, ft2, m, ft) or of material (L, gal, kg, lb, bag …)"))
    }
}

impl fmt::Display for Coverage {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (work, material) = (self.work.to_string(), self.material.to_string());
        let text = match self.order {
            Order::WorkPerMaterial => format!("{work}/{}", without_one(&material)),
            Order::MaterialPerWork => format!("{material}/{}", without_one(&work)),
        };
        f.pad(&text)
    }
}
