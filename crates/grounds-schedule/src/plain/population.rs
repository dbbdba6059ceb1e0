//! Many schedules that are bred with each other, each child justified.

use super::core::Core;
use super::justify::{Builder, Cuts};
use super::list::{cross, ruffle};
use super::precedence::Precedence;
use super::worker::{Found, Known, Worker};
use crate::chance::Chance;
use crate::problem::Tick;

/// Placings in one unit of work.
const PLACINGS: u64 = 4;

/// A search by a population of lists.
pub struct Population(Breeder<1>);

impl Population {
    /// A population.
    #[must_use]
    pub fn new(core: &Core, seed: u64, params: &[f64]) -> Self {
        Self(Breeder::new(core, seed, params))
    }

    /// Schedules built so far.
    #[must_use]
    pub fn schedules(&self) -> u64 {
        self.0.builder.passes
    }
}

impl Worker for Population {
    fn slice(&mut self, units: u64, known: &Known) -> Found {
        self.0.slice(units, known)
    }
}

/// One schedule.
#[derive(Clone, Debug)]
struct Person {
    list: Vec<u32>,
    starts: Vec<Tick>,
    finish: Tick,
    /// How good it is among those of the same finish; less is better.
    more: i64,
    print: u64,
}

impl Person {
    fn key(&self) -> (Tick, i64) {
        (self.finish, self.more)
    }

    fn become_as(&mut self, other: &Self) {
        self.list.copy_from_slice(&other.list);
        self.starts.copy_from_slice(&other.starts);
        (self.finish, self.more, self.print) = (other.finish, other.more, other.print);
    }
}

/// The breeding for resources that fill `W` words.
struct Breeder<const W: usize> {
    count: usize,
    builder: Builder<W>,
    chance: Chance,
    people: Vec<Person>,
    best: Person,
    child: Person,
    inside: Vec<bool>,
    size: usize,
    tails: Vec<Tick>,
    params: Vec<f64>,
}

impl<const W: usize> Breeder<W> {
    fn new(core: &Core, seed: u64, params: &[f64]) -> Self {
        let count = core.count();
        let precedence = Precedence::of(count, &core.waits).unwrap_or_default();
        let tails = precedence.tails(&core.durations);
        let ticks = 2 * core.durations.iter().sum::<Tick>()
            + core.waits.iter().map(|w| w.ticks.max(0)).sum::<Tick>()
            + core.earliest.iter().max().copied().unwrap_or(0);
        let blank = Person {
            list: vec![0; count],
            starts: vec![0; count],
            finish: Tick::MAX,
            more: 0,
            print: 0,
        };
        Self {
            count,
            builder: Builder::new(core, precedence, ticks as usize),
            chance: Chance::new(seed),
            people: Vec::new(),
            best: blank.clone(),
            child: blank,
            inside: vec![false; count],
            size: params.first().copied().unwrap_or(200.0) as usize,
            tails,
            params: params.to_vec(),
        }
    }

    fn p(&self, k: usize, default: f64) -> f64 {
        self.params.get(k).copied().unwrap_or(default)
    }

    fn random_child(&mut self) {
        let noise = self.p(2, 0.6);
        let cp = *self.tails.iter().max().unwrap_or(&0) as f64;
        let keys: Vec<f64> = (0..self.count)
            .map(|i| {
                -f64::from(self.tails[i]) + noise * cp * (self.chance.below(1000) as f64 / 1000.0)
            })
            .collect();
        let mut missing: Vec<usize> = vec![0; self.count];
        let mut after = vec![Vec::new(); self.count];
        let precedence = self.builder.precedence();
        for i in 0..self.count {
            for &(f, _) in precedence.before(i) {
                after[f as usize].push(i);
                missing[i] += 1;
            }
        }
        let mut ready: Vec<usize> = (0..self.count).filter(|&i| missing[i] == 0).collect();
        self.child.list.clear();
        while !ready.is_empty() {
            let mut k = 0;
            for q in 1..ready.len() {
                if keys[ready[q]] < keys[ready[k]] {
                    k = q;
                }
            }
            let a = ready.swap_remove(k);
            self.child.list.push(a as u32);
            for &b in &after[a] {
                missing[b] -= 1;
                if missing[b] == 0 {
                    ready.push(b);
                }
            }
        }
    }

    fn build(&mut self, cuts: Cuts) -> bool {
        let child = &mut self.child;
        let Some(finish) = self.builder.justified(&child.list, &mut child.starts, cuts) else {
            return false;
        };
        child.finish = finish;
        self.builder.list_of(&child.starts, finish, &mut child.list);
        let mode = self.p(9, 0.0);
        let child = &mut self.child;
        let target = if mode == 1.0 {
            self.tails.iter().max().copied().unwrap_or(0)
        } else {
            self.best.finish.saturating_sub(1)
        };
        let each = child.starts.iter().zip(&self.tails);
        child.more = if mode == 2.0 {
            0
        } else {
            each.map(|(start, tail)| i64::from((start + tail - target).max(0)))
                .sum()
        };
        let mut print = 0_u64;
        for &start in &child.starts {
            print = (print.rotate_left(5) ^ start as u64).wrapping_mul(0x517c_c1b7_2722_0a95);
        }
        child.print = print;
        true
    }

    fn round(&mut self) {
        if self.people.len() < self.size {
            self.random_child();
            if self.build(Cuts::NONE) {
                self.note_best();
                if self.people.iter().all(|p| p.print != self.child.print) {
                    self.people.push(self.child.clone());
                }
            }
            return;
        }
        let father = self.chance.below(self.people.len());
        let mother = {
            let a = self.chance.below(self.people.len());
            let b = self.chance.below(self.people.len());
            if self.people[a].key() <= self.people[b].key() {
                a
            } else {
                b
            }
        };
        let n = self.count as f64;
        let least = ((n * self.p(3, 0.2)) as usize).max(2);
        let most = ((n * self.p(4, 0.6)) as usize).max(3);
        let length = least + self.chance.below(most - least + 1);
        let from = self.chance.below(self.count - length + 1);
        cross(
            &self.people[father].list,
            &self.people[mother].list,
            (from, from + length),
            &mut self.inside,
            &mut self.child.list,
        );
        let percent = self.p(1, 20.0) as usize;
        ruffle(
            self.builder.precedence(),
            &mut self.child.list,
            percent,
            &mut self.chance,
        );
        let limit = self.people[father].finish;
        let slack = |share: f64, least: Tick| ((f64::from(limit) * share) as Tick).max(least);
        let cuts = Cuts {
            first: limit + slack(self.p(5, 0.07), 2),
            back: limit + slack(self.p(6, 0.015), 1),
            last: limit,
        };
        if self.build(cuts) && self.child.key() <= self.people[father].key() {
            self.note_best();
            if self.people.iter().all(|p| p.print != self.child.print) {
                self.people[father].become_as(&self.child);
            }
        }
    }

    fn note_best(&mut self) {
        if self.child.finish < self.best.finish {
            self.best.become_as(&self.child);
        }
    }
}

impl<const W: usize> Worker for Breeder<W> {
    fn slice(&mut self, units: u64, known: &Known) -> Found {
        let end = self.builder.placed + units * PLACINGS;
        let limit = known.best.as_ref().map_or(Tick::MAX, |b| b.1);
        while self.builder.placed < end && self.best.finish > known.bound {
            self.round();
        }
        Found {
            starts: (self.best.finish < limit).then(|| self.best.starts.clone()),
            ..Found::default()
        }
    }
}
