//! Small problems, of which every plan can be looked at.

use std::sync::Arc;

use super::engine::{Engine, Step, Style};
use super::prepare::Prepared;
use super::window::kept_order;
use super::{Exact, Windows, atom::Atom};
use crate::chance::Chance;
use crate::plain::{Core, Known, Wait, Worker};
use crate::problem::Tick;

/// The last moment at which anything may start in the problems here.
const LAST: Tick = 6;

/// A problem of two to five activities and one or two resources, with or without longest waits.
fn small(chance: &mut Chance) -> Core {
    let count = 2 + chance.below(4);
    problem(chance, count)
}

/// The same of so many activities.
fn problem(chance: &mut Chance, count: usize) -> Core {
    let resources = 1 + chance.below(2);
    let durations: Vec<Tick> = (0..count).map(|_| chance.between(0, 3)).collect();
    let mut waits = Vec::new();
    for from in 0..count as u32 {
        for to in from + 1..count as u32 {
            if chance.happens(30) {
                let ticks = chance.between(0, durations[from as usize]);
                waits.push(Wait { from, to, ticks });
            }
            if chance.happens(15) {
                let ticks = -chance.between(0, 4);
                waits.push(Wait {
                    from: to,
                    to: from,
                    ticks,
                });
            }
        }
    }
    let amount = |chance: &mut Chance| chance.between(0, 3) as u32;
    let mut demands: Vec<u32> = (0..count * resources).map(|_| amount(chance)).collect();
    for (i, _) in durations.iter().enumerate().filter(|(_, d)| **d == 0) {
        demands[i * resources..(i + 1) * resources].fill(0);
    }
    Core {
        demands,
        capacities: (0..resources)
            .map(|_| chance.between(3, 5) as u32)
            .collect(),
        earliest: (0..count)
            .map(|_| if chance.happens(20) { 1 } else { 0 })
            .collect(),
        latest: (0..count)
            .map(|_| LAST - if chance.happens(20) { 2 } else { 0 })
            .collect(),
        durations,
        waits,
    }
}

/// A problem of five activities that takes some search: little room, and no time to spare.
fn crowded(chance: &mut Chance) -> Core {
    let mut core = problem(chance, 5);
    core.waits.retain(|_| chance.happens(50));
    for (i, work) in core.durations.iter_mut().enumerate() {
        *work = (*work).max(1);
        let demand = &mut core.demands[i * core.capacities.len()..];
        demand[0] = demand[0].max(1);
    }
    core.capacities.fill(3);
    core
}

/// Whether starts obey a problem, by its definition.
fn obeys(core: &Core, starts: &[Tick]) -> bool {
    let within =
        (0..core.count()).all(|i| (core.earliest[i]..=core.latest[i]).contains(&starts[i]));
    let waited = core
        .waits
        .iter()
        .all(|w| starts[w.to as usize] - starts[w.from as usize] >= w.ticks);
    let fits = (0..core.resources()).all(|r| {
        (0..LAST + 3).all(|at| {
            let used = (0..core.count())
                .filter(|&i| starts[i] <= at && at < starts[i] + core.durations[i])
                .map(|i| core.demand(i)[r]);
            used.sum::<u32>() <= core.capacities[r]
        })
    });
    within && waited && fits
}

/// Every plan of a problem.
fn all_plans(core: &Core) -> Vec<Vec<Tick>> {
    let mut plans = vec![Vec::new()];
    for _ in 0..core.count() {
        let longer = plans.iter().flat_map(|plan: &Vec<Tick>| {
            (0..=LAST).map(move |start| {
                let mut plan = plan.clone();
                plan.push(start);
                plan
            })
        });
        // What breaks a wait already is not followed up, or there would be too many.
        plans = longer
            .filter(|plan| {
                core.waits.iter().all(|w| {
                    let (from, to) = (plan.get(w.from as usize), plan.get(w.to as usize));
                    from.zip(to).is_none_or(|(from, to)| to - from >= w.ticks)
                })
            })
            .collect();
    }
    plans.retain(|plan| obeys(core, plan));
    plans
}

/// Works in small slices to the end; the best finish, `None` if there is proved to be no plan.
fn work_out(core: &Core, mut worker: Exact) -> Option<Tick> {
    let mut known = Known {
        best: None,
        bound: 0,
    };
    for _ in 0..10_000 {
        if known.settled() {
            break;
        }
        let found = worker.slice(20, &known);
        if let Some(starts) = found.starts {
            assert!(obeys(core, &starts), "{core:?} {starts:?}");
            let finish = core.finish(&starts);
            assert!(known.best.as_ref().is_none_or(|(_, best)| finish < *best));
            known.best = Some((Arc::from(starts), finish));
        }
        if let Some(bound) = found.bound {
            known.bound = known.bound.max(bound);
        }
        if found.impossible {
            assert!(known.best.is_none());
            return None;
        }
    }
    assert!(known.settled(), "{core:?}");
    known.best.map(|(_, finish)| finish)
}

