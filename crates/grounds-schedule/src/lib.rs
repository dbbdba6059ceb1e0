//! A general scheduler for work that needs crews, dry floors, still air and a way in.
//!
//! It knows activities, calendars, lags, crews, places and air, and nothing of plaster, rooms'
//! names or files. Time is in [`Tick`]s: quarter-hours of elapsed time from an origin that the
//! caller chooses.
//!
//! - [`Problem`] says what must hold, [`Plan`] says when things happen.
//! - [`solve`](solve()) searches for a good plan; [`verify`](verify()) proves that a plan obeys the
//!   problem and shares no code with the search.

mod bound;
mod calendar;
pub mod chance;
mod clash;
mod cost;
mod faults;
mod plan;
mod problem;
pub mod random;
mod search;
mod solve;
mod verify;

pub use bound::{bound, earliest_starts, latest_starts};
pub use calendar::{Calendar, Shift};
pub use clash::{Bound, Clash, ClashPart, clash, clashes};
pub use cost::{Cost, cost};
pub use faults::{MOST, ProblemFault};
pub use plan::{Breach, Plan};
pub use problem::*;
pub use solve::{Effort, Faulty, Solved, construct, solve};
pub use verify::explain::{Reason, explain, explain_all};
pub use verify::verify;
