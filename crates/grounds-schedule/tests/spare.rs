//! What has time waits where that saves money, and nothing else moves.

mod common;

use common::*;
use grounds_schedule::*;

#[allow(clippy::unwrap_used, reason = "a test may fail loudly")]
fn solved(problem: &Problem) -> Solved {
    solve(problem, &Effort::default()).unwrap()
}

#[test]
fn a_glass_screen_goes_in_after_the_painter_has_left() {
    let mut problem = house();
    let room = problem.access.add();
    let here = |ticks| Activity {
        at: Some(room),
        ..work(ticks)
    };
    let glass = add(
        &mut problem,
        Activity {
            fragile_cents: 1_500,
            ..here(2 * HOUR)
        },
    );
    let paint = add(&mut problem, here(2 * HOUR));
    date(&mut problem, paint, End::Start, Side::NotBefore, at(2, 8));
    // Something elsewhere takes three weeks.
    add(&mut problem, work(15 * 8 * HOUR));
    let before = solved(&problem);
    assert_eq!(before.plan.starts[glass.index()], at(0, 8));
    let after = spare(&problem, &before).unwrap().solved;
    assert_eq!(verify(&problem, &after.plan), []);
    assert!(after.plan.finishes[glass.index()] > after.plan.starts[paint.index()]);
    assert_eq!((before.cost.exposure, after.cost.exposure), (1_500, 0));
    assert_eq!(explain(&problem, &after.plan, glass), [Reason::Choice]);
}

#[test]
fn glass_that_something_waits_for_goes_in_at_once() {
    let mut problem = house();
    let room = problem.access.add();
    let here = |ticks| Activity {
        at: Some(room),
        ..work(ticks)
    };
    let glass = add(
        &mut problem,
        Activity {
            fragile_cents: 1_500,
            ..here(2 * HOUR)
        },
    );
    let paint = add(&mut problem, here(2 * HOUR));
    date(&mut problem, paint, End::Start, Side::NotBefore, at(1, 8));
    let order = add(&mut problem, work(10 * 8 * HOUR));
    after(&mut problem, glass, order, 0);
    let before = solved(&problem);
    assert_eq!(spare(&problem, &before).unwrap().solved.plan, before.plan);
}

#[test]
fn whole_houses_cost_less_and_end_no_later() {
    let (mut before, mut after) = (0, 0);
    for seed in 0..12 {
        let problem = random::finish_phase(seed, 400);
        let plain = solved(&problem);
        let spared = spare(&problem, &plain).unwrap().solved;
        assert_eq!(spared.breaches, plain.breaches, "house {seed}");
        assert_eq!(spared.cost, cost(&problem, &spared.plan), "house {seed}");
        assert!(spared.cost.total() <= plain.cost.total(), "house {seed}");
        assert_eq!(spared.cost.days, plain.cost.days, "house {seed}");
        assert!(spared.cost.lateness <= plain.cost.lateness, "house {seed}");
        before += plain.cost.total();
        after += spared.cost.total();
    }
    println!("{before} cents before, {after} after");
    assert!(after * 100 < before * 99);
}

#[test]
fn whatever_waits_without_being_held_is_said_to_wait_on_purpose() {
    let mut waiting = 0;
    for seed in 0..6 {
        let problem = random::finish_phase(seed, 400);
        let spared = spare(&problem, &solved(&problem)).unwrap();
        let plan = &spared.solved.plan;
        for (i, reasons) in explain_all(&problem, plan).into_iter().enumerate() {
            let id = ActivityId::from(i);
            let later = spared.put_later.iter().find(|later| later.activity == id);
            if reasons == [Reason::Choice] {
                assert!(later.is_some(), "house {seed}: {id:?}");
            }
            if let Some(later) = later {
                waiting += 1;
                assert!(later.could < plan.starts[i], "house {seed}: {later:?}");
                assert!(later.saves.total() > 0, "house {seed}: {later:?}");
            }
        }
    }
    assert!(waiting > 50, "{waiting}");
}
