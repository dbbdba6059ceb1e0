//! The job document: what is designed.
//!
//! A [`Job`] holds levels, places, passages, faces, build-ups, layers, pieces, openings, holds,
//! trades, calendars, milestones and decisions, as the site lead describes them. It knows nothing
//! of time passing or of solving.

mod build_up;
mod calendar;
mod checks;
mod document;
mod extent;
mod faults;
mod figure;
mod format;
mod hours;
mod id;
mod job;
mod library;
mod line;
mod material;
mod moment;
mod names;
mod nearest;
mod piece;
mod place;
mod promise;
mod read;
mod refs;
mod schema;
mod starter;
mod text;
mod trade;
mod view;
mod walk;

pub use build_up::*;
pub use calendar::*;
pub use faults::{Fault, Faults, Found, Severity};
pub use figure::*;
pub use hours::*;
pub use id::*;
pub use job::*;
pub use library::{Library, read_build_ups};
pub use line::*;
pub use material::*;
pub use moment::Moment;
pub use names::Named;
pub use piece::*;
pub use place::*;
pub use promise::*;
pub use read::{examine, faults_at, read};
pub use schema::schema;
pub use starter::{Starter, starter};
pub use text::TextError;
pub use trade::*;
pub use view::*;
