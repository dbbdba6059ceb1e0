//! The search against the clock.
//!
//! The scheduler has no clock: it builds as many plans as it is told to. Here each thread asks it
//! again and again, with a new seed and more effort each time, and from the best list that any thread
//! has found, until the time is up or the best makespan meets the bound.

use std::num::NonZeroU8;
use std::sync::{Mutex, PoisonError};
use std::thread;
use std::time::{Duration, Instant};

use grounds_schedule::{
    ActivityId, Due, Effort, Faulty, Problem, ProblemFault, Solved, Tick, bound, clash,
    earliest_starts, solve, verify,
};

use crate::instance::Instance;

/// Plans that the first round of a thread builds.
const FIRST_ROUND: u32 = 8;

/// The part of the time that a round may take at most, so that threads hear of each other.
const ROUNDS: u32 = 16;

/// How long to look, and with how many threads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Limits {
    /// Wall time for one instance.
    pub time: Duration,
    /// Threads that search it.
    pub threads: NonZeroU8,
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
    /// The last finish of the best plan that [`verify`] passed.
    pub makespan: Option<Tick>,
    /// What no plan can beat.
    pub bound: Tick,
    /// What that comes to.
    pub status: Status,
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
            time: began.elapsed(),
        });
    }
    let bound = bound(problem)?;
    let critical_path = earliest_starts(problem)?.get(instance.end.index()).copied();
    let runners = Race {
        problem,
        end: instance.end,
        bound,
        until: began + limits.time,
        round: limits.time / ROUNDS,
        record: Mutex::new(None),
    };
    thread::scope(|scope| {
        for thread in 0..limits.threads.get() {
            let runners = &runners;
            scope.spawn(move || runners.run(thread as u64));
        }
    });
    let makespan = runners.best().and_then(|record| record.makespan());
    let status = match makespan {
        Some(makespan) if makespan <= bound => Status::Optimal,
        Some(_) => Status::Feasible,
        None => Status::Unknown,
    };
    Ok(Outcome {
        critical_path,
        makespan,
        bound,
        status,
        time: began.elapsed(),
    })
}

/// The best list that any thread has found.
#[derive(Clone, Debug)]
struct Record {
    /// How much its plan breaks.
    breaches: usize,
    /// The last finish of its plan.
    finish: Tick,
    order: Vec<ActivityId>,
}

impl Record {
    /// The makespan of a plan that breaks nothing.
    fn makespan(&self) -> Option<Tick> {
        (self.breaches == 0).then_some(self.finish)
    }
}

struct Race<'a> {
    problem: &'a Problem,
    end: ActivityId,
    bound: Tick,
    until: Instant,
    round: Duration,
    record: Mutex<Option<Record>>,
}

impl Race<'_> {
    /// One thread: rounds of search until the time is up or the bound is met.
    fn run(&self, thread: u64) {
        let mut schedules = FIRST_ROUND;
        for round in 0_u64.. {
            let known = self.best();
            let makespan = known.as_ref().and_then(Record::makespan);
            if makespan.is_some_and(|makespan| makespan <= self.bound) {
                return;
            }
            // While nothing holds yet, every other round begins afresh.
            let known = known.filter(|known| known.breaches == 0 || round % 2 == 0);
            let began = Instant::now();
            let seed = 1 + thread + (round << 16);
            let Ok(solved) = self.search(known, schedules, seed) else {
                return;
            };
            self.offer(solved);
            let left = self.until.saturating_duration_since(Instant::now());
            let rate = f64::from(schedules) / began.elapsed().as_secs_f64().max(1e-6);
            let within = |time: Duration| (rate * time.as_secs_f64()) as u32;
            if within(left) < FIRST_ROUND {
                return;
            }
            // Twice as many as the last, or what the time of a round is likely to allow.
            let next = within(left.min(self.round)).max(FIRST_ROUND);
            schedules = next.min(schedules.saturating_mul(2));
        }
    }

    /// One round. A plan that people know gives way in the scheduler only to one that is much better;
    /// so the next better makespan is made a due date with as large a fine as the whole time costs.
    fn search(&self, known: Option<Record>, schedules: u32, seed: u64) -> Result<Solved, Faulty> {
        let mut problem = self.problem.clone();
        if let Some(known) = &known {
            problem.dues.push(Due {
                activity: self.end,
                at: known.finish.saturating_sub(1),
                day_cents: i64::from(problem.horizon),
            });
        }
        let effort = Effort {
            schedules,
            seed,
            first_order: known.map(|known| known.order),
        };
        solve(&problem, &effort)
    }

    /// Counts a plan if it is the best so far, by what [`verify`] says of it.
    fn offer(&self, solved: Solved) {
        let record = Record {
            breaches: verify(self.problem, &solved.plan).len(),
            finish: solved.plan.finishes.iter().copied().max().unwrap_or(0),
            order: solved.order,
        };
        let mut best = self.record.lock().unwrap_or_else(PoisonError::into_inner);
        let worth = |record: &Record| (record.breaches, record.finish);
        if best
            .as_ref()
            .is_none_or(|best| worth(&record) < worth(best))
        {
            *best = Some(record);
        }
    }

    fn best(&self) -> Option<Record> {
        let best = self.record.lock().unwrap_or_else(PoisonError::into_inner);
        best.clone()
    }
}
