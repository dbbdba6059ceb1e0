//! What to cut from each length of stock.

use crate::hatch::Hatch;

/// Stock lengths with their cuts. Lengths are millimetres.
#[derive(Debug, Clone, PartialEq)]
pub struct CutLayout {
    /// What is cut.
    pub title: String,
    /// The whole of it in words, for those who hear it.
    pub said: String,
    /// Material of the stock.
    pub hatch: Hatch,
    /// Width of the saw cut.
    pub kerf: f64,
    /// The patterns.
    pub stocks: Vec<StockLength>,
}

/// One pattern of cuts.
#[derive(Debug, Clone, PartialEq)]
pub struct StockLength {
    /// "3 lengths of 4,800".
    pub words: String,
    /// Length of the stock, above zero.
    pub length: f64,
    /// The cuts, from one end.
    pub cuts: Vec<StockCut>,
    /// What is left, in words ("left 212"), or empty.
    pub offcut_words: String,
}

/// One piece cut from a length.
#[derive(Debug, Clone, PartialEq)]
pub struct StockCut {
    /// Its length.
    pub length: f64,
    /// Its figure, and its name if it has one ("2,318 head").
    pub words: String,
}
