//! Several searches on one plain problem at once, sharing what they find.
//!
//! A [`Team`] has lanes, and a lane has [`Worker`](crate::plain::Worker)s that take turns. Lanes run at
//! the same time: all of them know the best plan and the best bound that any has found. The search
//! ends when the two meet, when there is proof that no plan exists, or at the [`Limit`].
//!
//! - [`Limit::Units`] counts work. Lanes then go in step, so the outcome depends on the team and the
//!   count alone, whatever the number of threads.
//! - [`Limit::While`] asks the caller, who may have a clock. Lanes then run free, a thread each.
//!
//! Every plan is passed by the caller's check before anybody hears of it.

mod board;
mod lane;
mod load;
mod race;
mod rounds;
mod solved;
mod team;
#[cfg(test)]
mod tests;

use std::num::NonZeroUsize;
use std::sync::Arc;

use crate::plain::Core;
use crate::plain::bound::energetic;
use crate::plain::precedence::Precedence;
use crate::plan::Plan;
use crate::problem::{Problem, Tick};
use crate::solve::{Faulty, check};
use crate::verify::verify;

use board::Board;
pub use lane::Lane;
pub use solved::solve_plain;
pub use team::Team;

/// How long to search.
#[derive(Clone, Copy)]
pub enum Limit<'a> {
    /// So many units of work in each lane, as [`Worker`](crate::plain::Worker) counts them.
    Units {
        /// Units for each lane.
        units: u64,
        /// Threads that may run lanes at the same time; the outcome does not depend on it.
        threads: NonZeroUsize,
    },
    /// As long as this says so; it is asked after every slice of some milliseconds, by every lane.
    While(&'a (dyn Fn() -> bool + Sync)),
}

/// What the search found.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Outcome {
    /// The starts of the best plan that the check passed.
    pub starts: Option<Arc<[Tick]>>,
    /// Its last finish.
    pub finish: Option<Tick>,
    /// No plan ends before this.
    pub bound: Tick,
    /// There is proof that no plan exists.
    pub impossible: bool,
    /// What workers claimed and what was not true: plans that the check did not pass, and bounds above
    /// a plan that it did. Anything but 0 is a mistake in a worker.
    pub refused: u32,
}

impl Outcome {
    /// Whether nothing is left to look for: the best plan is proved, or there is none.
    #[must_use]
    pub fn settled(&self) -> bool {
        self.impossible || self.finish.is_some_and(|finish| finish <= self.bound)
    }
}

/// Says whether a plan with these starts obeys everything.
pub type Check<'a> = &'a (dyn Fn(&[Tick]) -> bool + Sync);

/// Searches with a team.
#[must_use]
pub fn search(core: &Core, mut team: Team, check: Check, limit: Limit) -> Outcome {
    let Some(bound) = load::least(core) else {
        return Outcome {
            impossible: true,
            ..Outcome::default()
        };
    };
    let order = Precedence::of(core.count(), &core.waits);
    let bound = order.map_or(bound, |order| bound.max(energetic(core, &order)));
    let board = Board::new(core, check, bound);
    match limit {
        Limit::Units { units, threads } => rounds::run(&mut team.lanes, &board, units, threads),
        Limit::While(keep_going) => race::run(&mut team.lanes, &board, keep_going),
    }
    board.outcome()
}

/// Searches a problem that is a plain one, with the team that suits it; `None` for any other. Plans
/// are passed by [`verify`].
///
/// # Errors
///
/// [`Faulty`] with everything that is wrong with the statement of the problem.
pub fn search_plain(
    problem: &Problem,
    lanes: NonZeroUsize,
    seed: u64,
    limit: Limit,
) -> Result<Option<Outcome>, Faulty> {
    check(problem)?;
    let Some(core) = Core::of(problem) else {
        return Ok(None);
    };
    let core = Arc::new(core);
    let team = Team::suited(&core, lanes, seed);
    let holds = |starts: &[Tick]| verify(problem, &plan(&core, starts)).is_empty();
    Ok(Some(search(&core, team, &holds, limit)))
}

/// The plan with these starts.
#[must_use]
pub fn plan(core: &Core, starts: &[Tick]) -> Plan {
    let ends = starts.iter().zip(&core.durations);
    Plan {
        starts: starts.to_vec(),
        finishes: ends.map(|(start, work)| start + work).collect(),
    }
}
