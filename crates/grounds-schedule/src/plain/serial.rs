//! Schedules from lists: each activity in turn as early as it can be (serial schedule generation:
//! Kelley 1963, Kolisch 1996; from memory).

use super::core::Core;
use super::precedence::Precedence;
use super::profile::{Amounts, Profile, packed};
use crate::problem::Tick;

/// One activity as placing it needs it.
#[derive(Clone, Debug)]
struct Job<const W: usize> {
    /// From where to where its waits are.
    waits: (u32, u32),
    duration: u32,
    /// No start before this.
    earliest: Tick,
    /// The least time from its start to the end of everything.
    tail: Tick,
    amounts: Amounts<W>,
    /// Uses nothing, or takes no time.
    idle: bool,
}

/// A problem seen in one direction of time, ready for lists.
#[derive(Clone, Debug)]
pub struct Direction<const W: usize> {
    jobs: Vec<Job<W>>,
    waits: Vec<(u32, Tick)>,
}

impl<const W: usize> Direction<W> {
    /// A direction with its waits, first starts, and the least time from each start to the end of
    /// everything.
    #[must_use]
    pub fn new(core: &Core, precedence: &Precedence, earliest: &[Tick], tails: &[Tick]) -> Self {
        let mut waits = Vec::new();
        let job = |i: usize| {
            let first = waits.len() as u32;
            waits.extend_from_slice(precedence.before(i));
            let demand = core.demand(i);
            Job {
                waits: (first, waits.len() as u32),
                duration: core.durations[i].unsigned_abs(),
                earliest: earliest[i],
                tail: tails[i],
                amounts: packed(demand),
                idle: core.durations[i] == 0 || demand.iter().all(|&amount| amount == 0),
            }
        };
        Self {
            jobs: (0..core.count()).map(job).collect(),
            waits,
        }
    }

    /// Places the activities of a list, in which each comes after all that it waits for. Returns the
    /// last finish with all tails, or `None` as soon as that would be beyond `cut`. Every placing is
    /// counted in `placed`.
    #[inline]
    pub fn place(
        &self,
        list: &[u32],
        profile: &mut Profile<W>,
        starts: &mut [Tick],
        cut: Tick,
        placed: &mut u64,
    ) -> Option<Tick> {
        let mut last = 0;
        for (k, &activity) in list.iter().enumerate() {
            let job = &self.jobs[activity as usize];
            let mut start = job.earliest;
            for &(from, ticks) in self.waits_of(job) {
                start = start.max(starts[from as usize] + ticks);
            }
            if !job.idle && start + job.tail <= cut {
                let duration = job.duration as usize;
                let free = profile.earliest(start as usize, duration, &job.amounts);
                profile.take(free, duration, &job.amounts);
                start = free as Tick;
            }
            starts[activity as usize] = start;
            last = last.max(start + job.tail);
            if last > cut {
                *placed += k as u64 + 1;
                return None;
            }
        }
        *placed += list.len() as u64;
        Some(last)
    }

    #[inline]
    fn waits_of(&self, job: &Job<W>) -> &[(u32, Tick)] {
        &self.waits[job.waits.0 as usize..job.waits.1 as usize]
    }
}
