//! Work that has time waits where that saves money: a fragile piece until others have left its place, a
//! trade until it can do more in one visit, a promised start until it was promised.
//!
//! A list places everything as early as it fits, which is right for all that something waits for. What
//! nothing waits for soon may come later. Nothing else moves, so that the plan ends when it ended, and
//! two days are kept before whatever follows.

use crate::cost::Costing;
use crate::plan::Plan;
use crate::planner::Planner;
use crate::problem::{DAY, Fact, Problem, Tick};
use crate::solve::{Faulty, Solved};
use crate::verify::verify;

/// Elapsed time that is kept between work that waits and what follows it.
const MARGIN: Tick = 2 * DAY;

/// Places that are tried for one piece of work.
const TRIES: usize = 6;

/// The same order of work, with what has time put later where that costs less. Work that was put later
/// has [`Reason::Choice`](crate::Reason::Choice). A plan that is not the one its list makes stays as it is.
///
/// # Errors
///
/// [`Faulty`] with everything that is wrong with the statement of the problem.
pub fn spare(problem: &Problem, solved: &Solved) -> Result<Solved, Faulty> {
    let mut planner = Planner::new(problem)?;
    if planner.construct(&solved.order) != solved.plan {
        return Ok(solved.clone());
    }
    let mut sparer = Sparer {
        costing: Costing::new(problem),
        cents: solved.cost.total(),
        end: planner.last_finish(),
        planner,
    };
    sparer.promises();
    sparer.fragile();
    sparer.visits();
    let plan = sparer.planner.plan();
    let breaches = verify(problem, &plan);
    if breaches.len() > solved.breaches.len() {
        return Ok(solved.clone());
    }
    Ok(Solved {
        cost: sparer.costing.of(&plan.starts, &plan.finishes),
        plan,
        breaches,
        order: solved.order.clone(),
    })
}

struct Sparer<'a> {
    planner: Planner<'a>,
    costing: Costing<'a>,
    /// What the plan costs as it stands.
    cents: i64,
    /// When it ends.
    end: Tick,
}

impl Sparer<'_> {
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
        let (starts, finishes) = self.planner.ends();
        let present = (starts[i], finishes[i]);
        let latest = self.planner.latest_beside(i, self.end, MARGIN);
        if from <= present.0 || from > latest {
            return false;
        }
        let found = self.planner.moved(i, from);
        let (starts, finishes) = self.planner.ends();
        let cents = self.costing.of(starts, finishes).total();
        if found.is_some_and(|start| start <= latest) && cents < self.cents {
            self.cents = cents;
            return true;
        }
        self.planner.put(i, present);
        false
    }
}

impl Planner<'_> {
    fn plan(&self) -> Plan {
        let (starts, finishes) = self.ends();
        Plan {
            starts: starts.to_vec(),
            finishes: finishes.to_vec(),
        }
    }
}
