//! The shape that agrees best with all readings, and the reading that disagrees.
//!
//! The lower left corner is the origin; unknown are the other three corners and, for every reading
//! away from a corner, how far each of both edges stands off the straight line between its corners
//! there. Least squares (Gauss–Newton) over all readings, each with its spread; edges are taken
//! straight, plumb and level within wide spreads, so that readings may be missing: what is not read
//! stays uncertain, and the chance of a fit knows it.
//!
//! A residual v over its redundancy r is how far a reading is from what all others say of it; the
//! reading with the largest v/(σ√r) above 3.29 is named (Baarda's test at one in a thousand, 1968
//! \[published\]).

use nalgebra::{DMatrix, DVector};

use super::largest::goes_in;
use super::{Lean, OpeningFault, Outline, Point, Reading, Readings};
use crate::luck::Luck;

/// How far edges are from plumb or level before anything is read, as a standard share of their
/// length (common practice: finished walls rarely lean more than 10 mm in 2 m).
const LEANS: f64 = 0.005;

/// Nearer to a corner than this share of its edge a reading is as good as at the corner.
const CORNER: f64 = 0.02;

/// Largest standardised residual that chance explains, at one in a thousand.
const DOUBTFUL: f64 = 3.29;

/// Readings with less redundancy than this are checked by no other.
const CHECKED: f64 = 0.01;

/// Rounds of Gauss–Newton; three settle any opening, more find that nothing does.
const ROUNDS: usize = 12;

/// Which reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// The width of this number.
    Width(usize),
    /// The height of this number.
    Height(usize),
    /// The diagonal from lower left to upper right.
    Rising,
    /// The diagonal from upper left to lower right.
    Falling,
    /// The plumb of the left side.
    Left,
    /// The plumb of the right side.
    Right,
    /// The level of the sill.
    Sill,
    /// The level of the head.
    Head,
}

/// A reading against the shape.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Checked {
    /// Which.
    pub what: What,
    /// What was read.
    pub read: f64,
    /// What was read, less what the shape has.
    pub residual: f64,
    /// What was read, less what all other readings say; `None` where no other reading checks it.
    pub against_others: Option<f64>,
    /// The residual in its own standard spreads.
    pub standardised: f64,
}

/// The shape of an opening.
#[derive(Clone, Debug)]
pub struct Survey {
    knots: Knots,
    best: DVector<f64>,
    /// Lower triangular root of the covariance.
    root: DMatrix<f64>,
    outline: Outline,
    checks: Vec<Checked>,
}

impl Survey {
    /// The shape that agrees best with the readings.
    ///
    /// # Errors
    /// When there is no width or height, a reading makes no sense, or no shape comes of them.
    ///
    /// ```
    /// use grounds_fit::opening::{Reading, Readings, Survey};
    /// let width = |at, read| Reading { at, read };
    /// let mut readings = Readings::new(
    ///     vec![width(50.0, 900.0), width(1000.0, 900.0), width(1950.0, 900.0)],
    ///     vec![width(50.0, 2000.0), width(850.0, 2000.0)],
    /// );
    /// let even = (900.0_f64 * 900.0 + 2000.0 * 2000.0).sqrt();
    /// (readings.rising, readings.falling) = (Some(even), Some(even));
    /// let survey = Survey::of(&readings)?;
    /// assert!((survey.outline().area() - 900.0 * 2000.0).abs() < 1.0);
    /// assert!(survey.doubtful().is_none());
    /// # Ok::<(), grounds_fit::opening::OpeningFault>(())
    /// ```
    pub fn of(readings: &Readings) -> Result<Self, OpeningFault> {
        readings.check()?;
        let knots = Knots::of(readings);
        let mut best = knots.start(readings);
        for _ in 0..ROUNDS {
            let (misses, slopes) = linear(readings, &knots, &best);
            let normal = slopes.transpose() * &slopes;
            let step = normal
                .cholesky()
                .ok_or(OpeningFault::NoShape)?
                .solve(&(slopes.transpose() * misses));
            best += &step;
            if step.amax() < 1e-9 {
                break;
            }
        }
        let (misses, slopes) = linear(readings, &knots, &best);
        let normal = slopes.transpose() * &slopes;
        let covariance = normal.cholesky().ok_or(OpeningFault::NoShape)?.inverse();
        let root = covariance.clone().cholesky().ok_or(OpeningFault::NoShape)?;
        let outline = knots.outline(&best).map_err(|_| OpeningFault::NoShape)?;
        Ok(Self {
            checks: checks(readings, &misses, &slopes, &covariance),
            root: root.l(),
            knots,
            best,
            outline,
        })
    }

