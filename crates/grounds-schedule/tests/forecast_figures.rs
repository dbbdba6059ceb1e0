//! The forecast against published figures and closed forms.
//!
//! Grades: published = stands in the named source; calc = worked out from published formulas.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test stops at what is wrong"
)]

use std::num::NonZeroUsize;

use grounds_schedule::forecast::{
    Amount, Cause, Forecast, Pert, Policy, Repeat, Runs, Source, ThreePoint, Uncertainty, forecast,
};
use grounds_schedule::{
    Activity, ActivityId, Clock, DAY, Effort, End, Lag, Problem, Resource, ResourceId, Tick, Use,
    construct, solve,
};

/// Ticks of a day of the networks here: fine enough that rounding does not matter.
const FINE: Tick = 960;

fn pert(low: f64, likely: f64, high: f64) -> Pert {
    Pert::new(low, likely, high).expect("a judgement")
}

fn close(is: f64, expected: f64, within: f64) {
    assert!((is - expected).abs() <= within, "{is} is not {expected}");
}

/// Works one after the other as `links` say; each `(low, likely, high)` days.
fn network(works: &[(i32, i32, i32)], links: &[(usize, usize)]) -> (Problem, Uncertainty) {
    let mut problem = Problem {
        horizon: 4_000 * FINE,
        ..Problem::default()
    };
    let mut uncertainty = Uncertainty::default();
    for (i, &(low, likely, high)) in works.iter().enumerate() {
        problem.activities.push(Activity {
            work: likely * FINE,
            ..Activity::default()
        });
        let spread = ThreePoint {
            low: low * FINE,
            likely: likely * FINE,
            high: high * FINE,
        };
        uncertainty.sources.push(Source {
            effects: vec![(Amount::Work(ActivityId::from(i)), spread)],
            common: None,
            share: 0.0,
        });
    }
    for &(from, to) in links {
        problem.lags.push(Lag {
            from: ActivityId::from(from),
            from_end: End::Finish,
            to: ActivityId::from(to),
            to_end: End::Start,
            min: Some(0),
            max: None,
            clock: Clock::Elapsed,
        });
    }
    (problem, uncertainty)
}

fn runs(count: u32, seed: u64, threads: usize) -> Runs {
    Runs {
        count,
        seed,
        threads: NonZeroUsize::new(threads).expect("threads"),
    }
}

fn seen(problem: &Problem, uncertainty: &Uncertainty, runs: &Runs) -> Forecast {
    let plan = construct(problem, &[]).expect("a plan");
    let policy = Policy::of(problem, &plan).expect("a policy");
    forecast(&policy, uncertainty, &[], runs)
}

fn days(ticks: f64) -> f64 {
    ticks / f64::from(FINE)
}

fn by(forecast: &Forecast, p: f64) -> f64 {
    days(f64::from(forecast.finish.by(p)))
}

#[test]
fn three_judgements_have_the_reckoned_mean_spread_and_quantiles() {
    // Mean: published (PERT, 1958-59). Shapes: published. Exact spread and quantiles: calc, by an
    // incomplete beta function of a general library.
    let a = pert(5.0, 8.0, 14.0);
    close(a.mean(), 8.5, 1e-12);
    close(a.shapes().0, 2.333, 5e-4);
    close(a.shapes().1, 3.667, 5e-4);
    close(a.variance(), 2.75, 1e-12);
    for (p, x) in [(0.1, 6.38), (0.5, 8.38), (0.8, 9.99), (0.9, 10.80)] {
        close(a.quantile(p), x, 5.1e-3);
        close(a.chance_by(a.quantile(p)), p, 1e-9);
    }
    let b = pert(2.0, 3.0, 7.0);
    close(b.mean(), 3.5, 1e-12);
    close(b.shapes().0, 1.8, 1e-12);
    close(b.variance().sqrt(), 0.866, 5e-4);
    for (p, x) in [(0.1, 2.45), (0.5, 3.38), (0.8, 4.25), (0.9, 4.73)] {
        close(b.quantile(p), x, 5.1e-3);
    }
    let c = pert(10.0, 14.0, 30.0);
    close(c.mean(), 16.0, 1e-12);
    close(c.variance().sqrt(), 3.46, 5e-3);
    for (p, x) in [(0.5, 15.53), (0.8, 19.0), (0.9, 20.9)] {
        close(c.quantile(p), x, 5.1e-2);
    }
}

#[test]
fn one_work_alone_comes_out_as_it_was_judged() {
    let (problem, uncertainty) = network(&[(5, 8, 14)], &[]);
    let forecast = seen(&problem, &uncertainty, &runs(40_000, 1, 2));
    // Within four standard errors: of a mean sd/sqrt(n); of a quantile sqrt(p(1-p)/n) over the
    // density there, which is at least 0.1 a day between the first and the last tenth.
    close(days(forecast.finish.mean()), 8.5, 4.0 * 1.658 / 200.0);
    for (p, x) in [(0.1, 6.38_f64), (0.5, 8.38), (0.8, 9.99), (0.9, 10.80)] {
        let error = (p * (1.0 - p) / 40_000.0_f64).sqrt() / 0.1;
        close(by(&forecast, p), x, 4.0 * error + 0.005);
    }
}

