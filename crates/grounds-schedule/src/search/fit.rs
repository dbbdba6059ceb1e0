//! Where an activity fits: the earliest start at which nothing already placed is in its way.
//!
//! Every obstacle answers with the earliest start worth trying next, never with "one tick later",
//! so that long stretches are skipped at once.

use super::clock::{NEVER, Work, first_start_for_moment, moment};
use super::compiled::Compiled;
use super::state::{Shut, State};
use super::ways::{Ways, insert};
use crate::problem::{Closure, GroupId, NodeId, Tick, Tread};

/// What a search for a place in the plan takes into account.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Regard {
    /// Working hours, its own lags, crews and rooms.
    Crews,
    /// Everything: ways in, shut floors, dust.
    All,
}

/// Memory that is used again and again.
#[derive(Clone, Debug, Default)]
pub(crate) struct Fitter {
    ways: Ways,
    /// Closures that the activity in hand would make.
    own: Vec<(Closure, Tick, Tick)>,
    /// Shut nodes around a stay: node, from, until.
    around: Vec<(NodeId, Tick, Tick)>,
    changes: Vec<Tick>,
    set: Vec<u64>,
}

/// Somebody's stay in a place.
#[derive(Clone, Copy)]
struct Stay<'a> {
    node: NodeId,
    work: Work<'a>,
    tread: Tread,
    group: Option<GroupId>,
    from: Tick,
    until: Tick,
}

impl Fitter {
    pub(crate) fn new(ways: Ways) -> Self {
        let set = vec![0; ways.words()];
        Self {
            ways,
            set,
            ..Self::default()
        }
    }

    /// Whether an activity's place could be reached if nothing were shut.
    pub(crate) fn can_reach(&mut self, c: &Compiled, i: usize) -> bool {
        let no_ways = c.problem.access.entrances.is_empty();
        self.set.fill(0);
        no_ways
            || c.problem.activities[i]
                .at
                .is_none_or(|at| self.ways.lead_to(at, &self.set))
    }

    /// The earliest start at or after `from` and its finish; `None` when the horizon comes first.
    pub(crate) fn find(
        &mut self,
        c: &Compiled,
        state: &State,
        i: usize,
        from: Tick,
        regard: Regard,
    ) -> Option<(Tick, Tick)> {
        let work = c.work[i];
        let mut start = work.first_start(from);
        loop {
            let finish = work.finish(start);
            if finish > c.problem.horizon || start >= NEVER {
                return None;
            }
            match self.in_the_way(c, state, i, start, finish, regard) {
                None => return Some((start, finish)),
                Some(next) => start = work.first_start(next.max(start + 1)),
            }
        }
    }

    /// The earliest start worth trying when this one is not possible.
    fn in_the_way(
        &mut self,
        c: &Compiled,
        state: &State,
        i: usize,
        start: Tick,
        finish: Tick,
        regard: Regard,
    ) -> Option<Tick> {
        for arc in c.own_of.of(i).map(|own| &c.own[own]) {
            if !arc.holds((start, finish), (start, finish)) {
                return Some(arc.lower(c.work[i], start, finish));
            }
        }
        if let Some(next) = crowded(c, state, i, start, finish) {
            return Some(next);
        }
        if regard < Regard::All {
            return None;
        }
        dust_in_still_air(c, state, i, start, finish)
            .or_else(|| still_air_in_dust(c, state, i, start, finish))
            .or_else(|| self.shut_out(c, state, i, start, finish))
            .or_else(|| self.would_shut_out(c, state, i, start, finish))
    }

    /// Its own way in is shut: the moment that opens again.
    fn shut_out(
        &mut self,
        c: &Compiled,
        state: &State,
        i: usize,
        start: Tick,
        finish: Tick,
    ) -> Option<Tick> {
        let stay = stay_of(c, i, start, finish)?;
        if self.ways.to[stay.node.index()].may.is_empty() {
            return None;
        }
        let mut next = None;
        for &node in &self.ways.to[stay.node.index()].must {
            for shut in barring(&state.shuts[node.index()], &stay, i) {
                let until = shut.until.min(stay.until);
                if stay.work.stretch(shut.from.max(stay.from), until).is_some() {
                    next = next.max(Some(shut.until));
                }
            }
        }
        if next.is_some() {
            return next;
        }
        self.own.clear();
        self.gather(state, &stay, i);
        self.first_cut(&stay).map(|(from, _)| {
            let active = self.around.iter().filter(|s| s.1 <= from && from < s.2);
            active.map(|s| s.2).min().unwrap_or(NEVER)
        })
    }

