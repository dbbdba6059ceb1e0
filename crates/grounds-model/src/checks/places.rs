//! Places and passages: on levels that exist, joined to places that exist, with a way in.

use std::collections::{BTreeMap, BTreeSet};

use super::Notes;
use crate::{
    job::Job,
    nearest::{listed, mend_by_name},
    place::OUTSIDE,
};

pub(super) fn check(job: &Job, notes: &mut Notes<'_, '_>) {
    for (key, place) in &job.places {
        if notes.full() {
            return;
        }
        let key = key.as_str();
        if !job.levels.contains_key(&place.level) {
            let levels = || job.levels.keys().map(|level| level.as_str());
            let otherwise = if job.levels.is_empty() {
                format!("add [levels.{}] with a name and a height", place.level)
            } else {
                format!("known are {}", listed(levels()))
            };
            let mend = mend_by_name(place.level.as_str(), levels(), &otherwise);
            let what = format!("there is no level `{}`", place.level);
            notes.error(&["places", key, "level"], what, mend);
        }
        if place.crews == 0 {
            let mend = "write how many crews fit at once, crews = 1 or more";
            notes.error(
                &["places", key, "crews"],
                "no crew can work in this place",
                mend,
            );
        }
    }
    for (key, passage) in &job.passages {
        if notes.full() {
            return;
        }
        let [from, to] = &passage.between;
        for (at, end) in [(0, from), (1, to)] {
            if end.as_str() != OUTSIDE {
                known(
                    job,
                    end.as_str(),
                    &["passages", key.as_str(), "between", &at.to_string()],
                    notes,
                );
            }
        }
        if from == to {
            let mend = "name the two places it joins, or one place and \"outside\"";
            notes.error(
                &["passages", key.as_str(), "between"],
                "this passage leads back to where it begins",
                mend,
            );
        }
    }
    // A way in may run through a passage whose fault is already reported.
    if !notes.any_mended("passages") && !notes.any_mended("places") {
        check_ways_in(job, notes);
    }
}

/// Notes a place that the job does not have.
pub(super) fn known(job: &Job, place: &str, path: &[&str], notes: &mut Notes<'_, '_>) {
    if job.places.contains_key(place) {
        return;
    }
    let known = || job.places.keys().map(|key| key.as_str());
    let otherwise = if job.places.is_empty() {
        format!("add [places.{place}]")
    } else {
        format!("known are {}", listed(known()))
    };
    let what = format!("there is no place `{place}`");
    notes.error(path, what, mend_by_name(place, known(), &otherwise));
}

fn check_ways_in(job: &Job, notes: &mut Notes<'_, '_>) {
    let reached = reached(job);
    let cut_off: Vec<&str> = job
        .places
        .keys()
        .map(|key| key.as_str())
        .filter(|key| *key != OUTSIDE && !reached.contains(key))
        .collect();
    if reached.is_empty() && !job.places.is_empty() {
        let mend = "write entrance = true on the place where people come in, or add a passage between it and \"outside\"";
        notes.error_at_key(&["places"], "there is no way into the house", mend);
        return;
    }
    for place in cut_off {
        let what = format!("nobody can get to `{place}`: no passage leads to it from an entrance");
        let mend = format!(
            "add a passage, like [passages.{place}-door] with kind = \"door\" and between = [\"{}\", \"{place}\"]",
            reached.iter().next().unwrap_or(&OUTSIDE)
        );
        notes.error_at_key(&["places", place], what, mend);
    }
}

/// The places that can be walked to from outside, with every passage open.
fn reached(job: &Job) -> BTreeSet<&str> {
    let mut joined: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for passage in job.passages.values() {
        let [from, to] = &passage.between;
        joined.entry(from.as_str()).or_default().push(to.as_str());
        joined.entry(to.as_str()).or_default().push(from.as_str());
    }
    let entrances = job.places.iter().filter(|(_, place)| place.entrance);
    let mut next: Vec<&str> = entrances.map(|(key, _)| key.as_str()).collect();
    next.extend(joined.get(OUTSIDE).into_iter().flatten());
    let mut reached = BTreeSet::new();
    while let Some(place) = next.pop() {
        if place != OUTSIDE && job.places.contains_key(place) && reached.insert(place) {
            next.extend(joined.get(place).into_iter().flatten());
        }
    }
    reached
}
