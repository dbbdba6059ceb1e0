//! A population of schedules, as a worker among others.

use super::breeding::{Breeding, Habits};
use super::condensed::Condensed;
use super::core::Core;
use super::precedence::Precedence;
use super::profile::{LANES, MOST};
use super::worker::{Found, Known, Worker};
use crate::problem::Tick;

/// Placings in one unit of work.
const PLACINGS: u64 = 4;

/// Words of profile that are kept at most.
const MOST_WORDS: usize = 1 << 24;

/// A search by a population of lists: each child's schedule is justified and takes the place of its
/// father's if it is no worse.
///
/// For problems whose waits run in no circle. For others, and for those too large to lay out tick by
/// tick, it says at once that it is done.
pub struct Population {
    breed: Option<Box<dyn Breed>>,
    condensed: Condensed,
    /// The plans that were taken in or given out end no earlier than this.
    heard: Tick,
}

impl Population {
    /// A population for a problem; the same seed breeds the same people.
    #[must_use]
    pub fn new(core: &Core, seed: u64) -> Self {
        Self::with(core, seed, Habits::default())
    }

    /// A population with other habits.
    #[must_use]
    pub fn with(core: &Core, seed: u64, habits: Habits) -> Self {
        let condensed = Condensed::of(core);
        Self {
            breed: breed(&condensed.core, seed, habits),
            condensed,
            heard: Tick::MAX,
        }
    }

    /// Schedules built so far, each pass counted as one.
    #[must_use]
    pub fn schedules(&self) -> u64 {
        self.breed.as_ref().map_or(0, |breed| breed.passes())
    }
}

impl Worker for Population {
    fn slice(&mut self, units: u64, known: &Known) -> Found {
        let done = Found {
            done: true,
            ..Found::default()
        };
        let Some(breed) = &mut self.breed else {
            return done;
        };
        if known.settled() {
            return done;
        }
        if let Some((starts, finish)) = &known.best
            && *finish < self.heard
        {
            self.heard = *finish;
            let moments: Vec<Tick> = (starts.iter())
                .map(|start| self.condensed.moment(*start))
                .collect();
            breed.take_in(&moments);
        }
        let bound = self.condensed.moment(known.bound);
        breed.go_on(units, bound);
        let (starts, finish) = breed.best();
        let mut in_time = starts.iter().zip(&self.condensed.core.latest);
        if finish == Tick::MAX || self.condensed.ticks(finish) >= self.heard {
            return Found::default();
        }
        if !in_time.all(|(start, latest)| start <= latest) {
            // Lists know of no latest start; once nothing shorter can come, nothing else will.
            return Found {
                done: finish <= bound,
                ..Found::default()
            };
        }
        self.heard = self.condensed.ticks(finish);
        let ticks = |start: &Tick| self.condensed.ticks(*start);
        Found {
            starts: Some(starts.iter().map(ticks).collect()),
            ..Found::default()
        }
    }
}

/// A breeding, whatever its width.
trait Breed: Send {
    /// Breeds for so many units, or until a plan ends by the bound.
    fn go_on(&mut self, units: u64, bound: Tick);
    /// Takes in a schedule by its starts.
    fn take_in(&mut self, starts: &[Tick]);
    /// The best starts and their last finish, if that is not [`Tick::MAX`].
    fn best(&self) -> (&[Tick], Tick);
    /// Schedules built.
    fn passes(&self) -> u64;
}

impl<const W: usize> Breed for Breeding<W> {
    fn go_on(&mut self, units: u64, bound: Tick) {
        let until = self.builder.placed + units * PLACINGS;
        while self.builder.placed < until && self.best.finish > bound {
            self.round();
        }
    }

    fn take_in(&mut self, starts: &[Tick]) {
        self.take_in(starts);
    }

    fn best(&self) -> (&[Tick], Tick) {
        (&self.best.starts, self.best.finish)
    }

    fn passes(&self) -> u64 {
        self.builder.passes
    }
}

/// A breeding as wide as the resources need; `None` where the problem is not for lists.
fn breed(core: &Core, seed: u64, habits: Habits) -> Option<Box<dyn Breed>> {
    let fits = |i: usize| {
        let mut amounts = core.demand(i).iter().zip(&core.capacities);
        amounts.all(|(amount, capacity)| amount <= capacity)
    };
    if core.count() == 0 || !(0..core.count()).all(fits) {
        return None;
    }
    if core.capacities.iter().any(|&capacity| capacity > MOST) {
        return None;
    }
    let precedence = Precedence::of(core.count(), &core.waits)?;
    let size = size(core)?;
    let words = core.resources().div_ceil(LANES).next_power_of_two();
    if words.checked_mul(size.1)? > MOST_WORDS {
        return None;
    }
    Some(match words {
        1 => Box::new(Breeding::<1>::new(core, &precedence, size, seed, habits)),
        2 => Box::new(Breeding::<2>::new(core, &precedence, size, seed, habits)),
        4 => Box::new(Breeding::<4>::new(core, &precedence, size, seed, habits)),
        8 => Box::new(Breeding::<8>::new(core, &precedence, size, seed, habits)),
        16 => Box::new(Breeding::<16>::new(core, &precedence, size, seed, habits)),
        32 => Box::new(Breeding::<32>::new(core, &precedence, size, seed, habits)),
        64 => Box::new(Breeding::<64>::new(core, &precedence, size, seed, habits)),
        _ => return None,
    })
}

/// The longest schedule that is looked at, and the ticks of profile it needs: all work one after the
/// other with all its waits, or twice the time there is.
fn size(core: &Core) -> Option<(Tick, usize)> {
    let work: i64 = core.durations.iter().map(|&work| i64::from(work)).sum();
    let wait: i64 = (core.waits.iter())
        .map(|wait| i64::from(wait.ticks.max(0)))
        .sum();
    let latest = core.latest.iter().zip(&core.durations);
    let horizon = latest.map(|(&start, &work)| i64::from(start) + i64::from(work));
    let begin = i64::from(core.earliest.iter().copied().max().unwrap_or(0));
    let longest = (begin + 2 * work + wait).min(2 * horizon.max().unwrap_or(0).max(0) + 1);
    let work = i64::from(core.durations.iter().copied().max().unwrap_or(0));
    let ticks = usize::try_from(longest + 2 * work + 2).ok()?;
    Some((Tick::try_from(longest).ok()?, ticks))
}
