//! What is true at a moment, by what the notes say.

use std::{collections::BTreeMap, fmt};

use grounds_measure::{Humidity, Percent, Temperature};
use grounds_model::{Id, LayerKey, Moment, Target, WHOLE_JOB};
use jiff::{SignedDuration, Timestamp};
use uuid::Uuid;

use crate::{look::Look, note::Note};

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
    /// A control line.
    Control(Id),
    /// A line by hand.
    Line(Id),
    /// The whole job.
    Job,
}

/// Prints the reference that a note would use.
impl Subject {
    /// What a target of a job is, where a note can be about it; nothing for a whole face, which is
    /// noted by its layers.
    #[must_use]
    pub fn of(target: Target) -> Option<Self> {
        Some(match target {
            Target::Face { .. } => return None,
            Target::Layer(key) => Self::Layer(key),
            Target::Place(id) => Self::Place(id),
            Target::Passage(id) => Self::Passage(id),
            Target::Piece(id) => Self::Piece(id),
            Target::Opening(id) => Self::Opening(id),
            Target::Hold(id) => Self::Hold(id),
            Target::Decision(id) => Self::Decision(id),
            Target::Milestone(id) => Self::Milestone(id),
            Target::Trade(id) => Self::Trade(id),
            Target::Control(id) => Self::Control(id),
            Target::Line(id) => Self::Line(id),
            Target::Job => Self::Job,
        })
    }
}

impl fmt::Display for Subject {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Layer(key) => key.fmt(f),
            Self::Piece(id)
            | Self::Hold(id)
            | Self::Opening(id)
            | Self::Place(id)
            | Self::Passage(id)
            | Self::Trade(id)
            | Self::Decision(id)
            | Self::Milestone(id)
            | Self::Control(id)
            | Self::Line(id) => id.fmt(f),
            Self::Job => f.write_str(WHOLE_JOB),
        }
    }
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
    /// Work began: the first word of it since it was last undone.
    pub started: Option<Seen>,
    /// How far it has got, at the latest word since it was last undone. A word of 100 % is not
    /// [`State::done`].
    pub progress: Option<(Percent, Seen)>,
    /// Work (or setting) is finished; a hold passed; a decision made.
    pub done: Option<Seen>,
    /// Nobody saw it: it is taken to be there since what covers it is. With [`State::done`] somebody
    /// noted it so, and it counts as done; without, it follows from what was noted over it.
    pub presumed: Option<Seen>,
    /// Somebody was there and could not tell how far it has got; nothing else is known of it.
    pub unseen: Option<Seen>,
    /// It is not there: it was taken out, or somebody looked and did not find it. While it is not done.
    pub undone: Option<Seen>,
    /// Somebody decided to have a look at it.
    pub look: Option<(Look, Seen)>,
    /// Somebody decided to go on without having seen it.
    pub let_go: Option<Seen>,
    /// It was measured.
    pub measured: Option<Seen>,
    /// Somebody decided to go on although it may not fit.
    pub accepted: Option<Seen>,
    /// A piece was ordered; a hold was booked. A fail uses up a booking that lies before it.
    /// Damage leaves it: an order from before the damage brought what was damaged.
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
    /// Was damaged, and needs replacing or mending before it counts again: it is then neither
    /// arrived nor done. Ends when it arrives, is done or is cleared; cleared gives back what the
    /// damage took.
    pub damaged: Option<Seen>,
    /// All notes about it that count, in order of time.
    pub notes: Vec<Uuid>,
}

impl State {
    /// Whether somebody saw that it is done.
    #[must_use]
    pub fn is_seen_done(&self) -> bool {
        self.done.is_some() && self.presumed.is_none()
    }

    /// Whether anybody ever said how far it has got.
    #[must_use]
    pub fn is_told(&self) -> bool {
        let told = [self.started, self.done, self.undone, self.damaged];
        told.iter().any(Option::is_some) || self.progress.is_some()
    }
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

/// What the air in a place was at one reading.
#[derive(Clone, Debug, PartialEq)]
pub struct ClimateReading {
    /// Where. A reading for the whole job stands once for each place.
    pub place: Id,
    /// When.
    pub at: Timestamp,
    /// The temperature of the air, if that was read.
    pub temperature: Option<Temperature>,
    /// The relative humidity of the air, if that was read.
    pub humidity: Option<Humidity>,
    /// By which note.
    pub note: Uuid,
}

impl ClimateReading {
    /// How long a reading of the air counts: a week, in which weather and heating turn (common
    /// practice). After that the air is as the job's document expects it, or unknown.
    pub const COUNTS_FOR: SignedDuration = SignedDuration::from_hours(7 * 24);
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
    /// What does not add up, sorted by what it is about.
    pub questions: Vec<Question>,
    /// What the air was, sorted by place and time.
    pub climate: Vec<ClimateReading>,
    /// All notes by id: those that no longer count too, and those that a question names though
    /// they are dated after the moment.
    pub notes: BTreeMap<Uuid, Note>,
}

impl Site {
    /// The state of a subject; the empty state where nothing was noted.
    #[must_use]
    pub fn state(&self, subject: &Subject) -> State {
        self.states.get(subject).cloned().unwrap_or_default()
    }
}
