//! Boards, tiles, balusters or slats along a run, with the cuts at both ends and the gaps dimensioned.

use crate::dimension_string::{Span, across, across_within};
use crate::hatch::{Hatch, Tone, fill};
use crate::ink::number;
use crate::medium::{Medium, Units};
use crate::sheet::{Anchor, Sheet};

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

/// So few parts show both ends by themselves.
const FEW: usize = 3;

/// Height of the run and of its enlarged ends, in pixels.
const STRIP: f64 = 46.0;

/// A run set out: the whole to scale with its length, then both ends drawn larger with the figures of their first
/// parts. Needs [`hatch_defs`](crate::hatch_defs). Empty without a sound part.
#[must_use]
pub fn spacing_layout(spacing: &SpacingLayout, medium: Medium) -> String {
    let mut sheet = Sheet::new(medium);
    let top = sheet.heading(&spacing.title);
    let parts: Vec<SpacingPart> = spacing
        .parts
        .iter()
        .filter(|part| part.from.is_finite() && part.to.is_finite() && part.to > part.from)
        .take(400)
        .cloned()
        .collect();
    let (from, to) = parts
        .iter()
        .fold((0.0_f64, length(spacing.run)), |(from, to), part| {
            (from.min(part.from), to.max(part.to))
        });
    if parts.is_empty() || to - from > 1e6 {
        return String::new();
    }
    let room = medium.width() - 12.0;
    // A pocket is drawn larger than life, a row of boards never: both its ends are.
    let most = if parts.len() > FEW { 4.0 } else { 24.0 };
    let whole = medium.enlargement(to - from, room, most);
    let strip = Strip {
        from,
        left: 6.0,
        px: whole.px,
        top: top + 4.0,
    };
    for part in &parts {
        strip.draw(&mut sheet, spacing.hatch, part, (from, to));
    }
    let run = Span {
        from: strip.x(from),
        to: strip.x(to),
        figure: spacing.run_words.clone(),
        tolerance: String::new(),
        soft: false,
        is_shortened: false,
    };
    let mut y = across(&mut sheet, &[run], strip.top + STRIP + 14.0) + 12.0;
    if whole.px * typical(&parts) < 60.0 {
        y = ends(&mut sheet, spacing, &parts, whole.px, y);
    } else {
        y = figures(&mut sheet, &strip, &parts, y);
    }
    y = notes(&mut sheet, spacing, y);
    let end = y + 6.0 + sheet.scale_bar(whole, spacing.units, y + 6.0);
    sheet.done("fit-spacing", &spacing.title, &spacing.said, end + 4.0)
}

fn length(mm: f64) -> f64 {
    if mm.is_finite() { mm.max(0.0) } else { 0.0 }
}

/// The length of the widest part.
fn typical(parts: &[SpacingPart]) -> f64 {
    let solid = parts.iter().filter(|part| part.kind != SpacingKind::Gap);
    solid.map(|part| part.to - part.from).fold(0.0, f64::max)
}

/// A stretch of the run on the sheet.
struct Strip {
    from: f64,
    left: f64,
    px: f64,
    top: f64,
}

impl Strip {
    fn x(&self, mm: f64) -> f64 {
        self.left + (mm - self.from) * self.px
    }

    /// Draws a part as far as it is within a stretch.
    fn draw(&self, sheet: &mut Sheet, hatch: Hatch, part: &SpacingPart, (from, to): (f64, f64)) {
        let (start, end) = (part.from.max(from), part.to.min(to));
        if end <= start || part.kind == SpacingKind::Gap {
            return;
        }
        let (one, other) = ((self.x(start), self.top), (self.x(end), self.top + STRIP));
        if other.0 - one.0 < 3.2 {
            sheet.block("fit-thin built", one, other, None);
            return;
        }
        let tone = if part.kind == SpacingKind::Cut {
            Tone::Chalk
        } else {
            Tone::Bare
        };
        let class = if part.kind == SpacingKind::Cut {
            "fit-layer at-hand"
        } else {
            "fit-layer built"
        };
        sheet.block(class, one, other, Some(&fill(hatch, tone)));
    }
}

