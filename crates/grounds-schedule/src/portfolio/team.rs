//! Who searches, by the structure of the problem.

use std::num::NonZeroUsize;
use std::sync::Arc;

use super::lane::Lane;
use crate::exact::{Exact, Windows};
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

    /// The team that suits a problem: lists and proof where waits run in no circle, proof and windows
    /// where they do. Two lanes of lists are two populations that only hear of each other's best plans.
    #[must_use]
    pub fn suited(core: &Arc<Core>, lanes: NonZeroUsize, seed: u64) -> Self {
        let lists = Precedence::of(core.count(), &core.waits).is_some();
        let one_at_a_time = core.capacities.iter().all(|&capacity| capacity == 1);
        let near = core.count() <= NEAR || one_at_a_time;
        let lane = |number: usize| {
            let seed = seed.wrapping_add(number as u64);
            match (lists, number) {
                (true, 0) if lanes.get() == 1 => Lane::default()
                    .with(Population::new(core, seed), LOOK, 2)
                    .with(Exact::from_above(core), PROOF, 1)
                    .with(Windows::new(core, seed), 0, 1),
                (false, 0) if lanes.get() == 1 => Lane::default()
                    .with(Exact::from_above(core), PROOF, 1)
                    .with(Windows::new(core, seed), 0, 1),
                (true, 0) if core.count() <= FEW => Lane::default()
                    .with(Population::new(core, seed), LOOK, 1)
                    .with(Exact::from_below(core), 0, 15),
                (true, 1) if core.count() <= FEW => Lane::of(Exact::from_above(core)),
                (true, 1) if near => Lane::default()
                    .with(Exact::from_above(core), PROOF, 1)
                    .with(Windows::new(core, seed), 0, 1),
                (true, 1) => Lane::default()
                    .with(Exact::from_above(core), EASY_PROOF, 1)
                    .with(Population::new(core, seed), 0, 15),
                (false, 0) => Lane::of(Exact::from_above(core)),
                (false, 2) => Lane::of(Exact::from_below(core)),
                (true, _) => Lane::of(Population::new(core, seed)),
                (false, _) => Lane::of(Windows::new(core, seed)),
            }
        };
        Self::of((0..lanes.get()).map(lane).collect())
    }
}

/// Up to so many activities a proof that takes some time is likely to come; with more of them it comes
/// at once or, mostly, in no time that anybody waits. Where every resource takes one at a time, as in
/// job shops, it comes with more of them too.
const NEAR: usize = 80;

/// Up to so many activities proof from below meets proof from above in time, and the last lists would
/// have found come with it.
const FEW: usize = 40;

/// Units until lists have found a plan worth proving.
const LOOK: u64 = 50_000;

/// Units after which a proof that has not come is unlikely to come soon.
const PROOF: u64 = 2_000_000;

/// The same where there are many activities.
const EASY_PROOF: u64 = 400_000;
