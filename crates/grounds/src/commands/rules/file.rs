//! `grounds rules --json`.

use grounds_rules::{Answer, Family, Source, Verdict, house::Applied};
use grounds_settle::{rule_about, rule_goes_on, rule_key};
use serde::Serialize;

use super::Checked;

/// The rules of a house.
#[derive(Debug, Serialize)]
pub(super) struct RulesFile<'a> {
    job: &'a str,
    at: String,
    /// The building code that it goes by.
    code: &'a str,
    /// What fails first, then what cannot be told, then what passes; each by place.
    rules: Vec<One<'a>>,
}

/// A rule applied to a thing.
#[derive(Debug, Serialize)]
struct One<'a> {
    key: String,
    title: &'static str,
    family: Family,
    about: String,
    called: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    place: Option<&'a str>,
    /// Somebody decided that it goes on as it is.
    goes_on: bool,
    /// When it bites: what would be ordered or begun then, and when.
    #[serde(skip_serializing_if = "Option::is_none")]
    bites: Option<String>,
    #[serde(flatten)]
    answer: &'a Answer,
    sources: &'static [Source],
    caution: &'static str,
    way_out: &'static str,
}

impl<'a> RulesFile<'a> {
    pub(super) fn of(checked: &'a Checked<'_>, at: String) -> Self {
        let verdicts = [Verdict::Fails, Verdict::CannotTell, Verdict::Passes];
        Self {
            job: &checked.planned.job.job.name,
            at,
            code: &checked.code.name,
            rules: verdicts
                .into_iter()
                .flat_map(|verdict| checked.with(verdict))
                .map(|applied| One::of(checked, applied))
                .collect(),
        }
    }
}

impl<'a> One<'a> {
    fn of(checked: &Checked<'_>, applied: &'a Applied) -> Self {
        let Applied { rule, answer, .. } = applied;
        Self {
            key: rule_key(applied),
            title: rule.title,
            family: rule.family,
            about: rule_about(applied).to_string(),
            called: &applied.called,
            place: applied.place.as_ref().map(|id| id.as_str()),
            goes_on: rule_goes_on(&checked.planned.site, applied).is_some(),
            bites: checked
                .bites(applied)
                .filter(|_| applied.answer.verdict != Verdict::Passes)
                .map(|bites| bites.words(&checked.words())),
            answer,
            sources: rule.sources,
            caution: rule.caution,
            way_out: rule.way_out,
        }
    }
}
