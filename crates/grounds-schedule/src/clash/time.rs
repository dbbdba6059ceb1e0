//! Clashes of time: longest paths over calendars, and what can be left out of them.

use std::collections::{BTreeMap, BTreeSet, VecDeque};

use super::{Bound, Clash, ClashPart};
use crate::problem::{ActivityId, Date, Fact, LagId, Problem, Side, Tick};
use crate::search::arcs::{Arc, pick};
use crate::search::clock::{NEVER, Work};
use crate::search::compiled::arcs_of;

/// Raises in all after which nothing is said.
const MOST_RAISES: usize = 500_000;
/// Raises of one start after which its chain is first searched for a circle.
const FIRST_LOOK: u32 = 40;

/// The first clash of time among everything but the parts set aside.
pub(super) fn first_clash(problem: &Problem, set_aside: &[ClashPart]) -> Option<Clash> {
    let all = Facts::all(problem, set_aside);
    let mut parts = all.suspects(problem)?;
    if all.only(&parts).suspects(problem).is_none() {
        // The chain leaned on something outside itself: begin with everything.
        parts = all.parts();
    }
    let mut parts: Vec<ClashPart> = parts.into_iter().collect();
    let mut size = parts.len().div_ceil(2).max(1);
    loop {
        drop_chunks(problem, &all, &mut parts, size);
        if size == 1 {
            break;
        }
        size = size.div_ceil(2);
    }
    Some(Clash {
        parts,
        proved: true,
    })
}

/// Drops every chunk of parts without which the rest still clashes.
fn drop_chunks(problem: &Problem, all: &Facts, parts: &mut Vec<ClashPart>, size: usize) {
    let mut from = 0;
    while from < parts.len() {
        let until = (from + size).min(parts.len());
        let rest: BTreeSet<_> = parts[..from]
            .iter()
            .chain(&parts[until..])
            .copied()
            .collect();
        if all.only(&rest).suspects(problem).is_some() {
            parts.drain(from..until);
        } else {
            from = until;
        }
    }
}

/// A set of facts: sides of lags, dates, work and what is known.
#[derive(Clone, Debug, Default)]
struct Facts {
    lags: Vec<(LagId, Bound)>,
    dates: Vec<Date>,
    date_parts: Vec<ClashPart>,
    work: BTreeSet<ActivityId>,
    known: BTreeSet<ActivityId>,
}

impl Facts {
    fn all(problem: &Problem, set_aside: &[ClashPart]) -> Self {
        let mut parts = BTreeSet::new();
        for (i, lag) in problem.lags.iter().enumerate() {
            let sides = [
                (lag.min.is_some(), Bound::Min),
                (lag.max.is_some(), Bound::Max),
            ];
            let sides = sides.into_iter().filter(|(given, _)| *given);
            parts.extend(sides.map(|(_, side)| ClashPart::Lag(LagId::from(i), side)));
        }
        parts.extend((0..problem.dates.len()).map(|i| ClashPart::Date(i.into())));
        for (i, activity) in problem.activities.iter().enumerate() {
            let id = ActivityId::from(i);
            let open = activity.fact == Fact::Open;
            parts.insert(if open {
                ClashPart::Work(id)
            } else {
                ClashPart::Fact(id)
            });
        }
        parts.retain(|part| !set_aside.contains(part));
        let mut all = Self::default();
        all.take(problem, &parts);
        all
    }

    fn take(&mut self, problem: &Problem, parts: &BTreeSet<ClashPart>) {
        for &part in parts {
            match part {
                ClashPart::Lag(id, side) => self.lags.push((id, side)),
                ClashPart::Date(id) => {
                    self.dates.push(problem.dates[id.index()]);
                    self.date_parts.push(part);
                }
                ClashPart::Work(id) => drop(self.work.insert(id)),
                ClashPart::Fact(id) => drop(self.known.insert(id)),
                _ => {}
            }
        }
    }

    fn parts(&self) -> BTreeSet<ClashPart> {
        let lags = self.lags.iter().map(|&(id, side)| ClashPart::Lag(id, side));
        let work = self.work.iter().map(|&id| ClashPart::Work(id));
        let known = self.known.iter().map(|&id| ClashPart::Fact(id));
        lags.chain(self.date_parts.iter().copied())
            .chain(work)
            .chain(known)
            .collect()
    }

