//! The outcome on a plain problem, said as any other plan.

use std::num::NonZeroUsize;

use super::{Limit, plan, search_plain};
use crate::cost::cost;
use crate::plain::Core;
use crate::problem::{ActivityId, Problem};
use crate::solve::{Faulty, Solved};
use crate::verify::verify;

/// A plan of a plain problem, found by the team that suits it; `None` if the problem is not a plain
/// one, or no plan that obeys everything was found.
///
/// The order is that of the starts. With longest waits in the problem, the list may make another plan
/// than this one.
///
/// # Errors
///
/// [`Faulty`] with everything that is wrong with the statement of the problem.
pub fn solve_plain(
    problem: &Problem,
    lanes: NonZeroUsize,
    seed: u64,
    limit: Limit,
) -> Result<Option<Solved>, Faulty> {
    let outcome = search_plain(problem, lanes, seed, limit)?;
    let starts = outcome.and_then(|outcome| outcome.starts);
    let (Some(starts), Some(core)) = (starts, Core::of(problem)) else {
        return Ok(None);
    };
    let plan = plan(&core, &starts);
    let mut order: Vec<ActivityId> = (0..core.count()).map(ActivityId::from).collect();
    order.sort_by_key(|id| (plan.starts[id.index()], plan.finishes[id.index()], *id));
    Ok(Some(Solved {
        breaches: verify(problem, &plan),
        cost: cost(problem, &plan),
        plan,
        order,
    }))
}
