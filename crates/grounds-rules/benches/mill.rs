//! The whole set of rules over the demo house.

#![allow(
    missing_docs,
    clippy::unwrap_used,
    reason = "a benchmark stops at the first surprise"
)]

use std::{fs, hint::black_box, path::PathBuf};

use criterion::{Criterion, criterion_group, criterion_main};
use grounds_model::Job;
use grounds_rules::house;
use grounds_site::{Site, fold, read_notes};

fn mill() -> (Job, Site) {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../examples/alder-sluice");
    let job: Job = fs::read_to_string(folder.join("job.toml"))
        .unwrap()
        .parse()
        .unwrap();
    let (notes, _) = read_notes(
        "notes.jsonl",
        &fs::read_to_string(folder.join("notes.jsonl")).unwrap(),
    );
    let site = fold(&job, &notes, "2027-06-10T07:00:00Z".parse().unwrap());
    (job, site)
}

fn whole_set(c: &mut Criterion) {
    let (job, site) = mill();
    c.bench_function("every rule over the mill", |b| {
        b.iter(|| black_box(house::check(&job, &site, &house::Told::default())).len());
    });
}

criterion_group!(benches, whole_set);
criterion_main!(benches);
