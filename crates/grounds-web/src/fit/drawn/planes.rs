//! Pieces that stand by one control line, through rooms and storeys.

use std::collections::BTreeMap;

use grounds_draw::{PlaneLayout, PlanePiece};
use grounds_fit::plane::{Can, Held, Mark, Seat, shim};
use grounds_lines::{
    answers::{Answer, Answers, Verdict},
    lines::NeedKind,
    said,
};
use grounds_model::{Id, Job, Relation, Target};
use grounds_site::{Subject, words};

use super::{Drawing, plain, verdict};

/// The thickest shim that goes behind a piece, in millimetres: more is a packer, which the trade
/// decides on (common practice).
const THICKEST: f64 = 12.0;

/// A shim thinner than this is none, in millimetres.
const NO_SHIM: f64 = 0.25;

/// The control line that a piece must be in plane with.
pub(crate) fn control_of(job: &Job, piece: &Id) -> Option<Id> {
    let align = &job.pieces.get(piece)?.align;
    let mut in_plane = align.iter().filter(|align| align.how == Relation::InPlane);
    in_plane.find_map(|align| match job.resolve(&align.with) {
        Some(Target::Control(id)) => Some(id),
        _ => None,
    })
}

/// Every control line that two or more pieces stand by.
pub(crate) fn planes(drawing: &Drawing<'_>, answers: &Answers) -> BTreeMap<Id, PlaneLayout> {
    let job = drawing.lines.job;
    let mut found: BTreeMap<Id, Vec<(&Id, &Answer)>> = BTreeMap::new();
    for answer in &answers.answers {
        let piece = job.pieces.get_key_value(answer.about.as_str());
        if let (NeedKind::InPlane, Some((piece, _)), Some(_)) = (answer.kind, piece, answer.figures)
            && let Some(control) = control_of(job, piece)
        {
            found.entry(control).or_default().push((piece, answer));
        }
    }
    found.retain(|_, pieces| pieces.len() > 1);
    found
        .into_iter()
        .map(|(control, pieces)| {
            let layout = layout(drawing, &control, pieces);
            (control, layout)
        })
        .collect()
}

fn layout(drawing: &Drawing<'_>, control: &Id, mut pieces: Vec<(&Id, &Answer)>) -> PlaneLayout {
    let job = drawing.lines.job;
    let height = |piece: &Id| {
        let place = job.pieces.get(piece).map(|piece| &piece.place);
        let level = place.and_then(|place| job.places.get(place));
        let level = level.and_then(|place| job.levels.get(&place.level));
        level.map_or(0.0, |level| level.height.mm())
    };
    pieces.sort_by(|a, b| height(b.0).total_cmp(&height(a.0)).then(a.0.cmp(b.0)));
    let name = job.controls.get(control).map_or_else(
        || control.to_string(),
        |control| words::with_article(&control.name),
    );
    let shims = shims(drawing, &pieces, height);
    let worst = pieces
        .iter()
        .filter(|(_, answer)| answer.verdict != Verdict::Holds)
        .count();
    let limit = pieces.iter().filter_map(|(_, answer)| within(answer));
    let limit = limit.fold(f64::INFINITY, f64::min);
    let limit = limit.is_finite().then_some(limit);
    PlaneLayout {
        title: format!("{}: {} pieces", words::capital(&name), pieces.len()),
        said: match worst {
            0 => "All of them will be in plane".to_owned(),
            1 => "One of them is not sure to be in plane".to_owned(),
            n => format!("{n} of them are not sure to be in plane"),
        },
        plane_words: plain(&name),
        limit_words: limit.map_or_else(String::new, |limit| {
            format!(
                "the light band is what is wanted, {} to each side",
                drawing.figure(limit)
            )
        }),
        limit,
        pieces: pieces
            .iter()
            .zip(shims)
            .map(|((piece, answer), shim)| of_piece(drawing, piece, answer, shim))
            .collect(),
    }
}

fn of_piece(drawing: &Drawing<'_>, piece: &Id, answer: &Answer, shim: f64) -> PlanePiece {
    let job = drawing.lines.job;
    let name = job.pieces.get(piece).map_or("", |piece| &piece.name);
    let off = middle(answer);
    let side = if off < 0.0 { "behind" } else { "proud" };
    let figure = said::length(off, drawing.lines.units());
    let flush = figure == said::length(0.0, drawing.lines.units());
    let shim = if shim < NO_SHIM { 0.0 } else { shim };
    PlanePiece {
        name: words::plain(name),
        off,
        off_words: if flush {
            "in plane".to_owned()
        } else {
            format!("{} {side}", drawing.figure(off))
        },
        shim_words: if shim > 0.0 {
            format!("shim {}", drawing.figure(shim))
        } else {
            String::new()
        },
        shim,
        verdict: verdict(answer.verdict),
    }
}

/// Where it lands, off the middle of what is wanted.
fn middle(answer: &Answer) -> f64 {
    let mean = answer.figures.map_or(0.0, |figures| figures.mean);
    match answer.limits {
        (Some(least), Some(most)) => mean - f64::midpoint(least, most),
        _ => mean,
    }
}

fn within(answer: &Answer) -> Option<f64> {
    let (least, most) = (answer.limits.0?, answer.limits.1?);
    Some((most - least) / 2.0)
}

/// The shims that bring all of them into one plane, as far as that can be done.
fn shims(
    drawing: &Drawing<'_>,
    pieces: &[(&Id, &Answer)],
    height: impl Fn(&Id) -> f64,
) -> Vec<f64> {
    let seats: Vec<Seat> = pieces
        .iter()
        .enumerate()
        .map(|(index, (piece, answer))| {
            let state = drawing.lines.site.state(&Subject::Piece((*piece).clone()));
            Seat {
                piece: index,
                mark: Mark {
                    along: 0.0,
                    up: height(piece),
                    off: middle(answer),
                },
                can: match (state.done.is_some(), within(answer)) {
                    (true, within) => Can::Stay(within.unwrap_or(THICKEST)),
                    (false, _) => Can::Shim(THICKEST),
                },
            }
        })
        .collect();
    match shim(&seats, Held::Parallel) {
        Ok(shimmed) => shimmed.shims,
        Err(_) => vec![0.0; pieces.len()],
    }
}
