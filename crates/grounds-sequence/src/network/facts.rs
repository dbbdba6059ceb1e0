//! What is already true of work, in ticks.

use grounds_schedule::{CalendarId, Fact, Tick};
use grounds_site::{Seen, State};

use super::builder::Builder;

impl Builder<'_> {
    /// The tick of something seen, never after now.
    pub(super) fn seen(&self, seen: Seen) -> Tick {
        self.clock.floor(seen.at).min(self.problem.now)
    }

    /// Over since a moment, with its beginning where that was noted.
    pub(super) fn done_fact(&self, state: &State, done: Seen, work: Tick) -> Fact {
        let until = self.clock.ceil(done.at).min(self.problem.now);
        let from = state
            .started
            .map_or(until - work, |seen| self.seen(seen))
            .min(until);
        Fact::Done { from, until }
    }

    /// In hand since `at`, `share` (0–1) of the work being done at tick `told`.
    pub(super) fn begun_fact(
        &self,
        at: Tick,
        share: f64,
        told: Tick,
        work: Tick,
        calendar: CalendarId,
    ) -> Fact {
        let since = self.problem.calendars[calendar.index()].between(told, self.problem.now);
        #[allow(clippy::cast_possible_truncation)]
        let left_then = (f64::from(work) * (1.0 - share)).ceil() as Tick;
        Fact::Begun {
            at: at.min(self.problem.now),
            left: (left_then - since).max(1),
        }
    }
}
