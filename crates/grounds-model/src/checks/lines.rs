//! Control lines, structure, settings, thresholds, flights and lines by hand: they name what
//! exists, their limits are the right way round, and nothing is placed by itself.

use std::collections::BTreeSet;

use grounds_measure::Length;

use super::{Notes, places, refs, step};
use crate::{
    id::{Id, Ref},
    job::Job,
    line::{Line, Setting},
    nearest::{listed, mend_by_name},
    view::Target,
};

/// The most risers of one flight; building codes allow far fewer between landings.
const MOST_RISERS: u32 = 60;

pub(super) fn check(job: &Job, notes: &mut Notes<'_, '_>) {
    check_controls(job, notes);
    check_structures(job, notes);
    check_settings(job, notes);
    check_openings(job, notes);
    check_passages(job, notes);
    check_flights(job, notes);
    for (key, line) in &job.lines {
        if notes.full() {
            return;
        }
        check_line(job, key, line, notes);
    }
}

/// A tolerance is a distance: how far something may be off either way.
fn not_below_zero(value: Option<Length>, path: &[&str], notes: &mut Notes<'_, '_>) {
    if value.is_some_and(Length::is_negative) {
        let what = "a tolerance below zero can never be kept";
        notes.error(
            path,
            what,
            "write how far it may be off either way, like \"2 mm\"",
        );
    }
}

fn in_order(
    least: Option<Length>,
    most: Option<Length>,
    path: &[&str],
    notes: &mut Notes<'_, '_>,
) -> bool {
    let (Some(low), Some(high)) = (least, most) else {
        return true;
    };
    if low <= high {
        return true;
    }
    notes.error(
        &step(path, &["least"]),
        format!("the least, {low}, is more than the most, {high}"),
        "swap the two",
    );
    false
}

fn check_controls(job: &Job, notes: &mut Notes<'_, '_>) {
    for (key, control) in &job.controls {
        let path = ["controls", key.as_str()];
        not_below_zero(control.within, &step(&path, &["within"]), notes);
        let Some(level) = &control.level else {
            if control.height.is_some() {
                let mend = "add level = \"…\", the storey whose finished floor it is measured from";
                notes.error(
                    &step(&path, &["height"]),
                    "a height over no storey in particular",
                    mend,
                );
            }
            continue;
        };
        if !job.levels.contains_key(level) {
            let levels = || job.levels.keys().map(|level| level.as_str());
            let otherwise = format!("known are {}", listed(levels()));
            let mend = mend_by_name(level.as_str(), levels(), &otherwise);
            notes.error(
                &step(&path, &["level"]),
                format!("there is no level `{level}`"),
                mend,
            );
        }
    }
    for (key, level) in &job.levels {
        not_below_zero(level.within, &["levels", key.as_str(), "within"], notes);
    }
}

fn check_structures(job: &Job, notes: &mut Notes<'_, '_>) {
    for (place_key, place) in &job.places {
        for (face_key, face) in &place.faces {
            let Some(structure) = &face.structure else {
                continue;
            };
            let path = [
                "places",
                place_key.as_str(),
                "faces",
                face_key.as_str(),
                "structure",
            ];
            not_below_zero(structure.within, &step(&path, &["within"]), notes);
            let Some(from) = &structure.from else {
                continue;
            };
            let from_path = step(&path, &["from"]);
            match refs::target(job, from, &from_path, notes) {
                None | Some(Target::Control(_)) => {}
                Some(Target::Face { .. } | Target::Layer(_)) => {
                    if stands_on_itself(job, (place_key, face_key)) {
                        notes.error(
                            &from_path,
                            "this face is built on itself",
                            "name the face or layer that was there before it",
                        );
                    }
                }
                Some(_) => notes.error(
                    &from_path,
                    format!("no structure is placed by `{from}`"),
                    "name a control line, a face or a layer",
                ),
            }
        }
    }
}

