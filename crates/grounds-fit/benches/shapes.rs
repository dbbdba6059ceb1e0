//! How long the largest rectangle, the chance of a fit and cut lists take.

use std::hint::black_box;
use std::num::NonZeroUsize;

use criterion::{Criterion, criterion_group, criterion_main};
use grounds_fit::cuts::{Wanted, cut_list};
use grounds_fit::opening::{
    Clearance, Made, Outline, Point, Reading, Readings, Survey, largest_rectangle, order,
};
use grounds_fit::plane::{Can, Held, Mark, Seat, shim};
use grounds_measure::{Length, Step};

fn outline(corners: &[(f64, f64)]) -> Option<Outline> {
    Outline::new(corners.iter().map(|&(x, y)| Point { x, y }).collect()).ok()
}

fn readings() -> Readings {
    let read = |at, read| Reading { at, read };
    let mut readings = Readings::new(
        vec![read(50.0, 903.0), read(1000.0, 899.0), read(1950.0, 905.0)],
        vec![read(50.0, 2003.0), read(450.0, 2001.0), read(850.0, 2004.0)],
    );
    (readings.rising, readings.falling) = (Some(2199.0), Some(2195.0));
    readings
}

fn openings(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("opening");
    if let Some(plain) = outline(&[(0.0, 0.0), (903.0, 2.0), (898.0, 2004.0), (3.0, 2001.0)]) {
        group.bench_function("largest rectangle, four corners", |b| {
            b.iter(|| largest_rectangle(black_box(&plain)));
        });
    }
    if let Some(bowed) = outline(&[
        (0.0, 0.0),
        (450.0, 2.0),
        (903.0, 1.0),
        (897.0, 1000.0),
        (901.0, 2004.0),
        (450.0, 1999.0),
        (3.0, 2001.0),
        (6.0, 1000.0),
    ]) {
        group.bench_function("largest rectangle, all sides bowed", |b| {
            b.iter(|| largest_rectangle(black_box(&bowed)));
        });
    }
    let readings = readings();
    group.bench_function("readings to a size to order", |b| {
        b.iter(|| {
            let survey = Survey::of(black_box(&readings)).ok()?;
            order(&survey, Clearance::all(3.0), Step::SIXTEENTH_INCH)
        });
    });
    if let Ok(survey) = Survey::of(&readings) {
        let made = Made {
            width: 890.0,
            height: 1992.0,
            spread: 0.5,
        };
        group.sample_size(10);
        group.bench_function("chance that a size goes in", |b| {
            b.iter(|| made.fits(black_box(&survey), Clearance::all(3.0), 1));
        });
    }
    group.finish();
}

fn cut_lists(criterion: &mut Criterion) {
    // The thirteen-width example of textbooks on cutting stock.
    let orders = [
        (1380, 22),
        (1520, 25),
        (1560, 12),
        (1710, 14),
        (1820, 18),
        (1880, 18),
        (1930, 20),
        (2000, 10),
        (2050, 12),
        (2100, 14),
        (2140, 16),
        (2150, 18),
        (2200, 20),
    ];
    let asked: Vec<Wanted> = orders
        .into_iter()
        .filter_map(|(mm, count)| {
            Some(Wanted {
                length: Length::from_mm(mm),
                count: NonZeroUsize::new(count)?,
            })
        })
        .collect();
    let mut group = criterion.benchmark_group("cut list");
    group.sample_size(10);
    group.bench_function("219 rolls of 13 widths", |b| {
        b.iter(|| cut_list(&[Length::from_mm(5600)], black_box(&asked), Length::ZERO));
    });
    group.bench_function("20 pieces with a saw", |b| {
        let few: Vec<Wanted> = asked
            .iter()
            .take(10)
            .map(|kind| Wanted {
                count: NonZeroUsize::MIN.saturating_add(1),
                ..*kind
            })
            .collect();
        b.iter(|| {
            cut_list(
                &[Length::from_mm(5600)],
                black_box(&few),
                Length::from_mm(3),
            )
        });
    });
    group.finish();
}

fn shims(criterion: &mut Criterion) {
    let seats: Vec<Seat> = (0..60_u32)
        .map(|piece| Seat {
            piece: piece as usize,
            mark: Mark {
                along: f64::from(piece % 6) * 700.0,
                up: f64::from(piece / 6) * 900.0,
                off: f64::from(piece * 37 % 11),
            },
            can: Can::Shim(25.0),
        })
        .collect();
    criterion.bench_function("shims of 60 seats to a free plane", |b| {
        b.iter(|| shim(black_box(&seats), Held::Free));
    });
}

criterion_group!(benches, openings, cut_lists, shims);
criterion_main!(benches);
