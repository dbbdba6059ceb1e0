//! The engine as a worker among others.

use super::engine::{Engine, Step, Style};
use super::prepare::Prepared;
use crate::plain::{Core, Found, Known, Worker};
use crate::problem::Tick;

/// In the order of time at first, then where it conflicts.
const FROM_ABOVE: Style = Style {
    in_time: 200,
    every: 0,
    guided: false,
    restart: 100,
};

/// The same, near the best plan.
const FROM_BELOW: Style = Style {
    guided: true,
    ..FROM_ABOVE
};

/// Units for which a long stride is tried.
const PATIENCE: u64 = 200_000;

/// From which side the best makespan is closed in on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Side {
    /// Better plans, until there is none.
    Above,
    /// Plans that meet the bound; as long as there is none, the bound rises.
    Below,
}

/// Exact search: it ends with a best plan and the proof, or with the proof that there is none.
#[derive(Clone, Debug)]
pub struct Exact {
    engine: Engine,
    side: Side,
    cutoff: Option<Tick>,
    /// From above: so much better than the last the next plan must be,
    stride: Tick,
    /// if it is found before so many units are worked.
    until: u64,
}

impl Exact {
    /// Looks for ever better plans, until it has proved that there is none.
    #[must_use]
    pub fn from_above(core: &Core) -> Self {
        Self::new(&Prepared::of(core), Side::Above, FROM_ABOVE)
    }

    /// Raises the bound, until there is a plan that meets it. Where no plan is known, and whether there
    /// is any, it cannot tell before the bound has risen to all that time allows.
    #[must_use]
    pub fn from_below(core: &Core) -> Self {
        Self::new(&Prepared::of(core), Side::Below, FROM_BELOW)
    }

    /// Looks for plans in a way of its own.
    pub(super) fn styled(prepared: &Prepared, style: Style) -> Self {
        Self::new(prepared, Side::Above, style)
    }

    fn new(prepared: &Prepared, side: Side, style: Style) -> Self {
        Self {
            engine: Engine::new(prepared, style),
            side,
            cutoff: None,
            stride: 1,
            until: 0,
        }
    }

    fn hear(&mut self, known: &Known) {
        self.engine.know_bound(known.bound);
        if let Some((starts, finish)) = &known.best
            && self.cutoff.is_none_or(|cutoff| *finish < cutoff)
        {
            self.engine.cut(*finish);
            self.engine.guide(starts);
            self.cutoff = Some(*finish);
        }
    }

    /// The finish that is aimed at, if it is not just any better one.
    fn target(&mut self) -> Option<Tick> {
        if self.side == Side::Below {
            return Some(self.engine.bound());
        }
        if self.engine.units() >= self.until {
            self.stride = 1;
        }
        let cutoff = self.cutoff.filter(|_| self.stride > 1)?;
        Some((cutoff - self.stride).max(self.engine.bound()))
    }

    /// The bound as far as it is proved: beyond the plan that is known, none was looked for.
    fn bound(&self) -> Tick {
        let bound = self.engine.bound();
        self.cutoff.map_or(bound, |cutoff| bound.min(cutoff))
    }
}

impl Worker for Exact {
    fn slice(&mut self, units: u64, known: &Known) -> Found {
        self.hear(known);
        let until = self.engine.units() + units;
        let mut found = Found::default();
        loop {
            let target = self.target();
            self.engine.aim(target);
            let left = until.saturating_sub(self.engine.units());
            match self.engine.run(left) {
                Step::Paused => break,
                Step::Refuted => self.stride = 1,
                Step::Plan(starts) => {
                    found.starts = Some(starts);
                    self.stride = self.stride.saturating_mul(2);
                    self.until = self.engine.units() + PATIENCE;
                    break;
                }
                Step::Nothing => {
                    found.done = true;
                    found.impossible = self.cutoff.is_none();
                    found.bound = self.cutoff;
                    return found;
                }
            }
        }
        found.bound = Some(self.bound()).filter(|bound| *bound > known.bound);
        found
    }
}