    /// Only those facts that are among `parts`.
    fn only(&self, parts: &BTreeSet<ClashPart>) -> Self {
        let has = |part: ClashPart| parts.contains(&part);
        let dates = self
            .dates
            .iter()
            .copied()
            .zip(self.date_parts.iter().copied());
        let (dates, date_parts) = dates.filter(|(_, part)| has(*part)).unzip();
        Self {
            lags: self
                .lags
                .iter()
                .filter(|&&(id, side)| has(ClashPart::Lag(id, side)))
                .copied()
                .collect(),
            dates,
            date_parts,
            work: self
                .work
                .iter()
                .filter(|&&id| has(ClashPart::Work(id)))
                .copied()
                .collect(),
            known: self
                .known
                .iter()
                .filter(|&&id| has(ClashPart::Fact(id)))
                .copied()
                .collect(),
        }
    }

    /// If these facts clash: parts that were in the chain of it.
    fn suspects(&self, problem: &Problem) -> Option<BTreeSet<ClashPart>> {
        let mut chase = Chase::new(problem, self);
        chase.run(self)
    }
}

/// What last raised a start.
#[derive(Clone, Copy, Debug)]
enum Cause {
    /// Now, and the hours of its own work.
    Now,
    Date(ClashPart),
    Arc(usize),
}

/// Starts being raised along arcs until they rest or clash.
struct Chase<'a> {
    problem: &'a Problem,
    work: Vec<Work<'a>>,
    known: Vec<Option<(Tick, Tick)>>,
    arcs: Vec<(Arc<'a>, ClashPart)>,
    out: BTreeMap<usize, Vec<usize>>,
    start: Vec<Tick>,
    cause: Vec<Cause>,
    raises: Vec<u32>,
    /// The latest each start may be, and why: a date or a side of a lag into something known.
    latest: Vec<(Tick, Option<ClashPart>)>,
}

impl<'a> Chase<'a> {
    fn new(problem: &'a Problem, facts: &Facts) -> Self {
        let count = problem.activities.len();
        let idle = Work {
            calendar: None,
            work: 0,
            unbroken: false,
        };
        let work: Vec<Work> = (0..count)
            .map(|i| match facts.work.contains(&ActivityId::from(i)) {
                true => Work::of(problem, &problem.activities[i]),
                false => idle,
            })
            .collect();
        let known = (0..count).map(|i| known(problem, facts, i)).collect();
        let mut chase = Self {
            problem,
            start: work
                .iter()
                .map(|work| work.first_start(problem.now))
                .collect(),
            latest: work
                .iter()
                .map(|w| (w.last_start_to_finish(problem.horizon), None))
                .collect(),
            work,
            known,
            arcs: Vec::new(),
            out: BTreeMap::new(),
            cause: vec![Cause::Now; count],
            raises: vec![0; count],
        };
        chase.add_arcs(facts);
        chase.add_dates(facts);
        chase
    }

    /// Whether something is not open, and what is known of it does not count either.
    fn is_void(&self, i: usize) -> bool {
        self.problem.activities[i].fact != Fact::Open && self.known[i].is_none()
    }

    fn add_arcs(&mut self, facts: &Facts) {
        for &(id, side) in &facts.lags {
            let wanted = |arc: &Arc| arc.longest == (side == Bound::Max);
            for arc in arcs_of(self.problem, id).filter(wanted) {
                if self.is_void(arc.from) || self.is_void(arc.to) {
                    continue;
                }
                let part = ClashPart::Lag(id, side);
                match (self.known[arc.from], self.known[arc.to]) {
                    (Some(_), Some(_)) => {}
                    (_, None) => {
                        self.out.entry(arc.from).or_default().push(self.arcs.len());
                        self.arcs.push((arc, part));
                    }
                    (None, Some(ends)) => self.add_upper(&arc, part, ends),
                }
            }
        }
    }

    /// An arc into something known bounds the start that it comes from.
    fn add_upper(&mut self, arc: &Arc<'a>, part: ClashPart, ends: (Tick, Tick)) {
        if !arc.longest && pick(arc.to_end, ends.0, ends.1) <= self.problem.now {
            return;
        }
        let upper = arc.upper(self.work[arc.from], ends.0, ends.1);
        if upper < self.latest[arc.from].0 {
            self.latest[arc.from] = (upper, Some(part));
        }
    }

    fn add_dates(&mut self, facts: &Facts) {
        for (date, &part) in facts.dates.iter().zip(&facts.date_parts) {
            let i = date.activity.index();
            if self.problem.activities[i].fact != Fact::Open {
                continue;
            }
            match date.side {
                Side::NotBefore => {
                    let lower = self.work[i].first_start_for(date.end, date.at);
                    if lower > self.start[i] {
                        self.start[i] = lower;
                        self.cause[i] = Cause::Date(part);
                    }
                }
                Side::NotAfter => {
                    let upper = self.work[i].last_start_for(date.end, date.at);
                    if upper < self.latest[i].0 {
                        self.latest[i] = (upper, Some(part));
                    }
                }
            }
        }
    }

