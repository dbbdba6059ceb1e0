//! Openings: what was read, the largest rectangle that goes in, what to order, and whether what is
//! on order will go in.

use std::{
    collections::BTreeMap,
    sync::{Arc, OnceLock},
};

use grounds_draw::{EdgeClearances, OpeningSheet, Rectangle, TapeReading};
use grounds_fit::opening::{
    Clearance, Handling, Lean, Made, Pane, Reading, Readings, Survey, What, order,
};
use grounds_lines::{readings::Read, said};
use grounds_measure::{Length, Size, Step, Units, Weight};
use grounds_model::{Id, Material, Opening, Ref};
use grounds_site::{Subject, words};

use super::drawn::{Drawing, bare, units};

/// An opening and all that is known of it.
#[derive(Debug)]
pub(crate) struct Sheet {
    /// What everyone calls it.
    pub(crate) name: String,
    /// The piece that goes in.
    pub(crate) piece: Option<Id>,
    /// What was read, and what is still to be read.
    pub(crate) tapes: Vec<Tape>,
    /// The clearance wanted at each edge.
    pub(crate) clearance: Length,
    /// The size on order, or that is to be.
    pub(crate) made: Option<Size>,
    /// How far it may be off as it is made.
    pub(crate) made_within: Length,
    /// Whether it is on order.
    pub(crate) ordered: Ordered,
    /// Its weight, and how it is carried.
    pub(crate) weight: Option<(Weight, Handling, Weighed)>,
    /// How many people set it, where the job says so.
    pub(crate) people: Option<u32>,
    /// Whether it is glass.
    pub(crate) glass: bool,
    units: Units,
    readings: Readings,
    found: Arc<OnceLock<Found>>,
}

/// How far an order has got.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Ordered {
    /// It is still to be ordered.
    ToCome,
    /// It is on order.
    OnOrder,
    /// It is on site.
    Here,
}

/// Where a weight comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Weighed {
    /// The job says it.
    Given,
    /// Size by thickness.
    Reckoned,
}

/// One place to put the tape, the level or the plumb line.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Tape {
    /// The word of its note.
    pub(crate) what: String,
    /// What is read there.
    pub(crate) kind: TapeKind,
    /// Where along the edge it is, from 0 to 1.
    at: f64,
    /// What was read, in millimetres.
    pub(crate) read: Option<f64>,
}

/// What is read at an opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum TapeKind {
    /// Across.
    Width,
    /// Up.
    Height,
    /// From the left foot to the right head.
    Rising,
    /// From the left head to the right foot.
    Falling,
    /// The left side's head to the right of its foot.
    PlumbLeft,
    /// The right side's.
    PlumbRight,
    /// The sill's right end above its left.
    LevelSill,
    /// The head's.
    LevelHead,
}

/// What follows from the readings.
#[derive(Clone, Debug)]
pub(crate) struct Found {
    /// The sheet as it is drawn.
    pub(crate) drawn: OpeningSheet,
    /// The largest rectangle that goes in: width and height in millimetres.
    pub(crate) largest: Option<(f64, f64)>,
    /// The size to order.
    pub(crate) order: Option<(Length, Length)>,
    /// What each edge has to spare around the size on order, and the chance that it goes in.
    pub(crate) fits: Option<(f64, f64)>,
    /// How far the two diagonals differ, where the shape is known.
    pub(crate) out_of_square: Option<f64>,
    /// The tape that disagrees with the others, by its place among them.
    pub(crate) doubtful: Option<usize>,
    /// Why nothing follows.
    pub(crate) fault: Option<String>,
}

/// The places that a tape is held to: the word of the note and where that is.
const ACROSS: [(&str, f64); 3] = [
    ("width at the foot", 0.03),
    ("width in the middle", 0.5),
    ("width at the head", 0.97),
];
const UP: [(&str, f64); 3] = [
    ("height at the left", 0.03),
    ("height in the middle", 0.5),
    ("height at the right", 0.97),
];
const ONCE: [(&str, TapeKind); 6] = [
    ("diagonal rising", TapeKind::Rising),
    ("diagonal falling", TapeKind::Falling),
    ("plumb left", TapeKind::PlumbLeft),
    ("plumb right", TapeKind::PlumbRight),
    ("level sill", TapeKind::LevelSill),
    ("level head", TapeKind::LevelHead),
];

