//! A general scheduler for work that needs crews, dry floors, still air and a way in.
//!
//! It knows activities, calendars, lags, crews, places and air, and nothing of plaster, rooms'
//! names or files. Time is in [`Tick`]s: quarter-hours of elapsed time from an origin that the
//! caller chooses.
//!
//! - [`Problem`] says what must hold, [`Plan`] says when things happen.
//! - [`solve`](solve()) searches for a good plan; [`verify`](verify()) proves that a plan obeys the
//!   problem and shares no code with the search.

mod calendar;
pub mod chance;
mod cost;
mod faults;
mod plan;
mod problem;
pub mod random;
mod search;
mod solve;
mod verify;

pub use calendar::{Calendar, Shift};
pub use cost::{Cost, cost};
pub use faults::{MOST, ProblemFault};
pub use plan::{Breach, Plan};
pub use problem::*;
pub use solve::{Effort, Faulty, Solved, construct, solve};
pub use verify::verify;
