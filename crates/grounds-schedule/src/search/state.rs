//! A plan in the making: what is placed so far, and what that leaves for the next activity.

use super::clock::{NEVER, moment};
use super::compiled::Compiled;
use super::profile::Profile;
use crate::problem::{Fact, GroupId, Tick, Tread};

/// A shut node.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Shut {
    pub(crate) from: Tick,
    pub(crate) until: Tick,
    pub(crate) bars: Tread,
    pub(crate) group: Option<GroupId>,
    pub(crate) by: usize,
}

impl Shut {
    /// Whether it bars somebody of this tread and surface.
    pub(crate) fn bars(&self, tread: Tread, group: Option<GroupId>) -> bool {
        self.bars <= tread && (group.is_none() || self.group != group)
    }
}

/// A time that belongs to an activity.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Span {
    pub(crate) from: Tick,
    pub(crate) until: Tick,
    pub(crate) who: usize,
}

/// Spans sorted by their beginning, with the longest length, so that overlaps are found quickly.
#[derive(Clone, Debug, Default)]
pub(crate) struct Spans {
    list: Vec<Span>,
    longest: Tick,
}

impl Spans {
    fn add(&mut self, span: Span) {
        let place = self.list.partition_point(|other| other.from <= span.from);
        self.list.insert(place, span);
        self.longest = self.longest.max(span.until - span.from);
    }

    fn remove(&mut self, who: usize) {
        self.list.retain(|span| span.who != who);
    }

    fn copy_from(&mut self, other: &Self) {
        self.list.clone_from(&other.list);
        self.longest = other.longest;
    }

    /// Spans that overlap `[from, until)`.
    pub(crate) fn overlapping(&self, from: Tick, until: Tick) -> impl Iterator<Item = Span> + '_ {
        let first = self
            .list
            .partition_point(|s| s.from < from.saturating_sub(self.longest));
        let near = self.list[first..]
            .iter()
            .take_while(move |s| s.from < until);
        near.filter(move |s| s.until > from).copied()
    }
}

/// A plan in the making.
#[derive(Clone, Debug, Default)]
pub(crate) struct State {
    pub(crate) starts: Vec<Tick>,
    pub(crate) finishes: Vec<Tick>,
    pub(crate) placed: Vec<bool>,
    pub(crate) profiles: Vec<Profile>,
    /// For each node, who shuts it and when.
    pub(crate) shuts: Vec<Vec<Shut>>,
    /// For each node, who is there and when.
    pub(crate) present: Vec<Spans>,
    /// For each zone, who needs still air and when.
    pub(crate) stills: Vec<Spans>,
    /// For each zone, who makes dust and when.
    pub(crate) dusts: Vec<Spans>,
}

impl State {
    /// What facts leave behind for open work.
    pub(crate) fn with_facts(c: &Compiled) -> Self {
        let nodes = c.problem.access.neighbours.len();
        let mut state = Self {
            starts: vec![NEVER; c.count()],
            finishes: vec![NEVER; c.count()],
            placed: vec![false; c.count()],
            profiles: vec![Profile::default(); c.problem.resources.len()],
            shuts: vec![Vec::new(); nodes],
            present: vec![Spans::default(); nodes],
            stills: vec![Spans::default(); c.zones],
            dusts: vec![Spans::default(); c.zones],
        };
        for (i, activity) in c.problem.activities.iter().enumerate() {
            let (start, finish) = c.known[i];
            match activity.fact {
                Fact::Open => continue,
                Fact::Done { .. } => state.leave_traces(c, i, start, finish),
                Fact::Begun { at, .. } => {
                    if finish <= c.problem.horizon {
                        state.leave_traces(c, i, start, finish);
                    }
                    state.be_there(c, i, at.max(c.problem.now), finish.min(c.problem.horizon));
                }
            }
            state.starts[i] = start;
            state.finishes[i] = finish.min(c.problem.horizon.saturating_add(1));
            if matches!(activity.fact, Fact::Done { .. }) {
                state.finishes[i] = finish;
            }
            state.placed[i] = true;
        }
        state
    }

