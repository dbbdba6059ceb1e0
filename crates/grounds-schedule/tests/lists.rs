//! Lists, justification, the population and the bound on small problems that can be gone through.

use std::sync::Arc;

use grounds_schedule::chance::Chance;
use grounds_schedule::plain::bound::energetic;
use grounds_schedule::plain::justify::{Builder, Cuts};
use grounds_schedule::plain::precedence::{Precedence, longest_path};
use grounds_schedule::plain::{Core, Known, Population, Worker};
use grounds_schedule::{
    Activity, ActivityId, Clock, Date, End, Lag, Plan, Problem, Resource, ResourceId, Side, Tick,
    Use, verify,
};
use proptest::prelude::*;

/// What random small problems have.
#[derive(Clone, Copy)]
struct Kind {
    activities: usize,
    resources: usize,
    /// Waits from any end to any end, some shorter than nothing, and dates before which some cannot
    /// start; without it only work after work.
    any_waits: bool,
    capacity: u32,
    /// All times are multiples of this.
    step: Tick,
}

fn problem(seed: u64, kind: Kind) -> Problem {
    let mut chance = Chance::new(seed);
    let mut problem = Problem {
        now: 40,
        horizon: 40 + 60 * kind.step * kind.activities as Tick,
        ..Problem::default()
    };
    for _ in 0..kind.resources {
        problem.resources.push(Resource {
            capacity: kind.capacity,
            return_cents: 0,
            visit_gap: 0,
        });
    }
    for i in 0..kind.activities {
        let mut activity = Activity {
            work: kind.step * chance.between(0, 6),
            ..Activity::default()
        };
        for resource in 0..kind.resources {
            if chance.happens(60) {
                let amount = 1 + chance.below(kind.capacity as usize) as u32;
                activity.uses.push(Use {
                    resource: ResourceId::from(resource),
                    amount,
                });
            }
        }
        problem.activities.push(activity);
        for from in 0..i {
            if chance.happens(25) {
                problem.lags.push(wait(&mut chance, from, i, kind));
            }
        }
        if kind.any_waits && chance.happens(30) {
            problem.dates.push(Date {
                activity: ActivityId::from(i),
                end: End::Start,
                side: Side::NotBefore,
                at: 40 + kind.step * chance.between(0, 12),
            });
        }
    }
    problem
}

fn wait(chance: &mut Chance, from: usize, to: usize, kind: Kind) -> Lag {
    let ends = [End::Start, End::Finish];
    let (from_end, to_end, min) = if kind.any_waits {
        let length = kind.step * chance.between(-3, 5);
        (ends[chance.below(2)], ends[chance.below(2)], length)
    } else {
        (End::Finish, End::Start, 0)
    };
    Lag {
        from: ActivityId::from(from),
        from_end,
        to: ActivityId::from(to),
        to_end,
        min: Some(min),
        max: None,
        clock: Clock::Elapsed,
    }
}

fn core_of(problem: &Problem) -> Core {
    Core::of(problem).unwrap_or_default()
}

fn precedence_of(core: &Core) -> Precedence {
    Precedence::of(core.count(), &core.waits).unwrap_or_default()
}

/// The shortest of all plans in which each activity in turn begins as early as it can, over all orders;
/// one of these is as short as any plan can be (Sprecher, Kolisch and Drexl 1995: active schedules).
/// Nothing of the search is used.
fn shortest(core: &Core) -> Tick {
    fn go(core: &Core, starts: &mut Vec<Option<Tick>>, best: &mut Tick) {
        let end = |i: usize, start: Tick| start + core.durations[i];
        let finish = (0..core.count()).filter_map(|i| starts[i].map(|start| end(i, start)));
        if finish.max().unwrap_or(0) >= *best {
            return;
        }
        if starts.iter().all(Option::is_some) {
            let finish = (0..core.count()).filter_map(|i| starts[i].map(|start| end(i, start)));
            *best = finish.max().unwrap_or(0);
            return;
        }
        for i in 0..core.count() {
            let mut waits = core.waits.iter().filter(|wait| wait.to as usize == i);
            let ready = waits.try_fold(core.earliest[i], |ready, wait| {
                starts[wait.from as usize].map(|start| ready.max(start + wait.ticks))
            });
            let (None, Some(ready)) = (starts[i], ready) else {
                continue;
            };
            let fits = |&start: &Tick| {
                (start..end(i, start)).all(|tick| {
                    (0..core.resources()).all(|k| {
                        let at_work = (0..core.count())
                            .filter(|&j| starts[j].is_some_and(|s| s <= tick && tick < end(j, s)));
                        let used: u32 = at_work.map(|j| core.demand(j)[k]).sum();
                        used + core.demand(i)[k] <= core.capacities[k]
                    })
                })
            };
            let start = (ready..).find(fits);
            starts[i] = start;
            go(core, starts, best);
            starts[i] = None;
        }
    }
    let mut best = Tick::MAX;
    go(core, &mut vec![None; core.count()], &mut best);
    best
}

