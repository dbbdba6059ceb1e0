//! What no plan can beat, by work and time alone.

use super::core::Core;
use super::precedence::{Precedence, longest_path};
use crate::problem::Tick;

/// With more activities than this the intervals are not gone through.
const MOST_ACTIVITIES: usize = 400;

/// A time before which no plan can end: the longest path, or the first end that leaves room for the
/// work that must fall into each interval of time.
///
/// In an interval from `a` to `b` an activity must spend at least the least of what it spends there
/// when it starts as early as it can, when it starts as late as it can, and `b − a`. Where all
/// together need more of a resource than there is from `a` to `b`, the end is too early (energetic
/// reasoning: Erschler and Lopez 1990; Baptiste, Le Pape and Nuijten 1999; from memory).
#[must_use]
pub fn energetic(core: &Core, precedence: &Precedence) -> Tick {
    let path = longest_path(core, precedence);
    if core.count() > MOST_ACTIVITIES {
        return path;
    }
    let heads = precedence.heads(&core.earliest);
    let tails = precedence.tails(&core.durations);
    let works: Vec<Work> = (0..core.resources())
        .map(|k| Work::of(core, k, &heads, &tails))
        .collect();
    let fits = |end: Tick| works.iter().all(|work| work.fits(end));
    let (mut below, mut step) = (path - 1, 1);
    while !fits(below + step) {
        below += step;
        step = step.saturating_mul(2);
    }
    let mut above = below + step;
    while above - below > 1 {
        let middle = below + (above - below) / 2;
        if fits(middle) {
            above = middle;
        } else {
            below = middle;
        }
    }
    above
}

/// The work on one resource.
struct Work {
    capacity: i64,
    /// Head, tail, duration and demand of each activity that uses it.
    parts: Vec<(Tick, Tick, Tick, i64)>,
}

impl Work {
    fn of(core: &Core, resource: usize, heads: &[Tick], tails: &[Tick]) -> Self {
        let demand = |i: usize| core.demand(i)[resource];
        let parts = (0..core.count())
            .filter(|&i| demand(i) > 0 && demand(i) <= core.capacities[resource])
            .map(|i| (heads[i], tails[i], core.durations[i], i64::from(demand(i))));
        Self {
            capacity: i64::from(core.capacities[resource]),
            parts: parts.collect(),
        }
    }

    /// Whether no interval is asked for more than it has when all must be over by `end`.
    fn fits(&self, end: Tick) -> bool {
        let starts = self
            .parts
            .iter()
            .flat_map(|&(head, tail, work, _)| [head, end - tail, head + work]);
        let mut starts: Vec<Tick> = starts.collect();
        starts.sort_unstable();
        starts.dedup();
        let ends = self
            .parts
            .iter()
            .flat_map(|&(head, tail, work, _)| [end - tail + work, head + work, end - tail]);
        let mut ends: Vec<Tick> = ends.collect();
        ends.sort_unstable();
        ends.dedup();
        let holds = |from: Tick, until: Tick| {
            until <= from || self.least(from, until, end) <= self.capacity * i64::from(until - from)
        };
        starts
            .iter()
            .all(|&from| ends.iter().all(|&until| holds(from, until)))
    }

    /// The least work that must fall into an interval.
    fn least(&self, from: Tick, until: Tick, end: Tick) -> i64 {
        let part = |&(head, tail, work, demand): &(Tick, Tick, Tick, i64)| {
            let early = head + work - from;
            let late = until - (end - tail);
            i64::from(early.min(late).min(work).min(until - from).max(0)) * demand
        };
        self.parts.iter().map(part).sum()
    }
}