/// The published network C35 (days, low-likely-high) with the works in the order of its letters.
fn fourteen_works() -> (Problem, Uncertainty) {
    let works = [
        (5, 5, 7),
        (1, 2, 5),
        (5, 5, 5),
        (4, 8, 13),
        (1, 10, 17),
        (1, 5, 7),
        (2, 6, 9),
        (4, 4, 6),
        (2, 7, 10),
        (2, 4, 7),
        (6, 10, 13),
        (2, 6, 6),
        (2, 2, 3),
        (7, 7, 12),
    ];
    let links = [
        "AC", "AD", "BE", "CE", "DF", "DG", "EH", "FH", "GI", "HI", "IJ", "IK", "JL", "KM", "LN",
        "MN",
    ];
    let at = |letter: u8| usize::from(letter - b'A');
    let links: Vec<(usize, usize)> = links
        .iter()
        .map(|pair| (at(pair.as_bytes()[0]), at(pair.as_bytes()[1])))
        .collect();
    network(&works, &links)
}

#[test]
fn a_published_network_has_its_published_means_and_critical_length() {
    let (mut problem, uncertainty) = fourteen_works();
    // Means: published.
    let means = [
        5.33, 2.33, 5.00, 8.17, 9.67, 4.67, 5.83, 4.33, 6.67, 4.17, 9.83, 5.33, 2.17, 7.83,
    ];
    for ((source, activity), mean) in uncertainty
        .sources
        .iter()
        .zip(&mut problem.activities)
        .zip(means)
    {
        let (_, spread) = source.effects[0];
        let [low, likely, high] = [spread.low, spread.likely, spread.high].map(f64::from);
        let found = pert(low, likely, high).mean();
        close(days(found), mean, 5.1e-3);
        activity.work = found.round() as Tick;
    }
    // Length of A-C-E-H-I-K-M-N at the means: calc from the published means.
    let plan = construct(&problem, &[]).expect("a plan");
    let length = f64::from(*plan.finishes.iter().max().unwrap());
    close(days(length), 50.83, 5.1e-3);
}

#[test]
fn where_paths_meet_a_date_is_kept_less_often_than_one_path_says() {
    // One path alone: z = (55 - 50.83)/3.346 = 1.245, so 0.893 (calc, classical formulas). The
    // network has a second path close behind, and the exact spread of its works.
    let (problem, uncertainty) = fourteen_works();
    let forecast = seen(&problem, &uncertainty, &runs(40_000, 1, 2));
    let kept = forecast.finish.chance_by(55 * FINE);
    assert!(kept < 0.893 - 0.01, "{kept}");
    // The path alone, run the same way: its exact spread explains only part of the difference.
    let path = [0, 2, 4, 7, 8, 10, 12, 13];
    let alone = Uncertainty {
        sources: path.map(|i| uncertainty.sources[i].clone()).to_vec(),
        ..Uncertainty::default()
    };
    let mut short = problem.clone();
    for i in (0..14).filter(|i| !path.contains(i)) {
        short.activities[i].work = 0;
    }
    let alone = seen(&short, &alone, &runs(40_000, 1, 2));
    assert!(kept < alone.finish.chance_by(55 * FINE) - 0.005);
    close(days(alone.finish.mean()), 50.83, 0.08);
    assert!(forecast.finish.mean() > alone.finish.mean() + 0.1 * f64::from(FINE));
}

#[test]
fn the_later_of_two_alike_is_the_square_of_one() {
    // Closed form: P(max of two independent works <= x) is F(x) squared.
    let (problem, uncertainty) = network(&[(5, 8, 14), (5, 8, 14)], &[]);
    let forecast = seen(&problem, &uncertainty, &runs(40_000, 3, 2));
    let one = pert(5.0, 8.0, 14.0);
    for x in [7.0_f64, 8.0, 9.0, 10.0, 12.0] {
        let expected = one.chance_by(x).powi(2);
        let found = forecast.finish.chance_by((x * f64::from(FINE)) as Tick);
        let error = (expected * (1.0 - expected) / 40_000.0).sqrt();
        close(found, expected, 4.0 * error + 1e-3);
    }
}