/// A reading further from its place than this, as a share of the edge, is of another place.
const SAME: f64 = 0.15;

/// Every opening of a house.
pub(super) fn sheets(drawing: &Drawing<'_>) -> BTreeMap<Id, Sheet> {
    let openings = drawing.lines.job.openings.iter();
    openings
        .map(|(id, opening)| (id.clone(), sheet(drawing, id, opening)))
        .collect()
}

fn sheet(drawing: &Drawing<'_>, id: &Id, opening: &Opening) -> Sheet {
    let lines = drawing.lines;
    let piece = opening
        .piece
        .as_ref()
        .and_then(|piece| lines.job.pieces.get(piece));
    let (width, height) = as_built(drawing, id, opening);
    let tapes = tapes(drawing, id, opening, (width, height));
    let state = opening.piece.as_ref().map_or_else(Default::default, |id| {
        lines.site.state(&Subject::Piece(id.clone()))
    });
    let ordered = if state.arrived.is_some() || state.done.is_some() {
        Ordered::Here
    } else if state.ordered.is_some() || state.shipped.is_some() {
        Ordered::OnOrder
    } else {
        Ordered::ToCome
    };
    let made = piece.and_then(|piece| piece.ordered.or(piece.size));
    let glass = piece.is_some_and(|piece| piece.material == Some(Material::Glass));
    let pane = |size: Size| Pane {
        width: size.first().mm(),
        height: size.second().mm(),
        glass: piece
            .and_then(|piece| piece.thickness)
            .map_or(0.0, |thick| thick.nominal().mm()),
        between: 0.0,
    };
    let given = piece.and_then(|piece| piece.weight);
    let reckoned = || {
        let pane = made.filter(|_| glass).map(pane)?;
        Weight::from_kg_f64(pane.weight()).filter(|_| pane.glass > 0.0)
    };
    let weight = match given {
        Some(weight) => Some((weight, handling(weight.kg()), Weighed::Given)),
        None => reckoned().map(|weight| (weight, handling(weight.kg()), Weighed::Reckoned)),
    };
    Sheet {
        name: words::plain(&opening.name),
        piece: opening.piece.clone(),
        clearance: opening.clearance.unwrap_or_default(),
        made,
        made_within: piece
            .and_then(|piece| piece.size_within)
            .unwrap_or_default(),
        ordered,
        weight,
        people: piece.and_then(|piece| piece.people),
        glass,
        units: lines.units(),
        readings: readings(&tapes, (width, height)),
        tapes,
        found: Arc::default(),
    }
}

/// How a weight is carried: the limits of [`Handling`], whatever the thing is made of.
fn handling(kg: f64) -> Handling {
    let glass = Pane {
        width: 1000.0,
        height: 1000.0,
        glass: kg / 2.5,
        between: 0.0,
    };
    glass.handling()
}

/// How wide and high an opening will most likely be, finished.
fn as_built(drawing: &Drawing<'_>, id: &Id, opening: &Opening) -> (f64, f64) {
    let rough = (opening.rough.first().mm(), opening.rough.second().mm());
    let Some(line) = drawing.lines.openings.get(id) else {
        return rough;
    };
    let across = |from, to, else_: f64| {
        let found = drawing.adjusted.distance(from, to);
        found.map_or(else_, |(mean, _)| mean)
    };
    (
        across(line.width.near.1, line.width.far.0, rough.0),
        across(line.height.near.1, line.height.far.0, rough.1),
    )
}

