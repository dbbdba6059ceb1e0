//! What is true at a moment, by what the notes say.

use std::collections::BTreeMap;

use grounds_measure::Percent;
use grounds_model::{Id, LayerKey, Moment};
use jiff::Timestamp;
use uuid::Uuid;

use crate::note::Note;

/// Something that can be in a state.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Subject {
    /// A layer on a face.
    Layer(LayerKey),
    /// A piece.
    Piece(Id),
    /// A hold.
    Hold(Id),
    /// An opening.
    Opening(Id),
    /// A place.
    Place(Id),
    /// A passage.
    Passage(Id),
    /// A trade.
    Trade(Id),
    /// A decision.
    Decision(Id),
    /// A milestone.
    Milestone(Id),
    /// The whole job.
    Job,
}

/// A moment, and the note that says so.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Seen {
    /// When.
    pub at: Timestamp,
    /// By which note.
    pub note: Uuid,
}

/// The state of one subject.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct State {
    /// Work began.
    pub started: Option<Seen>,
    /// How far it has got, at the latest word.
    pub progress: Option<(Percent, Seen)>,
    /// Work (or setting) is finished; a hold passed; a decision made.
    pub done: Option<Seen>,
    /// A piece was measured.
    pub measured: Option<Seen>,
    /// A piece was ordered; a hold was booked.
    pub ordered: Option<Seen>,
    /// The date promised (delivery) or booked (inspection), at the latest word.
    pub promised: Option<(Moment, Seen)>,
    /// Left its maker.
    pub shipped: Option<Seen>,
    /// On site.
    pub arrived: Option<Seen>,
    /// A hold failed, and has not passed since.
    pub failed: Option<Seen>,
    /// What was put right after a fail: work may try again.
    pub mended: Option<Seen>,
    /// What stands in the way, not cleared yet, the earliest first; with its end if one was said.
    pub problems: Vec<Problem>,
    /// Was damaged, and needs replacing or mending before it counts again.
    pub damaged: Option<Seen>,
    /// All notes about it that count, in order of time.
    pub notes: Vec<Uuid>,
}

/// Something that stands in the way.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    /// When and by which note.
    pub seen: Seen,
    /// Until when, if that was said.
    pub until: Option<Moment>,
    /// In words.
    pub words: String,
}

/// Something that does not add up and that somebody should answer; nothing is dropped for it.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// What it is about, as the note wrote it.
    pub about: String,
    /// The question, as a sentence.
    pub words: String,
    /// The notes that raise it.
    pub notes: Vec<Uuid>,
}

/// What is true of a job at a moment.
#[derive(Clone, Debug, PartialEq)]
pub struct Site {
    /// The moment.
    pub at: Timestamp,
    /// The state of everything that notes speak of.
    pub states: BTreeMap<Subject, State>,
    /// What does not add up.
    pub questions: Vec<Question>,
    /// All notes by id, those that no longer count too.
    pub notes: BTreeMap<Uuid, Note>,
}

impl Site {
    /// The state of a subject; the empty state where nothing was noted.
    #[must_use]
    pub fn state(&self, subject: &Subject) -> State {
        self.states.get(subject).cloned().unwrap_or_default()
    }
}
