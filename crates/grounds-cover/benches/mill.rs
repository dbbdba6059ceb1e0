//! How long the register of the demo house takes.

#![allow(
    missing_docs,
    clippy::unwrap_used,
    reason = "criterion writes the entry point; a demo house that does not read is a fault of the bench"
)]

use std::{fs, hint::black_box, path::Path};

use criterion::{Criterion, criterion_group, criterion_main};
use grounds_cover::{Register, behind, find};
use grounds_sequence::{Effort, Network, Outlook};
use grounds_site::{fold, read_notes};

fn register(c: &mut Criterion) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/alder-sluice");
    let document = fs::read_to_string(folder.join("job.toml")).unwrap();
    let job = grounds_model::read("job.toml", &document).unwrap();
    let log = fs::read_to_string(folder.join("notes.jsonl")).unwrap();
    let (notes, _) = read_notes("notes.jsonl", &log);
    let at = "2027-06-10T07:10:00+01:00".parse().unwrap();
    let site = fold(&job, &notes, at);
    let network = Network::build(&job, &site, &[]).unwrap();
    let outlook = Outlook::plan(network, Effort::AFTER_A_CHANGE, None).unwrap();

    c.bench_function("register of the mill", |b| {
        b.iter(|| Register::of(black_box(&job), &site, &outlook));
    });
    c.bench_function("behind the kitchen", |b| {
        b.iter(|| behind(black_box(&job), &site, &"kitchen".into()));
    });
    c.bench_function("where is the pipe in the shower", |b| {
        b.iter(|| {
            find(
                black_box(&job),
                &site,
                "where is the pipe in the shower",
                None,
            )
        });
    });
}

criterion_group!(mill, register);
criterion_main!(mill);
