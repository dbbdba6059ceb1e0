//! How long it takes to build, improve, check and explain the plan of a house.

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use grounds_schedule::{
    Effort, Planner, bound, clash, construct, explain_all, random, solve, spare, steady, verify,
};
use std::hint::black_box;

fn plans(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("house");
    group.sample_size(10);
    for activities in [1000, 3000] {
        let problem = random::finish_phase(1, activities);
        let effort = Effort::default();
        let Ok(solved) = solve(&problem, &effort) else {
            continue;
        };
        let with = |name: &str| BenchmarkId::new(name, activities);
        group.bench_function(with("construct"), |b| {
            b.iter(|| construct(black_box(&problem), &solved.order));
        });
        if let Ok(mut planner) = Planner::new(&problem) {
            group.bench_function(with("construct again"), |b| {
                b.iter(|| planner.finish(black_box(&solved.order)));
            });
        }
        let known = Effort {
            schedules: 4,
            seed: 1,
            first_order: Some(solved.order.clone()),
        };
        let starts: Vec<Option<i32>> = solved.plan.starts.iter().copied().map(Some).collect();
        group.bench_function(with("replan, proved, explained, bounded"), |b| {
            b.iter(|| {
                let again = spare(&problem, &solve(black_box(&problem), &known)?)?;
                let again = steady(&problem, again, &starts)?;
                let reasons = explain_all(&problem, &again.solved.plan);
                bound(&problem).map(|bound| (again, reasons, bound))
            });
        });
        group.bench_function(with("spare"), |b| {
            b.iter(|| spare(black_box(&problem), &solved));
        });
        group.bench_function(with("solve 20"), |b| {
            b.iter(|| solve(black_box(&problem), &effort))
        });
        group.bench_function(with("verify"), |b| {
            b.iter(|| verify(black_box(&problem), &solved.plan));
        });
        group.bench_function(with("explain all"), |b| {
            b.iter(|| explain_all(black_box(&problem), &solved.plan));
        });
        group.bench_function(with("clash"), |b| b.iter(|| clash(black_box(&problem))));
        group.bench_function(with("bound"), |b| b.iter(|| bound(black_box(&problem))));
    }
    group.finish();
}

criterion_group!(benches, plans);
criterion_main!(benches);
