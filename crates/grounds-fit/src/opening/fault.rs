//! Openings that nothing can be said about.

use thiserror::Error;

/// What is wrong with readings or an outline.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum OpeningFault {
    /// No width was read.
    #[error("no width of the opening: give one, better three at bottom, middle and top")]
    NoWidth,
    /// No height was read.
    #[error("no height of the opening: give one, better three at left, middle and right")]
    NoHeight,
    /// A reading is no number above zero, or lies outside the opening.
    #[error("a reading of the opening is not above zero or lies outside it")]
    NotAbove,
    /// There are more readings than anyone takes.
    #[error("more than 100 readings of one opening")]
    TooMany,
    /// The readings contradict each other so much that no shape comes of them.
    #[error("no shape comes of these readings: measure the diagonals and widths again")]
    NoShape,
    /// The corners of an outline are fewer than three or more than 200, not numbers, or its edges
    /// cross.
    #[error("an outline needs 3 to 200 corners, all numbers, and edges that do not cross")]
    BadOutline,
}
