//! The forecast of the mill and of a bathroom: what must hold of every run, and of their sum.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test stops at what is wrong"
)]

use std::{num::NonZeroUsize, path::Path, sync::OnceLock};

use grounds_model::Job;
use grounds_schedule::forecast::{Policy, Single, Uncertainty};
use grounds_schedule::{ActivityId, Breach, DAY, construct, verify};
use grounds_sequence::{Effort, Forecast, ForecastEffort, Network, Outlook, forecast::uncertainty};
use grounds_site::{fold, read_notes};

struct Planned {
    job: Job,
    outlook: Outlook,
}

/// The mill as its notes leave it.
fn mill() -> &'static Planned {
    static MILL: OnceLock<Planned> = OnceLock::new();
    MILL.get_or_init(|| planned("alder-sluice", &|text| text))
}

fn planned(name: &str, change: &dyn Fn(String) -> String) -> Planned {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../examples")
        .join(name);
    let read = |file: &str| std::fs::read_to_string(folder.join(file)).expect(file);
    let job = Job::from_toml(&change(read("job.toml"))).unwrap_or_else(|faults| panic!("{faults}"));
    let (notes, _) = read_notes("notes.jsonl", &read("notes.jsonl"));
    let now = notes.iter().map(|note| note.at).max().expect("a note");
    let network = Network::build(&job, &fold(&job, &notes, now)).expect("a network");
    let outlook = Outlook::plan(network, Effort::default(), None).expect("a plan");
    Planned { job, outlook }
}

#[test]
fn compare_with_relisting() {
    let mill = mill();
    let problem = &mill.outlook.network.problem;
    let policy = Policy::of(problem, &mill.outlook.plan).expect("a policy");
    let chances = uncertainty(&mill.outlook, &mill.job, 0.3);
    let mut order: Vec<ActivityId> = (0..problem.activities.len()).map(ActivityId::from).collect();
    order.sort_by_key(|id| mill.outlook.plan.starts[id.index()]);
    let (mut fixed, mut relisted) = (Vec::new(), Vec::new());
    for run in 0..60 {
        let single = Single::of(&policy, &chances, 1, run);
        let b = verify(&single.problem, &single.plan);
        if !b.is_empty() { println!("RUN {run} {} {:?} given {:?}", b.len(), b.first(), single.given_up.len()); }
        fixed.push(*single.plan.finishes.iter().max().unwrap());
        let other = construct(&single.problem, &order).expect("a plan");
        let v = verify(&single.problem, &other);
        relisted.push((*other.finishes.iter().max().unwrap(), v.len()));
    }
    let mean = |v: &[i32]| v.iter().map(|&x| f64::from(x)).sum::<f64>() / v.len() as f64 / f64::from(DAY);
    println!("RUN plan {} fixed {} relisted {} breaches {:?}", f64::from(mill.outlook.finish()) / 96.0, mean(&fixed), mean(&relisted.iter().map(|x| x.0).collect::<Vec<_>>()), relisted.iter().map(|x| x.1).sum::<usize>());
}
