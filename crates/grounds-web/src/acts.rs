//! What the buttons do: each writes notes about one piece of work.

use std::hash::{DefaultHasher, Hash, Hasher};

use grounds_model::{LayerKey, Moment, Ref};
use grounds_sequence::{Sought, Task, TaskState, Work};
use grounds_site::{Kind, Note, Site, Subject, Value};
use grounds_survey::{Said, decide};
use jiff::Timestamp;
use serde::Deserialize;
use uuid::Uuid;

use crate::picture::Picture;

/// What can be said of a piece of work with one button.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Act {
    /// Work begins.
    Start,
    /// Work is finished, a piece is set, a reading is taken, a decision is made.
    Finish,
    /// Somebody looked and did not find it.
    Missing,
    /// A hold passed.
    Passed,
    /// A hold failed.
    Failed,
    /// Something stands in the way.
    Trouble,
    /// What stood in the way is gone; what failed was put right.
    Cleared,
    /// A date was given: a delivery, an inspection, an answer.
    Promised,
}

/// Who says it, when, and what goes with it.
#[derive(Clone, Debug)]
pub(crate) struct Saying {
    /// Who.
    pub(crate) by: String,
    /// When.
    pub(crate) at: Timestamp,
    /// The form it was sent with: the same form twice says the same thing once.
    pub(crate) once: Uuid,
    /// In words.
    pub(crate) words: Option<String>,
    /// A date.
    pub(crate) when: Option<String>,
}

impl Act {
    /// The kind of note that says it of a piece of work; nothing where it cannot be said.
    pub(crate) fn kind(self, work: &Work) -> Option<Kind> {
        Some(match (self, work) {
            (Self::Start, Work::Layer(_) | Work::Set(_) | Work::SetUp(_)) => Kind::Started,
            (
                Self::Finish,
                Work::Layer(_)
                | Work::Set(_)
                | Work::Reach(_)
                | Work::Look(Sought::Layer(_) | Sought::Piece(_)),
            ) => Kind::Done,
            (Self::Finish, Work::Measure(_)) => Kind::Measured,
            (Self::Finish, Work::Arrive(_)) => Kind::Arrived,
            (Self::Finish, Work::Decide(_)) => Kind::Decided,
            (Self::Finish, Work::SetUp(_)) => Kind::Started,
            (Self::Finish, Work::PutRight(_) | Work::Shut(_)) => Kind::Cleared,
            (Self::Passed, Work::Pass(_)) => Kind::Passed,
            (Self::Failed, Work::Pass(_)) => Kind::Failed,
            (Self::Promised, Work::Pass(_) | Work::Arrive(_) | Work::Decide(_)) => Kind::Promised,
            (Self::Trouble, _) => Kind::Problem,
            (Self::Cleared, _) => Kind::Cleared,
            _ => return None,
        })
    }

    /// The notes that say it.
    pub(crate) fn notes(self, task: &Task, site: &Site, saying: &Saying) -> Option<Vec<Note>> {
        let kind = self.kind(&task.work)?;
        let subjects = self.subjects(task, site);
        let value = match saying.when.as_deref() {
            Some(text) if matches!(self, Self::Trouble | Self::Promised) => {
                Some(Value::When(text.parse::<Moment>().ok()?))
            }
            _ => None,
        };
        let note = |subject: &Subject| Note {
            value: value.clone(),
            words: saying.words.clone(),
            ..Note::new(
                one_id(saying, (self, subject)),
                saying.at,
                saying.by.clone(),
                Ref::from(subject.to_string()),
                kind,
            )
        };
        Some(subjects.iter().map(note).collect())
    }

    /// What the notes are about: every face of a layer that it is not already true of.
    fn subjects(self, task: &Task, site: &Site) -> Vec<Subject> {
        let keys = match &task.work {
            Work::Layer(keys) => keys,
            Work::Look(Sought::Layer(keys)) if self == Self::Finish => {
                return keys.iter().cloned().map(Subject::Layer).collect();
            }
            work => return vec![work.subject()],
        };
        let is_open = |key: &&LayerKey| {
            let state = site.state(&Subject::Layer((*key).clone()));
            match self {
                Self::Start => state.started.is_none() && state.done.is_none(),
                Self::Finish => state.done.is_none(),
                Self::Cleared => !state.problems.is_empty() || state.damaged.is_some(),
                _ => true,
            }
        };
        let mut open: Vec<&LayerKey> = keys.iter().filter(is_open).collect();
        if self == Self::Trouble {
            open.truncate(1);
        }
        open.into_iter().cloned().map(Subject::Layer).collect()
    }
}

/// The notes of somebody who looked and did not find it: what covers it comes off. Nothing where
/// nothing was looked for.
pub(crate) fn missing(picture: &Picture, task: &Task, saying: &Saying) -> Option<Vec<Note>> {
    let Work::Look(sought) = &task.work else {
        return None;
    };
    let said = decide::not_there(&picture.job, &picture.site, sought);
    Some(of_said(&said, saying))
}

