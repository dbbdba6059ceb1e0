//! The search on an instance so small that a moment is enough.

use std::num::NonZeroUsize;

use grounds_bench::instance::Instance;
use grounds_bench::race::{Limits, Outcome, Stop, race};
use grounds_schedule::Faulty;

/// What a short search by one thread finds.
pub(crate) fn raced(instance: &Instance) -> Result<Outcome, Faulty> {
    let limits = Limits {
        stop: Stop::Counted(400_000),
        lanes: NonZeroUsize::MIN,
        seed: 1,
    };
    race(instance, limits)
}
