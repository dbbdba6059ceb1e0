//! What the forecast draws and counts, for the comparison with scipy.

use std::{error::Error, num::NonZeroUsize};

use grounds_schedule::forecast::{
    Amount, Forecast, Pert, Policy, Runs, Source, ThreePoint, Uncertainty, forecast,
};
use grounds_schedule::{Activity, ActivityId, Clock, End, Lag, Problem, Tick, construct};
use serde::Serialize;

/// Ticks of a day of these networks: fine enough that rounding to ticks does not show.
const FINE: Tick = 960;
const RUNS: u32 = 40_000;
const CHANCES: [f64; 9] = [0.05, 0.1, 0.2, 0.35, 0.5, 0.65, 0.8, 0.9, 0.95];
/// How much of their luck works that are alike share.
const SHARE: f64 = 0.3;

/// Low, likely and high, in days.
type Judgement = (Tick, Tick, Tick);

/// Everything about forecasts that is compared.
#[derive(Serialize)]
pub(crate) struct Forecasts {
    runs: u32,
    judgements: Vec<Judged>,
    networks: Vec<Chains>,
    alike: Alike,
}

/// One judgement: its quantiles as computed, and as they came out in the runs.
#[derive(Serialize)]
struct Judged {
    judgement: Judgement,
    quantiles: Vec<(f64, f64)>,
    seen: Vec<(f64, f64)>,
    mean: f64,
}

/// Chains of works side by side, and the chance of some dates of the last finish.
#[derive(Serialize)]
struct Chains {
    chains: Vec<Vec<Judgement>>,
    chances: Vec<(f64, f64)>,
    mean: f64,
}

/// Works one after the other that share their luck.
#[derive(Serialize)]
struct Alike {
    works: Vec<Judgement>,
    share: f64,
    mean: f64,
    variance: f64,
}

/// Computes all of it.
pub(crate) fn forecasts() -> Result<Forecasts, Box<dyn Error>> {
    let judgements = [
        (5, 8, 14),
        (2, 3, 7),
        (10, 14, 30),
        (4, 4, 9),
        (1, 9, 9),
        (6, 10, 14),
    ];
    let networks: [&[&[Judgement]]; 3] = [
        &[&[(5, 8, 14)], &[(6, 8, 11)]],
        &[&[(2, 3, 7), (5, 8, 14)], &[(4, 5, 9), (4, 6, 8)]],
        &[
            &[(1, 2, 5), (2, 3, 7), (2, 4, 5)],
            &[(8, 9, 12)],
            &[(3, 4, 8), (3, 5, 6)],
        ],
    ];
    let networks = networks.iter().map(|chains| {
        let chains: Vec<Vec<Judgement>> = chains.iter().map(|chain| chain.to_vec()).collect();
        let seen = run(&chains, None)?;
        let dates = CHANCES.iter().map(|&p| seen.finish.by(p));
        let chances = dates.map(|date| (days(f64::from(date)), seen.finish.chance_by(date)));
        Ok(Chains {
            chances: chances.collect(),
            mean: days(seen.finish.mean()),
            chains,
        })
    });
    Ok(Forecasts {
        runs: RUNS,
        judgements: judgements
            .into_iter()
            .map(judged)
            .collect::<Result<_, _>>()?,
        networks: networks.collect::<Result<_, Box<dyn Error>>>()?,
        alike: alike()?,
    })
}

fn judged(judgement: Judgement) -> Result<Judged, Box<dyn Error>> {
    let (low, likely, high) = judgement;
    let pert =
        Pert::new(f64::from(low), f64::from(likely), f64::from(high)).ok_or("no judgement")?;
    let seen = run(&[vec![judgement]], None)?;
    Ok(Judged {
        judgement,
        quantiles: CHANCES.iter().map(|&p| (p, pert.quantile(p))).collect(),
        seen: CHANCES
            .iter()
            .map(|&p| (p, days(f64::from(seen.finish.by(p)))))
            .collect(),
        mean: days(seen.finish.mean()),
    })
}

fn alike() -> Result<Alike, Box<dyn Error>> {
    let works = vec![(5, 8, 14), (2, 3, 7), (6, 8, 11)];
    let seen = run(std::slice::from_ref(&works), Some(SHARE))?;
    let mean = seen.finish.mean();
    let squares = seen
        .finish
        .sorted
        .iter()
        .map(|&t| (f64::from(t) - mean).powi(2));
    let variance = squares.sum::<f64>() / f64::from(RUNS - 1);
    Ok(Alike {
        works,
        share: SHARE,
        mean: days(mean),
        variance: days(days(variance)),
    })
}

fn days(ticks: f64) -> f64 {
    ticks / f64::from(FINE)
}

/// Runs chains side by side.
fn run(chains: &[Vec<Judgement>], share: Option<f64>) -> Result<Forecast, Box<dyn Error>> {
    let mut problem = Problem {
        horizon: 1_000 * FINE,
        ..Problem::default()
    };
    let mut uncertainty = Uncertainty::default();
    for chain in chains {
        for (place, &(low, likely, high)) in chain.iter().enumerate() {
            let id = ActivityId::from(problem.activities.len());
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
                effects: vec![(Amount::Work(id), spread)],
                common: share.map(|_| 0),
                share: share.unwrap_or(0.0),
            });
            if place > 0 {
                problem.lags.push(Lag {
                    from: ActivityId(id.0 - 1),
                    from_end: End::Finish,
                    to: id,
                    to_end: End::Start,
                    min: Some(0),
                    max: None,
                    clock: Clock::Elapsed,
                });
            }
        }
    }
    let plan = construct(&problem, &[])?;
    let policy = Policy::of(&problem, &plan)?;
    let runs = Runs {
        count: RUNS,
        seed: 20_270_610,
        threads: NonZeroUsize::MIN,
    };
    Ok(forecast(&policy, &uncertainty, &[], &runs))
}