    /// Its closures would cut off somebody: the earliest start at which they come too late for that.
    fn would_shut_out(
        &mut self,
        c: &Compiled,
        state: &State,
        i: usize,
        start: Tick,
        finish: Tick,
    ) -> Option<Tick> {
        let activity = &c.problem.activities[i];
        if activity.closes.is_empty() || c.problem.access.entrances.is_empty() {
            return None;
        }
        self.own.clear();
        for closure in &activity.closes {
            let from = moment(c.problem, closure.from, start, finish);
            let until = moment(c.problem, closure.until, start, finish);
            if from < until {
                self.own.push((*closure, from, until));
            }
        }
        for k in 0..self.own.len() {
            let (closure, from, until) = self.own[k];
            for n in 0..self.ways.served[closure.node.index()].len() {
                let node = self.ways.served[closure.node.index()][n];
                for span in state.present[node.index()].overlapping(from, until) {
                    let Some(stay) = disturbed(c, span.who, i, &closure, from, until) else {
                        continue;
                    };
                    let stay = Stay {
                        from: from.max(span.from),
                        until: until.min(span.until),
                        ..stay
                    };
                    if let Some((at, end)) = self.cut_by(state, c, &stay, span.who, &closure, i) {
                        return Some(self.later(c, i, at, end));
                    }
                }
            }
        }
        None
    }

    /// The first stretch of a stay that would be cut off by the closures in `own`.
    fn cut_by(
        &mut self,
        state: &State,
        c: &Compiled,
        stay: &Stay,
        who: usize,
        closure: &Closure,
        by: usize,
    ) -> Option<(Tick, Tick)> {
        if self.ways.to[stay.node.index()].must.contains(&closure.node) {
            return stay.work.stretch(stay.from, stay.until);
        }
        self.gather(state, stay, who);
        let group = c.problem.activities[by].group;
        for (closure, from, until) in &self.own {
            let shut = Shut {
                from: *from,
                until: *until,
                bars: closure.bars,
                group,
                by,
            };
            let near = self.ways.to[stay.node.index()].may.contains(&closure.node);
            let overlaps = *from < stay.until && *until > stay.from;
            if near && overlaps && shut.bars(stay.tread, stay.group) {
                self.around.push((closure.node, *from, *until));
            }
        }
        self.first_cut(stay)
    }

    /// The earliest start at which some closure that shuts `at` begins only at `end`.
    fn later(&self, c: &Compiled, i: usize, at: Tick, end: Tick) -> Tick {
        let active = self.own.iter().filter(|own| own.1 <= at && at < own.2);
        active
            .map(|own| first_start_for_moment(c.problem, c.work[i], own.0.from, end))
            .min()
            .unwrap_or(NEVER)
    }

    /// Collects the placed closures that matter to a stay.
    fn gather(&mut self, state: &State, stay: &Stay, who: usize) {
        self.around.clear();
        for &node in &self.ways.to[stay.node.index()].may {
            for shut in barring(&state.shuts[node.index()], stay, who) {
                self.around.push((node, shut.from, shut.until));
            }
        }
    }

    /// The first worked stretch of a stay without a way in past the nodes in `around`: its first
    /// tick and its end.
    fn first_cut(&mut self, stay: &Stay) -> Option<(Tick, Tick)> {
        if self.around.is_empty() {
            return None;
        }
        self.changes.clear();
        self.changes
            .extend(self.around.iter().flat_map(|s| [s.1, s.2]));
        self.changes.push(stay.from);
        self.changes.retain(|&t| stay.from <= t && t < stay.until);
        self.changes.sort_unstable();
        self.changes.dedup();
        self.changes.push(stay.until);
        for k in 1..self.changes.len() {
            let (from, until) = (self.changes[k - 1], self.changes[k]);
            let Some(stretch) = stay.work.stretch(from, until) else {
                continue;
            };
            self.set.fill(0);
            for (node, from, until) in &self.around {
                if *from <= stretch.0 && stretch.0 < *until {
                    insert(&mut self.set, *node);
                }
            }
            if !self.ways.lead_to(stay.node, &self.set) {
                return Some(stretch);
            }
        }
        None
    }
}

