//! What to measure first: the figure that decides most, while it can still be read.

use std::collections::BTreeMap;

use grounds_fit::{
    adjust::Adjustment,
    measure_first::{self as measure, Candidate},
    net::PointId,
};
use grounds_model::{FaceKind, Id, LayerKey, PlaceKind, Ref, Target};
use grounds_site::{Subject, words::capital};

use super::{Answer, Part, Verdict};
use crate::{
    lines::{Lines, Source, moves_the_face},
    said,
};

/// What a reading is about, what is read, and between which points.
type Reading = (Ref, String, Option<(PointId, PointId)>);

/// Standard uncertainty of a reading still to be taken: half of 1/16 in, a tape or a laser over a
/// room (common practice), in millimetres.
const SIGMA: f64 = 0.79375;

/// A doubt that is not worth a walk.
const LEAST: f64 = 1e-4;

/// One thing to measure.
#[derive(Clone, Debug, PartialEq)]
pub struct ToMeasure {
    /// What it is about, as the note of the reading would say.
    pub about: Ref,
    /// What is read, for the middle of a sentence.
    pub what: String,
    /// The needs it would tell more about, by key.
    pub needs: Vec<String>,
    /// By how much it is expected to lower the doubt over those needs; a missing figure has no number
    /// and comes first.
    pub telling: Option<f64>,
    /// What it would change: each need by key, with its spread today and with the reading, in
    /// millimetres.
    pub changes: Vec<(String, f64, f64)>,
    /// The points it is read between.
    pub ends: Option<(PointId, PointId)>,
    /// The work that covers it, after which it cannot be read any more.
    pub before: Option<Ref>,
    /// What to do, as a sentence.
    pub said: String,
}

/// What to measure, the most telling first: what is missing altogether, then what makes the needs
/// unsure that do not hold.
#[must_use]
pub fn measure_first(
    lines: &Lines<'_>,
    adjusted: &Adjustment,
    answers: &[Answer],
) -> Vec<ToMeasure> {
    let mut found: BTreeMap<(Ref, String), ToMeasure> = BTreeMap::new();
    for answer in answers {
        for missing in &answer.missing {
            let key = (missing.about.clone(), missing.what.clone());
            let entry = found.entry(key).or_insert_with_key(|key| blank(lines, key));
            entry.needs.push(answer.key.clone());
        }
        if answer.verdict == Verdict::Holds {
            continue;
        }
        for part in &answer.parts {
            let Some((about, what, ends)) = to_read(lines, part) else {
                continue;
            };
            let key = (about, what);
            let entry = found.entry(key).or_insert_with_key(|key| blank(lines, key));
            entry.ends = ends;
            if !entry.needs.contains(&answer.key) {
                entry.needs.push(answer.key.clone());
            }
        }
    }
    let mut list: Vec<ToMeasure> = found.into_values().collect();
    weigh(lines, adjusted, &mut list);
    list.retain(|it| it.telling.is_none_or(|telling| telling > LEAST));
    list.sort_by(|a, b| {
        let rank = |it: &ToMeasure| it.telling.unwrap_or(f64::INFINITY);
        rank(b)
            .total_cmp(&rank(a))
            .then_with(|| a.what.cmp(&b.what))
    });
    for it in &mut list {
        it.said = sentence(lines, it);
    }
    list
}

fn blank(lines: &Lines<'_>, (about, what): &(Ref, String)) -> ToMeasure {
    ToMeasure {
        before: cover_of(lines, about),
        about: about.clone(),
        what: what.clone(),
        needs: Vec::new(),
        telling: None,
        changes: Vec::new(),
        ends: None,
        said: String::new(),
    }
}

/// What each reading would change, by the net.
fn weigh(lines: &Lines<'_>, adjusted: &Adjustment, list: &mut [ToMeasure]) {
    for it in list {
        let Some((from, to)) = it.ends else { continue };
        let candidate = Candidate {
            from,
            to,
            sigma: SIGMA,
        };
        let gains = measure::measure_first(&lines.net, adjusted, &[candidate]);
        let Some(gain) = gains.first() else {
            it.telling = Some(0.0);
            continue;
        };
        it.telling = Some(gain.doubt);
        let needs = gain.needs.iter();
        it.changes = needs
            .filter(|need| need.doubt > LEAST)
            .filter_map(|need| {
                let mut all = lines.wanted.iter();
                let wanted = all.find(|wanted| wanted.id == Some(need.need))?;
                Some((wanted.key.clone(), need.spread, need.spread_after))
            })
            .collect();
    }
}

