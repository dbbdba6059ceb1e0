//! What the rules of the trade and of the building code say of a house, reckoned once when the job
//! changes.

use grounds_model::{Id, Job};
use grounds_rules::{
    Code, Verdict,
    house::{self, Applied},
};
use grounds_sequence::Outlook;
use grounds_settle::rule_key;
use grounds_site::Site;

use crate::fit::Fit;

/// The rules of a house.
#[derive(Debug)]
pub(crate) struct Rules {
    /// The building code that the job goes by.
    pub(crate) code: Code,
    /// Every rule that speaks of something in it, by place, each with its key.
    pub(crate) applied: Vec<(String, Applied)>,
}

/// Rules in one place, each with its key.
pub(crate) type InPlace<'a> = (Option<Id>, Vec<&'a (String, Applied)>);

impl Rules {
    /// Evaluates every rule that speaks of something in a house, as it is planned and as it fits.
    pub(crate) fn of(job: &Job, site: &Site, outlook: &Outlook, fit: &Fit) -> Self {
        let applied = grounds_settle::rules(job, site, outlook, &fit.answers).into_iter();
        Self {
            code: house::code_of(job),
            applied: applied.map(|one| (rule_key(&one), one)).collect(),
        }
    }

    /// The rule of that key.
    pub(crate) fn get(&self, key: &str) -> Option<&Applied> {
        let mut all = self.applied.iter();
        all.find(|(known, _)| known == key).map(|(_, one)| one)
    }

    /// How many stand so.
    pub(crate) fn count(&self, verdict: Verdict) -> usize {
        self.with(verdict).count()
    }

    /// All of them.
    pub(crate) fn all(&self) -> impl Iterator<Item = &Applied> {
        self.applied.iter().map(|(_, applied)| applied)
    }

    /// Those that stand so.
    pub(crate) fn with(&self, verdict: Verdict) -> impl Iterator<Item = &(String, Applied)> {
        let all = self.applied.iter();
        all.filter(move |(_, one)| one.answer.verdict == verdict)
    }

    /// Those that stand so, by place, from the top of the house down; first what is about all of it.
    pub(crate) fn by_place(&self, job: &Job, verdict: Verdict) -> Vec<InPlace<'_>> {
        let mut groups: Vec<InPlace<'_>> = Vec::new();
        for each in self.with(verdict) {
            match groups.iter_mut().find(|(place, _)| *place == each.1.place) {
                Some((_, group)) => group.push(each),
                None => groups.push((each.1.place.clone(), vec![each])),
            }
        }
        let height = |place: &Option<Id>| {
            let place = job.places.get(place.as_ref()?)?;
            job.levels.get(&place.level).map(|level| level.height)
        };
        groups.sort_by_key(|(place, _)| {
            (
                place.is_some(),
                std::cmp::Reverse(height(place)),
                place.clone(),
            )
        });
        groups
    }
}
