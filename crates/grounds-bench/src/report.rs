//! What is printed: a line for each instance, and the summary.

use std::fmt;

use grounds_schedule::Tick;

use crate::race::{Outcome, Status};

/// The heads of the columns.
pub const HEADS: &str = "name,cpm,makespan,bound,status,seconds";

/// The line of an instance.
#[must_use]
pub fn line(name: &str, outcome: &Outcome) -> String {
    let number = |tick: Option<Tick>| tick.map(|tick| tick.to_string()).unwrap_or_default();
    let status = match outcome.status {
        Status::Optimal => "OPTIMAL",
        Status::Feasible => "FEASIBLE",
        Status::Infeasible => "INFEASIBLE",
        Status::Unknown => "UNKNOWN",
    };
    format!(
        "{},{},{},{},{status},{:.3}",
        plain(name),
        number(outcome.critical_path),
        number(outcome.makespan),
        outcome.bound,
        outcome.time.as_secs_f64()
    )
}

/// A file name that cannot disturb the columns or the terminal.
fn plain(name: &str) -> String {
    name.replace(|c: char| c.is_control() || c == ',' || c == '"', "_")
}

/// The sums over all instances.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Summary {
    proved: usize,
    feasible: usize,
    infeasible: usize,
    nothing: usize,
    seconds: f64,
    deviation: Mean,
    gap: Mean,
    at_best: usize,
    below_best: usize,
}

#[derive(Clone, Debug, Default, PartialEq)]
struct Mean {
    sum: f64,
    count: usize,
}

impl Mean {
    /// Adds by how many percent a value lies above another.
    fn add(&mut self, value: Tick, over: Tick) {
        if over > 0 {
            self.sum += 100.0 * (f64::from(value) / f64::from(over) - 1.0);
            self.count += 1;
        }
    }
}

impl fmt::Display for Mean {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.count == 0 {
            return write!(f, "none to compare");
        }
        write!(
            f,
            "{:.2} % over {}",
            self.sum / self.count as f64,
            self.count
        )
    }
}

impl Summary {
    /// Counts an instance, with the best makespan that is known of it.
    pub fn add(&mut self, outcome: &Outcome, known: Option<Tick>) {
        let class = match outcome.status {
            Status::Optimal => &mut self.proved,
            Status::Feasible => &mut self.feasible,
            Status::Infeasible => &mut self.infeasible,
            Status::Unknown => &mut self.nothing,
        };
        *class += 1;
        self.seconds += outcome.time.as_secs_f64();
        let Some(makespan) = outcome.makespan else {
            return;
        };
        if let Some(path) = outcome.critical_path {
            self.deviation.add(makespan, path);
        }
        if let Some(known) = known {
            self.gap.add(makespan, known);
            self.at_best += usize::from(makespan == known);
            self.below_best += usize::from(makespan < known);
        }
    }
}

impl fmt::Display for Summary {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let count = self.proved + self.feasible + self.infeasible + self.nothing;
        writeln!(f, "instances: {count}, {:.1} s in all", self.seconds)?;
        writeln!(
            f,
            "mean deviation from the critical path: {}",
            self.deviation
        )?;
        writeln!(
            f,
            "mean gap to best known: {} ({} equal, {} better)",
            self.gap, self.at_best, self.below_best
        )?;
        write!(
            f,
            "proved optimal: {}, feasible: {}, proved infeasible: {}, nothing found: {}",
            self.proved, self.feasible, self.infeasible, self.nothing
        )
    }
}
