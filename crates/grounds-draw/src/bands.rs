//! The small picture of a need: the range that is wanted, and where it will land.

use std::fmt::Write as _;

use crate::ink::{Ink, number};
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

/// Size of the picture, in pixels.
const WIDTH: f64 = 132.0;
const HEIGHT: f64 = 40.0;
/// Blank at both ends.
const END: f64 = 6.0;
/// Where the line stands on which everything is drawn.
const BASE: f64 = 26.0;
/// Height of the hill over it.
const HILL: f64 = 20.0;

/// The small picture of a need, 132 × 40 px, for a list.
///
/// A bracket under the line is the range that is wanted (open where there is no least or most). The hill over it is
/// where it lands in nineteen cases of twenty, with an upright where it most likely lands; a hairline with end strokes
/// is the worst case. The part of the hill outside the bracket is filled solid; a need that is tight has a broken
/// upright, one that fails a heavy upright with a cross, so that it is told without colour.
#[must_use]
pub fn bands(bands: &Bands) -> String {
    let mut ink = Ink::new();
    ink.svg(
        &format!("fit-bands {}", bands.verdict.class()),
        WIDTH,
        HEIGHT,
    )
    .word("role", "img")
    .word("aria-label", &bands.said)
    .end();
    ink.open("title").end().text(&bands.said).close("title");
    ink.open("desc")
        .end()
        .text(verdict_words(bands.verdict))
        .close("desc");
    if let Some(line) = Line::of(bands) {
        line.draw(&mut ink, bands);
    }
    ink.close("svg");
    ink.done()
}

fn verdict_words(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Holds => "Holds, the worst case too",
        Verdict::Tight => "Tight: mostly holds",
        Verdict::Fails => "Does not hold",
    }
}

/// Millimetres on the line.
struct Line {
    from: f64,
    to: f64,
}

impl Line {
    fn of(bands: &Bands) -> Option<Self> {
        let all = [
            bands.least,
            bands.most,
            Some(bands.lands),
            Some(bands.likely.0),
            Some(bands.likely.1),
            Some(bands.worst.0),
            Some(bands.worst.1),
        ];
        let all = || all.iter().flatten().copied();
        let is_sound = all().all(f64::is_finite);
        let (from, to) = all().fold((f64::INFINITY, f64::NEG_INFINITY), |(from, to), mm| {
            (from.min(mm), to.max(mm))
        });
        let blank = ((to - from) * 0.08).max(0.1);
        is_sound.then_some(Self {
            from: from - blank,
            to: to + blank,
        })
    }

    fn x(&self, mm: f64) -> f64 {
        END + (mm - self.from) / (self.to - self.from) * (WIDTH - 2.0 * END)
    }

    fn draw(&self, ink: &mut Ink, bands: &Bands) {
        let (low, high) = (
            bands.likely.0.min(bands.likely.1),
            bands.likely.0.max(bands.likely.1),
        );
        ink.path(
            "bands-hill",
            &self.hill(bands.lands, low, high, (low, high)),
        );
        if let Some(least) = bands.least
            && low < least
        {
            ink.path(
                "bands-out",
                &self.hill(bands.lands, low, high, (low, least.min(high))),
            );
        }
        if let Some(most) = bands.most
            && high > most
        {
            ink.path(
                "bands-out",
                &self.hill(bands.lands, low, high, (most.max(low), high)),
            );
        }
        let worst = format!(
            "M{a} {t}V{f}M{b} {t}V{f}M{a} {BASE}H{b}",
            a = number(self.x(bands.worst.0)),
            b = number(self.x(bands.worst.1)),
            t = number(BASE - 4.0),
            f = number(BASE + 4.0)
        );
        ink.path("bands-worst", &worst);
        ink.path("bands-wanted", &self.bracket(bands));
        self.upright(ink, bands);
    }

    /// The hill between two places of it: a bell over the line, its halves as wide as the likely range to each side.
    fn hill(&self, middle: f64, low: f64, high: f64, (from, to): (f64, f64)) -> String {
        const STEPS: u32 = 28;
        let mut data = format!("M{} {}", number(self.x(from)), number(BASE));
        for step in 0..=STEPS {
            let mm = from + (to - from) * f64::from(step) / f64::from(STEPS);
            let half = if mm < middle {
                middle - low
            } else {
                high - middle
            };
            // Nineteen in twenty of a bell lie within 1.96 standard deviations (normal table, published).
            let off = if half > 0.0 {
                (mm - middle) / half * 1.96
            } else {
                0.0
            };
            let rise = HILL * (-off * off / 2.0).exp();
            let _ = write!(data, "L{} {}", number(self.x(mm)), number(BASE - rise));
        }
        let _ = write!(data, "L{} {}Z", number(self.x(to)), number(BASE));
        data
    }

    /// A square bracket under the line, open where nothing bounds it.
    fn bracket(&self, bands: &Bands) -> String {
        let foot = BASE + 9.0;
        let up = |end: Option<f64>| end.map(|mm| (number(self.x(mm)), number(BASE + 1.0)));
        let start = up(bands.least).map_or_else(
            || format!("M{} {}", number(END - 4.0), number(foot)),
            |(x, y)| format!("M{x} {y}V{}", number(foot)),
        );
        let end = up(bands.most).map_or_else(
            || format!("H{}", number(WIDTH - END + 4.0)),
            |(x, y)| format!("H{x}V{y}"),
        );
        format!("{start}{end}")
    }

    fn upright(&self, ink: &mut Ink, bands: &Bands) {
        let x = self.x(bands.lands);
        let up = format!(
            "M{} {}V{}",
            number(x),
            number(BASE),
            number(BASE - HILL - 3.0)
        );
        ink.path("bands-lands", &up);
        if bands.verdict == Verdict::Fails {
            let cross = format!(
                "M{} {}l8 8m0 -8l-8 8",
                number((x - 4.0).clamp(2.0, WIDTH - 10.0)),
                number(BASE - HILL - 4.0)
            );
            ink.path("bands-cross", &cross);
        }
    }
}