/// Whether following what a face is built on leads back to a face already passed.
fn stands_on_itself(job: &Job, (place, face): (&Id, &Id)) -> bool {
    let mut passed: BTreeSet<(Id, Id)> = BTreeSet::new();
    let mut at = (place.clone(), face.clone());
    while passed.insert(at.clone()) {
        let from = job
            .face(at.0.as_str(), at.1.as_str())
            .and_then(|face| face.structure.as_ref())
            .and_then(|structure| structure.from.as_ref());
        at = match from.and_then(|from| job.resolve(from)) {
            Some(Target::Face { place, face }) => (place, face),
            Some(Target::Layer(key)) => (key.place, key.face),
            _ => return false,
        };
    }
    true
}

fn check_settings(job: &Job, notes: &mut Notes<'_, '_>) {
    for (key, piece) in &job.pieces {
        let path = ["pieces", key.as_str()];
        not_below_zero(piece.size_within, &step(&path, &["size_within"]), notes);
        let mut ways = BTreeSet::new();
        for (at, setting) in piece.set.iter().enumerate() {
            let at = at.to_string();
            let path = step(&path, &["set", &at]);
            if !ways.insert(setting.along) {
                notes.error(
                    &step(&path, &["along"]),
                    "it is set twice the same way",
                    "keep one setting for each way: out, up, across",
                );
            }
            check_setting(job, key, setting, &path, notes);
        }
    }
}

fn check_setting(
    job: &Job,
    piece: &Id,
    setting: &Setting,
    path: &[&str],
    notes: &mut Notes<'_, '_>,
) {
    not_below_zero(setting.within, &step(path, &["within"]), notes);
    if in_order(setting.least, setting.most, path, notes)
        && let Some(at) = setting.at
        && (setting.least.is_some_and(|least| at < least)
            || setting.most.is_some_and(|most| at > most))
    {
        notes.error(
            &step(path, &["at"]),
            format!("{at} lies outside what it can be set to"),
            "widen least and most, or set it within them",
        );
    }
    let Some(from) = &setting.from else { return };
    let from_path = step(path, &["from"]);
    match refs::target(job, from, &from_path, notes) {
        Some(Target::Piece(other)) if other == *piece => notes.error(
            &from_path,
            "a piece is set from itself",
            "name what the tape is held against",
        ),
        None
        | Some(Target::Control(_) | Target::Face { .. } | Target::Layer(_) | Target::Piece(_)) => {}
        Some(_) => notes.error(
            &from_path,
            format!("nothing is set from `{from}`"),
            "name a control line, a face, a layer or a piece",
        ),
    }
}

fn check_openings(job: &Job, notes: &mut Notes<'_, '_>) {
    for (key, opening) in &job.openings {
        let path = ["openings", key.as_str()];
        not_below_zero(opening.within, &step(&path, &["within"]), notes);
        if let (Some(clearance), Some(most)) = (opening.clearance, opening.most)
            && clearance > most
        {
            notes.error(
                &step(&path, &["most"]),
                format!("the widest gap, {most}, is less than the clearance, {clearance}"),
                "write the widest gap that can still be closed",
            );
        }
        let Some(lined) = &opening.lined else {
            continue;
        };
        for (side, lining) in lined.sides() {
            let Some(lining) = lining else { continue };
            let path = step(&path, &["lined", side]);
            match refs::target(job, lining, &path, notes) {
                None | Some(Target::Face { .. } | Target::Layer(_)) => {}
                Some(_) => notes.error(
                    &path,
                    format!("no side is lined by `{lining}`"),
                    "name a face, or a layer of one",
                ),
            }
        }
    }
}

fn check_passages(job: &Job, notes: &mut Notes<'_, '_>) {
    for (key, passage) in &job.passages {
        let Some(threshold) = &passage.threshold else {
            continue;
        };
        let path = ["passages", key.as_str(), "threshold", "within"];
        not_below_zero(Some(threshold.within), &path, notes);
    }
}

