//! The longest chain of work and waits.

use crate::problem::{ActivityId, Fact, LagId, Tick};
use crate::search::clock::NEVER;
use crate::search::compiled::{Compiled, arcs_of};
use crate::search::passes::Forward;

/// A piece of work in a chain, with the wait that leads to it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Link {
    /// The work.
    pub activity: ActivityId,
    /// The lag from the one before; `None` for the first, which begins as soon as facts, dates and
    /// hours allow.
    pub lag: Option<LagId>,
}

/// The earliest end by time alone, and what ends then.
pub(super) fn end(c: &Compiled, early: &Forward) -> Option<(Tick, usize)> {
    let finishes = (0..c.count()).filter_map(|i| match c.problem.activities[i].fact {
        Fact::Open => Some((c.work[i].finish(early.starts[i]), i)),
        Fact::Begun { .. } => Some((c.known[i].1, i)),
        Fact::Done { .. } => None,
    });
    finishes.filter(|&(finish, _)| finish < NEVER).max()
}

/// The chain that leads to an activity's earliest start, the first work first.
pub(super) fn to(c: &Compiled, early: &Forward, last: usize) -> Vec<Link> {
    let ends = |i: usize| match c.open[i] {
        true => (early.starts[i], c.work[i].finish(early.starts[i])),
        false => c.known[i],
    };
    let mut into = vec![Vec::new(); c.count()];
    for id in (0..c.problem.lags.len()).map(LagId::from) {
        for arc in arcs_of(c.problem, id) {
            into[arc.to].push((id, arc));
        }
    }
    let mut chain = Vec::new();
    let mut seen = vec![false; c.count()];
    let mut at = last;
    loop {
        seen[at] = true;
        let before = into[at].iter().find(|(_, arc)| {
            let (start, finish) = ends(arc.from);
            let drives = arc.lower(c.work[at], start, finish) >= early.starts[at];
            c.open[at] && !seen[arc.from] && drives
        });
        chain.push(Link {
            activity: ActivityId::from(at),
            lag: before.map(|(id, _)| *id),
        });
        match before {
            Some((_, arc)) => at = arc.from,
            None => break,
        }
    }
    chain.reverse();
    chain
}
