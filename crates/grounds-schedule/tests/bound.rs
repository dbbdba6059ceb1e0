//! No order of work ends before the bound, and the bound can say why.

mod common;

use common::*;
use grounds_schedule::*;

fn last_finish(problem: &Problem, plan: &Plan) -> Tick {
    let ends = plan.finishes.iter().zip(&problem.activities);
    let going_on = ends.filter(|(_, a)| !matches!(a.fact, Fact::Done { .. }));
    going_on
        .map(|(&finish, _)| finish)
        .max()
        .unwrap_or(problem.now)
        .max(problem.now)
}

#[test]
fn one_tiler_cannot_tile_two_rooms_at_a_time() {
    // Three rooms of two days each; the screed is dry on Wednesday; a day of drying afterwards.
    let mut problem = house();
    let tiler = crew(&mut problem, 1);
    let rooms: Vec<ActivityId> = (0..3)
        .map(|_| {
            let tile = Activity {
                uses: one(tiler),
                ..work(16 * HOUR)
            };
            add(&mut problem, tile)
        })
        .collect();
    for &room in &rooms {
        date(&mut problem, room, End::Start, Side::NotBefore, at(2, 0));
        let grout = add(&mut problem, work(2 * HOUR));
        after(&mut problem, room, grout, 24 * HOUR);
    }
    // Wednesday and six working days: Wednesday of the next week, 16:00. A day later somebody grouts:
    // Friday, 8:00 to 10:00.
    let bound = bound_why(&problem).unwrap();
    assert_eq!(bound.at, at(11, 10));
    let EndWhy::Load {
        resource,
        activities,
        head,
        ticks,
        done_by,
        ..
    } = bound.why
    else {
        panic!("the tiler is the reason");
    };
    assert_eq!(resource, tiler);
    assert_eq!(activities, rooms);
    assert_eq!((head, done_by), (at(2, 8), at(9, 16)));
    assert_eq!(ticks, 48 * 4);
    assert_eq!(last_finish(&problem, &plan(&problem)), at(11, 10));
}

#[test]
fn two_tilers_take_half_as_long() {
    let mut problem = house();
    let tilers = crew(&mut problem, 2);
    for _ in 0..4 {
        let tile = Activity {
            uses: one(tilers),
            ..work(8 * HOUR)
        };
        add(&mut problem, tile);
    }
    assert_eq!(bound(&problem).unwrap(), at(1, 16));
}

#[test]
fn without_crews_the_longest_chain_is_the_reason() {
    let mut problem = house();
    let skim = add(&mut problem, work(4 * HOUR));
    let paint = add(&mut problem, work(2 * HOUR));
    add(&mut problem, work(8 * HOUR));
    let dry = after(&mut problem, skim, paint, 48 * HOUR);
    let bound = bound_why(&problem).unwrap();
    assert_eq!(bound.at, at(2, 14));
    let first = Link {
        activity: skim,
        lag: None,
    };
    let second = Link {
        activity: paint,
        lag: Some(dry),
    };
    assert_eq!(bound.why, EndWhy::Chain(vec![first, second]));
}

#[test]
fn when_all_is_done_the_bound_is_now() {
    let mut problem = house();
    problem.now = at(3, 9);
    let fact = Fact::Done {
        from: at(0, 8),
        until: at(0, 9),
    };
    add(&mut problem, Activity { fact, ..work(4) });
    let nothing = EarliestEnd {
        at: at(3, 9),
        why: EndWhy::Nothing,
    };
    assert_eq!(bound_why(&problem).unwrap(), nothing);
}

#[test]
fn no_plan_of_thousands_of_houses_ends_before_the_bound() {
    let (mut by_load, mut tight) = (0, 0);
    for seed in 0..6_000 {
        let problem = random::small(seed);
        let effort = Effort {
            schedules: 12,
            ..Effort::default()
        };
        let solved = solve(&problem, &effort).unwrap();
        if !solved.breaches.is_empty() {
            continue;
        }
        let bound = bound_why(&problem).unwrap();
        let last = last_finish(&problem, &solved.plan);
        assert!(bound.at <= last, "house {seed}: {bound:?} {last}");
        by_load += usize::from(matches!(bound.why, EndWhy::Load { .. }));
        tight += usize::from(bound.at == last);
    }
    println!("{by_load} by crews or rooms, {tight} met");
    assert!(by_load > 250, "{by_load}");
}

#[test]
fn no_list_of_all_lists_of_a_tiny_house_ends_before_the_bound() {
    for seed in 0..400 {
        let problem = random::small(seed);
        if problem.activities.len() > 6 {
            continue;
        }
        let bound = bound(&problem).unwrap();
        let mut planner = Planner::new(&problem).unwrap();
        let mut list: Vec<ActivityId> = (0..problem.activities.len())
            .map(ActivityId::from)
            .collect();
        every_order(&mut list, 0, &mut |list| {
            let plan = planner.construct(list);
            if verify(&problem, &plan).is_empty() {
                assert!(bound <= last_finish(&problem, &plan), "house {seed}");
            }
        });
    }
}

fn every_order(list: &mut Vec<ActivityId>, from: usize, see: &mut impl FnMut(&[ActivityId])) {
    if from + 1 >= list.len() {
        return see(list);
    }
    for k in from..list.len() {
        list.swap(from, k);
        every_order(list, from + 1, see);
        list.swap(from, k);
    }
}

#[test]
fn the_chain_of_a_whole_house_follows_its_lags() {
    for seed in 0..4 {
        let problem = random::finish_phase(seed, 500);
        let bound = bound_why(&problem).unwrap();
        let chain = match bound.why {
            EndWhy::Chain(chain) => chain,
            EndWhy::Load {
                before, activities, ..
            } => {
                assert_eq!(
                    before.last().map(|l| l.activity),
                    activities.first().copied()
                );
                before
            }
            EndWhy::Nothing => panic!("house {seed} has work left"),
        };
        assert_eq!(chain[0].lag, None);
        for pair in chain.windows(2) {
            let lag = problem.lags[pair[1].lag.unwrap().index()];
            let ends = [lag.from, lag.to];
            assert!(ends.contains(&pair[0].activity) && ends.contains(&pair[1].activity));
        }
    }
}
