//! One drawing on its sheet: its size, what it says to those who hear it, its lettering and its foot.

use crate::ink::{Ink, number};
use crate::lettering;
use crate::medium::{Enlargement, Medium, Units};

/// Which end of the words a place is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Anchor {
    Start,
    Middle,
    End,
}

impl Anchor {
    fn word(self) -> &'static str {
        match self {
            Self::Start => "start",
            Self::Middle => "middle",
            Self::End => "end",
        }
    }
}

/// A drawing in the making.
#[derive(Debug)]
pub(crate) struct Sheet {
    pub(crate) medium: Medium,
    pub(crate) ink: Ink,
}

impl Sheet {
    pub(crate) fn new(medium: Medium) -> Self {
        Self {
            medium,
            ink: Ink::new(),
        }
    }

    /// Width of a line of words in pixels.
    pub(crate) fn wide(&self, words: &str) -> f64 {
        lettering::width(words) * self.medium.size() / lettering::SIZE
    }

    /// The words if they fit in `room` pixels, or as much as fits.
    pub(crate) fn fitted(&self, words: &str, room: f64) -> String {
        lettering::fitted(words, room * lettering::SIZE / self.medium.size()).unwrap_or_default()
    }

    /// The words in lines of at most `room` pixels, at most `most` lines.
    pub(crate) fn wrapped(&self, words: &str, room: f64, most: usize) -> Vec<String> {
        let words: String = words.chars().take(300).collect();
        let mut lines: Vec<String> = Vec::new();
        for word in words.split_whitespace() {
            let is_last = lines.len() == most;
            let joined = lines.last().map(|last| format!("{last} {word}"));
            match (joined, lines.last_mut()) {
                (Some(joined), Some(last)) if is_last || self.wide(&joined) <= room => {
                    *last = joined;
                }
                _ => lines.push(word.to_owned()),
            }
        }
        lines.iter().map(|line| self.fitted(line, room)).collect()
    }

    /// A line of lettering; `y` is its base line.
    pub(crate) fn letter(&mut self, class: &str, anchor: Anchor, x: f64, y: f64, words: &str) {
        if words.is_empty() {
            return;
        }
        self.ink.open("text").class(class).num("x", x).num("y", y);
        if anchor != Anchor::Start {
            self.ink.word("text-anchor", anchor.word());
        }
        self.ink.end().text(words).close("text");
    }

    pub(crate) fn line(&mut self, class: &str, from: (f64, f64), to: (f64, f64)) {
        let data = format!("M{}L{}", at(from), at(to));
        self.ink.path(class, &data);
    }

    /// A rectangle between two corners, with a fill or the one of its class.
    pub(crate) fn block(
        &mut self,
        class: &str,
        one: (f64, f64),
        other: (f64, f64),
        fill: Option<&str>,
    ) {
        let (left, right) = (one.0.min(other.0), one.0.max(other.0));
        let (top, foot) = (one.1.min(other.1), one.1.max(other.1));
        self.ink.open("path").class(class);
        if let Some(fill) = fill {
            self.ink.word("fill", fill);
        }
        let data = format!(
            "M{} {}H{}V{}H{}Z",
            number(left),
            number(top),
            number(right),
            number(foot),
            number(left)
        );
        self.ink.data(&data).shut();
    }

    /// A bar that tells the scale, and on paper the scale in figures. Returns the height it takes.
    pub(crate) fn scale_bar(&mut self, enlargement: Enlargement, units: Units, y: f64) -> f64 {
        let (length, words) = bar(enlargement.px, units, self.medium.width() * 0.36);
        let (left, end) = (8.0, 8.0 + length * enlargement.px);
        let data = format!(
            "M{l} {t}v9M{e} {t}v9M{l} {m}H{e}M{h} {s}v5",
            l = number(left),
            e = number(end),
            h = number(f64::midpoint(left, end)),
            t = number(y),
            m = number(y + 4.5),
            s = number(y + 2.0),
        );
        self.ink.path("fit-bar", &data);
        let base = y + 4.5 + self.medium.size() * 0.35;
        let said = match enlargement.divisor {
            Some(divisor) => {
                format!(
                    "{words}. Scale 1:{} on paper; check the bar with a rule.",
                    number(divisor)
                )
            }
            None => words,
        };
        self.letter("fit-note", Anchor::Start, end + 8.0, base, &said);
        self.medium.line()
    }

    /// The whole drawing, `height` pixels high.
    pub(crate) fn done(self, class: &str, title: &str, said: &str, height: f64) -> String {
        let width = self.medium.width();
        let height = height.ceil();
        let mut ink = Ink::new();
        let (wide, high) = match self.medium {
            Medium::Paper(_) => (millimetres(width), millimetres(height)),
            _ => (number(width), number(height)),
        };
        ink.open("svg")
            .class(&format!("fit {class} {}", self.medium.class()))
            .word("width", &wide)
            .word("height", &high)
            .word(
                "viewBox",
                &format!("0 0 {} {}", number(width), number(height)),
            )
            .word("role", "img")
            .word("aria-label", &format!("{title}. {said}"))
            .end();
        ink.open("title").end().text(title).close("title");
        ink.open("desc").end().text(said).close("desc");
        ink.whole(&self.ink.done()).close("svg");
        ink.done()
    }

    /// On paper, the title over the drawing; returns where the drawing begins.
    pub(crate) fn heading(&mut self, title: &str) -> f64 {
        if !matches!(self.medium, Medium::Paper(_)) {
            return 4.0;
        }
        let words = self.fitted(title, self.medium.width() * 0.92);
        self.letter("fit-strong", Anchor::Start, 0.0, 14.0, &words);
        self.line("fit-rule", (0.0, 20.5), (self.medium.width(), 20.5));
        32.0
    }
}

/// A place as path data.
pub(crate) fn at(place: (f64, f64)) -> String {
    format!("{} {}", number(place.0), number(place.1))
}

/// A length of the sheet on paper.
fn millimetres(px: f64) -> String {
    format!("{:.3}mm", px / crate::medium::PX_PER_MM)
}

/// The longest round bar within `room` pixels: its length in millimetres of the house, and its words.
fn bar(px: f64, units: Units, room: f64) -> (f64, String) {
    let metric = [1000.0, 500.0, 200.0, 100.0, 50.0, 20.0, 10.0, 5.0, 2.0, 1.0];
    let inches = [
        (96.0, "8 ft"),
        (48.0, "4 ft"),
        (24.0, "2 ft"),
        (12.0, "12 in"),
        (6.0, "6 in"),
        (4.0, "4 in"),
        (2.0, "2 in"),
        (1.0, "1 in"),
        (0.5, "1/2 in"),
        (0.25, "1/4 in"),
    ];
    let fits = |mm: f64| mm * px <= room;
    match units {
        Units::Millimetres => {
            let mm = metric.into_iter().find(|mm| fits(*mm)).unwrap_or(1.0);
            (mm, format!("{mm} mm"))
        }
        Units::Inches => {
            let (inch, words) = inches
                .into_iter()
                .find(|(inch, _)| fits(inch * 25.4))
                .unwrap_or((0.25, "1/4 in"));
            (inch * 25.4, words.to_owned())
        }
    }
}

/// How many, as a number to reckon pixels with.
#[expect(
    clippy::cast_precision_loss,
    reason = "drawings hold a handful of things"
)]
pub(crate) fn count(count: usize) -> f64 {
    count as f64
}
