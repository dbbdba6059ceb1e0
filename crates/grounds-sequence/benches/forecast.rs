//! How long it takes to find the policy of the mill's plan, and to run it ten thousand times on two
//! threads.
//!
//! Run with `cargo bench -p grounds-sequence --bench forecast`.

#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "an example that does not plan is a fault to stop at"
)]

use std::{hint::black_box, num::NonZeroUsize, path::Path};

use criterion::{Criterion, criterion_group, criterion_main};
use grounds_model::Job;
use grounds_schedule::forecast::Policy;
use grounds_sequence::{Effort, Forecast, ForecastEffort, Network, Outlook, Words};
use grounds_site::{fold, read_notes};

fn forecasts(criterion: &mut Criterion) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/alder-sluice");
    let read = |file: &str| std::fs::read_to_string(folder.join(file)).ok();
    let (Some(job), Some(notes)) = (read("job.toml"), read("notes.jsonl")) else {
        println!("the mill is not there, passed over");
        return;
    };
    let job = Job::from_toml(&job).unwrap_or_else(|faults| panic!("{faults}"));
    let (notes, _) = read_notes("notes.jsonl", &notes);
    let now = notes.iter().map(|note| note.at).max().unwrap_or_default();
    let network = Network::build(&job, &fold(&job, &notes, now), &[]).expect("a network");
    let outlook = Outlook::plan(network, Effort::default(), None).expect("a plan");
    let effort = ForecastEffort {
        threads: NonZeroUsize::new(2).expect("two"),
        ..ForecastEffort::default()
    };
    let policy = Policy::of(&outlook.network.problem, &outlook.plan).expect("a policy");
    println!("{policy:?}");
    let seen = Forecast::of(&outlook, &job, &effort).expect("a forecast");
    let words = Words::new(&outlook, &job);
    for prospect in std::iter::once(&seen.finish).chain(&seen.milestones) {
        println!(
            "planned {} mean {} even {} four in five {} (settled {} ticks) on plan {:.3}",
            words.day(prospect.planned),
            words.day(prospect.mean as i32),
            words.day(prospect.even),
            words.day(prospect.four_in_five),
            prospect.settled,
            prospect.on_plan,
        );
    }
    println!("{:#?}", seen.finish.causes);
    for (id, share) in &seen.finish.drivers {
        println!("{share:.2} {}", words.task(*id));
    }
    println!("late {:?} closed {:?}", seen.late, seen.closed.len());

    let mut group = criterion.benchmark_group("forecast of the mill");
    group.sample_size(10);
    group.bench_function("policy", |b| {
        b.iter(|| black_box(Policy::of(&outlook.network.problem, &outlook.plan)));
    });
    group.bench_function("10,000 runs on 2 threads", |b| {
        b.iter(|| black_box(Forecast::of(&outlook, &job, &effort)));
    });
    let one = ForecastEffort {
        threads: NonZeroUsize::MIN,
        ..effort
    };
    group.bench_function("10,000 runs on 1 thread", |b| {
        b.iter(|| black_box(Forecast::of(&outlook, &job, &one)));
    });
    group.finish();
}

criterion_group!(benches, forecasts);
criterion_main!(benches);
