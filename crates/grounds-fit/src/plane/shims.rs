//! Shims that bring pieces into one plane.
//!
//! Pieces are only brought out, never cut: the plane lies at or before every seat that can be
//! shimmed. Among all such planes the one with the least sum of shims is taken, a linear program in
//! the one to three figures of the plane. Pieces that cannot be moved any more hold the plane
//! within what the eye is let off with.

use clarabel::algebra::CscMatrix;
use clarabel::solver::SupportedConeT::NonnegativeConeT;
use clarabel::solver::{DefaultSettings, DefaultSolver, IPSolver};

use super::fit::{check, summed};
use super::{Held, Mark, Plane, PlaneFault};

/// What can be done at a seat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Can {
    /// Shims up to this thickness go behind it.
    Shim(f64),
    /// It stays as it is, being set or covered; the plane passes within this of it.
    Stay(f64),
}

/// A place where a piece sits, as measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seat {
    /// Which piece, by the caller's own numbers.
    pub piece: usize,
    /// Where its face is.
    pub mark: Mark,
    /// What can be done there.
    pub can: Can,
}

/// Shims to a common plane.
#[derive(Clone, Debug, PartialEq)]
pub struct Shimmed {
    /// The plane of all faces.
    pub plane: Plane,
    /// The shim behind each seat, never below zero; zero where it stays.
    pub shims: Vec<f64>,
    /// How far each seat is out of the plane afterwards: zero unless it stays.
    pub left: Vec<f64>,
    /// All shims together.
    pub total: f64,
}

/// The least shims that bring all seats into one plane.
///
/// # Errors
/// When there are no seats or too many, a figure is not a number, or no plane keeps all limits; then
/// by how much it fails.
///
/// ```
/// use grounds_fit::plane::{Can, Held, Mark, Seat, shim};
/// let seat = |piece, up, off| Seat { piece, mark: Mark { along: 0.0, up, off }, can: Can::Shim(10.0) };
/// // Three boxes above each other on a plumb line; the middle one stands 2 mm out.
/// let shimmed = shim(&[seat(0, 0.0, 0.0), seat(1, 3000.0, 2.0), seat(2, 6000.0, 0.5)], Held::Parallel)?;
/// assert!((shimmed.shims[0] - 2.0).abs() < 1e-6 && (shimmed.shims[2] - 1.5).abs() < 1e-6);
/// # Ok::<(), grounds_fit::plane::PlaneFault>(())
/// ```
pub fn shim(seats: &[Seat], held: Held) -> Result<Shimmed, PlaneFault> {
    /// A failure smaller than this, in mm, is none.
    const NOTHING: f64 = 1e-4;
    let marks: Vec<Mark> = seats.iter().map(|seat| seat.mark).collect();
    check(&marks)?;
    let limit = |seat: &Seat| match seat.can {
        Can::Shim(most) => most,
        Can::Stay(within) => within,
    };
    if !seats
        .iter()
        .map(limit)
        .all(|most| most >= 0.0 && most.is_finite())
    {
        return Err(PlaneFault::NotANumber);
    }
    let program = Program::new(seats, held);
    let (_, by) = program.solved(0.0, 1.0, f64::INFINITY)?;
    if by > NOTHING {
        return Err(PlaneFault::NoneFits { by });
    }
    let (plane, _) = program.solved(1.0, 0.0, by.max(0.0) + NOTHING / 10.0)?;
    Ok(settled(seats, plane))
}

/// The plane brought out by what the program leaves at the last figures, and the shims to it.
fn settled(seats: &[Seat], mut plane: Plane) -> Shimmed {
    let behind = |plane: &Plane, seat: &Seat| -plane.residual(&seat.mark);
    let short = seats
        .iter()
        .filter(|seat| matches!(seat.can, Can::Shim(_)))
        .map(|seat| -behind(&plane, seat))
        .fold(0.0, f64::max);
    plane.at += short;
    let shims: Vec<f64> = seats
        .iter()
        .map(|seat| match seat.can {
            Can::Shim(_) => behind(&plane, seat).max(0.0),
            Can::Stay(_) => 0.0,
        })
        .collect();
    let left = |seat: &Seat| match seat.can {
        Can::Shim(_) => 0.0,
        Can::Stay(_) => plane.residual(&seat.mark),
    };
    Shimmed {
        left: seats.iter().map(left).collect(),
        total: shims.iter().sum(),
        plane,
        shims,
    }
}

