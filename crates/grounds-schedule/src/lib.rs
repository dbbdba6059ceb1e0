//! A general scheduler for work that needs crews, dry floors, still air and a way in.
//!
//! It knows activities, calendars, lags, crews, places and air, and nothing of plaster, rooms'
//! names or files. Time is in [`Tick`]s: quarter-hours of elapsed time from an origin that the
//! caller chooses.
//!
//! - [`Problem`] says what must hold, [`Plan`] says when things happen; [`Problem::faults`] names what
//!   makes no sense whatever the plan.
//! - [`solve`](solve()) searches for a good plan, [`construct`] builds the plan of one list.
//! - [`verify`](verify()) proves that a plan obeys the problem, or lists each breach; it shares no code
//!   with the search, not even the arithmetic of working hours.
//! - [`cost`](cost()) says what a plan costs, [`explain`] why a start is no earlier, [`bound`](bound())
//!   what no plan can beat, and [`clash`](clash()) which facts do not go together.
//!
//! Everything is a pure function of its arguments: no clock, no files, and chance only from a seed.
//!
//! ```
//! use grounds_schedule::{
//!     Activity, ActivityId, Calendar, CalendarId, Clock, DAY, Effort, End, HOUR, Lag, LagId, Problem,
//!     Reason, Shift, explain, solve,
//! };
//!
//! // Two coats, two hours each, in crew hours of 08:00 to 16:00; a day of drying in between.
//! let week = (0..5).map(|day| Shift::plain(day * DAY + 8 * HOUR, day * DAY + 16 * HOUR));
//! let coat = Activity { work: 2 * HOUR, calendar: Some(CalendarId(0)), ..Activity::default() };
//! let dry = Lag {
//!     from: ActivityId(0),
//!     from_end: End::Finish,
//!     to: ActivityId(1),
//!     to_end: End::Start,
//!     min: Some(24 * HOUR),
//!     max: None,
//!     clock: Clock::Elapsed,
//! };
//! let problem = Problem {
//!     horizon: 7 * DAY,
//!     calendars: vec![Calendar::new(week.collect())],
//!     activities: vec![coat.clone(), coat],
//!     lags: vec![dry],
//!     ..Problem::default()
//! };
//!
//! let solved = solve(&problem, &Effort::default())?;
//! assert!(solved.breaches.is_empty());
//! assert_eq!(solved.plan.starts[1], DAY + 10 * HOUR);
//! assert_eq!(explain(&problem, &solved.plan, ActivityId(1)), [Reason::Lag(LagId(0))]);
//! # Ok::<(), grounds_schedule::Faulty>(())
//! ```

mod bound;
mod calendar;
mod careful;
pub mod chance;
mod clash;
mod cost;
pub mod exact;
mod faults;
pub mod forecast;
pub mod plain;
mod plan;
mod planner;
pub mod portfolio;
mod problem;
mod promises;
pub mod random;
mod search;
mod solve;
mod spare;
mod steady;
mod verify;

pub use bound::{EarliestEnd, EndWhy, Link, bound, bound_why, earliest_starts, latest_starts};
pub use calendar::{Calendar, Shift};
pub use careful::careful_list;
pub use clash::{Bound, Clash, ClashPart, clash, clashes};
pub use cost::{Cost, cost};
pub use faults::{MOST, ProblemFault};
pub use plan::{Breach, Plan};
pub use planner::Planner;
pub use problem::*;
pub use promises::{MovedPromise, moved_promises};
pub use search::improve::{Search, Start};
pub use search::together::search_together;
pub use solve::{Effort, Faulty, Solved, construct, solve};
pub use spare::{PutLater, Spared, spare};
pub use steady::steady;
pub use verify::explain::{Reason, explain, explain_all};
pub use verify::verify;
