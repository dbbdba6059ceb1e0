//! Our lines beside those of somebody else.

use std::collections::BTreeMap;
use std::fmt;

use crate::race::Status;
use crate::report::{Line, Mean, Published, Summary};

/// The lines of a file of results by name; what has not the columns of a line is passed over.
#[must_use]
pub fn lines(csv: &str) -> BTreeMap<String, Line> {
    let read = csv.lines().filter_map(Line::read);
    read.map(|line| (line.name.clone(), line)).collect()
}

/// Two searches on the same instances.
#[derive(Clone, Debug, Default)]
pub struct Comparison {
    ours: Summary,
    theirs: Summary,
    /// Our makespan over theirs, where both found one.
    ratio: Mean,
    shorter: usize,
    longer: usize,
    ours_alone: usize,
    theirs_alone: usize,
    /// Instances of which only one of the two can be right.
    disagree: Vec<String>,
}

impl Comparison {
    /// Counts an instance that both have tried.
    pub fn add(&mut self, ours: &Line, theirs: &Line, published: Option<&Published>) {
        self.ours.add(ours, published);
        self.theirs.add(theirs, published);
        match (ours.makespan, theirs.makespan) {
            (Some(our), Some(their)) => {
                self.ratio.add(our, their);
                self.shorter += usize::from(our < their);
                self.longer += usize::from(our > their);
            }
            (Some(_), None) => self.ours_alone += 1,
            (None, Some(_)) => self.theirs_alone += 1,
            (None, None) => {}
        }
        let claim = Published {
            bound: (theirs.status != Status::Infeasible).then_some(theirs.bound),
            makespan: theirs.makespan,
            infeasible: theirs.status == Status::Infeasible,
        };
        if !claim.agrees(ours) {
            self.disagree.push(ours.name.clone());
        }
    }
}

impl fmt::Display for Comparison {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "{}", Summary::ROW_HEADS)?;
        writeln!(f, "{}", self.ours.row("ours"))?;
        writeln!(f, "{}", self.theirs.row("reference"))?;
        write!(
            f,
            "\nours against the reference: {} makespan over {} ({} shorter, {} longer); \
             {} solved by ours alone, {} by the reference alone",
            self.ratio,
            self.ratio.count(),
            self.shorter,
            self.longer,
            self.ours_alone,
            self.theirs_alone
        )?;
        if !self.disagree.is_empty() {
            let names = self.disagree.join(", ");
            write!(f, "\nNOT TRUE TOGETHER with the reference: {names}")?;
        }
        Ok(())
    }
}
