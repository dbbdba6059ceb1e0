//! What holds of every run of a plan's policy, on random houses.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test stops at what is wrong"
)]

use grounds_schedule::forecast::{
    Amount, Policy, Repeat, Single, Source, Spell, ThreePoint, Uncertainty, Weather,
};
use grounds_schedule::{
    Activity, ActivityId, Breach, Clock, DAY, Date, DateId, Effort, End, Fact, LagId, Plan,
    Problem, Resource, ResourceId, Side, Use, random, solve, verify,
};

fn effort(schedules: u32, seed: u64) -> Effort {
    Effort {
        schedules,
        seed,
        ..Effort::default()
    }
}

/// A problem with a plan that obeys all of it.
fn planned(problem: Problem, schedules: u32, seed: u64) -> Option<(Problem, Plan)> {
    let solved = solve(&problem, &effort(schedules, seed)).ok()?;
    solved.breaches.is_empty().then_some((problem, solved.plan))
}

fn small(seed: u64) -> Option<(Problem, Plan)> {
    planned(random::small(seed), 12, seed)
}

fn buildable(seed: u64) -> Option<(Problem, Plan)> {
    let plan = |p: &Problem| solve(p, &effort(3, seed)).ok().map(|s| s.plan);
    let (problem, witness) = random::buildable(seed, plan)?;
    verify(&problem, &witness)
        .is_empty()
        .then_some((problem, witness))
}

fn house(seed: u64, activities: usize) -> Option<(Problem, Plan)> {
    planned(random::house(seed, activities), 6, seed)
}

fn around(likely: i32, low: i32, high: i32) -> ThreePoint {
    ThreePoint {
        low: likely * low / 100,
        likely,
        high: likely * high / 100,
    }
}

/// All work and all deliveries uncertain; crews share a factor; some tests fail; some days are wet.
fn uncertain(problem: &Problem, low: i32, high: i32) -> Uncertainty {
    let mut uncertainty = Uncertainty::default();
    for (i, activity) in problem.activities.iter().enumerate() {
        let left = match activity.fact {
            Fact::Begun { left, .. } => left,
            _ => activity.work,
        };
        let work = Amount::Work(ActivityId::from(i));
        uncertainty.sources.push(Source {
            effects: vec![(work, around(left, low, high))],
            common: activity.uses.first().map(|wanted| wanted.resource.0),
            share: 0.3,
        });
        if i % 9 == 0 && activity.work > 0 {
            uncertainty.repeats.push(Repeat {
                activity: ActivityId::from(i),
                chance: 0.2,
                steps: vec![(20, Clock::Elapsed)],
            });
        }
        if i % 7 == 0 {
            uncertainty.weather.activities.push(ActivityId::from(i));
        }
    }
    for (i, date) in problem.dates.iter().enumerate() {
        if date.side == Side::NotBefore {
            let late = ThreePoint {
                low: date.at - DAY,
                likely: date.at,
                high: date.at + 5 * DAY,
            };
            uncertainty.sources.push(Source {
                effects: vec![(Amount::Date(DateId::from(i)), late)],
                common: None,
                share: 0.0,
            });
        }
    }
    for (i, lag) in problem.lags.iter().enumerate() {
        if let (Some(min), true) = (lag.min, i % 5 == 0) {
            uncertainty.sources.push(Source {
                effects: vec![(Amount::Wait(LagId::from(i)), around(min, low, high))],
                common: None,
                share: 0.0,
            });
        }
    }
    uncertainty.weather = Weather {
        spells: (0..problem.horizon / DAY)
            .map(|day| Spell {
                from: day * DAY,
                until: (day + 1) * DAY,
                chance: 0.2,
            })
            .collect(),
        ..uncertainty.weather
    };
    uncertainty
}

/// Breaches that luck alone explains: a latest date or a longest wait that could not be met.
fn is_bad_luck(breach: &Breach, given_up: &[LagId]) -> bool {
    match breach {
        Breach::Date(_) | Breach::Horizon(_) => true,
        Breach::TooLate(lag) => given_up.contains(lag),
        _ => false,
    }
}

#[test]
fn with_nothing_uncertain_a_run_is_the_plan() {
    let mut houses = 0;
    let mut check = |made: Option<(Problem, Plan)>, name: &str| {
        let Some((problem, plan)) = made else { return };
        houses += 1;
        let policy = Policy::of(&problem, &plan).expect("a policy");
        assert_eq!(policy.as_planned(), plan, "{name}");
    };
    for seed in 0..1_500 {
        check(small(seed), &format!("small house {seed}"));
        check(buildable(seed), &format!("buildable house {seed}"));
    }
    for seed in 0..6 {
        check(house(seed, 250), &format!("house {seed}"));
    }
    assert!(houses > 1_200, "only {houses} houses had a plan");
}

/// Two closures of two others that shut both ways in at once, which in the plan they do not: the one
/// thing that runs do not guard against.
fn is_pincer(breach: &Breach) -> bool {
    matches!(breach, Breach::CutOff { by, .. } if by.len() > 1)
}

