//! What no order of work can beat.

use crate::problem::{Fact, Problem, Tick};
use crate::search::clock::NEVER;
use crate::search::compiled::Compiled;
use crate::search::passes::forward;
use crate::solve::{Faulty, check};

/// A moment before which no plan of the problem can finish: the longest chain of work and waits from
/// now, on everybody's working hours, as if there were crews and ways enough.
///
/// Waits that can never hold together are left out, so this bounds the plans that break them too.
/// Work whose calendar ends first is passed over. *Now* when nothing is left to do.
///
/// # Errors
///
/// [`Faulty`] with everything that is wrong with the statement of the problem.
pub fn bound(problem: &Problem) -> Result<Tick, Faulty> {
    check(problem)?;
    let (compiled, _) = Compiled::new(problem);
    let early = forward(&compiled);
    let finishes = (0..compiled.count()).filter_map(|i| match problem.activities[i].fact {
        Fact::Open => Some(compiled.work[i].finish(early.starts[i])),
        Fact::Begun { .. } => Some(compiled.known[i].1),
        Fact::Done { .. } => None,
    });
    Ok(finishes
        .filter(|&finish| finish < NEVER)
        .max()
        .unwrap_or(problem.now)
        .max(problem.now))
}

/// The earliest start of every activity by lags, dates, facts and working hours alone; for facts their
/// own start. A start past every plan means that it can never begin.
///
/// # Errors
///
/// [`Faulty`] with everything that is wrong with the statement of the problem.
pub fn earliest_starts(problem: &Problem) -> Result<Vec<Tick>, Faulty> {
    check(problem)?;
    let (compiled, _) = Compiled::new(problem);
    let mut starts = forward(&compiled).starts;
    for (i, start) in starts
        .iter_mut()
        .enumerate()
        .filter(|(i, _)| !compiled.open[*i])
    {
        *start = compiled.known[i].0;
    }
    Ok(starts)
}

/// The latest start of every activity that still lets all be done by `finish`, by lags, dates, facts
/// and working hours alone; for facts their own start.
///
/// # Errors
///
/// [`Faulty`] with everything that is wrong with the statement of the problem.
pub fn latest_starts(problem: &Problem, finish: Tick) -> Result<Vec<Tick>, Faulty> {
    check(problem)?;
    let (compiled, _) = Compiled::new(problem);
    let left_out = forward(&compiled).hopeless;
    let mut starts = crate::search::passes::backward(&compiled, finish, &[], &left_out);
    for (i, start) in starts
        .iter_mut()
        .enumerate()
        .filter(|(i, _)| !compiled.open[*i])
    {
        *start = compiled.known[i].0;
    }
    Ok(starts)
}
