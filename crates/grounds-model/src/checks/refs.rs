//! References: what they point at exists, and is something that can be waited for.

use super::{Notes, names, step};
use crate::{
    id::Ref,
    job::Job,
    nearest::{listed, mend_by_name},
    promise::WHOLE_JOB,
    refs::RefShape,
    view::Target,
};

/// Notes each reference of a list that points at nothing or at no work.
pub(super) fn works(job: &Job, refs: &[Ref], path: &[&str], notes: &mut Notes<'_, '_>) {
    for (at, reference) in refs.iter().enumerate() {
        if notes.full() {
            return;
        }
        work(job, reference, &step(path, &[&at.to_string()]), notes);
    }
}

/// Notes a reference that points at nothing, or at something that is no work.
pub(super) fn work(job: &Job, reference: &Ref, path: &[&str], notes: &mut Notes<'_, '_>) {
    let no_work = match target(job, reference, path, notes) {
        Some(Target::Passage(_)) => "a passage",
        Some(Target::Trade(_)) => "a trade",
        Some(Target::Control(_)) => "a control line",
        Some(Target::Line(_)) => "a line by hand",
        Some(target @ Target::Opening(_)) if job.works(&target).is_empty() => {
            "an opening that no piece goes into"
        }
        _ => return,
    };
    let what = format!("`{reference}` is {no_work}, which is not work that is done or waits");
    notes.error(
        path,
        what,
        "point at a layer, a face, a place, a piece, a hold, a decision or a milestone",
    );
}

/// What a reference points at; notes it if that is nothing.
pub(super) fn target(
    job: &Job,
    reference: &Ref,
    path: &[&str],
    notes: &mut Notes<'_, '_>,
) -> Option<Target> {
    let target = job.resolve(reference);
    if target.is_none() {
        let (what, mend) = unresolved(job, reference);
        notes.error(path, what, mend);
    }
    target
}

fn unresolved(job: &Job, reference: &Ref) -> (String, String) {
    match reference.shape() {
        RefShape::Key(key) => unknown_key(job, key),
        RefShape::Face(place, face) | RefShape::Layer(place, face, _) => {
            let Some(here) = job.places.get(place) else {
                let known = job.places.keys().map(|key| key.as_str());
                let otherwise = "write the key of a place before the dot";
                return (
                    format!("there is no place `{place}`"),
                    mend_by_name(place, known, otherwise),
                );
            };
            let faces = || here.faces.keys().map(|key| key.as_str());
            let Some(found) = here.faces.get(face) else {
                let otherwise = format!("the faces of `{place}` are {}", listed(faces()));
                return (
                    format!("the place `{place}` has no face `{face}`"),
                    mend_by_name(face, faces(), &otherwise),
                );
            };
            let layers = job
                .build_up(found)
                .map_or(&[][..], |build_up| build_up.layers.as_slice());
            let keys = || layers.iter().map(|layer| layer.id.as_str());
            let layer = reference
                .as_str()
                .split_once('/')
                .map_or("", |(_, layer)| layer);
            let otherwise = format!("its build-up `{}` has {}", found.build_up, listed(keys()));
            (
                format!("`{place}.{face}` has no layer `{layer}`"),
                mend_by_name(layer, keys(), &otherwise),
            )
        }
    }
}

fn unknown_key(job: &Job, key: &str) -> (String, String) {
    let known = names::kinds(job);
    let known = known
        .iter()
        .flat_map(|(_, keys)| keys)
        .map(|key| key.as_str());
    let otherwise =
        "point at a layer, a face, a place, a piece, a hold, a decision or a milestone of this job";
    let what = format!("there is nothing with the key `{key}`");
    (what, mend_by_name(key, known.chain([WHOLE_JOB]), otherwise))
}
