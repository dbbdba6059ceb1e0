//! What all lanes know together.

use std::sync::{Mutex, MutexGuard, PoisonError};

use super::{Check, Outcome};
use crate::plain::{Core, Found, Known};
use crate::problem::Tick;

/// The best plan and bound so far; plans are checked before they are put up.
pub(super) struct Board<'a> {
    core: &'a Core,
    check: Check<'a>,
    state: Mutex<State>,
}

struct State {
    known: Known,
    impossible: bool,
    refused: u32,
}

impl<'a> Board<'a> {
    pub(super) fn new(core: &'a Core, check: Check<'a>, bound: Tick) -> Self {
        let known = Known { best: None, bound };
        let state = State {
            known,
            impossible: false,
            refused: 0,
        };
        Self {
            core,
            check,
            state: Mutex::new(state),
        }
    }

    /// A copy of what is known.
    pub(super) fn known(&self) -> Known {
        self.state().known.clone()
    }

    /// Whether nothing is left to look for.
    pub(super) fn over(&self) -> bool {
        let state = self.state();
        state.impossible || state.known.settled()
    }

    /// Takes in what a slice has brought.
    pub(super) fn hear(&self, found: Found) {
        if let Some(starts) = found.starts {
            self.offer(&starts);
        }
        let mut state = self.state();
        let finish = state.known.best.as_ref().map(|(_, finish)| *finish);
        if let Some(bound) = found.bound {
            if finish.is_some_and(|finish| bound > finish) {
                state.refused += 1;
            } else {
                state.known.bound = state.known.bound.max(bound);
            }
        }
        match finish {
            Some(_) if found.impossible => state.refused += 1,
            _ => state.impossible |= found.impossible,
        }
    }

    /// Puts a plan up if it is better than the best so far and obeys everything.
    fn offer(&self, starts: &[Tick]) {
        if starts.len() != self.core.count() {
            self.state().refused += 1;
            return;
        }
        let finish = self.core.finish(starts);
        let better = |state: &State| {
            let best = state.known.best.as_ref();
            best.is_none_or(|(_, best)| finish < *best)
        };
        if !better(&self.state()) {
            return;
        }
        // Others may go on while the plan is checked.
        let holds = (self.check)(starts);
        let mut state = self.state();
        if !holds || state.known.bound > finish || state.impossible {
            state.refused += 1;
        }
        if holds && better(&state) {
            state.known.best = Some((starts.into(), finish));
            // A plan that was checked is proof that a bound above it was a mistake.
            state.known.bound = state.known.bound.min(finish);
            state.impossible = false;
        }
    }

    /// What has been found.
    pub(super) fn outcome(&self) -> Outcome {
        let state = self.state();
        let best = state.known.best.clone();
        Outcome {
            finish: best.as_ref().map(|(_, finish)| *finish),
            starts: best.map(|(starts, _)| starts),
            bound: state.known.bound,
            impossible: state.impossible,
            refused: state.refused,
        }
    }

    fn state(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