/// What was read of an opening, and what is still to be read.
fn tapes(
    drawing: &Drawing<'_>,
    id: &Id,
    opening: &Opening,
    (width, height): (f64, f64),
) -> Vec<Tape> {
    let reads = drawing.lines.readings();
    let own = reads.all_of(&Ref(id.0.clone()));
    let of_piece = opening
        .piece
        .as_ref()
        .map_or(&[][..], |piece| reads.all_of(&Ref(piece.0.clone())));
    let plain = of_piece.iter().filter(|read| read.what.is_empty());
    let mut tapes: Vec<Tape> = own
        .iter()
        .chain(plain)
        .filter_map(|read| taken(read, (width, height)))
        .collect();
    let mut open = |what: &str, kind: TapeKind, at: f64| {
        let there = tapes
            .iter()
            .any(|tape| tape.kind == kind && (tape.at - at).abs() < SAME);
        if !there {
            tapes.push(Tape {
                what: what.to_owned(),
                kind,
                at,
                read: None,
            });
        }
    };
    for (what, at) in ACROSS {
        open(what, TapeKind::Width, at);
    }
    for (what, at) in UP {
        open(what, TapeKind::Height, at);
    }
    for (what, kind) in ONCE {
        open(what, kind, 0.0);
    }
    let order = |tape: &Tape| {
        let kinds = [
            TapeKind::Width,
            TapeKind::Height,
            TapeKind::Rising,
            TapeKind::Falling,
            TapeKind::PlumbLeft,
            TapeKind::PlumbRight,
            TapeKind::LevelSill,
            TapeKind::LevelHead,
        ];
        kinds.iter().position(|kind| *kind == tape.kind)
    };
    tapes.sort_by(|a, b| order(a).cmp(&order(b)).then(a.at.total_cmp(&b.at)));
    tapes
}

/// A reading of an opening, and where it was taken.
fn taken(read: &Read, (width, height): (f64, f64)) -> Option<Tape> {
    let what = read.what.as_str();
    let (kind, at) = if what.is_empty() {
        (TapeKind::Width, 0.5)
    } else if let Some(rest) = what.strip_prefix("width") {
        (TapeKind::Width, station(rest, height))
    } else if let Some(rest) = what.strip_prefix("height") {
        (TapeKind::Height, station(rest, width))
    } else {
        let (_, kind) = ONCE.iter().find(|(word, _)| *word == what)?;
        (*kind, 0.0)
    };
    Some(Tape {
        what: if what.is_empty() { "width" } else { what }.to_owned(),
        kind,
        at,
        read: Some(read.figure.mm()),
    })
}

/// Where the words after `width` or `height` put the tape.
fn station(words: &str, extent: f64) -> f64 {
    let says = |all: &[&str]| all.iter().any(|word| words.contains(word));
    if says(&["foot", "low", "bottom", "sill", "left"]) {
        return 0.03;
    }
    if says(&["head", "high", "top", "right", "up"]) {
        return 0.97;
    }
    let figure = words.trim().trim_start_matches("at ").trim();
    let at = figure.parse::<Length>().map(Length::mm);
    at.map_or(0.5, |at| (at / extent.max(1.0)).clamp(0.0, 1.0))
}

/// The readings for the survey; what was not read at all is taken as it is drawn.
fn readings(tapes: &[Tape], (width, height): (f64, f64)) -> Readings {
    let of = |kind: TapeKind, extent: f64, drawn: f64| {
        let read: Vec<Reading> = tapes
            .iter()
            .filter(|tape| tape.kind == kind)
            .filter_map(|tape| {
                Some(Reading {
                    at: tape.at * extent,
                    read: tape.read?,
                })
            })
            .collect();
        if read.is_empty() {
            vec![Reading {
                at: extent / 2.0,
                read: drawn,
            }]
        } else {
            read
        }
    };
    let one = |kind: TapeKind| {
        let tape = tapes.iter().find(|tape| tape.kind == kind);
        tape.and_then(|tape| tape.read)
    };
    let lean = |kind: TapeKind, over: f64| one(kind).map(|off| Lean { over, off });
    let mut readings = Readings::new(
        of(TapeKind::Width, height, width),
        of(TapeKind::Height, width, height),
    );
    readings.rising = one(TapeKind::Rising);
    readings.falling = one(TapeKind::Falling);
    readings.left = lean(TapeKind::PlumbLeft, height);
    readings.right = lean(TapeKind::PlumbRight, height);
    readings.sill = lean(TapeKind::LevelSill, width);
    readings.head = lean(TapeKind::LevelHead, width);
    readings
}

