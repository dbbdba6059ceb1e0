//! Part of a plan made anew: the activities of a window are free, the others keep their order.
//!
//! Large-neighbourhood search: Shaw, "Using constraint programming and local search methods to solve
//! vehicle routing problems", CP 1998. That the others keep their order on each resource, and not their
//! starts, is from Godard, Laborie and Nuijten, "Randomized large neighborhood search for cumulative
//! scheduling", ICAPS 2005; without it nothing after a window could move up.

use super::engine::{Engine, Step, Style};
use super::prepare::Prepared;
use super::worker::Exact;
use crate::chance::Chance;
use crate::plain::{Core, Found, Known, Wait, Worker};
use crate::problem::Tick;

/// Units that one window is worth.
const WORTH: u64 = 40_000;

/// Fewest activities of a window.
const FEWEST: f64 = 6.0;

/// Before there is a plan: by turns in the order of time and where it conflicts.
const ANY_PLAN: Style = Style {
    in_time: 0,
    every: 2,
    guided: false,
    restart: 50,
};

/// Within a window: where it conflicts, near the plan.
const NEAR: Style = Style {
    in_time: 0,
    every: 0,
    guided: true,
    restart: 100,
};

/// How a window is chosen.
#[derive(Clone, Copy, Debug)]
enum Kind {
    /// What starts about the same time.
    Time,
    /// What uses one resource about the same time, and some at random.
    Resource,
    /// Here and there.
    Scattered,
}

const KINDS: [Kind; 3] = [Kind::Time, Kind::Resource, Kind::Scattered];

/// Makes windows of the best plan anew, again and again. Until there is a plan it looks for one.
#[derive(Clone, Debug)]
pub struct Windows {
    prepared: Prepared,
    chance: Chance,
    /// Before there is any plan.
    first: Exact,
    /// The window in work, with the units it has left.
    engine: Option<(Engine, u64)>,
    kind: usize,
    /// For each kind, how many activities are free.
    sizes: [f64; KINDS.len()],
}

impl Windows {
    /// Windows by chance from a seed.
    #[must_use]
    pub fn new(core: &Core, seed: u64) -> Self {
        let prepared = Prepared::of(core);
        Self {
            first: Exact::styled(&prepared, ANY_PLAN),
            prepared,
            chance: Chance::new(seed),
            engine: None,
            kind: 0,
            sizes: [FEWEST * 2.0; KINDS.len()],
        }
    }

    /// The next window: an engine in which only some activities are free.
    fn open(&mut self, starts: &[Tick], finish: Tick) -> Engine {
        self.kind = (self.kind + 1) % KINDS.len();
        let free = self.choose(starts);
        let kept = kept_order(&self.prepared.core, starts, &free);
        let both_kept = |&&(i, j): &&(u32, u32)| !free[i as usize] && !free[j as usize];
        let mut engine = Engine::within(&self.prepared, &kept, NEAR, |p| !both_kept(&p));
        engine.guide(starts);
        engine.cut(finish);
        engine
    }

    /// Which activities are free.
    fn choose(&mut self, starts: &[Tick]) -> Vec<bool> {
        let core = &self.prepared.core;
        let count = core.count();
        let size = (self.sizes[self.kind] as usize).min(count);
        let middle = starts[self.chance.below(count)];
        let away = |i: usize| (2 * (starts[i] - middle) + core.durations[i]).abs();
        let mut order: Vec<(i64, usize)> = match KINDS[self.kind] {
            Kind::Time => (0..count).map(|i| (i64::from(away(i)), i)).collect(),
            Kind::Resource => {
                let resource = self.chance.below(core.resources().max(1));
                let uses = |i: usize| core.demand(i).get(resource).is_some_and(|&d| d > 0);
                let far = |i| if uses(i) { 1 } else { 3 };
                (0..count)
                    .map(|i| (far(i) * i64::from(away(i)), i))
                    .collect()
            }
            Kind::Scattered => {
                let chance = &mut self.chance;
                (0..count)
                    .map(|i| (chance.number() as u32 as i64, i))
                    .collect()
            }
        };
        order.sort_unstable();
        let mut free = vec![false; count];
        for &(_, i) in &order[..size] {
            free[i] = true;
        }
        free
    }

    /// Works on the open window for so many units; what it brought, and the units it took.
    fn work(&mut self, mut engine: Engine, left: u64, units: u64) -> (Option<Vec<Tick>>, u64) {
        let before = engine.units();
        let step = engine.run(units.min(left));
        let took = engine.units() - before;
        let size = &mut self.sizes[self.kind];
        let most = self.prepared.core.count() as f64;
        match step {
            Step::Plan(starts) => return (Some(starts), took),
            // All of it was seen: the next can be larger.
            Step::Nothing => *size = (*size * 1.05 + 0.1).min(most),
            Step::Paused | Step::Refuted if took >= left => *size = (*size * 0.97).max(FEWEST),
            Step::Paused | Step::Refuted => self.engine = Some((engine, left - took)),
        }
        (None, took)
    }
}

impl Worker for Windows {
    fn slice(&mut self, units: u64, known: &Known) -> Found {
        let Some((starts, finish)) = &known.best else {
            return self.first.slice(units, known);
        };
        let mut left = units;
        if let Some((engine, _)) = &mut self.engine {
            engine.cut(*finish);
        }
        while left > 0 {
            let (engine, worth) = match self.engine.take() {
                Some(open) => open,
                None => {
                    // What it takes to open one.
                    left = left.saturating_sub(20 * self.prepared.core.count() as u64);
                    (self.open(starts, *finish), WORTH)
                }
            };
            let (found, took) = self.work(engine, worth, left);
            if found.is_some() {
                return Found {
                    starts: found,
                    ..Found::default()
                };
            }
            left = left.saturating_sub(took.max(1));
        }
        Found::default()
    }
}

/// Waits that keep the order of what is not free: on each resource, what began after the end of
/// another still does. What follows from other such waits is left out.
pub(super) fn kept_order(core: &Core, starts: &[Tick], free: &[bool]) -> Vec<Wait> {
    let mut waits = Vec::new();
    for resource in 0..core.resources() {
        let mut kept: Vec<usize> = (0..core.count())
            .filter(|&i| !free[i] && core.demand(i)[resource] > 0)
            .collect();
        kept.sort_unstable_by_key(|&i| starts[i]);
        for (place, &to) in kept.iter().enumerate() {
            let end = |i: usize| starts[i] + core.durations[i];
            let before = || {
                kept[..place]
                    .iter()
                    .copied()
                    .filter(|&i| end(i) <= starts[to])
            };
            let Some(last) = before().map(|i| starts[i]).max() else {
                continue;
            };
            waits.extend(before().filter(|&i| end(i) > last).map(|from| Wait {
                from: from as u32,
                to: to as u32,
                ticks: core.durations[from],
            }));
        }
    }
    waits.sort_unstable();
    waits.dedup();
    waits
}
