//! Small words for building houses in tests.
#![allow(clippy::unwrap_used, reason = "a test may fail loudly")]
#![allow(dead_code, reason = "not every test file uses every word")]

use grounds_schedule::*;

/// Elapsed ticks of a time of day on a numbered day; day 0 is a Monday.
pub(crate) fn at(day: Tick, hour: Tick) -> Tick {
    day * DAY + hour * HOUR
}

/// Crew hours of 08:00 to 16:00 on the given weekdays (0 is Monday) for some weeks.
pub(crate) fn crew_hours(weekdays: &[Tick], weeks: Tick) -> Calendar {
    let days = (0..weeks).flat_map(|week| weekdays.iter().map(move |day| week * 7 + day));
    Calendar::new(
        days.map(|day| Shift::plain(at(day, 8), at(day, 16)))
            .collect(),
    )
}

/// An empty house with a far horizon and Monday-to-Friday crew hours as calendar 0.
pub(crate) fn house() -> Problem {
    let calendars = vec![crew_hours(&[0, 1, 2, 3, 4], 52)];
    Problem {
        horizon: at(364, 0),
        calendars,
        day_cents: 10_000,
        ..Problem::default()
    }
}

/// Work on the house's crew hours.
pub(crate) fn work(ticks: Tick) -> Activity {
    Activity {
        work: ticks,
        calendar: Some(CalendarId(0)),
        ..Activity::default()
    }
}

/// Work in plain time units, day and night.
pub(crate) fn units(ticks: Tick) -> Activity {
    Activity {
        work: ticks,
        ..Activity::default()
    }
}

pub(crate) fn add(problem: &mut Problem, activity: Activity) -> ActivityId {
    problem.activities.push(activity);
    ActivityId::from(problem.activities.len() - 1)
}

pub(crate) fn crew(problem: &mut Problem, capacity: u32) -> ResourceId {
    problem.resources.push(Resource {
        capacity,
        return_cents: 0,
        visit_gap: 0,
    });
    ResourceId::from(problem.resources.len() - 1)
}

pub(crate) fn one(resource: ResourceId) -> Vec<Use> {
    vec![Use {
        resource,
        amount: 1,
    }]
}

/// Finish to start: at least `min` elapsed ticks.
pub(crate) fn after(problem: &mut Problem, from: ActivityId, to: ActivityId, min: Tick) -> LagId {
    lag(
        problem,
        (from, End::Finish),
        (to, End::Start),
        Some(min),
        None,
    )
}

/// Any lag in elapsed time.
pub(crate) fn lag(
    problem: &mut Problem,
    (from, from_end): (ActivityId, End),
    (to, to_end): (ActivityId, End),
    min: Option<Tick>,
    max: Option<Tick>,
) -> LagId {
    problem.lags.push(Lag {
        from,
        from_end,
        to,
        to_end,
        min,
        max,
        clock: Clock::Elapsed,
    });
    LagId::from(problem.lags.len() - 1)
}

pub(crate) fn date(
    problem: &mut Problem,
    activity: ActivityId,
    end: End,
    side: Side,
    at: Tick,
) -> DateId {
    problem.dates.push(Date {
        activity,
        end,
        side,
        at,
    });
    DateId::from(problem.dates.len() - 1)
}

/// So many elapsed ticks after an end.
pub(crate) fn moment(end: End, after: Tick) -> Moment {
    Moment {
        end,
        after,
        clock: Clock::Elapsed,
    }
}

/// Shut from the start until so many ticks after the finish.
pub(crate) fn shut(node: NodeId, bars: Tread, after: Tick) -> Closure {
    Closure {
        node,
        from: moment(End::Start, 0),
        until: moment(End::Finish, after),
        bars,
    }
}

/// Solves and expects a plan that obeys everything.
#[track_caller]
pub(crate) fn plan(problem: &Problem) -> Plan {
    assert_eq!(problem.faults(), []);
    let solved = solve(problem, &Effort::default()).unwrap();
    assert_eq!(solved.breaches, []);
    solved.plan
}
