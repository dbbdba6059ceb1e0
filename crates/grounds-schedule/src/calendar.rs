//! Working time: shifts with breaks, and the arithmetic of working ticks.

use std::sync::Arc;

use crate::problem::Tick;

/// One working stretch of a day, with its breaks: the stretches of work in order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shift {
    /// Half-open stretches `[from, until)` of work, in order, not touching or overlapping.
    pub stretches: Vec<(Tick, Tick)>,
}

impl Shift {
    /// A shift without a break.
    #[must_use]
    pub fn plain(from: Tick, until: Tick) -> Self {
        Self {
            stretches: vec![(from, until)],
        }
    }
}

/// Working time as a list of shifts in order. After the last shift nobody works any more.
///
/// Every question is answered without allocating, in constant time for calendars that repeat from
/// week to week: two coarse indexes, one over time and one over work done, lead to the stretch.
///
/// A clone shares its memory with the original.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Calendar(Arc<Hours>);

/// The hours of a calendar.
#[derive(Debug, Default, PartialEq, Eq)]
struct Hours {
    shifts: Vec<Shift>,
    stretches: Vec<Stretch>,
    spans: Vec<(Tick, Tick)>,
    total: Tick,
    longest_shift: Tick,
    by_time: Buckets,
    by_work: Buckets,
}

/// One stretch of work, with all that came before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Stretch {
    from: Tick,
    until: Tick,
    /// Working ticks of all earlier stretches.
    before: Tick,
    /// The shift it belongs to.
    shift: u32,
}

/// Ticks beyond this on either side are cut off, so that sums never overflow: 1,900 years.
pub(crate) const FARTHEST: Tick = 1 << 26;

impl Calendar {
    /// A calendar of shifts.
    ///
    /// Empty stretches are dropped; stretches of a shift that touch or overlap are joined; shifts
    /// are put in order, and where a shift begins before an earlier one has ended, it begins when
    /// that one ends. Time more than 1,900 years from the origin is cut off.
    #[must_use]
    pub fn new(shifts: Vec<Shift>) -> Self {
        let shifts = in_order(shifts);
        let mut stretches = Vec::new();
        let mut spans = Vec::with_capacity(shifts.len());
        let mut total = 0;
        for (number, shift) in shifts.iter().enumerate() {
            for &(from, until) in &shift.stretches {
                let shift = u32::try_from(number).unwrap_or(u32::MAX);
                stretches.push(Stretch {
                    from,
                    until,
                    before: total,
                    shift,
                });
                total += until - from;
            }
            if let (Some(first), Some(last)) = (shift.stretches.first(), shift.stretches.last()) {
                spans.push((first.0, last.1));
            }
        }
        let by_time = Buckets::new(stretches.iter().map(|s| s.until));
        let by_work = Buckets::new(stretches.iter().map(|s| s.before + (s.until - s.from)));
        let work = |s: &Shift| s.stretches.iter().map(|(from, until)| until - from).sum();
        let longest_shift = shifts.iter().map(work).max().unwrap_or(0);
        Self(Arc::new(Hours {
            shifts,
            stretches,
            spans,
            total,
            longest_shift,
            by_time,
            by_work,
        }))
    }

    /// The shifts, in order, none empty.
    #[must_use]
    pub fn shifts(&self) -> &[Shift] {
        &self.0.shifts
    }

    /// Whether the tick that begins at `t` is worked.
    #[must_use]
    pub fn is_working(&self, t: Tick) -> bool {
        self.0
            .stretches
            .get(self.ends_after(t))
            .is_some_and(|s| s.from <= t)
    }

    /// The first working tick at or after `t`; `None` when work is over for good.
    #[must_use]
    pub fn next_working(&self, t: Tick) -> Option<Tick> {
        self.0
            .stretches
            .get(self.ends_after(t))
            .map(|s| s.from.max(t))
    }

    /// The last working tick before `t`; `None` when work has not begun by then.
    #[must_use]
    pub fn previous_working(&self, t: Tick) -> Option<Tick> {
        let next = self.ends_after(t);
        match self.0.stretches.get(next) {
            Some(stretch) if stretch.from < t => Some(t - 1),
            _ => next.checked_sub(1).map(|i| self.0.stretches[i].until - 1),
        }
    }

    /// Working ticks in `[a, b)`; 0 when `b` is not after `a`.
    #[must_use]
    pub fn between(&self, a: Tick, b: Tick) -> Tick {
        if b <= a {
            0
        } else {
            self.worked_by(b) - self.worked_by(a)
        }
    }

    /// The smallest `f` with `between(t, f) == work`; `t` itself when no work is asked.
    /// `None` when the calendar ends first.
    #[must_use]
    pub fn add(&self, t: Tick, work: Tick) -> Option<Tick> {
        if work <= 0 {
            return Some(t);
        }
        self.end_of(self.worked_by(t).checked_add(work)?)
    }

    /// The largest `s` with `between(s, t) == work`; `t` itself when no work is asked.
    /// `None` when the calendar has not that much work before `t`.
    #[must_use]
    pub fn back(&self, t: Tick, work: Tick) -> Option<Tick> {
        if work <= 0 {
            return Some(t);
        }
        let count = self.worked_by(t).checked_sub(work)?.checked_add(1)?;
        if count < 1 {
            return None;
        }
        self.end_of(count).map(|end| end - 1)
    }

