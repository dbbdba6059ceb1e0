//! What a stretch of talk is about: its content words.

use crate::{
    lexicon::{Class, stem},
    tokens::{Token, What},
};

/// The content words of a noun phrase.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Noun {
    /// Its words in the order said, articles and the like left out.
    pub(crate) words: Vec<String>,
    /// How many of the words stand before the first preposition.
    pub(crate) head: usize,
    /// Whether a pronoun stands for something said before: `it`, `one of those`.
    pub(crate) refers: bool,
}

/// Classes of words that say nothing of which thing is meant.
const SMALL: [Class; 20] = [
    Class::Will,
    Class::Wanted,
    Class::Det,
    Class::Pron,
    Class::Be,
    Class::Have,
    Class::Do,
    Class::Modal,
    Class::Not,
    Class::Conj,
    Class::Cause,
    Class::Until,
    Class::When,
    Class::Which,
    Class::Adv,
    Class::Filler,
    Class::Hedge,
    Class::Hearsay,
    Class::Yes,
    Class::No,
];

/// Whether a token is a small word.
pub(crate) fn is_small(token: &Token) -> bool {
    match token.what {
        What::Word => {
            token.any(&SMALL) && !token.any(&[Class::Side, Class::Thing])
                || token.is(Class::Verb) && !token.any(&[Class::Thing, Class::Done, Class::Arrived])
        }
        What::Mark(_) | What::When(_) => true,
        What::Amount(_) | What::Place(_) | What::Person(_) => false,
    }
}

/// Whether a token can be the name of something: a word that is no small word, verb form of *to
/// be* and the like, or a name.
pub(crate) fn is_content(token: &Token) -> bool {
    !is_small(token) && token.amount().is_none() && !token.is(Class::Prep)
}

impl Noun {
    /// The noun phrase that the tokens hold.
    pub(crate) fn of(tokens: &[Token]) -> Self {
        let mut noun = Self::default();
        let mut after_preposition = false;
        for (at, token) in tokens.iter().enumerate() {
            let next = tokens.get(at + 1);
            if token.is(Class::Pron) && token.what == What::Word {
                noun.refers |= noun.words.is_empty();
            }
            if token.text == "'s" || token.mark().is_some() {
                continue;
            }
            if token.what == What::Word
                && token.is(Class::Prep)
                && !token.any(&[Class::Side, Class::Thing])
            {
                after_preposition |= !noun.words.is_empty();
                continue;
            }
            if is_small(token) {
                continue;
            }
            if noun.words.is_empty()
                && token
                    .amount()
                    .is_some_and(|a| a.unit == crate::numbers::Unit::None)
                && next.is_some_and(|n| n.what == What::Word && n.is(Class::Prep) && n.text != "of")
            {
                // "the two at the gable": two of what was spoken of.
                noun.refers = true;
                continue;
            }
            if let Some(amount) = token.amount() {
                // "three walls" and "two coats" keep their count; a length is no name.
                let counts = amount.unit == crate::numbers::Unit::None
                    && next.is_some_and(is_content)
                    || amount.unit == crate::numbers::Unit::Coat;
                if !counts {
                    continue;
                }
            }
            noun.words.extend(token.text.split(' ').map(str::to_owned));
            if !after_preposition {
                noun.head = noun.words.len();
            }
        }
        noun
    }

    /// Whether it names nothing.
    pub(crate) fn is_empty(&self) -> bool {
        self.words.is_empty()
    }

    /// Its words, as they are shown.
    pub(crate) fn text(&self) -> String {
        self.words.join(" ")
    }

    /// This noun with the words of another behind it, none twice.
    pub(crate) fn with(&self, other: &Self) -> Self {
        let mut all = self.clone();
        for word in &other.words {
            if !all.words.iter().any(|known| stem(known) == stem(word)) {
                all.words.push(word.clone());
            }
        }
        all.head = self.head.max(usize::from(self.head == 0) * other.head);
        all
    }

    /// Whether the other noun is this one's last word said again: `door` after `pocket door`.
    pub(crate) fn ends_as(&self, other: &Self) -> bool {
        match other.words.as_slice() {
            [only] => {
                let last = self.head.checked_sub(1).and_then(|at| self.words.get(at));
                self.words.len() > 1 && last.is_some_and(|last| stem(last) == stem(only))
            }
            _ => false,
        }
    }

    /// Whether a word of the other's first words is among this one's.
    pub(crate) fn head_shares(&self, other: &Self) -> bool {
        other.words.iter().take(2).any(|word| {
            word.len() > 2
                && !matches!(
                    word.as_str(),
                    "two" | "three" | "four" | "men" | "new" | "one"
                )
                && self.words.iter().any(|known| stem(known) == stem(word))
        })
    }

    /// Whether both share a content word.
    pub(crate) fn shares_word(&self, other: &Self) -> bool {
        self.words.iter().any(|word| {
            other
                .words
                .iter()
                .any(|known| stem(known) == stem(word) && word.len() > 2)
        })
    }
}
