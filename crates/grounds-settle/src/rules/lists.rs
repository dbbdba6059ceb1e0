//! Rules as lists show them: what bites soonest first, and what is alike together.

use std::collections::BTreeMap;

use grounds_model::{Id, Job};
use grounds_rules::{Verdict, house::Applied};
use grounds_schedule::Tick;
use grounds_sequence::Outlook;
use grounds_site::Site;

use super::{Bites, rule_bites, rule_goes_on};

/// Rules that are not kept in one place, what bites soonest first.
#[derive(Clone, Debug)]
pub struct InPlace<'a> {
    /// The place; none for the whole house.
    pub place: Option<Id>,
    /// The rules, each with when it bites.
    pub rules: Vec<(&'a Applied, Option<Bites>)>,
}

/// One rule that cannot be told of several things for want of the same figures.
#[derive(Clone, Debug)]
pub struct Alike<'a> {
    /// It, applied to each of them: what bites soonest first.
    pub of: Vec<&'a Applied>,
    /// When the first of them bites.
    pub bites: Option<Bites>,
}

/// Soonest first; what somebody let go on after all that waits; what holds nothing last.
type Urgency = (bool, bool, Tick);

fn urgency(site: &Site, applied: &Applied, bites: Option<Bites>) -> Urgency {
    (
        rule_goes_on(site, applied).is_some(),
        bites.is_none(),
        bites.map_or(Tick::MAX, |bites| bites.at),
    )
}

/// What is not kept, by place: the place where something bites soonest first.
#[must_use]
pub fn failing<'a>(
    job: &Job,
    site: &Site,
    outlook: &Outlook,
    rules: impl IntoIterator<Item = &'a Applied>,
) -> Vec<InPlace<'a>> {
    let mut all: Vec<(Urgency, &Applied, Option<Bites>)> = rules
        .into_iter()
        .filter(|applied| applied.answer.verdict == Verdict::Fails)
        .map(|applied| {
            let bites = rule_bites(job, site, outlook, applied);
            (urgency(site, applied, bites), applied, bites)
        })
        .collect();
    all.sort_by_key(|(urgency, ..)| *urgency);
    let mut places: Vec<InPlace<'_>> = Vec::new();
    for (_, applied, bites) in all {
        let known = places.iter_mut().find(|group| group.place == applied.place);
        match known {
            Some(group) => group.rules.push((applied, bites)),
            None => places.push(InPlace {
                place: applied.place.clone(),
                rules: vec![(applied, bites)],
            }),
        }
    }
    places
}

/// What cannot be told yet, what bites soonest first: what one rule asks of several things for want of
/// the same figures stands together.
#[must_use]
pub fn unknown<'a>(
    job: &Job,
    site: &Site,
    outlook: &Outlook,
    rules: impl IntoIterator<Item = &'a Applied>,
) -> Vec<Alike<'a>> {
    let mut all: Vec<(Urgency, &Applied, Option<Bites>)> = rules
        .into_iter()
        .filter(|applied| applied.answer.verdict == Verdict::CannotTell)
        .map(|applied| {
            let bites = rule_bites(job, site, outlook, applied);
            (urgency(site, applied, bites), applied, bites)
        })
        .collect();
    all.sort_by_key(|(urgency, ..)| *urgency);
    let mut rows: Vec<Alike<'_>> = Vec::new();
    let mut known: BTreeMap<(&str, Vec<&str>), usize> = BTreeMap::new();
    for (_, applied, bites) in all {
        let wants = applied.answer.missing.iter().map(|missing| missing.key);
        let key = (applied.rule.name, wants.collect());
        match known.get(&key).and_then(|&at| rows.get_mut(at)) {
            Some(row) => row.of.push(applied),
            None => {
                known.insert(key, rows.len());
                rows.push(Alike {
                    of: vec![applied],
                    bites,
                });
            }
        }
    }
    rows
}