#[test]
fn the_best_makespan_is_that_of_the_best_of_all_plans() {
    let mut chance = Chance::new(1);
    let mut without = 0;
    for _ in 0..1500 {
        let core = small(&mut chance);
        let best = all_plans(&core).iter().map(|plan| core.finish(plan)).min();
        without += usize::from(best.is_none());
        assert_eq!(work_out(&core, Exact::from_above(&core)), best, "{core:?}");
        assert_eq!(work_out(&core, Exact::from_below(&core)), best, "{core:?}");
    }
    assert!((100..1400).contains(&without), "{without} have no plan");
}

#[test]
fn every_nogood_holds_in_every_plan_that_is_still_looked_for() {
    let mut chance = Chance::new(2);
    let mut learnt = 0;
    for round in 0..800 {
        let core = crowded(&mut chance);
        let plans = all_plans(&core);
        let prepared = Prepared::of(&core);
        let style = Style {
            in_time: round % 7,
            every: 0,
            guided: round % 2 == 0,
            restart: 10,
        };
        let mut engine = Engine::new(&prepared, style);
        let mut cutoff = Tick::MAX;
        let mut checked = 0;
        loop {
            engine.aim((round % 3 == 0).then(|| engine.bound()));
            let step = engine.run(50);
            let sought = plans.iter().filter(|plan| core.finish(plan) < cutoff);
            for clause in &engine.clauses[checked..] {
                for plan in sought.clone() {
                    let holds = clause
                        .iter()
                        .any(|atom| said(*atom, plan, &core, &prepared));
                    assert!(holds, "{clause:?} {plan:?} {core:?}");
                }
            }
            learnt += engine.clauses.len() - checked;
            checked = engine.clauses.len();
            match step {
                Step::Plan(starts) => {
                    cutoff = core.finish(&starts);
                    engine.cut(cutoff);
                }
                Step::Nothing => break,
                Step::Paused | Step::Refuted => {}
            }
        }
    }
    assert!(learnt > 400, "{learnt} were learnt");
}

#[test]
fn windows_only_ever_bring_better_plans_and_come_to_the_best() {
    let mut chance = Chance::new(3);
    let mut improved = 0;
    for seed in 0..200 {
        let core = crowded(&mut chance);
        let plans = all_plans(&core);
        let best = plans.iter().map(|plan| core.finish(plan)).min();
        let Some(worst) = plans.iter().max_by_key(|plan| core.finish(plan)) else {
            continue;
        };
        let mut known = Known {
            best: Some((Arc::from(worst.as_slice()), core.finish(worst))),
            bound: 0,
        };
        let mut windows = Windows::new(&core, seed);
        for _ in 0..20 {
            let Some(starts) = windows.slice(500, &known).starts else {
                continue;
            };
            let finish = core.finish(&starts);
            assert!(obeys(&core, &starts), "{core:?} {starts:?}");
            assert!(known.best.is_none_or(|(_, best)| finish < best));
            known.best = Some((Arc::from(starts), finish));
            improved += 1;
        }
        // All activities fit in one window here.
        assert_eq!(known.best.map(|(_, finish)| finish), best, "{core:?}");
    }
    assert!(improved > 100, "{improved} were better");
}

#[test]
fn the_order_of_what_is_not_free_is_kept() {
    // Three in a row on one crew: if the middle one is free, the last still follows the first.
    let core = Core {
        durations: vec![2, 3, 4],
        waits: Vec::new(),
        demands: vec![1, 1, 1],
        capacities: vec![1],
        earliest: vec![0; 3],
        latest: vec![9; 3],
    };
    let wait = |from, to, ticks| Wait { from, to, ticks };
    let kept = |free: [bool; 3]| kept_order(&core, &[0, 2, 5], &free);
    assert_eq!(kept([false, true, false]), [wait(0, 2, 2)]);
    assert_eq!(kept([false; 3]), [wait(0, 1, 2), wait(1, 2, 3)]);
    assert_eq!(kept([true; 3]), []);
}

/// Whether an atom is true of a plan; of a pair, whether it can be.
fn said(atom: Atom, plan: &[Tick], core: &Core, prepared: &Prepared) -> bool {
    let value = match atom.number() {
        n if n < core.count() => plan[n],
        n if n == core.count() => core.finish(plan),
        n => {
            let (i, j) = prepared.pairs[n - core.count() - 1];
            Tick::from(plan[i as usize] + core.durations[i as usize] <= plan[j as usize])
        }
    };
    let value = if atom.is_low() { value } else { -value };
    value >= atom.least
}
