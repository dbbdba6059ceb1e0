//! How long lists, proof, and both together take on a plain problem of 120 activities.

use std::hint::black_box;
use std::num::NonZeroUsize;
use std::sync::Arc;

use criterion::{BatchSize, Criterion, criterion_group, criterion_main};
use grounds_schedule::chance::Chance;
use grounds_schedule::exact::Exact;
use grounds_schedule::plain::population::Population;
use grounds_schedule::plain::{Core, Known, Wait, Worker};
use grounds_schedule::portfolio::{Check, Limit, Team, search};

/// Units of a slice, some 10 milliseconds.
const SLICE: u64 = 100_000;

/// As hard projects of published sets are: 1 to 10 ticks, every activity after one or two others, and
/// each asks for some of one or two of four resources, of which there is not much.
fn project(seed: u64) -> Core {
    const JOBS: usize = 120;
    let mut chance = Chance::new(seed);
    let durations: Vec<i32> = (0..JOBS).map(|_| chance.between(1, 10)).collect();
    let mut waits = Vec::new();
    let mut demands = vec![0; JOBS * 4];
    for job in 0..JOBS {
        for _ in 0..2.min(job) {
            let from = job - 1 - chance.below(job.min(20));
            waits.push(Wait {
                from: from as u32,
                to: job as u32,
                ticks: durations[from],
            });
        }
        for _ in 0..2 {
            demands[job * 4 + chance.below(4)] = 1 + chance.below(10) as u32;
        }
    }
    waits.sort_unstable();
    waits.dedup();
    let end = durations.iter().sum::<i32>();
    Core {
        latest: durations.iter().map(|duration| end - duration).collect(),
        earliest: vec![0; JOBS],
        durations,
        waits,
        demands,
        capacities: vec![16; 4],
    }
}

fn slices(criterion: &mut Criterion) {
    let core = project(1);
    let nothing = Known {
        best: None,
        bound: 0,
    };
    let mut group = criterion.benchmark_group("plain 120");
    group.sample_size(20);
    group.bench_function("lists, a slice", |b| {
        let fresh = || Population::new(&core, 1);
        b.iter_batched(
            fresh,
            |mut lists| lists.slice(SLICE, black_box(&nothing)),
            BatchSize::LargeInput,
        );
    });
    group.bench_function("proof, a slice", |b| {
        let fresh = || Exact::from_above(&core);
        b.iter_batched(
            fresh,
            |mut proof| proof.slice(SLICE, black_box(&nothing)),
            BatchSize::LargeInput,
        );
    });
    group.finish();
}

fn teams(criterion: &mut Criterion) {
    let core = Arc::new(project(1));
    let two = NonZeroUsize::MIN.saturating_add(1);
    let any: Check = &|_| true;
    let mut group = criterion.benchmark_group("team 120");
    group.sample_size(10);
    for threads in [NonZeroUsize::MIN, two] {
        group.bench_function(format!("ten slices a lane, {threads} threads"), |b| {
            let limit = Limit::Units {
                units: 10 * SLICE,
                threads,
            };
            b.iter_batched(
                || Team::suited(&core, two, 1),
                |team| search(&core, team, any, limit),
                BatchSize::LargeInput,
            );
        });
    }
    group.finish();
}

criterion_group!(benches, slices, teams);
criterion_main!(benches);
