//! How long large nets take: what is to be expected, readings weighed in, set-outs, and what to
//! measure first.

#[path = "../tests/drawn/mod.rs"]
mod drawn;

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use drawn::Plan;
use grounds_fit::adjust::adjust;
use grounds_fit::measure_first::{candidates, measure_first};
use grounds_fit::prior::prior;
use grounds_fit::set_out::{Measure, set_outs};

/// A house of 500 lines: 50,000 links, 10,000 needs.
const LINES: Plan = Plan {
    groups: 500,
    points: 71,
    readings: 25,
    loops: 5,
    needs: 20,
    settings: 0.05,
    shaped: 0.2,
};

/// As many links and needs in one piece, with fifteen thousand loops.
const ONE_PIECE: Plan = Plan {
    groups: 1,
    points: 35_001,
    readings: 12_500,
    loops: 2_500,
    needs: 10_000,
    settings: 0.05,
    shaped: 0.2,
};

/// A large house: 80 needs on 20 lines.
const HOUSE: Plan = Plan {
    groups: 20,
    points: 15,
    readings: 6,
    loops: 1,
    needs: 4,
    settings: 0.2,
    shaped: 0.2,
};

fn nets(bench: &mut Criterion) {
    let mut group = bench.benchmark_group("nets");
    group.sample_size(10);
    for (name, plan) in [
        ("500 lines", LINES),
        ("one piece", ONE_PIECE),
        ("a house", HOUSE),
    ] {
        let net = drawn::net(plan, 7);
        group.bench_function(format!("{name}: prior"), |b| {
            b.iter(|| prior(black_box(&net)))
        });
        group.bench_function(format!("{name}: adjustment"), |b| {
            b.iter(|| adjust(black_box(&net)))
        });
    }
    let house = drawn::net(HOUSE, 7);
    for measure in [Measure::WorstCase, Measure::Spreads] {
        group.bench_function(format!("a house: set-outs, {measure:?}"), |b| {
            b.iter(|| set_outs(black_box(&house), measure, 1.0));
        });
    }
    group.bench_function("a house: measure first", |b| {
        b.iter(|| {
            let adjusted = adjust(&house)?;
            let readings = candidates(&house, 0.8);
            Ok::<_, grounds_fit::check::Unsound>(measure_first(&house, &adjusted, &readings))
        });
    });
    group.finish();
}

criterion_group!(benches, nets);
criterion_main!(benches);
