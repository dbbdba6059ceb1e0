//! What was seen on site, and what follows from it today.
//!
//! A [`Note`] is one thing that somebody saw. [`fold`] turns a job and its notes into a [`Site`]:
//! the state of every layer, piece, hold and decision at a moment. Notes are never changed; a
//! correction is a note that replaces another. The order of arrival and repeats do not matter.

mod apply;
mod clash;
mod fold;
mod house;
mod infer;
mod limits;
mod log;
mod look;
mod misfit;
mod nearest;
mod note;
mod order;
mod questions;
mod read;
mod route;
mod state;
mod tally;
mod unproven;
pub mod words;

pub use fold::fold;
pub use house::name;
pub use limits::{LONGEST_LINE, MOST_NOTES, Unfit};
pub use look::Look;
pub use note::*;
pub use read::{NoteFault, read_notes, write_notes};
pub use route::walking_order;
pub use state::*;
pub use unproven::{Unproven, unproven};
