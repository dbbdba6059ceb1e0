//! How long it takes to build a network, to plan it with its reasons and roots, and to plan it again
//! after one more note: for the mill and for one bathroom.
//!
//! Run with `cargo bench -p grounds-sequence`. An example that is not there is passed over.

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
use grounds_sequence::{Effort, Known, Network, Outlook, TaskState, Work};
use grounds_site::{Kind, Note, fold, read_notes};
use jiff::Timestamp;
use uuid::Uuid;

struct House {
    job: Job,
    notes: Vec<Note>,
    now: Timestamp,
}

impl House {
    fn example(name: &str) -> Option<Self> {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("../../examples")
            .join(name);
        let read = |file: &str| std::fs::read_to_string(folder.join(file)).ok();
        let (Some(job), Some(notes)) = (read("job.toml"), read("notes.jsonl")) else {
            println!("{name}: not there, passed over");
            return None;
        };
        let job = Job::from_toml(&job).unwrap_or_else(|faults| panic!("{name}: {faults}"));
        let (notes, _) = read_notes("notes.jsonl", &notes);
        let now = notes.iter().map(|note| note.at).max().unwrap_or_default();
        Some(Self { job, notes, now })
    }

    fn network(&self) -> Network {
        Network::build(&self.job, &fold(&self.job, &self.notes, self.now), &[]).expect("a network")
    }

    fn planned(&self, known: Option<&Known>) -> Outlook {
        let effort = match known {
            Some(_) => Effort::AFTER_A_CHANGE,
            None => Effort::default(),
        };
        Outlook::plan(self.network(), effort, known).expect("a plan")
    }

    /// The same house on the morning that it begins, with everything still to do.
    fn untouched(&self) -> Self {
        let zone = self.job.time_zone().expect("a zone");
        let begins = self.job.job.begins.at(7, 0, 0, 0);
        let now = zone
            .to_ambiguous_timestamp(begins)
            .compatible()
            .expect("a morning");
        Self {
            job: self.job.clone(),
            notes: Vec::new(),
            now,
        }
    }

    /// The same house with the first layer that can start noted as done.
    fn with_one_more_note(&self, outlook: &Outlook) -> Self {
        let task = outlook
            .starts()
            .into_iter()
            .map(|row| &outlook.network.tasks[row.id.index()])
            .find(|task| task.state == TaskState::ToCome && matches!(task.work, Work::Layer(_)))
            .expect("a layer that can start");
        let note = Note::new(
            Uuid::from_u128(0x01f0_0000_0000_7000_8000_0000_0000_0001),
            self.now,
            "Bench",
            task.key.as_str(),
            Kind::Done,
        );
        let mut notes = self.notes.clone();
        notes.push(note);
        Self {
            job: self.job.clone(),
            notes,
            now: self.now,
        }
    }
}

fn plans(criterion: &mut Criterion) {
    for name in ["alder-sluice", "one-bathroom"] {
        let Some(house) = House::example(name) else {
            continue;
        };
        let first = house.planned(None);
        println!(
            "{name}: {} activities, {} open, {} lags, {} breaches",
            first.network.tasks.len(),
            first.network.open().count(),
            first.network.problem.lags.len(),
            first.breaches.len(),
        );
        let known = first.known();
        let noted = house.with_one_more_note(&first);
        let site = fold(&house.job, &house.notes, house.now);

        let mut group = criterion.benchmark_group(name);
        group.sample_size(10);
        group.bench_function("fold", |b| {
            b.iter(|| black_box(fold(&house.job, &house.notes, house.now)));
        });
        group.bench_function("network", |b| {
            b.iter(|| black_box(Network::build(&house.job, &site, &[]).expect("a network")));
        });
        group.bench_function("first plan", |b| b.iter(|| black_box(house.planned(None))));
        let untouched = house.untouched();
        group.bench_function("first plan with everything to do", |b| {
            b.iter(|| black_box(untouched.planned(None)));
        });
        group.bench_function("replan after a note", |b| {
            b.iter(|| black_box(noted.planned(Some(&known))));
        });
        group.finish();
    }
}

criterion_group!(benches, plans);
criterion_main!(benches);
