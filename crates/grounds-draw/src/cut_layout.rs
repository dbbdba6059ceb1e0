//! What to cut from each length of stock.

use crate::dimension_string::{Span, across};
use crate::hatch::{Hatch, Tone, fill};
use crate::medium::Medium;
use crate::sheet::{Anchor, Sheet};

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

/// Height of a length of stock, in pixels.
const STOCK: f64 = 34.0;

/// Stock lengths under each other to one scale, each with its cuts, their figures and what is left: cuts are hatched,
/// the rest is bare and dashed. Needs [`hatch_defs`](crate::hatch_defs). Empty without a sound length.
#[must_use]
pub fn cut_layout(layout: &CutLayout, medium: Medium) -> String {
    let mut sheet = Sheet::new(medium);
    let mut y = sheet.heading(&layout.title);
    let is_sound = |length: f64| length.is_finite() && length > 0.0 && length < 1e6;
    let stocks: Vec<&StockLength> = layout
        .stocks
        .iter()
        .filter(|stock| is_sound(stock.length) && stock.cuts.iter().all(|cut| is_sound(cut.length)))
        .take(200)
        .collect();
    let longest = stocks.iter().map(|stock| stock.length).fold(0.0, f64::max);
    if longest <= 0.0 {
        return String::new();
    }
    let px = (medium.width() - 8.0) / longest;
    for stock in stocks {
        y = draw_stock(&mut sheet, layout, stock, px, y) + 14.0;
    }
    sheet.done("fit-cuts", &layout.title, &layout.said, y)
}

/// One length from `y` down; returns its foot.
fn draw_stock(sheet: &mut Sheet, layout: &CutLayout, stock: &StockLength, px: f64, y: f64) -> f64 {
    let (size, line) = (sheet.medium.size(), sheet.medium.line());
    let right = sheet.medium.width() - 2.0;
    let left_over = sheet.fitted(&stock.offcut_words, right * 0.45);
    let words = sheet.fitted(&stock.words, right - sheet.wide(&left_over) - 14.0);
    sheet.letter("fit-name", Anchor::Start, 4.0, y + size * 0.86, &words);
    sheet.letter("fit-note", Anchor::End, right, y + size * 0.86, &left_over);
    let top = y + line + 2.0;
    let end = 4.0 + stock.length * px;
    sheet.block("fit-rest", (4.0, top), (end, top + STOCK), None);
    let kerf = if layout.kerf.is_finite() {
        layout.kerf.max(0.0)
    } else {
        0.0
    };
    let mut at = 0.0;
    let mut spans = Vec::new();
    for cut in stock.cuts.iter().take(60) {
        let to = (at + cut.length).min(stock.length);
        if to <= at {
            break;
        }
        let (from_x, to_x) = (4.0 + at * px, 4.0 + to * px);
        let hatch = fill(layout.hatch, Tone::Bare);
        sheet.block(
            "fit-layer built",
            (from_x, top),
            (to_x, top + STOCK),
            Some(&hatch),
        );
        sheet.line("fit-saw", (to_x, top - 3.0), (to_x, top + STOCK + 3.0));
        spans.push(Span {
            from: from_x,
            to: to_x,
            figure: cut.words.clone(),
            tolerance: String::new(),
            soft: false,
            is_shortened: false,
        });
        at = to + kerf;
    }
    across(sheet, &spans, top + STOCK + 12.0)
}
