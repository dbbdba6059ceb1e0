//! The size to order, and whether a size on order goes in.

use grounds_measure::{Length, Rounding, Step};

use super::{Rectangle, Sides, Survey, largest_rectangle, room_around};
use crate::luck::Luck;

/// The room to leave at each edge of a piece, in mm.
pub type Clearance = Sides;

/// How many openings are drawn for a chance: its own error is then at most about one in a hundred.
const DRAWN: usize = 2_000;

/// A size to order.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Order {
    /// Its width, rounded down to the step.
    pub width: Length,
    /// Its height, rounded down to the step.
    pub height: Length,
    /// The largest upright rectangle that it was taken from.
    pub opening: Rectangle,
}

/// The largest upright piece with its clearances in an opening, its sides rounded down to what the
/// maker cuts in. `None` where nothing is left.
///
/// Rounding is down, so that what is left at the edges is never less than the clearances. Order
/// after the finish is on and from readings of the finished opening, and let whoever makes the
/// piece measure himself where the piece cannot be cut again.
///
/// ```
/// use grounds_fit::opening::{Clearance, Reading, Readings, Survey, order};
/// use grounds_measure::{Length, Step};
/// let read = |at, read| Reading { at, read };
/// let survey = Survey::of(&Readings::new(vec![read(1000.0, 900.5)], vec![read(450.0, 2000.9)]))?;
/// let order = order(&survey, Clearance::all(3.0), Step::MM).unwrap();
/// assert_eq!((order.width, order.height), (Length::from_mm(894), Length::from_mm(1994)));
/// # Ok::<(), grounds_fit::opening::OpeningFault>(())
/// ```
#[must_use]
pub fn order(survey: &Survey, clearance: Clearance, step: Step) -> Option<Order> {
    let opening = largest_rectangle(survey.outline())?.rectangle;
    let width = rounded_down(opening.width - clearance.left - clearance.right, step)?;
    let height = rounded_down(opening.height - clearance.sill - clearance.head, step)?;
    Some(Order {
        width,
        height,
        opening,
    })
}

/// A computed length in whole steps below it; `None` unless something is left.
pub(super) fn rounded_down(mm: f64, step: Step) -> Option<Length> {
    // What computing leaves of a whole step, some 1e-9 mm, vanishes in the length's own unit.
    let down = Length::from_mm_f64(mm)?.round_to(step, Rounding::Down);
    down.is_positive().then_some(down)
}

/// A size that is on order, as it is made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Made {
    /// Its width in mm.
    pub width: f64,
    /// Its height in mm.
    pub height: f64,
    /// Standard spread of both as made: a third of the maker's tolerance.
    pub spread: f64,
}

/// Whether a size goes in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit {
    /// The room left at every edge alike beyond the clearances, at the best place; below zero by how
    /// much each edge is short.
    pub spare: f64,
    /// The chance that it goes in with its clearances, from 0 to 1.
    pub chance: f64,
}

impl Made {
    /// Whether it goes in upright with its clearances: what is spare at the likeliest shape, and
    /// the chance over openings and sizes drawn as readings and maker leave them open. The same seed
    /// gives the same chance.
    ///
    /// ```
    /// use grounds_fit::opening::{Clearance, Made, Reading, Readings, Survey};
    /// let read = |at, read| Reading { at, read };
    /// let survey = Survey::of(&Readings::new(vec![read(1000.0, 900.0)], vec![read(450.0, 2000.0)]))?;
    /// let fit = Made { width: 894.0, height: 1994.0, spread: 0.5 }.fits(&survey, Clearance::all(3.0), 1);
    /// assert!(fit.spare.abs() < 1e-6);
    /// assert!(fit.chance < 0.5, "nobody knows yet whether the sides are plumb");
    /// # Ok::<(), grounds_fit::opening::OpeningFault>(())
    /// ```
    #[must_use]
    pub fn fits(&self, survey: &Survey, clearance: Clearance, seed: u64) -> Fit {
        let with = |width: f64, height: f64| {
            (
                width + clearance.left + clearance.right,
                height + clearance.sill + clearance.head,
            )
        };
        let (width, height) = with(self.width, self.height);
        let spare = room_around(survey.outline(), width, height)
            .map_or(f64::NEG_INFINITY, |(room, _)| room);
        let mut luck = Luck::new(seed);
        let fitting = (0..DRAWN)
            .filter(|_| {
                let mut made = |size: f64| size + self.spread * luck.normal();
                let (width, height) = with(made(self.width), made(self.height));
                survey.takes(width, height, &mut luck)
            })
            .count();
        #[expect(clippy::cast_precision_loss, reason = "a few thousand at most")]
        let chance = fitting as f64 / DRAWN as f64;
        Fit { spare, chance }
    }
}
