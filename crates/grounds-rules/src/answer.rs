//! What a rule comes to.

use serde::Serialize;

use crate::doubt::Doubt;

/// How a check stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// Something is not as the rule asks.
    Fails,
    /// A figure is missing.
    CannotTell,
    /// All is as the rule asks.
    Passes,
}

/// How a figure must stand to its limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Relation {
    /// No more than the limit.
    AtMost,
    /// No less than the limit.
    AtLeast,
}

/// One line of the working.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Line {
    /// A figure that goes in.
    Given {
        /// The key of the input.
        key: &'static str,
        /// What it is.
        what: &'static str,
        /// The figure with its unit.
        value: String,
        /// Who says so.
        from: String,
        /// It is a guess.
        guessed: bool,
    },
    /// A step of the computation.
    Step {
        /// What is computed.
        what: String,
        /// How, in figures.
        how: String,
        /// What it comes to, with its unit.
        value: String,
        /// The same as a number in the base unit.
        base: f64,
        /// The name of its kind of quantity.
        kind: &'static str,
    },
    /// A comparison.
    Compared {
        /// What is compared.
        what: String,
        /// Its figure.
        value: String,
        /// How it must stand to the limit.
        relation: Relation,
        /// The limit.
        limit: String,
        /// Whether it does.
        holds: bool,
    },
    /// Something that must be so.
    Must {
        /// What, as a sentence.
        what: String,
        /// Whether it is.
        holds: bool,
    },
    /// A remark.
    Said(String),
}

/// A figure that is missing.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Missing {
    /// The key of the input.
    pub key: &'static str,
    /// What it is.
    pub what: &'static str,
    /// Who has it.
    pub who: &'static str,
    /// What to write.
    pub example: String,
}

/// What a rule comes to.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Answer {
    /// The rule, by key.
    pub rule: &'static str,
    /// How it stands.
    pub verdict: Verdict,
    /// The answer in a sentence or two.
    pub said: String,
    /// The working, line by line.
    pub lines: Vec<Line>,
    /// What is missing, and who has it.
    pub missing: Vec<Missing>,
    /// How the answer hangs on what is guessed.
    pub doubts: Vec<Doubt>,
}

impl Answer {
    /// What a step of the working comes to, in its base unit, with the kind of quantity it is.
    #[must_use]
    pub fn figure(&self, step: &str) -> Option<(f64, &'static str)> {
        self.lines.iter().find_map(|line| match line {
            Line::Step {
                what, base, kind, ..
            } if what == step => Some((*base, *kind)),
            _ => None,
        })
    }

    /// The working as plain lines of text.
    #[must_use]
    pub fn working(&self) -> Vec<String> {
        self.lines.iter().map(Line::words).collect()
    }
}

impl Line {
    /// The line as text.
    #[must_use]
    pub fn words(&self) -> String {
        match self {
            Self::Given {
                what,
                value,
                from,
                guessed,
                ..
            } => {
                let guess = if *guessed { ", a guess" } else { "" };
                format!("{}: {value} ({from}{guess})", capital(what))
            }
            Self::Step {
                what, how, value, ..
            } if how.is_empty() => {
                format!("{}: {value}", capital(what))
            }
            Self::Step {
                what, how, value, ..
            } => format!("{}: {how} = {value}", capital(what)),
            Self::Compared {
                what,
                value,
                relation,
                limit,
                holds,
            } => {
                let relation = match relation {
                    Relation::AtMost => "at most",
                    Relation::AtLeast => "at least",
                };
                let end = if *holds { "as asked" } else { "not as asked" };
                format!("{}: {value}, {relation} {limit}: {end}", capital(what))
            }
            Self::Must { what, holds } => {
                let end = if *holds { "as asked" } else { "not as asked" };
                format!("{}: {end}", capital(what))
            }
            Self::Said(text) => text.clone(),
        }
    }
}

/// A text with its first letter large.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}
