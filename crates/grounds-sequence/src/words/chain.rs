//! How the time from now to a start is spent: one chain of reasons, back to its root, with dates.
//!
//! Several reasons may hold a start at once; each of them would do. The chain follows one at every
//! step (a date before work, work before a busy crew), so that its steps lie end to end and add up
//! to the whole of the wait.

use std::collections::BTreeSet;

use grounds_schedule::{ActivityId, End, HOUR, LagId, Reason, Tick};

use super::Words;

/// Longer chains are cut.
const MOST_STEPS: usize = 500;

/// One stretch of the time from now to a start.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ChainStep {
    /// When it begins.
    pub from: Tick,
    /// When it ends: where the next step begins. Before `from` where work has to wait for what
    /// comes after it, so that the one can follow the other in time.
    pub until: Tick,
    /// The work that takes it, if it is work.
    pub work: Option<ActivityId>,
    /// What happens: `Grout, bathroom walls`, or a sentence.
    pub what: String,
    /// Why the next step waits for it, where `what` does not say so.
    pub why: Option<String>,
}

impl ChainStep {
    /// How long it takes, in words: `3 days 2 h`.
    #[must_use]
    pub fn span(&self) -> String {
        span_words(self.until.saturating_sub(self.from))
    }
}

/// A step back: where it leads, if anywhere.
struct Back {
    steps: Vec<ChainStep>,
    to: Option<ActivityId>,
}

impl Words<'_> {
    /// How the time from now to the start of a piece of work is spent, in order; nothing where it
    /// has begun.
    #[must_use]
    pub fn chain(&self, id: ActivityId) -> Vec<ChainStep> {
        let mut steps = Vec::new();
        let mut met = BTreeSet::new();
        let mut next = Some(id).filter(|id| self.is_to_come(*id));
        while let Some(at) = next {
            met.insert(at);
            let back = self.back(at, &met);
            steps.extend(back.steps);
            next = back.to.filter(|_| steps.len() < MOST_STEPS);
        }
        steps.reverse();
        steps
    }

    /// What stands right before a piece of work, the latest first.
    fn back(&self, id: ActivityId, met: &BTreeSet<ActivityId>) -> Back {
        let reasons = self.outlook.reasons.get(id.index());
        let mut reasons: Vec<&Reason> = reasons.map_or_else(Vec::new, |list| list.iter().collect());
        reasons.sort_by_key(|reason| rank(reason));
        for reason in &reasons {
            let back = match reason {
                Reason::Date(date) => self.back_to_date(id, reason, date.index()),
                Reason::Lag(lag) => self.back_to_lag(id, reason, *lag),
                Reason::ShutOff { by } => self.back_to_work(id, reason, by),
                Reason::Crew { held_by, .. } => self.back_to_work(id, reason, held_by),
                Reason::Dust { with } => self.back_to_work(id, reason, with),
                Reason::WouldShutOff { others } => self.back_to_work(id, reason, others),
                _ => None,
            };
            if let Some(back) = back.filter(|back| back.to.is_none_or(|to| !met.contains(&to))) {
                return back;
            }
        }
        let said = reasons
            .first()
            .map_or_else(String::new, |reason| self.reason(id, reason));
        self.back_to_now(self.start(id), said)
    }

    fn back_to_date(&self, id: ActivityId, reason: &Reason, date: usize) -> Option<Back> {
        self.outlook.network.problem.dates.get(date)?;
        Some(self.back_to_now(self.start(id), self.reason(id, reason)))
    }

    fn back_to_lag(&self, id: ActivityId, reason: &Reason, lag: LagId) -> Option<Back> {
        let lag = self.outlook.network.problem.lags.get(lag.index())?;
        let said = self.reason(id, reason);
        if lag.to != id {
            // What follows must follow in time, and cannot come sooner: this waits for that.
            let step = self.step(self.start(lag.to), self.start(id), said);
            return Some(Back {
                steps: vec![step],
                to: Some(lag.to).filter(|to| self.is_to_come(*to)),
            });
        }
        let waits = lag.min.unwrap_or(0) > 0;
        let worked = lag.from_end == End::Finish;
        let base = if worked {
            self.finish(lag.from)
        } else {
            self.start(lag.from)
        };
        let begins = base.max(self.now());
        if self.is_done(lag.from) {
            return Some(self.back_to_now(self.start(id), said));
        }
        if !worked {
            return Some(Back {
                steps: vec![self.step(begins, self.start(id), said)],
                to: Some(lag.from).filter(|from| self.is_to_come(*from)),
            });
        }
        let said = Some(said).filter(|_| waits || begins < self.start(id));
        Some(self.worked(lag.from, self.start(id), said))
    }

    /// Other work that is in the way: that of it which ends last before this begins.
    fn back_to_work(&self, id: ActivityId, reason: &Reason, others: &[ActivityId]) -> Option<Back> {
        let start = self.start(id);
        let before = |other: &&ActivityId| self.start(**other) < start;
        let last = others
            .iter()
            .filter(before)
            .max_by_key(|other| (self.finish(**other).min(start), **other))?;
        let said = self.reason(id, reason);
        if self.is_done(*last) {
            return Some(self.back_to_now(start, said));
        }
        Some(self.worked(*last, start, Some(said)))
    }

    /// Work, and what keeps a start waiting after it, up to that start; in hand it counts from now
    /// and leads no further.
    fn worked(&self, id: ActivityId, start: Tick, said: Option<String>) -> Back {
        let in_hand = !self.is_to_come(id);
        let from = if in_hand { self.now() } else { self.start(id) };
        let until = self.finish(id).min(start).max(from);
        let what = if in_hand {
            format!("{}, in hand", self.task(id))
        } else {
            self.task(id)
        };
        let (after, why) = match said {
            Some(said) if until != start => (Some(self.step(until, start, said)), None),
            said => (None, said),
        };
        let until = if after.is_some() { until } else { start };
        let work = ChainStep {
            work: Some(id),
            why,
            ..self.step(from, until, what)
        };
        let moment = work.from == work.until;
        let steps = after.into_iter().chain(Some(work).filter(|_| !moment));
        Back {
            steps: steps.collect(),
            to: (!in_hand).then_some(id),
        }
    }

    /// The first step of all: from now to a start.
    fn back_to_now(&self, start: Tick, said: String) -> Back {
        let free = "Nothing stands in its way.".to_owned();
        let said = if said.is_empty() { free } else { said };
        let waits = start > self.now();
        Back {
            steps: waits
                .then(|| self.step(self.now(), start, said))
                .into_iter()
                .collect(),
            to: None,
        }
    }

    fn step(&self, from: Tick, until: Tick, what: String) -> ChainStep {
        ChainStep {
            from,
            until,
            work: None,
            what,
            why: None,
        }
    }

    fn now(&self) -> Tick {
        self.outlook.network.now_tick()
    }

    fn start(&self, id: ActivityId) -> Tick {
        self.outlook.plan.starts[id.index()]
    }

    fn finish(&self, id: ActivityId) -> Tick {
        self.outlook.plan.finishes[id.index()]
    }
}

