//! Photos as they are kept.
//!
//! Whatever a phone or a folder hands in is looked at with care ([`look`]) and drawn anew
//! ([`ready`]): upright, no larger than is of use, as a JPEG of our own that carries no tags. So
//! what is shown was made here, and neither the place where somebody stood nor the serial number of
//! a phone outlives it. A photo that cannot be drawn is refused with a sentence that says why.
//!
//! What is deliberately absent: files, hashes, and anything that reads a tag but which way is up.

mod draw;
mod jpeg;
mod kind;
mod look;
mod refused;

pub use draw::{LONGEST_SMALL, LONGEST_WHOLE, Ready, kept, ready};
pub use kind::Kind;
pub use look::{LONGEST_BYTES, Looked, MOST_PIXELS, look};
pub use refused::Refused;
