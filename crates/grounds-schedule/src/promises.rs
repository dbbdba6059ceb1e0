//! Starts that people were told and that a plan moves.

use crate::bound::earliest_starts;
use crate::plan::Plan;
use crate::problem::{ActivityId, DAY, Fact, Problem, Tick};
use crate::solve::Faulty;
use crate::verify::explain::{Reason, explain};

/// A start that somebody was told, and that a plan has on another day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MovedPromise {
    /// Whose start.
    pub activity: ActivityId,
    /// The start that was promised.
    pub promised: Tick,
    /// The start in the plan.
    pub planned: Tick,
    /// What moving it costs, in cents.
    pub cents: i64,
    /// It cannot be kept in any plan: waits, dates and hours alone bring it later than that day.
    pub must: bool,
    /// Why the plan does not start it sooner.
    pub reasons: Vec<Reason>,
}

/// The promises to open work that a plan moves by a begun day or more, by planned start.
///
/// # Errors
///
/// [`Faulty`] with everything that is wrong with the statement of the problem.
pub fn moved_promises(problem: &Problem, plan: &Plan) -> Result<Vec<MovedPromise>, Faulty> {
    let earliest = earliest_starts(problem)?;
    let mut moved = Vec::new();
    for promise in &problem.promises {
        let i = promise.activity.index();
        let (Some(&planned), Some(&first)) = (plan.starts.get(i), earliest.get(i)) else {
            continue;
        };
        let days = (planned.saturating_sub(promise.at).saturating_abs() + DAY - 1) / DAY;
        if days == 0 || problem.activities[i].fact != Fact::Open {
            continue;
        }
        moved.push(MovedPromise {
            activity: promise.activity,
            promised: promise.at,
            planned,
            cents: i64::from(days).saturating_mul(promise.day_cents),
            must: first > promise.at,
            reasons: explain(problem, plan, promise.activity),
        });
    }
    moved.sort_by_key(|promise| (promise.planned, promise.activity));
    Ok(moved)
}
