//! A rule: one small check with its question, formula, source and caution.

use grounds_measure::Units;
use grounds_model::Grade;
use serde::Serialize;

use crate::{
    answer::Answer,
    code::Code,
    doubt,
    given::Given,
    input::{Origin, Spec},
    working::{Worked, Working},
};

/// What a rule is about, as pages group them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Family {
    /// Air that is moved: hoods, ducts, grilles, doors.
    Air,
    /// Stairs, handrails and guards.
    Stairs,
    /// Glass and mirrors.
    Glass,
    /// Timber floors and what moves with the air.
    Timber,
    /// Screeds, flatness, tile and stone.
    TileAndStone,
    /// Showers, bathrooms and other wet rooms.
    WetRooms,
    /// Heated floors and snow melting.
    Heating,
    /// Terraces and roofs that are walked on.
    Terraces,
    /// Light and power.
    Electric,
    /// What must be in before a face is covered.
    Cover,
    /// Coats: when they may be laid and when the next one.
    Coats,
    /// People at work.
    Safety,
}

impl Family {
    /// What it is called.
    #[must_use]
    pub fn title(self) -> &'static str {
        match self {
            Self::Air => "Air",
            Self::Stairs => "Stairs, rails and guards",
            Self::Glass => "Glass",
            Self::Timber => "Timber",
            Self::TileAndStone => "Screed, tile and stone",
            Self::WetRooms => "Wet rooms",
            Self::Heating => "Heated floors and snow melting",
            Self::Terraces => "Terraces",
            Self::Electric => "Light and power",
            Self::Cover => "Before it is covered",
            Self::Coats => "Coats and drying",
            Self::Safety => "People at work",
        }
    }
}

/// Where a rule comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Source {
    /// The document with its edition and its clause, table or equation.
    pub text: &'static str,
    /// How far it can be trusted.
    pub grade: Grade,
}

/// Something that stands in the named publication.
pub(crate) const fn published(text: &'static str) -> Source {
    Source {
        text,
        grade: Grade::Published,
    }
}

/// Something recalled from the named publication, not looked up.
pub(crate) const fn memory(text: &'static str) -> Source {
    Source {
        text,
        grade: Grade::Memory,
    }
}

/// Common practice.
pub(crate) const fn practice(text: &'static str) -> Source {
    Source {
        text,
        grade: Grade::Practice,
    }
}

/// One check.
#[derive(Debug)]
pub struct Rule {
    /// Its key, in the words of the trade: `make-up-air`.
    pub name: &'static str,
    /// What it is called.
    pub title: &'static str,
    /// What it is about.
    pub family: Family,
    /// What it answers, as a question.
    pub question: &'static str,
    /// What it asks for.
    pub inputs: &'static [Spec],
    /// What is computed, a line each, in plain signs.
    pub formula: &'static [&'static str],
    /// Where it comes from.
    pub sources: &'static [Source],
    /// What to mind, and whose word is the last.
    pub caution: &'static str,
    /// The usual ways out when it fails.
    pub way_out: &'static str,
    pub(crate) work: fn(&mut Working<'_>) -> Worked,
}

impl Rule {
    /// The input of that key.
    #[must_use]
    pub fn input(&self, key: &str) -> Option<&'static Spec> {
        self.inputs.iter().find(|spec| spec.name == key)
    }

    /// The inputs that must be given.
    pub fn asked(&self) -> impl Iterator<Item = &'static Spec> {
        self.inputs
            .iter()
            .filter(|spec| matches!(spec.origin, Origin::Asked))
    }

    /// Evaluates the rule: the verdict, the working line by line, what is missing and who has it,
    /// and how the answer hangs on what is guessed.
    #[must_use]
    pub fn check(&self, given: &Given, code: &Code, units: Units) -> Answer {
        let working = Working::run(self, given, code, units);
        let doubts = doubt::doubts(self, given, code, units, &working);
        working.answer(doubts)
    }
}
