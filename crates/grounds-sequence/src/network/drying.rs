//! What a calendar stands for on which drying is counted.

use grounds_model::Dries;
use grounds_schedule::Tick;

use crate::air::{self, Air};

/// The air that a coat dries in, and the air that its waits are given for.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Drying {
    pub(crate) dries: Dries,
    /// The air of the place, in stretches that leave no time out.
    pub(crate) airs: Vec<(Tick, Tick, Air)>,
}

impl Drying {
    /// The least of a wait, in the best of airs; rounded up.
    pub(crate) fn least(wait: Tick, dries: Option<Dries>) -> Tick {
        let share = i64::from(dries.map_or(10_000, air::least_share));
        let least = (i64::from(wait) * share + 9_999) / 10_000;
        Tick::try_from(least).unwrap_or(Tick::MAX)
    }

    /// The wait as it was given, from the least of it.
    pub(crate) fn given(&self, least: Tick) -> Tick {
        let share = i64::from(air::least_share(self.dries));
        Tick::try_from(i64::from(least) * 10_000 / share).unwrap_or(Tick::MAX)
    }

    /// The air that is known between two moments, in order, each from when.
    pub(crate) fn between(&self, from: Tick, until: Tick) -> Vec<(Tick, Air)> {
        let known = |air: &Air| air.temperature.is_some() && air.humidity.is_some();
        let mut found: Vec<(Tick, Air)> = Vec::new();
        for (start, end, air) in &self.airs {
            let here = *start < until && from < *end && known(air);
            if here && found.iter().all(|(_, other)| other != air) {
                found.push((from.max(*start), *air));
            }
        }
        found
    }
}
