//! How wood moves with the air: its moisture, its width, and the gaps that must take it up.
//!
//! Widths are millimetres, moisture is percent of the dry weight, air is in degrees Celsius or
//! Fahrenheit and percent of relative humidity. What a maker states for his floor beats all of it,
//! above all for boards glued crosswise, which move 10 to 30 % as much (common practice).

mod air;
mod floor;
mod movement;
mod species;

pub use air::{moisture_in_celsius, moisture_in_fahrenheit};
pub use floor::{Floor, Moved, Year};
pub use movement::{change, change_by_shrinkage};
pub use species::{Grade, Sawn, Species};
