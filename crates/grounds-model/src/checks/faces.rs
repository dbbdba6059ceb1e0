//! Faces: with a build-up that exists, that the job's trades can do, of a known area.

use std::collections::BTreeSet;

use grounds_measure::{Quantity, QuantityKind, Span};

use super::{Notes, step, trades};
use crate::{
    build_up::{BuildUp, Layer},
    id::Id,
    job::Job,
    library::Library,
    nearest::{listed, nearest},
    place::{Face, Place},
};

pub(super) fn check(job: &Job, notes: &mut Notes<'_, '_>) {
    let mut looked_at: BTreeSet<&str> = BTreeSet::new();
    for (place_key, place) in &job.places {
        if notes.full() {
            return;
        }
        for (face_key, face) in &place.faces {
            let path = ["places", place_key.as_str(), "faces", face_key.as_str()];
            let Some(build_up) = job.build_up(face) else {
                unknown_build_up(job, face, &step(&path, &["build_up"]), notes);
                continue;
            };
            let own = job.build_ups.contains_key(&face.build_up);
            if !own && looked_at.insert(face.build_up.as_str()) {
                check_trades(job, face, build_up, &step(&path, &["build_up"]), notes);
            }
            check_quantities(job, (place_key, face_key), build_up, &path, notes);
            check_unbroken(job, (place_key, face_key), build_up, &path, notes);
        }
        check_shared_size(place_key, place, notes);
    }
}

fn unknown_build_up(job: &Job, face: &Face, path: &[&str], notes: &mut Notes<'_, '_>) {
    let library = Library::starter();
    let known = job
        .build_ups
        .keys()
        .chain(library.build_ups.keys())
        .map(|key| key.as_str());
    let wanted = face.build_up.as_str();
    let mend = match nearest(wanted, known.clone()) {
        Some(near) => format!("did you mean `{near}`? or add [build_ups.{wanted}]"),
        None => {
            // Keys that share a word are a better hint than the first of the alphabet.
            let words: Vec<&str> = wanted.split('-').filter(|word| word.len() > 3).collect();
            let alike: Vec<&str> = known
                .clone()
                .filter(|key| words.iter().any(|word| key.contains(word)))
                .collect();
            let hint = if alike.is_empty() {
                listed(known)
            } else {
                listed(alike)
            };
            format!("add [build_ups.{wanted}], or use one of {hint}")
        }
    };
    notes.error(
        path,
        format!("there is no build-up `{wanted}`, neither here nor in the library"),
        mend,
    );
}

fn check_trades(
    job: &Job,
    face: &Face,
    build_up: &BuildUp,
    path: &[&str],
    notes: &mut Notes<'_, '_>,
) {
    let wanted: BTreeSet<&Id> = build_up.layers.iter().map(|layer| &layer.trade).collect();
    for trade in wanted {
        if !job.trades.contains_key(trade) {
            let what = format!(
                "the build-up `{}` needs the trade `{trade}`, which the job does not have",
                face.build_up
            );
            notes.error(path, what, trades::mend(job, trade.as_str()));
        }
    }
}

fn check_quantities(
    job: &Job,
    (place, face): (&Id, &Id),
    build_up: &BuildUp,
    path: &[&str],
    notes: &mut Notes<'_, '_>,
) {
    // A size that cannot be read is reported by itself.
    if notes.was_mended(&["places", place.as_str(), "size"]) {
        return;
    }
    let by = |kind| {
        build_up
            .layers
            .iter()
            .find(|layer| layer.rate.is_some_and(|rate| rate.kind() == kind))
    };
    if let Some(layer) = by(QuantityKind::Area)
        && job.face_area(place.as_str(), face.as_str()).is_none()
    {
        let what = format!(
            "the layer `{}` is worked by area, but this face has none",
            layer.id
        );
        let mend = "add area = \"12 m2\" to the face, or size = \"4 m x 3 m x 2.5 m\" to its place";
        notes.error_at_key(path, what, mend);
    }
    if let Some(layer) = by(QuantityKind::Length)
        && job.face_length(place.as_str(), face.as_str()).is_none()
    {
        let what = format!(
            "the layer `{}` is worked by length, but this face has none",
            layer.id
        );
        let mend =
            "add length = \"14 m\" to the face, or size = \"4 m x 3 m x 2.5 m\" to its place";
        notes.error_at_key(path, what, mend);
    }
}

/// Notes unbroken work that no shift of its trade is long enough for.
fn check_unbroken(
    job: &Job,
    (place, face): (&Id, &Id),
    build_up: &BuildUp,
    path: &[&str],
    notes: &mut Notes<'_, '_>,
) {
    let together = job.worked_together(place, face);
    if together.first() != Some(face) {
        return;
    }
    for layer in build_up.layers.iter().filter(|layer| layer.unbroken) {
        let Some(calendar) = job.calendar_of(layer.trade.as_str()) else {
            continue;
        };
        let longest = calendar.longest_shift_minutes();
        let Some(minutes) = work_minutes(job, place, &together, layer) else {
            continue;
        };
        if longest > 0 && minutes > longest {
            let what = format!(
                "the layer `{}` takes {} and must not stop overnight, but the longest shift of `{}` has {}",
                layer.id,
                Span::Working(minutes),
                layer.trade,
                Span::Working(longest)
            );
            let mend = "split the face, write the rate of a larger crew, or give the trade a longer day with hours_on or extra";
            notes.error(&step(path, &["build_up"]), what, mend);
        }
    }
}

/// Work on some faces in one go, in minutes; nothing where the area or the calendar is missing.
fn work_minutes(job: &Job, place: &Id, faces: &[Id], layer: &Layer) -> Option<u32> {
    if let Some(takes) = layer.takes {
        return takes.minutes();
    }
    let rate = layer.rate?;
    let quantity = match rate.kind() {
        QuantityKind::Area => {
            let areas = faces
                .iter()
                .map(|face| job.face_area(place.as_str(), face.as_str()));
            Quantity::Area(areas.sum::<Option<_>>()?)
        }
        QuantityKind::Length => {
            let lengths = faces
                .iter()
                .map(|face| job.face_length(place.as_str(), face.as_str()));
            Quantity::Length(lengths.sum::<Option<_>>()?)
        }
        _ => return None,
    };
    let set_up = layer.set_up.and_then(Span::minutes).unwrap_or(0);
    rate.minutes_for(quantity)
        .map(|minutes| minutes.saturating_add(set_up))
}

/// Advises where several faces of one kind would each count the whole size of their place.
fn check_shared_size(place_key: &Id, place: &Place, notes: &mut Notes<'_, '_>) {
    let mut seen = BTreeSet::new();
    for (key, face) in place.faces.iter().filter(|(_, face)| face.area.is_none()) {
        if place.size.is_some() && !seen.insert(face.kind) {
            let what =
                "this face and another of its kind would each count the whole area of the place";
            let path = ["places", place_key.as_str(), "faces", key.as_str()];
            notes.add(
                crate::faults::Severity::Advice,
                crate::document::Aim::Key,
                &path,
                what,
                "give each face its own area",
            );
        }
    }
}