#[test]
fn works_of_one_trade_that_share_all_their_luck_add_up_without_evening_out() {
    let (problem, mut uncertainty) = network(&[(5, 8, 14), (5, 8, 14)], &[(0, 1)]);
    let apart = seen(&problem, &uncertainty, &runs(40_000, 5, 2));
    for source in &mut uncertainty.sources {
        (source.common, source.share) = (Some(0), 1.0);
    }
    let together = seen(&problem, &uncertainty, &runs(40_000, 5, 2));
    // Both slow together: the quantile of the sum is the sum of the quantiles.
    close(by(&together, 0.9), 2.0 * 10.80, 0.1);
    // Apart: variance 2 x 2.75, and the same mean.
    close(days(apart.finish.mean()), 17.0, 0.05);
    close(days(together.finish.mean()), 17.0, 0.07);
    assert!(by(&apart, 0.9) < by(&together, 0.9) - 0.5);
    assert_eq!(together.finish.causes[0].cause, Cause::Common(0));
    assert!(together.finish.causes[0].share > 0.99);
}

#[test]
fn a_test_that_fails_one_time_in_five_costs_a_quarter_of_its_repair_on_average() {
    // Fails follow one another with the same chance: the mean number is p/(1 - p) = 0.25 (the
    // geometric distribution, published in any textbook).
    let (problem, _) = network(&[(8, 8, 8), (2, 2, 2)], &[(0, 1)]);
    let uncertainty = Uncertainty {
        repeats: vec![Repeat {
            activity: ActivityId(0),
            chance: 0.2,
            steps: vec![(FINE, Clock::Elapsed), (FINE, Clock::Elapsed)],
        }],
        ..Uncertainty::default()
    };
    let forecast = seen(&problem, &uncertainty, &runs(40_000, 7, 2));
    // Variance p/(1-p)^2 of the number of fails, two days each; four standard errors.
    let error = 2.0 * (0.2_f64 / 0.64 / 40_000.0).sqrt();
    close(days(forecast.finish.mean()), 10.5, 4.0 * error);
    let sound = forecast.finish.chance_by(10 * FINE);
    close(sound, 0.8, 4.0 * (0.16_f64 / 40_000.0).sqrt());
}

#[test]
fn more_doubt_never_brings_an_earlier_mean() {
    let houses = (0..8).map(|seed| grounds_schedule::random::house(seed, 120));
    for problem in houses {
        let solved = solve(&problem, &Effort::default()).expect("a plan");
        let policy = Policy::of(&problem, &solved.plan).expect("a policy");
        let spread = |low: i32, high: i32| {
            let sources = problem.activities.iter().enumerate().map(|(i, a)| Source {
                effects: vec![(
                    Amount::Work(ActivityId::from(i)),
                    ThreePoint {
                        low: a.work * low / 100,
                        likely: a.work,
                        high: a.work * high / 100,
                    },
                )],
                common: a.uses.first().map(|wanted| wanted.resource.0),
                share: 0.3,
            });
            Uncertainty {
                sources: sources.collect(),
                ..Uncertainty::default()
            }
        };
        let mean = |low, high| {
            let uncertainty = spread(low, high);
            forecast(&policy, &uncertainty, &[], &runs(400, 1, 2))
                .finish
                .mean()
        };
        // Later highs, and wider both ways about the same mean; half a day for rounding to ticks.
        let certain = mean(100, 100);
        assert!(mean(100, 120) >= certain);
        assert!(mean(100, 150) >= mean(100, 120));
        assert!(mean(80, 120) >= mean(90, 110) - f64::from(DAY) / 2.0);
        assert!(mean(60, 140) >= mean(80, 120) - f64::from(DAY) / 2.0);
    }
}

#[test]
fn the_forecast_hangs_on_the_seed_and_not_on_the_threads() {
    let (mut problem, uncertainty) = fourteen_works();
    problem.resources.push(Resource {
        capacity: 2,
        return_cents: 0,
        visit_gap: 0,
    });
    for activity in &mut problem.activities {
        activity.uses.push(Use {
            resource: ResourceId(0),
            amount: 1,
        });
    }
    let one = seen(&problem, &uncertainty, &runs(3_001, 9, 1));
    let many = seen(&problem, &uncertainty, &runs(3_001, 9, 3));
    let other = seen(&problem, &uncertainty, &runs(3_001, 10, 1));
    assert_eq!(one, many);
    assert_ne!(one.finish.in_order, other.finish.in_order);
}

#[test]
fn who_is_always_on_the_longest_path_drives_every_run() {
    let (problem, uncertainty) = fourteen_works();
    let forecast = seen(&problem, &uncertainty, &runs(2_000, 1, 1));
    let drives = |letter: u8| forecast.finish.drives[usize::from(letter - b'A')];
    for letter in [b'A', b'I', b'N'] {
        close(drives(letter), 1.0, 1e-12);
    }
    close(drives(b'E') + drives(b'F') + drives(b'G'), 1.0, 1e-9);
    assert!(drives(b'E') > drives(b'F') && drives(b'F') > 0.02);
    close(drives(b'K') + drives(b'J'), 1.0, 1e-9);
}
