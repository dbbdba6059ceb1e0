//! What a rule asks for: each input with its kind, its range, and who has the figure.

use std::marker::PhantomData;

use grounds_model::Grade;
use serde::Serialize;

use crate::quantity::{Kind, Quantity};

/// Who has a figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Who {
    /// Stands in the drawings.
    Drawings,
    /// Stands in the maker's data sheet.
    Maker,
    /// Measured or counted on site.
    Site,
    /// The electrician.
    Electrician,
    /// The plumber, the heating or ventilation engineer.
    Services,
    /// The structural engineer.
    Engineer,
    /// The authority having jurisdiction, or the code it goes by.
    Authority,
    /// The forecast or the climate tables for the place.
    Weather,
    /// Decided by the owner or the designer.
    Designer,
}

impl Who {
    /// Where to get it, as the end of "from …".
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Drawings => "the drawings",
            Self::Maker => "the maker's data sheet",
            Self::Site => "a look or a measure on site",
            Self::Electrician => "the electrician",
            Self::Services => "the heating, water and air trade",
            Self::Engineer => "the structural engineer",
            Self::Authority => "the authority having jurisdiction",
            Self::Weather => "the forecast, or the climate tables of the place",
            Self::Designer => "the designer or the owner",
        }
    }
}

/// A figure that is guessed until somebody says better.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Guess {
    /// The likely figure, as text with its unit.
    pub likely: &'static str,
    /// The least that is usual.
    pub low: &'static str,
    /// The most that is usual.
    pub high: &'static str,
    /// Where it comes from.
    pub source: &'static str,
    /// How far it can be trusted.
    pub grade: Grade,
}

/// What is taken for a limit where the code of the job has no figure of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Allowance {
    /// The figure, as text with its unit.
    pub is: &'static str,
    /// Where it comes from.
    pub source: &'static str,
    /// How far it can be trusted.
    pub grade: Grade,
}

/// Where a figure comes from if nobody gives it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Origin {
    /// It must be given.
    Asked,
    /// The rule says more with it, and does without.
    Wanted,
    /// It is guessed.
    Guessed(Guess),
    /// The code of the job has it, else this allowance; without either its part of the rule does
    /// not apply.
    Limit(Option<Allowance>),
}

/// What is read for an input.
#[derive(Clone, Copy, Debug)]
pub enum InputKind {
    /// A quantity with its unit.
    Quantity(&'static Kind),
    /// One of a few words.
    Word(&'static [&'static str]),
    /// Yes or no.
    YesNo,
}

impl InputKind {
    /// What to write, as the end of "write …".
    #[must_use]
    pub fn example(self) -> String {
        match self {
            Self::Quantity(kind) => kind.example.to_owned(),
            Self::Word(words) => format!("one of {}", words.join(", ")),
            Self::YesNo => "yes or no".to_owned(),
        }
    }
}

/// An input of a rule.
#[derive(Clone, Copy, Debug)]
pub struct Spec {
    /// Its key: `duct-diameter`. The same key means the same thing in every rule.
    pub name: &'static str,
    /// What it is, as the subject of a sentence: `the diameter of the duct`.
    pub what: &'static str,
    /// What is read for it.
    pub kind: InputKind,
    /// The least that is taken for true, as text with its unit; empty for any.
    pub least: &'static str,
    /// The most that is taken for true.
    pub most: &'static str,
    /// Who has the figure.
    pub who: Who,
    /// Where it comes from if nobody gives it.
    pub origin: Origin,
}

/// An input whose type the compiler knows.
#[derive(Debug)]
pub struct Input<T> {
    /// What it is.
    pub spec: Spec,
    of: PhantomData<fn() -> T>,
}

/// One of a few words.
pub type Word = &'static str;

const fn input<T>(name: &'static str, what: &'static str, kind: InputKind, who: Who) -> Input<T> {
    Input {
        spec: Spec {
            name,
            what,
            kind,
            least: "",
            most: "",
            who,
            origin: Origin::Asked,
        },
        of: PhantomData,
    }
}

/// A quantity that must be given.
pub(crate) const fn asked<Q: Quantity>(
    name: &'static str,
    what: &'static str,
    who: Who,
) -> Input<Q> {
    input(name, what, InputKind::Quantity(Q::KIND), who)
}

/// A limit that the code of the job sets.
pub(crate) const fn limit<Q: Quantity>(name: &'static str, what: &'static str) -> Input<Q> {
    let mut input = input(name, what, InputKind::Quantity(Q::KIND), Who::Authority);
    input.spec.origin = Origin::Limit(None);
    input
}

/// One of a few words that must be given.
pub(crate) const fn word(
    name: &'static str,
    what: &'static str,
    words: &'static [&'static str],
    who: Who,
) -> Input<Word> {
    input(name, what, InputKind::Word(words), who)
}

/// Yes or no, which must be given.
pub(crate) const fn yes_no(name: &'static str, what: &'static str, who: Who) -> Input<bool> {
    input(name, what, InputKind::YesNo, who)
}

impl<T> Input<T> {
    /// What is taken for true lies between these.
    pub(crate) const fn between(mut self, least: &'static str, most: &'static str) -> Self {
        self.spec.least = least;
        self.spec.most = most;
        self
    }

    /// The rule says more with it, and does without.
    pub(crate) const fn wanted(mut self) -> Self {
        self.spec.origin = Origin::Wanted;
        self
    }

    /// Guessed until somebody says better: likely, low and high as is common practice.
    pub(crate) const fn guessed(
        self,
        likely: &'static str,
        low: &'static str,
        high: &'static str,
        source: &'static str,
    ) -> Self {
        self.guessed_from(Guess {
            likely,
            low,
            high,
            source,
            grade: Grade::Practice,
        })
    }

    /// Guessed until somebody says better.
    pub(crate) const fn guessed_from(mut self, guess: Guess) -> Self {
        self.spec.origin = Origin::Guessed(guess);
        self
    }

    /// What is taken for a limit where the code has none.
    pub(crate) const fn or(mut self, is: &'static str, source: &'static str, grade: Grade) -> Self {
        self.spec.origin = Origin::Limit(Some(Allowance { is, source, grade }));
        self
    }
}
