//! Guesses at what stands in the way where time alone would allow: crews, rooms, ways and air.

use std::collections::{BTreeSet, VecDeque};

use super::{Bound, Clash, ClashPart};
use crate::plan::Breach;
use crate::problem::{ActivityId, LagId, Problem, ResourceId};
use crate::solve::{Effort, Solved, solve};
use crate::verify::explain::{Reason, explain_all};

/// How many activities of a chain of reasons are looked at.
const CHAIN: usize = 60;
/// How many breaches are guessed at.
const MOST_GUESSES: usize = 8;

/// Adds a guess for each missed window or date of the plan that no clash found so far has a part in.
pub(super) fn add_guesses(problem: &Problem, solved: &Solved, found: &mut Vec<Clash>) {
    let known: BTreeSet<ClashPart> = found.iter().flat_map(|c| c.parts.iter().copied()).collect();
    let missed: Vec<_> = solved
        .breaches
        .iter()
        .filter_map(|breach| missed(problem, breach).map(|(part, who)| (breach, part, who)))
        .filter(|(_, part, _)| !known.contains(part))
        .take(MOST_GUESSES)
        .collect();
    if missed.is_empty() {
        return;
    }
    let reasons = explain_all(problem, &solved.plan);
    for (breach, part, who) in missed {
        let mut chain = Chain::default();
        chain.follow(problem, &reasons, who);
        let mut parts = chain.others;
        parts.insert(part);
        let scarce: Vec<ResourceId> = chain
            .resources
            .iter()
            .copied()
            .filter(|&r| helps(problem, breach, r))
            .collect();
        let scarce = if scarce.is_empty() {
            chain.resources.into_iter().collect()
        } else {
            scarce
        };
        parts.extend(scarce.into_iter().map(ClashPart::Resource));
        found.push(Clash {
            parts: parts.into_iter().collect(),
            proved: false,
        });
    }
}

/// What was missed, and by which activity's coming late.
fn missed(problem: &Problem, breach: &Breach) -> Option<(ClashPart, ActivityId)> {
    match *breach {
        Breach::TooLate(id) => Some((ClashPart::Lag(id, Bound::Max), late_end(problem, id))),
        Breach::TooSoon(id) => Some((ClashPart::Lag(id, Bound::Min), late_end(problem, id))),
        Breach::Date(id) => Some((ClashPart::Date(id), problem.dates[id.index()].activity)),
        Breach::Horizon(id) => Some((ClashPart::Work(id), id)),
        Breach::CutOff { activity, .. } => Some((ClashPart::Work(activity), activity)),
        _ => None,
    }
}

fn late_end(problem: &Problem, id: LagId) -> ActivityId {
    problem.lags[id.index()].to
}

/// Whether a breach goes away when there is plenty of a resource.
fn helps(problem: &Problem, breach: &Breach, resource: ResourceId) -> bool {
    let mut plenty = problem.clone();
    plenty.resources[resource.index()].capacity = u32::MAX;
    let effort = Effort {
        schedules: 4,
        ..Effort::default()
    };
    solve(&plenty, &effort).is_ok_and(|solved| !solved.breaches.contains(breach))
}

/// What a chain of reasons is made of, beside time.
#[derive(Default)]
struct Chain {
    resources: BTreeSet<ResourceId>,
    others: BTreeSet<ClashPart>,
}

impl Chain {
    fn follow(&mut self, problem: &Problem, reasons: &[Vec<Reason>], who: ActivityId) {
        let mut seen = BTreeSet::from([who]);
        let mut next = VecDeque::from([who]);
        while let Some(who) = next.pop_front() {
            for reason in reasons.get(who.index()).into_iter().flatten() {
                let behind = self.note(problem, reason, who);
                for id in behind {
                    if seen.len() < CHAIN && seen.insert(id) {
                        next.push_back(id);
                    }
                }
            }
        }
    }

    /// Notes one reason, and says who is behind it.
    fn note(&mut self, problem: &Problem, reason: &Reason, who: ActivityId) -> Vec<ActivityId> {
        match reason {
            Reason::Crew { resource, held_by } => {
                self.resources.insert(*resource);
                held_by.clone()
            }
            Reason::ShutOff { by } => {
                self.others
                    .extend(by.iter().map(|&id| ClashPart::Closes(id)));
                by.clone()
            }
            Reason::WouldShutOff { others } => {
                self.others.insert(ClashPart::Closes(who));
                others.clone()
            }
            Reason::Dust { with } => {
                self.others
                    .extend(with.iter().map(|&id| ClashPart::Air(id)));
                with.clone()
            }
            Reason::Lag(id) => {
                let lag = problem.lags[id.index()];
                [lag.from, lag.to]
                    .into_iter()
                    .filter(|&id| id != who)
                    .collect()
            }
            _ => Vec::new(),
        }
    }
}
