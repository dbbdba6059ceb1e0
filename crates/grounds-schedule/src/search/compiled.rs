//! A problem made ready for search: arcs, blocks, earliest starts, ways, and what facts leave behind.

use std::collections::BTreeMap;

use super::arcs::{Arc, Lists, pick};
use super::blocks::Blocks;
use super::clock::{NEVER, Work, of_clock};
use super::state::State;
use super::ways::Ways;
use crate::problem::{Fact, LagId, Problem, Side, Still, Tick, ZoneId};

/// A problem made ready for search. Nothing in it changes from one plan to the next.
pub(crate) struct Compiled<'a> {
    pub(crate) problem: &'a Problem,
    pub(crate) work: Vec<Work<'a>>,
    pub(crate) open: Vec<bool>,
    /// Ends of facts.
    pub(crate) known: Vec<(Tick, Tick)>,
    /// Arcs between two different open activities.
    pub(crate) arcs: Vec<Arc<'a>>,
    pub(crate) out: Lists,
    pub(crate) into: Lists,
    /// Arcs from an open activity to itself.
    pub(crate) own: Vec<Arc<'a>>,
    pub(crate) own_of: Lists,
    pub(crate) blocks: Blocks,
    /// Earliest starts by now, dates and facts alone.
    pub(crate) earliest: Vec<Tick>,
    /// Latest starts by dates and facts alone.
    pub(crate) latest: Vec<Tick>,
    /// Air, numbered from 0.
    pub(crate) dusty: Vec<Option<usize>>,
    pub(crate) still: Vec<Vec<(usize, Still)>>,
    pub(crate) zones: usize,
    pub(crate) base: State,
}

impl<'a> Compiled<'a> {
    /// Makes a problem without faults ready.
    pub(crate) fn new(problem: &'a Problem) -> (Self, Ways) {
        let count = problem.activities.len();
        let work: Vec<Work> = problem
            .activities
            .iter()
            .map(|a| Work::of(problem, a))
            .collect();
        let open: Vec<bool> = problem
            .activities
            .iter()
            .map(|a| a.fact == Fact::Open)
            .collect();
        let known = known_ends(problem, &work);
        let (arcs, own, to_open, to_fact) = sort_arcs(problem, &open, &known);
        let out = Lists::new(count, arcs.iter().enumerate().map(|(i, arc)| (arc.from, i)));
        let into = Lists::new(count, arcs.iter().enumerate().map(|(i, arc)| (arc.to, i)));
        let own_of = Lists::new(count, own.iter().enumerate().map(|(i, arc)| (arc.to, i)));
        let blocks = Blocks::find(&open, &arcs, &out);
        let earliest = earliest_starts(problem, &work, &known, &to_open);
        let latest = latest_starts(problem, &work, &known, &to_fact);
        let (dusty, still, zones) = number_zones(problem);
        let ways = Ways::new(problem);
        let mut compiled = Self {
            problem,
            work,
            open,
            known,
            arcs,
            out,
            into,
            own,
            own_of,
            blocks,
            earliest,
            latest,
            dusty,
            still,
            zones,
            base: State::default(),
        };
        compiled.base = State::with_facts(&compiled);
        (compiled, ways)
    }

    /// Number of activities.
    pub(crate) fn count(&self) -> usize {
        self.problem.activities.len()
    }
}

/// Ends of done and begun work; begun work without enough hours left never ends.
fn known_ends(problem: &Problem, work: &[Work]) -> Vec<(Tick, Tick)> {
    let ends = |(activity, work): (&crate::problem::Activity, &Work)| match activity.fact {
        Fact::Open => (NEVER, NEVER),
        Fact::Done { from, until } => (from, until),
        Fact::Begun { at, left } => (
            at,
            Work {
                work: left.max(0),
                ..*work
            }
            .finish(at.max(problem.now)),
        ),
    };
    problem.activities.iter().zip(work).map(ends).collect()
}

