//! The search on an instance so small that a moment is enough.

use std::num::NonZeroU8;
use std::time::Duration;

use grounds_bench::instance::Instance;
use grounds_bench::race::{Limits, Outcome, race};
use grounds_schedule::Faulty;

/// What a short search by one thread finds.
pub(crate) fn raced(instance: &Instance) -> Result<Outcome, Faulty> {
    let limits = Limits {
        time: Duration::from_millis(50),
        threads: NonZeroU8::MIN,
    };
    race(instance, limits)
}
