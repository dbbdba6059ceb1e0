//! What tells how surely something was read.

use crate::{
    fact::Fact,
    grammar::Reader,
    lexicon::{Class, lexicon},
    noun::is_content,
    sentences::Sentence,
    tokens::{Token, What},
};

/// What tells how surely something was read: counts and marks of the clause it was read from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Signs {
    /// How sure the rule is that read it, from 0 to 100.
    pub rule: u8,
    /// Words of the clause that could name something and are not used.
    pub left_over: u8,
    /// Words of the clause, marks not counted.
    pub length: u8,
    /// Words of the sentence, marks not counted.
    pub sentence: u8,
    /// Whether all of the thing's words were said in the clause.
    pub named: bool,
    /// Whether the clause has a pronoun that could stand for another thing.
    pub pronoun: bool,
    /// Words of the thing.
    pub words: u8,
    /// Words of the thing that the lexicon does not know.
    pub strange: u8,
    /// Words of the sentence that the lexicon does not know and the thing does not have.
    pub unknown: u8,
    /// Whether the lexicon has one of the thing's words as the name of a thing.
    pub known: bool,
    /// Whether somebody is the subject or is spoken to.
    pub person: bool,
    /// Whether the sentence jokes, asks or supposes: idle words, *if*, *would*.
    pub loose: bool,
    /// Whether the talk has no marks.
    pub bare: bool,
    /// Facts read from the clause.
    pub facts: u8,
    /// Whether a place was in play.
    pub placed: bool,
}

impl Signs {
    /// The signs of what a rule reads, before its clause is looked at.
    pub(crate) fn of_rule(rule: u8) -> Self {
        Self {
            rule,
            ..Self::default()
        }
    }
}

/// Words of a sentence that supposes, plays or looks back.
const LOOSE: [&str; 16] = [
    "if", "would", "could", "might", "like", "imagine", "suppose", "say", "said", "told", "was",
    "were", "think", "know", "joke", "never",
];

fn count(number: usize) -> u8 {
    u8::try_from(number).unwrap_or(u8::MAX)
}

impl Reader<'_> {
    /// Marks the facts of a clause with what it shows.
    pub(crate) fn sign(&mut self, tokens: &[Token], from: usize) {
        let words: Vec<&str> = tokens
            .iter()
            .filter(|token| token.what == What::Word)
            .flat_map(|token| token.text.split(' '))
            .collect();
        let pronoun = tokens.iter().any(|t| {
            matches!(
                t.text.as_str(),
                "it" | "they" | "them" | "that" | "those" | "one"
            )
        });
        let person = tokens.iter().any(|t| {
            matches!(t.what, What::Person(_))
                || t.any(&[Class::FirstPerson, Class::ThirdPerson, Class::Person])
        });
        let facts = count(self.facts.len() - from);
        for fact in self.facts.iter_mut().skip(from) {
            let used = |text: &str| {
                let in_cause = fact.cause.as_deref().unwrap_or_default();
                fact.thing.words.iter().any(|word| word == text) || in_cause.contains(text)
            };
            let left_over = tokens
                .iter()
                .filter(|t| {
                    is_content(t)
                        && !t.any(&[
                            Class::Done,
                            Class::NotDone,
                            Class::Wrong,
                            Class::Arrived,
                            Class::NotArrived,
                            Class::Started,
                            Class::Act,
                            Class::FaultVerb,
                            Class::Pass,
                            Class::Fail,
                            Class::Ok,
                        ])
                        && !t.text.split(' ').any(used)
                })
                .count();
            fact.signs.left_over = count(left_over);
            fact.signs.length = count(tokens.len());
            fact.signs.named = fact
                .thing
                .words
                .first()
                .is_some_and(|word| words.contains(&word.as_str()));
            fact.signs.pronoun = pronoun;
            fact.signs.person = person;
            fact.signs.facts = facts;
        }
    }

    /// Marks the facts of a sentence with what the whole of it shows.
    pub(crate) fn sign_sentence(&mut self, sentence: &Sentence, tokens: &[Token]) {
        let from = self.sentence_from;
        let loose = sentence.asks
            || tokens.iter().any(|t| {
                t.is(Class::Idle) || t.what == What::Word && LOOSE.contains(&t.text.as_str())
            });
        let length = count(tokens.iter().filter(|t| t.mark().is_none()).count());
        for fact in self.facts.iter_mut().skip(from) {
            let signs = strangers(fact, tokens);
            fact.signs = Signs {
                loose,
                sentence: length,
                bare: sentence.bare,
                placed: fact.place.is_some(),
                ..signs
            };
        }
    }
}

/// The signs of a fact with its unknown words counted.
fn strangers(fact: &Fact, tokens: &[Token]) -> Signs {
    let known_as = |word: &str, classes: &[Class]| lexicon().word(word).any(classes);
    let strange = fact
        .thing
        .words
        .iter()
        .filter(|word| lexicon().word(word).is_empty())
        .count();
    let unknown = tokens
        .iter()
        .filter(|t| t.what == What::Word && t.classes.is_empty())
        .filter(|t| !fact.thing.words.contains(&t.text))
        .count();
    let known = fact.thing.words.iter().any(|word| {
        known_as(
            word,
            &[Class::Thing, Class::AbleNoun, Class::TestNoun, Class::Room],
        )
    });
    Signs {
        words: count(fact.thing.words.len()),
        strange: count(strange),
        unknown: count(unknown),
        known,
        ..fact.signs
    }
}
