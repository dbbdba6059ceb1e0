//! What is drawn of an answer that was asked for by hand, and what a job knows beforehand.

use std::collections::BTreeMap;

use grounds_draw::{
    CutLayout, FloorFinish, Hatch, Medium, PlaneLayout, PlanePiece, Rise, SpacingKind,
    SpacingLayout, SpacingPart, StairLayout, StockCut, StockLength, Verdict, cut_layout,
    plane_layout, spacing_layout, stair_layout,
};
use grounds_fit::wood::Species;
use grounds_lines::{
    asked::{Answer, BarCut, Drawn, Faced, PartKind, Question, Run, Stepped, Typed},
    said,
};
use grounds_measure::{Length, Rounding, Step, Units};
use grounds_model::{FaceKind, Id, Job};
use grounds_site::words;

use super::{
    Fit,
    drawn::{bare, units as drawn_units},
};

/// The most ways of cutting that are drawn.
const CUTS: usize = 24;

/// The drawing of an answer.
pub(crate) fn drawing(question: Question, answer: &Answer, units: Units, medium: Medium) -> String {
    let title = question.title();
    match &answer.drawn {
        Drawn::Run(run) => spacing_layout(&run_layout(question, run, answer, units), medium),
        Drawn::Flight(flight) => stair_layout(&flight_layout(title, flight, answer, units), medium),
        Drawn::Cuts { kerf, bars } => {
            cut_layout(&cuts_layout(title, (*kerf, bars), answer, units), medium)
        }
        Drawn::Plane { pieces, limit } => {
            plane_layout(&plane_of(title, pieces, *limit, (answer, units)), medium)
        }
    }
}

/// A figure on the drawing: to a tenth of a millimetre, or as the tape reads.
fn figure(length: Length, units: Units) -> String {
    bare(&match units {
        Units::Metric => {
            said::signed_exact(length.round_to(Step::TENTH_MM, Rounding::Nearest), units)
        }
        Units::Imperial => said::length(length.mm(), units),
    })
}

fn run_layout(question: Question, run: &Run, answer: &Answer, units: Units) -> SpacingLayout {
    SpacingLayout {
        title: question.title().to_owned(),
        said: answer.said.clone(),
        units: drawn_units(units),
        run: run.length.mm(),
        run_words: figure(run.length, units),
        hatch: match question {
            Question::Boards => Hatch::Tile,
            Question::Pocket => Hatch::Glass,
            _ => Hatch::Timber,
        },
        parts: run
            .parts
            .iter()
            .map(|part| SpacingPart {
                kind: match part.kind {
                    PartKind::Whole => SpacingKind::Whole,
                    PartKind::Cut => SpacingKind::Cut,
                    PartKind::Gap => SpacingKind::Gap,
                },
                from: part.from.mm(),
                to: part.to.mm(),
                words: figure(part.to - part.from, units),
            })
            .collect(),
        notes: Vec::new(),
    }
}

fn flight_layout(title: &str, flight: &Stepped, answer: &Answer, units: Units) -> StairLayout {
    let least = flight.risers.iter().copied().min().unwrap_or_default();
    let most = flight.risers.iter().copied().max().unwrap_or_default();
    let uneven = flight.differ > flight.allowed;
    let [foot, tread, head] = flight.finishes;
    let floor = |thickness: Length, what: &str| FloorFinish {
        words: if thickness.is_positive() {
            format!("{what} {}", figure(thickness, units))
        } else {
            String::new()
        },
        thickness: thickness.mm(),
        hatch: Hatch::Timber,
    };
    StairLayout {
        title: title.to_owned(),
        said: answer.said.clone(),
        rises: flight
            .risers
            .iter()
            .map(|riser| Rise {
                height: riser.mm(),
                words: figure(*riser, units),
                marked: uneven && (*riser == least || *riser == most),
            })
            .collect(),
        going: 250.0,
        going_words: String::new(),
        below: floor(foot, "floor"),
        above: floor(head, "floor"),
        treads: floor(tread, "treads"),
        total_words: format!(
            "{} floor to floor",
            figure(flight.risers.iter().sum(), units)
        ),
        difference_words: format!(
            "largest less smallest {}; at most {}",
            figure(flight.differ, units),
            figure(flight.allowed, units)
        ),
        verdict: if answer.does {
            Verdict::Holds
        } else {
            Verdict::Fails
        },
    }
}

fn cuts_layout(
    title: &str,
    (kerf, bars): (Length, &[BarCut]),
    answer: &Answer,
    units: Units,
) -> CutLayout {
    let stock = |bar: &BarCut| StockLength {
        words: format!(
            "{} of {}",
            if bar.count == 1 {
                "1 length".to_owned()
            } else {
                format!("{} lengths", bar.count)
            },
            figure(bar.stock, units)
        ),
        length: bar.stock.mm(),
        cuts: bar
            .pieces
            .iter()
            .map(|(length, name)| StockCut {
                length: length.mm(),
                words: format!("{} {name}", figure(*length, units))
                    .trim_end()
                    .to_owned(),
            })
            .collect(),
        offcut_words: if bar.left.is_positive() {
            format!("left {}", figure(bar.left, units))
        } else {
            String::new()
        },
    };
    CutLayout {
        title: title.to_owned(),
        said: answer.said.clone(),
        hatch: Hatch::Timber,
        kerf: kerf.mm(),
        stocks: bars.iter().take(CUTS).map(stock).collect(),
    }
}