    /// The likeliest outline.
    #[must_use]
    pub fn outline(&self) -> &Outline {
        &self.outline
    }

    /// The four corners from the lower left, against the clock.
    #[must_use]
    pub fn corners(&self) -> [Point; 4] {
        self.knots.corners(&self.best)
    }

    /// Every reading against the shape.
    #[must_use]
    pub fn checks(&self) -> &[Checked] {
        &self.checks
    }

    /// The reading that disagrees most with the others, if more than chance explains.
    #[must_use]
    pub fn doubtful(&self) -> Option<&Checked> {
        self.checks
            .iter()
            .filter(|check| check.standardised.abs() > DOUBTFUL)
            .max_by(|a, b| a.standardised.abs().total_cmp(&b.standardised.abs()))
    }

    /// How far each edge stands in from the straight line between its corners, at most: left,
    /// right, sill, head. Zero where it stands out.
    #[must_use]
    pub(super) fn bows(&self) -> [f64; 4] {
        let inward = [1.0, -1.0, 1.0, -1.0];
        let mut bows = [0.0_f64; 4];
        for (knot, off) in self.knots.all.iter().zip(self.best.iter().skip(CORNERS)) {
            let edge = knot.edge as usize;
            bows[edge] = bows[edge].max(inward[edge] * off);
        }
        bows
    }

    /// Whether an upright rectangle of this size goes into an opening drawn as the readings leave it
    /// open.
    pub(super) fn takes(&self, width: f64, height: f64, luck: &mut Luck) -> bool {
        let scores = DVector::from_fn(self.best.len(), |_, _| luck.normal());
        let drawn = &self.best + &self.root * scores;
        // What clears every edge at its tightest place goes in for sure, which settles most draws.
        let (clear_width, clear_height) = self.knots.clear(&drawn);
        if width <= clear_width && height <= clear_height {
            return true;
        }
        let outline = self.knots.outline(&drawn);
        outline.is_ok_and(|outline| goes_in(&outline, width, height))
    }
}

/// How many unknowns the corners have: `x` and `y` of lower right, upper right and upper left.
const CORNERS: usize = 6;

/// An edge of the opening, in the order of the bows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Edge {
    Left = 0,
    Right = 1,
    Sill = 2,
    Head = 3,
}

/// A place of an edge away from the corners, with its own unknown.
#[derive(Clone, Copy, Debug)]
struct Knot {
    edge: Edge,
    /// Height above the sill, or distance from the left.
    at: f64,
    /// Where it lies on its edge, from 0 to 1.
    share: f64,
}

#[derive(Clone, Debug)]
struct Knots {
    all: Vec<Knot>,
}

impl Knots {
    /// One on both edges for each reading away from the corners, each edge's in order.
    fn of(readings: &Readings) -> Self {
        let places = |all: &[Reading], length: f64| {
            let mut places: Vec<f64> = all.iter().map(|reading| reading.at).collect();
            places.sort_by(f64::total_cmp);
            // Readings at one place share their knot.
            places.dedup_by(|a, b| *a - *b < CORNER * length);
            places.retain(|at| (CORNER..=1.0 - CORNER).contains(&(at / length)));
            places
                .into_iter()
                .map(move |at| (at, at / length))
                .collect::<Vec<_>>()
        };
        let up = places(&readings.widths, readings.tallest());
        let along = places(&readings.heights, readings.widest());
        let on = |edge: Edge, places: &[(f64, f64)]| {
            let knots = places.iter().map(|&(at, share)| Knot { edge, at, share });
            knots.collect::<Vec<_>>()
        };
        Self {
            all: [
                on(Edge::Left, &up),
                on(Edge::Right, &up),
                on(Edge::Sill, &along),
                on(Edge::Head, &along),
            ]
            .concat(),
        }
    }

