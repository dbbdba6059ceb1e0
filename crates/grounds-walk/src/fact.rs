//! What a clause was read as, before it is proposed.

use jiff::civil::{Date, Time};

use crate::{
    kinds::{Certainty, Kind},
    noun::Noun,
    numbers::{Amount, Role},
    signs::Signs,
};

/// A figure in a fact: the number, what it is in what was said, and where it was read.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Figure {
    pub(crate) amount: Amount,
    pub(crate) role: Role,
    pub(crate) of: String,
}

/// A date in a fact.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Dated {
    pub(crate) day: Option<Date>,
    pub(crate) time: Option<Time>,
}

/// What a clause says.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Fact {
    pub(crate) kind: Kind,
    pub(crate) place: Option<usize>,
    pub(crate) thing: Noun,
    pub(crate) figures: Vec<Figure>,
    pub(crate) dated: Option<Dated>,
    /// What blocks it.
    pub(crate) cause: Option<String>,
    /// Who is to do it or to decide.
    pub(crate) who: Option<String>,
    /// What was said of it, in the words of the talk.
    pub(crate) detail: String,
    pub(crate) certainty: Certainty,
    /// How surely the clause was read, from 0 to 100.
    pub(crate) confidence: u8,
    /// What tells how surely it was read.
    pub(crate) signs: Signs,
    pub(crate) cue: usize,
    /// Other cues that it rests on.
    pub(crate) also: Vec<usize>,
    pub(crate) sentence: usize,
    /// Taken back or replaced by something later.
    pub(crate) dropped: bool,
}
