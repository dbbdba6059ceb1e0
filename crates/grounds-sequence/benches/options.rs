//! How long it takes to find what would win time for the last finish of the demo house, and to show
//! what one late delivery would do.
//!
//! Run with `cargo bench -p grounds-sequence --bench options`.

#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "an example that does not plan is a fault to stop at"
)]

use std::{hint::black_box, path::Path};

use criterion::{Criterion, criterion_group, criterion_main};
use grounds_model::Job;
use grounds_sequence::{
    Effort, Network, Outlook,
    options::{Aim, Terms, win_back},
    what_if::{WhatIf, what_if},
};
use grounds_site::{fold, read_notes};

fn options(criterion: &mut Criterion) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/alder-sluice");
    let read = |file: &str| std::fs::read_to_string(folder.join(file)).ok();
    let (Some(job), Some(notes)) = (read("job.toml"), read("notes.jsonl")) else {
        println!("alder-sluice: not there, passed over");
        return;
    };
    let job = Job::from_toml(&job).unwrap_or_else(|faults| panic!("{faults}"));
    let (notes, _) = read_notes("notes.jsonl", &notes);
    let now = notes.iter().map(|note| note.at).max().unwrap_or_default();
    let site = fold(&job, &notes, now);
    let network = Network::build(&job, &site, &[]).expect("a network");
    let outlook = Outlook::plan(network, Effort::default(), None).expect("a plan");

    let mut group = criterion.benchmark_group("alder-sluice");
    group.sample_size(10);
    for (name, aim) in [
        ("options for the last finish", Aim::LastFinish),
        (
            "options for the terrace",
            Aim::Milestone("terrace-open".into()),
        ),
    ] {
        let terms = Terms::default();
        group.bench_function(name, |b| {
            b.iter(|| {
                black_box(win_back(&job, &site, &outlook, &aim, &terms, &|_| {})).expect("options")
            });
        });
    }
    let late = WhatIf::read("kitchen-cabinets later 10 days", &job).expect("a what if");
    group.bench_function("a late delivery", |b| {
        b.iter(|| {
            black_box(what_if(
                &job,
                &notes,
                &outlook,
                &late,
                &|_, _| Vec::new(),
                Effort::default(),
            ))
            .expect("an effect")
        });
    });
    group.finish();
}

criterion_group!(benches, options);
criterion_main!(benches);
