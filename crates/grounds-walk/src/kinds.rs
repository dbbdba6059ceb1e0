//! What kind of thing is said, how sure the speaker is, and what note it would become.

use grounds_site::Kind as NoteKind;
use serde::Serialize;

/// What kind of thing is said on a walk.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// Work began, or has got part of the way.
    Started,
    /// Work is finished.
    Done,
    /// Work is not done.
    NotDone,
    /// A test or inspection passed.
    Passed,
    /// A test or inspection failed.
    Failed,
    /// Something stands in the way.
    Blocked,
    /// Goods are on site.
    Delivered,
    /// Goods are not on site.
    NotDelivered,
    /// Something is wrong or damaged.
    Wrong,
    /// Something was read: a length, a moisture, a temperature.
    Measured,
    /// Somebody still has to choose.
    Decision,
    /// What happens next, when, and who does it.
    Next,
}

impl Kind {
    /// Every kind.
    pub const ALL: [Self; 12] = [
        Self::Started,
        Self::Done,
        Self::NotDone,
        Self::Passed,
        Self::Failed,
        Self::Blocked,
        Self::Delivered,
        Self::NotDelivered,
        Self::Wrong,
        Self::Measured,
        Self::Decision,
        Self::Next,
    ];

    /// The words for it: `not delivered`.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Started => "started",
            Self::Done => "done",
            Self::NotDone => "not done",
            Self::Passed => "passed",
            Self::Failed => "failed",
            Self::Blocked => "blocked",
            Self::Delivered => "delivered",
            Self::NotDelivered => "not delivered",
            Self::Wrong => "wrong",
            Self::Measured => "measured",
            Self::Decision => "decision",
            Self::Next => "next",
        }
    }

    /// The kind of note that it becomes when it is accepted.
    ///
    /// What a plan cannot use by itself (not done, not delivered, a decision, a next step without
    /// a date) becomes a remark, which keeps the words; a next step with a date is a promise.
    #[must_use]
    pub fn note(self, dated: bool) -> NoteKind {
        match self {
            Self::Started => NoteKind::Started,
            Self::Done => NoteKind::Done,
            Self::Passed => NoteKind::Passed,
            Self::Failed => NoteKind::Failed,
            Self::Blocked | Self::Wrong => NoteKind::Problem,
            Self::Delivered => NoteKind::Arrived,
            Self::Measured => NoteKind::Measured,
            Self::Next if dated => NoteKind::Promised,
            Self::NotDone | Self::NotDelivered | Self::Decision | Self::Next => NoteKind::Remark,
        }
    }
}

/// How sure the speaker is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Certainty {
    /// Said as it is.
    Firm,
    /// Said with a doubt: *maybe*, *I think*, *about*.
    Hedged,
    /// Somebody else says so.
    Hearsay,
}

impl Certainty {
    /// The word for it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Firm => "firm",
            Self::Hedged => "hedged",
            Self::Hearsay => "hearsay",
        }
    }
}
