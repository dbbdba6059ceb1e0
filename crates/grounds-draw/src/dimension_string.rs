//! Dimension strings: a line with oblique ticks, figures in a row under it or beside it.

use crate::sheet::{Anchor, Sheet};
use crate::spread::{Wish, spread};

/// One dimension, in pixels along its string.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Span {
    pub(crate) from: f64,
    pub(crate) to: f64,
    pub(crate) figure: String,
    pub(crate) tolerance: String,
    /// Whether it is to come, and lettered soft.
    pub(crate) soft: bool,
    /// Whether it is drawn shorter than it is, which two slanted strokes through its line say.
    pub(crate) is_shortened: bool,
}

impl Span {
    fn middle(&self) -> f64 {
        f64::midpoint(self.from, self.to)
    }

    fn class(&self) -> &'static str {
        if self.soft {
            "fit-figure soft"
        } else {
            "fit-figure"
        }
    }
}

/// A string across, its line at `y`, figures under it with their tolerances beneath. Figures too wide for their span are
/// moved aside and led to; if a row does not hold them all, every other one goes to a second. Returns its foot.
pub(crate) fn across(sheet: &mut Sheet, spans: &[Span], y: f64) -> f64 {
    let within = (1.0, sheet.medium.width() - 1.0);
    across_within(sheet, spans, y, within)
}

/// A string across whose figures stay within a stretch of the sheet.
pub(crate) fn across_within(sheet: &mut Sheet, spans: &[Span], y: f64, within: (f64, f64)) -> f64 {
    let spans = lettered(spans);
    let (Some(first), Some(last)) = (spans.first(), spans.last()) else {
        return y;
    };
    sheet.line("fit-dimension", (first.from - 4.0, y), (last.to + 4.0, y));
    for x in ends(&spans) {
        sheet.line("fit-tick", (x - 3.5, y + 3.5), (x + 3.5, y - 3.5));
    }
    for span in spans.iter().filter(|span| span.is_shortened) {
        let x = span.from + ((span.to - span.from) * 0.25).min(14.0);
        sheet.line("fit-dimension", (x - 3.0, y + 5.0), (x + 1.0, y - 5.0));
        sheet.line("fit-dimension", (x + 1.0, y + 5.0), (x + 5.0, y - 5.0));
    }
    let (size, line) = (sheet.medium.size(), sheet.medium.line() * 0.85);
    let wide: Vec<f64> = spans
        .iter()
        .map(|span| sheet.wide(&span.figure).max(sheet.wide(&span.tolerance)))
        .collect();
    let gap = 7.0;
    let one_row = wide.iter().map(|wide| wide + gap).sum::<f64>() <= within.1 - within.0;
    let is_low = |index: usize| !one_row && index % 2 == 1;
    let wishes: Vec<Wish> = spans
        .iter()
        .zip(&wide)
        .enumerate()
        .map(|(index, (span, wide))| Wish {
            middle: span.middle(),
            long: if is_low(index) { 2.0 } else { *wide },
        })
        .collect();
    let slots = spread(&wishes, gap, within.0, within.1);
    let moved = |index: usize| {
        let Some(((span, slot), wide)) =
            spans.get(index).zip(slots.get(index)).zip(wide.get(index))
        else {
            return false;
        };
        let is_inside = slot - wide / 2.0 >= span.from && slot + wide / 2.0 <= span.to;
        is_low(index) || !(is_inside || (span.middle() - slot).abs() < 1.5)
    };
    let some_moved = (0..spans.len()).any(moved);
    let tolerances = spans.iter().any(|span| !span.tolerance.is_empty());
    let top = y + if some_moved { 10.0 } else { 5.0 };
    let row_height = if tolerances { 2.0 * line } else { line };
    let low: Vec<usize> = (0..spans.len()).filter(|index| is_low(*index)).collect();
    let low_wishes: Vec<Wish> = low
        .iter()
        .filter_map(|index| slots.get(*index).zip(wide.get(*index)))
        .map(|(slot, wide)| Wish {
            middle: *slot,
            long: *wide,
        })
        .collect();
    let low_places = spread(&low_wishes, gap, within.0, within.1);
    let mut low_places = low_places.into_iter();
    let mut foot = top + row_height;
    for (index, (span, slot)) in spans.iter().zip(&slots).enumerate() {
        if moved(index) {
            sheet.line("fit-leader", (span.middle(), y + 3.0), (*slot, top));
        }
        let (x, row) = if is_low(index) {
            let place = low_places.next().unwrap_or(*slot);
            let low_top = top + row_height + 5.0;
            sheet.line("fit-leader", (*slot, top), (*slot, top + row_height));
            sheet.line("fit-leader", (*slot, top + row_height), (place, low_top));
            (place, low_top)
        } else {
            (*slot, top)
        };
        foot = foot.max(row + row_height);
        sheet.letter(
            span.class(),
            Anchor::Middle,
            x,
            row + size * 0.88,
            &span.figure,
        );
        sheet.letter(
            "fit-note",
            Anchor::Middle,
            x,
            row + line + size * 0.88,
            &span.tolerance,
        );
    }
    foot
}

