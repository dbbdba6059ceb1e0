//! Openings, planes and cut lists as they are computed, for the comparison with numpy and scipy.

use std::{error::Error, num::NonZeroUsize};

use grounds_fit::cuts::{Wanted, cut_list};
use grounds_fit::opening::{Outline, Point, largest_rectangle};
use grounds_fit::plane::{Can, Held, Mark, Seat, best_plane, plane_in_space, shim};
use grounds_measure::Length;
use grounds_schedule::chance::Chance;
use serde::Serialize;

/// Cases of each kind, and the seed that they are drawn from.
const CASES: usize = 1000;
const CUT_LISTS: usize = 100;
const SEED: u64 = 20_270_611;

/// Everything about shapes that is compared.
#[derive(Serialize)]
pub(crate) struct Shapes {
    rectangles: Vec<Rectangle>,
    planes: Vec<Plane>,
    cuts: Vec<Cuts>,
}

/// A convex outline, and the largest upright rectangle in it: left, bottom, width and height.
#[derive(Serialize)]
struct Rectangle {
    corners: Vec<(f64, f64)>,
    found: [f64; 4],
}

/// Marks along, up and off; the free and the plumb plane through them as at, turn and lean; the
/// plane in space as normal and distance; and the least shims to a free plane, summed.
#[derive(Serialize)]
struct Plane {
    marks: Vec<[f64; 3]>,
    free: [f64; 3],
    plumb: [f64; 3],
    normal: [f64; 3],
    distance: f64,
    shims: f64,
}

/// A stock length and a kerf in mm, pieces with their counts, the number of stock lengths in the
/// cut list and the number that none can be below.
#[derive(Serialize)]
struct Cuts {
    stock: i64,
    kerf: i64,
    pieces: Vec<(i64, usize)>,
    bars: usize,
    at_least: i64,
}

pub(crate) fn shapes() -> Result<Shapes, Box<dyn Error>> {
    let mut chance = Chance::new(SEED);
    let mut rectangles = Vec::new();
    while rectangles.len() < CASES {
        rectangles.extend(rectangle(&mut chance)?);
    }
    let planes = (0..CASES).map(|_| plane(&mut chance));
    let planes = planes.collect::<Result<_, _>>()?;
    let cuts = (0..CUT_LISTS).map(|_| cuts(&mut chance));
    Ok(Shapes {
        rectangles,
        planes,
        cuts: cuts.collect::<Result<_, _>>()?,
    })
}

/// A number between two, in hundredths.
fn between(chance: &mut Chance, low: i32, high: i32) -> f64 {
    f64::from(chance.between(low * 100, high * 100)) / 100.0
}

/// An opening of four corners, a little or far out of true; `None` if it is not convex.
fn rectangle(chance: &mut Chance) -> Result<Option<Rectangle>, Box<dyn Error>> {
    let off = if chance.happens(50) { 15 } else { 250 };
    let (wide, high) = (between(chance, 600, 1500), between(chance, 600, 2500));
    let true_corners = [(0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)];
    let corners = true_corners.map(|(x, y)| {
        let (aside, up) = (between(chance, -off, off), between(chance, -off, off));
        (x + aside, y + up)
    });
    let turns = (0..4).map(|i| {
        let [a, b, c] = [0, 1, 2].map(|more| corners[(i + more) % 4]);
        (b.0 - a.0) * (c.1 - a.1) - (b.1 - a.1) * (c.0 - a.0)
    });
    if turns.fold(f64::INFINITY, f64::min) <= 0.0 {
        return Ok(None);
    }
    let outline = Outline::new(corners.map(|(x, y)| Point { x, y }).to_vec())?;
    let found = largest_rectangle(&outline)
        .ok_or("nothing goes in")?
        .rectangle;
    Ok(Some(Rectangle {
        corners: corners.to_vec(),
        found: [found.left, found.bottom, found.width, found.height],
    }))
}

fn plane(chance: &mut Chance) -> Result<Plane, Box<dyn Error>> {
    let count = 4 + chance.below(20);
    let marks: Vec<Mark> = (0..count)
        .map(|_| Mark {
            along: between(chance, 0, 9000),
            up: between(chance, 0, 9000),
            off: between(chance, -12, 12),
        })
        .collect();
    let points: Vec<[f64; 3]> = marks.iter().map(|m| [m.along, m.up, m.off]).collect();
    let figures = |held| best_plane(&marks, held).map(|f| [f.plane.at, f.plane.turn, f.plane.lean]);
    let space = plane_in_space(&points)?;
    let seats: Vec<Seat> = marks
        .iter()
        .enumerate()
        .map(|(piece, &mark)| Seat {
            piece,
            mark,
            can: Can::Shim(1000.0),
        })
        .collect();
    Ok(Plane {
        free: figures(Held::Free)?,
        plumb: figures(Held::Plumb)?,
        normal: space.normal,
        distance: space.distance,
        shims: shim(&seats, Held::Free)?.total,
        marks: points,
    })
}

fn cuts(chance: &mut Chance) -> Result<Cuts, Box<dyn Error>> {
    let (stock, kerf) = (
        i64::from(chance.between(2400, 6000)),
        i64::from(chance.between(0, 4)),
    );
    let pieces: Vec<(i64, usize)> = (0..1 + chance.below(8))
        .map(|_| (i64::from(chance.between(300, 2400)), 1 + chance.below(12)))
        .collect();
    let wanted: Vec<Wanted> = pieces
        .iter()
        .map(|&(length, count)| {
            let length = Length::from_mm(length);
            let count = NonZeroUsize::new(count).ok_or("no piece")?;
            Ok(Wanted { length, count })
        })
        .collect::<Result<_, &str>>()?;
    let list = cut_list(&[Length::from_mm(stock)], &wanted, Length::from_mm(kerf))?;
    Ok(Cuts {
        stock,
        kerf,
        pieces,
        bars: list.bars.len(),
        at_least: list.at_least.units() / Length::from_mm(stock).units(),
    })
}
