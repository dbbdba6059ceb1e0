//! What is read at an opening.

use super::OpeningFault;

/// The most readings of one opening.
const MOST: usize = 100;

/// A width at a height, or a height at a station.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// Where the tape lay: above the sill for a width, from the left for a height.
    pub at: f64,
    /// What it read.
    pub read: f64,
}

/// What a spirit level or plumb line showed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lean {
    /// Over which length it was read.
    pub over: f64,
    /// How far the far end is off: for a side, its top to the right of its foot; for sill and head,
    /// their right end above their left.
    pub off: f64,
}

/// All readings of an opening. Any may be missing but one width and one height.
///
/// Without a plumb or level reading the shape is turned so that its edges are as plumb and level as
/// they may be.
#[derive(Clone, Debug, PartialEq)]
pub struct Readings {
    /// Widths at heights above the sill.
    pub widths: Vec<Reading>,
    /// Heights at stations from the left.
    pub heights: Vec<Reading>,
    /// From lower left to upper right.
    pub rising: Option<f64>,
    /// From upper left to lower right.
    pub falling: Option<f64>,
    /// The left side.
    pub left: Option<Lean>,
    /// The right side.
    pub right: Option<Lean>,
    /// The sill.
    pub sill: Option<Lean>,
    /// The head.
    pub head: Option<Lean>,
    /// Standard spread of a reading: 1 mm for a tape held with care (common practice).
    pub spread: f64,
    /// Standard spread of the middle of an edge about the straight line between its corners: 2 mm
    /// for finished walls (common practice).
    pub bow: f64,
}

impl Readings {
    /// These widths and heights, the usual spreads, and nothing else.
    #[must_use]
    pub fn new(widths: Vec<Reading>, heights: Vec<Reading>) -> Self {
        Self {
            widths,
            heights,
            rising: None,
            falling: None,
            left: None,
            right: None,
            sill: None,
            head: None,
            spread: 1.0,
            bow: 2.0,
        }
    }

    /// Whether something can be said from them.
    pub(super) fn check(&self) -> Result<(), OpeningFault> {
        if self.widths.is_empty() {
            return Err(OpeningFault::NoWidth);
        }
        if self.heights.is_empty() {
            return Err(OpeningFault::NoHeight);
        }
        if self.widths.len() + self.heights.len() > MOST {
            return Err(OpeningFault::TooMany);
        }
        let above = |value: f64| value.is_finite() && value > 0.0;
        let lengths = self.widths.iter().chain(&self.heights).map(|r| r.read);
        let diagonals = self.rising.into_iter().chain(self.falling);
        let leans = [self.left, self.right, self.sill, self.head];
        let leans = leans.into_iter().flatten();
        let sound = lengths.chain(diagonals).all(above)
            && leans
                .map(|lean| (lean.over, lean.off))
                .all(|(over, off)| above(over) && off.is_finite())
            && above(self.spread)
            && above(self.bow)
            && self
                .widths
                .iter()
                .all(|r| (0.0..=self.tallest()).contains(&r.at))
            && self
                .heights
                .iter()
                .all(|r| (0.0..=self.widest()).contains(&r.at));
        sound.then_some(()).ok_or(OpeningFault::NotAbove)
    }

    pub(super) fn widest(&self) -> f64 {
        self.widths.iter().map(|r| r.read).fold(0.0, f64::max)
    }

    pub(super) fn tallest(&self) -> f64 {
        self.heights.iter().map(|r| r.read).fold(0.0, f64::max)
    }
}
