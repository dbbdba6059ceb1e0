//! Spacing: risers, balusters and slats, tiles and boards with joints.
//!
//! All lengths are exact, since marks are set by the tape: marks are measured from one end and
//! rounded one by one, so that no error adds up along the row.

mod courses;
mod gaps;
mod risers;

pub use courses::{Course, Cuts, Laid, Start, Target};
pub use gaps::{Spaced, SpacingFault, space, spaced};
pub use risers::{Flight, Limits, Pads, finished, pads, riser_count, rough_for};
