//! The weeks ahead: places by level down, days across, work as bars in its material's hatch.

mod body;
mod dates;
mod lanes;
mod layout;
mod names;

use crate::hatch::Hatch;
use crate::ink::Ink;
use crate::link::Link;
use crate::stack::{State, Trouble};
use layout::Layout;

pub(crate) use body::shape;

/// Everything on the chart. Positions in time are days from the beginning of the first day, with fractions: 2.5 is noon
/// of the third day. What lies outside the days is cut off; what is not a number is left out.
#[derive(Debug, Clone, PartialEq)]
pub struct Weeks {
    /// What the chart shows, for those who hear it ("six weeks from 8 June, every trade").
    pub title: String,
    /// The days across, one after the other.
    pub days: Vec<Day>,
    /// The levels from the highest down.
    pub levels: Vec<Level>,
    /// Times in which places cannot be crossed or reached.
    pub closures: Vec<Closure>,
    /// The present moment.
    pub today: f64,
    /// How wide a day is.
    pub zoom: Zoom,
}

/// One day of the chart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Day {
    /// Day of the week, short ("Mon").
    pub weekday: String,
    /// Date, short ("8 Jun").
    pub date: String,
    /// Nobody works: shaded.
    pub rest: bool,
    /// A week begins: a line, and the date above it.
    pub begins_week: bool,
}

/// A level of the house.
#[derive(Debug, Clone, PartialEq)]
pub struct Level {
    /// "Stone floor".
    pub name: String,
    /// Height of the finished floor as the drawings give it ("+4.45"), or empty.
    pub height: String,
    /// The places on it.
    pub places: Vec<Place>,
}

/// A place, with what happens in it.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// Names the place to [`Closure::places`]; never drawn.
    pub key: String,
    /// "Sluice bath".
    pub name: String,
    /// The work, in any order.
    pub bars: Vec<Bar>,
    /// The moments that matter, in any order.
    pub marks: Vec<Mark>,
}

/// Work in a place.
#[derive(Debug, Clone, PartialEq)]
pub struct Bar {
    /// Begins, in days.
    pub from: f64,
    /// Ends, in days.
    pub to: f64,
    /// How late it may end before the finish or a milestone moves, in days: a light tail reaches to there. Nothing
    /// where it has no time to spare.
    pub latest: Option<f64>,
    /// Material.
    pub hatch: Hatch,
    /// How far it has got.
    pub state: State,
    /// Drives the finish: heavy ink.
    pub drives: bool,
    /// Whether something is wrong with it.
    pub trouble: Trouble,
    /// The few words lettered on the bar where there is room ("Finish coat").
    pub label: String,
    /// The whole of it in words, beginning with the label, for those who hear the chart and for the line under it ("Finish coat, wheel room walls,
    /// Thu 11 June to Fri noon").
    pub said: String,
    /// The page that tells why.
    pub href: Option<Link>,
}

/// A time in which some places cannot be crossed or reached.
#[derive(Debug, Clone, PartialEq)]
pub struct Closure {
    /// Begins, in days.
    pub from: f64,
    /// Ends, in days.
    pub to: f64,
    /// Why ("hall floor drying").
    pub reason: String,
    /// [`Place::key`] of each place that is shut or cut off. A key that no place has is passed over.
    pub places: Vec<String>,
}

/// A moment that matters.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// When, in days.
    pub at: f64,
    /// What kind of moment.
    pub kind: MarkKind,
    /// Late, failed or missed.
    pub trouble: Trouble,
    /// The whole of it in words.
    pub said: String,
    /// The page that tells more.
    pub href: Option<Link>,
}

/// The kinds of moment, each with its own shape.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MarkKind {
    /// Something arrives: a filled triangle pointing down at the floor.
    Delivery,
    /// A test or an inspection: a ring.
    Inspection,
    /// A milestone: a lozenge.
    Milestone,
    /// A decision: a fork.
    Decision,
}

impl MarkKind {
    pub(crate) fn class(self) -> &'static str {
        match self {
            Self::Delivery => "delivery",
            Self::Inspection => "inspection",
            Self::Milestone => "milestone",
            Self::Decision => "decision",
        }
    }
}

/// How wide a day is, and with it how high the lanes are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Zoom {
    /// About two weeks on a desk: bars lettered, lanes 44 px high for a thumb.
    TwoWeeks,
    /// About six weeks.
    SixWeeks,
    /// As many weeks as there are.
    AllWeeks,
}

impl Zoom {
    fn class(self) -> &'static str {
        match self {
            Self::TwoWeeks => "weeks two-weeks",
            Self::SixWeeks => "weeks six-weeks",
            Self::AllWeeks => "weeks all-weeks",
        }
    }
}

/// The chart as HTML: a part that scrolls in itself both ways, place names standing at its left, dates at its top, the
/// body one SVG in which every bar with a link is a link. Bars that overlap in time take lanes of their own. A line under
/// the chart is for the script, which puts there the words of the bar in focus or under the pointer.
///
/// Needs [`hatch_defs`](crate::hatch_defs) on the page.
#[must_use]
pub fn weeks(chart: &Weeks) -> String {
    let layout = Layout::of(chart);
    let mut ink = Ink::new();
    ink.open("div")
        .class(chart.zoom.class())
        .word("data-weeks", "")
        .word("role", "region");
    ink.word("aria-label", &chart.title)
        .word("tabindex", "0")
        .end();
    ink.open("div").class("weeks-sheet").end();
    ink.open("div").class("weeks-corner").end().close("div");
    dates::draw(&mut ink, chart, &layout);
    names::draw(&mut ink, chart, &layout);
    body::draw(&mut ink, chart, &layout);
    ink.close("div").close("div");
    ink.open("p")
        .class("weeks-caption")
        .word("data-weeks-caption", "")
        .word("aria-hidden", "true")
        .end();
    ink.close("p");
    ink.done()
}
