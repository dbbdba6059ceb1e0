//! A flight of stairs with the floor finishes at its foot and head, and the figure of each rise.

use std::fmt::Write as _;

use crate::hatch::Hatch;
use crate::hatch::{Tone, fill};
use crate::ink::number;
use crate::medium::Medium;
use crate::sheet::{Anchor, Sheet, count};
use crate::verdict::Verdict;

/// A flight, drawn from its foot at the left to its head at the right. Lengths are millimetres.
#[derive(Debug, Clone, PartialEq)]
pub struct StairLayout {
    /// Which flight.
    pub title: String,
    /// The whole of it in words, for those who hear it.
    pub said: String,
    /// The rises from the lowest up, each from one finished surface to the next.
    pub rises: Vec<Rise>,
    /// Depth of each tread, from nosing to nosing.
    pub going: f64,
    /// Its figure.
    pub going_words: String,
    /// The floor at the foot.
    pub below: FloorFinish,
    /// The floor at the head.
    pub above: FloorFinish,
    /// The finish on the treads.
    pub treads: FloorFinish,
    /// From finished floor to finished floor, in words.
    pub total_words: String,
    /// "largest less smallest 3/4; at most 3/8".
    pub difference_words: String,
    /// Whether the difference will do.
    pub verdict: Verdict,
}

/// One rise.
#[derive(Debug, Clone, PartialEq)]
pub struct Rise {
    /// Its height, above zero.
    pub height: f64,
    /// Its figure.
    pub words: String,
    /// Whether it is one of those that make the difference: marked with a ring and heavy lettering.
    pub marked: bool,
}

/// What lies on a floor or tread.
#[derive(Debug, Clone, PartialEq)]
pub struct FloorFinish {
    /// "oak boards 3/4", or empty.
    pub words: String,
    /// Its thickness; zero if there is none.
    pub thickness: f64,
    /// Its material.
    pub hatch: Hatch,
}

/// The storey pole's place beside the flight, in pixels.
const POLE: f64 = 46.0;

/// The flight as SVG: each rise with its figure in the air over the tread below it, floors and treads with their
/// finishes, the whole height on a dimension string at the right.
///
/// Heights are to one scale. Where the flight is too long for the width, treads are drawn shorter than they are, and the
/// drawing says so. Needs [`hatch_defs`](crate::hatch_defs). Empty without a sound rise.
#[must_use]
pub fn stair_layout(stair: &StairLayout, medium: Medium) -> String {
    let mut sheet = Sheet::new(medium);
    let top = sheet.heading(&stair.title);
    let Some(flight) = Flight::of(stair, medium, top) else {
        return String::new();
    };
    flight.floors(&mut sheet, stair);
    flight.steps(&mut sheet, stair);
    flight.figures(&mut sheet, stair);
    flight.pole(&mut sheet, stair);
    let foot = flight.notes(&mut sheet, stair);
    sheet.done("fit-stair", &stair.title, &stair.said, foot + 4.0)
}

/// A flight on the sheet.
struct Flight {
    /// Finished heights from the foot up, in millimetres, the foot among them.
    heights: Vec<f64>,
    /// Left of the first riser, in pixels.
    left: f64,
    /// The foot, in pixels.
    foot: f64,
    up: f64,
    across: f64,
    is_compressed: bool,
    width: f64,
}

impl Flight {
    fn of(stair: &StairLayout, medium: Medium, top: f64) -> Option<Self> {
        let mut heights = vec![0.0];
        for rise in stair.rises.iter().take(60) {
            if !(rise.height.is_finite() && rise.height > 0.0 && rise.height < 1e4) {
                return None;
            }
            heights.push(heights.last().copied().unwrap_or(0.0) + rise.height);
        }
        let total = heights.last().copied().filter(|total| *total > 0.0)?;
        let going = stair
            .going
            .is_finite()
            .then_some(stair.going)
            .filter(|going| *going > 0.0)?;
        let count = count(heights.len() - 1);
        let least = heights
            .windows(2)
            .map(|pair| pair[1] - pair[0])
            .fold(f64::INFINITY, f64::min);
        let width = medium.width();
        let (left, right) = (66.0, POLE + 34.0);
        let room = width - left - right;
        // As large as the width allows, but no rise lower than a line of lettering.
        let up = (room / (going * count)).min(0.3).max(medium.line() / least);
        let across = up.min(room / (going * count));
        Some(Self {
            foot: top + 30.0 + total * up,
            is_compressed: across < up * 0.98,
            heights,
            left,
            up,
            across: across * going,
            width,
        })
    }

    fn y(&self, mm: f64) -> f64 {
        self.foot - mm * self.up
    }

    /// The riser's face of a step, counted from 0.
    fn x(&self, step: usize) -> f64 {
        self.left + self.across * count(step)
    }

    fn steps_count(&self) -> usize {
        self.heights.len() - 1
    }

    fn total(&self) -> f64 {
        self.heights.last().copied().unwrap_or(0.0)
    }

    fn thick(&self, finish: &FloorFinish) -> f64 {
        let thick = if finish.thickness.is_finite() {
            finish.thickness
        } else {
            0.0
        };
        if thick <= 0.0 {
            0.0
        } else {
            (thick * self.up).clamp(2.6, 26.0)
        }
    }