    /// Working ticks before `t`, counted from the beginning of the calendar.
    #[must_use]
    pub fn worked_by(&self, t: Tick) -> Tick {
        match self.0.stretches.get(self.ends_after(t)) {
            Some(s) => s.before + (t - s.from).max(0),
            None => self.0.total,
        }
    }

    /// The end of the working tick number `count`, counted from 1 at the beginning of the
    /// calendar; `None` when there is no such tick.
    #[must_use]
    pub fn end_of(&self, count: Tick) -> Option<Tick> {
        if count < 1 || count > self.0.total {
            return None;
        }
        let mut i = self.0.by_work.at(count - 1);
        while let Some(s) = self.0.stretches.get(i) {
            let offset = count - s.before;
            if offset <= s.until - s.from {
                return Some(s.from + offset);
            }
            i += 1;
        }
        None
    }

    /// The shift `[from, until)`, breaks included, that `t` lies in.
    #[must_use]
    pub fn shift_of(&self, t: Tick) -> Option<(Tick, Tick)> {
        let s = self.0.stretches.get(self.ends_after(t))?;
        let span = *self.0.spans.get(s.shift as usize)?;
        (span.0 <= t).then_some(span)
    }

    /// The shift before the one that holds or follows `t`.
    #[must_use]
    pub fn shift_before(&self, t: Tick) -> Option<(Tick, Tick)> {
        let number = match self.0.stretches.get(self.ends_after(t)) {
            Some(s) => s.shift as usize,
            None => self.0.spans.len(),
        };
        number
            .checked_sub(1)
            .and_then(|i| self.0.spans.get(i))
            .copied()
    }

    /// Whether `work` ticks begun at the working tick `t` end within the shift of `t`.
    #[must_use]
    pub fn fits_shift(&self, t: Tick, work: Tick) -> bool {
        match (self.shift_of(t), self.add(t, work)) {
            (Some((_, until)), Some(finish)) => finish <= until,
            _ => false,
        }
    }

    /// The most work that any one shift holds.
    #[must_use]
    pub fn longest_shift(&self) -> Tick {
        self.0.longest_shift
    }

    /// The end of the stretch of work that `t` lies in; `None` when `t` is not worked.
    #[must_use]
    pub fn stretch_end(&self, t: Tick) -> Option<Tick> {
        self.0
            .stretches
            .get(self.ends_after(t))
            .filter(|s| s.from <= t)
            .map(|s| s.until)
    }

    /// The stretches of work within `[s, f)`, in order, cut to it.
    pub fn stretches_within(&self, s: Tick, f: Tick) -> impl Iterator<Item = (Tick, Tick)> + '_ {
        self.0.stretches[self.ends_after(s)..]
            .iter()
            .map(move |x| (x.from.max(s), x.until.min(f)))
            .take_while(|(from, until)| from < until)
    }

    /// Position of the first stretch that ends after `t`.
    fn ends_after(&self, t: Tick) -> usize {
        let mut i = self.0.by_time.at(t);
        while self.0.stretches.get(i).is_some_and(|s| s.until <= t) {
            i += 1;
        }
        i
    }
}

fn in_order(mut shifts: Vec<Shift>) -> Vec<Shift> {
    for shift in &mut shifts {
        shift.stretches.retain_mut(|(from, until)| {
            *from = (*from).clamp(-FARTHEST, FARTHEST);
            *until = (*until).clamp(-FARTHEST, FARTHEST);
            from < until
        });
        shift.stretches.sort_unstable();
    }
    shifts.retain(|shift| !shift.stretches.is_empty());
    shifts.sort_by_key(|shift| shift.stretches[0]);
    let mut end = -FARTHEST;
    for shift in &mut shifts {
        let mut joined: Vec<(Tick, Tick)> = Vec::with_capacity(shift.stretches.len());
        for &(from, until) in &shift.stretches {
            let from = from.max(end);
            if from >= until {
                continue;
            }
            match joined.last_mut() {
                Some(last) if from <= last.1 => last.1 = last.1.max(until),
                _ => joined.push((from, until)),
            }
            end = end.max(until);
        }
        shift.stretches = joined;
    }
    shifts.retain(|shift| !shift.stretches.is_empty());
    shifts
}

/// A coarse index over rising keys: for each stretch of values, the first key that lies above it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
struct Buckets {
    origin: Tick,
    bits: u32,
    first: Vec<u32>,
}

impl Buckets {
    /// Indexes keys in rising order.
    fn new(keys: impl ExactSizeIterator<Item = Tick> + Clone) -> Self {
        let count = keys.len();
        let (Some(origin), Some(last)) = (keys.clone().next(), keys.clone().last()) else {
            return Self::default();
        };
        let mut bits = 0;
        while ((last - origin) as usize >> bits) > 2 * count + 16 {
            bits += 1;
        }
        let mut first = Vec::with_capacity((((last - origin) as usize) >> bits) + 1);
        let mut position = 0;
        let mut keys = keys.peekable();
        for bucket in 0..=((last - origin) >> bits) {
            let begin = origin + (bucket << bits);
            while keys.next_if(|&key| key <= begin).is_some() {
                position += 1;
            }
            first.push(position);
        }
        Self {
            origin,
            bits,
            first,
        }
    }

    /// A position at or a little before that of the first key above `value`.
    fn at(&self, value: Tick) -> usize {
        if value < self.origin || self.first.is_empty() {
            return 0;
        }
        let bucket = ((value - self.origin) as usize) >> self.bits;
        let last = self.first.len() - 1;
        self.first[bucket.min(last)] as usize
    }
}
