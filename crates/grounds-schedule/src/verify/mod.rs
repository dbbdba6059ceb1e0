//! Proof that a plan obeys its problem, or a list of every way in which it does not.
//!
//! This is written to be plainly right: it counts working time by walking the shifts, and walks the
//! house anew for every set of shut nodes. It shares no code with the search, not even the
//! calendar's arithmetic.
//!
//! What is a breach and what is not:
//!
//! - Facts are facts. What is *done* or *begun* may lie in the plan as it really happened even
//!   where that was against the rules; only that the plan keeps its dates is judged
//!   ([`Breach::Fact`]). Every other breach must involve at least one activity that is still open.
//! - A least wait into an end that has already happened (a fact's end at or before now) was
//!   overtaken by events and binds no more.
//! - Crews and rooms are taken from start to finish; begun work takes them from now on. Work of
//!   no length takes nothing.
//! - Presence (access and dust) is a matter of worked ticks. Shut floors and still air are
//!   intervals of elapsed time. An activity without work is present for one tick.
//! - An activity that ends beyond the horizon is not planned at all: it is reported as that, and
//!   neither its hours, lags, dates, crews, ways nor air are judged.
//! - Each activity that is cut off is named once, with the first moment; each pair of dust and
//!   still air once; overuse of a resource at every moment at which a further user comes on top.

mod ends;
pub(crate) mod explain;
mod hours;
mod site;
mod ways;

use crate::plan::{Breach, Plan};
use crate::problem::Problem;
use site::Site;

/// Every way in which `plan` breaks `problem`; empty when the plan obeys all of it.
///
/// Ids of the problem that point nowhere are passed over: [`Problem::faults`] names those.
#[must_use]
pub fn verify(problem: &Problem, plan: &Plan) -> Vec<Breach> {
    let count = problem.activities.len();
    if plan.starts.len() != count || plan.finishes.len() != count {
        return vec![Breach::Shape];
    }
    let site = Site::new(problem, plan);
    let mut breaches = Vec::new();
    ends::check_activities(&site, &mut breaches);
    ends::check_lags(&site, &mut breaches);
    ends::check_dates(&site, &mut breaches);
    site.check_resources(&mut breaches);
    site.check_access(&mut breaches);
    site.check_dust(&mut breaches);
    breaches
}
