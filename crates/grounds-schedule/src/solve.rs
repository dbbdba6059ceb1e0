//! The way into the search.

use std::fmt;

use crate::cost::Cost;
use crate::faults::ProblemFault;
use crate::plan::{Breach, Plan};
use crate::planner::Planner;
use crate::problem::{ActivityId, Problem};
use crate::search::improve::{Search, Start};

/// How hard to look for a good plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Effort {
    /// How many plans to build; at least one is.
    pub schedules: u32,
    /// Where chance begins: the same seed gives the same plan.
    pub seed: u64,
    /// The list that made the plan people know ([`Solved::order`]). It is tried first, and its plan is
    /// kept unless another breaks less, ends a day earlier at no more cost, or costs more than half
    /// a percent less. New activities are slipped in by urgency.
    pub first_order: Option<Vec<ActivityId>>,
}

impl Default for Effort {
    fn default() -> Self {
        Self {
            schedules: 20,
            seed: 1,
            first_order: None,
        }
    }
}

/// A plan and what is to be said of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Solved {
    /// When everything happens.
    pub plan: Plan,
    /// What the plan breaks, by [`verify`](crate::verify()): empty for a plan that obeys everything. What is named
    /// here the search found no way to obey.
    pub breaches: Vec<Breach>,
    /// What the plan costs.
    pub cost: Cost,
    /// The list of open activities that made the plan: [`construct`] gives the same plan from it.
    pub order: Vec<ActivityId>,
}

/// A problem that makes no sense, with everything that is wrong in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Faulty(pub Vec<ProblemFault>);

impl fmt::Display for Faulty {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut faults = self.0.iter();
        if let Some(first) = faults.next() {
            write!(f, "{first}")?;
        }
        faults.try_for_each(|fault| write!(f, "; {fault}"))
    }
}

impl std::error::Error for Faulty {}

/// Searches for a good plan.
///
/// The result depends on the problem and the effort alone. What cannot be obeyed (a window that no
/// order of work meets, a date before its deliveries, a room with no way in) is broken as little as
/// the search finds possible, and named in [`Solved::breaches`].
///
/// # Errors
///
/// [`Faulty`] with everything that is wrong with the statement of the problem.
pub fn solve(problem: &Problem, effort: &Effort) -> Result<Solved, Faulty> {
    let start = Start {
        seed: effort.seed,
        first_order: effort.first_order.clone(),
    };
    let mut search = Search::new(problem, &start)?;
    search.run(effort.schedules.saturating_sub(1));
    Ok(search.calm())
}

/// The plan that a list makes: each activity in turn goes where it fits first, as soon as all that it
/// waits for is placed. Open activities that the list does not name come last.
///
/// # Errors
///
/// [`Faulty`] with everything that is wrong with the statement of the problem.
pub fn construct(problem: &Problem, order: &[ActivityId]) -> Result<Plan, Faulty> {
    Ok(Planner::new(problem)?.construct(order))
}

pub(crate) fn check(problem: &Problem) -> Result<(), Faulty> {
    let faults = problem.faults();
    if faults.is_empty() {
        Ok(())
    } else {
        Err(Faulty(faults))
    }
}
