//! Textbook networks: earliest and latest starts, least and longest waits.
#![allow(clippy::unwrap_used, reason = "a test may fail loudly")]

mod common;

use common::{add, after, lag, plan, units};
use grounds_schedule::*;

/// Adds finish-to-start links between activities named by letters from A on.
fn network(durations: &[Tick], links: &[(char, char)]) -> Problem {
    let mut problem = Problem {
        horizon: 1_000,
        ..Problem::default()
    };
    for &duration in durations {
        add(&mut problem, units(duration));
    }
    for &(from, to) in links {
        after(&mut problem, letter(from), letter(to), 0);
    }
    problem
}

fn letter(name: char) -> ActivityId {
    ActivityId(u32::from(name) - u32::from('A'))
}

/// Checks length, earliest and latest starts, and that the plan of an uncrowded network is the earliest.
#[track_caller]
fn check(problem: &Problem, length: Tick, earliest: &[Tick], latest: &[Tick]) {
    assert_eq!(bound(problem).unwrap(), length);
    assert_eq!(earliest_starts(problem).unwrap(), earliest);
    assert_eq!(latest_starts(problem, length).unwrap(), latest);
    assert_eq!(plan(problem).starts, earliest);
}

#[test]
fn six_activities_take_twelve_days() {
    // A university how-to page [published], dates recomputed.
    let links = [('A', 'C'), ('B', 'D'), ('C', 'E'), ('D', 'F'), ('E', 'F')];
    let problem = network(&[5, 4, 3, 7, 2, 1], &links);
    check(&problem, 12, &[0, 0, 5, 4, 8, 11], &[1, 0, 6, 4, 9, 11]);
}

#[test]
fn activities_on_arrows_take_twenty_days() {
    // A textbook solution manual, activity on arrow [published]: 1-2, 1-3, 2-4, 3-4, 3-5, 4-5, 5-6.
    let links = [
        ('A', 'C'),
        ('B', 'D'),
        ('B', 'E'),
        ('C', 'F'),
        ('D', 'F'),
        ('E', 'G'),
        ('F', 'G'),
    ];
    let problem = network(&[7, 10, 6, 5, 4, 3, 2], &links);
    check(
        &problem,
        20,
        &[0, 0, 7, 10, 10, 15, 18],
        &[2, 0, 9, 10, 14, 15, 18],
    );
}

#[test]
fn start_to_start_links_take_thirty_eight_days() {
    // Public course notes, precedence diagram with start-to-start links [published], dates recomputed.
    let durations = [2, 10, 13, 12, 12, 7, 10, 16, 6, 12, 5, 8, 5, 3];
    let finish_to_start = "AC AD BE BF DG DH FI CJ EL IL KL HM GN JN LN MN";
    let links: Vec<(char, char)> = finish_to_start
        .split(' ')
        .filter_map(|link| Some((link.chars().next()?, link.chars().nth(1)?)))
        .collect();
    let mut problem = network(&durations, &links);
    for (from, to) in [('A', 'B'), ('G', 'J'), ('I', 'K')] {
        lag(
            &mut problem,
            (letter(from), End::Start),
            (letter(to), End::Start),
            Some(0),
            None,
        );
    }
    let earliest = [0, 0, 2, 2, 10, 10, 14, 14, 17, 15, 17, 23, 30, 35];
    let latest = [0, 4, 10, 2, 15, 14, 23, 14, 21, 23, 22, 27, 30, 35];
    check(&problem, 38, &earliest, &latest);
}

/// Five points in time with bounds on their distances, as activities without work.
fn temporal_network() -> Problem {
    let mut problem = Problem {
        horizon: 1_000,
        ..Problem::default()
    };
    for _ in 0..5 {
        add(&mut problem, units(0));
    }
    let origin = (ActivityId(0), End::Start);
    common::date(&mut problem, ActivityId(0), End::Start, Side::NotAfter, 0);
    let point = |i| (ActivityId(i), End::Start);
    lag(&mut problem, origin, point(1), Some(10), Some(20));
    lag(&mut problem, point(1), point(2), Some(30), Some(40));
    lag(&mut problem, point(3), point(2), Some(10), Some(20));
    lag(&mut problem, point(3), point(4), Some(40), Some(50));
    lag(&mut problem, origin, point(4), Some(60), Some(70));
    problem
}

#[test]
fn five_points_in_time_have_the_printed_earliest_and_latest_times() {
    // "Temporal Constraint Networks", 1991: the simple temporal problem [from memory, recomputed].
    let problem = temporal_network();
    assert_eq!(earliest_starts(&problem).unwrap(), [0, 10, 40, 20, 60]);
    assert_eq!(latest_starts(&problem, 1_000).unwrap(), [0, 20, 50, 30, 70]);
    assert_eq!(plan(&problem).starts, [0, 10, 40, 20, 60]);
    assert_eq!(clash(&problem).unwrap(), None);
}

#[test]
fn a_sixth_bound_on_the_five_points_clashes() {
    // The same source: X4 - X1 <= 45 cannot hold, 50 being the least.
    let mut problem = temporal_network();
    let sixth = lag(
        &mut problem,
        (ActivityId(1), End::Start),
        (ActivityId(4), End::Start),
        None,
        Some(45),
    );
    let clash = clash(&problem).unwrap().unwrap();
    assert!(clash.proved);
    // X4 >= X3 + 40 >= X2 + 20 >= X1 + 50: three bounds against the new one.
    let parts = [
        ClashPart::Lag(LagId(1), Bound::Min),
        ClashPart::Lag(LagId(2), Bound::Max),
        ClashPart::Lag(LagId(3), Bound::Min),
        ClashPart::Lag(sixth, Bound::Max),
    ];
    assert_eq!(clash.parts, parts);
    let solved = solve(&problem, &Effort::default()).unwrap();
    assert_eq!(solved.breaches.len(), 1, "{:?}", solved.breaches);
}