    fn run(&mut self, facts: &Facts) -> Option<BTreeSet<ClashPart>> {
        let open: Vec<usize> = (0..self.start.len())
            .filter(|&i| self.problem.activities[i].fact == Fact::Open)
            .collect();
        if let Some(&late) = open.iter().find(|&&i| self.start[i] > self.latest[i].0) {
            return Some(self.chain(late));
        }
        let mut queue: VecDeque<usize> = self.out.keys().copied().collect();
        let mut queued = vec![false; self.start.len()];
        queue.iter().for_each(|&i| queued[i] = true);
        let mut raised_in_all = 0;
        while let Some(from) = queue.pop_front() {
            queued[from] = false;
            for k in 0..self.out.get(&from).map_or(0, Vec::len) {
                let number = self.out[&from][k];
                let Some(to) = self.raise(number) else {
                    continue;
                };
                raised_in_all += 1;
                if self.start[to] > self.latest[to].0 {
                    return Some(self.chain(to));
                }
                if let Some(circle) = self.look_for_circle(to, facts) {
                    return Some(circle);
                }
                if !queued[to] {
                    queued[to] = true;
                    queue.push_back(to);
                }
            }
            if raised_in_all > MOST_RAISES {
                return None;
            }
        }
        None
    }

    /// Raises the start that an arc leads to, if it asks for that.
    fn raise(&mut self, number: usize) -> Option<usize> {
        let arc = &self.arcs[number].0;
        let ends = self.known[arc.from];
        let (start, finish) = ends.unwrap_or_else(|| {
            (
                self.start[arc.from],
                self.work[arc.from].finish(self.start[arc.from]),
            )
        });
        let to = arc.to;
        let lower = arc.lower(self.work[to], start, finish);
        if lower <= self.start[to] {
            return None;
        }
        self.start[to] = lower;
        self.cause[to] = Cause::Arc(number);
        self.raises[to] += 1;
        Some(to)
    }

    /// A start that is raised again and again: if its chain is a circle that clashes by itself, that.
    fn look_for_circle(&self, i: usize, facts: &Facts) -> Option<BTreeSet<ClashPart>> {
        let raises = self.raises[i];
        let small = facts.lags.len() <= 64;
        if small || raises < FIRST_LOOK || !raises.is_power_of_two() && raises != FIRST_LOOK {
            return None;
        }
        let parts = self.chain(i);
        let alone = facts.only(&parts);
        (alone.lags.len() < facts.lags.len() && alone.suspects(self.problem).is_some())
            .then_some(parts)
    }

    /// Everything in the chain that drove a start where it is.
    fn chain(&self, mut i: usize) -> BTreeSet<ClashPart> {
        let mut parts = BTreeSet::new();
        parts.extend(self.latest[i].1);
        self.add_fact_of_upper(i, &mut parts);
        let mut seen = BTreeSet::new();
        while seen.insert(i) {
            if self.known[i].is_some() {
                parts.insert(ClashPart::Fact(ActivityId::from(i)));
                return parts;
            }
            parts.insert(ClashPart::Work(ActivityId::from(i)));
            match self.cause[i] {
                Cause::Now => return parts,
                Cause::Date(part) => {
                    parts.insert(part);
                    return parts;
                }
                Cause::Arc(number) => {
                    parts.insert(self.arcs[number].1);
                    i = self.arcs[number].0.from;
                }
            }
        }
        parts
    }

    /// The fact at the other end of the lag that bounds a start from above.
    fn add_fact_of_upper(&self, i: usize, parts: &mut BTreeSet<ClashPart>) {
        let Some(ClashPart::Lag(id, _)) = self.latest[i].1 else {
            return;
        };
        let lag = self.problem.lags[id.index()];
        for end in [lag.from, lag.to] {
            if self.known[end.index()].is_some() {
                parts.insert(ClashPart::Fact(end));
            }
        }
    }
}

/// The ends of what is done or begun, if that counts.
fn known(problem: &Problem, facts: &Facts, i: usize) -> Option<(Tick, Tick)> {
    if !facts.known.contains(&ActivityId::from(i)) {
        return None;
    }
    let work = Work::of(problem, &problem.activities[i]);
    match problem.activities[i].fact {
        Fact::Open => None,
        Fact::Done { from, until } => Some((from, until)),
        Fact::Begun { at, left } => {
            let finish = Work {
                work: left.max(0),
                ..work
            }
            .finish(at.max(problem.now));
            Some((at, finish.min(NEVER)))
        }
    }
}
