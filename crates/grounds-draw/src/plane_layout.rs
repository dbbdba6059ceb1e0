//! Pieces that must line up: how far each stands off the plane, and its shim.

use crate::verdict::Verdict;

/// Points on pieces that are meant to be in one plane. Lengths are millimetres.
#[derive(Debug, Clone, PartialEq)]
pub struct PlaneLayout {
    /// Which plane.
    pub title: String,
    /// The whole of it in words, for those who hear it.
    pub said: String,
    /// "plane of the stair glass".
    pub plane_words: String,
    /// The pieces, in order (from the top down if they are above each other).
    pub pieces: Vec<PlanePiece>,
    /// How far off the eye begins to see it, above zero; none if nobody set it.
    pub limit: Option<f64>,
    /// Its words ("the eye sees 2"), or empty.
    pub limit_words: String,
}

/// One piece along a plane.
#[derive(Debug, Clone, PartialEq)]
pub struct PlanePiece {
    /// What it is, and where ("upper grille, loft").
    pub name: String,
    /// How far it stands off the plane, towards the room above zero.
    pub off: f64,
    /// Its words ("2.1 behind").
    pub off_words: String,
    /// Thickness of the shim behind it, zero if none.
    pub shim: f64,
    /// Its words ("shim 2"), or empty.
    pub shim_words: String,
    /// Whether it will do as it stands.
    pub verdict: Verdict,
}