/// The best plan that a population finds in some slices, each passed by the proof.
fn found(problem: &Problem, core: &Core, seed: u64, slices: usize) -> Option<(Vec<Tick>, Tick)> {
    let mut population = Population::new(core, seed);
    let mut known = Known {
        best: None,
        bound: 0,
    };
    for _ in 0..slices {
        let found = population.slice(500, &known);
        let Some(starts) = found.starts else {
            continue;
        };
        let finishes = starts.iter().zip(&core.durations);
        let plan = Plan {
            finishes: finishes.map(|(start, work)| start + work).collect(),
            starts: starts.clone(),
        };
        assert!(verify(problem, &plan).is_empty());
        let finish = core.finish(&starts);
        assert!(known.best.as_ref().is_none_or(|(_, best)| finish < *best));
        known.best = Some((Arc::from(starts), finish));
    }
    known.best.map(|(starts, finish)| (starts.to_vec(), finish))
}

fn lists_of(core: &Core, precedence: &Precedence, chance: &mut Chance) -> Vec<u32> {
    let mut list: Vec<u32> = (0..core.count() as u32).collect();
    for k in (1..list.len()).rev() {
        list.swap(k, chance.below(k + 1));
    }
    let mut builder = Builder::<2>::new(core, precedence, 1);
    builder.straighten(&mut list);
    list
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn the_population_finds_what_going_through_all_orders_finds(
        seed in any::<u64>(),
        activities in 1_usize..=6,
        resources in 0_usize..=6,
        any_waits in any::<bool>(),
        step in 1..=3,
    ) {
        let kind = Kind { activities, resources, any_waits, capacity: 3, step };
        let problem = problem(seed, kind);
        let core = core_of(&problem);
        let best = shortest(&core);
        let found = found(&problem, &core, seed, 12);
        prop_assert_eq!(found.map(|(_, finish)| finish), Some(best));
        let precedence = precedence_of(&core);
        let bound = energetic(&core, &precedence);
        prop_assert!(longest_path(&core, &precedence) <= bound && bound <= best);
    }

    #[test]
    fn pushing_a_schedule_against_its_end_and_back_never_makes_it_longer(
        seed in any::<u64>(),
        activities in 1_usize..=40,
        resources in 1_usize..=6,
    ) {
        let kind = Kind { activities, resources, any_waits: false, capacity: 5, step: 1 };
        let core = core_of(&problem(seed, kind));
        let core = Core { earliest: vec![0; core.count()], ..core };
        let precedence = precedence_of(&core);
        let mut chance = Chance::new(seed);
        let list = lists_of(&core, &precedence, &mut chance);
        let mut builder = Builder::<2>::new(&core, &precedence, 2000);
        let mut starts = vec![0; core.count()];
        let mut finish = builder.schedule(&list, &mut starts, 1000);
        prop_assert_eq!(finish, Some(core.finish(&starts)));
        for _ in 0..3 {
            let last = finish.unwrap_or(0);
            finish = builder.justify(&mut starts, last, Cuts::all(1000));
            prop_assert!(finish.is_some_and(|finish| finish <= last));
            prop_assert_eq!(finish, Some(core.finish(&starts)));
        }
    }

    #[test]
    fn plans_of_large_problems_hold(
        seed in any::<u64>(),
        activities in 30_usize..=60,
        resources in 1_usize..=70,
        any_waits in any::<bool>(),
        capacity in prop_oneof![1_u32..6, Just(1_000_000)],
    ) {
        let kind = Kind { activities, resources, any_waits, capacity, step: 1 };
        let problem = problem(seed, kind);
        let core = core_of(&problem);
        let found = found(&problem, &core, seed, 2);
        let bound = energetic(&core, &precedence_of(&core));
        prop_assert!(found.is_some_and(|(_, finish)| finish >= bound));
    }
}

#[test]
fn the_same_seed_breeds_the_same_plans() {
    let kind = Kind {
        activities: 50,
        resources: 4,
        any_waits: false,
        capacity: 6,
        step: 1,
    };
    let problem = problem(5, kind);
    let core = core_of(&problem);
    let first = found(&problem, &core, 11, 20);
    assert!(first.is_some());
    assert_eq!(first, found(&problem, &core, 11, 20));
}

#[test]
fn a_plan_from_elsewhere_is_not_given_back_as_news() {
    let kind = Kind {
        activities: 5,
        resources: 2,
        any_waits: false,
        capacity: 2,
        step: 1,
    };
    let problem = problem(3, kind);
    let core = core_of(&problem);
    let best = found(&problem, &core, 1, 4).map(|(starts, finish)| (Arc::from(starts), finish));
    assert_eq!(best.as_ref().map(|best| best.1), Some(shortest(&core)));
    let known = Known { best, bound: 0 };
    let found = Population::new(&core, 2).slice(2_000, &known);
    assert_eq!(found.starts, None);
}

#[test]
fn waits_in_a_circle_are_left_to_others() {
    let lag = |from: u32, to: u32, max| Lag {
        from: ActivityId(from),
        from_end: End::Finish,
        to: ActivityId(to),
        to_end: End::Start,
        min: Some(0),
        max,
        clock: Clock::Elapsed,
    };
    let coat = Activity {
        work: 4,
        ..Activity::default()
    };
    let problem = Problem {
        horizon: 100,
        activities: vec![coat.clone(), coat],
        lags: vec![lag(0, 1, Some(8))],
        ..Problem::default()
    };
    let known = Known {
        best: None,
        bound: 0,
    };
    assert!(
        Population::new(&core_of(&problem), 1)
            .slice(100, &known)
            .done
    );
}
