//! What is printed: a line for each instance, and the sums over a set.

use std::fmt;

use grounds_schedule::Tick;

use crate::race::{Outcome, Status};

/// The heads of the columns.
pub const HEADS: &str = "name,cpm,makespan,bound,status,seconds";

/// What is known of an instance after a search, by us or by somebody else.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// The file, without its folder.
    pub name: String,
    /// The longest chain of work and waits.
    pub critical_path: Option<Tick>,
    /// The last finish of the best plan.
    pub makespan: Option<Tick>,
    /// What no plan can beat.
    pub bound: Tick,
    /// What that comes to.
    pub status: Status,
    /// Wall time spent.
    pub seconds: f64,
}

impl Line {
    /// The line of an outcome.
    #[must_use]
    pub fn of(name: &str, outcome: &Outcome) -> Self {
        Self {
            name: plain(name),
            critical_path: outcome.critical_path,
            makespan: outcome.makespan,
            bound: outcome.bound,
            status: outcome.status,
            seconds: outcome.time.as_secs_f64(),
        }
    }

    /// Reads a line with the columns of [`HEADS`]; `None` for any other.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let cells: Vec<&str> = text.trim_end().split(',').collect();
        let [name, path, makespan, bound, status, seconds] = cells.as_slice() else {
            return None;
        };
        let number = |cell: &str| match cell {
            "" => Some(None),
            cell => cell.parse().ok().map(Some),
        };
        Some(Self {
            name: plain(name),
            critical_path: number(path)?,
            makespan: number(makespan)?,
            bound: bound.parse().ok()?,
            status: [
                ("OPTIMAL", Status::Optimal),
                ("FEASIBLE", Status::Feasible),
                ("INFEASIBLE", Status::Infeasible),
                ("UNKNOWN", Status::Unknown),
            ]
            .into_iter()
            .find_map(|(word, known)| (word == *status).then_some(known))?,
            seconds: seconds.parse().ok()?,
        })
    }
}

impl fmt::Display for Line {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let number = |tick: Option<Tick>| tick.map(|tick| tick.to_string()).unwrap_or_default();
        let status = match self.status {
            Status::Optimal => "OPTIMAL",
            Status::Feasible => "FEASIBLE",
            Status::Infeasible => "INFEASIBLE",
            Status::Unknown => "UNKNOWN",
        };
        write!(
            f,
            "{},{},{},{},{status},{:.3}",
            self.name,
            number(self.critical_path),
            number(self.makespan),
            self.bound,
            self.seconds
        )
    }
}

/// A file name that cannot disturb the columns or the terminal.
fn plain(name: &str) -> String {
    name.replace(|c: char| c.is_control() || c == ',' || c == '"', "_")
}

/// What is published of an instance.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Published {
    /// No plan is shorter.
    pub bound: Option<Tick>,
    /// Some plan is as short.
    pub makespan: Option<Tick>,
    /// There is no plan at all.
    pub infeasible: bool,
}

impl Published {
    /// Whether this and the line can both be true.
    #[must_use]
    pub fn agrees(&self, line: &Line) -> bool {
        let beaten = line.makespan < self.bound && line.makespan.is_some();
        let above = self.makespan.is_some_and(|makespan| line.bound > makespan);
        let there = line.makespan.is_some() && self.infeasible;
        let denied = line.status == Status::Infeasible && self.makespan.is_some();
        !(beaten || above || there || denied)
    }
}

/// A mean of how many percent values lie above others.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Mean {
    sum: f64,
    count: usize,
}

impl Mean {
    /// Adds by how many percent a value lies above another.
    pub fn add(&mut self, value: Tick, over: Tick) {
        if over > 0 {
            self.sum += 100.0 * (f64::from(value) / f64::from(over) - 1.0);
            self.count += 1;
        }
    }

    /// How many values there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.count
    }

    /// The mean in percent, if there is a value.
    #[must_use]
    pub fn percent(&self) -> Option<f64> {
        (self.count > 0).then(|| self.sum / self.count as f64)
    }
}

impl fmt::Display for Mean {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.percent() {
            Some(percent) => write!(f, "{percent:.2} %"),
            None => write!(f, "–"),
        }
    }
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
    /// Lines that cannot be true together with what is published.
    disagree: Vec<String>,
}

impl Summary {
    /// Counts an instance, with what is published of it.
    pub fn add(&mut self, line: &Line, published: Option<&Published>) {
        let class = match line.status {
            Status::Optimal => &mut self.proved,
            Status::Feasible => &mut self.feasible,
            Status::Infeasible => &mut self.infeasible,
            Status::Unknown => &mut self.nothing,
        };
        *class += 1;
        self.seconds += line.seconds;
        if published.is_some_and(|published| !published.agrees(line)) {
            self.disagree.push(line.name.clone());
        }
        let Some(makespan) = line.makespan else {
            return;
        };
        if let Some(path) = line.critical_path {
            self.deviation.add(makespan, path);
        }
        if let Some(best) = published.and_then(|published| published.makespan) {
            self.gap.add(makespan, best);
            self.at_best += usize::from(makespan == best);
            self.below_best += usize::from(makespan < best);
        }
    }

    /// How many instances there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.proved + self.feasible + self.infeasible + self.nothing
    }

    /// The heads of the columns of [`Summary::row`], in the notation of Markdown.
    pub const ROW_HEADS: &str = "\
| | found | deviation from the critical path | gap to best known | proved optimal | proved infeasible | nothing found | seconds in all |
|---|---:|---:|---:|---:|---:|---:|---:|";

    /// A row of a table, in the notation of Markdown.
    #[must_use]
    pub fn row(&self, who: &str) -> String {
        format!(
            "| {who} | {} of {} | {} | {} | {} | {} | {} | {:.0} |",
            self.proved + self.feasible,
            self.count(),
            self.deviation,
            self.gap,
            self.proved,
            self.infeasible,
            self.nothing,
            self.seconds
        )
    }
}

impl fmt::Display for Summary {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(
            f,
            "instances: {}, {:.1} s in all",
            self.count(),
            self.seconds
        )?;
        writeln!(
            f,
            "mean deviation from the critical path: {} over {}",
            self.deviation,
            self.deviation.count()
        )?;
        writeln!(
            f,
            "mean gap to best known: {} over {} ({} equal, {} better)",
            self.gap,
            self.gap.count(),
            self.at_best,
            self.below_best
        )?;
        write!(
            f,
            "proved optimal: {}, feasible: {}, proved infeasible: {}, nothing found: {}",
            self.proved, self.feasible, self.infeasible, self.nothing
        )?;
        if !self.disagree.is_empty() {
            let names = self.disagree.join(", ");
            write!(f, "\nNOT TRUE TOGETHER with what is published: {names}")?;
        }
        Ok(())
    }
}
