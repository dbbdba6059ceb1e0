//! What has time to spare, and what drives a date.

use std::collections::BTreeSet;

use grounds_schedule::{
    ActivityId, Problem, Reason,
    forecast::{Latest, Policy},
};

use crate::{outlook::Outlook, task::Work};

impl Outlook {
    /// For each of some open work, the latest that it may lie before the last finish or a milestone
    /// moves, all else following in the order of the plan; each by itself. Nothing for work that has
    /// begun, or where the plan leaves something without a place.
    #[must_use]
    pub fn latest(&self, wanted: &[ActivityId]) -> Vec<Option<Latest>> {
        match Policy::of(&self.network.problem, &self.plan) {
            Ok(policy) => policy.latest(wanted, &self.milestones()),
            Err(_) => vec![None; wanted.len()],
        }
    }

    /// Milestones that are still to come, by planned date.
    #[must_use]
    pub fn milestones(&self) -> Vec<ActivityId> {
        let is_reach = |id: &ActivityId| {
            let task = self.network.task(*id);
            task.is_some_and(|task| matches!(task.work, Work::Reach(_)))
        };
        let mut ids: Vec<ActivityId> = self.network.open().filter(is_reach).collect();
        ids.sort_by_key(|id| (self.plan.finishes[id.index()], *id));
        ids
    }

    /// The open work that drives a date: what ends last and the milestones, and whatever those wait
    /// for, reason by reason, back to now.
    #[must_use]
    pub fn driving(&self) -> BTreeSet<ActivityId> {
        let finish = self.finish();
        let mut next = self.milestones();
        next.extend(
            self.network
                .open()
                .filter(|id| self.plan.finishes[id.index()] == finish),
        );
        let mut met = BTreeSet::new();
        while let Some(id) = next.pop() {
            if !met.insert(id) {
                continue;
            }
            for reason in &self.reasons[id.index()] {
                next.extend(behind(&self.network.problem, id, reason));
            }
        }
        met
    }
}

/// The work that a reason points at.
#[must_use]
pub fn behind(problem: &Problem, id: ActivityId, reason: &Reason) -> Vec<ActivityId> {
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