/// The linear program: unknown are the shares of the plane's parts, and by how much limits of
/// thickness and of seats that stay give way.
struct Program {
    fixed: Plane,
    parts: Vec<Plane>,
    /// Per unknown, scale that brings its slopes near 1.
    scales: Vec<f64>,
    /// Each `slopes · shares − gives · way ≤ most`.
    rows: Vec<(Vec<f64>, f64, f64)>,
    /// What a share adds to the sum of shims.
    costs: Vec<f64>,
}

impl Program {
    fn new(seats: &[Seat], held: Held) -> Self {
        let (fixed, parts) = held.parts();
        let reach = |part: &Plane| {
            let most = seats
                .iter()
                .map(|seat| part.off(seat.mark.along, seat.mark.up).abs());
            most.fold(1e-9, f64::max)
        };
        let scales: Vec<f64> = parts.iter().map(|part| 1.0 / reach(part)).collect();
        let mut rows = Vec::new();
        let mut costs = vec![0.0; parts.len()];
        for seat in seats {
            let slopes: Vec<f64> = parts
                .iter()
                .zip(&scales)
                .map(|(part, scale)| part.off(seat.mark.along, seat.mark.up) * scale)
                .collect();
            let back: Vec<f64> = slopes.iter().map(|slope| -slope).collect();
            let off = fixed.residual(&seat.mark);
            match seat.can {
                Can::Shim(most) => {
                    for (cost, slope) in costs.iter_mut().zip(&slopes) {
                        *cost += slope;
                    }
                    rows.push((back, 0.0, -off));
                    rows.push((slopes, 1.0, off + most));
                }
                Can::Stay(within) => {
                    rows.push((back, 1.0, within - off));
                    rows.push((slopes, 1.0, within + off));
                }
            }
        }
        Self {
            fixed,
            parts,
            scales,
            rows,
            costs,
        }
    }

    /// The best plane for these prices of shims and of giving way, giving way at most so far; and by
    /// how much limits give way.
    fn solved(&self, shims: f64, way: f64, most: f64) -> Result<(Plane, f64), PlaneFault> {
        let count = self.parts.len();
        let mut rows: Vec<Vec<f64>> = Vec::new();
        let mut limits = Vec::new();
        for (slopes, gives, limit) in &self.rows {
            let mut row = slopes.clone();
            row.push(-gives);
            rows.push(row);
            limits.push(*limit);
        }
        let mut bound = |sign: f64, limit: f64| {
            let mut row = vec![0.0; count];
            row.push(sign);
            rows.push(row);
            limits.push(limit);
        };
        bound(-1.0, 0.0);
        if most.is_finite() {
            bound(1.0, most);
        }
        let mut costs: Vec<f64> = self.costs.iter().map(|cost| cost * shims).collect();
        costs.push(way);
        let shares = minimised(&costs, &rows, &limits).ok_or(PlaneFault::Loose)?;
        let real: Vec<f64> = shares
            .iter()
            .zip(&self.scales)
            .map(|(x, s)| x * s)
            .collect();
        let by = shares.last().copied().unwrap_or_default();
        Ok((summed(self.fixed, &self.parts, &real), by))
    }
}

/// The unknowns of the least cost under `rows · unknowns ≤ limits`; `None` if there are none.
fn minimised(costs: &[f64], rows: &[Vec<f64>], limits: &[f64]) -> Option<Vec<f64>> {
    let count = costs.len();
    let nothing = CscMatrix::zeros((count, count));
    let matrix = CscMatrix::from(rows);
    let settings = DefaultSettings {
        verbose: false,
        ..DefaultSettings::default()
    };
    let cones = [NonnegativeConeT(limits.len())];
    let mut solver = DefaultSolver::new(&nothing, costs, &matrix, limits, &cones, settings).ok()?;
    solver.solve();
    let solved = &solver.solution;
    let done = matches!(
        solved.status,
        clarabel::solver::SolverStatus::Solved | clarabel::solver::SolverStatus::AlmostSolved
    );
    done.then(|| solved.x.clone())
}
