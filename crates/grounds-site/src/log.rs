//! Which notes count: repeats fall away, corrected notes stand back, later notes wait their day.

use std::collections::{BTreeMap, BTreeSet};

use jiff::{SignedDuration, Timestamp};
use uuid::Uuid;

use crate::note::Note;

/// How far the clock of a phone may be ahead before its notes are asked about.
pub(crate) const CLOCK_SKEW: SignedDuration = SignedDuration::from_mins(10);

/// The notes of a job as they stand at a moment. Everything in it is in a fixed order, whatever
/// the order in which the notes came.
#[derive(Debug, Default)]
pub(crate) struct Log<'a> {
    /// One note for each id, dated up to the moment.
    pub(crate) known: BTreeMap<Uuid, &'a Note>,
    /// Those of them that no other replaces, by time and then by id.
    pub(crate) counting: Vec<&'a Note>,
    /// Notes that share their id with another: the one kept and the one set aside.
    pub(crate) clashes: Vec<(&'a Note, &'a Note)>,
    /// Notes that were corrected more than once, each with its corrections.
    pub(crate) rivals: Vec<(Uuid, Vec<&'a Note>)>,
    /// Notes that correct each other in a ring (or themselves).
    pub(crate) rings: Vec<Vec<&'a Note>>,
    /// Corrections of notes that are not here.
    pub(crate) orphans: Vec<&'a Note>,
    /// Notes dated well after they were written, written before the moment and dated after it.
    pub(crate) ahead: Vec<&'a Note>,
}

impl<'a> Log<'a> {
    /// Sorts out the notes of a job for a moment.
    pub(crate) fn at(notes: &'a [Note], at: Timestamp) -> Self {
        let (by_id, mut clashes) = one_for_each_id(notes);
        clashes.retain(|(kept, other)| kept.at <= at || other.at <= at);
        let known: BTreeMap<Uuid, &Note> = by_id
            .iter()
            .filter(|(_, note)| note.at <= at)
            .map(|(id, note)| (*id, *note))
            .collect();
        let ahead = by_id
            .values()
            .copied()
            .filter(|note| is_ahead(note, at))
            .collect();
        let orphans = known
            .values()
            .copied()
            .filter(|note| {
                note.replaces
                    .is_some_and(|other| !by_id.contains_key(&other))
            })
            .collect();

        let rings = rings(&known);
        let corrections = corrections(&known);
        let rivals = corrections
            .iter()
            .filter(|(_, by)| by.len() > 1)
            .map(|(id, by)| (*id, by.clone()))
            .collect();
        let counting = counting(&known, &corrections, &rings);
        Self {
            known,
            counting,
            clashes,
            rivals,
            rings,
            orphans,
            ahead,
        }
    }
}

/// When a note was written, by its id.
fn written(note: &Note) -> Option<Timestamp> {
    if note.id.get_version_num() != 7 {
        return None;
    }
    let (seconds, nanos) = note.id.get_timestamp()?.to_unix();
    Timestamp::new(i64::try_from(seconds).ok()?, i32::try_from(nanos).ok()?).ok()
}

/// Whether a note that was there at the moment is dated after it by more than a clock may be out.
/// Only the id can tell: on a look back at a past day every later note is dated after it.
fn is_ahead(note: &Note, at: Timestamp) -> bool {
    let late = |time: Timestamp| time.duration_since(at) > CLOCK_SKEW;
    late(note.at) && written(note).is_some_and(|time| !late(time))
}

/// One note for each id. Of notes that share an id but not their content, the one whose written
/// form comes first in the alphabet is kept, so that the choice depends on nothing else.
fn one_for_each_id(notes: &[Note]) -> (BTreeMap<Uuid, &Note>, Vec<(&Note, &Note)>) {
    let mut versions: BTreeMap<Uuid, Vec<&Note>> = BTreeMap::new();
    for note in notes {
        let same_id = versions.entry(note.id).or_default();
        if !same_id.contains(&note) {
            same_id.push(note);
        }
    }
    let mut kept = BTreeMap::new();
    let mut clashes = Vec::new();
    for (id, mut same_id) in versions {
        if same_id.len() > 1 {
            same_id.sort_by_cached_key(|note| serde_json::to_string(note).unwrap_or_default());
        }
        if let Some((first, others)) = same_id.split_first() {
            kept.insert(id, *first);
            clashes.extend(others.iter().map(|other| (*first, *other)));
        }
    }
    (kept, clashes)
}

/// For each note that is corrected, what corrects it, by time and then by id.
fn corrections<'a>(known: &BTreeMap<Uuid, &'a Note>) -> BTreeMap<Uuid, Vec<&'a Note>> {
    let mut corrections: BTreeMap<Uuid, Vec<&Note>> = BTreeMap::new();
    for note in known.values().copied() {
        if let Some(other) = note.replaces.filter(|other| known.contains_key(other)) {
            corrections.entry(other).or_default().push(note);
        }
    }
    for by in corrections.values_mut() {
        by.sort_by_key(|note| (note.at, note.id));
    }
    corrections
}

/// Every ring of notes that correct each other, its latest note last.
fn rings<'a>(known: &BTreeMap<Uuid, &'a Note>) -> Vec<Vec<&'a Note>> {
    let next = |note: &Note| note.replaces.and_then(|other| known.get(&other).copied());
    let mut walked: BTreeSet<Uuid> = BTreeSet::new();
    let mut rings = Vec::new();
    for first in known.values().copied() {
        let mut path: Vec<&Note> = Vec::new();
        let mut places: BTreeMap<Uuid, usize> = BTreeMap::new();
        let mut step = Some(first);
        while let Some(note) = step {
            if let Some(from) = places.get(&note.id) {
                let mut ring = path.split_off(*from);
                ring.sort_by_key(|note| (note.at, note.id));
                rings.push(ring);
                break;
            }
            if !walked.insert(note.id) {
                break;
            }
            places.insert(note.id, path.len());
            path.push(note);
            step = next(note);
        }
    }
    rings
}

/// The notes that nothing replaces; of a ring that nothing outside replaces, the latest.
fn counting<'a>(
    known: &BTreeMap<Uuid, &'a Note>,
    corrections: &BTreeMap<Uuid, Vec<&'a Note>>,
    rings: &[Vec<&'a Note>],
) -> Vec<&'a Note> {
    let mut counting: Vec<&Note> = known
        .values()
        .copied()
        .filter(|note| !corrections.contains_key(&note.id))
        .collect();
    for ring in rings {
        let members: BTreeSet<Uuid> = ring.iter().map(|note| note.id).collect();
        let from_outside = members
            .iter()
            .filter_map(|id| corrections.get(id))
            .flatten()
            .any(|by| !members.contains(&by.id));
        if !from_outside {
            counting.extend(ring.last());
        }
    }
    counting.sort_by_key(|note| (note.at, note.id));
    counting
}