/// Closures that bar a stay and overlap it.
fn barring<'a>(shuts: &'a [Shut], stay: &Stay, who: usize) -> impl Iterator<Item = &'a Shut> {
    let (tread, group, from, until) = (stay.tread, stay.group, stay.from, stay.until);
    let overlaps = move |s: &&Shut| s.from < until && s.until > from;
    shuts
        .iter()
        .filter(move |s| overlaps(s) && s.by != who && s.bars(tread, group))
}

/// An activity's stay; `None` when it has no place.
fn stay_of<'a>(c: &Compiled<'a>, i: usize, start: Tick, finish: Tick) -> Option<Stay<'a>> {
    let activity = &c.problem.activities[i];
    let node = activity.at?;
    let work = c.work[i];
    let until = if work.work <= 0 { start + 1 } else { finish };
    let (tread, group) = (activity.tread, activity.group);
    Some(Stay {
        node,
        work,
        tread,
        group,
        from: start,
        until,
    })
}

/// The part of somebody's stay that falls into a closure of another, if it bars them.
fn disturbed<'a>(
    c: &Compiled<'a>,
    who: usize,
    by: usize,
    closure: &Closure,
    from: Tick,
    until: Tick,
) -> Option<Stay<'a>> {
    let activity = &c.problem.activities[who];
    let group = c.problem.activities[by].group;
    let shut = Shut {
        from,
        until,
        bars: closure.bars,
        group,
        by,
    };
    if who == by || !shut.bars(activity.tread, activity.group) {
        return None;
    }
    let (tread, group) = (activity.tread, activity.group);
    Some(Stay {
        node: activity.at?,
        work: c.work[who],
        tread,
        group,
        from,
        until,
    })
}

/// A crew or a room is taken: when it is free again.
fn crowded(c: &Compiled, state: &State, i: usize, start: Tick, finish: Tick) -> Option<Tick> {
    if start == finish {
        return None;
    }
    let mut next = None;
    for wanted in &c.problem.activities[i].uses {
        let capacity = c.problem.resources[wanted.resource.index()].capacity;
        let limit = capacity.saturating_sub(wanted.amount);
        let profile = &state.profiles[wanted.resource.index()];
        next = next.max(profile.crowded_until(start, finish, limit));
    }
    next
}

/// It makes dust in still air: when the air need not be still any more.
fn dust_in_still_air(
    c: &Compiled,
    state: &State,
    i: usize,
    start: Tick,
    finish: Tick,
) -> Option<Tick> {
    let zone = c.dusty[i]?;
    let work = c.work[i];
    let finish = if work.work <= 0 { start + 1 } else { finish };
    let mut next = None;
    for calm in state.stills[zone]
        .overlapping(start, finish)
        .filter(|calm| calm.who != i)
    {
        if work
            .stretch(calm.from.max(start), calm.until.min(finish))
            .is_some()
        {
            next = next.max(Some(calm.until));
        }
    }
    next
}

/// It needs still air where there is dust: the earliest start at which it needs it only afterwards.
fn still_air_in_dust(
    c: &Compiled,
    state: &State,
    i: usize,
    start: Tick,
    finish: Tick,
) -> Option<Tick> {
    for (zone, still) in &c.still[i] {
        let from = moment(c.problem, still.from, start, finish);
        let until = moment(c.problem, still.until, start, finish);
        for dust in state.dusts[*zone]
            .overlapping(from, until)
            .filter(|dust| dust.who != i)
        {
            let work = c.work[dust.who];
            let stretch = work.stretch(dust.from.max(from), dust.until.min(until));
            if let Some((_, end)) = stretch {
                return Some(first_start_for_moment(
                    c.problem, c.work[i], still.from, end,
                ));
            }
        }
    }
    None
}
