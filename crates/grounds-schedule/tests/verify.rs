//! A plan that obeys everything, broken by hand in every way: each breach is named.

mod common;

use common::*;
use grounds_schedule::*;

/// A hall and a room; tiling, then a coat in the hall, sanding next door; one crew of each.
struct Case {
    problem: Problem,
    plan: Plan,
    tile: ActivityId,
    grout: ActivityId,
    coat: ActivityId,
    sand: ActivityId,
    tiler: ResourceId,
    hall: NodeId,
    room: NodeId,
}

fn case() -> Case {
    let mut problem = house();
    problem.now = at(0, 8);
    let tiler = crew(&mut problem, 1);
    let hall = problem.access.add();
    let room = problem.access.add();
    problem.access.join(hall, room);
    problem.access.entrances.push(hall);
    let tiling = |ticks| Activity {
        uses: one(tiler),
        at: Some(room),
        ..work(ticks)
    };
    let tile = add(&mut problem, tiling(32));
    let grout = add(
        &mut problem,
        Activity {
            unbroken: true,
            ..tiling(16)
        },
    );
    let still = Still {
        zone: ZoneId(0),
        from: moment(End::Start, 0),
        until: moment(End::Finish, 16),
    };
    let closes = vec![shut(hall, Tread::Boots, DAY)];
    let coat = Activity {
        at: Some(hall),
        closes,
        still: vec![still],
        ..work(8)
    };
    let coat = add(&mut problem, coat);
    let sand = add(
        &mut problem,
        Activity {
            dusty: Some(ZoneId(0)),
            ..work(8)
        },
    );
    lag(
        &mut problem,
        (tile, End::Finish),
        (grout, End::Start),
        Some(64),
        Some(2 * DAY),
    );
    after(&mut problem, grout, coat, 0);
    date(&mut problem, sand, End::Start, Side::NotBefore, at(0, 10));
    date(&mut problem, coat, End::Finish, Side::NotAfter, at(10, 16));
    let starts = vec![at(0, 8), at(1, 8), at(1, 12), at(0, 10)];
    let finishes = vec![at(0, 16), at(1, 12), at(1, 14), at(0, 12)];
    let plan = Plan { starts, finishes };
    Case {
        problem,
        plan,
        tile,
        grout,
        coat,
        sand,
        tiler,
        hall,
        room,
    }
}

impl Case {
    #[track_caller]
    fn moved(&self, id: ActivityId, start: Tick, finish: Tick, expected: &[Breach]) {
        let mut plan = self.plan.clone();
        plan.starts[id.index()] = start;
        plan.finishes[id.index()] = finish;
        assert_eq!(verify(&self.problem, &plan), expected);
    }
}

#[test]
fn the_plan_as_it_is_obeys_everything() {
    let case = case();
    assert_eq!(verify(&case.problem, &case.plan), []);
}

#[test]
fn grout_before_the_tile_is_set_is_too_soon() {
    let mut case = case();
    case.problem.lags[0].min = Some(65);
    assert_eq!(
        verify(&case.problem, &case.plan),
        [Breach::TooSoon(LagId(0))]
    );
}

#[test]
fn grout_after_its_window_is_too_late() {
    let mut case = case();
    case.problem.lags[0].max = Some(63);
    case.problem.lags[0].min = None;
    assert_eq!(
        verify(&case.problem, &case.plan),
        [Breach::TooLate(LagId(0))]
    );
}

#[test]
fn one_tiler_cannot_be_in_two_places() {
    let case = case();
    let users = vec![case.tile, case.grout];
    let overused = Breach::Overused {
        resource: case.tiler,
        at: at(0, 12),
        users,
    };
    case.moved(
        case.grout,
        at(0, 12),
        at(0, 16),
        &[Breach::TooSoon(LagId(0)), overused],
    );
}

