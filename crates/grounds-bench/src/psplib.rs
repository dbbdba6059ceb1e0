//! Reader of single-mode `.sm` files: jobs, precedence and renewable resources.
//!
//! The format is that of the published library of Kolisch and Sprecher, "PSPLIB – a project
//! scheduling problem library", European Journal of Operational Research 96 (1997) 205–216.

use crate::instance::{Draft, Instance};
use crate::rows::{ReadError, Row, Rows};

/// Reads an instance.
///
/// # Errors
///
/// [`ReadError`] with the first line that is not as the format has it, or that asks for what a
/// single-mode file has not: several modes, resources that do not renew.
pub fn read(text: &str) -> Result<Instance, ReadError> {
    let mut rows = Rows::new(text);
    let jobs = count(rows.find("jobs")?)?;
    let resources = count(rows.find("- renewable")?)?;
    for kind in ["- nonrenewable", "- doubly constrained"] {
        let row = rows.heading(kind)?;
        if count(row)? > 0 {
            return Err(row.error("only resources that renew each period can be read"));
        }
    }
    rows.find("PRECEDENCE RELATIONS")?;
    rows.heading("jobnr.")?;
    let mut draft = Draft::default();
    for job in 1..=jobs {
        let row = rows.next("the successors of every job")?;
        for next in successors(row, job, jobs)? {
            draft.after(job - 1, next - 1);
        }
    }
    rows.heading("REQUESTS/DURATIONS")?;
    rows.heading("jobnr.")?;
    for job in 1..=jobs {
        let row = rows.next("the duration of every job")?;
        let numbers = row.numbers()?;
        let [number, mode, duration, demands @ ..] = numbers.as_slice() else {
            return Err(row.error("a job, its mode, its duration and its requests were expected"));
        };
        row.same("job", *number, job)?;
        row.same("mode", *mode, 1)?;
        draft.job(row.duration(*duration)?, &row.amounts(demands, resources)?);
        draft.fits(row)?;
    }
    rows.heading("RESOURCEAVAILABILITIES")?;
    rows.heading("R")?;
    let row = rows.next("the capacities of the resources")?;
    let capacities = row.amounts(&row.numbers()?, resources)?;
    if let Some(row) = rows.next_if_any() {
        return Err(row.error("the text was expected to end after the capacities"));
    }
    Ok(draft.into_instance(&capacities))
}

/// The number after the colon.
fn count(row: Row) -> Result<usize, ReadError> {
    let wrong = || row.error("a colon and a number were expected, as in \"jobs : 32\"");
    let (_, value) = row.text.split_once(':').ok_or_else(wrong)?;
    let word = value.split_whitespace().next().ok_or_else(wrong)?;
    let number = row.numbers_in(word)?;
    let number = number.first().and_then(|&n| usize::try_from(n).ok());
    number.ok_or_else(wrong)
}

/// The jobs that follow `job`, counted from 1.
fn successors(row: Row, job: usize, jobs: usize) -> Result<Vec<usize>, ReadError> {
    let numbers = row.numbers()?;
    let [number, modes, count, next @ ..] = numbers.as_slice() else {
        return Err(row.error("a job, its modes and its successors were expected"));
    };
    row.same("job", *number, job)?;
    row.same("number of modes", *modes, 1)?;
    row.counted("successors", *count, next.len())?;
    let known = |&next: &i64| {
        let known = usize::try_from(next).ok();
        known
            .filter(|&next| (1..=jobs).contains(&next) && next != job)
            .ok_or_else(|| row.error(format!("job {job} cannot be followed by job {next}")))
    };
    next.iter().map(known).collect()
}
