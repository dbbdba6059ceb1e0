//! Facts as proposals: what the user is shown to accept, mend or refuse.

use jiff::civil::{Date, Time};
use serde::Serialize;

use crate::{
    fact::Fact,
    kinds::{Certainty, Kind},
    numbers::{Amount, Role},
    same::content_stems,
    signs::{SURE, Signs},
    vocabulary::Vocabulary,
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
    Proposal {
        place: fact.place,
        matches: things.matching(&thing, fact.place),
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

/// How many things of the vocabulary are offered.
const MOST_MATCHES: usize = 5;

/// The things of a vocabulary by the content words of their names, made once for a walk.
pub(crate) struct Things<'v> {
    vocabulary: &'v Vocabulary,
    /// For each thing the words of each of its names.
    names: Vec<Vec<Vec<String>>>,
}

impl<'v> Things<'v> {
    /// The things of a vocabulary.
    pub(crate) fn of(vocabulary: &'v Vocabulary) -> Self {
        let names = vocabulary
            .things
            .iter()
            .map(|thing| thing.names.iter().map(|name| content_stems(name)).collect());
        Self {
            vocabulary,
            names: names.collect(),
        }
    }

    /// Things that share words with a name, in the same place, the best first.
    fn matching(&self, thing: &str, place: Option<usize>) -> Vec<usize> {
        let said = content_stems(thing);
        let here = place
            .and_then(|place| self.vocabulary.places.get(place))
            .map(|place| place.id.as_str());
        let mut scored: Vec<(usize, usize)> = self
            .vocabulary
            .things
            .iter()
            .zip(&self.names)
            .enumerate()
            .filter(|(_, (thing, _))| {
                thing.place.is_none() || here.is_none() || thing.place.as_deref() == here
            })
            .filter_map(|(i, (_, names))| {
                let score = |words: &Vec<String>| {
                    let shared = words.iter().filter(|word| said.contains(word)).count();
                    shared * 100 / words.len().max(1) + shared * 10
                };
                let best = names.iter().map(score).max()?;
                (best >= 60).then_some((best, i))
            })
            .collect();
        scored.sort_by_key(|(score, i)| (std::cmp::Reverse(*score), *i));
        scored
            .into_iter()
            .take(MOST_MATCHES)
            .map(|(_, i)| i)
            .collect()
    }
}
