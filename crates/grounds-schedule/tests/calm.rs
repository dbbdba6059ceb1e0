//! A plan that people know stays: notes that change nothing important move nothing.

mod common;

use common::*;
use grounds_schedule::*;

/// Ten working days.
const SOON: Tick = 14 * DAY;

/// The house once the next work to end has ended as planned.
fn a_note_later(problem: &Problem, plan: &Plan) -> Option<Problem> {
    let open = |i: &usize| !matches!(problem.activities[*i].fact, Fact::Done { .. });
    let next = (0..plan.starts.len())
        .filter(open)
        .min_by_key(|&i| (plan.finishes[i], i))?;
    let mut later = problem.clone();
    later.now = plan.finishes[next].max(problem.now);
    for i in (0..plan.starts.len()).filter(open) {
        let (start, finish) = (plan.starts[i], plan.finishes[i]);
        let activity = &mut later.activities[i];
        if finish <= later.now {
            let (from, until) = (start, finish);
            activity.fact = Fact::Done { from, until };
        } else if start < later.now {
            let hours = &problem.calendars[activity.calendar?.index()];
            let left = hours.between(later.now, finish);
            activity.fact = Fact::Begun { at: start, left };
        }
    }
    Some(later)
}

#[test]
fn work_that_goes_as_planned_moves_nothing_of_the_next_ten_days() {
    let (mut moved, mut seen) = (0, 0);
    for seed in 0..5 {
        let mut problem = random::finish_phase(seed, 250);
        let patient = Effort {
            schedules: 400,
            ..Effort::default()
        };
        let mut known = solve(&problem, &patient).unwrap();
        for _ in 0..10 {
            let Some(later) = a_note_later(&problem, &known.plan) else {
                break;
            };
            let effort = Effort {
                schedules: 16,
                seed: 7,
                first_order: Some(known.order.clone()),
            };
            let again = solve(&later, &effort).unwrap();
            for i in 0..later.activities.len() {
                let soon = later.now..later.now + SOON;
                if later.activities[i].fact == Fact::Open && soon.contains(&known.plan.starts[i]) {
                    seen += 1;
                    moved += usize::from(again.plan.starts[i] != known.plan.starts[i]);
                }
            }
            (problem, known) = (later, again);
        }
    }
    println!("{moved} of {seen} starts moved");
    assert!(seen > 1_000, "{seen}");
    assert!(moved * 50 <= seen, "{moved} of {seen} starts moved");
}

#[test]
fn a_promise_that_cannot_be_kept_is_named_with_its_reason() {
    let mut problem = house();
    problem.now = at(0, 8);
    let screed = add(&mut problem, work(8 * HOUR));
    let tile = add(&mut problem, work(8 * HOUR));
    let paint = add(&mut problem, work(8 * HOUR));
    let dry = after(&mut problem, screed, tile, 72 * HOUR);
    for (activity, day) in [(tile, 2), (paint, 0)] {
        problem.promises.push(Promise {
            activity,
            at: at(day, 8),
            day_cents: 5_000,
        });
    }
    let plan = plan(&problem);
    let expected = MovedPromise {
        activity: tile,
        promised: at(2, 8),
        // Monday 16:00 and three days.
        planned: at(4, 8),
        cents: 10_000,
        must: true,
        reasons: vec![Reason::Lag(dry)],
    };
    assert_eq!(moved_promises(&problem, &plan).unwrap(), [expected]);
}