/// What would be read to know a part better, if it can be read at all: a floor by its level as it
/// stands, a layer while nothing covers it, an opening, a piece that is here and not set.
fn to_read(lines: &Lines<'_>, part: &Part) -> Option<Reading> {
    if part.source != Source::Design {
        return None;
    }
    let link = lines.net.links.get(part.link.index())?;
    let ends = Some((link.from, link.to));
    let as_it_is = || Some((part.about.clone(), part.name.clone(), ends));
    match lines.job.resolve(&part.about)? {
        Target::Layer(key) => {
            let state = lines.site.state(&Subject::Layer(key.clone()));
            state.done?;
            if is_floor(lines, &key.place, &key.face) {
                return Some(level_of(lines, &key.place, &key.face));
            }
            cover_is_open(lines, &part.about).then(as_it_is)?
        }
        Target::Face { place, face } if is_floor(lines, &place, &face) => {
            Some(level_of(lines, &place, &face))
        }
        Target::Face { place, face } => {
            let layers = lines.job.layers_of(&place, &face);
            let bare = layers.iter().all(|key| {
                let state = lines.site.state(&Subject::Layer(key.clone()));
                state.done.is_none() || !lines.job.layer(key).is_some_and(moves_the_face)
            });
            bare.then(as_it_is)?
        }
        Target::Piece(id) => {
            let state = lines.site.state(&Subject::Piece(id));
            let here = state.arrived.is_some() && state.done.is_none();
            (here && !part.open).then(as_it_is)?
        }
        Target::Opening(_) | Target::Line(_) => as_it_is(),
        _ => None,
    }
}

fn is_floor(lines: &Lines<'_>, place: &Id, face: &Id) -> bool {
    let face = lines.job.face(place.as_str(), face.as_str());
    face.is_some_and(|face| face.kind == FaceKind::Floor)
        && lines
            .job
            .places
            .get(place)
            .is_some_and(|place| place.kind != PlaceKind::Stair)
}

fn level_of(lines: &Lines<'_>, place: &Id, face: &Id) -> Reading {
    let what = format!(
        "the level of {} as it stands",
        said::face(lines.job, place, face)
    );
    let line = lines.faces.get(&(place.clone(), face.clone()));
    let level = lines.job.places.get(place).map(|place| &place.level);
    let level = level.and_then(|level| lines.levels.get(level));
    let ends = level
        .zip(line)
        .map(|(level, line)| (*level, line.as_of(lines.site.at)));
    (Ref(format!("{place}.{face}")), what, ends)
}

/// Whether what covers a layer is not on yet.
pub(crate) fn cover_is_open(lines: &Lines<'_>, about: &Ref) -> bool {
    let Some(Target::Layer(key)) = lines.job.resolve(about) else {
        return true;
    };
    let layers = lines.job.layers_of(&key.place, &key.face);
    let above = layers.iter().skip_while(|layer| **layer != key).skip(1);
    let mut thick = above.filter(|layer| lines.job.layer(layer).is_some_and(moves_the_face));
    thick.next().is_none_or(|layer| {
        let state = lines.site.state(&Subject::Layer(layer.clone()));
        state.done.is_none()
    })
}

/// The work not done yet that covers something.
pub(crate) fn cover_of(lines: &Lines<'_>, about: &Ref) -> Option<Ref> {
    let open = |key: &LayerKey| {
        let state = lines.site.state(&Subject::Layer(key.clone()));
        state.done.is_none()
    };
    let covers = |key: &LayerKey| {
        lines
            .job
            .layer(key)
            .is_some_and(|layer| layer.thickness.is_some())
    };
    match lines.job.resolve(about)? {
        Target::Layer(key) => {
            let layers = lines.job.layers_of(&key.place, &key.face);
            let above = layers.iter().skip_while(|layer| **layer != key).skip(1);
            let mut above = above.filter(|key| open(key) && covers(key));
            above.next().map(|key| Ref(key.to_string()))
        }
        Target::Face { place, face } => {
            let layers = lines.job.layers_of(&place, &face);
            let mut layers = layers.iter().filter(|key| open(key) && covers(key));
            layers.next().map(|key| Ref(key.to_string()))
        }
        Target::Piece(id) => {
            let piece = lines.job.pieces.get(&id)?;
            let mut before = piece
                .before
                .iter()
                .filter(|before| match lines.job.resolve(before) {
                    Some(Target::Layer(key)) => open(&key),
                    Some(Target::Piece(id)) => lines.site.state(&Subject::Piece(id)).done.is_none(),
                    _ => false,
                });
            before.next().cloned()
        }
        Target::Opening(id) => {
            let opening = lines.job.openings.get(&id)?;
            let lined = opening.lined.as_ref()?;
            let mut sides = lined.sides().into_iter().filter_map(|(_, side)| side);
            sides.find_map(|side| match lines.job.resolve(side)? {
                Target::Face { .. } => cover_of(lines, side),
                Target::Layer(key) => open(&key).then(|| side.clone()),
                _ => None,
            })
        }
        _ => None,
    }
}

fn sentence(lines: &Lines<'_>, it: &ToMeasure) -> String {
    let count = match it.needs.len() {
        1 => "one fit hangs on it".to_owned(),
        many => format!("{many} fits hang on it"),
    };
    let before = it.before.as_ref().map_or_else(String::new, |before| {
        format!(", before {} covers it", lines.with_said(before))
    });
    format!(
        "{}: {count}{before}.",
        capital(&format!("measure {}", said::lower_first(&it.what)))
    )
}
