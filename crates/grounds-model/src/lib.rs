//! The job document: what is designed.
//!
//! A [`Job`] holds levels, places, passages, faces, build-ups, layers, pieces, openings, holds,
//! trades, calendars, milestones and decisions, as the site lead describes them. It knows nothing
//! of time passing or of solving.

mod build_up;
mod calendar;
mod hours;
mod id;
mod job;
mod material;
mod moment;
mod piece;
mod place;
mod promise;
mod text;
mod trade;

pub use build_up::*;
pub use calendar::*;
pub use hours::*;
pub use id::*;
pub use job::*;
pub use material::*;
pub use moment::Moment;
pub use piece::*;
pub use place::*;
pub use promise::*;
pub use text::TextError;
pub use trade::*;
