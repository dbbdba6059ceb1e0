//! What no order of work can beat.

mod chain;
mod load;

pub use chain::Link;

use crate::problem::{ActivityId, DAY, Problem, ResourceId, Tick};
use crate::search::clock::NEVER;
use crate::search::compiled::Compiled;
use crate::search::passes::{Forward, forward};
use crate::solve::{Faulty, check};
use load::{Loads, Overload, latest_ends};

/// How far beyond the longest chain a crew's work is looked into.
const FAR: Tick = 500 * DAY;

/// A moment before which no plan of the problem can finish, with what keeps it from ending sooner.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EarliestEnd {
    /// The moment.
    pub at: Tick,
    /// Why no plan ends sooner.
    pub why: EndWhy,
}

/// Why no plan ends sooner.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum EndWhy {
    /// Nothing is left to do.
    Nothing,
    /// A chain of work and waits takes that long, as if there were crews and ways enough. The first
    /// work comes first.
    Chain(Vec<Link>),
    /// A crew or a room has so much to do: none of `activities` can begin before `head`, together they
    /// take until `done_by`, and at least what follows `last` comes after.
    Load {
        /// What is limited.
        resource: ResourceId,
        /// How many of it there are.
        capacity: u32,
        /// The work, the earliest first.
        activities: Vec<ActivityId>,
        /// No sooner can any of it begin.
        head: Tick,
        /// The chain that leads to the work that can begin first.
        before: Vec<Link>,
        /// Working ticks of all of it, counted once for each crew that it takes.
        ticks: i64,
        /// No sooner can all of it be done, on the hours in which any of it is worked.
        done_by: Tick,
        /// The one of which least follows, so that it is best left for the end.
        last: ActivityId,
    },
}

/// A moment before which no plan of the problem can finish: see [`bound_why`].
///
/// # Errors
///
/// [`Faulty`] with everything that is wrong with the statement of the problem.
pub fn bound(problem: &Problem) -> Result<Tick, Faulty> {
    Ok(bound_why(problem)?.at)
}

/// A moment before which no plan of the problem can finish, and why: the longest chain of work and
/// waits from now, on everybody's working hours, or, where that is later, what some crew or room cannot
/// do faster (see [`EndWhy::Load`]; every head and every tail is tried).
///
/// Waits that can never hold together are left out, so this bounds the plans that break them too.
/// Work whose calendar ends first is passed over. *Now* when nothing is left to do.
///
/// # Errors
///
/// [`Faulty`] with everything that is wrong with the statement of the problem.
pub fn bound_why(problem: &Problem) -> Result<EarliestEnd, Faulty> {
    check(problem)?;
    let (compiled, _) = Compiled::new(problem);
    Ok(earliest_end(&compiled, &forward(&compiled)))
}

/// See [`bound_why`].
pub(crate) fn earliest_end(c: &Compiled, early: &Forward) -> EarliestEnd {
    let now = c.problem.now;
    let Some((at, last)) = chain::end(c, early) else {
        return EarliestEnd {
            at: now,
            why: EndWhy::Nothing,
        };
    };
    let at = at.max(now);
    match by_load(c, early, at) {
        Some((at, overload)) => EarliestEnd {
            at,
            why: why_load(c, early, overload, at),
        },
        None => EarliestEnd {
            at,
            why: EndWhy::Chain(chain::to(c, early, last)),
        },
    }
}

/// The latest moment by which all cannot be done, because some work does not fit, and one tick; `None`
/// when all fits by the time of the longest chain.
fn by_load(c: &Compiled, early: &Forward, chain: Tick) -> Option<(Tick, Overload)> {
    let until = chain.saturating_add(FAR);
    let loads = Loads::new(c, early, until);
    let misfit = |end: Tick| loads.overload(early, &latest_ends(c, early, end));
    let mut found = misfit(chain)?;
    // All does not fit by `low`; it may by `high`.
    let (mut low, mut step) = (chain, DAY);
    let mut high = loop {
        let next = low.saturating_add(step).min(until);
        match misfit(next) {
            Some(overload) if next < until => {
                (low, found) = (next, overload);
                step *= 2;
            }
            _ => break next,
        }
    };
    while high - low > 1 {
        let middle = low + (high - low) / 2;
        match misfit(middle) {
            Some(overload) => (low, found) = (middle, overload),
            None => high = middle,
        }
    }
    Some((low + 1, found))
}

fn why_load(c: &Compiled, early: &Forward, overload: Overload, at: Tick) -> EndWhy {
    let ends = latest_ends(c, early, at);
    let last = overload.who.iter().copied().max_by_key(|&i| (ends[i], i));
    let first = overload
        .who
        .iter()
        .copied()
        .min_by_key(|&i| (early.starts[i], i));
    EndWhy::Load {
        resource: ResourceId::from(overload.resource),
        capacity: c.problem.resources[overload.resource].capacity,
        head: overload.head,
        before: first.map_or_else(Vec::new, |first| chain::to(c, early, first)),
        ticks: overload.ticks,
        done_by: overload.done_by.min(NEVER),
        last: ActivityId::from(last.unwrap_or(0)),
        activities: overload.who.into_iter().map(ActivityId::from).collect(),
    }
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
    let starts = forward(&compiled).starts;
    Ok(with_facts(&compiled, starts))
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
    let starts = crate::search::passes::backward(&compiled, finish, &[], &left_out);
    Ok(with_facts(&compiled, starts))
}

fn with_facts(c: &Compiled, mut starts: Vec<Tick>) -> Vec<Tick> {
    let facts = starts.iter_mut().enumerate().filter(|(i, _)| !c.open[*i]);
    facts.for_each(|(i, start)| *start = c.known[i].0);
    starts
}
