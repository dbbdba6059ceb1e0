//! Searches that share what they find.

use std::sync::Arc;

use crate::problem::Tick;

/// What all workers on one problem know together.
#[derive(Clone, Debug)]
pub struct Known {
    /// Starts of the best plan so far, and its last finish.
    pub best: Option<(Arc<[Tick]>, Tick)>,
    /// No plan ends before this.
    pub bound: Tick,
}

impl Known {
    /// Whether nothing is left to look for.
    #[must_use]
    pub fn settled(&self) -> bool {
        self.best
            .as_ref()
            .is_some_and(|(_, finish)| *finish <= self.bound)
    }
}

/// What one slice of work has brought.
#[derive(Clone, Debug, Default)]
pub struct Found {
    /// Starts of a plan that ends earlier than the one known.
    pub starts: Option<Vec<Tick>>,
    /// A proof that no plan ends before this.
    pub bound: Option<Tick>,
    /// A proof that there is no plan at all.
    pub impossible: bool,
    /// This worker has nothing left to try.
    pub done: bool,
}

/// One way of searching a plain problem, done in slices so that several can share what they find.
///
/// What a slice does depends on its arguments and on what the worker did before, never on a clock.
pub trait Worker: Send {
    /// Searches on for about `units` of work: one unit is about as much as placing one activity once
    /// (some hundred nanoseconds), so that slices of different workers take about as long.
    fn slice(&mut self, units: u64, known: &Known) -> Found;
}
