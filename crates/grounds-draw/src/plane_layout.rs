//! Pieces that must line up: how far each stands off the plane, and its shim.

use crate::hatch::{Hatch, Tone, fill};
use crate::ink::number;
use crate::medium::{Medium, PX_PER_MM};
use crate::sheet::{Anchor, Sheet, count};
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

/// Width and height of a piece, in pixels.
const PIECE: (f64, f64) = (20.0, 30.0);

/// Pieces under each other along the plane they are meant to share: each stands off the line by as much as it was
/// measured off, many times enlarged, which the drawing says; its shim is hatched behind it, and a light band is what
/// the eye forgives. Needs [`hatch_defs`](crate::hatch_defs). Empty without a sound piece.
#[must_use]
pub fn plane_layout(plane: &PlaneLayout, medium: Medium) -> String {
    let mut sheet = Sheet::new(medium);
    let top = sheet.heading(&plane.title);
    let is_sound = |piece: &&PlanePiece| piece.off.is_finite() && piece.shim.is_finite();
    let pieces: Vec<&PlanePiece> = plane.pieces.iter().filter(is_sound).take(60).collect();
    if pieces.is_empty() {
        return String::new();
    }
    let limit = plane
        .limit
        .filter(|limit| limit.is_finite() && *limit > 0.0);
    let furthest = pieces
        .iter()
        .flat_map(|piece| [piece.off.abs(), piece.shim])
        .chain(limit)
        .fold(0.1, f64::max);
    let reach = if medium.is_wide() { 70.0 } else { 34.0 };
    let times = times(reach, furthest);
    let rows = Rows {
        x: if medium.is_wide() { 150.0 } else { 84.0 },
        px: times * PX_PER_MM,
        top: top + sheet.medium.line() + 10.0,
        pitch: medium.line() * 2.0 + 16.0,
    };
    let foot = rows.top + rows.pitch * count(pieces.len());
    rows.line(&mut sheet, plane, limit, foot);
    for (index, piece) in pieces.iter().enumerate() {
        rows.piece(
            &mut sheet,
            piece,
            rows.top + rows.pitch * (count(index) + 0.5),
        );
    }
    let mut y = foot + 18.0;
    let said = format!(
        "off the plane drawn {} times as large as life",
        number(times)
    );
    for words in [plane.limit_words.as_str(), said.as_str()] {
        for words in sheet.wrapped(words, medium.width() - 6.0, 2) {
            let base = y + sheet.medium.size() * 0.86;
            sheet.letter("fit-note", Anchor::Start, 2.0, base, &words);
            y += medium.line();
        }
    }
    sheet.done("fit-plane-layout", &plane.title, &plane.said, y + 6.0)
}

/// How many times life size, of round numbers, the furthest off fits `reach` pixels.
fn times(reach: f64, furthest: f64) -> f64 {
    [
        50.0, 20.0, 10.0, 5.0, 2.0, 1.0, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01,
    ]
    .into_iter()
    .find(|times| furthest * times * PX_PER_MM <= reach)
    .unwrap_or(0.001)
}

struct Rows {
    /// Where the plane stands.
    x: f64,
    px: f64,
    top: f64,
    pitch: f64,
}

impl Rows {
    /// The plane, and what the eye forgives on both sides of it.
    fn line(&self, sheet: &mut Sheet, plane: &PlaneLayout, limit: Option<f64>, foot: f64) {
        if let Some(limit) = limit {
            let half = (limit * self.px).min(self.x - 2.0);
            sheet.block(
                "fit-band",
                (self.x - half, self.top - 4.0),
                (self.x + half, foot + 4.0),
                None,
            );
        }
        sheet.line("fit-plane", (self.x, self.top - 8.0), (self.x, foot + 8.0));
        let words = sheet.fitted(&plane.plane_words, sheet.medium.width() - 4.0);
        let half = sheet.wide(&words) / 2.0;
        let x = self.x.max(half + 2.0);
        let base = self.top - 14.0;
        sheet.letter("fit-strong plane", Anchor::Middle, x, base, &words);
    }

    /// One piece: its front against the plane, its shim behind it, its words at the right.
    fn piece(&self, sheet: &mut Sheet, piece: &PlanePiece, y: f64) {
        let class = piece.verdict.class();
        let front =
            (self.x + piece.off * self.px).clamp(PIECE.0 + 30.0, sheet.medium.width() - 40.0);
        let (back, half) = (front - PIECE.0, PIECE.1 / 2.0);
        let hatch = fill(Hatch::Metal, Tone::Bare);
        sheet.block(
            "fit-piece built",
            (back, y - half),
            (front, y + half),
            Some(&hatch),
        );
        if piece.shim > 0.0 {
            let thick = (piece.shim * self.px).clamp(3.0, (back - 3.0).max(3.0));
            let hatch = fill(Hatch::Timber, Tone::Chalk);
            let corner = (back - thick, y - half);
            sheet.block("fit-layer at-hand", corner, (back, y + half), Some(&hatch));
        }
        if (front - self.x).abs() > 1.0 {
            sheet.line(&format!("fit-land {class}"), (self.x, y), (front, y));
        }
        sheet.line(
            &format!("fit-witness {class}"),
            (front, y - half - 4.0),
            (front, y + half + 4.0),
        );
        let left = self.x + if sheet.medium.is_wide() { 100.0 } else { 52.0 };
        sheet.line("fit-leader", (front.max(self.x) + 4.0, y), (left - 6.0, y));
        let (size, line) = (sheet.medium.size(), sheet.medium.line());
        let room = sheet.medium.width() - left - 2.0;
        let name = sheet.fitted(&piece.name, room);
        sheet.letter(
            "fit-name",
            Anchor::Start,
            left,
            y - line * 0.5 + size * 0.36,
            &name,
        );
        let off = sheet.fitted(&piece.off_words, room * 0.6);
        let base = y + line * 0.5 + size * 0.36;
        sheet.letter(
            &format!("fit-strong {class}"),
            Anchor::Start,
            left,
            base,
            &off,
        );
        let next = left + sheet.wide(&off) * 1.05 + 10.0;
        let shim = sheet.fitted(&piece.shim_words, sheet.medium.width() - next - 2.0);
        sheet.letter("fit-name plane", Anchor::Start, next, base, &shim);
    }
}
