//! Lengths of time on a clock, and the hours of an activity, as the search reads them.

use crate::calendar::Calendar;
use crate::problem::{Activity, Clock, End, Moment, Problem, Tick};

/// Later than any moment that can be planned.
pub(crate) const NEVER: Tick = 1 << 29;

/// A moment kept within what can be added to without overflow.
fn clamp(t: Tick) -> Tick {
    t.clamp(-NEVER, NEVER)
}

/// The calendar of a clock; `None` when every tick counts.
pub(crate) fn of_clock(problem: &Problem, clock: Clock) -> Option<&Calendar> {
    match clock {
        Clock::Elapsed => None,
        Clock::On(id) => problem.calendars.get(id.index()),
    }
}

/// The earliest moment at least `min` after `a`.
pub(crate) fn at_least_after(calendar: Option<&Calendar>, a: Tick, min: Tick) -> Tick {
    match calendar {
        None => clamp(a.saturating_add(min)),
        Some(calendar) => calendar.add(a, min).unwrap_or(NEVER),
    }
}

/// The latest moment at most `max` after `a`.
pub(crate) fn at_most_after(calendar: Option<&Calendar>, a: Tick, max: Tick) -> Tick {
    match calendar {
        None => clamp(a.saturating_add(max)),
        Some(calendar) => match calendar.end_of(calendar.worked_by(a).saturating_add(max + 1)) {
            Some(end) => end - 1,
            None => NEVER,
        },
    }
}

/// The earliest moment from which at most `max` passes until `b`.
pub(crate) fn at_most_before(calendar: Option<&Calendar>, b: Tick, max: Tick) -> Tick {
    match calendar {
        None => clamp(b.saturating_sub(max)),
        Some(calendar) => calendar
            .end_of(calendar.worked_by(b) - max)
            .unwrap_or(-NEVER),
    }
}

/// The latest moment from which at least `min` passes until `b`.
pub(crate) fn at_least_before(calendar: Option<&Calendar>, b: Tick, min: Tick) -> Tick {
    match calendar {
        None => clamp(b.saturating_sub(min)),
        Some(calendar) => calendar.back(b, min).unwrap_or(-NEVER),
    }
}

/// The hours an activity is worked in.
#[derive(Clone, Copy)]
pub(crate) struct Work<'a> {
    pub(crate) calendar: Option<&'a Calendar>,
    pub(crate) work: Tick,
    pub(crate) unbroken: bool,
}

impl<'a> Work<'a> {
    pub(crate) fn of(problem: &'a Problem, activity: &Activity) -> Self {
        let calendar = activity
            .calendar
            .and_then(|id| problem.calendars.get(id.index()));
        let unbroken = activity.unbroken && activity.work > 0;
        Self {
            calendar,
            work: activity.work,
            unbroken,
        }
    }

    /// The end of work begun at `start`; [`NEVER`] when the calendar ends first.
    pub(crate) fn finish(self, start: Tick) -> Tick {
        at_least_after(self.calendar, start, self.work)
    }

    /// The earliest start at or after `t`; [`NEVER`] when there is none.
    pub(crate) fn first_start(self, t: Tick) -> Tick {
        let Some(calendar) = self.calendar else {
            return clamp(t);
        };
        let Some(mut start) = calendar.next_working(t) else {
            return NEVER;
        };
        if !self.unbroken {
            return start;
        }
        loop {
            let Some((_, end)) = calendar.shift_of(start) else {
                return NEVER;
            };
            if self.finish(start) <= end {
                return start;
            }
            match calendar.next_working(end) {
                Some(next) => start = next,
                None => return NEVER,
            }
        }
    }

    /// The earliest start whose finish is at or after `t`.
    pub(crate) fn first_start_to_finish(self, t: Tick) -> Tick {
        let from = match self.calendar {
            None => clamp(t.saturating_sub(self.work)),
            Some(_) if self.work <= 0 => t,
            Some(calendar) => {
                let count = calendar.worked_by(t - 1) - (self.work - 1);
                calendar.end_of(count).unwrap_or(-NEVER)
            }
        };
        self.first_start(from)
    }

    /// The latest start at or before `t`; minus [`NEVER`] when there is none.
    pub(crate) fn last_start(self, t: Tick) -> Tick {
        let Some(calendar) = self.calendar else {
            return clamp(t);
        };
        let Some(mut start) = calendar.previous_working(t.saturating_add(1)) else {
            return -NEVER;
        };
        if !self.unbroken {
            return start;
        }
        let mut span = calendar.shift_of(start);
        while let Some((from, until)) = span {
            let fit = calendar.back(until, self.work).unwrap_or(-NEVER);
            if fit >= from {
                return fit.min(start);
            }
            span = calendar.shift_before(from);
            start = span.map_or(-NEVER, |span| span.1 - 1);
        }
        -NEVER
    }

    /// The latest start whose finish is at or before `t`.
    pub(crate) fn last_start_to_finish(self, t: Tick) -> Tick {
        self.last_start(if self.work <= 0 {
            t
        } else {
            at_least_before(self.calendar, t, self.work)
        })
    }

    /// The earliest start at which the given end lies at or after `t`.
    pub(crate) fn first_start_for(self, end: End, t: Tick) -> Tick {
        match end {
            End::Start => self.first_start(t),
            End::Finish => self.first_start_to_finish(t),
        }
    }

    /// The latest start at which the given end lies at or before `t`.
    pub(crate) fn last_start_for(self, end: End, t: Tick) -> Tick {
        match end {
            End::Start => self.last_start(t),
            End::Finish => self.last_start_to_finish(t),
        }
    }

    /// The stretch of presence that begins with the first worked tick at or after `t`, cut to
    /// `until`; `None` when nothing is worked in between.
    pub(crate) fn stretch(self, t: Tick, until: Tick) -> Option<(Tick, Tick)> {
        let (from, end) = match self.calendar {
            None => (t, until),
            Some(calendar) => {
                let from = calendar.next_working(t)?;
                (from, calendar.stretch_end(from).unwrap_or(until).min(until))
            }
        };
        (from < until).then_some((from, end))
    }
}

/// A moment relative to an activity's ends; [`NEVER`] when its calendar ends first.
pub(crate) fn moment(problem: &Problem, moment: Moment, start: Tick, finish: Tick) -> Tick {
    let end = match moment.end {
        End::Start => start,
        End::Finish => finish,
    };
    at_least_after(of_clock(problem, moment.clock), end, moment.after)
}

/// The earliest start at which a moment of the activity lies at or after `t`.
pub(crate) fn first_start_for_moment(
    problem: &Problem,
    work: Work,
    moment: Moment,
    t: Tick,
) -> Tick {
    let end = match of_clock(problem, moment.clock) {
        None => clamp(t.saturating_sub(moment.after)),
        Some(_) if moment.after <= 0 => t,
        Some(calendar) => {
            let count = calendar.worked_by(t - 1) - (moment.after - 1);
            calendar.end_of(count).unwrap_or(-NEVER)
        }
    };
    work.first_start_for(moment.end, end)
}