fn check_flights(job: &Job, notes: &mut Notes<'_, '_>) {
    for (key, place) in &job.places {
        let Some(flight) = &place.flight else {
            continue;
        };
        let path = ["places", key.as_str(), "flight"];
        places::known(job, flight.foot.as_str(), &step(&path, &["foot"]), notes);
        places::known(job, flight.head.as_str(), &step(&path, &["head"]), notes);
        not_below_zero(flight.within, &step(&path, &["within"]), notes);
        not_below_zero(
            flight.most_difference,
            &step(&path, &["most_difference"]),
            notes,
        );
        if flight.foot == flight.head {
            notes.error(
                &step(&path, &["head"]),
                "this flight leads back to where it begins",
                "name the place at its head",
            );
        }
        if !(1..=MOST_RISERS).contains(&flight.risers) {
            notes.error(
                &step(&path, &["risers"]),
                format!("a flight of {} risers", flight.risers),
                format!("write how many rises there are, 1 to {MOST_RISERS}"),
            );
        }
        if !flight.rise.is_positive() {
            notes.error(
                &step(&path, &["rise"]),
                "a rise that does not rise",
                "write the framed rise, like \"190 mm\"",
            );
        }
    }
}

fn check_line(job: &Job, key: &Id, line: &Line, notes: &mut Notes<'_, '_>) {
    let path = ["lines", key.as_str()];
    for (point, what) in &line.points {
        let Some(on) = &what.on else { continue };
        let path = step(&path, &["points", point.as_str(), "on"]);
        match refs::target(job, on, &path, notes) {
            None
            | Some(
                Target::Control(_) | Target::Face { .. } | Target::Layer(_) | Target::Piece(_),
            ) => {}
            Some(_) => notes.error(
                &path,
                format!("`{on}` is no plane"),
                "name a face, a layer, a piece or a control line",
            ),
        }
    }
    for (link, what) in &line.links {
        let path = step(&path, &["links", link.as_str()]);
        check_ends(line, (&what.from, &what.to), &path, notes);
        in_order(what.least, what.most, &path, notes);
        for (name, value) in [
            ("plus", what.plus),
            ("minus", what.minus),
            ("within", what.within),
        ] {
            not_below_zero(value, &step(&path, &[name]), notes);
        }
        check_about(job, what.about.as_ref(), &path, notes);
    }
    for (need, what) in &line.needs {
        let path = step(&path, &["needs", need.as_str()]);
        check_ends(line, (&what.from, &what.to), &path, notes);
        in_order(what.least, what.most, &path, notes);
        if what.least.is_none() && what.most.is_none() {
            notes.error_at_key(
                &path,
                "this need wants nothing",
                "add least = \"…\", most = \"…\", or both",
            );
        }
        check_about(job, what.about.as_ref(), &path, notes);
    }
}

fn check_about(job: &Job, about: Option<&Ref>, path: &[&str], notes: &mut Notes<'_, '_>) {
    if let Some(about) = about {
        refs::target(job, about, &step(path, &["about"]), notes);
    }
}

/// Both ends are points of the line, and not the same.
fn check_ends(line: &Line, (from, to): (&Id, &Id), path: &[&str], notes: &mut Notes<'_, '_>) {
    for (name, end) in [("from", from), ("to", to)] {
        if line.points.contains_key(end) {
            continue;
        }
        let known = || line.points.keys().map(|key| key.as_str());
        let otherwise = format!("the points of this line are {}", listed(known()));
        let mend = mend_by_name(end.as_str(), known(), &otherwise);
        notes.error(
            &step(path, &[name]),
            format!("the line has no point `{end}`"),
            mend,
        );
    }
    if from == to {
        notes.error(
            &step(path, &["to"]),
            "both ends are the same point",
            "name the point at the other end",
        );
    }
}
