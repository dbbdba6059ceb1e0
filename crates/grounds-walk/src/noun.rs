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
const SMALL: [Class; 18] = [
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
        What::Word => token.any(&SMALL) && !token.is(Class::Side),
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
            if token.what == What::Word && token.is(Class::Prep) && !token.is(Class::Side) {
                after_preposition |= !noun.words.is_empty();
                continue;
            }
            if is_small(token) {
                continue;
            }
            if let Some(amount) = token.amount() {
                // "three walls" and "two coats" keep their count; a length is no name.
                let counts = amount.unit == crate::numbers::Unit::None
                    && next.is_some_and(|next| is_content(next));
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
