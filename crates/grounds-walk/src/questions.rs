//! What was said, matters, and became no proposal.

use std::collections::BTreeSet;

use serde::Serialize;

use crate::{
    grammar::Reader,
    lexicon::{Class, Classes},
    noun::is_content,
    proposals::Proposal,
    sentences::Sentence,
    tokens::{Token, What},
};

/// Why a question is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Why {
    /// It tells something of the house and was not understood.
    NotUnderstood,
    /// It has a kind and a thing, and no place was named before it.
    NoPlace,
    /// It is about something that the job does not have.
    NotInJob,
}

/// Something that was said and should not be lost.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Question {
    /// Why it is asked.
    pub why: Why,
    /// What was said, word for word.
    pub sentence: String,
    /// The cue it was said in, by its number in the transcript.
    pub cue: usize,
    /// Its time in the walk, in milliseconds.
    pub at_ms: Option<u64>,
    /// The place that was in play, by its number in the vocabulary.
    pub place: Option<usize>,
}

/// Classes of words that tell something of a house.
const TELLING: [Class; 16] = [
    Class::Done,
    Class::NotDone,
    Class::Started,
    Class::Arrived,
    Class::NotArrived,
    Class::Wrong,
    Class::FaultNoun,
    Class::FaultVerb,
    Class::Pass,
    Class::Fail,
    Class::Block,
    Class::Ordered,
    Class::TestNoun,
    Class::AbleNoun,
    Class::Need,
    Class::Decision,
];

/// Whether a sentence tells something that should not be lost.
pub(crate) fn matters(sentence: &Sentence) -> bool {
    let tokens: Vec<&Token> = sentence
        .tokens
        .iter()
        .filter(|token| token.mark().is_none())
        .collect();
    let warns = tokens
        .iter()
        .find(|token| !token.is(Class::Filler))
        .is_some_and(|token| matches!(token.text.as_str(), "mind" | "watch" | "careful"));
    // "Once that sill pan's flashed we can close it up.": what is meant, and no news.
    let meant = tokens
        .iter()
        .find(|token| !token.is(Class::Filler))
        .is_some_and(|token| matches!(token.text.as_str(), "once" | "when" | "as soon as" | "if"))
        && tokens
            .iter()
            .any(|token| token.any(&[Class::Modal, Class::Will]) && token.what == What::Word);
    let idle = warns || meant || tokens.iter().any(|token| token.is(Class::Idle));
    let telling = tokens.iter().any(|token| {
        token.amount().is_some()
            || token.when().is_some()
            || token.what == What::Word
                && telling(token.classes)
                && !(token.is(Class::Wrong)
                    && token.any(&[Class::Particle, Class::Prep, Class::Side]))
    });
    let known_thing = tokens
        .iter()
        .any(|token| token.what == What::Word && token.any(&[Class::Thing, Class::TestNoun]));
    let be = |token: &&Token| token.what == What::Word && token.any(&[Class::Be]);
    let states = known_thing
        && (tokens.iter().any(|token| {
            token.what == What::Word
                && (token.is(Class::Wanted) && !token.is(Class::Read)
                    || matches!(token.text.as_str(), "either" | "no" | "there"))
        }) || tokens.windows(2).any(
            |pair| matches!(pair, [a, b] if be(a) && b.what == What::Word && b.is(Class::Particle)),
        ));
    let one_of_them = tokens.iter().any(|token| {
        token.what == What::Word && token.any(&[Class::NotDone, Class::NotArrived, Class::Fail])
    }) && tokens.iter().any(be);
    let told_figure = tokens.iter().any(|token| token.amount().is_some())
        && tokens.iter().any(|token| token.is(Class::Hearsay));
    let known = tokens.iter().any(|token| {
        token.any(&[
            Class::Thing,
            Class::AbleNoun,
            Class::TestNoun,
            Class::FaultNoun,
            Class::Room,
            Class::Need,
            Class::Decision,
        ]) || matches!(token.what, What::Place(_) | What::Person(_))
            || token.amount().is_some_and(|amount| amount.said)
    });
    let about_people = tokens
        .first()
        .is_some_and(|token| token.any(&[Class::FirstPerson, Class::ThirdPerson]))
        && !known;
    let orders = tokens
        .iter()
        .any(|token| token.is(Class::Act) && !token.is(Class::Soft));
    let things = tokens
        .iter()
        .filter(|token| is_content(token) && !token.any(&[Class::Soft, Class::Person]))
        .count();
    !idle
        && !sentence.asks
        && !about_people
        && (told_figure
            || states && tokens.len() >= 3
            || one_of_them && tokens.len() >= 3
            || (telling || orders) && things >= 1 && tokens.len() >= 3)
}

/// Whether everything that a sentence names was named before in the talk.
fn said_before(before: &[Sentence], sentence: &Sentence) -> bool {
    let known: BTreeSet<String> = before
        .iter()
        .flat_map(|sentence| &sentence.tokens)
        .flat_map(|token| token.text.split(' '))
        .map(crate::lexicon::stem)
        .collect();
    sentence
        .tokens
        .iter()
        .filter(|token| token.is(Class::Thing))
        .flat_map(|token| token.text.split(' '))
        .all(|word| known.contains(&crate::lexicon::stem(word)))
}

fn telling(classes: Classes) -> bool {
    classes.any(&TELLING)
}

/// The questions that a walk leaves: for each cue that matters and has no proposal, one.
pub(crate) fn ask(
    sentences: &[Sentence],
    reader: &Reader<'_>,
    proposals: &[Proposal],
    said: impl Fn(usize) -> (String, Option<u64>),
) -> Vec<Question> {
    let shown: BTreeSet<usize> = proposals
        .iter()
        .flat_map(|proposal| std::iter::once(proposal.cue).chain(proposal.also.iter().copied()))
        .collect();
    let proposed: BTreeSet<usize> = proposals
        .iter()
        .map(|proposal| proposal.sentence_number)
        .collect();
    let read: BTreeSet<usize> = reader
        .facts
        .iter()
        .filter(|fact| !fact.dropped)
        .map(|fact| fact.sentence)
        .collect();
    let mut questions: Vec<Question> = Vec::new();
    for (i, sentence) in sentences.iter().enumerate() {
        let cue = sentence.cue();
        let covered = shown.contains(&cue)
            || proposed.contains(&i)
            || questions.last().is_some_and(|question| question.cue == cue);
        let place = reader.places.get(i).copied().flatten();
        let opening = place.is_none() && cue == 0;
        let repeats = reader.is_closing(i)
            && (!read.contains(&i)
                || said_before(sentences.get(..i).unwrap_or_default(), sentence));
        if covered || opening || repeats || !matters(sentence) {
            continue;
        }
        let (text, at_ms) = said(cue);
        questions.push(Question {
            why: Why::NotUnderstood,
            sentence: text,
            cue,
            at_ms,
            place,
        });
    }
    questions
}
