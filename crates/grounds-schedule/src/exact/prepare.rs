//! What can be said of a plain problem before any search: which waits say nothing new, which pairs
//! cannot run together, and which of those have one order only.
//!
//! The longest chain of waits from every start to every other (Floyd, "Algorithm 97", 1962; Warshall
//! 1962) shows the orders that a pair has left. An order that is forced is one more wait, which may force
//! the next (immediate selection: Carlier and Pinson, Management Science 35 (1989); with longest waits:
//! Dorndorf, Pesch and Phan-Huy, Management Science 46 (2000)).

use crate::plain::{Core, Wait};
use crate::problem::Tick;

/// Problems with more activities are searched without their chains, which take n² places and n³ steps.
const MOST_CHAINED: usize = 400;

/// More pairs than that cost more than they bring.
const MOST_PAIRS: usize = 20_000;

/// No chain of waits. Half of it is still less than any sum of chains.
const NONE: Tick = Tick::MIN / 4;

/// A plain problem, ready to be searched.
#[derive(Clone, Debug)]
pub(super) struct Prepared {
    pub(super) core: Core,
    /// Pairs that cannot run together and have both orders left.
    pub(super) pairs: Vec<(u32, u32)>,
    /// For each activity, whether the makespan must be told of its finish.
    pub(super) last: Vec<bool>,
    /// The waits leave no plan.
    pub(super) impossible: bool,
}

impl Prepared {
    /// Looks at a problem.
    pub(super) fn of(core: &Core) -> Self {
        let mut prepared = Self {
            core: core.clone(),
            pairs: Vec::new(),
            last: vec![true; core.count()],
            impossible: asks_too_much(core),
        };
        let mut pairs = rivals(core);
        if prepared.impossible {
            return prepared;
        }
        if core.count() > MOST_CHAINED {
            pairs.truncate(MOST_PAIRS);
            prepared.pairs = pairs;
            prepared.impossible = circles(core);
            return prepared;
        }
        let mut chains = Chains::of(core);
        prepared.impossible = !chains.order(&mut pairs, &core.durations, &mut prepared.core.waits);
        if !prepared.impossible {
            pairs.truncate(MOST_PAIRS);
            prepared.pairs = pairs;
            let needed = |wait: &Wait| chains.needs(wait.from, wait.to, wait.ticks);
            prepared.core.waits.retain(needed);
            let end = core.count() as u32;
            for (i, last) in prepared.last.iter_mut().enumerate() {
                *last = chains.needs(i as u32, end, core.durations[i]);
            }
        }
        prepared
    }
}

fn asks_too_much(core: &Core) -> bool {
    (0..core.count()).any(|i| {
        let demand = core.demand(i).iter().zip(&core.capacities);
        core.earliest[i] > core.latest[i] || demand.into_iter().any(|(d, c)| d > c)
    })
}

/// Pairs that together ask for more of some resource than there is.
fn rivals(core: &Core) -> Vec<(u32, u32)> {
    let mut pairs = Vec::new();
    for j in 0..core.count() {
        for i in 0..j {
            let both = core.demand(i).iter().zip(core.demand(j));
            let full = both
                .zip(&core.capacities)
                .any(|((&a, &b), &c)| u64::from(a) + u64::from(b) > u64::from(c));
            if full {
                pairs.push((i as u32, j as u32));
            }
        }
    }
    pairs
}

/// Whether some circle of waits is longer than nothing (Bellman 1958, Ford 1956).
fn circles(core: &Core) -> bool {
    let mut starts = core.earliest.clone();
    for _ in 0..=core.count() {
        let mut moved = false;
        for wait in &core.waits {
            let least = starts[wait.from as usize] + wait.ticks;
            let to = &mut starts[wait.to as usize];
            moved |= least > *to;
            *to = least.max(*to);
        }
        if !moved {
            return false;
        }
    }
    true
}

/// The longest chains of waits between all starts, and to the end of all work.
struct Chains {
    side: usize,
    ticks: Vec<Tick>,
}

