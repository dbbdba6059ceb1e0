//! The plane that fits marks best, freely or held to something.

use nalgebra::{DMatrix, DVector};
use thiserror::Error;

/// The most marks that are fitted at once.
const MOST: usize = 10_000;

/// A measured place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// Along the control plane.
    pub along: f64,
    /// Up it.
    pub up: f64,
    /// Out of it.
    pub off: f64,
}

/// What the plane is held to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Held {
    /// Nothing: it may lean and turn.
    Free,
    /// Plumb: the same offset at all heights; it may turn in plan. A floor that may fall in one
    /// direction only.
    Plumb,
    /// Parallel to the control plane: plumb and square, or level for a floor.
    Parallel,
    /// Through a level line at this height, at this offset; it may lean.
    LevelLine {
        /// How high the line is.
        up: f64,
        /// How far off it is.
        off: f64,
    },
    /// Through a plumb line at this place, at this offset; it may turn in plan but stays plumb.
    PlumbLine {
        /// Where the line is.
        along: f64,
        /// How far off it is.
        off: f64,
    },
}

/// A plane near the control plane: off = `at` + `turn` · along + `lean` · up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plane {
    /// Offset at the origin.
    pub at: f64,
    /// Change of offset per mm along.
    pub turn: f64,
    /// Change of offset per mm up.
    pub lean: f64,
}

impl Plane {
    /// Its offset at a place.
    #[must_use]
    pub fn off(&self, along: f64, up: f64) -> f64 {
        self.at + self.turn * along + self.lean * up
    }

    /// How far a mark is out of the plane, towards the room.
    #[must_use]
    pub fn residual(&self, mark: &Mark) -> f64 {
        mark.off - self.off(mark.along, mark.up)
    }
}

/// Marks that no plane can be put through.
#[derive(Clone, Copy, Debug, PartialEq, Error)]
pub enum PlaneFault {
    /// There are no marks, or more than ten thousand.
    #[error("a plane needs 1 to 10,000 marks")]
    Count,
    /// A mark or a limit is not a number, or a limit is below zero.
    #[error("a mark or limit of the plane is not a number, or a limit is below zero")]
    NotANumber,
    /// The marks lie in a line or a heap, so that the plane could turn about them.
    #[error(
        "the marks do not settle the plane: measure one more, away from the line of the others"
    )]
    Loose,
    /// Fixed seats or the thickest shims allowed do not let all seats come into one plane.
    #[error("no common plane: fixed pieces or shims would have to give way by {by:.2} mm")]
    NoneFits {
        /// By how much, in mm.
        by: f64,
    },
}

/// The best plane.
#[derive(Clone, Debug, PartialEq)]
pub struct Fitted {
    /// The plane.
    pub plane: Plane,
    /// How far each mark is out of it, towards the room.
    pub residuals: Vec<f64>,
    /// Root of the mean square of the residuals.
    pub spread: f64,
}

impl Fitted {
    /// Which marks are further out of the plane than the eye is let off with. Where that begins is
    /// for the user to say: light along a wall shows half a millimetre, plain light hides three.
    #[must_use]
    pub fn seen(&self, limit: f64) -> Vec<usize> {
        let out = self.residuals.iter().enumerate();
        out.filter(|(_, residual)| residual.abs() > limit)
            .map(|(index, _)| index)
            .collect()
    }
}

impl Held {
    /// The plane as a fixed part and the planes that may be added to it.
    pub(super) fn parts(self) -> (Plane, Vec<Plane>) {
        let plane = |at, turn, lean| Plane { at, turn, lean };
        let nothing = plane(0.0, 0.0, 0.0);
        match self {
            Self::Free => (
                nothing,
                vec![
                    plane(1.0, 0.0, 0.0),
                    plane(0.0, 1.0, 0.0),
                    plane(0.0, 0.0, 1.0),
                ],
            ),
            Self::Plumb => (nothing, vec![plane(1.0, 0.0, 0.0), plane(0.0, 1.0, 0.0)]),
            Self::Parallel => (nothing, vec![plane(1.0, 0.0, 0.0)]),
            Self::LevelLine { up, off } => (plane(off, 0.0, 0.0), vec![plane(-up, 0.0, 1.0)]),
            Self::PlumbLine { along, off } => (plane(off, 0.0, 0.0), vec![plane(-along, 1.0, 0.0)]),
        }
    }
}

