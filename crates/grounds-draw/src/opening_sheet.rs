//! The sheet of an opening: where to put the tape, what it read, what goes in and what to order.

use crate::ink::number;
use crate::medium::{Enlargement, Medium, Units};
use crate::sheet::{Anchor, Sheet, at};
use crate::spread::{Wish, spread};

/// An opening as measured. Positions are millimetres from the foot of its left side: across to the right, up.
#[derive(Debug, Clone, PartialEq)]
pub struct OpeningSheet {
    /// Which opening ("Wheel room, glazed screen").
    pub title: String,
    /// The whole of it in words, for those who hear it.
    pub said: String,
    /// What the scale bar is divided in.
    pub units: Units,
    /// Its corners: foot left, foot right, head right, head left, as `(across, up)`.
    pub corners: [(f64, f64); 4],
    /// Widths, with the height each is taken at.
    pub widths: Vec<TapeReading>,
    /// Heights, with the distance from the left each is taken at.
    pub heights: Vec<TapeReading>,
    /// From foot left to head right, in words, or empty if not taken yet.
    pub rising_diagonal: String,
    /// From head left to foot right, in words, or empty if not taken yet.
    pub falling_diagonal: String,
    /// Sides out of plumb, sill and head out of level, in sentences ("left side leans in 4 over 2100").
    pub plumb_and_level: Vec<String>,
    /// The largest upright rectangle that goes in.
    pub largest: Option<Rectangle>,
    /// The size to order, as it sits in the opening.
    pub order: Option<Rectangle>,
    /// "1,184 × 2,065", or empty.
    pub order_words: String,
    /// Clear edges around the size to order.
    pub clear: EdgeClearances,
}

/// One reading of the tape.
#[derive(Debug, Clone, PartialEq)]
pub struct TapeReading {
    /// Where the tape is held, in millimetres: up for a width, across for a height.
    pub at: f64,
    /// What it read, in the job's units; empty if it is still to be taken.
    pub words: String,
    /// Whether it disagrees with the others and is to be taken again.
    pub doubtful: bool,
}

/// An upright rectangle in an opening, in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rectangle {
    /// Its left side.
    pub left: f64,
    /// Its foot.
    pub foot: f64,
    /// Its width, above zero.
    pub width: f64,
    /// Its height, above zero.
    pub height: f64,
}

/// Clear edges around a size to order, in words; empty ones are not lettered.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct EdgeClearances {
    /// At the left.
    pub left: String,
    /// At the right.
    pub right: String,
    /// At the head.
    pub head: String,
    /// At the foot.
    pub foot: String,
}

/// Kept free around the opening, in pixels.
const EDGE: f64 = 24.0;

/// The sheet of an opening. Numbered tapes show where each reading is taken: widths are numbered at the right, heights
/// at the foot, the two diagonals cross. What is still to be taken has a dashed ring, what is to be taken again a second
/// ring around it. The size to order stands in the opening with its edges clear; the largest rectangle that goes in is
/// dashed. How far the opening is out of true is drawn larger than life, and the sheet says how many times.
///
/// Empty if a corner is not a number or the opening has no width or height.
#[must_use]
pub fn opening_sheet(opening: &OpeningSheet, medium: Medium) -> String {
    let mut sheet = Sheet::new(medium);
    let top = sheet.heading(&opening.title);
    let Some(hole) = Hole::of(opening, &sheet, top) else {
        return String::new();
    };
    hole.outline(&mut sheet);
    hole.rectangles(&mut sheet, opening);
    hole.diagonals(&mut sheet);
    hole.widths(&mut sheet, opening);
    let foot = hole.heights(&mut sheet, opening);
    let end = hole.notes(&mut sheet, opening, top, foot);
    let end = end + 8.0 + sheet.scale_bar(hole.enlargement, opening.units, end + 8.0);
    sheet.done("fit-opening", &opening.title, &opening.said, end + 4.0)
}

/// An opening on the sheet.
struct Hole {
    corners: [(f64, f64); 4],
    /// The upright rectangle nearest to the corners: left, foot, right, head, in millimetres.
    square: [f64; 4],
    /// How many times what is out of true is enlarged.
    times: f64,
    enlargement: Enlargement,
    /// Where the left foot of the rectangle stands on the sheet.
    at: (f64, f64),
    /// Room at the right for numbers and readings, in pixels.
    beside: f64,
}

