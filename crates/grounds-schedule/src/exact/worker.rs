//! The engine as a worker among others.

use super::engine::{Engine, Step, Style};
use super::prepare::Prepared;
use crate::plain::{Core, Found, Known, Worker};
use crate::problem::Tick;

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
}

impl Exact {
    /// Looks for ever better plans, until it has proved that there is none.
    #[must_use]
    pub fn from_above(core: &Core) -> Self {
        Self::tuned(core, "a")
    }

    /// Raises the bound, until there is a plan that meets it.
    #[must_use]
    pub fn from_below(core: &Core) -> Self {
        Self::tuned(core, "b")
    }

    /// To measure.
    #[must_use]
    pub fn tuned(core: &Core, knobs: &str) -> Self {
        let mut knobs = knobs.split(':');
        let side = if knobs.next() == Some("b") {
            Side::Below
        } else {
            Side::Above
        };
        let mut style = Style {
            in_time: 200,
            every: 0,
            guided: side == Side::Below,
            decay: 0.95,
            room: 4000,
            restart: 100,
            bump_all: true,
            depth: 12,
            with_pairs: true,
            energy: false,
        };
        for knob in knobs {
            let (name, value) = knob.split_at(1);
            let n: f64 = value.parse().unwrap_or(0.0);
            match name {
                "t" => style.in_time = n as u64,
                "e" => style.every = n as u64,
                "g" => style.guided = n > 0.0,
                "d" => style.decay = n,
                "r" => style.room = n as usize,
                "l" => style.restart = n as u64,
                "b" => style.bump_all = n > 0.0,
                "m" => style.depth = n as usize,
                "p" => style.with_pairs = n > 0.0,
                "n" => style.energy = n > 0.0,
                _ => {}
            }
        }
        Self::new(core, side, style)
    }

    pub(super) const ANY_PLAN: Style = Style {
        in_time: 0,
        every: 2,
        guided: false,
        decay: 0.95,
        room: 4000,
        restart: 50,
        bump_all: true,
        depth: 12,
        with_pairs: true,
        energy: false,
    };
    pub(super) const WINDOW: Style = Style {
        in_time: 0,
        every: 0,
        guided: true,
        decay: 0.95,
        room: 4000,
        restart: 100,
        bump_all: true,
        depth: 12,
        with_pairs: true,
        energy: false,
    };

    pub(super) fn with(prepared: &Prepared, style: Style, _seed: u64) -> Self {
        Self {
            engine: Engine::new(prepared, style),
            side: Side::Above,
            cutoff: None,
        }
    }

    fn new(core: &Core, side: Side, style: Style) -> Self {
        Self {
            engine: Engine::new(&Prepared::of(core), style),
            side,
            cutoff: None,
        }
    }

    /// How many conflicts it has learnt from, and how many units it has worked.
    #[must_use]
    pub fn effort(&self) -> (u64, u64) {
        (self.engine.conflicts(), self.engine.units())
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
}

impl Worker for Exact {
    fn slice(&mut self, units: u64, known: &Known) -> Found {
        self.hear(known);
        let until = self.engine.units() + units;
        let mut found = Found::default();
        loop {
            if self.side == Side::Below {
                self.engine.aim(Some(self.engine.bound()));
            }
            let left = until.saturating_sub(self.engine.units());
            match self.engine.run(left) {
                Step::Paused => break,
                Step::Refuted => {}
                Step::Plan(starts) => {
                    found.starts = Some(starts);
                    break;
                }
                Step::Nothing => {
                    found.done = true;
                    found.bound = self.cutoff;
                    found.impossible = self.cutoff.is_none();
                    return found;
                }
            }
        }
        let bound = self.engine.bound();
        let bound = self.cutoff.map_or(bound, |cutoff| bound.min(cutoff));
        found.bound = (bound > known.bound).then_some(bound);
        found
    }
}
