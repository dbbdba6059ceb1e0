//! Work that has time waits where that saves money: a fragile piece until others have left its place, a
//! trade until it can do more in one visit, a promised start until it was promised.
//!
//! A list places everything as early as it fits, which is right for all that something waits for. What
//! nothing waits for soon may come later, with two days kept before whatever follows. Where it leaves
//! a gap, others move up; nothing else moves, so that nothing ends later than it did.

use crate::cost::{Cost, Costing};
use crate::plan::Plan;
use crate::planner::Planner;
use crate::problem::{ActivityId, DAY, Fact, Problem, Tick};
use crate::solve::{Faulty, Solved};
use crate::verify::verify;

/// Elapsed time that is kept between work that waits and what follows it.
const MARGIN: Tick = 2 * DAY;

/// Places that are tried for one piece of work.
const TRIES: usize = 6;

/// A plan in which what has time waits where that saves money.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spared {
    /// The plan, with the list that it was made from.
    pub solved: Solved,
    /// When everything happens if nothing waits on purpose: what the list makes.
    pub as_listed: Plan,
    /// What waits on purpose, by its position.
    pub put_later: Vec<PutLater>,
}

/// Work that waits on purpose.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PutLater {
    /// Whose work.
    pub activity: ActivityId,
    /// When it could start if it did not wait.
    pub could: Tick,
    /// What its waiting saves.
    pub saves: Cost,
}

/// The same order of work, with what has time put later where that costs less. A plan that is not the
/// one its list makes stays as it is.
///
/// # Errors
///
/// [`Faulty`] with everything that is wrong with the statement of the problem.
pub fn spare(problem: &Problem, solved: &Solved) -> Result<Spared, Faulty> {
    let mut planner = Planner::new(problem)?;
    if planner.construct(&solved.order) != solved.plan {
        return Ok(as_it_is(solved));
    }
    let mut sparer = Sparer {
        costing: Costing::new(problem),
        cost: solved.cost,
        end: planner.last_finish(),
        later: vec![None; problem.activities.len()],
        planner,
    };
    let spared = sparer.put_later(solved);
    let worse = spared.solved.breaches.len() > solved.breaches.len();
    Ok(if worse { as_it_is(solved) } else { spared })
}

fn as_it_is(solved: &Solved) -> Spared {
    Spared {
        as_listed: solved.plan.clone(),
        solved: solved.clone(),
        put_later: Vec::new(),
    }
}

struct Sparer<'a> {
    planner: Planner<'a>,
    costing: Costing<'a>,
    /// What the plan costs as it stands.
    cost: Cost,
    /// When it ends.
    end: Tick,
    /// By position.
    later: Vec<Option<PutLater>>,
}