    fn start(&self, readings: &Readings) -> DVector<f64> {
        let (width, height) = (readings.widest(), readings.tallest());
        let mut start = DVector::zeros(CORNERS + self.all.len());
        for (index, value) in [width, 0.0, width, height, 0.0, height]
            .into_iter()
            .enumerate()
        {
            start[index] = value;
        }
        start
    }

    fn corners(&self, at: &DVector<f64>) -> [Point; 4] {
        let point = |x: usize| Point {
            x: at[x],
            y: at[x + 1],
        };
        [Point { x: 0.0, y: 0.0 }, point(0), point(2), point(4)]
    }

    /// The `x` of a side at a height, or the `y` of sill or head at a station.
    fn place(&self, unknown: &DVector<f64>, edge: Edge, at: f64) -> f64 {
        let straight = self.straight(unknown, edge, at);
        let near = |knot: &Knot| (knot.at - at).abs();
        let nearest = self
            .all
            .iter()
            .enumerate()
            .filter(|(_, knot)| knot.edge == edge)
            .min_by(|(_, a), (_, b)| near(a).total_cmp(&near(b)));
        let bow = nearest
            .filter(|(_, knot)| near(knot) < CORNER * knot.at / knot.share)
            .map_or(0.0, |(index, _)| unknown[CORNERS + index]);
        straight + bow
    }

    /// The same on the straight line between the corners.
    fn straight(&self, unknown: &DVector<f64>, edge: Edge, at: f64) -> f64 {
        let [a, b, c, d] = self.corners(unknown);
        let across =
            |from: Point, to: Point| from.x + (to.x - from.x) * (at - from.y) / (to.y - from.y);
        let up =
            |from: Point, to: Point| from.y + (to.y - from.y) * (at - from.x) / (to.x - from.x);
        match edge {
            Edge::Left => across(a, d),
            Edge::Right => across(b, c),
            Edge::Sill => up(a, b),
            Edge::Head => up(d, c),
        }
    }

    /// How wide and high the box between the innermost places of all four edges is.
    fn clear(&self, unknown: &DVector<f64>) -> (f64, f64) {
        let [a, b, c, d] = self.corners(unknown);
        let (mut left, mut right) = (a.x.max(d.x), b.x.min(c.x));
        let (mut bottom, mut top) = (a.y.max(b.y), c.y.min(d.y));
        for knot in &self.all {
            let place = self.place(unknown, knot.edge, knot.at);
            match knot.edge {
                Edge::Left => left = left.max(place),
                Edge::Right => right = right.min(place),
                Edge::Sill => bottom = bottom.max(place),
                Edge::Head => top = top.min(place),
            }
        }
        (right - left, top - bottom)
    }

    fn outline(&self, unknown: &DVector<f64>) -> Result<Outline, OpeningFault> {
        let [a, b, c, d] = self.corners(unknown);
        let on = |edge: Edge| {
            self.all
                .iter()
                .filter(move |knot| knot.edge == edge)
                .map(move |knot| {
                    let off = self.place(unknown, edge, knot.at);
                    match edge {
                        Edge::Left | Edge::Right => Point { x: off, y: knot.at },
                        Edge::Sill | Edge::Head => Point { x: knot.at, y: off },
                    }
                })
        };
        let backwards = |edge: Edge| on(edge).collect::<Vec<_>>().into_iter().rev();
        let mut corners = vec![a];
        corners.extend(on(Edge::Sill));
        corners.push(b);
        corners.extend(on(Edge::Right));
        corners.push(c);
        corners.extend(backwards(Edge::Head));
        corners.push(d);
        corners.extend(backwards(Edge::Left));
        Outline::new(corners)
    }
}

