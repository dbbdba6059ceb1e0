//! Facts as proposals: what the user is shown to accept, mend or refuse.

use jiff::civil::{Date, Time};
use serde::Serialize;

use crate::{
    fact::Fact,
    kinds::{Certainty, Kind},
    matching::Things,
    numbers::{Amount, Role},
    signs::{SURE, Signs},
};

/// A figure that was said, with what it is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Reading {
    /// The number and its unit.
    pub amount: Amount,
    /// What it is in what was said.
    pub role: Role,
    /// Where it was read, in the words of the talk: `left`, `under window`; may be empty.
    pub at: String,
}

/// A date that was said, reckoned from the walk's day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Moment {
    /// The day, if one was said.
    pub day: Option<Date>,
    /// The time of day, if one was said.
    pub time: Option<Time>,
}

/// A note that is proposed.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Proposal {
    /// The place, by its number in the vocabulary; none if no place was in play.
    pub place: Option<usize>,
    /// What it is about, in the words of the talk.
    pub thing: String,
    /// Layers, pieces, holds and decisions of the vocabulary that it may be about, the best first,
    /// by their numbers there.
    pub matches: Vec<usize>,
    /// Whether the best of them has equals: one has to be asked for.
    pub ambiguous: bool,
    /// What kind of thing is said.
    pub kind: Kind,
    /// The figures that go with it.
    pub readings: Vec<Reading>,
    /// The date that goes with it.
    pub when: Option<Moment>,
    /// What it waits for, if it is blocked.
    pub cause: Option<String>,
    /// Who is to do or to decide it, if that was said.
    pub who: Option<String>,
    /// How sure the speaker is.
    pub certainty: Certainty,
    /// How surely the talk was read, from 0 to 100.
    pub confidence: u8,
    /// What the confidence was reckoned from.
    #[serde(skip)]
    pub signs: Signs,
    /// What was said, word for word.
    pub sentence: String,
    /// The sentence that it was read from, by its number in the talk.
    #[serde(skip)]
    pub(crate) sentence_number: usize,
    /// The cue that settles it, by its number in the transcript.
    pub cue: usize,
    /// Other cues that it rests on.
    pub also: Vec<usize>,
    /// Its time in the walk, in milliseconds.
    pub at_ms: Option<u64>,
}

impl Proposal {
    /// Whether the speaker was sure and the talk was read surely.
    #[must_use]
    pub fn is_sure(&self) -> bool {
        self.certainty == Certainty::Firm && self.confidence >= SURE
    }
}

/// A fact as a proposal.
pub(crate) fn propose(
    fact: &Fact,
    things: &Things<'_>,
    sentence: &str,
    at_ms: Option<u64>,
) -> Proposal {
    let thing = fact.thing.text();
    let meant = things.meant(&thing, fact.kind, fact.place);
    Proposal {
        place: fact.place,
        matches: meant.things,
        ambiguous: meant.ambiguous,
        thing,
        kind: fact.kind,
        readings: fact
            .figures
            .iter()
            .map(|figure| Reading {
                amount: figure.amount,
                role: figure.role,
                at: figure.of.clone(),
            })
            .collect(),
        when: fact.dated.map(|dated| Moment {
            day: dated.day,
            time: dated.time,
        }),
        cause: fact.cause.clone(),
        who: fact.who.clone(),
        certainty: fact.certainty,
        confidence: fact.signs.confidence(fact.kind),
        signs: fact.signs,
        sentence: sentence.to_owned(),
        sentence_number: fact.sentence,
        cue: fact.cue,
        also: also(fact),
        at_ms,
    }
}

/// The other cues of a fact, each once.
fn also(fact: &Fact) -> Vec<usize> {
    let mut cues: Vec<usize> = fact
        .also
        .iter()
        .copied()
        .filter(|cue| *cue != fact.cue)
        .collect();
    cues.sort_unstable();
    cues.dedup();
    cues
}
