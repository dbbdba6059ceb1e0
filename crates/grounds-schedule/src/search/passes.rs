//! Earliest and latest starts by lags, dates, facts and working hours alone.

use super::clock::NEVER;
use super::compiled::Compiled;
use crate::problem::{Due, Tick};

/// Rounds within one block after which a circle is taken as endless.
const ROUNDS: usize = 2_000;

/// Earliest starts, as if there were crews and ways enough.
#[derive(Clone, Debug, Default)]
pub(crate) struct Forward {
    /// Earliest starts.
    pub(crate) starts: Vec<Tick>,
    /// Arcs that can never hold together with the others of their block, and were left out.
    pub(crate) hopeless: Vec<bool>,
}

/// Computes earliest starts. In a block that can never hold, the arcs that asked for too much are
/// left out, longest waits first, until the rest holds; then those that need not have been are
/// taken in again.
pub(crate) fn forward(c: &Compiled) -> Forward {
    let mut pass = Forward {
        starts: c.earliest.clone(),
        hopeless: vec![false; c.arcs.len()],
    };
    for members in &c.blocks.members {
        let base: Vec<Tick> = members.iter().map(|&m| pass.starts[m]).collect();
        let restore = |starts: &mut [Tick]| {
            for (&m, &start) in members.iter().zip(&base) {
                starts[m] = start;
            }
        };
        let mut blamed = Vec::new();
        while let Some(arc) = settle(c, members, &mut pass.starts, &pass.hopeless) {
            pass.hopeless[arc] = true;
            blamed.push(arc);
            restore(&mut pass.starts);
        }
        for arc in blamed {
            restore(&mut pass.starts);
            pass.hopeless[arc] = false;
            if settle(c, members, &mut pass.starts, &pass.hopeless).is_some() {
                pass.hopeless[arc] = true;
                restore(&mut pass.starts);
                settle(c, members, &mut pass.starts, &pass.hopeless);
            }
        }
        for &m in members {
            push(c, m, &mut pass.starts, &pass.hopeless);
        }
    }
    pass
}

/// Raises the starts of what waits for `m` outside its block.
fn push(c: &Compiled, m: usize, starts: &mut [Tick], left_out: &[bool]) {
    let (start, finish) = (starts[m], c.work[m].finish(starts[m]));
    for i in c.out.of(m).filter(|&i| !left_out[i]) {
        let arc = &c.arcs[i];
        if c.blocks.of[arc.to] != c.blocks.of[m] {
            starts[arc.to] = starts[arc.to].max(arc.lower(c.work[arc.to], start, finish));
        }
    }
}

/// Raises the starts of a block's members until all its arcs hold. If they never do, or only
/// beyond the horizon because of a longest wait, the arc to leave out.
pub(crate) fn settle(
    c: &Compiled,
    members: &[usize],
    starts: &mut [Tick],
    left_out: &[bool],
) -> Option<usize> {
    let late = |starts: &[Tick]| members.iter().any(|&m| starts[m] > c.problem.horizon);
    if members.len() == 1 || late(starts) {
        return None;
    }
    let mut longest = None;
    for round in 0..members.len() + ROUNDS {
        let raised = raise_all(c, members, starts, left_out);
        let arc = raised?;
        if c.arcs[arc].longest {
            longest = Some(arc);
        }
        if late(starts) && longest.is_some() {
            return longest;
        }
        if late(starts) && round > members.len() {
            return raised;
        }
    }
    longest
}

/// One round over all arcs of a block: an arc that raised a start, a longest wait if there was one.
fn raise_all(
    c: &Compiled,
    members: &[usize],
    starts: &mut [Tick],
    left_out: &[bool],
) -> Option<usize> {
    let block = c.blocks.of[members[0]];
    let mut raised: Option<usize> = None;
    for &m in members {
        let (start, finish) = (starts[m], c.work[m].finish(starts[m]));
        for i in c.out.of(m).filter(|&i| !left_out[i]) {
            let arc = &c.arcs[i];
            if c.blocks.of[arc.to] != block {
                continue;
            }
            let lower = arc.lower(c.work[arc.to], start, finish);
            if lower > starts[arc.to] {
                starts[arc.to] = lower;
                if arc.longest || raised.is_none() {
                    raised = Some(i);
                }
            }
        }
    }
    raised
}

/// Latest starts that still let everything finish by `target`, by its own dates, and by `dues`.
pub(crate) fn backward(c: &Compiled, target: Tick, dues: &[Due], left_out: &[bool]) -> Vec<Tick> {
    let mut latest: Vec<Tick> = c.latest.clone();
    for (i, start) in latest.iter_mut().enumerate().filter(|(i, _)| c.open[*i]) {
        *start = (*start).min(c.work[i].last_start_to_finish(target));
    }
    for due in dues {
        let i = due.activity.index();
        latest[i] = latest[i].min(c.work[i].last_start_to_finish(due.at));
    }
    push_back(c, &mut latest, left_out);
    latest
}

/// Latest starts that still let everything finish by `target`, whatever else was set a date.
pub(crate) fn backward_to(c: &Compiled, target: Tick, left_out: &[bool]) -> Vec<Tick> {
    let open = (0..c.count()).map(|i| c.open[i].then(|| c.work[i].last_start_to_finish(target)));
    let mut latest: Vec<Tick> = open.map(|start| start.unwrap_or(NEVER)).collect();
    push_back(c, &mut latest, left_out);
    latest
}

/// Lowers latest starts until what comes before lets what follows begin in time.
fn push_back(c: &Compiled, latest: &mut [Tick], left_out: &[bool]) {
    for members in c.blocks.members.iter().rev() {
        for _ in 0..members.len() + 1 {
            let mut lowered = false;
            for &m in members.iter().rev() {
                for i in c.out.of(m).filter(|&i| !left_out[i]) {
                    let arc = &c.arcs[i];
                    let to = latest[arc.to];
                    if to <= -NEVER || to >= NEVER {
                        continue;
                    }
                    let upper = arc.upper(c.work[m], to, c.work[arc.to].finish(to));
                    if upper < latest[m] {
                        latest[m] = upper;
                        lowered = true;
                    }
                }
            }
            if !lowered {
                break;
            }
        }
    }
}
