//! What time it is on site.

use std::time::Instant;

use jiff::{SignedDuration, Timestamp};

/// What time it is on site: the real time, or the time of a demo that goes on from its own day.
#[derive(Clone, Copy, Debug)]
pub(crate) enum SiteClock {
    /// The computer's clock.
    Real,
    /// A moment, and when it was that.
    From(Timestamp, Instant),
}

impl SiteClock {
    /// A clock that shows `at` now and goes on from there.
    pub(crate) fn from(at: Timestamp) -> Self {
        Self::From(at, Instant::now())
    }

    /// The time on site.
    pub(crate) fn now(&self) -> Timestamp {
        match self {
            Self::Real => Timestamp::now(),
            Self::From(at, since) => SignedDuration::try_from(since.elapsed())
                .ok()
                .and_then(|passed| at.checked_add(passed).ok())
                .unwrap_or(*at),
        }
    }
}
