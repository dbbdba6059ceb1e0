//! Boards side by side over a year: the gaps that open, and the room they need at the walls.

use super::movement::change;

/// The least and the most moisture in percent that the boards come to over a year.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Year {
    /// In the driest weeks, usually late winter.
    pub driest: f64,
    /// In the dampest weeks, usually late summer.
    pub dampest: f64,
}

/// Boards of one width, side by side and tight, laid at one moisture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Floor {
    /// Width of a board as laid, in mm.
    pub board: f64,
    /// How many lie side by side.
    pub boards: usize,
    /// Change of width per percent of moisture, as a fraction.
    pub coefficient: f64,
    /// Moisture of the boards when laid, in percent.
    pub laid_at: f64,
}

/// What a floor does over a year, in mm, none below zero.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moved {
    /// The gap beside each board in the driest weeks, if each shrinks about its own middle, as
    /// nailed boards do.
    pub gap: f64,
    /// How much wider the whole field wants to be in the dampest weeks.
    pub growth: f64,
    /// The room at each of both edges that takes up that growth if the field grows about its middle.
    /// Boards that are fixed at one edge need all of the growth at the other.
    pub edge: f64,
}

impl Floor {
    /// What the floor does over a year. Boards meet face to face, so that growth adds up across the
    /// room while gaps do not.
    ///
    /// Growth neglects what nails, glue and crushed edges hold back: it is the most that can come.
    ///
    /// ```
    /// use grounds_fit::wood::{Floor, Year};
    /// // Seven-inch white oak, sawn flat, thirty boards, laid at 8 %.
    /// let floor = Floor { board: 177.8, boards: 30, coefficient: 0.00365, laid_at: 8.0 };
    /// let moved = floor.over(Year { driest: 6.0, dampest: 10.0 });
    /// assert!((moved.gap - 1.298).abs() < 0.001);
    /// assert!((moved.edge - 19.469).abs() < 0.001);
    /// ```
    #[must_use]
    pub fn over(&self, year: Year) -> Moved {
        let each = |to| change(self.board, self.coefficient, self.laid_at, to);
        #[expect(clippy::cast_precision_loss, reason = "a floor has few boards")]
        let growth = each(year.dampest).max(0.0) * self.boards as f64;
        Moved {
            gap: (-each(year.driest)).max(0.0),
            growth,
            edge: growth / 2.0,
        }
    }
}