impl Hole {
    fn of(opening: &OpeningSheet, sheet: &Sheet, top: f64) -> Option<Self> {
        let medium = sheet.medium;
        let is_sound = |mm: f64| mm.is_finite() && mm.abs() < 1e5;
        if !opening
            .corners
            .iter()
            .all(|(x, y)| is_sound(*x) && is_sound(*y))
        {
            return None;
        }
        let [a, b, c, d] = opening.corners;
        let square = [
            f64::midpoint(a.0, d.0),
            f64::midpoint(a.1, b.1),
            f64::midpoint(b.0, c.0),
            f64::midpoint(c.1, d.1),
        ];
        let [left, foot, right, head] = square;
        let (wide, high) = (right - left, head - foot);
        if wide <= 0.0 || high <= 0.0 {
            return None;
        }
        let words = opening
            .widths
            .iter()
            .map(|reading| sheet.wide(&said(reading)));
        let beside = words.fold(40.0, f64::max).min(110.0) + 44.0;
        let room = (medium.width() * if medium.is_wide() { 0.58 } else { 1.0 }) - beside - EDGE;
        let tallest = if medium.is_wide() { 420.0 } else { 300.0 };
        let across = medium.enlargement(wide, room, 0.4);
        let up = medium.enlargement(high, tallest, 0.4);
        let enlargement = if across.px < up.px { across } else { up };
        let mut hole = Self {
            beside,
            corners: opening.corners,
            square,
            times: 1.0,
            enlargement,
            at: (EDGE, top + EDGE + high * enlargement.px),
        };
        let furthest = hole.furthest(opening) * enlargement.px;
        hole.times = [50.0, 20.0, 10.0, 5.0, 2.0]
            .into_iter()
            .find(|times| furthest * times <= 16.0)
            .unwrap_or(1.0);
        Some(hole)
    }

    /// The furthest that a corner or an edge in the opening is off the rectangle, in millimetres.
    fn furthest(&self, opening: &OpeningSheet) -> f64 {
        let edges = [opening.largest, opening.order]
            .into_iter()
            .flatten()
            .flat_map(|rectangle| {
                [
                    (rectangle.left, rectangle.foot),
                    (
                        rectangle.left + rectangle.width,
                        rectangle.foot + rectangle.height,
                    ),
                ]
            });
        self.corners
            .iter()
            .copied()
            .chain(edges)
            .filter(|(x, y)| x.is_finite() && y.is_finite())
            .flat_map(|(x, y)| {
                let [left, foot, right, head] = self.square;
                [x - nearer(x, left, right), y - nearer(y, foot, head)]
            })
            .map(f64::abs)
            .fold(0.01, f64::max)
    }

    /// A place on the sheet, with what is out of true enlarged.
    fn place(&self, (x, y): (f64, f64)) -> (f64, f64) {
        let [left, foot, right, head] = self.square;
        let (near_x, near_y) = (nearer(x, left, right), nearer(y, foot, head));
        let (x, y) = (
            near_x + (x - near_x) * self.times,
            near_y + (y - near_y) * self.times,
        );
        (
            self.at.0 + (x - left) * self.enlargement.px,
            self.at.1 - (y - foot) * self.enlargement.px,
        )
    }

    fn corner(&self, index: usize) -> (f64, f64) {
        self.place(self.corners.get(index).copied().unwrap_or_default())
    }

    fn outline(&self, sheet: &mut Sheet) {
        let data = format!(
            "M{}L{}L{}L{}Z",
            at(self.corner(0)),
            at(self.corner(1)),
            at(self.corner(2)),
            at(self.corner(3))
        );
        sheet.ink.path("fit-opening-clear", &data);
    }

    fn rectangles(&self, sheet: &mut Sheet, opening: &OpeningSheet) {
        for (class, rectangle) in [
            ("fit-largest", opening.largest),
            ("fit-order", opening.order),
        ] {
            let Some(rectangle) = rectangle else { continue };
            let ends = [
                rectangle.left,
                rectangle.foot,
                rectangle.left + rectangle.width,
                rectangle.foot + rectangle.height,
            ];
            if ends.iter().all(|mm| mm.is_finite() && mm.abs() < 1e5)
                && rectangle.width > 0.0
                && rectangle.height > 0.0
            {
                let one = self.within(self.place((ends[0], ends[1])));
                let other = self.within(self.place((ends[2], ends[3])));
                sheet.block(class, one, other, None);
            }
        }
    }

