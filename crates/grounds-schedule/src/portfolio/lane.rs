//! Workers that take turns.

use crate::plain::{Found, Known, Worker};

/// Workers that share one thread. Each first has its head start, in the order in which they joined;
/// from then on they share the time in proportion. A worker that is done gives its time to the others.
#[derive(Default)]
pub struct Lane {
    hands: Vec<Hand>,
}

struct Hand {
    worker: Box<dyn Worker>,
    /// Units that it has before the others' turn comes.
    head_start: u64,
    /// How much of the time it has afterwards, against the others.
    share: u64,
    /// Units spent so far.
    spent: u64,
    done: bool,
}

impl Hand {
    /// What it has had beyond its head start, for its share.
    fn had(&self) -> u64 {
        self.spent.saturating_sub(self.head_start) / self.share
    }
}

impl Lane {
    /// A lane of one worker.
    #[must_use]
    pub fn of(worker: impl Worker + 'static) -> Self {
        Self::default().with(worker, 0, 1)
    }

    /// With one more worker: its units before the next worker's turn comes, and its share afterwards
    /// (at least 1).
    #[must_use]
    pub fn with(mut self, worker: impl Worker + 'static, head_start: u64, share: u64) -> Self {
        self.hands.push(Hand {
            worker: Box::new(worker),
            head_start,
            share: share.max(1),
            spent: 0,
            done: false,
        });
        self
    }

    /// One slice of the worker whose turn it is; `None` when all are done.
    pub(super) fn turn(&mut self, units: u64, known: &Known) -> Option<Found> {
        let waiting = || self.hands.iter().enumerate().filter(|(_, hand)| !hand.done);
        let (next, _) = waiting()
            .find(|(_, hand)| hand.spent < hand.head_start)
            .or_else(|| waiting().min_by_key(|(i, hand)| (hand.had(), *i)))?;
        let hand = self.hands.get_mut(next)?;
        let found = hand.worker.slice(units, known);
        hand.spent += units;
        hand.done = found.done;
        Some(found)
    }
}
