//! Following reasons from work to work.

use std::collections::BTreeSet;

use grounds_schedule::{ActivityId, Breach, Problem, Reason};
use grounds_sequence::Outlook;

/// The work that a reason points at.
pub(crate) fn behind(problem: &Problem, id: ActivityId, reason: &Reason) -> Vec<ActivityId> {
    match reason {
        Reason::Lag(lag) => problem
            .lags
            .get(lag.index())
            .map(|lag| if lag.to == id { lag.from } else { lag.to })
            .into_iter()
            .collect(),
        Reason::Crew { held_by, .. } => held_by.clone(),
        Reason::ShutOff { by } => by.clone(),
        Reason::WouldShutOff { others } => others.clone(),
        Reason::Dust { with } => with.clone(),
        _ => Vec::new(),
    }
}

/// The work that drives the finish: what ends last, and whatever that waits for, back to now.
pub(crate) fn driving(outlook: &Outlook) -> BTreeSet<ActivityId> {
    let finish = outlook.finish();
    let mut open: Vec<ActivityId> = outlook
        .network
        .open()
        .filter(|id| outlook.plan.finishes[id.index()] == finish)
        .collect();
    let mut met = BTreeSet::new();
    while let Some(id) = open.pop() {
        if !met.insert(id) {
            continue;
        }
        for reason in &outlook.reasons[id.index()] {
            open.extend(behind(&outlook.network.problem, id, reason));
        }
    }
    met
}

/// The work that a plan could not place without breaking a rule.
pub(crate) fn broken(outlook: &Outlook) -> BTreeSet<ActivityId> {
    let problem = &outlook.network.problem;
    let mut met = BTreeSet::new();
    for breach in &outlook.breaches {
        match breach {
            Breach::Shape => {}
            Breach::TooSoon(lag) | Breach::TooLate(lag) => {
                met.extend(problem.lags.get(lag.index()).map(|lag| lag.to));
            }
            Breach::Overused { users, .. } => met.extend(users),
            Breach::CutOff { activity, .. } => {
                met.insert(*activity);
            }
            Breach::Dust { dusty, .. } => {
                met.insert(*dusty);
            }
            Breach::Date(date) => {
                met.extend(problem.dates.get(date.index()).map(|date| date.activity));
            }
            Breach::Hours(id)
            | Breach::Broken(id)
            | Breach::Fact(id)
            | Breach::Past(id)
            | Breach::Horizon(id) => {
                met.insert(*id);
            }
        }
    }
    met
}