/// Notes of what was said.
pub(crate) fn of_said(said: &[Said], saying: &Saying) -> Vec<Note> {
    let note = |said: &Said| {
        let id = one_id(saying, (&said.about, said.kind));
        said.note(id, saying.at, &saying.by)
    };
    said.iter().map(note).collect()
}

/// The buttons that a piece of work has now: the act and its word.
pub(crate) fn buttons(task: &Task) -> Vec<(Act, &'static str)> {
    match (&task.work, task.state) {
        (_, TaskState::Done) | (Work::Reach(_), _) => Vec::new(),
        (Work::Layer(_) | Work::Set(_), TaskState::ToCome) => vec![(Act::Start, "Start")],
        (Work::Layer(_) | Work::Set(_), TaskState::InHand) => vec![(Act::Finish, "Finish")],
        (Work::Measure(_), _) => vec![(Act::Finish, "Measured")],
        (Work::Arrive(_), _) => vec![(Act::Finish, "On site")],
        (Work::SetUp(_), _) => vec![(Act::Finish, "Set up")],
        (Work::PutRight(_), _) => vec![(Act::Finish, "Put right")],
        (Work::Pass(_), _) => vec![(Act::Passed, "Passed"), (Act::Failed, "Failed")],
        (Work::Look(Sought::Face(_)), _) => Vec::new(),
        (Work::Look(_), _) => vec![(Act::Finish, "It is there"), (Act::Missing, "Not there")],
        (Work::Decide(_), _) => vec![(Act::Finish, "Decided")],
        (Work::Shut(_), _) => vec![(Act::Finish, "Open again")],
    }
}

/// The notes that were written together with one: by the same press of a button.
pub(crate) fn together<'a>(picture: &'a Picture, id: &Uuid) -> Vec<&'a Note> {
    let Some(first) = picture.notes.iter().find(|note| note.id == *id) else {
        return Vec::new();
    };
    let same = |note: &&Note| (note.at, note.kind, &note.by) == (first.at, first.kind, &first.by);
    picture.notes.iter().filter(same).collect()
}

/// A note about anything that the job names.
pub(crate) fn about_anything(about: &Ref, kind: Kind, saying: &Saying) -> Note {
    let moment = saying
        .when
        .as_deref()
        .and_then(|text| text.parse::<Moment>().ok());
    let id = one_id(saying, (kind, about));
    Note {
        value: moment.map(Value::When).filter(|_| kind == Kind::Problem),
        words: saying.words.clone(),
        ..Note::new(id, saying.at, saying.by.clone(), about.clone(), kind)
    }
}

/// Notes that take others back.
pub(crate) fn take_back(notes: &[&Note], saying: &Saying) -> Vec<Note> {
    let back = |note: &&Note| {
        let id = one_id(saying, note.id);
        Note::new(
            id,
            saying.at,
            saying.by.clone(),
            note.about.clone(),
            Kind::Remark,
        )
        .with_words("Taken back.")
        .correcting(note.id)
    };
    notes.iter().map(back).collect()
}

/// Notes that were only supposed, as they are entered.
pub(crate) fn entered(notes: &[Note], saying: &Saying) -> Vec<Note> {
    let enter = |(index, note): (usize, &Note)| Note {
        id: one_id(saying, (index, &note.about)),
        at: saying.at,
        by: saying.by.clone(),
        ..note.clone()
    };
    notes.iter().enumerate().map(enter).collect()
}

/// An id for a form: a UUID of version 7 of that moment.
pub(crate) fn new_once(at: Timestamp) -> Uuid {
    let millis = u64::try_from(at.as_millisecond()).unwrap_or(0);
    let random = Uuid::now_v7();
    let mut bytes = [0; 10];
    bytes.copy_from_slice(&random.as_bytes()[6..]);
    uuid::Builder::from_unix_timestamp_millis(millis, &bytes).into_uuid()
}

/// The id of a note: always the same for the same form saying the same of the same thing, so that
/// a double tap is one note.
pub(crate) fn one_id(saying: &Saying, what: impl Hash) -> Uuid {
    let half = |half: u8| {
        let mut hasher = DefaultHasher::new();
        (
            half,
            saying.once,
            &saying.by,
            &saying.words,
            &saying.when,
            &what,
        )
            .hash(&mut hasher);
        hasher.finish().to_be_bytes()
    };
    let (first, second) = (half(1), half(2));
    let mut bytes = [0; 10];
    bytes[..8].copy_from_slice(&first);
    bytes[8..].copy_from_slice(&second[..2]);
    let (seconds, nanos) = saying
        .once
        .get_timestamp()
        .map_or((0, 0), |time| time.to_unix());
    let millis = seconds
        .saturating_mul(1000)
        .saturating_add(u64::from(nanos / 1_000_000));
    uuid::Builder::from_unix_timestamp_millis(millis, &bytes).into_uuid()
}
