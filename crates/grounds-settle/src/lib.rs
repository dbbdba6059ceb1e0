//! What must be settled before work goes on.
//!
//! The fits of a house know nothing of its plan, and the plan nothing of fits. Here they meet, for
//! every surface alike: [`held_up`] hands the network what a failing or risky fit, and a rule that is
//! not kept, hold back; [`covered`] and [`rule_bites`] tell from the plan by when a figure can still be
//! read, and by when a rule must be settled.

mod rules;

pub use rules::{
    Alike, Bites, InPlace, failing, rule_about, rule_bites, rule_decided_about, rule_goes_on,
    rule_key, rules, unknown,
};

use grounds_lines::{
    answers::{Answers, ToMeasure},
    holdups::{Holdup, holdups},
    lines::Lines,
};
use grounds_model::{Job, Ref};
use grounds_rules::house::{Told, check};
use grounds_schedule::ActivityId;
use grounds_sequence::{HeldUp, Holds, Network, Work};
use grounds_site::{Site, words::capital};

/// What is held up in a house as it stands, by key: for [`Network::build`].
///
/// What somebody decided to let go on as it is, is not held. Where a figure of the house cannot be
/// reckoned with at all, no fit is known and no fit holds anything; whoever asks for the fits is told
/// why. Rules are looked at as of today, since there is no plan yet.
#[must_use]
pub fn held_up(job: &Job, site: &Site) -> Vec<HeldUp> {
    let lines = Lines::of(job, site);
    let answers = Answers::standing(&lines).ok();
    let mut told = Told::default();
    let mut held = Vec::new();
    if let Some(answers) = &answers {
        told.figures = rules::rises(job, &answers.answers);
        let all = holdups(&lines, answers).into_iter();
        let held_up = all.filter(|holdup| holdup.overruled.is_none());
        held.extend(held_up.map(|holdup| of_fit(answers, holdup)));
    }
    held.extend(rules::held_by_rules(site, &check(job, site, &told)));
    held
}

fn of_fit(answers: &Answers, holdup: Holdup) -> HeldUp {
    let answer = answers.get(&holdup.need);
    let lands = answer.and_then(|answer| answer.lands.as_deref());
    let rest = lands.and_then(|lands| holdup.said.strip_prefix(lands));
    let (matter, said) = match (lands, rest) {
        (Some(lands), Some(rest)) => (
            lands.to_owned(),
            capital(rest.trim_start_matches([',', ':', ' '])),
        ),
        _ => (holdup.said.trim_end_matches('.').to_owned(), String::new()),
    };
    let order = holdup.order.map(Holds::Order);
    let cover = holdup.cover.map(Holds::Work);
    HeldUp {
        key: holdup.need,
        about: holdup.about,
        matter,
        said,
        holds: order.into_iter().chain(cover).collect(),
    }
}

/// The work that covers what is to be measured; it can be read until that starts. None where
/// nothing in the plan covers it.
#[must_use]
pub fn covered(network: &Network, it: &ToMeasure) -> Option<ActivityId> {
    work_of(network, it.before.as_ref()?)
}

/// The work that a layer or a piece is: one activity may do the same layer on several faces.
#[must_use]
pub fn work_of(network: &Network, about: &Ref) -> Option<ActivityId> {
    let key = about.as_str();
    let has_it = |work: &Work| match work {
        Work::Layer(keys) => keys.iter().any(|layer| layer.to_string() == key),
        _ => false,
    };
    network.find(key).or_else(|| {
        let tasks = network.tasks.iter();
        let at = tasks.map(|task| &task.work).position(has_it)?;
        Some(ActivityId::from(at))
    })
}
