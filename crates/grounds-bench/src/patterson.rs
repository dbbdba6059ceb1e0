//! Reader of `.rcp` files: jobs, precedence and renewable resources, as a row of numbers.
//!
//! The format is the one that Patterson used in "A comparison of exact approaches for solving the
//! multiple constrained resource project scheduling problem", Management Science 30 (1984) 854–867:
//! the number of jobs and of resources, the capacities, then for each job its duration, its demands,
//! the number of its successors and their numbers, counted from 1. Lines may break anywhere.

use crate::instance::{Draft, Instance};
use crate::rows::{ReadError, Row, Rows};

/// Reads an instance.
///
/// # Errors
///
/// [`ReadError`] with the first line that is not as the format has it.
pub fn read(text: &str) -> Result<Instance, ReadError> {
    let mut numbers = Numbers::new(text);
    let jobs = numbers.count("the number of jobs")?;
    let resources = numbers.count("the number of resources")?;
    let capacities = numbers.amounts(resources, "the capacities of the resources")?;
    let mut draft = Draft::default();
    for job in 0..jobs {
        let (row, duration) = numbers.next("the duration of every job")?;
        let demands = numbers.amounts(resources, "the demands of every job")?;
        draft.job(row.duration(duration)?, &demands);
        draft.fits(row)?;
        for _ in 0..numbers.count("the number of successors of every job")? {
            let (row, next) = numbers.next("the successors of every job")?;
            let next = usize::try_from(next)
                .ok()
                .and_then(|next| next.checked_sub(1));
            let next = next.filter(|&next| next < jobs && next != job);
            draft.after(
                job,
                next.ok_or_else(|| {
                    row.error(format!(
                        "what follows job {} must be another of 1 to {jobs}",
                        job + 1
                    ))
                })?,
            );
        }
    }
    if let Some(row) = numbers.rest()? {
        return Err(row.error(format!("the text was expected to end after {jobs} jobs")));
    }
    Ok(draft.into_instance(&capacities))
}

/// All numbers of a text in a row.
struct Numbers<'t> {
    rows: Rows<'t>,
    row: Option<Row<'t>>,
    /// Numbers of the row that are still to come, the next one last.
    left: Vec<i64>,
}

impl<'t> Numbers<'t> {
    fn new(text: &'t str) -> Self {
        Self {
            rows: Rows::new(text),
            row: None,
            left: Vec::new(),
        }
    }

    /// The next number and the line it stands on.
    fn next(&mut self, wanted: &str) -> Result<(Row<'t>, i64), ReadError> {
        loop {
            if let (Some(row), Some(number)) = (self.row, self.left.pop()) {
                return Ok((row, number));
            }
            let row = self.rows.next(wanted)?;
            self.left = row.numbers()?;
            self.left.reverse();
            self.row = Some(row);
        }
    }

    fn count(&mut self, wanted: &str) -> Result<usize, ReadError> {
        let (row, number) = self.next(wanted)?;
        usize::try_from(number).map_err(|_| row.error(format!("{wanted} cannot be {number}")))
    }

    fn amounts(&mut self, count: usize, wanted: &str) -> Result<Vec<u32>, ReadError> {
        let mut amounts = Vec::new();
        for _ in 0..count {
            let (row, number) = self.next(wanted)?;
            amounts.append(&mut row.amounts(&[number], 1)?);
        }
        Ok(amounts)
    }

    /// The line of what was not read, if any.
    fn rest(&mut self) -> Result<Option<Row<'t>>, ReadError> {
        if !self.left.is_empty() {
            return Ok(self.row);
        }
        Ok(self.rows.next_if_any())
    }
}