impl Sparer<'_> {
    /// The plan that was built last, with what has time put later.
    fn put_later(&mut self, listed: &Solved) -> Spared {
        self.promises();
        self.fragile();
        self.visits();
        self.move_up();
        let plan = self.planner.plan();
        Spared {
            as_listed: listed.plan.clone(),
            put_later: self.later.iter().flatten().copied().collect(),
            solved: Solved {
                breaches: verify(self.problem(), &plan),
                cost: self.cost,
                plan,
                order: listed.order.clone(),
            },
        }
    }

    fn problem(&self) -> &Problem {
        self.planner.problem()
    }

    /// Open work by start, the last first.
    fn last_first(&self, which: impl Fn(usize) -> bool) -> Vec<usize> {
        let plan = self.planner.ends();
        let mut open: Vec<usize> = (0..plan.0.len())
            .filter(|&i| self.problem().activities[i].fact == Fact::Open && which(i))
            .collect();
        open.sort_by_key(|&i| (std::cmp::Reverse(plan.0[i]), i));
        open
    }

    fn promises(&mut self) {
        for promise in self.problem().promises.clone() {
            let i = promise.activity.index();
            let early = self.planner.ends().0[i] < promise.at;
            if early && self.problem().activities[i].fact == Fact::Open {
                let from = self.planner.c.work[i].first_start(promise.at);
                self.try_from(i, from);
            }
        }
    }

    /// Each fragile piece after as many others in its place as there is time for.
    fn fragile(&mut self) {
        let activities = &self.planner.problem().activities;
        let fragile = |i: usize| activities[i].fragile_cents > 0 && activities[i].at.is_some();
        for f in self.last_first(fragile) {
            let (starts, finishes) = self.planner.ends();
            let passes = |&i: &usize| {
                i != f && activities[i].at == activities[f].at && starts[i] >= finishes[f]
            };
            let mut later: Vec<Tick> = (0..starts.len())
                .filter(passes)
                .map(|i| starts[i])
                .collect();
            later.sort_unstable();
            later.dedup();
            for start in later.into_iter().rev().take(TRIES) {
                let work = self.planner.c.work[f];
                if self.try_from(f, work.first_start_to_finish(start + 1)) {
                    break;
                }
            }
        }
    }

    /// The last work of a visit within reach of the next visit of its trade.
    fn visits(&mut self) {
        let problem = self.planner.problem();
        for (r, resource) in problem.resources.iter().enumerate() {
            if resource.return_cents <= 0 {
                continue;
            }
            let uses = |i: usize| {
                let mut uses = problem.activities[i].uses.iter();
                problem.activities[i].work > 0 && uses.any(|u| u.resource.index() == r)
            };
            let mut next: Option<Tick> = None;
            for i in self.last_first(uses) {
                let finish = self.planner.ends().1[i];
                if let Some(start) = next.filter(|start| start - finish > resource.visit_gap) {
                    let work = self.planner.c.work[i];
                    self.try_from(i, work.first_start_to_finish(start - resource.visit_gap));
                }
                next = Some(self.planner.ends().0[i]);
            }
        }
    }

    /// Puts work where it fits from a moment on, if what follows has time and it costs less.
    fn try_from(&mut self, i: usize, from: Tick) -> bool {
        let present = self.ends(i);
        let latest = self.planner.latest_beside(i, self.end, MARGIN);
        if from <= present.0 || from > latest {
            return false;
        }
        let found = self.planner.moved(i, from);
        let cost = match found {
            Some(start) if start <= latest => self.cost_now(),
            _ => self.cost,
        };
        if cost.total() < self.cost.total() {
            let saves = saved(self.cost, cost);
            let before = self.later[i].map_or(Cost::default(), |later| later.saves);
            self.later[i] = Some(PutLater {
                activity: ActivityId::from(i),
                could: self.later[i].map_or(present.0, |later| later.could),
                saves: saved(before, saved(Cost::default(), saves)),
            });
            self.cost = cost;
            return true;
        }
        self.planner.put(i, present);
        false
    }

    /// What could start sooner in the gaps that were left does, unless that costs more.
    fn move_up(&mut self) {
        let mut first_to_last = self.last_first(|_| true);
        first_to_last.reverse();
        for i in first_to_last {
            if self.later[i].is_some() {
                continue;
            }
            let present = self.ends(i);
            let from = self.planner.earliest_beside(i);
            if from >= present.0 {
                continue;
            }
            let found = self.planner.moved(i, from);
            let Some(could) = found.filter(|&start| start < present.0) else {
                self.planner.put(i, present);
                continue;
            };
            let cost = self.cost_now();
            if cost.total() <= self.cost.total() {
                self.cost = cost;
                continue;
            }
            self.planner.put(i, present);
            self.later[i] = Some(PutLater {
                activity: ActivityId::from(i),
                could,
                saves: saved(cost, self.cost),
            });
        }
    }

    fn ends(&self, i: usize) -> (Tick, Tick) {
        let (starts, finishes) = self.planner.ends();
        (starts[i], finishes[i])
    }

    fn cost_now(&mut self) -> Cost {
        let (starts, finishes) = self.planner.ends();
        self.costing.of(starts, finishes)
    }
}

/// What one cost has more than another.
fn saved(before: Cost, after: Cost) -> Cost {
    Cost {
        days: before.days.saturating_sub(after.days),
        lateness: before.lateness.saturating_sub(after.lateness),
        returns: before.returns.saturating_sub(after.returns),
        exposure: before.exposure.saturating_sub(after.exposure),
        promises: before.promises.saturating_sub(after.promises),
    }
}
