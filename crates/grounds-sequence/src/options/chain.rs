//! What drives a milestone: the work that its date hangs on, and why.

use std::collections::BTreeSet;

use grounds_model::Id;
use grounds_schedule::{ActivityId, Plan, Reason, Tick};

use super::Aim;
use crate::{effect::last_finish, network::Network};

/// The work that an aim's date hangs on, with the reasons of every start.
pub(crate) struct Chain<'a> {
    pub(crate) network: &'a Network,
    pub(crate) plan: &'a Plan,
    reasons: &'a [Vec<Reason>],
    /// By start.
    pub(crate) work: Vec<ActivityId>,
}

impl<'a> Chain<'a> {
    /// Walks from the aim back along the reasons: each names what would have to give way first.
    pub(crate) fn of(
        network: &'a Network,
        plan: &'a Plan,
        reasons: &'a [Vec<Reason>],
        aim: &Aim,
    ) -> Self {
        let mut seen: BTreeSet<ActivityId> = BTreeSet::new();
        let mut open = ends(network, plan, aim);
        while let Some(id) = open.pop() {
            if !seen.insert(id) {
                continue;
            }
            let reasons = reasons.get(id.index()).map_or(&[][..], Vec::as_slice);
            open.extend(
                reasons
                    .iter()
                    .flat_map(|reason| others(network, id, reason)),
            );
        }
        let mut work: Vec<ActivityId> = seen.into_iter().collect();
        work.sort_by_key(|id| (plan.starts[id.index()], *id));
        Self {
            network,
            plan,
            reasons,
            work,
        }
    }

    /// The reasons of the work on the chain, each with whose it is.
    pub(crate) fn reasons(&self) -> impl Iterator<Item = (ActivityId, &'a Reason)> + '_ {
        self.work.iter().flat_map(|&id| {
            let reasons = self.reasons.get(id.index()).map_or(&[][..], Vec::as_slice);
            reasons.iter().map(move |reason| (id, reason))
        })
    }

    /// The work on the chain of one trade that is not over, by start.
    pub(crate) fn of_trade(&self, trade: &Id) -> Vec<ActivityId> {
        let its = |id: &&ActivityId| {
            let activity = &self.network.problem.activities[id.index()];
            self.network.tasks[id.index()].trade.as_ref() == Some(trade)
                && activity.work > 0
                && !matches!(activity.fact, grounds_schedule::Fact::Done { .. })
        };
        self.work.iter().filter(its).copied().collect()
    }
}

/// The work whose finish is the aim.
pub(crate) fn ends(network: &Network, plan: &Plan, aim: &Aim) -> Vec<ActivityId> {
    match aim {
        Aim::Milestone(id) => network.find(id.as_str()).into_iter().collect(),
        Aim::LastFinish => {
            let end = last_finish(plan);
            network
                .open()
                .filter(|id| plan.finishes[id.index()] == end)
                .collect()
        }
    }
}

/// When a plan reaches the aim.
pub(crate) fn reached(network: &Network, plan: &Plan, aim: &Aim) -> Tick {
    match aim {
        Aim::Milestone(id) => network
            .find(id.as_str())
            .map_or_else(|| last_finish(plan), |id| plan.finishes[id.index()]),
        Aim::LastFinish => last_finish(plan),
    }
}

/// The other work that a reason speaks of.
fn others(network: &Network, id: ActivityId, reason: &Reason) -> Vec<ActivityId> {
    match reason {
        Reason::Lag(lag) => {
            let lag = &network.problem.lags[lag.index()];
            vec![if lag.to == id { lag.from } else { lag.to }]
        }
        Reason::Crew { held_by: ids, .. }
        | Reason::ShutOff { by: ids }
        | Reason::WouldShutOff { others: ids }
        | Reason::Dust { with: ids } => ids.clone(),
        Reason::Fact
        | Reason::Now
        | Reason::Date(_)
        | Reason::Hours
        | Reason::Shift
        | Reason::Unplanned
        | Reason::Choice => Vec::new(),
    }
}
