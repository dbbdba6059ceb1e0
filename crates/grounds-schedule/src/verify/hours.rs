//! A plain reading of working time: it walks the shifts and counts. Slower than [`Calendar`]'s own
//! arithmetic and sharing none of it, so that the two check each other.

use crate::calendar::Shift;
use crate::problem::{CalendarId, Clock, Problem, Tick};

/// The hours of one calendar, or of a clock that never stops.
#[derive(Clone, Copy)]
pub(super) struct Hours<'a> {
    /// `None`: every tick counts.
    shifts: Option<&'a [Shift]>,
}

impl<'a> Hours<'a> {
    /// The hours that work runs on.
    pub(super) fn of(problem: &'a Problem, calendar: Option<CalendarId>) -> Self {
        let shifts = |id: CalendarId| {
            problem
                .calendars
                .get(id.index())
                .map_or(&[][..], |c| c.shifts())
        };
        Self {
            shifts: calendar.map(shifts),
        }
    }

    /// The hours that a length of time is counted on.
    pub(super) fn on(problem: &'a Problem, clock: Clock) -> Self {
        match clock {
            Clock::Elapsed => Self { shifts: None },
            Clock::On(calendar) => Self::of(problem, Some(calendar)),
        }
    }

    /// Stretches of work that end after `t`, in order.
    fn stretches_after(self, t: Tick) -> impl Iterator<Item = (Tick, Tick)> + 'a {
        let shifts = self.shifts.unwrap_or(&[]);
        let ended = |shift: &Shift| shift.stretches.last().is_none_or(|last| last.1 <= t);
        let first = shifts.partition_point(ended);
        shifts[first..]
            .iter()
            .flat_map(|s| s.stretches.iter().copied())
            .filter(move |s| s.1 > t)
    }

    /// Worked ticks in `[a, b)`.
    pub(super) fn worked(self, a: Tick, b: Tick) -> i64 {
        if b <= a {
            return 0;
        }
        if self.shifts.is_none() {
            return i64::from(b) - i64::from(a);
        }
        self.stretches_after(a)
            .take_while(|&(from, _)| from < b)
            .map(|(from, until)| i64::from(until.min(b)) - i64::from(from.max(a)))
            .sum()
    }

    /// Whether the tick that begins at `t` is worked.
    pub(super) fn is_worked(self, t: Tick) -> bool {
        self.first_worked(t) == Some(t)
    }

    /// The first worked tick at or after `t`.
    pub(super) fn first_worked(self, t: Tick) -> Option<Tick> {
        if self.shifts.is_none() {
            return Some(t);
        }
        self.stretches_after(t).next().map(|(from, _)| from.max(t))
    }

    /// The moment at which `ticks` have been counted from `t` on.
    pub(super) fn count_on(self, t: Tick, ticks: Tick) -> Option<Tick> {
        if ticks <= 0 {
            return Some(t);
        }
        if self.shifts.is_none() {
            return t.checked_add(ticks);
        }
        let mut left = ticks;
        for (from, until) in self.stretches_after(t) {
            let from = from.max(t);
            if left <= until - from {
                return Some(from + left);
            }
            left -= until - from;
        }
        None
    }

    /// The latest worked tick before `t`.
    pub(super) fn last_worked_before(self, t: Tick) -> Option<Tick> {
        let Some(shifts) = self.shifts else {
            return t.checked_sub(1);
        };
        let begun = |shift: &Shift| shift.stretches.first().is_some_and(|first| first.0 < t);
        let shift = shifts[..shifts.partition_point(begun)].last()?;
        let stretch = shift.stretches.iter().rfind(|stretch| stretch.0 < t)?;
        Some(stretch.1.min(t) - 1)
    }

    /// Whether one shift holds all of `[s, f)`; always so on hours that never stop.
    pub(super) fn one_shift_holds(self, s: Tick, f: Tick) -> bool {
        let Some(shifts) = self.shifts else {
            return true;
        };
        let ended = |shift: &Shift| shift.stretches.last().is_none_or(|last| last.1 <= s);
        let Some(shift) = shifts.get(shifts.partition_point(ended)) else {
            return false;
        };
        shift.stretches.first().is_some_and(|first| first.0 <= s)
            && shift.stretches.last().is_some_and(|last| f <= last.1)
    }

    /// The latest moment before `t` at which `work` ticks could begin and end within one shift.
    pub(super) fn last_fit_before(self, t: Tick, work: Tick) -> Option<Tick> {
        let Some(shifts) = self.shifts else {
            return t.checked_sub(1);
        };
        let begun = |shift: &Shift| shift.stretches.first().is_some_and(|first| first.0 < t);
        let candidates = shifts[..shifts.partition_point(begun)].iter().rev();
        candidates
            .filter_map(|shift| last_fit(shift, t, work))
            .next()
    }
}

/// The latest worked tick of a shift, before `t`, from which the shift still holds `work` ticks.
fn last_fit(shift: &Shift, t: Tick, work: Tick) -> Option<Tick> {
    let mut left = work;
    for &(from, until) in shift.stretches.iter().rev() {
        let latest = if left > until - from {
            None
        } else {
            Some(until - left.max(1))
        };
        if let Some(latest) = latest {
            let start = latest.min(t - 1);
            if start >= from {
                return Some(start);
            }
            left = 1;
        } else {
            left -= until - from;
        }
    }
    None
}