impl Sheet {
    /// Whether anybody has put a tape to it.
    pub(crate) fn is_read(&self) -> bool {
        let across = |tape: &&Tape| matches!(tape.kind, TapeKind::Width | TapeKind::Height);
        self.tapes
            .iter()
            .filter(across)
            .any(|tape| tape.read.is_some())
    }

    /// Takes over what followed before, where nothing that it follows from has changed.
    pub(super) fn keep(&mut self, before: &Self) {
        let same = self.name == before.name
            && self.tapes == before.tapes
            && self.readings == before.readings
            && self.clearance == before.clearance
            && self.made == before.made
            && self.made_within == before.made_within
            && self.units == before.units;
        if same {
            self.found = before.found.clone();
        }
    }

    /// What follows from the readings, reckoned when it is first asked for: the chance that a piece
    /// goes in takes a quarter of a second.
    pub(crate) fn found(&self) -> &Found {
        self.found.get_or_init(|| self.reckon())
    }

    fn reckon(&self) -> Found {
        let survey = match Survey::of(&self.readings) {
            Ok(survey) => survey,
            Err(fault) => {
                return Found {
                    drawn: self.drawn(None),
                    largest: None,
                    order: None,
                    fits: None,
                    out_of_square: None,
                    doubtful: None,
                    fault: Some(fault.to_string()),
                };
            }
        };
        let clear = Clearance::all(self.clearance.mm());
        let order = order(&survey, clear, step(self.units));
        let fits = self.made.map(|size| {
            let made = Made {
                width: size.first().mm(),
                height: size.second().mm(),
                spread: self.made_within.mm() / 3.0,
            };
            let fit = made.fits(&survey, clear, 1);
            (fit.spare, fit.chance)
        });
        let [a, b, c, d] = survey.corners();
        let mut found = Found {
            largest: order.map(|order| (order.opening.width, order.opening.height)),
            order: order.map(|order| (order.width, order.height)),
            fits,
            out_of_square: self.is_read().then(|| (a.to(c) - b.to(d)).abs()),
            doubtful: self.doubtful(&survey),
            fault: None,
            drawn: self.drawn(Some(&survey)),
        };
        if let Some(order) = order {
            let opening = order.opening;
            found.drawn.largest = Some(Rectangle {
                left: opening.left,
                foot: opening.bottom,
                width: opening.width,
                height: opening.height,
            });
            let (width, height) = (order.width.mm(), order.height.mm());
            found.drawn.order = Some(Rectangle {
                left: opening.left + (opening.width - width) / 2.0,
                foot: opening.bottom + (opening.height - height) / 2.0,
                width,
                height,
            });
            found.drawn.order_words = format!(
                "{} × {}",
                bare(&order.width.display(self.units).to_string()),
                bare(&order.height.display(self.units).to_string())
            );
            let edge = |room: f64| bare(&said::length(room, self.units));
            let (side, end) = (
                edge((opening.width - width) / 2.0),
                edge((opening.height - height) / 2.0),
            );
            found.drawn.clear = EdgeClearances {
                left: side.clone(),
                right: side,
                head: end.clone(),
                foot: end,
            };
        }
        found
    }

