//! Marking a face again: what was tapped by mistake is corrected, not seen.

use std::collections::BTreeSet;

use grounds_model::{Id, Job};
use grounds_site::{Kind, Note};
use jiff::{SignedDuration, Timestamp};
use uuid::Uuid;

use crate::mark::{Mark, Said, said};

/// A mark of the same face by the same person within this time is a correction.
const SLIP: SignedDuration = SignedDuration::from_mins(30);

/// The notes of a mark, with those that take back a slip: a mark of the same face by the same person
/// half an hour ago or less. Without that, a layer tapped by mistake would count as seen.
///
/// `log` is all notes of the job; `id` makes the id of each note from what it says and its place
/// among them.
#[must_use]
pub fn notes(
    job: &Job,
    log: &[Note],
    mark: &Mark,
    (by, at): (&str, Timestamp),
    mut id: impl FnMut(&Said, usize) -> Uuid,
) -> Vec<Note> {
    let slip = slip(job, log, mark, by, at);
    let mut written: Vec<Note> = Vec::new();
    let mut corrected: BTreeSet<Uuid> = BTreeSet::new();
    for said in said(job, mark) {
        let mut note = said.note(id(&said, written.len()), at, by);
        note.replaces = slip
            .iter()
            .find(|old| old.about == note.about)
            .map(|old| old.id);
        corrected.extend(note.replaces);
        written.push(note);
    }
    if written.is_empty() {
        return written;
    }
    for old in slip.iter().filter(|old| !corrected.contains(&old.id)) {
        let back = Said::new(old.about.clone(), Kind::Remark).words("Taken back.");
        let note = back.note(id(&back, written.len()), at, by);
        written.push(note.correcting(old.id));
    }
    written
}

/// The notes of the latest mark of a face that are a slip.
fn slip<'n>(job: &Job, log: &'n [Note], mark: &Mark, by: &str, at: Timestamp) -> Vec<&'n Note> {
    let latest = latest_mark(job, log, &mark.place, &mark.face);
    let is_slip =
        |note: &&Note| note.by == by && at.duration_since(note.at) <= SLIP && note.at <= at;
    latest.into_iter().filter(is_slip).collect()
}

/// The notes of the latest mark of a face that still count: those that one person wrote of one moment,
/// with a word about every layer, or that nobody could look. Nothing where the face was never marked.
#[must_use]
pub fn latest_mark<'n>(job: &Job, log: &'n [Note], place: &Id, face: &Id) -> Vec<&'n Note> {
    let replaced: BTreeSet<Uuid> = log.iter().filter_map(|note| note.replaces).collect();
    let about = abouts(job, place, face);
    let is_word = |note: &&Note| match note.kind {
        Kind::Done | Kind::Undone => true,
        Kind::Remark => note.presumed,
        _ => false,
    };
    let here: Vec<&Note> = log
        .iter()
        .filter(|note| !replaced.contains(&note.id) && about.contains(note.about.as_str()))
        .filter(is_word)
        .collect();
    let mut moments: Vec<(Timestamp, &str)> = here
        .iter()
        .map(|note| (note.at, note.by.as_str()))
        .collect();
    moments.sort();
    moments.dedup();
    let whole = format!("{place}.{face}");
    let layers = job.layers_of(place, face);
    let of = |(at, by): &(Timestamp, &str)| -> Vec<&'n Note> {
        let same = here
            .iter()
            .filter(|note| (note.at, note.by.as_str()) == (*at, *by));
        same.copied().collect()
    };
    let is_mark = |notes: &Vec<&Note>| {
        let tells = |about: &str| notes.iter().any(|note| note.about.as_str() == about);
        let protective =
            |key: &grounds_model::LayerKey| job.layer(key).is_some_and(|layer| layer.protective);
        tells(&whole)
            || layers
                .iter()
                .all(|key| tells(&key.to_string()) || protective(key))
    };
    moments
        .iter()
        .rev()
        .map(of)
        .find(is_mark)
        .unwrap_or_default()
}

/// Everything that a mark of a face can be about: the face, its layers, its pieces.
fn abouts(job: &Job, place: &Id, face: &Id) -> BTreeSet<String> {
    let layers = job.layers_of(place, face).into_iter();
    let pieces = job
        .pieces
        .iter()
        .filter(|(_, piece)| piece.place == *place && piece.face.as_ref() == Some(face));
    layers
        .map(|key| key.to_string())
        .chain(pieces.map(|(id, _)| id.to_string()))
        .chain([format!("{place}.{face}")])
        .collect()
}