/// The fixed part with so much of each other part.
pub(super) fn summed(fixed: Plane, parts: &[Plane], shares: &[f64]) -> Plane {
    parts
        .iter()
        .zip(shares)
        .fold(fixed, |sum, (part, share)| Plane {
            at: sum.at + share * part.at,
            turn: sum.turn + share * part.turn,
            lean: sum.lean + share * part.lean,
        })
}

pub(super) fn check(marks: &[Mark]) -> Result<(), PlaneFault> {
    if marks.is_empty() || marks.len() > MOST {
        return Err(PlaneFault::Count);
    }
    let number = |mark: &Mark| {
        [mark.along, mark.up, mark.off]
            .iter()
            .all(|x| x.is_finite())
    };
    if marks.iter().all(number) {
        Ok(())
    } else {
        Err(PlaneFault::NotANumber)
    }
}

/// The plane with the least sum of squared offsets to the marks, along the control plane's normal.
///
/// # Errors
/// When there are no marks or too many, one is not a number, or they do not settle the plane.
///
/// ```
/// use grounds_fit::plane::{Held, Mark, best_plane};
/// let mark = |along, up, off| Mark { along, up, off };
/// let marks = [mark(0.0, 0.0, 1.0), mark(2000.0, 0.0, 3.0), mark(0.0, 2600.0, 1.0), mark(2000.0, 2600.0, 3.0)];
/// let fitted = best_plane(&marks, Held::Free)?;
/// assert!((fitted.plane.turn - 0.001).abs() < 1e-9 && fitted.spread < 1e-9);
/// assert_eq!(best_plane(&marks, Held::Parallel)?.seen(0.5), [0, 1, 2, 3]);
/// # Ok::<(), grounds_fit::plane::PlaneFault>(())
/// ```
pub fn best_plane(marks: &[Mark], held: Held) -> Result<Fitted, PlaneFault> {
    /// Weaker than this share of the strongest direction the marks do not hold the plane.
    const LOOSE: f64 = 1e-9;
    check(marks)?;
    let (fixed, parts) = held.parts();
    let sheet = DMatrix::from_fn(marks.len(), parts.len(), |row, column| {
        parts[column].off(marks[row].along, marks[row].up)
    });
    // Every column is brought to length 1, so that millimetres and slopes weigh alike.
    let lengths: Vec<f64> = sheet.column_iter().map(|column| column.norm()).collect();
    if lengths.iter().any(|length| *length <= 0.0) {
        return Err(PlaneFault::Loose);
    }
    let even = DMatrix::from_fn(marks.len(), parts.len(), |row, column| {
        sheet[(row, column)] / lengths[column]
    });
    let offs = DVector::from_iterator(marks.len(), marks.iter().map(|mark| fixed.residual(mark)));
    let svd = even.svd(true, true);
    let (strongest, weakest) = (svd.singular_values.max(), svd.singular_values.min());
    if marks.len() < parts.len() || weakest <= LOOSE * strongest {
        return Err(PlaneFault::Loose);
    }
    let solved = svd.solve(&offs, 0.0).map_err(|_| PlaneFault::Loose)?;
    let shares: Vec<f64> = solved.iter().zip(&lengths).map(|(x, l)| x / l).collect();
    let plane = summed(fixed, &parts, &shares);
    let residuals: Vec<f64> = marks.iter().map(|mark| plane.residual(mark)).collect();
    #[expect(clippy::cast_precision_loss, reason = "ten thousand at most")]
    let mean = residuals.iter().map(|r| r * r).sum::<f64>() / residuals.len() as f64;
    Ok(Fitted {
        plane,
        residuals,
        spread: mean.sqrt(),
    })
}