    fn drawn(&self, survey: Option<&Survey>) -> OpeningSheet {
        let doubtful = survey.and_then(|survey| self.doubtful(survey));
        let corners = survey.map_or([(0.0, 0.0); 4], |survey| {
            survey.corners().map(|corner| (corner.x, corner.y))
        });
        let height = corners[2].1.max(corners[3].1);
        let width = corners[1].0.max(corners[2].0);
        let tapes = |kind: TapeKind, extent: f64| {
            let all = self.tapes.iter().enumerate();
            all.filter(|(_, tape)| tape.kind == kind)
                .map(|(index, tape)| TapeReading {
                    at: tape.at * extent,
                    words: self.words(tape),
                    doubtful: doubtful == Some(index),
                })
                .collect::<Vec<_>>()
        };
        let once = |kind: TapeKind| {
            let found = self.tapes.iter().find(|tape| tape.kind == kind);
            found.map_or_else(String::new, |tape| self.words(tape))
        };
        OpeningSheet {
            title: self.name.clone(),
            said: format!("{}, with the places for the tape", self.name),
            units: units(self.units),
            corners,
            widths: tapes(TapeKind::Width, height),
            heights: tapes(TapeKind::Height, width),
            rising_diagonal: once(TapeKind::Rising),
            falling_diagonal: once(TapeKind::Falling),
            plumb_and_level: self.leans(),
            largest: None,
            order: None,
            order_words: String::new(),
            clear: EdgeClearances::default(),
        }
    }

    /// The tape that disagrees most with the others, if more than chance explains.
    fn doubtful(&self, survey: &Survey) -> Option<usize> {
        let (kind, nth) = match survey.doubtful()?.what {
            What::Width(nth) => (TapeKind::Width, nth),
            What::Height(nth) => (TapeKind::Height, nth),
            What::Rising => (TapeKind::Rising, 0),
            What::Falling => (TapeKind::Falling, 0),
            What::Left => (TapeKind::PlumbLeft, 0),
            What::Right => (TapeKind::PlumbRight, 0),
            What::Sill => (TapeKind::LevelSill, 0),
            What::Head => (TapeKind::LevelHead, 0),
        };
        let read = |tape: &Tape| tape.kind == kind && tape.read.is_some();
        let all = self.tapes.iter().enumerate();
        let found = all.filter(|(_, tape)| read(tape)).nth(nth);
        found.map(|(index, _)| index)
    }

    /// What a tape read, as drawings letter it.
    pub(crate) fn words(&self, tape: &Tape) -> String {
        tape.read
            .map_or_else(String::new, |mm| bare(&said::exact(mm, self.units)))
    }

    /// Sides out of plumb, sill and head out of level, in words.
    fn leans(&self) -> Vec<String> {
        let words = [
            (TapeKind::PlumbLeft, "left side leans", "right", "left"),
            (TapeKind::PlumbRight, "right side leans", "right", "left"),
            (
                TapeKind::LevelSill,
                "sill, at the right end:",
                "higher",
                "lower",
            ),
            (
                TapeKind::LevelHead,
                "head, at the right end:",
                "higher",
                "lower",
            ),
        ];
        let said = words.iter().filter_map(|(kind, what, above, below)| {
            let tape = self.tapes.iter().find(|tape| tape.kind == *kind)?;
            let off = tape.read?;
            let way = if off < 0.0 { below } else { above };
            Some(format!(
                "{what} {} {way}",
                bare(&said::length(off, self.units))
            ))
        });
        said.collect()
    }
}

/// What makers cut in: whole millimetres, sixteenths of an inch.
fn step(units: Units) -> Step {
    match units {
        Units::Metric => Step::MM,
        Units::Imperial => Step::SIXTEENTH_INCH,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_say_where_the_tape_lay() {
        assert!(station(" at the foot", 2000.0) < 0.1);
        assert!(station(" at the head", 2000.0) > 0.9);
        assert!((station(" at 500 mm", 2000.0) - 0.25).abs() < 1e-9);
        assert!((station("", 2000.0) - 0.5).abs() < 1e-9);
    }

    #[test]
    fn a_heavy_pane_wants_more_hands() {
        assert_eq!(handling(20.0), Handling::One);
        assert_eq!(handling(44.0), Handling::Two);
        assert_eq!(handling(250.0), Handling::Lifter);
    }
}