    fn floors(&self, sheet: &mut Sheet, stair: &StairLayout) {
        let last = self.x(self.steps_count() - 1);
        let end = self.width - POLE - 6.0;
        for (finish, from, to, y) in [
            (&stair.below, 2.0, self.left, self.foot),
            (&stair.above, last, end, self.y(self.total())),
        ] {
            let thick = self.thick(finish);
            if thick > 0.0 {
                let hatch = fill(finish.hatch, Tone::Bare);
                sheet.block("fit-layer built", (from, y), (to, y + thick), Some(&hatch));
            }
            sheet.line("fit-outline", (from, y + thick), (to, y + thick));
            sheet.line("fit-surface", (from, y), (to, y));
        }
    }

    fn steps(&self, sheet: &mut Sheet, stair: &StairLayout) {
        let thick = self.thick(&stair.treads);
        let hatch = fill(stair.treads.hatch, Tone::Bare);
        let below = self.thick(&stair.below);
        let mut rough = format!("M{} {}", number(self.left), number(self.foot + below));
        let steps = self.steps_count();
        for step in 0..steps {
            let (x, y) = (
                self.x(step),
                self.y(self.heights.get(step + 1).copied().unwrap_or(0.0)),
            );
            let is_last = step + 1 == steps;
            let under = if is_last {
                self.thick(&stair.above)
            } else {
                thick
            };
            let _ = write!(rough, "H{}V{}", number(x), number(y + under));
            if is_last {
                break;
            }
            let end = self.x(step + 1);
            if thick > 0.0 {
                sheet.block(
                    "fit-layer built",
                    (x - 3.0, y),
                    (end, y + thick),
                    Some(&hatch),
                );
            }
            sheet.line("fit-surface", (x - 3.0, y), (end, y));
        }
        sheet.ink.path("fit-outline", &rough);
    }

    /// Each figure left of its riser, in the air over the tread below.
    fn figures(&self, sheet: &mut Sheet, stair: &StairLayout) {
        let size = sheet.medium.size();
        for (step, rise) in stair.rises.iter().enumerate().take(self.steps_count()) {
            let low = self.heights.get(step).copied().unwrap_or(0.0);
            let middle = self.y(low + rise.height / 2.0);
            let x = self.x(step) - 7.0;
            let words = sheet.fitted(&rise.words, x - if rise.marked { 12.0 } else { 1.0 });
            let class = if rise.marked {
                "fit-strong fails"
            } else {
                "fit-figure"
            };
            sheet.letter(class, Anchor::End, x, middle + size * 0.36, &words);
            if rise.marked {
                let at = x - sheet.wide(&words) * 1.05 - 8.0;
                sheet
                    .ink
                    .open("circle")
                    .class("fit-mark")
                    .num("cx", at.max(5.0))
                    .num("cy", middle);
                sheet.ink.num("r", 4.0).shut();
            }
        }
    }

    /// The whole height at the right.
    fn pole(&self, sheet: &mut Sheet, stair: &StairLayout) {
        let x = self.width - POLE + 6.0;
        let (top, foot) = (self.y(self.total()), self.foot);
        sheet.line("fit-dimension", (x, top - 4.0), (x, foot + 4.0));
        sheet.line("fit-witness-fine", (self.left + 4.0, foot), (x + 6.0, foot));
        sheet.line("fit-witness-fine", (x - 8.0, top), (x + 6.0, top));
        for (index, height) in self.heights.iter().enumerate() {
            let y = self.y(*height);
            let class = if index == 0 || index == self.steps_count() {
                "fit-tick"
            } else {
                "fit-pole"
            };
            sheet.line(class, (x - 3.5, y + 3.5), (x + 3.5, y - 3.5));
        }
        let words = sheet.fitted(&stair.total_words, self.width * 0.5);
        sheet.letter(
            "fit-figure",
            Anchor::End,
            self.width - 1.0,
            top - 10.0,
            &words,
        );
    }

    fn notes(&self, sheet: &mut Sheet, stair: &StairLayout) -> f64 {
        let (line, size) = (sheet.medium.line(), sheet.medium.size());
        let room = self.width - 4.0;
        let mut notes = vec![(
            format!("fit-strong {}", stair.verdict.class()),
            stair.difference_words.clone(),
        )];
        for (place, finish) in [
            ("at the head", &stair.above),
            ("on the treads", &stair.treads),
            ("at the foot", &stair.below),
        ] {
            if !finish.words.is_empty() {
                notes.push(("fit-note".to_owned(), format!("{place}: {}", finish.words)));
            }
        }
        let goings = if self.is_compressed {
            ", drawn shorter than they are"
        } else {
            ""
        };
        if !stair.going_words.is_empty() {
            notes.push((
                "fit-note".to_owned(),
                format!("treads {}{goings}", stair.going_words),
            ));
        }
        let mut y = self.foot + self.thick(&stair.below) + 14.0;
        for (class, words) in notes {
            for words in sheet.wrapped(&words, room * 0.95, 3) {
                sheet.letter(&class, Anchor::Start, 2.0, y + size * 0.86, &words);
                y += line;
            }
        }
        y
    }
}