#[test]
fn work_behind_a_shut_hall_is_cut_off() {
    let case = case();
    let by = vec![case.coat];
    let cut = Breach::CutOff {
        activity: case.grout,
        node: case.room,
        at: at(1, 8),
        by,
    };
    case.moved(
        case.coat,
        at(1, 8),
        at(1, 10),
        &[Breach::TooSoon(LagId(1)), cut],
    );
    assert_ne!(case.hall, case.room);
}

#[test]
fn sanding_beside_a_wet_coat_is_dust() {
    let case = case();
    let (dusty, still) = (case.sand, case.coat);
    let dust = Breach::Dust {
        dusty,
        still,
        zone: ZoneId(0),
        at: at(1, 13),
    };
    case.moved(case.sand, at(1, 13), at(1, 15), &[dust]);
}

#[test]
fn dates_are_kept_on_both_sides() {
    let case = case();
    case.moved(case.sand, at(0, 9), at(0, 11), &[Breach::Date(DateId(0))]);
    case.moved(case.coat, at(14, 8), at(14, 10), &[Breach::Date(DateId(1))]);
}

#[test]
fn the_past_the_night_and_the_end_of_time_are_no_time_to_work() {
    let case = case();
    case.moved(
        case.tile,
        at(-3, 8),
        at(-3, 16),
        &[
            Breach::Past(case.tile),
            Breach::Hours(case.tile),
            Breach::TooLate(LagId(0)),
        ],
    );
    case.moved(case.sand, at(0, 18), at(0, 20), &[Breach::Hours(case.sand)]);
    case.moved(case.sand, at(2, 15), at(2, 17), &[Breach::Hours(case.sand)]);
    case.moved(
        case.sand,
        at(365, 8),
        at(365, 10),
        &[Breach::Horizon(case.sand)],
    );
}

#[test]
fn a_finish_follows_from_the_start_and_the_work() {
    let case = case();
    case.moved(case.sand, at(0, 10), at(0, 13), &[Breach::Hours(case.sand)]);
    case.moved(case.sand, at(0, 15), at(1, 8), &[Breach::Hours(case.sand)]);
    case.moved(case.sand, at(0, 14), at(1, 8), &[Breach::Hours(case.sand)]);
    case.moved(case.sand, at(0, 15), at(1, 9), &[]);
}

#[test]
fn grout_may_not_be_left_overnight() {
    let mut case = case();
    case.problem.dates.clear();
    case.plan.starts[case.coat.index()] = at(3, 8);
    case.plan.finishes[case.coat.index()] = at(3, 10);
    case.moved(
        case.grout,
        at(1, 14),
        at(2, 10),
        &[Breach::Broken(case.grout)],
    );
}

#[test]
fn facts_are_not_moved() {
    let mut case = case();
    case.problem.now = at(0, 14);
    case.problem.activities[case.tile.index()].fact = Fact::Begun {
        at: at(0, 8),
        left: 8,
    };
    case.problem.activities[case.sand.index()].fact = Fact::Done {
        from: at(0, 10),
        until: at(0, 12),
    };
    assert_eq!(verify(&case.problem, &case.plan), []);
    case.moved(case.tile, at(0, 9), at(0, 16), &[Breach::Fact(case.tile)]);
    case.moved(case.tile, at(0, 8), at(0, 15), &[Breach::Fact(case.tile)]);
    case.moved(case.sand, at(0, 11), at(0, 12), &[Breach::Fact(case.sand)]);
}

#[test]
fn what_went_wrong_among_facts_is_not_the_plans_fault() {
    let mut case = case();
    case.problem.now = at(2, 8);
    let ends: Vec<_> = case
        .plan
        .starts
        .iter()
        .copied()
        .zip(case.plan.finishes.clone())
        .collect();
    for (activity, (from, until)) in case.problem.activities.iter_mut().zip(ends) {
        activity.fact = Fact::Done { from, until };
    }
    case.problem.lags[0].min = Some(500);
    case.problem.dates[0].at = at(5, 8);
    assert_eq!(verify(&case.problem, &case.plan), []);
}

#[test]
fn a_plan_of_another_house_is_refused() {
    let case = case();
    assert_eq!(verify(&case.problem, &Plan::default()), [Breach::Shape]);
}