fn plane_of(
    title: &str,
    pieces: &[Faced],
    limit: f64,
    (answer, units): (&Answer, Units),
) -> PlaneLayout {
    let figure = |mm: f64| bare(&said::length(mm, units));
    let piece = |piece: &Faced| PlanePiece {
        name: piece.name.clone(),
        off: piece.off,
        off_words: if piece.off.abs() < 0.05 {
            "in plane".to_owned()
        } else if piece.off < 0.0 {
            format!("{} behind", figure(piece.off))
        } else {
            format!("{} proud", figure(piece.off))
        },
        shim: piece.shim,
        shim_words: if piece.shim > 0.0 {
            format!("shim {}", figure(piece.shim))
        } else {
            String::new()
        },
        verdict: if piece.seen {
            Verdict::Fails
        } else {
            Verdict::Holds
        },
    };
    PlaneLayout {
        title: title.to_owned(),
        said: answer.said.clone(),
        plane_words: "plane of the faces".to_owned(),
        pieces: pieces.iter().map(piece).collect(),
        limit: Some(limit),
        limit_words: format!(
            "the light band is what the eye is let off with, {} to each side",
            figure(limit)
        ),
    }
}

/// Something of the job that fills a form.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Known {
    /// What it is called.
    pub(crate) name: String,
    /// What it fills in.
    pub(crate) typed: Typed,
}

/// The most things of a job that are offered.
const OFFERED: usize = 8;

/// What the job knows that a question asks for.
pub(crate) fn known(question: Question, job: &Job, fit: &Fit) -> Vec<Known> {
    let mut found = match question {
        Question::Risers => flights(job),
        Question::Shims => planes(job, fit),
        Question::Wood => floors(job),
        Question::Cuts => openings(fit),
        Question::Gaps | Question::Boards | Question::Pocket => Vec::new(),
    };
    found.truncate(OFFERED);
    found
}

fn filled(pairs: &[(&str, String)]) -> Typed {
    let pairs = pairs.iter();
    pairs
        .map(|(key, text)| ((*key).to_owned(), text.clone()))
        .collect()
}

/// The risers of every flight as framed, and the finishes on its floors and treads.
fn flights(job: &Job) -> Vec<Known> {
    let flights = job.places.iter().filter_map(|(id, place)| {
        let flight = place.flight.as_ref()?;
        let first = flight.first.unwrap_or(flight.rise);
        let others = flight.risers.saturating_sub(1);
        let mut typed = filled(&[
            ("built", format!("1 x {first}\n{others} x {}", flight.rise)),
            ("foot", finish(job, &flight.foot).to_string()),
            ("tread", finish(job, id).to_string()),
            ("head", finish(job, &flight.head).to_string()),
        ]);
        if let Some(most) = flight.most_difference {
            typed.insert("differ".to_owned(), most.to_string());
        }
        Some(Known {
            name: words::plain(&place.name),
            typed,
        })
    });
    flights.collect()
}

/// The thickness of all layers of the floor of a place.
fn finish(job: &Job, place: &Id) -> Length {
    let faces = job.places.get(place).map(|place| &place.faces);
    let floor = faces
        .into_iter()
        .flatten()
        .find(|(_, face)| face.kind == FaceKind::Floor);
    let layers = floor.map_or_else(Vec::new, |(key, _)| job.layers_of(place, key));
    layers
        .iter()
        .filter_map(|key| job.layer(key))
        .filter(|layer| !layer.between)
        .filter_map(|layer| layer.thickness.as_ref())
        .map(|thickness| thickness.nominal())
        .sum()
}

/// What pieces by one control line were found to be off it.
fn planes(job: &Job, fit: &Fit) -> Vec<Known> {
    let planes = fit.planes.iter().map(|(id, layout)| {
        let line = |(index, piece): (usize, &PlanePiece)| {
            let off = Length::from_mm_f64((piece.off * 10.0).round() / 10.0).unwrap_or_default();
            // Signs that part figures become spaces, so that the name reads back.
            let name = piece.name.replace([',', ':', ';'], " ");
            let name = name.split_whitespace().collect::<Vec<_>>().join(" ");
            // Pieces stand in their order, a storey apart: by a parallel plane height tells nothing.
            let up = layout.pieces.len() - 1 - index;
            format!("{name}: 0, {up} m, {} mm", off.mm())
        };
        let pieces = layout.pieces.iter().enumerate().map(line);
        Known {
            name: job
                .controls
                .get(id)
                .map_or_else(|| id.to_string(), |control| words::plain(&control.name)),
            typed: filled(&[("marks", pieces.collect::<Vec<_>>().join("\n"))]),
        }
    });
    planes.collect()
}

/// Floors whose boards say which wood they are of.
fn floors(job: &Job) -> Vec<Known> {
    let mut found = BTreeMap::new();
    for (id, place) in &job.places {
        let floors = place
            .faces
            .iter()
            .filter(|(_, face)| face.kind == FaceKind::Floor);
        let layers = floors.flat_map(|(key, _)| job.layers_of(id, key));
        for key in layers {
            let name = job
                .layer(&key)
                .map_or_else(String::new, |layer| layer.name.to_lowercase());
            let woods = Species::ALL.iter();
            if let Some(wood) = woods.clone().find(|wood| name.contains(wood.name)) {
                let typed = filled(&[("species", wood.name.to_owned())]);
                let name = words::plain(&place.name);
                found.entry(name.clone()).or_insert(Known { name, typed });
            }
        }
    }
    found.into_values().collect()
}

/// Linings of openings whose size is known: two sides and a head.
fn openings(fit: &Fit) -> Vec<Known> {
    let openings = fit.openings.values().filter_map(|sheet| {
        let made = sheet.made?;
        Some(Known {
            name: sheet.name.clone(),
            typed: filled(&[(
                "pieces",
                format!("side: 2 x {}\nhead: 1 x {}", made.second(), made.first()),
            )]),
        })
    });
    openings.collect()
}
