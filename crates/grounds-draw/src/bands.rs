//! The small picture of a need: the range that is wanted, and where it will land.

use crate::verdict::Verdict;

/// A need, as drawn on a list. All figures are millimetres of the distance that is wanted.
#[derive(Debug, Clone, PartialEq)]
pub struct Bands {
    /// What is heard: "Reveal at the stair glass: wanted 6 to 10, lands at 7.2".
    pub said: String,
    /// The least that is wanted; none if there is no least.
    pub least: Option<f64>,
    /// The most that is wanted; none if there is no most.
    pub most: Option<f64>,
    /// Where it most likely lands.
    pub lands: f64,
    /// Nineteen in twenty land between these two.
    pub likely: (f64, f64),
    /// The worst cases.
    pub worst: (f64, f64),
    /// Whether it holds.
    pub verdict: Verdict,
}
