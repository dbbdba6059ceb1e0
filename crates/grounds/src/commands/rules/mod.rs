//! `grounds rules`: what the trade and the building code say of a house.

mod file;
mod whole;

use std::collections::BTreeMap;

use grounds_model::Job;
use grounds_rules::{
    Code, Verdict,
    house::{self, Applied},
};
use grounds_sequence::words::{count, join, upper_first};
use grounds_settle::rule_goes_on;
use grounds_site::Site;

use super::{show, show_json};
use crate::{
    arguments::Rules,
    ending::{Ending, Trouble},
    opened::Opened,
};

pub(super) fn run(asked: &Rules) -> Result<Ending, Trouble> {
    let opened = Opened::open(&asked.job.job, &asked.job.data)?;
    let at = opened.moment(asked.job.at)?;
    let site = opened.site(at);
    let checked = Checked {
        job: &opened.job,
        site: &site,
        code: house::code_of(&opened.job),
        applied: house::check(&opened.job, &site),
    };
    if asked.json {
        show_json(&file::RulesFile::of(&checked, opened.written(at)))?;
    } else {
        show(whole::page(&checked, &opened.title(at), asked.all))?;
    }
    let fails = checked
        .with(Verdict::Fails)
        .any(|applied| rule_goes_on(&site, applied).is_none());
    Ok(if fails {
        Ending::CannotBeMet
    } else {
        Ending::Fine
    })
}

/// A house whose rules were evaluated.
struct Checked<'a> {
    job: &'a Job,
    site: &'a Site,
    code: Code,
    applied: Vec<Applied>,
}

impl Checked<'_> {
    fn with(&self, verdict: Verdict) -> impl Iterator<Item = &Applied> {
        let all = self.applied.iter();
        all.filter(move |applied| applied.answer.verdict == verdict)
    }

    /// The name of the place that a rule is applied in.
    fn place(&self, applied: &Applied) -> &str {
        let place = applied.place.as_ref();
        place
            .and_then(|id| self.job.places.get(id))
            .map_or("The whole house", |place| &place.name)
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
