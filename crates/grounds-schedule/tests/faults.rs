//! Problems that make no sense are refused with every fault, and nothing ever panics.

mod common;

use common::*;
use grounds_schedule::chance::Chance;
use grounds_schedule::*;

#[test]
fn every_fault_is_named_at_once() {
    let mut problem = house();
    let tiler = crew(&mut problem, 1);
    let tile = add(
        &mut problem,
        Activity {
            uses: vec![Use {
                resource: tiler,
                amount: 2,
            }],
            ..work(-1)
        },
    );
    let pour = add(
        &mut problem,
        Activity {
            unbroken: true,
            ..work(40)
        },
    );
    let lost = add(
        &mut problem,
        Activity {
            calendar: Some(CalendarId(9)),
            at: Some(NodeId(3)),
            ..units(1)
        },
    );
    let (s, f) = (End::Start, End::Finish);
    lag(&mut problem, (tile, f), (ActivityId(77), s), Some(0), None);
    lag(&mut problem, (tile, f), (pour, s), Some(5), Some(4));
    problem.lags.push(Lag {
        clock: Clock::On(CalendarId(0)),
        min: Some(-3),
        ..problem.lags[1]
    });
    problem.lags.push(Lag {
        clock: Clock::On(CalendarId(5)),
        ..problem.lags[2]
    });
    let expected = [
        ProblemFault::NegativeWork(tile),
        ProblemFault::UsesTooMuch(tile, tiler),
        ProblemFault::LongerThanShift(pour),
        ProblemFault::NoCalendar(lost, CalendarId(9)),
        ProblemFault::NoNode(lost, NodeId(3)),
        ProblemFault::LagToNothing(LagId(0)),
        ProblemFault::MaxBelowMin(LagId(1)),
        ProblemFault::NegativeLag(LagId(2)),
        ProblemFault::LagOnNothing(LagId(3)),
        ProblemFault::NegativeLag(LagId(3)),
    ];
    let faults = problem.faults();
    for fault in expected
        .iter()
        .filter(|fault| **fault != ProblemFault::UsesTooMuch(tile, tiler))
    {
        assert!(faults.contains(fault), "{fault}: {faults:?}");
    }
    assert_eq!(
        solve(&problem, &Effort::default()),
        Err(Faulty(faults.clone()))
    );
    assert_eq!(construct(&problem, &[]), Err(Faulty(faults.clone())));
    assert_eq!(clash(&problem), Err(Faulty(faults.clone())));
    assert_eq!(bound(&problem), Err(Faulty(faults)));
}

#[test]
fn more_tilers_than_there_are_is_a_fault() {
    let mut problem = house();
    let tiler = crew(&mut problem, 1);
    let tile = add(
        &mut problem,
        Activity {
            uses: vec![Use {
                resource: tiler,
                amount: 2,
            }],
            ..work(1)
        },
    );
    assert_eq!(problem.faults(), [ProblemFault::UsesTooMuch(tile, tiler)]);
}

/// Spoils one number of a problem, by chance badly.
fn spoil(problem: &mut Problem, chance: &mut Chance) {
    let odd = [
        -1,
        0,
        1,
        3,
        12,
        10_000,
        MOST,
        MOST + 1,
        -MOST,
        Tick::MAX,
        Tick::MIN,
    ][chance.below(11)];
    let i = chance.below(problem.activities.len());
    let many = [0, 1, 5, 40, u32::MAX][chance.below(5)];
    let activity = &mut problem.activities[i];
    match chance.below(20) {
        0 => activity.work = odd,
        1 => activity.calendar = Some(CalendarId(many)),
        2 => activity.at = Some(NodeId(many)),
        3 => activity.fact = Fact::Begun { at: odd, left: 3 },
        4 => activity.fact = Fact::Begun { at: 0, left: odd },
        5 => {
            activity.fact = Fact::Done {
                from: 0,
                until: odd,
            }
        }
        6 => activity.unbroken = true,
        7 => activity.uses.push(Use {
            resource: ResourceId(many),
            amount: many,
        }),
        8 => activity.closes.iter_mut().for_each(|c| c.until.after = odd),
        9 => activity.still.iter_mut().for_each(|s| s.from.after = odd),
        10 => problem.now = odd,
        11 => problem.horizon = odd,
        12 => problem.calendars[0] = Calendar::default(),
        13 => problem.calendars[0] = Calendar::new(vec![Shift::plain(-5, odd)]),
        14 => problem.dates.iter_mut().for_each(|d| d.at = odd),
        15 => problem.access.entrances.push(NodeId(many)),
        16 => problem
            .access
            .neighbours
            .iter_mut()
            .for_each(|n| n.push(NodeId(many))),
        17 => problem.resources.iter_mut().for_each(|r| r.capacity = many),
        18 => problem
            .lags
            .iter_mut()
            .for_each(|l| (l.min, l.max) = (Some(odd), None)),
        _ => problem
            .lags
            .iter_mut()
            .for_each(|l| (l.to, l.max) = (ActivityId(many), Some(odd))),
    }
}

#[test]
fn no_spoilt_house_makes_anything_panic() {
    let mut sound = 0;
    for seed in 0..4_000 {
        let mut problem = random::small(seed);
        let mut chance = Chance::new(seed);
        for _ in 0..chance.between(1, 3) {
            spoil(&mut problem, &mut chance);
        }
        let solved = solve(
            &problem,
            &Effort {
                schedules: 3,
                ..Effort::default()
            },
        );
        let _ = (
            clash(&problem),
            bound(&problem),
            latest_starts(&problem, 500),
        );
        let plan = match solved {
            Ok(solved) => {
                sound += 1;
                let _ = clashes(&problem, &solved);
                solved.plan
            }
            Err(Faulty(faults)) => {
                assert!(!faults.is_empty());
                let zero = vec![0; problem.activities.len()];
                Plan {
                    starts: zero.clone(),
                    finishes: zero,
                }
            }
        };
        let _ = (
            verify(&problem, &plan),
            cost(&problem, &plan),
            explain_all(&problem, &plan),
        );
    }
    assert!(sound > 500, "{sound}");
}
