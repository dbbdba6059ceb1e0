//! When will it be done, and how sure is that: a plan's policy, run over what is uncertain.
//!
//! 1. [`Policy::of`] takes from a plan the order in which it uses crews, rooms, floors and air.
//! 2. [`Uncertainty`] says what may come out otherwise: work, waits and dates as low, likely and
//!    high (see [`Pert`]), tests that may fail, days that weather may take.
//! 3. [`forecast`] runs the policy many times, each time with other luck, and counts: dates by
//!    chance, what drives them how often, and which causes explain the spread.
//!
//! A run goes through time and places whoever can begin next, in the order of the plan where they
//! wait for each other (`turns`); it goes by what people know at that moment, not by luck to come
//! (`told`). Three things are known ahead, and earlier work is put off for them: a longest wait, an
//! end bound to a later end, and a shut floor that somebody must have left. The luck of a run depends
//! on the seed and its number alone, so that the result is the same on one thread as on many.
//!
//! ```
//! use grounds_schedule::forecast::{Amount, Policy, Runs, Source, ThreePoint, Uncertainty, forecast};
//! use grounds_schedule::{Activity, ActivityId, DAY, Effort, Problem, solve};
//!
//! let work = Activity { work: 8 * DAY, ..Activity::default() };
//! let problem = Problem { horizon: 100 * DAY, activities: vec![work], ..Problem::default() };
//! let plan = solve(&problem, &Effort::default())?.plan;
//! let policy = Policy::of(&problem, &plan)?;
//!
//! let spread = ThreePoint { low: 5 * DAY, likely: 8 * DAY, high: 14 * DAY };
//! let uncertainty = Uncertainty {
//!     sources: vec![Source {
//!         effects: vec![(Amount::Work(ActivityId(0)), spread)],
//!         common: None,
//!         share: 0.0,
//!     }],
//!     ..Uncertainty::default()
//! };
//! let seen = forecast(&policy, &uncertainty, &[], &Runs::default());
//! let even_chance = f64::from(seen.finish.by(0.5)) / f64::from(DAY);
//! assert!((even_chance - 8.38).abs() < 0.1);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod compile;
mod draw;
mod game;
mod keep;
mod order;
mod pert;
mod policy;
mod ranks;
mod run;
mod seen;
mod single;
mod spare;
mod told;
mod turns;
mod uncertain;

pub use pert::Pert;
pub use policy::{NoPolicy, Policy};
pub use seen::{Cause, Forecast, Seen, Weight};
pub use single::Single;
pub use spare::Latest;
pub use uncertain::{Amount, Repeat, Source, Spell, ThreePoint, Uncertainty, Weather};

use std::num::NonZeroUsize;

use crate::problem::ActivityId;
use game::Game;
use seen::Tally;

/// How many runs, from which seed, on how many threads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Runs {
    /// How many; at least one is made.
    pub count: u32,
    /// Where chance begins.
    pub seed: u64,
    /// How many threads share them; the result does not depend on it.
    pub threads: NonZeroUsize,
}

impl Default for Runs {
    fn default() -> Self {
        Self {
            count: 10_000,
            seed: 1,
            threads: NonZeroUsize::MIN,
        }
    }
}

/// Runs a policy over what is uncertain, and looks at the finishes of `watched` activities and of
/// the whole.
#[must_use]
pub fn forecast(
    policy: &Policy,
    uncertainty: &Uncertainty,
    watched: &[ActivityId],
    runs: &Runs,
) -> Forecast {
    let game = Game::new(policy, uncertainty, runs.seed);
    let count = u64::from(runs.count.max(1));
    let threads = u64::try_from(runs.threads.get()).unwrap_or(1).min(count);
    #[allow(clippy::cast_possible_truncation)]
    let begins = |thread: u64| (count * thread / threads) as u32;
    let parts: Vec<std::ops::Range<u32>> = (0..threads)
        .map(|thread| begins(thread)..begins(thread + 1))
        .collect();
    let tallies = in_threads(&parts, |part| {
        Tally::of(policy, &game, watched, part.clone())
    });
    Forecast::of(policy, &game, uncertainty, watched, tallies, parts.len())
}

/// What `work` makes of each part, in order, one thread each.
fn in_threads<P: Sync, R: Send>(parts: &[P], work: impl Fn(&P) -> R + Sync) -> Vec<R> {
    let Some((first, others)) = parts.split_first() else {
        return Vec::new();
    };
    std::thread::scope(|scope| {
        let work = &work;
        let handles: Vec<_> = others
            .iter()
            .map(|part| (part, scope.spawn(move || work(part))))
            .collect();
        let mut made = vec![work(first)];
        for (part, handle) in handles {
            made.push(handle.join().unwrap_or_else(|_| work(part)));
        }
        made
    })
}
