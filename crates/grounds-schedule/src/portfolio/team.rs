//! Who searches, by the structure of the problem.

use std::num::NonZeroUsize;
use std::sync::Arc;

use super::lane::Lane;
use crate::exact::Exact;
use crate::plain::Core;
use crate::plain::population::Population;
use crate::plain::precedence::Precedence;

/// Lanes that search at the same time.
#[derive(Default)]
pub struct Team {
    pub(super) lanes: Vec<Lane>,
}

impl Team {
    /// A team of these lanes.
    #[must_use]
    pub fn of(lanes: Vec<Lane>) -> Self {
        Self { lanes }
    }

    /// The team that suits a problem.
    #[must_use]
    pub fn suited(core: &Arc<Core>, lanes: NonZeroUsize, seed: u64) -> Self {
        let seeds = |lane: usize| seed.wrapping_add(lane as u64);
        if core.resources() > 4 || Precedence::of(core.count(), &core.waits).is_none() {
            return Self::of(
                (0..lanes.get())
                    .map(|lane| match lane % 2 {
                        0 => Lane::of(Exact::from_above(core)),
                        _ => Lane::of(Exact::from_below(core)),
                    })
                    .collect(),
            );
        }
        let lane = |lane: usize| match lane {
            0 if lanes.get() == 1 => Lane::default()
                .with(Population::new(core, seeds(lane)), 100_000, 1)
                .with(Exact::from_above(core), 500_000, 1),
            1 => Lane::of(Exact::from_above(core)),
            _ => Lane::of(Population::new(core, seeds(lane))),
        };
        Self::of((0..lanes.get()).map(lane).collect())
    }
}
