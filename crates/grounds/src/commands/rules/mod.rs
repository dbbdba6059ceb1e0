//! `grounds rules`: what the trade and the building code say of a house.

mod file;
mod whole;

use std::collections::BTreeMap;

use grounds_lines::{answers::Answers, lines::Lines};
use grounds_model::Id;
use grounds_rules::{
    Code, Verdict,
    house::{self, Applied},
};
use grounds_sequence::{
    Words,
    words::{count, join, upper_first},
};
use grounds_settle::{Bites, rule_bites, rule_goes_on};

use super::{show, show_json};
use crate::{
    arguments::Rules,
    ending::{Ending, Trouble},
    opened::{Opened, Planned},
};

pub(super) fn run(asked: &Rules) -> Result<Ending, Trouble> {
    let opened = Opened::open(&asked.job.job, &asked.job.data)?;
    let at = opened.moment(asked.job.at)?;
    let (title, written) = (opened.title(at), opened.written(at));
    let planned = opened.plan(at)?;
    let Planned { job, site, outlook } = &planned;
    let lines = Lines::of(job, site);
    // Where the fits cannot be reckoned with, rules do without them; `grounds fit` says why.
    let fits = Answers::standing(&lines).map_or_else(|_| Vec::new(), |fits| fits.answers);
    let checked = Checked {
        planned: &planned,
        code: house::code_of(job),
        applied: grounds_settle::rules(job, site, outlook, &fits),
    };
    if asked.json {
        show_json(&file::RulesFile::of(&checked, written))?;
    } else {
        show(whole::page(&checked, &title, asked.all))?;
    }
    let fails = checked
        .with(Verdict::Fails)
        .any(|applied| rule_goes_on(site, applied).is_none());
    Ok(if fails {
        Ending::CannotBeMet
    } else {
        Ending::Fine
    })
}

/// A house whose rules were evaluated.
struct Checked<'a> {
    planned: &'a Planned,
    code: Code,
    applied: Vec<Applied>,
}

impl Checked<'_> {
    fn with(&self, verdict: Verdict) -> impl Iterator<Item = &Applied> {
        let all = self.applied.iter();
        all.filter(move |applied| applied.answer.verdict == verdict)
    }

    /// The name of a place; without one it is about the whole house.
    fn place(&self, place: Option<&Id>) -> &str {
        place
            .and_then(|id| self.planned.job.places.get(id))
            .map_or("The whole house", |place| &place.name)
    }

    /// The plan in words.
    fn words(&self) -> Words<'_> {
        Words::new(&self.planned.outlook, &self.planned.job)
    }

    /// When a rule bites.
    fn bites(&self, applied: &Applied) -> Option<Bites> {
        let Planned { job, site, outlook } = self.planned;
        rule_bites(job, site, outlook, applied)
    }

    /// `Four fail, two cannot be told yet and 120 pass.`
    fn counts(&self) -> String {
        let mut counts: BTreeMap<Verdict, usize> = BTreeMap::new();
        for applied in &self.applied {
            *counts.entry(applied.answer.verdict).or_default() += 1;
        }
        let parts: Vec<String> = counts
            .iter()
            .map(|(verdict, &n)| {
                let word = match (verdict, n) {
                    (Verdict::Fails, 1) => "fails",
                    (Verdict::Fails, _) => "fail",
                    (Verdict::CannotTell, _) => "cannot be told yet",
                    (Verdict::Passes, 1) => "passes",
                    (Verdict::Passes, _) => "pass",
                };
                format!("{} {word}", count(n))
            })
            .collect();
        upper_first(&format!("{}.", join(&parts)))
    }
}

/// How a rule stands, as it is said.
pub(super) fn verdict_word(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Fails => "fails",
        Verdict::CannotTell => "cannot be told yet",
        Verdict::Passes => "passes",
    }
}
