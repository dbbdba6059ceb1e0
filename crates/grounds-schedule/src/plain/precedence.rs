//! Waits as compact arrays in topological order, with the longest paths along them.

use super::core::{Core, Wait};
use crate::problem::Tick;

/// Beyond this many activities, waits that follow from others are kept rather than looked for.
const MOST_TO_THIN: usize = 4096;

/// The waits of a problem that has no cycle of them, for one direction of time.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Precedence {
    /// All activities, each after every one it waits for.
    pub order: Vec<u32>,
    /// For each activity, where its waits begin in [`Precedence::waits`]; one more entry closes the last.
    first: Vec<u32>,
    /// What each activity waits for, and how long from start to start.
    waits: Vec<(u32, Tick)>,
}

impl Precedence {
    /// Orders the waits among `count` activities; `None` if they run in a circle. Waits that follow
    /// from others are left out.
    #[must_use]
    pub fn of(count: usize, waits: &[Wait]) -> Option<Self> {
        let all = Self::unordered(count, waits);
        let order = all.sorted()?;
        let all = Self { order, ..all };
        Some(if count <= MOST_TO_THIN {
            all.thinned()
        } else {
            all
        })
    }

    /// What an activity waits for, and how long from start to start.
    #[must_use]
    pub fn before(&self, activity: usize) -> &[(u32, Tick)] {
        &self.waits[self.first[activity] as usize..self.first[activity + 1] as usize]
    }

    /// The same waits seen from the end of time: what was waited for waits, and starts are what
    /// finishes were.
    #[must_use]
    pub fn mirrored(&self, durations: &[Tick]) -> Self {
        let mut waits = Vec::with_capacity(self.waits.len());
        for to in 0..durations.len() {
            waits.extend(self.before(to).iter().map(|&(from, ticks)| Wait {
                from: to as u32,
                to: from,
                ticks: ticks + durations[to] - durations[from as usize],
            }));
        }
        Self {
            order: self.order.iter().rev().copied().collect(),
            ..Self::unordered(durations.len(), &waits)
        }
    }

    /// The earliest starts that the waits allow, from the given first starts: the heads.
    #[must_use]
    pub fn heads(&self, earliest: &[Tick]) -> Vec<Tick> {
        let mut heads = earliest.to_vec();
        for &to in &self.order {
            let to = to as usize;
            for &(from, ticks) in self.before(to) {
                heads[to] = heads[to].max(heads[from as usize] + ticks);
            }
        }
        heads
    }

    /// For each activity, the least time from its start to the end of everything: the tails.
    #[must_use]
    pub fn tails(&self, durations: &[Tick]) -> Vec<Tick> {
        let mut tails = durations.to_vec();
        for &to in self.order.iter().rev() {
            let to = to as usize;
            for &(from, ticks) in self.before(to) {
                let from = from as usize;
                tails[from] = tails[from].max(ticks + tails[to]);
            }
        }
        tails
    }

    fn unordered(count: usize, waits: &[Wait]) -> Self {
        let mut sorted: Vec<Wait> = waits
            .iter()
            .filter(|wait| wait.from != wait.to || wait.ticks > 0)
            .copied()
            .collect();
        sorted.sort_unstable_by_key(|wait| (wait.to, wait.from, -wait.ticks));
        sorted.dedup_by_key(|wait| (wait.to, wait.from));
        let mut first = vec![0; count + 1];
        for wait in &sorted {
            first[wait.to as usize + 1] += 1;
        }
        for i in 0..count {
            first[i + 1] += first[i];
        }
        Self {
            order: Vec::new(),
            first,
            waits: sorted.iter().map(|wait| (wait.from, wait.ticks)).collect(),
        }
    }

    /// Kahn's order (1962), the lowest number first among those that are ready together.
    fn sorted(&self) -> Option<Vec<u32>> {
        let count = self.first.len() - 1;
        let mut after = vec![Vec::new(); count];
        let mut missing: Vec<usize> = (0..count).map(|i| self.before(i).len()).collect();
        for to in 0..count {
            for &(from, _) in self.before(to) {
                after[from as usize].push(to);
            }
        }
        let mut order: Vec<u32> = (0..count as u32)
            .filter(|&i| missing[i as usize] == 0)
            .collect();
        let mut next = 0;
        while let Some(&from) = order.get(next) {
            next += 1;
            for &to in &after[from as usize] {
                missing[to] -= 1;
                if missing[to] == 0 {
                    order.push(to as u32);
                }
            }
        }
        (order.len() == count).then_some(order)
    }

    /// Without the waits that a chain of others makes longer anyway.
    fn thinned(&self) -> Self {
        const NONE: Tick = Tick::MIN / 2;
        let count = self.first.len() - 1;
        let mut kept = Vec::with_capacity(self.waits.len());
        let mut far = vec![NONE; count];
        for (k, &from) in self.order.iter().enumerate() {
            far.fill(NONE);
            far[from as usize] = 0;
            for &to in &self.order[k + 1..] {
                let waits = self.before(to as usize);
                let direct = waits.iter().find(|wait| wait.0 == from);
                let around = waits
                    .iter()
                    .filter(|wait| wait.0 != from && far[wait.0 as usize] > NONE)
                    .map(|wait| far[wait.0 as usize] + wait.1)
                    .max()
                    .unwrap_or(NONE);
                far[to as usize] = around;
                if let Some(&(_, ticks)) = direct
                    && ticks > around
                {
                    far[to as usize] = ticks;
                    kept.push(Wait { from, to, ticks });
                }
            }
        }
        Self {
            order: self.order.clone(),
            ..Self::unordered(count, &kept)
        }
    }
}

/// The longest path: the last finish if there were of everything enough.
#[must_use]
pub fn longest_path(core: &Core, precedence: &Precedence) -> Tick {
    core.finish(&precedence.heads(&core.earliest))
}
