//! From a job and what is true on site to a network of work, and from a plan back to words.
//!
//! 1. [`Network::build`] turns a job and its [`Site`](grounds_site::Site) into a
//!    [`Problem`](grounds_schedule::Problem), keeping for every activity, lag and date the thing in
//!    the house that it stands for.
//! 2. [`Outlook::plan`] solves it, proves the plan, and finds what can start, what waits and the
//!    few causes that hold the rest.
//! 3. [`words`](crate::Words) says all of it as a site lead would.

mod air;
mod clock;
mod effect;
pub mod forecast;
mod held;
mod hours;
mod network;
pub mod notice;
pub mod options;
mod outlook;
mod plan_file;
mod ready;
mod roots;
mod side_by_side;
mod spare;
pub mod task;
mod ways;
pub mod what_if;
pub mod words;

pub use clock::Clock;
pub use effect::{Effect, Moved, Reached};
pub use forecast::{Forecast, ForecastEffort, Prospect};
pub use held::{HeldUp, Holds};
pub use network::{LookPart, Network, NetworkError, look_for_piece, look_parts};
pub use outlook::{Effort, Known, Outlook, StartRow, Waiting};
pub use plan_file::{PlanFile, PlanFileError, PlannedWork};
pub use roots::{Cause, Root};
pub use spare::behind;
pub use task::{DateWhy, LagWhy, ResourceWhy, Sought, Task, TaskState, Work};
pub use words::{RootWords, Words};
