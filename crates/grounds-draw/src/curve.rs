//! The curve of chances: how likely the finish is by each day, with the dates that matter marked.
//!
//! Across are days, up is the chance, 0 at the bottom to certain at the top. A rise is the curve; even
//! chance and four in five are read off along thin lines, and the other dates stand as uprights, each
//! told by its line (dashed, dotted, heavy) and its words, never by colour alone.
//!
//! | class | is |
//! |---|---|
//! | `curve` | the SVG |
//! | `curve-under` | the area under the curve |
//! | `curve-line` | the curve |
//! | `curve-rule` | the line of no chance; the rule that the curve stands on |
//! | `curve-level` | the thin lines of even chance and four in five |
//! | `curve-mark plan`, `bound`, `due`, `today` | an upright |
//! | `curve-read` | from the curve down to a read-off date |
//! | `curve-dot` | where a read-off meets the curve |
//! | `curve-word`, `curve-word strong`, `curve-date` | lettering |

use std::fmt::Write as _;

use crate::ink::{Ink, number};
use crate::lettering::{fitted, width};

/// A curve of chances. Positions in time are days from any one moment, with fractions; what is not a
/// number is left out.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// What it shows, for those who hear it ("Chance of handing over by each day").
    pub title: String,
    /// The whole of it in words ("Even chance by Fri 1 October; four in five by Tue 12 October").
    pub said: String,
    /// Days and the chance, 0 to 1, of that day or an earlier one; both rising.
    pub points: Vec<(f64, f64)>,
    /// Dates read off the curve, lowest chance first: even chance, four in five.
    pub reads: Vec<CurveRead>,
    /// Other dates.
    pub marks: Vec<CurveMark>,
    /// Days that are lettered along the bottom, as many as have room.
    pub dates: Vec<(f64, String)>,
}

/// A date read off a curve.
#[derive(Debug, Clone, PartialEq)]
pub struct CurveRead {
    /// When, in days.
    pub at: f64,
    /// The chance it is read at.
    pub chance: f64,
    /// "even chance".
    pub name: String,
    /// "1 Oct".
    pub date: String,
}

/// A date beside a curve.
#[derive(Debug, Clone, PartialEq)]
pub struct CurveMark {
    /// When, in days.
    pub at: f64,
    /// What kind of date.
    pub kind: CurveMarkKind,
    /// "plan 24 Sep".
    pub words: String,
}

/// The kinds of date beside a curve, each with its own line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CurveMarkKind {
    /// The plan ends: a heavy line.
    Plan,
    /// No order of work can end before: a dotted line.
    Bound,
    /// It is due: a double-dashed line.
    Due,
}

impl CurveMarkKind {
    fn class(self) -> &'static str {
        match self {
            Self::Plan => "curve-mark plan",
            Self::Bound => "curve-mark bound",
            Self::Due => "curve-mark due",
        }
    }
}

/// Size of the drawing, in pixels: it fits a phone of 360 px with its margins.
const WIDTH: f64 = 344.0;
/// From the left to the first day and from the last day to the right.
const SIDE: f64 = 12.0;
/// Height of one line of marks over the curve.
const LINE: f64 = 20.0;
/// Height of the curve.
const RISE: f64 = 150.0;
/// Height of the dates under it.
const FOOT: f64 = 48.0;

/// The curve as SVG, 344 px wide.
#[must_use]
pub fn curve(curve: &Curve) -> String {
    Drawing::of(curve).map_or_else(String::new, |drawing| drawing.draw(curve))
}

struct Drawing {
    from: f64,
    to: f64,
    /// Where certainty and no chance stand.
    top: f64,
    bottom: f64,
}

impl Drawing {
    fn of(curve: &Curve) -> Option<Self> {
        let days = curve.points.iter().map(|point| point.0);
        let days = days.chain(curve.marks.iter().map(|mark| mark.at));
        let days = || days.clone().filter(|day| day.is_finite());
        let (from, to) = (
            days().fold(f64::INFINITY, f64::min),
            days().fold(f64::NEG_INFINITY, f64::max),
        );
        let lines = u32::try_from(curve.marks.len().min(4)).unwrap_or(0);
        let top = 10.0 + LINE * f64::from(lines);
        (from <= to).then_some(Self {
            from,
            to: to.max(from + 1.0),
            top,
            bottom: top + RISE,
        })
    }

    fn x(&self, day: f64) -> f64 {
        let share = ((day - self.from) / (self.to - self.from)).clamp(0.0, 1.0);
        SIDE + share * (WIDTH - 2.0 * SIDE)
    }

    fn y(&self, chance: f64) -> f64 {
        self.bottom - chance.clamp(0.0, 1.0) * (self.bottom - self.top)
    }

