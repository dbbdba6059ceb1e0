//! What every activity, lag, date and resource of a network stands for in the house.

use grounds_model::{Id, LayerKey, Material};
use grounds_schedule::Tick;
use grounds_site::Subject;
use uuid::Uuid;

/// One activity, as the site lead knows it.
#[derive(Clone, Debug, PartialEq)]
pub struct Task {
    /// A stable key: the layer (`stair-hall.walls/finish`), the piece (`stair-glass`,
    /// `stair-glass:measure`, `stair-glass:arrive`), the hold, decision or milestone.
    pub key: String,
    /// What is done.
    pub work: Work,
    /// Where.
    pub place: Option<Id>,
    /// On which face, if it is on one.
    pub face: Option<Id>,
    /// By whom.
    pub trade: Option<Id>,
    /// What is done, in words, without the place: `Finish coat`.
    pub name: String,
    /// Where, in words: `stair hall walls`.
    pub where_: String,
    /// The material, for hatches.
    pub material: Option<Material>,
    /// How far it has got.
    pub state: TaskState,
    /// Share done, 0–100.
    pub share: u8,
    /// Its working hours are cut by air outside the limits.
    pub limited_by_air: bool,
    /// What the latest note of its trouble says: why a hold failed.
    pub said: Option<String>,
}

/// How far a task has got.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TaskState {
    /// Not begun.
    ToCome,
    /// In hand.
    InHand,
    /// Over.
    Done,
}

/// What kind of thing a task does.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Work {
    /// A layer on the faces of one place that share a build-up.
    Layer(Vec<LayerKey>),
    /// Measuring a piece on site, for its order.
    Measure(Id),
    /// A piece coming on site.
    Arrive(Id),
    /// Setting a piece.
    Set(Id),
    /// Setting up a test that then stands.
    SetUp(Id),
    /// Putting right what made a hold fail.
    PutRight(Id),
    /// A hold: the look, the reading, the inspection.
    Pass(Id),
    /// Looking at what nobody saw.
    Look(Sought),
    /// A decision.
    Decide(Id),
    /// A milestone.
    Reach(Id),
    /// A way that is shut by a noted problem.
    Shut(Id),
}

/// What is looked for behind what covers it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Sought {
    /// The same layer, on the faces of one place that share a build-up.
    Layer(Vec<LayerKey>),
    /// How far whole faces have got, each by its innermost layer.
    Face(Vec<LayerKey>),
    /// A piece.
    Piece(Id),
}

impl Sought {
    /// The layers that are looked for, or the innermost ones of the faces that are looked at.
    #[must_use]
    pub fn layers(&self) -> &[LayerKey] {
        match self {
            Self::Layer(keys) | Self::Face(keys) => keys,
            Self::Piece(_) => &[],
        }
    }

    fn subject(&self) -> Subject {
        match self {
            Self::Piece(id) => Subject::Piece(id.clone()),
            Self::Layer(keys) | Self::Face(keys) => keys
                .first()
                .map_or(Subject::Job, |key| Subject::Layer(key.clone())),
        }
    }
}

impl Work {
    /// What a note about this task is about.
    #[must_use]
    pub fn subject(&self) -> Subject {
        match self {
            Self::Layer(keys) => keys
                .first()
                .map_or(Subject::Job, |key| Subject::Layer(key.clone())),
            Self::Measure(id) | Self::Arrive(id) | Self::Set(id) => Subject::Piece(id.clone()),
            Self::SetUp(id) | Self::PutRight(id) | Self::Pass(id) => Subject::Hold(id.clone()),
            Self::Look(sought) => sought.subject(),
            Self::Decide(id) => Subject::Decision(id.clone()),
            Self::Reach(id) => Subject::Milestone(id.clone()),
            Self::Shut(id) => Subject::Passage(id.clone()),
        }
    }

