//! What is uncertain about a problem.

use crate::problem::{ActivityId, Clock, DateId, LagId, Tick};

/// Low, likely and high, in ticks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ThreePoint {
    /// The least it can be.
    pub low: Tick,
    /// The most likely.
    pub likely: Tick,
    /// The most it can be.
    pub high: Tick,
}

impl ThreePoint {
    /// In order: what is out of order is moved to the likely value.
    pub(crate) fn ordered(self) -> Self {
        Self {
            low: self.low.min(self.likely),
            likely: self.likely,
            high: self.high.max(self.likely),
        }
    }
}

/// Something of a problem that may come out otherwise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Amount {
    /// The work of an activity; of begun work, what is left of it.
    Work(ActivityId),
    /// The least wait of a lag.
    Wait(LagId),
    /// A date that an activity may not begin before.
    Date(DateId),
}

/// One thing that chance decides, with everything that follows from it: all its effects are early
/// together or late together.
#[derive(Clone, Debug, PartialEq)]
pub struct Source {
    /// What it moves, and between which bounds.
    pub effects: Vec<(Amount, ThreePoint)>,
    /// The common factor that it shares with others, by number: one slow plasterer is slow
    /// everywhere.
    pub common: Option<u32>,
    /// How much of it is the common factor's, 0 to 1: the correlation of the normal scores of any
    /// two sources of one factor (a Gaussian copula).
    pub share: f64,
}

/// An activity that may have to be done again: a test that fails is put right and tried again, and
/// may fail again.
#[derive(Clone, Debug, PartialEq)]
pub struct Repeat {
    /// What may fail.
    pub activity: ActivityId,
    /// The chance of a fail, each time; kept between 0 and 0.95.
    pub chance: f64,
    /// What each fail costs, one after the other from the finish on: lengths of time, and what they
    /// are counted on. No crew is taken for it: fails are taken to be put right between other work.
    pub steps: Vec<(Tick, Clock)>,
}

/// Times in which weather may stop work.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Weather {
    /// The work that it stops.
    pub activities: Vec<ActivityId>,
    /// Times, in order and not overlapping, each lost with its own chance. Shifts are lost whole:
    /// the time that a shift begins in decides.
    pub spells: Vec<Spell>,
}

/// A time that may be lost to weather.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spell {
    /// From when.
    pub from: Tick,
    /// Until when.
    pub until: Tick,
    /// The chance, 0 to 1.
    pub chance: f64,
}

/// All that is uncertain. An empty one is certainty.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Uncertainty {
    /// What is drawn between low and high.
    pub sources: Vec<Source>,
    /// What may have to be done again.
    pub repeats: Vec<Repeat>,
    /// What weather may stop.
    pub weather: Weather,
}