type Sorted<'a> = (Vec<Arc<'a>>, Vec<Arc<'a>>, Vec<Arc<'a>>, Vec<Arc<'a>>);

/// Both sides of all lags: between open activities, from one to itself, from facts, into facts.
fn sort_arcs<'a>(problem: &'a Problem, open: &[bool], known: &[(Tick, Tick)]) -> Sorted<'a> {
    let mut sorted: Sorted = Default::default();
    for arc in (0..problem.lags.len()).flat_map(|i| arcs_of(problem, LagId::from(i))) {
        let list = match (open[arc.from], open[arc.to]) {
            (true, true) if arc.from == arc.to => &mut sorted.1,
            (true, true) => &mut sorted.0,
            (false, true) => &mut sorted.2,
            (true, false) => {
                let at = pick(arc.to_end, known[arc.to].0, known[arc.to].1);
                if !arc.longest && at <= problem.now {
                    continue; // Overtaken: what had to wait for it has already happened.
                }
                &mut sorted.3
            }
            (false, false) => continue,
        };
        list.push(arc);
    }
    sorted
}

/// The sides of one lag.
pub(crate) fn arcs_of(problem: &Problem, id: LagId) -> impl Iterator<Item = Arc<'_>> {
    let lag = problem.lags[id.index()];
    let calendar = of_clock(problem, lag.clock);
    let (from, to) = (lag.from.index(), lag.to.index());
    let least = lag.min.map(|amount| Arc {
        from,
        from_end: lag.from_end,
        to,
        to_end: lag.to_end,
        calendar,
        amount,
        longest: false,
    });
    let longest = lag.max.map(|amount| Arc {
        from: to,
        from_end: lag.to_end,
        to: from,
        to_end: lag.from_end,
        calendar,
        amount,
        longest: true,
    });
    least.into_iter().chain(longest)
}

fn earliest_starts(
    problem: &Problem,
    work: &[Work],
    known: &[(Tick, Tick)],
    from_facts: &[Arc],
) -> Vec<Tick> {
    let mut earliest: Vec<Tick> = work.iter().map(|w| w.first_start(problem.now)).collect();
    for date in problem
        .dates
        .iter()
        .filter(|date| date.side == Side::NotBefore)
    {
        let i = date.activity.index();
        earliest[i] = earliest[i].max(work[i].first_start_for(date.end, date.at));
    }
    for arc in from_facts {
        let (start, finish) = known[arc.from];
        earliest[arc.to] = earliest[arc.to].max(arc.lower(work[arc.to], start, finish));
    }
    earliest
}

fn latest_starts(
    problem: &Problem,
    work: &[Work],
    known: &[(Tick, Tick)],
    into_facts: &[Arc],
) -> Vec<Tick> {
    let horizon = problem.horizon;
    let mut latest: Vec<Tick> = work
        .iter()
        .map(|w| w.last_start_to_finish(horizon))
        .collect();
    for date in problem
        .dates
        .iter()
        .filter(|date| date.side == Side::NotAfter)
    {
        let i = date.activity.index();
        latest[i] = latest[i].min(work[i].last_start_for(date.end, date.at));
    }
    for arc in into_facts {
        let (start, finish) = known[arc.to];
        latest[arc.from] = latest[arc.from].min(arc.upper(work[arc.from], start, finish));
    }
    latest
}

type Air = (Vec<Option<usize>>, Vec<Vec<(usize, Still)>>, usize);

fn number_zones(problem: &Problem) -> Air {
    let mut numbers: BTreeMap<ZoneId, usize> = BTreeMap::new();
    let mut number = |zone: ZoneId| {
        let next = numbers.len();
        *numbers.entry(zone).or_insert(next)
    };
    let dusty = problem
        .activities
        .iter()
        .map(|a| a.dusty.map(&mut number))
        .collect();
    let stills =
        |a: &crate::problem::Activity| a.still.iter().map(|s| (number(s.zone), *s)).collect();
    let still = problem.activities.iter().map(stills).collect();
    (dusty, still, numbers.len())
}