/// Water-pop A, stain B the moment A ends, first coat C one to two days later, ceiling paint P first.
fn stained_floor(paint: Tick) -> (Problem, [ActivityId; 4]) {
    let mut problem = Problem {
        horizon: 1_000,
        ..Problem::default()
    };
    let [a, b, c, p] = [1, 1, 1, paint].map(|days| add(&mut problem, units(days)));
    lag(
        &mut problem,
        (a, End::Finish),
        (b, End::Start),
        Some(0),
        Some(0),
    );
    lag(
        &mut problem,
        (b, End::Finish),
        (c, End::Start),
        Some(1),
        Some(2),
    );
    after(&mut problem, p, c, 0);
    (problem, [a, b, c, p])
}

#[test]
fn water_popping_waits_so_that_the_first_coat_is_not_too_late() {
    // Constructed from least and longest waits; a plain forward pass would pop the floor on day 0.
    let (problem, _) = stained_floor(5);
    check(&problem, 6, &[1, 2, 5, 0], &[2, 3, 5, 0]);
}

#[test]
fn paint_between_stain_and_coat_must_be_short_enough() {
    let (mut problem, [a, _, _, p]) = stained_floor(3);
    after(&mut problem, a, p, 0);
    check(&problem, 5, &[0, 1, 4, 1], &[0, 1, 4, 1]);
    let (mut problem, [a, _, c, p]) = stained_floor(5);
    let first = after(&mut problem, a, p, 0);
    let clash = clash(&problem).unwrap().unwrap();
    for part in [
        ClashPart::Lag(first, Bound::Min),
        ClashPart::Lag(LagId(1), Bound::Max),
        ClashPart::Lag(LagId(2), Bound::Min),
        ClashPart::Work(p),
    ] {
        assert!(clash.parts.contains(&part), "{:?}", clash.parts);
    }
    assert!(!clash.parts.contains(&ClashPart::Work(c)));
    let solved = solve(&problem, &Effort::default()).unwrap();
    assert_eq!(solved.breaches.len(), 1, "as little as possible is broken");
    assert!(matches!(solved.breaches[0], Breach::TooLate(_)));
}

#[test]
fn all_kinds_of_links_together_take_ten_days() {
    // Constructed: start-start, finish-finish, finish-start, start-finish, and longest waits.
    let mut problem = Problem {
        horizon: 1_000,
        ..Problem::default()
    };
    let [a, b, c, d] = [4, 6, 3, 5].map(|days| add(&mut problem, units(days)));
    lag(
        &mut problem,
        (a, End::Start),
        (b, End::Start),
        Some(2),
        Some(3),
    );
    lag(
        &mut problem,
        (b, End::Finish),
        (c, End::Finish),
        Some(2),
        None,
    );
    lag(
        &mut problem,
        (a, End::Finish),
        (d, End::Start),
        Some(1),
        None,
    );
    lag(
        &mut problem,
        (d, End::Start),
        (c, End::Finish),
        Some(4),
        None,
    );
    lag(
        &mut problem,
        (c, End::Start),
        (d, End::Start),
        None,
        Some(10),
    );
    check(&problem, 10, &[0, 2, 7, 5], &[0, 2, 7, 5]);
}

#[test]
fn a_tile_chain_from_membrane_to_shower_glass_takes_twenty_two_days() {
    // Constructed: longest waits are slack, everything is critical.
    let mut problem = Problem {
        horizon: 1_000,
        ..Problem::default()
    };
    let days = [2, 1, 3, 1, 1, 1];
    let [membrane, flood, tile, grout, measure, glass] = days.map(|d| add(&mut problem, units(d)));
    after(&mut problem, membrane, flood, 1);
    lag(
        &mut problem,
        (flood, End::Finish),
        (tile, End::Start),
        Some(0),
        Some(3),
    );
    lag(
        &mut problem,
        (tile, End::Finish),
        (grout, End::Start),
        Some(1),
        Some(5),
    );
    after(&mut problem, grout, measure, 1);
    after(&mut problem, measure, glass, 10);
    check(&problem, 22, &[0, 3, 4, 8, 10, 21], &[0, 3, 4, 8, 10, 21]);
}

#[test]
fn one_plasterer_for_three_rooms_takes_the_rooms_in_turn() {
    // Resource-constrained: 3 jobs of 4, 3 and 2 days for one crew cannot take less than 9 days.
    let mut problem = Problem {
        horizon: 1_000,
        ..Problem::default()
    };
    let plasterer = common::crew(&mut problem, 1);
    for days in [4, 3, 2] {
        add(
            &mut problem,
            Activity {
                uses: common::one(plasterer),
                ..units(days)
            },
        );
    }
    assert_eq!(plan(&problem).finishes.iter().max(), Some(&9));
}

#[test]
fn negative_waits_let_work_overlap() {
    // Resource-constrained with general lags: the second may begin up to 3 before the first ends,
    // and must begin within 1 after it began.
    let mut problem = Problem {
        horizon: 1_000,
        ..Problem::default()
    };
    let [a, b] = [5, 4].map(|days| add(&mut problem, units(days)));
    lag(
        &mut problem,
        (a, End::Finish),
        (b, End::Start),
        Some(-3),
        None,
    );
    lag(
        &mut problem,
        (a, End::Start),
        (b, End::Start),
        None,
        Some(2),
    );
    assert_eq!(plan(&problem).starts, [0, 2]);
}