/// What is observed, modelled and how widely spread: all readings first, in order, then what is
/// taken for granted.
fn rows(
    readings: &Readings,
    knots: &Knots,
    at: &DVector<f64>,
) -> Vec<(Option<What>, f64, f64, f64)> {
    let [a, b, c, d] = knots.corners(at);
    let place = |edge, where_| knots.place(at, edge, where_);
    let spread = readings.spread;
    let mut rows = Vec::new();
    for (index, width) in readings.widths.iter().enumerate() {
        let has = place(Edge::Right, width.at) - place(Edge::Left, width.at);
        rows.push((Some(What::Width(index)), width.read, has, spread));
    }
    for (index, height) in readings.heights.iter().enumerate() {
        let has = place(Edge::Head, height.at) - place(Edge::Sill, height.at);
        rows.push((Some(What::Height(index)), height.read, has, spread));
    }
    let diagonals = [
        (What::Rising, readings.rising, a.to(c)),
        (What::Falling, readings.falling, d.to(b)),
    ];
    for (what, read, has) in diagonals {
        rows.extend(read.map(|read| (Some(what), read, has, spread)));
    }
    let (left, right) = (d.x - a.x, c.x - b.x);
    let (sill, head) = (b.y - a.y, c.y - d.y);
    let leans: [(What, Option<Lean>, f64, f64); 4] = [
        (What::Left, readings.left, left, d.y),
        (What::Right, readings.right, right, c.y - b.y),
        (What::Sill, readings.sill, sill, b.x),
        (What::Head, readings.head, head, c.x - d.x),
    ];
    for (what, lean, off, length) in leans {
        rows.extend(lean.map(|lean| (Some(what), lean.off, off * lean.over / length, spread)));
    }
    let granted = [
        (left, readings.tallest()),
        (right, readings.tallest()),
        (sill, readings.widest()),
        (head, readings.widest()),
    ];
    rows.extend(granted.map(|(off, length)| (None, 0.0, off, LEANS * length)));
    for (index, knot) in knots.all.iter().enumerate() {
        let spread = readings.bow * 4.0 * knot.share * (1.0 - knot.share);
        rows.push((None, 0.0, at[CORNERS + index], spread));
    }
    rows
}

/// Misses and slopes of all rows, each in its own spread.
fn linear(readings: &Readings, knots: &Knots, at: &DVector<f64>) -> (DVector<f64>, DMatrix<f64>) {
    /// Step of the differences, in mm: lengths are thousands, so that both errors are tiny.
    const STEP: f64 = 1e-3;
    let here = rows(readings, knots, at);
    let misses = DVector::from_iterator(
        here.len(),
        here.iter()
            .map(|(_, read, has, spread)| (read - has) / spread),
    );
    let mut slopes = DMatrix::zeros(here.len(), at.len());
    for column in 0..at.len() {
        let moved = |by: f64| {
            let mut moved = at.clone();
            moved[column] += by;
            rows(readings, knots, &moved)
        };
        for (row, (more, less)) in moved(STEP).iter().zip(moved(-STEP)).enumerate() {
            slopes[(row, column)] = (more.2 - less.2) / (2.0 * STEP * more.3);
        }
    }
    (misses, slopes)
}

fn checks(
    readings: &Readings,
    misses: &DVector<f64>,
    slopes: &DMatrix<f64>,
    covariance: &DMatrix<f64>,
) -> Vec<Checked> {
    let whats = named(readings);
    whats
        .into_iter()
        .enumerate()
        .map(|(row, (what, read))| {
            let slope = slopes.row(row);
            let known = (slope * covariance * slope.transpose())[(0, 0)];
            let redundancy = (1.0 - known).clamp(0.0, 1.0);
            let residual = misses[row] * readings.spread;
            let checked = redundancy > CHECKED;
            Checked {
                what,
                read,
                residual,
                against_others: checked.then(|| residual / redundancy),
                standardised: if checked {
                    misses[row] / redundancy.sqrt()
                } else {
                    0.0
                },
            }
        })
        .collect()
}

/// The readings in the order of the rows.
fn named(readings: &Readings) -> Vec<(What, f64)> {
    let widths = readings.widths.iter().enumerate();
    let heights = readings.heights.iter().enumerate();
    let off = |lean: Option<Lean>| lean.map(|lean| lean.off);
    let others = [
        (What::Rising, readings.rising),
        (What::Falling, readings.falling),
        (What::Left, off(readings.left)),
        (What::Right, off(readings.right)),
        (What::Sill, off(readings.sill)),
        (What::Head, off(readings.head)),
    ];
    widths
        .map(|(index, reading)| (What::Width(index), reading.read))
        .chain(heights.map(|(index, reading)| (What::Height(index), reading.read)))
        .chain(
            others
                .into_iter()
                .filter_map(|(what, read)| Some((what, read?))),
        )
        .collect()
}