/// The figures of a run whose parts are wide enough for them.
fn figures(sheet: &mut Sheet, strip: &Strip, parts: &[SpacingPart], y: f64) -> f64 {
    across(sheet, &spans(strip, parts.iter()), y)
}

fn spans<'a>(strip: &Strip, parts: impl Iterator<Item = &'a SpacingPart>) -> Vec<Span> {
    parts
        .map(|part| Span {
            from: strip.x(part.from),
            to: strip.x(part.to),
            figure: part.words.clone(),
            tolerance: String::new(),
            soft: part.kind == SpacingKind::Gap,
            is_shortened: false,
        })
        .collect()
}

/// Both ends, larger: on a phone one under the other, else side by side.
fn ends(sheet: &mut Sheet, spacing: &SpacingLayout, parts: &[SpacingPart], px: f64, y: f64) -> f64 {
    let size = sheet.medium.size();
    let is_wide = sheet.medium.is_wide();
    let room = if is_wide {
        sheet.medium.width() / 2.0 - 24.0
    } else {
        sheet.medium.width() - 12.0
    };
    let shown = 5.min(parts.len());
    let first: Vec<&SpacingPart> = parts.iter().take(shown).collect();
    let last: Vec<&SpacingPart> = parts.iter().skip(parts.len() - shown).collect();
    let long = |parts: &[&SpacingPart]| -> (f64, f64) {
        let from = parts.first().map_or(0.0, |part| part.from);
        (from, parts.last().map_or(from, |part| part.to))
    };
    let longest = [long(&first), long(&last)].map(|(from, to)| to - from);
    let larger = (room - 20.0) / longest[0].max(longest[1]);
    let times = [
        1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 8.0, 10.0, 15.0, 20.0, 30.0, 50.0, 100.0,
    ]
    .into_iter()
    .rfind(|times| px * times <= larger)
    .unwrap_or(1.0);
    let mut foot = y;
    for (index, (name, parts)) in [("left end", first), ("right end", last)]
        .into_iter()
        .enumerate()
    {
        let (from, to) = long(&parts);
        let (left, top) = match (index, is_wide) {
            (0, _) => (6.0, y),
            (_, true) => (sheet.medium.width() - 6.0 - (to - from) * px * times, y),
            (_, false) => (6.0, foot + 10.0),
        };
        let words = format!("{name}, {} times larger", number(times));
        let (anchor, x) = if index == 1 && is_wide {
            (Anchor::End, sheet.medium.width() - 6.0)
        } else {
            (Anchor::Start, left)
        };
        sheet.letter("fit-note", anchor, x, top + size * 0.86, &words);
        let strip = Strip {
            from,
            left,
            px: px * times,
            top: top + sheet.medium.line() + 4.0,
        };
        for part in &parts {
            strip.draw(sheet, spacing.hatch, part, (from, to));
        }
        let outer = if index == 0 {
            strip.x(from)
        } else {
            strip.x(to)
        };
        sheet.line(
            "fit-outline",
            (outer, strip.top - 5.0),
            (outer, strip.top + STRIP + 5.0),
        );
        let half = if is_wide {
            sheet.medium.width() / 2.0
        } else {
            sheet.medium.width()
        };
        let bounds = if index == 1 && is_wide {
            (half + 8.0, half * 2.0 - 1.0)
        } else {
            (1.0, half - if is_wide { 8.0 } else { 1.0 })
        };
        foot = foot.max(across_within(
            sheet,
            &spans(&strip, parts.into_iter()),
            strip.top + STRIP + 14.0,
            bounds,
        ));
    }
    foot + 4.0
}

fn notes(sheet: &mut Sheet, spacing: &SpacingLayout, mut y: f64) -> f64 {
    let (line, size, room) = (
        sheet.medium.line(),
        sheet.medium.size(),
        sheet.medium.width() - 12.0,
    );
    y += 6.0;
    for note in spacing.notes.iter().take(6) {
        for words in sheet.wrapped(note, room, 3) {
            sheet.letter("fit-name", Anchor::Start, 6.0, y + size * 0.86, &words);
            y += line;
        }
    }
    y
}
