//! How much of a resource is in use, step by step.

use crate::problem::Tick;

/// Use of one resource over time: `used` holds from `at` to the next step. Sorted, no two
/// neighbours alike, nothing in use before the first step or after the last.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Profile {
    steps: Vec<Step>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Step {
    at: Tick,
    used: u32,
}

impl Profile {
    /// Becomes a copy of another, keeping its own memory.
    pub(crate) fn copy_from(&mut self, other: &Self) {
        self.steps.clone_from(&other.steps);
    }

    /// The position of the first step after `t`.
    fn after(&self, t: Tick) -> usize {
        self.steps.partition_point(|step| step.at <= t)
    }

    /// Makes sure that a step begins at `t`, and says which.
    fn cut(&mut self, t: Tick) -> usize {
        let next = self.after(t);
        match next.checked_sub(1).map(|i| self.steps[i]) {
            Some(step) if step.at == t => next - 1,
            before => {
                let used = before.map_or(0, |step| step.used);
                self.steps.insert(next, Step { at: t, used });
                next
            }
        }
    }

    /// Drops a step that says the same as the one before it.
    fn join(&mut self, i: usize) {
        let Some(step) = self.steps.get(i) else {
            return;
        };
        let before = i.checked_sub(1).map_or(0, |before| self.steps[before].used);
        if step.used == before {
            self.steps.remove(i);
        }
    }

    /// Takes `amount` in `[from, until)`.
    pub(crate) fn take(&mut self, from: Tick, until: Tick, amount: u32) {
        self.change(from, until, |used| used.saturating_add(amount));
    }

    /// Gives `amount` in `[from, until)` back.
    pub(crate) fn give(&mut self, from: Tick, until: Tick, amount: u32) {
        self.change(from, until, |used| used.saturating_sub(amount));
    }

    fn change(&mut self, from: Tick, until: Tick, to: impl Fn(u32) -> u32) {
        if from >= until {
            return;
        }
        let first = self.cut(from);
        let last = self.cut(until);
        for step in &mut self.steps[first..last] {
            step.used = to(step.used);
        }
        self.join(last);
        self.join(first);
    }

    /// If `[from, until)` has no room below `limit` throughout: the end of its first crowded time.
    pub(crate) fn crowded_until(&self, from: Tick, until: Tick, limit: u32) -> Option<Tick> {
        let mut i = self.after(from);
        if i.checked_sub(1)
            .is_none_or(|before| self.steps[before].used <= limit)
        {
            i += self.steps[i..]
                .iter()
                .position(|s| s.at >= until || s.used > limit)?;
            if self.steps[i].at >= until {
                return None;
            }
        }
        self.steps[i..]
            .iter()
            .find(|step| step.used <= limit)
            .map(|step| step.at)
    }

    /// If `[from, until)` has no room below `limit` throughout: the begin of its last crowded time.
    pub(crate) fn crowded_from(&self, from: Tick, until: Tick, limit: u32) -> Option<Tick> {
        let end = self.steps.partition_point(|step| step.at < until);
        let last = self.steps[..end]
            .iter()
            .rposition(|step| step.used > limit)?;
        let ends = self.steps.get(last + 1).map_or(Tick::MAX, |step| step.at);
        if ends <= from {
            return None;
        }
        let before = self.steps[..last]
            .iter()
            .rposition(|step| step.used <= limit);
        Some(self.steps[before.map_or(0, |i| i + 1)].at)
    }
}

#[cfg(test)]
mod tests {
    use super::Profile;

    #[test]
    fn a_second_tiler_waits_until_the_first_is_free() {
        let mut tilers = Profile::default();
        tilers.take(10, 20, 1);
        tilers.take(15, 30, 1);
        assert_eq!(tilers.crowded_until(0, 10, 0), None);
        assert_eq!(tilers.crowded_until(0, 11, 0), Some(30));
        assert_eq!(tilers.crowded_until(0, 40, 1), Some(20));
        assert_eq!(tilers.crowded_from(0, 40, 1), Some(15));
        assert_eq!(tilers.crowded_from(22, 40, 0), Some(10));
        assert_eq!(tilers.crowded_from(30, 40, 0), None);
        tilers.give(15, 30, 1);
        tilers.give(10, 20, 1);
        assert_eq!(tilers, Profile::default());
    }
}
