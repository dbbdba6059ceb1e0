//! The search within limits: against the clock, or counted.

use std::num::NonZeroUsize;
use std::time::{Duration, Instant};

use grounds_schedule::portfolio::{self, Limit};
use grounds_schedule::{Faulty, ProblemFault, Tick, clash, earliest_starts};

use crate::instance::Instance;

/// When to stop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stop {
    /// After so much wall time.
    After(Duration),
    /// After so many units of work in each lane: the same result on every machine.
    Counted(u64),
}

/// How long to look, and with what.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Limits {
    /// When to stop.
    pub stop: Stop,
    /// Lanes that search at the same time, a thread each.
    pub lanes: NonZeroUsize,
    /// Where chance begins.
    pub seed: u64,
}

/// What is known of an instance after the search.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Status {
    /// The makespan meets the bound.
    Optimal,
    /// A plan was found.
    Feasible,
    /// There is no plan: the waits cannot hold together, or a job needs more than there is.
    Infeasible,
    /// No plan was found.
    Unknown,
}

/// What the search found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outcome {
    /// The longest chain of work and waits; `None` when the waits cannot hold together.
    pub critical_path: Option<Tick>,
    /// The last finish of the best plan that [`verify`](grounds_schedule::verify()) passed.
    pub makespan: Option<Tick>,
    /// What no plan can beat.
    pub bound: Tick,
    /// What that comes to.
    pub status: Status,
    /// What the search claimed and what was not true: 0, unless it has a mistake.
    pub refused: u32,
    /// Wall time spent.
    pub time: Duration,
}

/// Searches an instance within the limits.
///
/// # Errors
///
/// [`Faulty`] with everything that is wrong with the statement of the problem.
pub fn race(instance: &Instance, limits: Limits) -> Result<Outcome, Faulty> {
    let began = Instant::now();
    let problem = &instance.problem;
    let faults = problem.faults();
    let too_much = |fault: &ProblemFault| matches!(fault, ProblemFault::UsesTooMuch(..));
    let lacking = !faults.is_empty() && faults.iter().all(too_much);
    if lacking || clash(problem)?.is_some_and(|clash| clash.proved) {
        return Ok(Outcome {
            critical_path: None,
            makespan: None,
            bound: 0,
            status: Status::Infeasible,
            refused: 0,
            time: began.elapsed(),
        });
    }
    let critical_path = earliest_starts(problem)?.get(instance.end.index()).copied();
    let in_time = || match limits.stop {
        Stop::After(time) => began.elapsed() < time,
        Stop::Counted(_) => true,
    };
    let limit = match limits.stop {
        Stop::After(_) => Limit::While(&in_time),
        Stop::Counted(units) => Limit::Units {
            units,
            threads: limits.lanes,
        },
    };
    let found = portfolio::search_plain(problem, limits.lanes, limits.seed, limit)?;
    let found = found.unwrap_or_default();
    let status = match found.finish {
        _ if found.impossible => Status::Infeasible,
        Some(_) if found.settled() => Status::Optimal,
        Some(_) => Status::Feasible,
        None => Status::Unknown,
    };
    Ok(Outcome {
        critical_path,
        makespan: found.finish,
        bound: found.bound,
        status,
        refused: found.refused,
        time: began.elapsed(),
    })
}
