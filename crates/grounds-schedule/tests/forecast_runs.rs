//! What holds of every run of a plan's policy, on random houses.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test stops at what is wrong"
)]

use grounds_schedule::forecast::{
    Amount, Policy, Repeat, Runs, Single, Source, Spell, ThreePoint, Uncertainty, Weather, forecast,
};
use grounds_schedule::{
    ActivityId, Breach, Clock, DAY, DateId, Effort, Fact, LagId, Plan, Problem, Side, construct,
    random, solve, verify,
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
    let mut put_off = (0, 0);
    let mut check = |made: Option<(Problem, Plan)>, name: String| {
        let Some((problem, plan)) = made else { return };
        houses += 1;
        let policy = Policy::of(&problem, &plan).expect("a policy");
        put_off.0 += policy.put_off().len();
        put_off.1 += problem.activities.len();
        let replay = policy.as_planned();
        let differs = (0..plan.starts.len()).find(|&i| {
            (replay.starts[i], replay.finishes[i]) != (plan.starts[i], plan.finishes[i])
        });
        assert_eq!(
            differs,
            None,
            "{name}: {:?} {:?}",
            differs.map(|i| (
                replay.starts[i],
                plan.starts[i],
                replay.finishes[i],
                plan.finishes[i]
            )),
            differs.map(|i| problem.activities[i].clone())
        );
    };
    for seed in 0..3_000 {
        check(small(seed), format!("small house {seed}"));
        check(buildable(seed), format!("buildable house {seed}"));
    }
    for seed in 0..12 {
        check(house(seed, 250), format!("house {seed}"));
    }
    println!("{houses} houses, put off {} of {}", put_off.0, put_off.1);
    assert!(houses > 2_500, "only {houses} houses had a plan");
}

#[test]
fn every_run_obeys_its_own_luck() {
    let (mut runs, mut lucky) = (0, 0);
    let mut kinds = std::collections::BTreeMap::new();
    let mut check = |made: Option<(Problem, Plan)>, name: String, many: u32| {
        let Some((problem, plan)) = made else { return };
        let policy = Policy::of(&problem, &plan).expect("a policy");
        let uncertainty = uncertain(&problem, 70, 160);
        for run in 0..many {
            let single = Single::of(&policy, &uncertainty, 7, run);
            let breaches = verify(&single.problem, &single.plan);
            runs += 1;
            lucky += u32::from(breaches.is_empty());
            for b in breaches
                .iter()
                .filter(|b| !is_bad_luck(b, &single.given_up))
            {
                let k = format!("{b:?}")
                    .split(['(', ' '])
                    .next()
                    .unwrap()
                    .to_owned();
                let e: &mut (u32, String) = kinds.entry(k).or_default();
                e.0 += 1;
                if e.1.is_empty() {
                    e.1 = format!("{name} run {run}: {b:?}");
                }
            }
        }
    };
    for seed in 0..600 {
        check(small(seed), format!("small house {seed}"), 8);
        check(buildable(seed), format!("buildable house {seed}"), 8);
    }
    for seed in 0..6 {
        check(house(seed, 250), format!("house {seed}"), 20);
    }
    for k in &kinds {
        println!("KIND {k:?}");
    }
    println!("{lucky} of {runs} lucky");
    assert!(kinds.is_empty());
}

#[test]
fn debug_52() {
    let (problem, plan) = small(1902).unwrap();
    for (i, a) in problem.activities.iter().enumerate() {
        println!("DBG {i} {:?}-{:?} {a:?}", plan.starts[i], plan.finishes[i]);
    }
    for l in &problem.lags {
        println!("DBG {l:?}");
    }
    for l in &problem.dates {
        println!("DBG {l:?}");
    }
    let policy = Policy::of(&problem, &plan).unwrap();
    let r = policy.as_planned();
    println!("DBG {:?}\nDBG {:?}", plan.starts, r.starts);
    let single = Single::of(&policy, &uncertain(&problem, 70, 160), 7, 2);
    println!(
        "DBG {:?}\nDBG {:?}",
        single.plan.starts, single.plan.finishes
    );
    println!("DBG {:?}", problem.access);
}