    /// The layer that is worked on, if it is one.
    #[must_use]
    pub fn layer(&self) -> Option<&Id> {
        match self {
            Self::Layer(keys) => keys.first().map(|key| &key.layer),
            _ => None,
        }
    }

    /// The piece that is measured, brought or set, if it is one.
    #[must_use]
    pub fn piece(&self) -> Option<&Id> {
        match self {
            Self::Measure(id) | Self::Arrive(id) | Self::Set(id) => Some(id),
            _ => None,
        }
    }

    /// A word for the kind, for files.
    #[must_use]
    pub fn kind(&self) -> &'static str {
        match self {
            Self::Layer(_) => "layer",
            Self::Measure(_) => "measure",
            Self::Arrive(_) => "arrive",
            Self::Set(_) => "set",
            Self::SetUp(_) => "set-up",
            Self::PutRight(_) => "put-right",
            Self::Pass(_) => "hold",
            Self::Look(_) => "look",
            Self::Decide(_) => "decision",
            Self::Reach(_) => "milestone",
            Self::Shut(_) => "shut",
        }
    }
}

/// Why one task waits for another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LagWhy {
    /// The layer under it must be on, and dry enough.
    Under,
    /// The coat must follow within its recoat window.
    Window,
    /// It sits on this layer, or on this piece.
    SitsOn,
    /// It covers or laps this piece.
    Covers,
    /// Usual order of work in one place.
    OrderHere,
    /// What a hold looks at must be there.
    HoldAfter,
    /// A hold must pass first.
    Hold,
    /// It must be looked at before this goes over it.
    Look,
    /// A test stands its time.
    Stands,
    /// What failed must be put right first.
    PutRight,
    /// It is measured once this is finished.
    MeasureAfter,
    /// It is made after it was measured.
    MadeAfterMeasure,
    /// It is ordered after the decision.
    OrderedAfterDecision,
    /// It must be on site.
    OnSite,
    /// It waits for a decision.
    Decision,
    /// Everybody who must cross here comes first.
    CrossFirst,
    /// A piece is kept where the floor is to be worked on.
    KeptHere,
    /// A wait of the job document, by position.
    Wait(usize),
    /// What a milestone needs.
    Milestone,
}

/// Why a task keeps to a date.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum DateWhy {
    /// Delivery is promised for this date.
    Promised,
    /// Ordered, no date given: the usual time to make it from the order.
    FromOrder,
    /// Not ordered: the usual time to make it, if it is ordered today.
    IfOrderedToday,
    /// The promised date has gone by; taken to come on the next working day.
    Overdue,
    /// It has to be booked; this is the first day that can be had if booked today.
    Notice,
    /// It is booked for this date.
    Booked,
    /// A decision is expected on this date, or takes its usual time from today.
    Expected {
        /// Nobody said when; the usual time from today is taken.
        assumed: bool,
    },
    /// Something stands in the way.
    Problem {
        /// The words of the note.
        words: String,
        /// What the problem was noted on.
        subject: Subject,
        /// Nobody said until when; the next working day is taken.
        assumed: bool,
        /// The note.
        note: Uuid,
    },
    /// Something must be settled first, by its position in [`Network::held`](crate::Network::held).
    HeldUp(usize),
    /// A booking of the job document, by position.
    Booking(usize),
    /// A milestone that must not be later.
    Firm,
}

/// What a limited thing is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ResourceWhy {
    /// The crews of a trade.
    Crews(Id),
    /// The room in a place.
    Room(Id),
}

/// Ticks as a length of time in words: `5 h`, `40 min`, `3 days`.
#[must_use]
pub(crate) fn ticks_in_words(ticks: Tick) -> String {
    let minutes = i64::from(ticks) * 15;
    if minutes % 60 != 0 && minutes < 600 {
        return match minutes / 60 {
            0 => format!("{minutes} min"),
            hours => format!("{hours} h {} min", minutes % 60),
        };
    }
    format!("{} h", (minutes + 30) / 60)
}
