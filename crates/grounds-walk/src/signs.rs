//! What tells how surely something was read.

use crate::{
    fact::Fact,
    grammar::Reader,
    kinds::Kind,
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
    /// Whether the clause is a thing, a small verb and a state, and nothing else.
    pub plain: bool,
    /// Clauses of the sentence from which nothing was read.
    pub unread: u8,
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

/// Confidence from which on a proposal counts as surely read: what is so marked was right in 19 of
/// 20 and more on walks that the rules were not made with.
pub(crate) const SURE: u8 = 90;

impl Signs {
    /// How surely a kind of thing was read, from 0 to 100: the share of such readings that are
    /// right on talk that the rules do not know.
    ///
    /// A plain clause (a known thing, a small verb, one state, in a sentence of which all was read)
    /// is sure. For the rest the signs add up as log-odds, fitted to walks by strangers.
    pub(crate) fn confidence(self, kind: Kind) -> u8 {
        let ok = self.known && self.placed && !self.person && !self.loose && !self.bare;
        let begun = matches!(
            kind,
            Kind::Started | Kind::Next | Kind::Decision | Kind::Measured | Kind::Blocked
        );
        if self.plain && ok && !begun {
            return if self.unread == 0 { 95 } else { 86 };
        }
        let of_kind = match kind {
            Kind::NotDone | Kind::NotDelivered | Kind::Delivered => 33,
            Kind::Wrong | Kind::Failed => -22,
            Kind::Measured | Kind::Decision => -10,
            Kind::Next | Kind::Started => -35,
            Kind::Done | Kind::Passed | Kind::Blocked => 0,
        };
        let if_so = |sign: bool, odds: i32| if sign { odds } else { 0 };
        let odds = 120
            + of_kind
            + if_so(self.pronoun, -14)
            + if_so(!self.known, -120)
            + if_so(self.person, -22)
            + if_so(self.loose, -53)
            + if_so(self.bare, -60)
            + if_so(!self.placed, -150)
            + if_so(self.plain, 60)
            - 18 * i32::from(self.strange.min(2))
            - 41 * i32::from(self.unknown.min(2));
        percent(odds)
    }
}

/// The chance that belongs to log-odds in hundredths, in hundredths.
fn percent(odds: i32) -> u8 {
    const STEPS: [(i32, u8); 14] = [
        (-220, 10),
        (-139, 20),
        (-85, 30),
        (-41, 40),
        (-20, 45),
        (0, 50),
        (20, 55),
        (41, 60),
        (62, 65),
        (85, 70),
        (110, 75),
        (139, 80),
        (160, 82),
        (173, 84),
    ];
    STEPS
        .iter()
        .rev()
        .find(|(least, _)| odds >= *least)
        .map_or(5, |(_, percent)| *percent)
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
        let plain = is_plain(tokens);
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
            fact.signs.plain = plain;
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
        let unread = count(self.unread);
        let length = count(tokens.iter().filter(|t| t.mark().is_none()).count());
        for fact in self.facts.iter_mut().skip(from) {
            let signs = strangers(fact, tokens);
            fact.signs = Signs {
                unread,
                loose,
                sentence: length,
                bare: sentence.bare,
                placed: fact.place.is_some(),
                ..signs
            };
        }
    }
}

/// Whether a clause is a thing, perhaps a small verb, and one state, and nothing else.
fn is_plain(tokens: &[Token]) -> bool {
    let state = |t: &Token| {
        t.what == What::Word
            && t.any(&[
                Class::Done,
                Class::NotDone,
                Class::Wrong,
                Class::Arrived,
                Class::NotArrived,
                Class::Particle,
                Class::Pass,
                Class::Fail,
                Class::FaultVerb,
            ])
            && !t.any(&[Class::Thing, Class::Side])
    };
    let Some(at) = tokens.iter().position(state) else {
        return false;
    };
    let small = |t: &Token| {
        t.any(&[Class::Be, Class::Have, Class::Not, Class::Adv, Class::Det]) && t.what == What::Word
    };
    let before = tokens.get(..at).unwrap_or_default();
    let after = tokens.get(at + 1..).unwrap_or_default();
    let named = before.iter().filter(|t| is_content(t)).count();
    (1..=4).contains(&named)
        && before
            .iter()
            .all(|t| (is_content(t) && t.what == What::Word) || small(t))
        && after
            .iter()
            .all(|t| t.is(Class::Adv) && !t.is(Class::Prep) || state(t))
        && after.len() <= 2
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
