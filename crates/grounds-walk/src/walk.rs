//! From a transcript to proposals and questions.

use serde::Serialize;

use crate::{
    grammar::Reader,
    kinds::Kind,
    matching::Things,
    names::Names,
    proposals::{Proposal, propose},
    questions::{Question, ask},
    sentences::sentences,
    transcript::{Form, Transcript},
    vocabulary::Vocabulary,
};

/// What a walk comes to.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Walk {
    /// Notes that are proposed, in the order of the talk.
    pub proposals: Vec<Proposal>,
    /// What was said and became no proposal, in the order of the talk.
    pub questions: Vec<Question>,
}

/// Reads a transcript with what is known before the walk.
///
/// ```
/// use grounds_walk::{Kind, Place, Vocabulary, read, transcript};
///
/// let vocabulary = Vocabulary {
///     day: jiff::civil::date(2027, 6, 8),
///     units: grounds_measure::Units::Metric,
///     places: vec![Place { id: "hall".into(), name: "Hall".into(), also: vec![] }],
///     people: vec![],
///     things: vec![],
/// };
/// let talk = transcript::read("[0:04] Hall. The lime skirting isn't on yet.")?;
/// let walk = read(&talk, &vocabulary);
/// assert_eq!(walk.proposals[0].kind, Kind::NotDone);
/// assert_eq!(walk.proposals[0].thing, "lime skirting");
/// # Ok::<(), transcript::TranscriptError>(())
/// ```
#[must_use]
pub fn read(transcript: &Transcript, vocabulary: &Vocabulary) -> Walk {
    let names = Names::of(vocabulary);
    let flows = matches!(transcript.form, Form::Vtt | Form::Srt);
    let sentences = sentences(&transcript.cues, flows, &names, vocabulary.units);
    let mut reader = Reader::new(vocabulary, &names);
    reader.speakers = transcript
        .cues
        .iter()
        .filter_map(|cue| cue.speaker.as_ref())
        .any(|who| {
            transcript
                .cues
                .iter()
                .any(|cue| cue.speaker.as_ref().is_some_and(|w| w != who))
        });
    reader.lists = is_numbered(&sentences);
    let last = transcript.cues.len().saturating_sub(2);
    for sentence in &sentences {
        let cue = sentence.cue();
        let lists = cue == last + 1 && lists_again(&transcript.cues, cue);
        if cue >= last && last > 4 && (sums_up(&transcript.cues, cue) || lists) {
            reader.close();
        }
        reader.read(sentence);
    }
    let said = |cue: usize| {
        transcript
            .cues
            .get(cue)
            .map_or((String::new(), None), |cue| (cue.text.clone(), cue.at_ms))
    };
    let things = Things::of(vocabulary);
    let mut proposals: Vec<Proposal> = Vec::new();
    for fact in reader
        .facts
        .iter()
        .filter(|fact| !fact.dropped && fact.confidence >= LEAST)
    {
        let (sentence, at_ms) = said(fact.cue);
        let proposal = propose(fact, &things, &sentence, at_ms);
        if proposal.confidence < LEAST_SURE {
            continue;
        }
        if !proposals
            .iter()
            .rev()
            .take(20)
            .any(|known| repeats(known, &proposal))
        {
            proposals.push(proposal);
        }
    }
    let questions = ask(&sentences, &reader, &proposals, said);
    Walk {
        proposals,
        questions,
    }
}

/// Below this confidence a reading is asked about and not proposed.
const LEAST: u8 = 72;

/// Below this confidence, reckoned from its signs, a reading is asked about and not proposed.
const LEAST_SURE: u8 = 25;

/// Words that begin the last words of a walk.
const LAST_WORDS: [&str; 24] = [
    "finish",
    "end",
    "righto",
    "finally",
    "sum up",
    "to sum up",
    "and that",
    "right",
    "okay",
    "ok",
    "all right",
    "alright",
    "so",
    "done",
    "that's it",
    "that's",
    "that concludes",
    "that is",
    "that",
    "anyway",
    "list",
    "grand",
    "well",
    "to do",
];

/// Whether the talk reads a numbered list out: cues that begin with `One.`, `Two.` and so on.
fn is_numbered(sentences: &[crate::sentences::Sentence]) -> bool {
    let first = |at: usize| {
        at.checked_sub(1)
            .and_then(|before| sentences.get(before))
            .zip(sentences.get(at))
            .is_none_or(|(before, this)| before.cue() != this.cue())
    };
    let numbers: Vec<i64> = sentences
        .iter()
        .enumerate()
        .filter(|(at, _)| first(*at))
        .filter_map(|(_, sentence)| crate::grammar::lone_number(&sentence.tokens))
        .collect();
    let steps = numbers
        .windows(2)
        .filter(|pair| matches!(pair, [a, b] if *b == a + 1));
    steps.count() >= 3
}

/// Whether the last cue only lists again: short pieces between marks and hardly a verb.
fn lists_again(cues: &[crate::transcript::Cue], at: usize) -> bool {
    let Some(cue) = cues.get(at) else {
        return false;
    };
    let pieces: Vec<usize> = cue
        .text
        .split(['.', ',', ';'])
        .map(|piece| piece.split_whitespace().count())
        .filter(|words| *words > 0)
        .collect();
    pieces.len() >= 3 && pieces.iter().all(|words| *words <= 6)
}

/// Whether a cue at the end of the talk sums up: it begins as last words do.
fn sums_up(cues: &[crate::transcript::Cue], at: usize) -> bool {
    let Some(cue) = cues.get(at) else {
        return false;
    };
    let head = cue.text.to_lowercase();
    LAST_WORDS.iter().any(|word| {
        head.strip_prefix(word)
            .is_some_and(|rest| !rest.starts_with(char::is_alphanumeric))
    })
}

/// Whether a proposal says what another said, about the same thing in the same place.
fn repeats(known: &Proposal, new: &Proposal) -> bool {
    known.kind == new.kind
        && new.cue <= known.cue + if new.kind == Kind::Next { 1 } else { 6 }
        && known.place == new.place
        && known.thing == new.thing
        && (known.readings == new.readings || new.readings.is_empty())
        && (known.when == new.when || new.when.is_none())
}
