//! How long it takes to see what the fits of the mill hold up, as it is done anew after every note.
//!
//! Run with `cargo bench -p grounds-settle`.

#![allow(
    missing_docs,
    clippy::expect_used,
    clippy::panic,
    reason = "an example that cannot be read is a fault to stop at"
)]

use std::{hint::black_box, path::Path};

use criterion::{Criterion, criterion_group, criterion_main};
use grounds_lines::{answers::Answers, holdups::holdups, lines::Lines};
use grounds_model::Job;
use grounds_settle::held_up;
use grounds_site::{fold, read_notes};

fn holds(criterion: &mut Criterion) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/alder-sluice");
    let read = |file: &str| std::fs::read_to_string(folder.join(file)).expect("the mill");
    let job = Job::from_toml(&read("job.toml")).unwrap_or_else(|faults| panic!("{faults}"));
    let (notes, _) = read_notes("notes.jsonl", &read("notes.jsonl"));
    let now = notes.iter().map(|note| note.at).max().unwrap_or_default();
    let site = fold(&job, &notes, now);
    let lines = Lines::of(&job, &site);
    let answers = Answers::of(&lines).expect("answers");
    println!(
        "{} fits, {} held up",
        answers.answers.len(),
        held_up(&job, &site).len()
    );

    let mut group = criterion.benchmark_group("alder-sluice");
    group.bench_function("held up", |b| b.iter(|| black_box(held_up(&job, &site))));
    group.bench_function("lines", |b| b.iter(|| black_box(Lines::of(&job, &site))));
    group.bench_function("answers", |b| b.iter(|| black_box(Answers::of(&lines))));
    group.bench_function("answers that hold up", |b| {
        b.iter(|| black_box(Answers::standing(&lines)));
    });
    group.bench_function("hold-ups", |b| {
        b.iter(|| black_box(holdups(&lines, &answers)));
    });
    group.finish();
}

criterion_group!(benches, holds);
criterion_main!(benches);
