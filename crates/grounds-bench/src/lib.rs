//! How good the search is, measured on published project-scheduling instances.
//!
//! The instances are read into the same [`Problem`](grounds_schedule::Problem) that houses use, with
//! one tick a period, work around the clock and a cost that is the makespan; there is no search of
//! their own for them.
//!
//! # How to run
//!
//! ```text
//! cargo run --release -p grounds-bench -- rcpsp FOLDER --seconds 2 --threads 2
//! cargo run --release -p grounds-bench -- rcpsp-max FOLDER --seconds 2 --threads 2 --csv out.csv
//! cargo run --release -p grounds-bench -- rcpsp FOLDER --only _1 --against reference.csv
//! cargo run --release -p grounds-bench -- job-shop FILE --units 5000000
//! ```
//!
//! `rcpsp` reads `.sm` files ([`psplib`]) and `.rcp` files ([`patterson`]), `rcpsp-max` `.sch` files ([`progen_max`]), `job-shop`
//! `.txt` files ([`job_shop`]). A `best_known.csv` beside them, with the columns `instance`,
//! `lower_bound`, `best_makespan` and perhaps `status`, gives the values to compare with;
//! `--against` compares with the lines of another search on the same instances.
//!
//! One line is printed for each instance: `name,cpm,makespan,bound,status,seconds`.
//!
//! - `cpm`: the longest chain of work and waits, as if there were resources enough; empty when the
//!   waits cannot hold together.
//! - `makespan`: the last finish of the best plan found; empty when none was. Every plan counted
//!   was passed by [`verify`](grounds_schedule::verify()).
//! - `bound`: what no plan can beat.
//! - `status`: `OPTIMAL` (makespan and bound meet), `FEASIBLE`, `INFEASIBLE` (proved) or `UNKNOWN`.
//! - `seconds`: wall time spent.
//!
//! Then a summary of all lines. Instances run one after the other, each on all threads. With
//! `--seconds` the search stops by the clock, so a quiet machine gives better figures and no two runs
//! are quite alike; with `--units` it is counted, and gives the same result every time.

pub mod against;
pub mod folder;
pub mod houses;
pub mod instance;
pub mod job_shop;
pub mod patterson;
pub mod progen_max;
pub mod psplib;
pub mod race;
pub mod report;
mod rows;
pub mod sweep;
pub mod walks;

pub use rows::ReadError;
