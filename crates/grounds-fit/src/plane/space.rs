//! The plane through points in space.

use nalgebra::{Matrix3, Vector3};

use super::PlaneFault;

/// A plane in space: all places whose product with `normal` is `distance`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InSpace {
    /// Of length 1; its largest part is above zero.
    pub normal: [f64; 3],
    /// From the origin along the normal, in mm.
    pub distance: f64,
    /// Root of the mean square of the distances to it, in mm.
    pub spread: f64,
}

impl InSpace {
    /// How far a point is out of the plane, along its normal.
    #[must_use]
    pub fn residual(&self, point: [f64; 3]) -> f64 {
        Vector3::from(self.normal).dot(&Vector3::from(point)) - self.distance
    }
}

/// The plane with the least sum of squared distances square to itself (total least squares): through
/// the middle of the points, its normal where they spread least, the weakest eigenvector of their
/// scatter.
///
/// # Errors
/// When there are fewer than three points, one is not a number, or they lie in a line or a heap.
///
/// ```
/// use grounds_fit::plane::plane_in_space;
/// let level = plane_in_space(&[[0.0, 0.0, 5.0], [900.0, 0.0, 5.0], [0.0, 600.0, 5.0]])?;
/// assert!((level.normal[2] - 1.0).abs() < 1e-12 && (level.distance - 5.0).abs() < 1e-9);
/// # Ok::<(), grounds_fit::plane::PlaneFault>(())
/// ```
pub fn plane_in_space(points: &[[f64; 3]]) -> Result<InSpace, PlaneFault> {
    /// Points that spread less than this share of their length across it lie in a line.
    const LINE: f64 = 1e-9;
    if points.len() < 3 {
        return Err(PlaneFault::Count);
    }
    if points.iter().flatten().any(|x| !x.is_finite()) {
        return Err(PlaneFault::NotANumber);
    }
    #[expect(
        clippy::cast_precision_loss,
        reason = "so many points are never measured"
    )]
    let count = points.len() as f64;
    let middle = points
        .iter()
        .map(|p| Vector3::from(*p))
        .sum::<Vector3<f64>>()
        / count;
    let scatter: Matrix3<f64> = points
        .iter()
        .map(|point| Vector3::from(*point) - middle)
        .map(|out| out * out.transpose())
        .sum();
    let eigen = scatter.symmetric_eigen();
    let mut order = [0, 1, 2];
    order.sort_by(|a, b| eigen.eigenvalues[*a].total_cmp(&eigen.eigenvalues[*b]));
    let [least, middling, most] = order.map(|index| eigen.eigenvalues[index].max(0.0).sqrt());
    if middling <= LINE * most || most <= 0.0 {
        return Err(PlaneFault::Loose);
    }
    let weakest = eigen.eigenvectors.column(order[0]).into_owned();
    let normal = if weakest[weakest.iamax()] < 0.0 {
        -weakest
    } else {
        weakest
    };
    Ok(InSpace {
        normal: normal.into(),
        distance: normal.dot(&middle),
        spread: least / count.sqrt(),
    })
}
