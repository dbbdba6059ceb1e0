//! The plan that people know, carried over a change: what can start when it was going to, does.
//!
//! A list places everything as early as it fits, so a quarter of an hour more somewhere can send work
//! to a gap weeks away. Here everything stays where it was known to be, and only what cannot moves, to
//! the first place from there on that holds it (matching up with the plan before: Bean, Birge, Mittenthal
//! and Noon, *Operations Research* 39, 1991; from memory).

use crate::plan::Plan;
use crate::planner::Planner;
use crate::problem::{ActivityId, Fact, Problem, Tick};
use crate::search::construct::Broken;
use crate::search::improve::Worth;
use crate::solve::{Faulty, Solved};
use crate::spare::Spared;
use crate::verify::verify;

/// The plan for people who know when things were going to start: the one that keeps to it as far as
/// possible, unless the one they would have otherwise is well worth the trouble (it breaks less, ends a
/// day earlier at no more cost, or costs more than half a percent less).
///
/// `spared` is what they would have otherwise; the list of the plan stays its list. `known` has by
/// position when an activity was going to start, and nothing for what is new.
///
/// # Errors
///
/// [`Faulty`] with everything that is wrong with the statement of the problem.
pub fn steady(problem: &Problem, spared: Spared, known: &[Option<Tick>]) -> Result<Spared, Faulty> {
    let mut keeper = Keeper {
        planner: Planner::new(problem)?,
        spared: &spared,
        known,
    };
    let other = worth(problem, &spared.solved);
    let left = other.finish.saturating_sub(problem.now);
    let untils = (1..PARTS)
        .rev()
        .map(|part| problem.now + left / PARTS * part);
    let kept = std::iter::once(Tick::MAX).chain(untils).find_map(|until| {
        let mut kept = keeper.kept(until);
        kept.retain(|kept| !other.is_well_worth_leaving(&worth(problem, kept)));
        kept.into_iter().min_by_key(|kept| keeper.moved(&kept.plan))
    });
    Ok(match kept {
        Some(kept) => steadied(&spared, kept),
        None => spared,
    })
}

/// The plan that is kept, with what waits on purpose still.
fn steadied(spared: &Spared, kept: Solved) -> Spared {
    let starts = &kept.plan.starts;
    let later = spared.put_later.iter().copied();
    Spared {
        put_later: later
            .filter(|later| later.could < starts[later.activity.index()])
            .collect(),
        as_listed: spared.as_listed.clone(),
        solved: kept,
    }
}

struct Keeper<'a> {
    planner: Planner<'a>,
    /// What people would have otherwise.
    spared: &'a Spared,
    /// When activities were going to start, by position.
    known: &'a [Option<Tick>],
}

impl Keeper<'_> {
    /// Plans in which what was known to start before a moment starts then, and the rest when it would
    /// otherwise; what cannot has the first place after that. Placed in the order of the list, which
    /// knows what matters more; where that moves much, also with the first that cannot stay placed
    /// last, so that others need not make room for it.
    fn kept(&mut self, until: Tick) -> Vec<Solved> {
        let known = self.known.iter().copied().chain(std::iter::repeat(None));
        let otherwise = self.spared.solved.plan.starts.iter().zip(known);
        let wanted: Vec<Tick> = otherwise
            .map(|(&start, at)| at.filter(|at| *at < until).unwrap_or(start))
            .collect();
        let mut order = self.spared.solved.order.clone();
        let mut all = vec![self.built(&order, &wanted)];
        if self.moved(&all[0].plan) * FEW > order.len() {
            let starts = &all[0].plan.starts;
            let first = order.iter().copied();
            let first = first.filter(|id| starts[id.index()] > wanted[id.index()]);
            if let Some(first) = first.min_by_key(|id| (wanted[id.index()], *id)) {
                order.retain(|id| *id != first);
                order.push(first);
                all.push(self.built(&order, &wanted));
            }
        }
        all
    }

    fn built(&mut self, order: &[ActivityId], not_before: &[Tick]) -> Solved {
        self.planner.build_not_before(order, not_before);
        let plan = self.planner.plan();
        Solved {
            breaches: verify(self.planner.problem(), &plan),
            cost: self.planner.price(),
            plan,
            order: self.spared.solved.order.clone(),
        }
    }

    /// How much starts otherwise than was known.
    fn moved(&self, plan: &Plan) -> usize {
        let both = self.known.iter().zip(&plan.starts);
        both.filter(|(known, start)| known.is_some_and(|known| known != **start))
            .count()
    }
}

/// Parts of the time that is left, at whose ends known starts may be left.
const PARTS: Tick = 12;

/// One start of so many may move before another way is tried.
const FEW: usize = 50;

fn worth(problem: &Problem, solved: &Solved) -> Worth {
    let ends = problem.activities.iter().zip(&solved.plan.finishes);
    let open = ends.filter(|(activity, _)| !matches!(activity.fact, Fact::Done { .. }));
    Worth {
        broken: Broken {
            count: u32::try_from(solved.breaches.len()).unwrap_or(u32::MAX),
            ticks: 0,
        },
        cents: solved.cost.total(),
        finish: open.map(|(_, &finish)| finish).max().unwrap_or(problem.now),
    }
}
