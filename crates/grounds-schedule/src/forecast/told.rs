//! What people on site know at a moment, and whether work may go ahead of others by it.
//!
//! Nobody knows luck that has not shown. What is under way is expected to take what is left of its
//! reckoned time, a delivery to come on its day. Once something is late, whoever does it or brings it
//! says on that day when it will be; what is early is known when it is there. What follows from work
//! that has not begun is reckoned on from there with reckoned times.

use super::policy::{Bound, EACH, FINISHES, LEAVES, NONE, Policy, RELEASES, STARTS, Take};
use super::run::{Run, moment, reckon};
use crate::problem::{End, Tick};
use crate::search::clock::NEVER;

/// How many pieces of work one after the other are reckoned on; what hangs on more may come any
/// moment.
const DEPTH: u32 = 12;

impl Run {
    /// Whether an activity that begins at `at` will by all that is known be done before anybody ahead
    /// of it in its queues could begin. What has a window does not wait for them: it would close.
    pub(super) fn may_go_ahead(&self, policy: &Policy, p: usize, at: Tick) -> bool {
        if policy.has_window[p] {
            return true;
        }
        let until = policy.works[p].finish(at);
        let mut takes = policy.takes.of(p).iter();
        takes.all(|take| self.is_left_alone(policy, take, (at, until)))
    }

    /// Whether those ahead in one queue who may begin before `until` have enough left.
    fn is_left_alone(&self, policy: &Policy, take: &Take, (at, until): (Tick, Tick)) -> bool {
        let mut left = self.free_at(take, at);
        let head = self.turns.head(take.queue) as usize;
        let ahead = &policy.queues.of(take.queue as usize)[head..take.rank as usize];
        if left < take.amount {
            return false;
        }
        left -= take.amount;
        for &(other, amount) in ahead {
            let other = other as usize;
            if self.turns.is_placed(other) {
                continue;
            }
            if self.expected(policy, other, (at, until), DEPTH) < until {
                if amount > left {
                    return false;
                }
                left -= amount;
            }
        }
        true
    }

    /// When work that is not placed is expected to begin, as known at `at`; any moment from `until`
    /// on where it is certainly not before.
    fn expected(&self, policy: &Policy, q: usize, (at, until): (Tick, Tick), depth: u32) -> Tick {
        let mut start = policy.base[q].max(self.put_off_to(q)).max(at);
        if depth == 0 {
            return start;
        }
        for bound in policy.bounds.of(q) {
            let value = self.told(policy, bound, (at, until), depth);
            let begins = match bound.end {
                End::Start => value,
                End::Finish if value < NEVER => policy.works[q].first_start_to_finish(value),
                End::Finish => NEVER,
            };
            start = start.max(begins);
            if start >= until {
                return start;
            }
        }
        for take in policy.takes.of(q) {
            let (free, who) = self.units[(take.first + take.amount - 1) as usize];
            if free > at && who != NONE {
                start = start.max(free + self.not_told_yet(policy, who as usize, at));
            }
        }
        policy.works[q].first_start(start)
    }

    /// What a bound asks for, as known at `at`.
    fn told(&self, policy: &Policy, bound: &Bound, span: (Tick, Tick), depth: u32) -> Tick {
        let (at, _) = span;
        let source = bound.source as usize;
        let amount = policy.amounts[bound.amount as usize];
        if bound.source == NONE {
            let actual = self.value(bound);
            let reckoned = reckon(bound.shift, policy.moments[bound.moment as usize], amount);
            return if actual <= at || at >= reckoned {
                actual
            } else {
                reckoned
            };
        }
        if source < policy.order.played && !self.turns.is_placed(source) {
            let start = self.expected(policy, source, span, depth - 1);
            if start >= NEVER {
                return NEVER;
            }
            let finish = policy.works[source].finish(start);
            return reckon(
                bound.shift,
                moment_of(policy, bound, (start, finish)),
                amount,
            );
        }
        let actual = self.value(bound);
        if actual <= at || source >= policy.order.played {
            return actual;
        }
        let from = self.moments[bound.moment as usize];
        let shift = if bound.moment as usize % EACH == STARTS && is_own(policy, bound) {
            0
        } else {
            self.not_told_yet(policy, source, at)
        };
        let reckoned = reckon(bound.shift, from.saturating_add(shift), amount);
        if at < reckoned { reckoned } else { actual }
    }

    /// What is added to a finish to get what people expect of it at a moment.
    fn not_told_yet(&self, policy: &Policy, p: usize, at: Tick) -> Tick {
        let (start, finish) = (self.start(p), self.release(p));
        if finish <= at {
            return 0;
        }
        let begins = start.max(policy.problem.now);
        let reckoned = policy.works[p].finish(begins);
        if at < reckoned { reckoned - finish } else { 0 }
    }
}

/// Whether a bound is reckoned from an end of an activity, not from a span of its.
fn is_own(policy: &Policy, bound: &Bound) -> bool {
    (bound.moment as usize) < policy.first_span
}

/// The moment that a bound is reckoned from, where its source has these ends.
fn moment_of(policy: &Policy, bound: &Bound, (start, finish): (Tick, Tick)) -> Tick {
    if is_own(policy, bound) {
        return match bound.moment as usize % EACH {
            STARTS => start,
            FINISHES | RELEASES | LEAVES => finish,
            _ => start,
        };
    }
    let at = bound.moment as usize - policy.first_span;
    let mut makes = policy.makes.of(bound.source as usize).iter();
    makes
        .find(|make| make.number as usize == at / 2)
        .map_or(finish, |make| {
            let which = if at.is_multiple_of(2) {
                make.from
            } else {
                make.until
            };
            moment(which, start, finish)
        })
}