/// Which reason is followed: what comes from outside first, then what is under it, then who is busy.
fn rank(reason: &Reason) -> u8 {
    match reason {
        Reason::Date(_) => 0,
        Reason::Lag(_) => 1,
        Reason::ShutOff { .. } => 2,
        Reason::Crew { .. } => 3,
        Reason::Dust { .. } => 4,
        Reason::WouldShutOff { .. } => 5,
        Reason::Now => 6,
        Reason::Choice => 7,
        Reason::Hours => 8,
        Reason::Unplanned | Reason::Fact => 9,
        Reason::Shift => 10,
    }
}

/// Elapsed time as it adds up: `3 days 2 h`, `45 min`.
#[must_use]
pub fn span_words(ticks: Tick) -> String {
    let minus = if ticks < 0 { "−" } else { "" };
    let ticks = ticks.saturating_abs();
    let (days, rest) = (ticks / grounds_schedule::DAY, ticks % grounds_schedule::DAY);
    let (hours, minutes) = (rest / HOUR, rest % HOUR * 15);
    let mut parts = Vec::new();
    match days {
        0 => {}
        1 => parts.push("1 day".to_owned()),
        n => parts.push(format!("{n} days")),
    }
    if hours > 0 {
        parts.push(format!("{hours} h"));
    }
    if minutes > 0 || parts.is_empty() {
        parts.push(format!("{minutes} min"));
    }
    format!("{minus}{}", parts.join(" "))
}
