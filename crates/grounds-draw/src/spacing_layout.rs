//! Boards, tiles, balusters or slats along a run, with the cuts at both ends and the gaps dimensioned.

use crate::hatch::Hatch;
use crate::medium::Units;

/// A run of equal parts. Positions are millimetres from its left end.
#[derive(Debug, Clone, PartialEq)]
pub struct SpacingLayout {
    /// What is set out.
    pub title: String,
    /// The whole of it in words, for those who hear it.
    pub said: String,
    /// What the scale bar is divided in.
    pub units: Units,
    /// Length of the run.
    pub run: f64,
    /// Its figure.
    pub run_words: String,
    /// Material of the parts.
    pub hatch: Hatch,
    /// What is set out, from left to right, gaps and joints among it.
    pub parts: Vec<SpacingPart>,
    /// What is to be said under it ("17 balusters, 16 gaps of 98, each under 100").
    pub notes: Vec<String>,
}

/// One thing along a run.
#[derive(Debug, Clone, PartialEq)]
pub struct SpacingPart {
    /// What it is.
    pub kind: SpacingKind,
    /// Where it begins.
    pub from: f64,
    /// Where it ends, beyond `from`.
    pub to: f64,
    /// Its figure.
    pub words: String,
}

/// Kinds of things along a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SpacingKind {
    /// A whole piece.
    Whole,
    /// A piece cut to fit.
    Cut,
    /// A gap or joint.
    Gap,
}
