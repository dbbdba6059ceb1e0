//! A flight of stairs with the floor finishes at its foot and head, and the figure of each rise.

use crate::hatch::Hatch;
use crate::verdict::Verdict;

/// A flight, drawn from its foot at the left to its head at the right. Lengths are millimetres.
#[derive(Debug, Clone, PartialEq)]
pub struct StairLayout {
    /// Which flight.
    pub title: String,
    /// The whole of it in words, for those who hear it.
    pub said: String,
    /// The rises from the lowest up, each from one finished surface to the next.
    pub rises: Vec<Rise>,
    /// Depth of each tread, from nosing to nosing.
    pub going: f64,
    /// Its figure.
    pub going_words: String,
    /// The floor at the foot.
    pub below: FloorFinish,
    /// The floor at the head.
    pub above: FloorFinish,
    /// The finish on the treads.
    pub treads: FloorFinish,
    /// From finished floor to finished floor, in words.
    pub total_words: String,
    /// "largest less smallest 3/4; at most 3/8".
    pub difference_words: String,
    /// Whether the difference will do.
    pub verdict: Verdict,
}

/// One rise.
#[derive(Debug, Clone, PartialEq)]
pub struct Rise {
    /// Its height, above zero.
    pub height: f64,
    /// Its figure.
    pub words: String,
    /// Whether it is one of those that make the difference: marked with a ring and heavy lettering.
    pub marked: bool,
}

/// What lies on a floor or tread.
#[derive(Debug, Clone, PartialEq)]
pub struct FloorFinish {
    /// "oak boards 3/4", or empty.
    pub words: String,
    /// Its thickness; zero if there is none.
    pub thickness: f64,
    /// Its material.
    pub hatch: Hatch,
}
