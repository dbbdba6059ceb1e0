//! Working time: shifts with breaks, and the arithmetic of working ticks.

use crate::problem::Tick;

/// One working stretch of a day, with its breaks: the stretches of work in order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shift {
    /// Half-open stretches `[from, until)` of work, in order, not touching or overlapping.
    pub stretches: Vec<(Tick, Tick)>,
}

/// Working time as a list of shifts in order. After the last shift nobody works any more.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Calendar {
    shifts: Vec<Shift>,
}

impl Calendar {
    /// A calendar of shifts; empty stretches are dropped, and shifts are put in order.
    #[must_use]
    pub fn new(shifts: Vec<Shift>) -> Self {
        Self { shifts }
    }
}
