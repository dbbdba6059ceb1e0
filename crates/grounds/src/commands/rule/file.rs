//! `grounds rule --json`.

use grounds_rules::{Answer, Code, Family, InputKind, Origin, Rule, Source};
use serde::Serialize;

/// What a rule asks for.
#[derive(Debug, Serialize)]
pub(super) struct Asks {
    name: &'static str,
    title: &'static str,
    family: Family,
    question: &'static str,
    inputs: Vec<Input>,
    formula: &'static [&'static str],
    sources: &'static [Source],
    caution: &'static str,
    way_out: &'static str,
}

/// An input of a rule.
#[derive(Debug, Serialize)]
struct Input {
    key: &'static str,
    what: &'static str,
    /// The kind of quantity; nothing for words, and for yes or no.
    #[serde(skip_serializing_if = "Option::is_none")]
    kind: Option<&'static str>,
    example: String,
    who: &'static str,
    origin: Origin,
}

impl Asks {
    pub(super) fn of(rule: &'static Rule) -> Self {
        Self {
            name: rule.name,
            title: rule.title,
            family: rule.family,
            question: rule.question,
            inputs: rule
                .inputs
                .iter()
                .map(|spec| Input {
                    key: spec.name,
                    what: spec.what,
                    kind: match spec.kind {
                        InputKind::Quantity(kind) => Some(kind.name),
                        InputKind::Word(_) | InputKind::YesNo => None,
                    },
                    example: spec.kind.example(),
                    who: spec.who.words(),
                    origin: spec.origin,
                })
                .collect(),
            formula: rule.formula,
            sources: rule.sources,
            caution: rule.caution,
            way_out: rule.way_out,
        }
    }
}

/// The answer of a rule.
#[derive(Debug, Serialize)]
pub(super) struct Answered<'a> {
    title: &'static str,
    code: &'a str,
    edition: &'a str,
    #[serde(flatten)]
    answer: &'a Answer,
    sources: &'static [Source],
    caution: &'static str,
    way_out: &'static str,
}

impl<'a> Answered<'a> {
    pub(super) fn of(rule: &Rule, code: &'a Code, answer: &'a Answer) -> Self {
        Self {
            title: rule.title,
            code: &code.name,
            edition: &code.edition,
            answer,
            sources: rule.sources,
            caution: rule.caution,
            way_out: rule.way_out,
        }
    }
}