impl Chains {
    fn of(core: &Core) -> Self {
        let side = core.count() + 1;
        let mut chains = Self {
            side,
            ticks: vec![NONE; side * side],
        };
        for i in 0..side {
            chains.ticks[i * side + i] = 0;
        }
        let ends = core.durations.iter().enumerate();
        let ends = ends.map(|(i, &work)| (i, side - 1, work));
        let waits = core.waits.iter();
        let waits = waits.map(|w| (w.from as usize, w.to as usize, w.ticks));
        for (from, to, ticks) in waits.chain(ends) {
            let chain = &mut chains.ticks[from * side + to];
            *chain = ticks.max(*chain);
        }
        for through in 0..side {
            let row: Vec<Tick> = chains.row(through).to_vec();
            for from in 0..side {
                chains.extend(from, through, 0, &row);
            }
        }
        chains
    }

    fn row(&self, from: usize) -> &[Tick] {
        &self.ticks[from * self.side..(from + 1) * self.side]
    }

    fn get(&self, from: u32, to: u32) -> Tick {
        self.ticks[from as usize * self.side + to as usize]
    }

    /// Chains from `from` that go on after `through`, by `more` and then as `row` says.
    fn extend(&mut self, from: usize, through: usize, more: Tick, row: &[Tick]) {
        let first = self.ticks[from * self.side + through];
        if first <= NONE / 2 {
            return;
        }
        let first = first + more;
        let chains = &mut self.ticks[from * self.side..(from + 1) * self.side];
        for (chain, &then) in chains.iter_mut().zip(row) {
            // What is no chain stays far below all that are, whatever is added.
            *chain = (*chain).max(first + then);
        }
    }

    /// Adds a wait that was not there.
    fn add(&mut self, wait: Wait) {
        let row: Vec<Tick> = self.row(wait.to as usize).to_vec();
        for from in 0..self.side {
            self.extend(from, wait.from as usize, wait.ticks, &row);
        }
    }

    /// Whether a start can be so much after another, or more.
    fn allows(&self, from: u32, to: u32, ticks: Tick) -> bool {
        let back = self.get(to, from);
        back <= NONE / 2 || back + ticks <= 0
    }

    /// Takes out the pairs that have one order only, and adds those orders as waits. False if there
    /// is no plan.
    fn order(
        &mut self,
        pairs: &mut Vec<(u32, u32)>,
        durations: &[Tick],
        waits: &mut Vec<Wait>,
    ) -> bool {
        if (0..self.side as u32).any(|i| self.get(i, i) > 0) {
            return false;
        }
        loop {
            let before = pairs.len();
            let mut possible = true;
            pairs.retain(|&(i, j)| {
                let (work, rival) = (durations[i as usize], durations[j as usize]);
                let wait = match (self.allows(i, j, work), self.allows(j, i, rival)) {
                    (true, true) => return true,
                    (true, false) => (i, j, work),
                    (false, true) => (j, i, rival),
                    (false, false) => {
                        possible = false;
                        return false;
                    }
                };
                let (from, to, ticks) = wait;
                if self.get(from, to) < ticks {
                    let wait = Wait { from, to, ticks };
                    waits.push(wait);
                    self.add(wait);
                }
                false
            });
            if !possible {
                return false;
            }
            if pairs.len() == before {
                return true;
            }
        }
    }

    /// Whether no chain through another start says as much as a wait does. Starts that are fixed to one
    /// another do not count, as each would make the other superfluous.
    fn needs(&self, from: u32, to: u32, ticks: Tick) -> bool {
        let fixed = |a: u32, b: u32| {
            let (there, back) = (self.get(a, b), self.get(b, a));
            there > NONE / 2 && back > NONE / 2 && there + back >= 0
        };
        self.get(from, to) <= ticks
            && !(0..self.side as u32).any(|k| {
                let (first, then) = (self.get(from, k), self.get(k, to));
                k != from
                    && k != to
                    && first > NONE / 2
                    && then > NONE / 2
                    && first + then >= ticks
                    && !fixed(from, k)
                    && !fixed(k, to)
            })
    }
}
