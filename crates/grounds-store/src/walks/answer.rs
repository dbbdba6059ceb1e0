//! What was answered to one thing that a walk proposes or asks.

use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

/// What somebody made of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Answer {
    /// It is as proposed.
    Accepted,
    /// It is so, but about something else, of another kind or with another value.
    Mended,
    /// It is not so, or not worth a note.
    Refused,
    /// An earlier answer no longer stands: the notes that came of it were taken back, and it is open
    /// again.
    Reopened,
}

/// An answer. Never changed; a later one to the same tie counts instead.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WalkAnswer {
    /// What is answered: the time of its cue, its kind and its thing, as the reader of that day had
    /// them. A reader that finds the same ties it to the same sentence.
    pub tie: String,
    /// The answer.
    pub answer: Answer,
    /// The notes that came of it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<Uuid>,
    /// What was said, word for word, so that the answer makes sense even where a later reader
    /// proposes nothing there.
    pub sentence: String,
    /// Its time in the walk, in milliseconds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at_ms: Option<u64>,
    /// When it was answered.
    pub at: Timestamp,
    /// Who answered.
    pub by: String,
}

impl WalkAnswer {
    /// Whether two answers to one tie come to the same, whoever gave them and when.
    pub(crate) fn says_the_same(&self, other: &Self) -> bool {
        self.answer == other.answer && self.notes == other.notes
    }
}
