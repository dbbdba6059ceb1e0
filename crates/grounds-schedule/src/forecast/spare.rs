//! Time to spare within a plan's policy: how late work may start before a date moves that must not.
//!
//! Float by waits alone overstates what there is as soon as crews, rooms and shut floors bind, since
//! it hands the same crew to everybody at once. Here each piece of work is put off by itself and the
//! policy is played again, so that crews, floors and air follow in the order of the plan.

use super::game::Game;
use super::policy::Policy;
use super::run::Run;
use crate::problem::{ActivityId, End, Tick};
use crate::search::clock::NEVER;

/// The latest that a piece of work may lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Latest {
    /// Its latest start.
    pub start: Tick,
    /// Its finish then.
    pub finish: Tick,
}

impl Policy<'_> {
    /// For each of `wanted`, the latest start that leaves the last finish of all and the finish of
    /// each of `kept` where the policy has them, and misses no longest wait and no latest date that
    /// is not missed anyway; everything else takes its usual time, and follows in the plan's order.
    /// Each by itself: two that each have time to spare may share it. `None` for what has begun.
    #[must_use]
    pub fn latest(&self, wanted: &[ActivityId], kept: &[ActivityId]) -> Vec<Option<Latest>> {
        let mut trial = Trial::new(self, kept);
        wanted.iter().map(|id| trial.latest(*id)).collect()
    }
}

/// The policy with one start put off.
struct Trial<'a> {
    policy: Policy<'a>,
    game: Game<'a>,
    run: Run,
    /// Positions whose finish must not move, with that finish.
    kept: Vec<(usize, Tick)>,
    /// The last finish of all.
    last: Tick,
    /// What is missed in the plan already.
    missed: usize,
    /// Start and finish of every position as planned.
    planned: Vec<(Tick, Tick)>,
}

impl<'a> Trial<'a> {
    fn new(policy: &Policy<'a>, kept: &[ActivityId]) -> Self {
        let game = Game::certain(policy);
        let mut run = Run::new(policy, &game);
        run.play(policy, &game);
        let position = |id: &ActivityId| policy.order.position.get(id.index()).copied();
        let kept = kept.iter().filter_map(position);
        let kept: Vec<(usize, Tick)> = kept
            .filter(|p| *p < policy.order.played)
            .map(|p| (p, run.finish(p)))
            .collect();
        let planned = (0..policy.order.played)
            .map(|p| (run.start(p), run.finish(p)))
            .collect();
        Self {
            last: last_finish(policy, &run),
            missed: missed(policy, &run),
            policy: in_the_plans_order(policy),
            game,
            run,
            kept,
            planned,
        }
    }

    fn latest(&mut self, id: ActivityId) -> Option<Latest> {
        let p = *self.policy.order.position.get(id.index())?;
        if !(self.policy.order.begun..self.policy.order.played).contains(&p) {
            return None;
        }
        let (start, finish) = self.planned[p];
        let mut good = Latest { start, finish };
        let (mut low, mut high) = (start, self.last.saturating_add(1));
        // Most of what drives a date has nothing to spare at all: ask for the least first.
        let mut next = start + 1;
        while low + 1 < high {
            match self.put_off(p, next) {
                Some(latest) => {
                    good = latest;
                    low = next.max(latest.start);
                }
                None => high = next,
            }
            next = low + ((high - low) / 2).max(1);
        }
        Some(good)
    }

    /// Where a position lies when it starts at a moment or later; `None` where a date moves.
    fn put_off(&mut self, p: usize, start: Tick) -> Option<Latest> {
        let before = std::mem::replace(&mut self.policy.base[p], start);
        self.run.play(&self.policy, &self.game);
        let kept = self
            .kept
            .iter()
            .all(|&(p, finish)| self.run.finish(p) <= finish)
            && last_finish(&self.policy, &self.run) <= self.last
            && missed(&self.policy, &self.run) <= self.missed;
        self.policy.base[p] = before;
        kept.then(|| Latest {
            start: self.run.start(p),
            finish: self.run.finish(p),
        })
    }
}

/// The policy in which nobody goes ahead of others: to spare means that nobody has to make up for it.
fn in_the_plans_order<'a>(policy: &Policy<'a>) -> Policy<'a> {
    let mut policy = policy.clone();
    policy.appointed.fill(NEVER);
    policy
}

fn last_finish(policy: &Policy, run: &Run) -> Tick {
    (0..policy.order.played)
        .map(|p| run.finish(p))
        .max()
        .unwrap_or(policy.problem.now)
}

/// Longest waits and latest dates that are missed.
fn missed(policy: &Policy, run: &Run) -> usize {
    let late = |p: usize| {
        let at = |end: End| match end {
            End::Start => run.start(p),
            End::Finish => run.finish(p),
        };
        let dates = policy.latest.of(p).iter();
        dates.filter(|(end, date, _)| at(*end) > *date).count()
    };
    run.given_up(policy).count() + (0..policy.order.played).map(late).sum::<usize>()
}