/// A string upright, its line at `x`, figures to the left of it, each on one line with its tolerance.
pub(crate) fn upright(sheet: &mut Sheet, spans: &[Span], x: f64, within: (f64, f64)) {
    let spans = lettered(spans);
    let (Some(first), Some(last)) = (spans.first(), spans.last()) else {
        return;
    };
    sheet.line("fit-dimension", (x, first.from - 4.0), (x, last.to + 4.0));
    for y in ends(&spans) {
        sheet.line("fit-tick", (x - 3.5, y + 3.5), (x + 3.5, y - 3.5));
    }
    for span in spans.iter().filter(|span| span.is_shortened) {
        let y = f64::midpoint(span.from, span.to);
        sheet.line("fit-dimension", (x - 5.0, y + 3.0), (x + 5.0, y - 1.0));
        sheet.line("fit-dimension", (x - 5.0, y + 7.0), (x + 5.0, y + 3.0));
    }
    let size = sheet.medium.size();
    let wishes: Vec<Wish> = spans
        .iter()
        .map(|span| Wish {
            middle: span.middle(),
            long: size,
        })
        .collect();
    let places = spread(&wishes, 3.0, within.0, within.1);
    for (span, y) in spans.iter().zip(places) {
        let is_inside = y - size / 2.0 >= span.from && y + size / 2.0 <= span.to;
        let moved = !(is_inside || (span.middle() - y).abs() < 1.5);
        if moved {
            sheet.line("fit-leader", (x - 2.0, span.middle()), (x - 11.0, y));
        }
        let right = x - if moved { 14.0 } else { 8.0 };
        sheet.letter(
            span.class(),
            Anchor::End,
            right,
            y + size * 0.36,
            &in_one_line(span),
        );
    }
}

/// How wide the figures of an upright string are with their distance from it.
pub(crate) fn upright_room(sheet: &Sheet, spans: &[Span]) -> f64 {
    let widest = lettered(spans)
        .iter()
        .map(|span| sheet.wide(&in_one_line(span)))
        .fold(0.0, f64::max);
    if widest > 0.0 { widest + 22.0 } else { 0.0 }
}

fn in_one_line(span: &Span) -> String {
    if span.tolerance.is_empty() {
        span.figure.clone()
    } else {
        format!("{} {}", span.figure, span.tolerance)
    }
}

fn lettered(spans: &[Span]) -> Vec<Span> {
    let cut = |words: &String| words.chars().take(24).collect::<String>();
    spans
        .iter()
        .filter(|span| !span.figure.is_empty())
        .map(|span| Span {
            figure: cut(&span.figure),
            tolerance: cut(&span.tolerance),
            ..span.clone()
        })
        .collect()
}

/// Where spans begin and end, each once.
fn ends(spans: &[Span]) -> Vec<f64> {
    let mut ends: Vec<f64> = spans.iter().flat_map(|span| [span.from, span.to]).collect();
    ends.sort_by(f64::total_cmp);
    ends.dedup_by(|a, b| (*a - *b).abs() < 0.05);
    ends
}
