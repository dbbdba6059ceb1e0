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
        let count = most as usize + 2;
        if self.bins.len() < count {
            self.bins.resize(count, 0);
        }
        let bins = &mut self.bins[..count];
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

/// Puts lists right in which an activity comes before what it waits for: that is moved to just before
/// it.
#[derive(Clone, Debug)]
pub struct Straightener {
    listed: Vec<bool>,
    open: Vec<u32>,
    wanted: Vec<u32>,
}

impl Straightener {
    /// For lists of so many activities.
    #[must_use]
    pub fn new(count: usize) -> Self {
        Self {
            listed: vec![false; count],
            open: Vec::with_capacity(count),
            wanted: Vec::with_capacity(count),
        }
    }

    /// Puts a list right; one that is right stays as it is.
    pub fn straighten(&mut self, precedence: &Precedence, list: &mut [u32]) {
        self.listed.fill(false);
        self.wanted.clear();
        self.wanted.extend_from_slice(list);
        let mut length = 0;
        for &wanted in &self.wanted {
            self.open.push(wanted);
            while let Some(&top) = self.open.last() {
                if self.listed[top as usize] {
                    self.open.pop();
                    continue;
                }
                let waits = precedence.before(top as usize);
                let missing = waits.iter().find(|wait| !self.listed[wait.0 as usize]);
                if let Some(wait) = missing {
                    self.open.push(wait.0);
                } else {
                    self.listed[top as usize] = true;
                    list[length] = top;
                    length += 1;
                }
            }
        }
    }
}

/// Combines two lists: the father's, with a stretch of it in the mother's order. `inside` is space for
/// a mark on each activity.
///
/// This is the two-point crossover of Hartmann (1998) in the form of Debels and Vanhoucke (2007); from
/// memory. If both obey the waits, so does the child.
pub fn cross(
    father: &[u32],
    mother: &[u32],
    (from, until): (usize, usize),
    inside: &mut [bool],
    child: &mut [u32],
) {
    inside.fill(false);
    for &activity in &father[from..until] {
        inside[activity as usize] = true;
    }
    child.copy_from_slice(father);
    let of_mother = mother.iter().filter(|&&a| inside[a as usize]);
    for (place, &activity) in child[from..until].iter_mut().zip(of_mother) {
        *place = activity;
    }
}

/// Changes places of neighbours that do not wait for each other, each pair with a chance of `percent`
/// in a hundred (Hartmann 1998; from memory).
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

/// Moves one activity, any, to anywhere it can be (the shift of Boctor 1996 and others; from memory).
pub fn shift(precedence: &Precedence, list: &mut [u32], chance: &mut Chance) {
    let waits = |later: u32, earlier: u32| {
        let mut before = precedence.before(later as usize).iter();
        before.any(|wait| wait.0 == earlier)
    };
    let from = chance.below(list.len());
    let moved = list[from];
    let first = list[..from].iter().rposition(|&a| waits(moved, a));
    let first = first.map_or(0, |place| place + 1);
    let behind = list[from + 1..].iter().position(|&a| waits(a, moved));
    let last = behind.map_or(list.len() - 1, |places| from + places);
    let to = first + chance.below(last - first + 1);
    if to < from {
        list[to..=from].rotate_right(1);
    } else {
        list[from..=to].rotate_left(1);
    }
}

#[cfg(test)]
mod tests {
    use super::{Sorter, Straightener, cross};
    use crate::plain::Wait;
    use crate::plain::precedence::Precedence;

    #[test]
    fn equal_keys_keep_the_order_they_had() {
        let mut list = [0; 5];
        let keys = [3, 0, 3, 1, 0];
        Sorter::default().sort(&[4, 3, 2, 1, 0], &mut list, 3, |i| keys[i]);
        assert_eq!(list, [4, 1, 3, 2, 0]);
    }

    #[test]
    fn board_waits_for_its_studs_and_tape_for_its_board() {
        // 0 studs, 1 board, 2 tape, 3 something else.
        let wait = |from, to| Wait { from, to, ticks: 1 };
        let waits = [wait(0, 1), wait(1, 2)];
        let precedence = Precedence::of(4, &waits).unwrap_or_default();
        let mut list = [2, 3, 1, 0];
        Straightener::new(4).straighten(&precedence, &mut list);
        assert_eq!(list, [0, 1, 2, 3]);
        let mut right = [3, 0, 1, 2];
        Straightener::new(4).straighten(&precedence, &mut right);
        assert_eq!(right, [3, 0, 1, 2]);
    }

    #[test]
    fn a_child_has_the_fathers_ends_and_the_mothers_middle() {
        let mut child = [0; 6];
        cross(
            &[0, 1, 2, 3, 4, 5],
            &[5, 3, 4, 2, 1, 0],
            (1, 4),
            &mut [false; 6],
            &mut child,
        );
        assert_eq!(child, [0, 3, 2, 1, 4, 5]);
    }
}
