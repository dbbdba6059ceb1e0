//! Lags as arcs: each side of a lag gives a lower bound on one start from the other.

use super::clock::{NEVER, Work, at_least_after, at_least_before, at_most_after, at_most_before};
use crate::calendar::Calendar;
use crate::problem::{End, Tick};

/// One side of a lag. The least wait runs with the lag; the longest wait runs against it: the
/// earlier activity may not be so early that the later one comes too late.
#[derive(Clone, Copy)]
pub(crate) struct Arc<'a> {
    pub(crate) from: usize,
    pub(crate) from_end: End,
    pub(crate) to: usize,
    pub(crate) to_end: End,
    pub(crate) calendar: Option<&'a Calendar>,
    pub(crate) amount: Tick,
    /// A longest wait, read backwards.
    pub(crate) longest: bool,
}

impl Arc<'_> {
    /// The earliest that the target's end may be when the source lies at `(start, finish)`.
    pub(crate) fn earliest(&self, start: Tick, finish: Tick) -> Tick {
        let end = pick(self.from_end, start, finish);
        if end >= NEVER {
            return NEVER;
        }
        if self.longest {
            at_most_before(self.calendar, end, self.amount)
        } else {
            at_least_after(self.calendar, end, self.amount)
        }
    }

    /// The earliest start of the target when the source lies at `(start, finish)`.
    pub(crate) fn lower(&self, target: Work, start: Tick, finish: Tick) -> Tick {
        match self.earliest(start, finish) {
            NEVER => NEVER,
            t => target.first_start_for(self.to_end, t),
        }
    }

    /// The latest start of the source when the target lies at `(start, finish)`.
    pub(crate) fn upper(&self, source: Work, start: Tick, finish: Tick) -> Tick {
        let end = pick(self.to_end, start, finish);
        let t = if self.longest {
            at_most_after(self.calendar, end, self.amount)
        } else {
            at_least_before(self.calendar, end, self.amount)
        };
        source.last_start_for(self.from_end, t)
    }

    /// Whether two placed activities obey it.
    pub(crate) fn holds(&self, source: (Tick, Tick), target: (Tick, Tick)) -> bool {
        pick(self.to_end, target.0, target.1) >= self.earliest(source.0, source.1)
    }
}

pub(crate) fn pick(end: End, start: Tick, finish: Tick) -> Tick {
    match end {
        End::Start => start,
        End::Finish => finish,
    }
}

/// For each activity, a list of numbers, packed.
#[derive(Clone, Debug, Default)]
pub(crate) struct Lists {
    offsets: Vec<u32>,
    items: Vec<u32>,
}

impl Lists {
    /// Packs `(owner, item)` pairs.
    pub(crate) fn new(owners: usize, pairs: impl Iterator<Item = (usize, usize)> + Clone) -> Self {
        let mut offsets = vec![0u32; owners + 1];
        for (owner, _) in pairs.clone() {
            offsets[owner + 1] += 1;
        }
        for i in 0..owners {
            offsets[i + 1] += offsets[i];
        }
        let mut next = offsets.clone();
        let mut items = vec![0u32; offsets[owners] as usize];
        for (owner, item) in pairs {
            items[next[owner] as usize] = u32::try_from(item).unwrap_or(u32::MAX);
            next[owner] += 1;
        }
        Self { offsets, items }
    }

    /// The list of one owner.
    pub(crate) fn of(&self, owner: usize) -> impl DoubleEndedIterator<Item = usize> + '_ {
        let (from, until) = (
            self.offsets[owner] as usize,
            self.offsets[owner + 1] as usize,
        );
        self.items[from..until].iter().map(|&item| item as usize)
    }
}
