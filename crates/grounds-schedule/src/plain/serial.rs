//! Schedules from lists: each activity in turn as early as it can be (serial schedule generation,
//! Kelley 1963, Kolisch 1996; from memory).

use super::core::Core;
use super::precedence::Precedence;
use super::profile::{Amounts, Profile, packed};
use crate::problem::Tick;

/// One activity as placing it needs it.
#[derive(Clone, Debug)]
struct Job<const W: usize> {
    /// Where its waits are.
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
    /// All activities, each after every one it waits for.
    pub order: Vec<u32>,
    /// The least time from each start to the end of everything.
    pub tails: Vec<Tick>,
    /// The earliest starts.
    pub heads: Vec<Tick>,
}

impl<const W: usize> Direction<W> {
    /// A direction with its waits, first starts, and what must follow each start at least.
    #[must_use]
    pub fn new(core: &Core, precedence: &Precedence, earliest: &[Tick], tails: &[Tick]) -> Self {
        let mut waits = Vec::new();
        let job = |i: usize| {
            let first = waits.len() as u32;
            waits.extend_from_slice(precedence.before(i));
            let demand = core.demand(i);
            Job {
                waits: (first, waits.len() as u32),
                duration: core.durations[i] as u32,
                earliest: earliest[i],
                tail: tails[i],
                amounts: packed(demand),
                idle: core.durations[i] == 0 || demand.iter().all(|&amount| amount == 0),
            }
        };
        Self {
            jobs: (0..core.count()).map(job).collect(),
            waits,
            order: precedence.order.clone(),
            tails: tails.to_vec(),
            heads: precedence.heads(earliest),
        }
    }

    /// Whether `to` waits for `from` itself.
    #[inline]
    #[must_use]
    pub fn waits_on(&self, to: u32, from: u32) -> bool {
        let (first, end) = self.jobs[to as usize].waits;
        let waits = &self.waits[first as usize..end as usize];
        waits.iter().any(|wait| wait.0 == from)
    }

    /// Places the activities of a list, in which each comes after all that it waits for; returns the
    /// last finish with all tails, or `None` as soon as that would be beyond `cut`. `placed` counts on.
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
            let mut ready = job.earliest;
            for &(from, ticks) in &self.waits[job.waits.0 as usize..job.waits.1 as usize] {
                ready = ready.max(starts[from as usize] + ticks);
            }
            if !job.idle {
                let duration = job.duration as usize;
                let start = profile.earliest(ready as usize, duration, &job.amounts);
                profile.take(start, duration, &job.amounts);
                ready = start as Tick;
            }
            starts[activity as usize] = ready;
            last = last.max(ready + job.tail);
            if last > cut {
                *placed += k as u64;
                return None;
            }
        }
        *placed += list.len() as u64;
        Some(last)
    }
}
