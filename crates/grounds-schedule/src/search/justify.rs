//! Justification (Wiest 1964; Li and Willis 1992; Valls, Ballestín and Quintanilla 2005): everything
//! is pushed as late as crews allow, and the order of the late starts makes the next list.
//!
//! Ways in, shut floors and dust are left out of account while pushing: the result is used as a
//! list only, and the next plan built from it regards them all.

use super::clock::NEVER;
use super::compiled::Compiled;
use super::profile::Profile;
use crate::problem::{ActivityId, Tick};

/// Pushes plans to the right, again and again in the same memory.
pub(crate) struct Justifier {
    profiles: Vec<Profile>,
    starts: Vec<Tick>,
    pushed: Vec<bool>,
    order: Vec<usize>,
}

impl Justifier {
    pub(crate) fn new(c: &Compiled) -> Self {
        Self {
            profiles: vec![Profile::default(); c.problem.resources.len()],
            starts: vec![0; c.count()],
            pushed: vec![false; c.count()],
            order: (0..c.count()).filter(|&i| c.open[i]).collect(),
        }
    }

    /// The list of open activities by the late starts of a plan.
    pub(crate) fn late_list(
        &mut self,
        c: &Compiled,
        starts: &[Tick],
        finishes: &[Tick],
    ) -> Vec<ActivityId> {
        for (profile, base) in self.profiles.iter_mut().zip(&c.base.profiles) {
            profile.copy_from(base);
        }
        self.pushed.fill(false);
        self.order.sort_by_key(|&i| {
            (
                std::cmp::Reverse(finishes[i]),
                std::cmp::Reverse(starts[i]),
                i,
            )
        });
        let horizon = c.problem.horizon;
        let end = self
            .order
            .iter()
            .map(|&i| finishes[i])
            .filter(|&f| f <= horizon)
            .max();
        let end = end.unwrap_or(horizon);
        for k in 0..self.order.len() {
            let i = self.order[k];
            self.starts[i] = self.push(c, i, starts[i], finishes[i], end);
            self.pushed[i] = true;
        }
        let late = &self.starts;
        self.order.sort_by_key(|&i| (late[i], starts[i], i));
        self.order.iter().map(|&i| ActivityId::from(i)).collect()
    }

    /// The latest start of an activity after what was pushed before, not before its present one.
    fn push(&mut self, c: &Compiled, i: usize, start: Tick, finish: Tick, end: Tick) -> Tick {
        if finish > c.problem.horizon {
            return start;
        }
        let work = c.work[i];
        let mut latest = work.last_start_to_finish(end);
        for arc in c
            .out
            .of(i)
            .map(|arc| &c.arcs[arc])
            .filter(|arc| self.pushed[arc.to])
        {
            let to = self.starts[arc.to];
            latest = latest.min(arc.upper(work, to, work_end(c, arc.to, to)));
        }
        let uses = &c.problem.activities[i].uses;
        loop {
            if latest <= start || latest <= -NEVER {
                latest = start;
                break;
            }
            let finish = work.finish(latest);
            let crowded = uses.iter().filter_map(|wanted| {
                let capacity = c.problem.resources[wanted.resource.index()].capacity;
                let limit = capacity.saturating_sub(wanted.amount);
                self.profiles[wanted.resource.index()].crowded_from(latest, finish, limit)
            });
            match crowded.min() {
                Some(from) if work.work > 0 => {
                    latest = work
                        .last_start_to_finish(from)
                        .min(work.last_start(latest - 1));
                }
                _ => break,
            }
        }
        let finish = work.finish(latest);
        for wanted in uses {
            self.profiles[wanted.resource.index()].take(latest, finish, wanted.amount);
        }
        latest
    }
}

fn work_end(c: &Compiled, i: usize, start: Tick) -> Tick {
    c.work[i].finish(start)
}
