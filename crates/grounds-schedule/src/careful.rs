//! The list that a careful person makes with a pencil, to compare with.

use crate::planner::Planner;
use crate::problem::{ActivityId, Problem};
use crate::solve::Faulty;

/// A straight list of the open work: what has the longest tail of work and waits behind it comes first,
/// and among equals what can begin first.
///
/// This is the critical-path method by hand (Kelley and Walker 1959): a pass backward over the
/// work and its drying times, on everybody's working hours and the dates that were given, then one list by
/// latest start. [`construct`](crate::construct()) gives each crew its work in that order, and nothing is
/// tried twice.
///
/// # Errors
///
/// [`Faulty`] with everything that is wrong with the statement of the problem.
pub fn careful_list(problem: &Problem) -> Result<Vec<ActivityId>, Faulty> {
    Ok(Planner::new(problem)?.careful_list())
}