    /// A place kept near the opening, should a rectangle not belong to it.
    fn within(&self, (x, y): (f64, f64)) -> (f64, f64) {
        let [left, foot, right, head] = self.square;
        let px = self.enlargement.px;
        (
            x.clamp(self.at.0 - 20.0, self.at.0 + (right - left) * px + 20.0),
            y.clamp(self.at.1 - (head - foot) * px - 20.0, self.at.1 + 20.0),
        )
    }

    fn diagonals(&self, sheet: &mut Sheet) {
        sheet.line("fit-diagonal-tape", self.corner(0), self.corner(2));
        sheet.line("fit-diagonal-tape", self.corner(3), self.corner(1));
    }

    /// Tapes across, numbered at the right with their readings.
    fn widths(&self, sheet: &mut Sheet, opening: &OpeningSheet) {
        let mut readings: Vec<(usize, &TapeReading, f64)> = numbered(&opening.widths)
            .map(|(number, reading)| (number, reading, self.y_of(reading.at)))
            .collect();
        readings.sort_by(|a, b| a.2.total_cmp(&b.2));
        let long = sheet.medium.size() * 1.5;
        let wishes: Vec<Wish> = readings
            .iter()
            .map(|(_, _, y)| Wish { middle: *y, long })
            .collect();
        let places = spread(&wishes, 2.0, 2.0, f64::INFINITY);
        let right = self.corner(1).0.max(self.corner(2).0) + 22.0;
        for ((number, reading, y), place) in readings.iter().zip(places) {
            let start = between(self.corner(0), self.corner(3), *y, Axis::Up);
            let end = between(self.corner(1), self.corner(2), *y, Axis::Up);
            sheet.line("fit-tape", (start, *y), (end, *y));
            sheet.line("fit-leader", (end + 2.0, *y), (right - 10.0, place));
            tape_ring(sheet, (right, place), *number, reading);
            let x = right + sheet.medium.size() * 0.66 + 8.0;
            let words = sheet.fitted(&said(reading), 110.0);
            let base = place + sheet.medium.size() * 0.36;
            sheet.letter(reading_class(reading), Anchor::Start, x, base, &words);
        }
    }

    /// Tapes up, numbered at the foot with their readings; returns the foot of these.
    fn heights(&self, sheet: &mut Sheet, opening: &OpeningSheet) -> f64 {
        let before = opening.widths.len().min(MOST);
        let mut readings: Vec<(usize, &TapeReading, f64)> = numbered(&opening.heights)
            .map(|(number, reading)| (number + before, reading, self.x_of(reading.at)))
            .collect();
        readings.sort_by(|a, b| a.2.total_cmp(&b.2));
        let size = sheet.medium.size();
        let wishes: Vec<Wish> = readings
            .iter()
            .map(|(_, reading, x)| Wish {
                middle: *x,
                long: sheet.wide(&said(reading)).max(size * 1.5),
            })
            .collect();
        let end = if sheet.medium.is_wide() {
            self.corner(1).0 + self.beside + 30.0
        } else {
            sheet.medium.width()
        };
        let places = spread(&wishes, 8.0, 2.0, end - 2.0);
        let foot = self.corner(0).1.max(self.corner(1).1) + 22.0;
        for ((number, reading, x), place) in readings.iter().zip(places) {
            let low = between(self.corner(0), self.corner(1), *x, Axis::Across);
            let high = between(self.corner(3), self.corner(2), *x, Axis::Across);
            sheet.line("fit-tape", (*x, low), (*x, high));
            sheet.line("fit-leader", (*x, low + 2.0), (place, foot - 10.0));
            tape_ring(sheet, (place, foot), *number, reading);
            let base = foot + size * 0.66 + 6.0 + size * 0.86;
            sheet.letter(
                reading_class(reading),
                Anchor::Middle,
                place,
                base,
                &said(reading),
            );
        }
        if readings.is_empty() {
            foot - 16.0
        } else {
            foot + size * 2.0 + 6.0
        }
    }

    fn y_of(&self, up: f64) -> f64 {
        let [_, foot, _, head] = self.square;
        let inset = (head - foot) * 0.015;
        self.at.1 - (up.clamp(foot + inset, head - inset) - foot) * self.enlargement.px
    }

    fn x_of(&self, across: f64) -> f64 {
        let [left, _, right, _] = self.square;
        let inset = (right - left) * 0.015;
        self.at.0 + (across.clamp(left + inset, right - inset) - left) * self.enlargement.px
    }