    fn draw(&self, curve: &Curve) -> String {
        let mut ink = Ink::new();
        ink.svg("curve", WIDTH, self.bottom + FOOT)
            .word("role", "img")
            .word("aria-label", &format!("{}: {}", curve.title, curve.said))
            .end();
        ink.open("title").end();
        ink.text(&curve.title).close("title");
        ink.open("desc").end();
        ink.text(&curve.said).close("desc");
        let line = self.line(curve);
        if !line.is_empty() {
            let bottom = number(self.bottom);
            let end = number(WIDTH - SIDE);
            ink.path(
                "curve-under",
                &format!("{line}H{end}V{bottom}H{}Z", number(SIDE)),
            );
        }
        let mut marks: Vec<&CurveMark> = curve.marks.iter().collect();
        marks.retain(|mark| mark.at.is_finite());
        marks.sort_by(|a, b| a.at.total_cmp(&b.at));
        for (row, mark) in marks.iter().take(4).enumerate() {
            self.mark(&mut ink, row, mark);
        }
        let reads = || curve.reads.iter().filter(|read| read.at.is_finite());
        let past = reads()
            .map(|read| self.x(read.at) + 8.0)
            .fold(0.0, f64::max);
        for read in reads() {
            self.read(&mut ink, read, past);
        }
        ink.path("curve-line", &line);
        let rule = format!("M0 {}H{}", number(self.bottom), number(WIDTH));
        ink.path("curve-rule", &rule);
        for read in curve.reads.iter().filter(|read| read.at.is_finite()) {
            ink.open("circle")
                .class("curve-dot")
                .num("cx", self.x(read.at))
                .num("cy", self.y(read.chance))
                .num("r", 4.0)
                .shut();
        }
        self.read_dates(&mut ink, curve);
        self.dates(&mut ink, curve);
        ink.close("svg");
        ink.done()
    }

    /// The curve as a path from the bottom left to the top right.
    fn line(&self, curve: &Curve) -> String {
        let mut data = String::new();
        let sound = |p: &&(f64, f64)| p.0.is_finite() && p.1.is_finite();
        for (day, chance) in curve.points.iter().filter(sound) {
            let (x, y) = (number(self.x(*day)), number(self.y(*chance)));
            let step = if data.is_empty() {
                format!("M{} {}H{x}V{y}", number(SIDE), number(self.bottom))
            } else {
                format!("L{x} {y}")
            };
            let _ = data.write_str(&step);
        }
        data
    }

    /// An upright with its words at the top, on the side with more room.
    fn mark(&self, ink: &mut Ink, row: usize, mark: &CurveMark) {
        let x = self.x(mark.at);
        let y = 16.0 + LINE * f64::from(u32::try_from(row).unwrap_or(0));
        let up = format!(
            "M{} {}V{}",
            number(x),
            number(y - 11.0),
            number(self.bottom)
        );
        ink.path(mark.kind.class(), &up);
        let room = (x - 5.0).max(WIDTH - x - 5.0);
        let Some(words) = fitted(&mark.words, room) else {
            return;
        };
        let left = if x + 5.0 + width(&words) <= WIDTH {
            x + 5.0
        } else {
            x - 5.0 - width(&words)
        };
        ink.letter("curve-word", left, y, &words);
    }

    /// A thin line along a chance to the curve, and down to its date. Its name stands over the line; where
    /// the curve rises too early for that, the line goes on to its name past all that is read off.
    fn read(&self, ink: &mut Ink, read: &CurveRead, past: f64) {
        let (x, y) = (self.x(read.at), self.y(read.chance));
        let has_room = width(&read.name) <= x - 10.0;
        let end = if has_room { x } else { past };
        ink.path("curve-level", &format!("M0 {}H{}", number(y), number(end)));
        ink.path(
            "curve-read",
            &format!("M{} {}V{}", number(x), number(y), number(self.bottom)),
        );
        let (left, low) = if has_room {
            (2.0, y - 5.0)
        } else {
            (past + 4.0, y + 5.0)
        };
        if let Some(words) = fitted(&read.name, WIDTH - left) {
            ink.letter("curve-word", left, low, &words);
        }
    }

    /// The dates that are read off, under the rule, moved apart where they would touch.
    fn read_dates(&self, ink: &mut Ink, curve: &Curve) {
        let mut free_from = 0.0_f64;
        let mut left_over: f64 = curve.reads.iter().map(|r| width(&r.date) + 10.0).sum();
        for read in curve.reads.iter().filter(|read| read.at.is_finite()) {
            let wide = width(&read.date);
            let last = (WIDTH - left_over).max(free_from);
            let x = (self.x(read.at) - wide / 2.0).clamp(free_from, last);
            ink.letter("curve-word strong", x, self.bottom + 18.0, &read.date);
            free_from = x + wide + 10.0;
            left_over -= wide + 10.0;
        }
    }

    /// Days along the bottom, as many as have room.
    fn dates(&self, ink: &mut Ink, curve: &Curve) {
        let mut free_from = 0.0;
        let y = self.bottom + 40.0;
        for (day, word) in &curve.dates {
            if !(self.from..=self.to).contains(day) {
                continue;
            }
            let wide = width(word);
            let x = self.x(*day);
            let left = (x - wide / 2.0).clamp(0.0, (WIDTH - wide).max(0.0));
            if left < free_from {
                continue;
            }
            let tick = format!("M{} {}v4", number(x), number(self.bottom));
            ink.path("curve-rule", &tick);
            ink.letter("curve-date", left, y, word);
            free_from = left + wide + 14.0;
        }
    }
}
