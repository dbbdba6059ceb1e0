//! `grounds walk --json`

use grounds_site::{Note, Value};
use grounds_walk::{
    Moment, Reading,
    file::{Entry, From, Standing},
};
use serde::Serialize;
use uuid::Uuid;

use crate::{
    opened::Opened,
    talk::{self, Talk},
};

/// What was said on a walk.
#[derive(Debug, Serialize)]
pub(super) struct WalkFile<'a> {
    job: &'a str,
    /// The walk's id: the notes that come of it name it.
    walk: Uuid,
    begun: String,
    by: &'a str,
    cues: usize,
    proposals: Vec<Proposed<'a>>,
    questions: Vec<Asked<'a>>,
    /// The notes that were written; absent where none were to be.
    #[serde(skip_serializing_if = "Option::is_none")]
    written: Option<Vec<Uuid>>,
}

/// A note that is proposed.
#[derive(Debug, Serialize)]
struct Proposed<'a> {
    #[serde(skip_serializing_if = "Option::is_none")]
    time: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    at_ms: Option<u64>,
    sentence: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    place: Option<&'a str>,
    thing: &'a str,
    /// What is said: `done`, `not delivered`, `next` …
    said: &'static str,
    /// The kind of note that it would be.
    kind: &'static str,
    /// What the note would be about; nothing where one of the choices has to be taken first.
    about: Vec<&'a str>,
    choices: Vec<Vec<&'a str>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    value: Option<&'a Value>,
    readings: &'a [Reading],
    #[serde(skip_serializing_if = "Option::is_none")]
    when: Option<Moment>,
    #[serde(skip_serializing_if = "Option::is_none")]
    cause: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    who: Option<&'a str>,
    certainty: &'static str,
    confidence: u8,
    /// `new`, `known`, `choose` or `not-in-job`.
    standing: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    known: Option<&'a str>,
    /// The test that the reading passes.
    #[serde(skip_serializing_if = "Option::is_none")]
    passes: Option<&'a str>,
}

/// What was said and not understood.
#[derive(Debug, Serialize)]
struct Asked<'a> {
    #[serde(skip_serializing_if = "Option::is_none")]
    time: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    at_ms: Option<u64>,
    sentence: &'a str,
    /// What a remark would be about.
    about: Vec<&'a str>,
}

impl<'a> WalkFile<'a> {
    pub(super) fn of(opened: &'a Opened, talk: &'a Talk, taken: Option<&[Note]>) -> Self {
        let asked = |entry: &'a Entry| match entry.from {
            From::Question(_) => Some(Asked {
                time: time(entry),
                at_ms: entry.at_ms,
                sentence: &entry.sentence,
                about: about(entry),
            }),
            From::Proposal(_) => None,
        };
        Self {
            job: &opened.job.job.name,
            walk: talk.head.id,
            begun: opened.written(talk.head.begun),
            by: &talk.head.by,
            cues: talk.cues,
            proposals: talk
                .entries
                .iter()
                .filter_map(|entry| proposed(talk, entry))
                .collect(),
            questions: talk.entries.iter().filter_map(asked).collect(),
            written: taken.map(|notes| notes.iter().map(|note| note.id).collect()),
        }
    }
}

fn proposed<'a>(talk: &'a Talk, entry: &'a Entry) -> Option<Proposed<'a>> {
    let proposal = talk.proposal(entry)?;
    let place = proposal.place.and_then(|at| talk.vocabulary.places.get(at));
    let refs = |at: usize| -> Vec<&'a str> {
        let choice = entry.choices.get(at);
        choice.map_or_else(Vec::new, |choice| {
            choice.about.iter().map(|about| about.as_str()).collect()
        })
    };
    let (standing, known) = match &entry.standing {
        Standing::New => ("new", None),
        Standing::Known(how) => ("known", Some(how.as_str())),
        Standing::Choose => ("choose", None),
        Standing::NotInJob | Standing::Question => ("not-in-job", None),
    };
    Some(Proposed {
        time: time(entry),
        at_ms: entry.at_ms,
        sentence: &entry.sentence,
        place: place.map(|place| place.id.as_str()),
        thing: &proposal.thing,
        said: proposal.kind.words(),
        kind: entry.kind.word(),
        about: about(entry),
        choices: (0..entry.choices.len()).map(refs).collect(),
        value: entry.value.as_ref(),
        readings: &proposal.readings,
        when: proposal.when,
        cause: proposal.cause.as_deref(),
        who: proposal.who.as_deref(),
        certainty: proposal.certainty.word(),
        confidence: proposal.confidence,
        standing,
        known,
        passes: entry.means.as_ref().map(|means| means.hold.as_str()),
    })
}

fn time(entry: &Entry) -> Option<String> {
    entry.at_ms.map(|ms| talk::time_code(Some(ms)))
}

fn about(entry: &Entry) -> Vec<&str> {
    let chosen = entry.chosen.and_then(|at| entry.choices.get(at));
    chosen.map_or_else(Vec::new, |choice| {
        choice.about.iter().map(|about| about.as_str()).collect()
    })
}