    /// Becomes a copy of another, keeping its own memory.
    pub(crate) fn copy_from(&mut self, other: &Self) {
        self.starts.clone_from(&other.starts);
        self.finishes.clone_from(&other.finishes);
        self.placed.clone_from(&other.placed);
        copy_all(&mut self.profiles, &other.profiles, Profile::copy_from);
        copy_all(&mut self.shuts, &other.shuts, |to, from| {
            to.clone_from(from)
        });
        copy_all(&mut self.present, &other.present, Spans::copy_from);
        copy_all(&mut self.stills, &other.stills, Spans::copy_from);
        copy_all(&mut self.dusts, &other.dusts, Spans::copy_from);
    }

    /// Puts an activity into the plan.
    pub(crate) fn place(&mut self, c: &Compiled, i: usize, start: Tick, finish: Tick) {
        self.starts[i] = start;
        self.finishes[i] = finish;
        self.placed[i] = true;
        if finish > c.problem.horizon {
            return;
        }
        self.leave_traces(c, i, start, finish);
        let stay = if c.work[i].work <= 0 {
            start + 1
        } else {
            finish
        };
        self.be_there(c, i, start, stay);
    }

    /// Takes an activity out of the plan again.
    pub(crate) fn unplace(&mut self, c: &Compiled, i: usize) {
        self.placed[i] = false;
        let (start, finish) = (self.starts[i], self.finishes[i]);
        if finish > c.problem.horizon {
            return;
        }
        let activity = &c.problem.activities[i];
        if c.work[i].work > 0 {
            for wanted in &activity.uses {
                self.profiles[wanted.resource.index()].give(start, finish, wanted.amount);
            }
        }
        if let Some(at) = activity.at {
            self.present[at.index()].remove(i);
        }
        if let Some(zone) = c.dusty[i] {
            self.dusts[zone].remove(i);
        }
        for closure in &activity.closes {
            self.shuts[closure.node.index()].retain(|shut| shut.by != i);
        }
        for (zone, _) in &c.still[i] {
            self.stills[*zone].remove(i);
        }
    }

    /// Shut floors and still air.
    fn leave_traces(&mut self, c: &Compiled, i: usize, start: Tick, finish: Tick) {
        let activity = &c.problem.activities[i];
        for closure in &activity.closes {
            let from = moment(c.problem, closure.from, start, finish);
            let until = moment(c.problem, closure.until, start, finish);
            if from < until && until > c.problem.now {
                let (bars, group) = (closure.bars, activity.group);
                self.shuts[closure.node.index()].push(Shut {
                    from,
                    until,
                    bars,
                    group,
                    by: i,
                });
            }
        }
        for (zone, still) in &c.still[i] {
            let from = moment(c.problem, still.from, start, finish);
            let until = moment(c.problem, still.until, start, finish);
            if from < until && until > c.problem.now {
                self.stills[*zone].add(Span {
                    from,
                    until,
                    who: i,
                });
            }
        }
    }

    /// Crews taken, presence in a place, dust.
    fn be_there(&mut self, c: &Compiled, i: usize, from: Tick, until: Tick) {
        if from >= until {
            return;
        }
        let activity = &c.problem.activities[i];
        if c.work[i].work > 0 || !c.open[i] {
            for wanted in &activity.uses {
                self.profiles[wanted.resource.index()].take(from, until, wanted.amount);
            }
        }
        if let Some(at) = activity.at {
            self.present[at.index()].add(Span {
                from,
                until,
                who: i,
            });
        }
        if let Some(zone) = c.dusty[i] {
            self.dusts[zone].add(Span {
                from,
                until,
                who: i,
            });
        }
    }

    /// Moves the plan out as a plan.
    pub(crate) fn plan(&self) -> crate::plan::Plan {
        crate::plan::Plan {
            starts: self.starts.clone(),
            finishes: self.finishes.clone(),
        }
    }
}

fn copy_all<T>(to: &mut [T], from: &[T], copy: impl Fn(&mut T, &T)) {
    for (to, from) in to.iter_mut().zip(from) {
        copy(to, from);
    }
}
