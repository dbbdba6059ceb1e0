//! Taking over a house that somebody else left half-done.
//!
//! 1. [`Mark`]: for each face the outermost thing that is there. [`mark::said`] makes notes of it: what
//!    is outermost was seen, what lies behind is presumed, what lies over it is not there.
//! 2. [`several`]: the same mark for all walls, for a room like another, for everything up to a layer.
//! 3. [`unknowns`]: what nobody knows that matters, what it would cost to find out, and until when.
//! 4. [`decide`]: to look, or to let it go by name; both are notes, and a look becomes work.
//! 5. [`stock`]: pieces that are on site already, against today's openings.

pub mod again;
pub mod decide;
pub mod mark;
pub mod progress;
pub mod several;
pub mod stock;
pub mod unknowns;

pub use mark::{Mark, Reach, Said};
pub use unknowns::{Unknown, Weight, unknowns};
