//! A team of simple workers on a small problem.

#![allow(clippy::unwrap_used, reason = "a test may fail loudly")]

use std::num::NonZeroUsize;
use std::sync::Arc;
use std::sync::atomic::{AtomicU32, Ordering};

use super::{Lane, Limit, Outcome, Team, plan, search, solve_plain};
use crate::chance::Chance;
use crate::plain::{Core, Found, Known, Worker};
use crate::problem::{Activity, Problem, Resource, ResourceId, Tick, Use};
use crate::solve::construct;
use crate::verify::verify;

/// Does one after the other, in a drawn order, as soon as the one crew is free.
struct OneByOne {
    core: Arc<Core>,
    chance: Chance,
}

impl Worker for OneByOne {
    fn slice(&mut self, _units: u64, known: &Known) -> Found {
        let mut order: Vec<usize> = (0..self.core.count()).collect();
        order.sort_by_cached_key(|_| self.chance.number());
        let mut starts = vec![0; order.len()];
        // Leaves a gap of chance, so that some plans are better than others.
        let mut at = self.chance.between(0, 9);
        for job in order {
            starts[job] = at;
            at += self.core.durations[job];
        }
        let better = known.best.as_ref().is_none_or(|(_, finish)| at < *finish);
        Found {
            starts: better.then_some(starts),
            ..Found::default()
        }
    }
}

/// Says a bound once.
struct Says(Found);

impl Worker for Says {
    fn slice(&mut self, _units: u64, _known: &Known) -> Found {
        Found {
            done: true,
            ..std::mem::take(&mut self.0)
        }
    }
}

/// Five jobs of 1 to 5 ticks for one crew: 15 ticks in any order.
fn one_crew() -> Problem {
    let job = |work: Tick| Activity {
        work,
        uses: vec![Use {
            resource: ResourceId(0),
            amount: 1,
        }],
        ..Activity::default()
    };
    Problem {
        horizon: 100,
        resources: vec![Resource {
            capacity: 1,
            return_cents: 0,
            visit_gap: 0,
        }],
        activities: (1..=5).map(job).collect(),
        ..Problem::default()
    }
}

fn found(team: impl Fn(&Arc<Core>) -> Team, limit: Limit) -> Outcome {
    let problem = one_crew();
    let core = Arc::new(Core::of(&problem).unwrap());
    let holds = |starts: &[Tick]| verify(&problem, &plan(&core, starts)).is_empty();
    search(&core, team(&core), &holds, limit)
}

fn drawn(core: &Arc<Core>, seed: u64) -> OneByOne {
    OneByOne {
        core: Arc::clone(core),
        chance: Chance::new(seed),
    }
}

fn units(units: u64, threads: usize) -> Limit<'static> {
    let threads = NonZeroUsize::new(threads).unwrap();
    Limit::Units { units, threads }
}

#[test]
fn counted_work_gives_the_same_plan_on_one_thread_and_on_three() {
    let team = |core: &Arc<Core>| Team::of((1..=3).map(|s| Lane::of(drawn(core, s))).collect());
    for work in [4_000, 20_000, 500_000] {
        let alone = found(team, units(work, 1));
        assert_eq!(alone.refused, 0);
        assert!(alone.finish.is_some());
        for threads in [2, 3, 8] {
            assert_eq!(found(team, units(work, threads)), alone);
        }
    }
}

#[test]
fn the_search_ends_when_plan_and_bound_meet() {
    let team = |core: &Arc<Core>| {
        let bound = Found {
            bound: Some(15),
            ..Found::default()
        };
        Team::of(vec![Lane::of(drawn(core, 1)), Lane::of(Says(bound))])
    };
    let asked = AtomicU32::new(0);
    let outcome = found(
        team,
        Limit::While(&|| asked.fetch_add(1, Ordering::Relaxed) < 1_000_000),
    );
    assert_eq!((outcome.finish, outcome.bound), (Some(15), 15));
    assert!(outcome.settled());
}

#[test]
fn a_lane_gives_a_head_start_and_then_shares() {
    struct Counts(Arc<AtomicU32>);
    impl Worker for Counts {
        fn slice(&mut self, _units: u64, _known: &Known) -> Found {
            self.0.fetch_add(1, Ordering::Relaxed);
            Found::default()
        }
    }
    let (first, second) = (Arc::new(AtomicU32::new(0)), Arc::new(AtomicU32::new(0)));
    let known = Known {
        best: None,
        bound: 0,
    };
    let mut lane = Lane::default()
        .with(Counts(Arc::clone(&first)), 30, 1)
        .with(Counts(Arc::clone(&second)), 0, 3);
    (0..11).for_each(|_| {
        lane.turn(10, &known);
    });
    let turns = |of: &AtomicU32| of.load(Ordering::Relaxed);
    assert_eq!((turns(&first), turns(&second)), (3 + 2, 6));
}

#[test]
fn what_is_not_true_is_refused() {
    let overlapping = Found {
        starts: Some(vec![0; 5]),
        ..Found::default()
    };
    let liar = |lie: &Found| {
        let lie = lie.clone();
        move |_: &Arc<Core>| Team::of(vec![Lane::of(Says(lie.clone()))])
    };
    let outcome = found(liar(&overlapping), units(10_000, 1));
    assert_eq!((outcome.starts, outcome.refused), (None, 1));
    let both = |lie: Found| {
        move |core: &Arc<Core>| {
            Team::of(vec![Lane::of(drawn(core, 1)), Lane::of(Says(lie.clone()))])
        }
    };
    let lies = [
        Found {
            bound: Some(99),
            ..Found::default()
        },
        Found {
            impossible: true,
            ..Found::default()
        },
    ];
    for lie in lies {
        let outcome = found(both(lie), units(10_000, 1));
        assert!(outcome.finish.is_some() && !outcome.impossible);
        assert_eq!(outcome.refused, 1);
    }
}

#[test]
fn a_plain_problem_is_solved_into_a_plan_that_its_order_makes_again() {
    let problem = one_crew();
    let solved = solve_plain(&problem, NonZeroUsize::MIN, 1, units(100_000, 1));
    let solved = solved.unwrap().unwrap();
    assert_eq!(solved.breaches, []);
    assert_eq!(solved.plan.finishes.iter().max(), Some(&15));
    assert_eq!(construct(&problem, &solved.order).unwrap(), solved.plan);
}