#[test]
fn every_run_obeys_its_own_luck() {
    let (mut runs, mut pincers) = (0, 0);
    let mut check = |made: Option<(Problem, Plan)>, name: &str, many: u32| {
        let Some((problem, plan)) = made else { return };
        let policy = Policy::of(&problem, &plan).expect("a policy");
        let uncertainty = uncertain(&problem, 70, 160);
        for run in 0..many {
            runs += 1;
            let single = Single::of(&policy, &uncertainty, 7, run);
            let breaches = verify(&single.problem, &single.plan);
            let unlucky = |b: &&Breach| !is_bad_luck(b, &single.given_up) && !is_pincer(b);
            assert_eq!(breaches.iter().find(unlucky), None, "{name}, run {run}");
            pincers += u32::from(breaches.iter().any(is_pincer));
        }
    };
    for seed in 0..300 {
        check(small(seed), &format!("small house {seed}"), 6);
        check(buildable(seed), &format!("buildable house {seed}"), 6);
    }
    for seed in 0..4 {
        check(house(seed, 250), &format!("house {seed}"), 10);
    }
    assert!(runs > 1_500, "only {runs} runs");
    assert!(
        pincers * 500 < runs,
        "{pincers} of {runs} runs end in a pincer"
    );
}

/// One crew; a door that waits for its delivery, then a floor that waits for nothing.
fn door_then_floor(days: i32) -> (Problem, Plan) {
    let work = |days: i32| Activity {
        work: days * DAY,
        uses: vec![Use {
            resource: ResourceId(0),
            amount: 1,
        }],
        ..Activity::default()
    };
    let problem = Problem {
        horizon: 100 * DAY,
        resources: vec![Resource {
            capacity: 1,
            return_cents: 0,
            visit_gap: 0,
        }],
        activities: vec![work(5), work(days)],
        dates: vec![Date {
            activity: ActivityId(0),
            end: End::Start,
            side: Side::NotBefore,
            at: 0,
        }],
        ..Problem::default()
    };
    let plan = Plan {
        starts: vec![0, 5 * DAY],
        finishes: vec![5 * DAY, (5 + days) * DAY],
    };
    assert_eq!(verify(&problem, &plan), []);
    (problem, plan)
}

/// The door comes about twenty days late.
fn late_door() -> Uncertainty {
    let late = ThreePoint {
        low: 19 * DAY,
        likely: 20 * DAY,
        high: 21 * DAY,
    };
    Uncertainty {
        sources: vec![Source {
            effects: vec![(Amount::Date(DateId(0)), late)],
            common: None,
            share: 0.0,
        }],
        ..Uncertainty::default()
    }
}

#[test]
fn the_floor_is_laid_on_its_day_while_the_door_is_late() {
    let (problem, plan) = door_then_floor(5);
    let policy = Policy::of(&problem, &plan).expect("a policy");
    for run in 0..20 {
        let single = Single::of(&policy, &late_door(), 1, run);
        assert_eq!(single.plan.starts[1], 5 * DAY, "run {run}");
        assert!(single.plan.starts[0] >= 19 * DAY, "run {run}");
    }
}

#[test]
fn a_floor_that_takes_longer_than_the_door_is_late_waits_for_it() {
    let (problem, plan) = door_then_floor(30);
    let policy = Policy::of(&problem, &plan).expect("a policy");
    for run in 0..20 {
        let single = Single::of(&policy, &late_door(), 1, run);
        let door = single.plan.finishes[0];
        assert_eq!(single.plan.starts[1], door, "run {run}");
    }
}

#[test]
fn luck_that_has_not_shown_moves_nothing_that_begins_before() {
    let mut compared = 0;
    for seed in 0..400 {
        let mut problem = random::small(seed);
        // Longest waits, ends bound to later ends and floors to be shut put earlier work off: that is
        // planned ahead.
        problem
            .lags
            .retain(|lag| lag.max.is_none() && lag.to_end == End::Start && lag.min >= Some(0));
        for activity in &mut problem.activities {
            activity.closes.clear();
            activity.still.clear();
            // What must not stop overnight begins on another day if it takes longer.
            activity.unbroken = false;
        }
        let Some((problem, plan)) = planned(problem, 12, seed) else {
            continue;
        };
        let policy = Policy::of(&problem, &plan).expect("a policy");
        let mut without = uncertain(&problem, 70, 160);
        without.repeats.clear();
        // What is late shows at the end of its reckoned time, which weather moves.
        without.weather.activities.clear();
        let with = without.clone();
        let open = |i: &usize| problem.activities[*i].fact == Fact::Open;
        let Some(late) = (0..problem.activities.len()).filter(open).nth(2) else {
            continue;
        };
        // Sources of work stand in the order of the activities.
        without.sources[late].effects.clear();
        for run in 0..5 {
            let one = Single::of(&policy, &without, 3, run);
            let other = Single::of(&policy, &with, 3, run);
            let shows = one.plan.finishes[late].min(other.plan.finishes[late]);
            for (i, &start) in one.plan.starts.iter().enumerate() {
                if start < shows {
                    assert_eq!(other.plan.starts[i], start, "house {seed}, run {run}, {i}");
                    compared += 1;
                }
            }
        }
    }
    assert!(compared > 1_000, "only {compared} starts");
}
