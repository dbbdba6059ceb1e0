//! Problems without calendars, ways and air: nothing but durations, waits and capacities.
//!
//! Published instances are such problems, and a house becomes one when its calendars, ways and air
//! are left out. Everything here works on compact arrays, and two kinds of search share it: lists that
//! are tried by the hundred thousand, and proof.

pub mod bound;
pub mod breeding;
pub mod condensed;
pub mod core;
pub mod justify;
pub mod list;
pub mod population;
pub mod precedence;
pub mod profile;
pub mod serial;
pub mod worker;

pub use breeding::Habits;
pub use core::{Core, Wait};
pub use population::Population;
pub use worker::{Found, Known, Worker};
