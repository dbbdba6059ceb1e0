//! Who searches, by the structure of the problem.

use std::num::NonZeroUsize;
use std::sync::Arc;

use super::lane::Lane;
use crate::plain::Core;

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
    pub fn suited(_core: &Arc<Core>, _lanes: NonZeroUsize, _seed: u64) -> Self {
        Self::default()
    }
}
