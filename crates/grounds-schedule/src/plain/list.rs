//! Lists: the activities in an order in which each comes after all that it waits for.

use super::precedence::Precedence;
use crate::chance::Chance;
use crate::problem::Tick;

/// Orders activities by times, with bins instead of comparisons.
#[derive(Clone, Debug, Default)]
pub struct Sorter {
    bins: Vec<u32>,
}

impl Sorter {
    /// Writes the activities of `base` into `list`, those with the smallest key first and those with
    /// equal keys in the order of `base`. Keys run from 0 to `most`.
    #[inline]
    pub fn sort(
        &mut self,
        base: &[u32],
        list: &mut [u32],
        most: Tick,
        key: impl Fn(usize) -> Tick,
    ) {
        let bins = most as usize + 2;
        if self.bins.len() < bins {
            self.bins.resize(bins, 0);
        }
        let bins = &mut self.bins[..bins];
        bins.fill(0);
        for &activity in base {
            bins[key(activity as usize) as usize + 1] += 1;
        }
        let mut sum = 0;
        for bin in bins.iter_mut() {
            sum += *bin;
            *bin = sum;
        }
        for &activity in base {
            let bin = &mut bins[key(activity as usize) as usize];
            list[*bin as usize] = activity;
            *bin += 1;
        }
    }
}

/// Puts lists right in which an activity may come before what it waits for: that is then moved to
/// just before it.
#[derive(Clone, Debug)]
pub struct Straightener {
    listed: Vec<bool>,
    open: Vec<u32>,
    wrong: Vec<u32>,
}

impl Straightener {
    /// For lists of so many activities.
    #[must_use]
    pub fn new(count: usize) -> Self {
        Self {
            listed: vec![false; count],
            open: Vec::with_capacity(count),
            wrong: Vec::with_capacity(count),
        }
    }

    /// Puts a list right; one that is right stays as it is.
    pub fn straighten(&mut self, precedence: &Precedence, list: &mut [u32]) {
        self.listed.fill(false);
        self.wrong.clear();
        self.wrong.extend_from_slice(list);
        let mut length = 0;
        for &wanted in &self.wrong {
            self.open.push(wanted);
            while let Some(&top) = self.open.last() {
                let unlisted = |wait: &&(u32, Tick)| !self.listed[wait.0 as usize];
                let first = precedence.before(top as usize).iter().find(unlisted);
                if let (Some(wait), false) = (first, self.listed[top as usize]) {
                    self.open.push(wait.0);
                    continue;
                }
                self.open.pop();
                if !self.listed[top as usize] {
                    self.listed[top as usize] = true;
                    list[length] = top;
                    length += 1;
                }
            }
        }
    }
}

/// Combines two lists into `child`: the father's, with a stretch of it in the mother's order. A
/// two-point crossover (Hartmann 1998) in the form of Debels and Vanhoucke (2007); from memory.
pub fn cross(
    father: &[u32],
    mother: &[u32],
    stretch: (usize, usize),
    inside: &mut [bool],
    child: &mut Vec<u32>,
) {
    let (from, until) = stretch;
    inside.fill(false);
    for &activity in &father[from..until] {
        inside[activity as usize] = true;
    }
    child.clear();
    child.extend_from_slice(&father[..from]);
    child.extend(mother.iter().filter(|&&a| inside[a as usize]));
    child.extend_from_slice(&father[until..]);
}

/// Changes places of neighbours that do not wait for each other, each pair with a chance of `percent`
/// in a hundred.
pub fn ruffle(precedence: &Precedence, list: &mut [u32], percent: usize, chance: &mut Chance) {
    for k in 1..list.len() {
        if chance.happens(percent) {
            let (first, second) = (list[k - 1], list[k]);
            let waits = precedence.before(second as usize);
            if waits.iter().all(|wait| wait.0 != first) {
                list.swap(k - 1, k);
            }
        }
    }
}