    fn notes(&self, sheet: &mut Sheet, opening: &OpeningSheet, top: f64, foot: f64) -> f64 {
        let is_wide = sheet.medium.is_wide();
        let width = sheet.medium.width();
        let (left, mut y) = if is_wide {
            (
                self.corner(1).0.max(self.corner(2).0) + self.beside + 44.0,
                top + EDGE - 14.0,
            )
        } else {
            (2.0, foot + 10.0)
        };
        let room = width - left - 4.0;
        let (line, size) = (sheet.medium.line(), sheet.medium.size());
        for (class, words) in self.sentences(opening) {
            for words in sheet.wrapped(&words, room * 0.95, 4) {
                sheet.letter(class, Anchor::Start, left, y + size * 0.86, &words);
                y += line;
            }
            y += 3.0;
        }
        y.max(foot)
    }

    fn sentences(&self, opening: &OpeningSheet) -> Vec<(&'static str, String)> {
        let mut all = Vec::new();
        if !opening.order_words.is_empty() {
            all.push(("fit-strong", format!("to order {}", opening.order_words)));
        }
        let clear = &opening.clear;
        let edges: Vec<String> = [
            (&clear.left, "left"),
            (&clear.right, "right"),
            (&clear.head, "head"),
            (&clear.foot, "foot"),
        ]
        .into_iter()
        .filter(|(words, _)| !words.is_empty())
        .map(|(words, edge)| format!("{words} {edge}"))
        .collect();
        if !edges.is_empty() {
            all.push(("fit-name", format!("clear: {}", edges.join(", "))));
        }
        for (words, name) in [
            (&opening.rising_diagonal, "rising"),
            (&opening.falling_diagonal, "falling"),
        ] {
            let words = if words.is_empty() {
                "still to take"
            } else {
                words.as_str()
            };
            all.push(("fit-name", format!("{name} diagonal: {words}")));
        }
        for words in opening.plumb_and_level.iter().take(6) {
            all.push(("fit-name", words.clone()));
        }
        if self.times > 1.0 {
            let times = number(self.times);
            all.push((
                "fit-note",
                format!("edges and corners drawn {times} times as far out of true as they are"),
            ));
        }
        all
    }
}

/// No opening has more readings of a kind.
const MOST: usize = 12;

fn numbered(readings: &[TapeReading]) -> impl Iterator<Item = (usize, &TapeReading)> {
    readings
        .iter()
        .take(MOST)
        .enumerate()
        .filter(|(_, reading)| reading.at.is_finite())
        .map(|(index, reading)| (index + 1, reading))
}

fn said(reading: &TapeReading) -> String {
    if reading.words.is_empty() {
        "to take".to_owned()
    } else if reading.doubtful {
        format!(
            "{}, again",
            reading.words.chars().take(14).collect::<String>()
        )
    } else {
        reading.words.chars().take(18).collect()
    }
}

fn reading_class(reading: &TapeReading) -> &'static str {
    match (reading.words.is_empty(), reading.doubtful) {
        (true, _) => "fit-note",
        (false, true) => "fit-strong tight",
        (false, false) => "fit-figure",
    }
}

/// The number of a tape in its ring.
fn tape_ring(sheet: &mut Sheet, (x, y): (f64, f64), number: usize, reading: &TapeReading) {
    let size = sheet.medium.size();
    let class = if reading.words.is_empty() {
        "fit-ring to-take"
    } else {
        "fit-ring"
    };
    sheet
        .ink
        .open("circle")
        .class(class)
        .num("cx", x)
        .num("cy", y);
    sheet.ink.num("r", size * 0.66).shut();
    if reading.doubtful {
        sheet
            .ink
            .open("circle")
            .class("fit-mark-again")
            .num("cx", x)
            .num("cy", y);
        sheet.ink.num("r", size * 0.66 + 3.0).shut();
    }
    sheet.letter(
        "fit-strong",
        Anchor::Middle,
        x,
        y + size * 0.36,
        &number.to_string(),
    );
}

fn nearer(mm: f64, one: f64, other: f64) -> f64 {
    if (mm - one).abs() <= (mm - other).abs() {
        one
    } else {
        other
    }
}

#[derive(Debug, Clone, Copy)]
enum Axis {
    Across,
    Up,
}

/// Where a line between two places of the sheet is crossed: x at a given y, or y at a given x.
fn between(one: (f64, f64), other: (f64, f64), at: f64, axis: Axis) -> f64 {
    let ((a, from), (b, to)) = match axis {
        Axis::Up => (one, other),
        Axis::Across => ((one.1, one.0), (other.1, other.0)),
    };
    if (to - from).abs() < 1e-9 {
        a
    } else {
        a + (b - a) * (at - from) / (to - from)
    }
}
