//! Openings: from readings to the shape, the largest piece that goes in, and what to order.
//!
//! All lengths are millimetres. `x` runs to the right and `y` up, seen by whoever measures; the
//! origin is the lower left corner. Sizes to order are exact lengths in steps of the tape.

mod fault;
mod largest;
mod limits;
mod order;
mod outline;
mod readings;
mod sides;
mod survey;
mod tapered;
mod weight;

pub use fault::OpeningFault;
pub use largest::{Largest, Rectangle, largest_rectangle, room_around};
pub use order::{Clearance, Fit, Made, Order, order};
pub use outline::{Outline, Point};
pub use readings::{Lean, Reading, Readings};
pub use sides::{Figures, Side, Sides};
pub use survey::{Checked, Survey, What};
pub use tapered::{Judgement, Tapered, Way};
pub use weight::{Handling, Pane};
