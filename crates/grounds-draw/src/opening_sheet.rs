//! The sheet of an opening: where to put the tape, what it read, what goes in and what to order.

use crate::medium::Units;

/// An opening as measured. Positions are millimetres from the foot of its left side: across to the right, up.
#[derive(Debug, Clone, PartialEq)]
pub struct OpeningSheet {
    /// Which opening ("Wheel room, glazed screen").
    pub title: String,
    /// The whole of it in words, for those who hear it.
    pub said: String,
    /// What the scale bar is divided in.
    pub units: Units,
    /// Its corners: foot left, foot right, head right, head left, as `(across, up)`.
    pub corners: [(f64, f64); 4],
    /// Widths, with the height each is taken at.
    pub widths: Vec<TapeReading>,
    /// Heights, with the distance from the left each is taken at.
    pub heights: Vec<TapeReading>,
    /// From foot left to head right, in words, or empty if not taken yet.
    pub rising_diagonal: String,
    /// From head left to foot right, in words, or empty if not taken yet.
    pub falling_diagonal: String,
    /// Sides out of plumb, sill and head out of level, in sentences ("left side leans in 4 over 2100").
    pub plumb_and_level: Vec<String>,
    /// The largest upright rectangle that goes in.
    pub largest: Option<Rectangle>,
    /// The size to order, as it sits in the opening.
    pub order: Option<Rectangle>,
    /// "1,184 × 2,065", or empty.
    pub order_words: String,
    /// Clear edges around the size to order.
    pub clear: EdgeClearances,
}

/// One reading of the tape.
#[derive(Debug, Clone, PartialEq)]
pub struct TapeReading {
    /// Where the tape is held, in millimetres: up for a width, across for a height.
    pub at: f64,
    /// What it read, in the job's units; empty if it is still to be taken.
    pub words: String,
    /// Whether it disagrees with the others and is to be taken again.
    pub doubtful: bool,
}

/// An upright rectangle in an opening, in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rectangle {
    /// Its left side.
    pub left: f64,
    /// Its foot.
    pub foot: f64,
    /// Its width, above zero.
    pub width: f64,
    /// Its height, above zero.
    pub height: f64,
}

/// Clear edges around a size to order, in words; empty ones are not lettered.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct EdgeClearances {
    /// At the left.
    pub left: String,
    /// At the right.
    pub right: String,
    /// At the head.
    pub head: String,
    /// At the foot.
    pub foot: String,
}
