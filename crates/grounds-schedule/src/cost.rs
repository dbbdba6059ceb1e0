//! What a plan costs, in the user's money.

use crate::plan::Plan;
use crate::problem::{Activity, Fact, Problem, Tick};

/// The cost of a plan in cents, by what it is for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Cost {
    /// The job running, from now to its last finish.
    pub days: i64,
    /// Due dates missed.
    pub lateness: i64,
    /// Crews that come back after a pause.
    pub returns: i64,
    /// Other work in a place after something fragile there is finished.
    pub exposure: i64,
    /// Starts moved that somebody was promised.
    pub promises: i64,
}

impl Cost {
    /// All of it, in cents.
    #[must_use]
    pub fn total(&self) -> i64 {
        let parts = [
            self.days,
            self.lateness,
            self.returns,
            self.exposure,
            self.promises,
        ];
        parts.iter().fold(0, |sum, part| sum.saturating_add(*part))
    }
}

/// What a plan costs from now on.
///
/// - *days*: ticks from now to the last finish of what is not done, at `day_cents` for 96 ticks,
///   rounded up to the cent; nothing if all is done.
/// - *lateness*: for each due date, every begun day of 24 hours after it.
/// - *returns*: for each resource, `return_cents` for every use that follows the end of all earlier
///   ones by more than `visit_gap`. The first visit of all costs nothing; a return that happened
///   before now is spent and not counted.
/// - *exposure*: for each fragile activity, the others at the same node that are not done and begin at
///   or after its finish.
/// - *promises*: for each promise to open work, every begun day that the start moves, either way.
///
/// A plan of the wrong shape costs nothing.
#[must_use]
pub fn cost(problem: &Problem, plan: &Plan) -> Cost {
    let count = problem.activities.len();
    if plan.starts.len() != count || plan.finishes.len() != count {
        return Cost::default();
    }
    Costing::new(problem).of(&plan.starts, &plan.finishes)
}

/// Computes the cost of many plans of one problem in the same memory.
pub(crate) struct Costing<'a> {
    problem: &'a Problem,
    /// For each resource that costs something to call back, what uses it.
    users: Vec<(usize, Vec<usize>)>,
    /// For each fragile activity, the others in its place.
    passing: Vec<(usize, Vec<usize>)>,
    visits: Vec<(Tick, Tick)>,
}

impl<'a> Costing<'a> {
    pub(crate) fn new(problem: &'a Problem) -> Self {
        let all = || problem.activities.iter().enumerate();
        let costly = problem
            .resources
            .iter()
            .enumerate()
            .filter(|(_, r)| r.return_cents != 0);
        let users = costly
            .map(|(r, _)| {
                let uses = |a: &Activity| a.uses.iter().any(|wanted| wanted.resource.index() == r);
                (r, all().filter(|(_, a)| uses(a)).map(|(i, _)| i).collect())
            })
            .collect();
        let fragile = all().filter(|(_, a)| a.fragile_cents != 0 && a.at.is_some());
        let passing = fragile
            .map(|(f, fragile)| {
                let passes = |(i, a): &(usize, &Activity)| {
                    *i != f && a.at == fragile.at && !matches!(a.fact, Fact::Done { .. })
                };
                (f, all().filter(passes).map(|(i, _)| i).collect())
            })
            .collect();
        Self {
            problem,
            users,
            passing,
            visits: Vec::new(),
        }
    }

    pub(crate) fn of(&mut self, starts: &[Tick], finishes: &[Tick]) -> Cost {
        Cost {
            days: self.days(finishes),
            lateness: self.lateness(finishes),
            returns: self.returns(starts, finishes),
            exposure: self.exposure(starts, finishes),
            promises: self.promises(starts),
        }
    }

    fn days(&self, finishes: &[Tick]) -> i64 {
        let going_on = self.problem.activities.iter().zip(finishes);
        let last = going_on
            .filter(|(a, _)| !matches!(a.fact, Fact::Done { .. }))
            .map(|(_, &finish)| finish)
            .max()
            .unwrap_or(self.problem.now);
        let ticks = i64::from(last.saturating_sub(self.problem.now).max(0));
        let cents = i128::from(ticks) * i128::from(self.problem.day_cents);
        let day = i128::from(crate::problem::DAY);
        let up = cents.div_euclid(day) + i128::from(cents.rem_euclid(day) != 0);
        i64::try_from(up).unwrap_or(i64::MAX)
    }

    fn lateness(&self, finishes: &[Tick]) -> i64 {
        let late = self.problem.dues.iter().filter_map(|due| {
            let finish = *finishes.get(due.activity.index())?;
            Some(begun_days(finish.saturating_sub(due.at)).saturating_mul(due.day_cents))
        });
        late.fold(0, i64::saturating_add)
    }

    fn returns(&mut self, starts: &[Tick], finishes: &[Tick]) -> i64 {
        let mut cents = 0i64;
        for (resource, users) in &self.users {
            let resource = &self.problem.resources[*resource];
            self.visits.clear();
            self.visits
                .extend(users.iter().map(|&i| (starts[i], finishes[i])));
            self.visits.retain(|(start, finish)| start < finish);
            self.visits.sort_unstable();
            let mut left: Option<Tick> = None;
            for &(start, finish) in &self.visits {
                let returns = left.is_some_and(|l| start.saturating_sub(l) > resource.visit_gap);
                if returns && start >= self.problem.now {
                    cents = cents.saturating_add(resource.return_cents);
                }
                left = left.max(Some(finish));
            }
        }
        cents
    }

    fn exposure(&self, starts: &[Tick], finishes: &[Tick]) -> i64 {
        let mut cents = 0i64;
        for (fragile, passing) in &self.passing {
            let after = passing
                .iter()
                .filter(|&&i| starts[i] >= finishes[*fragile])
                .count();
            let each = self.problem.activities[*fragile].fragile_cents;
            cents = cents.saturating_add(each.saturating_mul(i64::try_from(after).unwrap_or(0)));
        }
        cents
    }

    fn promises(&self, starts: &[Tick]) -> i64 {
        let moved = self.problem.promises.iter().filter_map(|promise| {
            let i = promise.activity.index();
            let open = self.problem.activities.get(i)?.fact == Fact::Open;
            let moved = begun_days(starts.get(i)?.saturating_sub(promise.at).saturating_abs());
            open.then(|| moved.saturating_mul(promise.day_cents))
        });
        moved.fold(0, i64::saturating_add)
    }
}

/// Days of 24 hours that have begun after so many ticks.
fn begun_days(ticks: Tick) -> i64 {
    let day = i64::from(crate::problem::DAY);
    (i64::from(ticks.max(0)) + day - 1) / day
}
