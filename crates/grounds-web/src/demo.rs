//! The demo houses, embedded.

use std::{
    hash::{DefaultHasher, Hash, Hasher},
    path::PathBuf,
};

use grounds_model::Job;
use grounds_site::read_notes;
use grounds_store::{Store, StoreError, WalkHead};
use jiff::{Timestamp, civil::date};

/// The house that the demo opens with.
pub(crate) const FRONT: &str = "alder-sluice";

/// The houses: key, document, log.
const HOUSES: [(&str, &str, &str); 2] = [
    (
        FRONT,
        include_str!("../../../examples/alder-sluice/job.toml"),
        include_str!("../../../examples/alder-sluice/notes.jsonl"),
    ),
    (
        "one-bathroom",
        include_str!("../../../examples/one-bathroom/job.toml"),
        include_str!("../../../examples/one-bathroom/notes.jsonl"),
    ),
];

/// The walk that is kept of the front house and not answered yet: when it began, who walked, what it
/// is called, and what was said.
const WALK: (&str, &str, &str, &str) = (
    "2027-06-10T05:40:00Z",
    "Ines",
    "From the wheel level up",
    include_str!("../../../examples/alder-sluice/walks/01a607bc-9b80-7fff-b8a2-9e2b172e0c90.vtt"),
);

/// The morning on which the demo opens: Thursday 10 June 2027, ten past seven, where the house is.
pub(crate) fn morning(job: &Job) -> Timestamp {
    let at = date(2027, 6, 10).at(7, 10, 0, 0);
    let zone = job.time_zone().unwrap_or(jiff::tz::TimeZone::UTC);
    zone.to_ambiguous_timestamp(at)
        .compatible()
        .unwrap_or(Timestamp::UNIX_EPOCH)
}

/// Puts the houses into a store, unless they are there.
pub(crate) async fn move_in(store: &Store) -> Result<(), StoreError> {
    let there = store.jobs().await?;
    for (key, document, log) in HOUSES {
        if there.iter().any(|job| job.key == key) {
            continue;
        }
        store.put_job(key, document).await?;
        let (notes, _) = read_notes("notes.jsonl", log);
        store.add_notes(key, &notes).await?;
    }
    let (head, transcript) = walk();
    if there.iter().all(|job| job.key != FRONT) {
        store.keep_walk(FRONT, &head, transcript).await?;
    }
    Ok(())
}

/// The walk, as it is kept in the house's folder too.
fn walk() -> (WalkHead, &'static str) {
    let (begun, by, name, transcript) = WALK;
    let begun = begun.parse().unwrap_or(Timestamp::UNIX_EPOCH);
    let head = WalkHead {
        id: grounds_walk::file::walk_id(begun, by, transcript),
        begun,
        by: by.to_owned(),
        name: name.to_owned(),
    };
    (head, transcript)
}

/// The folder that the demo is kept in when none is named: another for every version of it.
pub(crate) fn folder() -> PathBuf {
    let mut hasher = DefaultHasher::new();
    (HOUSES, WALK).hash(&mut hasher);
    let cache = std::env::var_os("XDG_CACHE_HOME")
        .map(PathBuf::from)
        .or_else(|| std::env::var_os("HOME").map(|home| PathBuf::from(home).join(".cache")));
    let cache = cache
        .filter(|path| path.is_absolute())
        .unwrap_or_else(std::env::temp_dir);
    cache
        .join("grounds")
        .join(format!("demo-{:016x}", hasher.finish()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_walk_of_the_demo_is_the_one_in_the_folder_of_its_house() {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("../../examples")
            .join(FRONT);
        let kept = grounds_store::read_walks(&folder).unwrap();
        let (head, transcript) = walk();
        assert_eq!(kept.len(), 1);
        assert_eq!(
            (&kept[0].head, kept[0].transcript.as_str()),
            (&head, transcript)
        );
        assert!(kept[0].answers.is_empty());
        let talk = grounds_walk::transcript::read(transcript).unwrap();
        assert_eq!(talk.cues.len(), 60);
    }

    #[test]
    fn every_demo_house_reads_without_fault() {
        for (key, document, log) in HOUSES {
            let read = grounds_model::read(key, document);
            assert!(
                read.is_ok(),
                "{key}: {}",
                read.err().map_or_else(String::new, |f| f.to_string())
            );
            let (_, faults) = read_notes(key, log);
            assert!(faults.is_empty(), "{key}: {faults:?}");
        }
    }
}
