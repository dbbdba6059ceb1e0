//! Pieces that must line up: the best plane through what was measured, and shims to a common one.
//!
//! Marks are measured from a **control plane**, as trade practice has it: a laser, a string or a
//! plumbed line beside the work. `along` runs level along it, `up` upwards, `off` out of it towards
//! the room, all in millimetres. Since the work departs from the control plane by millimetres over
//! metres, offsets are fitted along its normal (the cosine differs from 1 by less than a
//! millionth). For points in space without a control plane there is [`plane_in_space`], which fits
//! square to the plane itself. A floor or ceiling is the same with `along` and `up` lying level.

mod fit;
mod shims;
mod space;

pub use fit::{Fitted, Held, Mark, Plane, PlaneFault, best_plane};
pub use shims::{Can, Seat, Shimmed, shim};
pub use space::{InSpace, plane_in_space};
