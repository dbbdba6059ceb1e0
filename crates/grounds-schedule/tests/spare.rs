//! Time to spare, worked out by hand.

use grounds_schedule::forecast::{Latest, Policy};
use grounds_schedule::{
    Activity, ActivityId, Clock, DAY, End, Lag, Plan, Problem, Resource, ResourceId, Use,
};

/// Work of so many days, by the one crew or by nobody in particular.
fn work(days: i32, crew: bool) -> Activity {
    let uses = Use {
        resource: ResourceId(0),
        amount: 1,
    };
    Activity {
        work: days * DAY,
        uses: Some(uses).filter(|_| crew).into_iter().collect(),
        ..Activity::default()
    }
}

fn after(from: u32, to: u32) -> Lag {
    Lag {
        from: ActivityId(from),
        from_end: End::Finish,
        to: ActivityId(to),
        to_end: End::Start,
        min: Some(0),
        max: None,
        clock: Clock::Elapsed,
    }
}

/// One crew plasters three rooms, two days each, one after the other; the first room is then painted
/// in one day, the third in four. A fourth piece of work, one day, hangs on nothing.
fn house() -> (Problem, Plan) {
    let problem = Problem {
        horizon: 100 * DAY,
        resources: vec![Resource {
            capacity: 1,
            return_cents: 0,
            visit_gap: 0,
        }],
        activities: vec![
            work(2, true),
            work(2, true),
            work(2, true),
            work(1, false),
            work(4, false),
            work(1, false),
        ],
        lags: vec![after(0, 3), after(2, 4)],
        ..Problem::default()
    };
    let starts: Vec<i32> = [0, 2, 4, 2, 6, 0].map(|day| day * DAY).into();
    let works = problem.activities.iter().map(|activity| activity.work);
    let finishes = starts.iter().zip(works).map(|(s, w)| s + w).collect();
    (problem, Plan { starts, finishes })
}

fn latest_days(kept: &[ActivityId]) -> Vec<Option<(i32, i32)>> {
    let (problem, plan) = house();
    let policy = Policy::of(&problem, &plan).expect("a plan");
    let wanted: Vec<ActivityId> = (0..6).map(ActivityId).collect();
    let latest = policy.latest(&wanted, kept);
    let days = |latest: Latest| (latest.start / DAY, latest.finish / DAY);
    latest.into_iter().map(|each| each.map(days)).collect()
}

#[test]
fn the_crew_has_nothing_to_spare_where_its_last_room_drives_the_finish() {
    // By waits alone the first room could wait until day 7 and the second until day 8; the one crew
    // cannot, since the third room must be plastered from day 4 to day 6 for the finish on day 10.
    let days = latest_days(&[]);
    assert_eq!(days[0], Some((0, 2)));
    assert_eq!(days[1], Some((2, 4)));
    assert_eq!(days[2], Some((4, 6)));
    assert_eq!(days[4], Some((6, 10)));
}

#[test]
fn what_nothing_waits_for_can_wait_until_the_finish() {
    let days = latest_days(&[]);
    assert_eq!(days[3], Some((9, 10)));
    assert_eq!(days[5], Some((9, 10)));
}

#[test]
fn a_milestone_that_must_not_move_leaves_no_time_before_it() {
    let days = latest_days(&[ActivityId(3)]);
    assert_eq!(days[3], Some((2, 3)));
    assert_eq!(days[5], Some((9, 10)));
}
