//! Reader of `.sch` files: jobs with least and longest waits between starts, renewable resources.
//!
//! The format is that of the published generator of Schwindt, "Generation of resource-constrained
//! project scheduling problems subject to temporal constraints", Karlsruhe 1998. The first line has
//! the number of jobs without source and sink, and the number of resources. Then for each job, from
//! the source 0 to the sink, a line `job modes successors next … [weight] …`, then for each a line
//! `job mode duration demand …`, and at the end the capacities.

use grounds_schedule::Tick;

use crate::instance::{Draft, Instance};
use crate::rows::{ReadError, Row, Rows};

/// Reads an instance. A job starts at least its weight after the start of the job before; a negative
/// weight is a longest wait the other way.
///
/// # Errors
///
/// [`ReadError`] with the first line that is not as the format has it, or that has several modes or
/// resources that do not renew.
pub fn read(text: &str) -> Result<Instance, ReadError> {
    let mut rows = Rows::new(text);
    let (jobs, resources) = sizes(rows.next("the number of jobs")?)?;
    let mut draft = Draft::default();
    for job in 0..jobs {
        let row = rows.next("the successors of every job")?;
        for (next, weight) in successors(row, job, jobs)? {
            draft.apart(job, next, weight);
        }
        draft.fits(row)?;
    }
    for job in 0..jobs {
        let row = rows.next("the duration of every job")?;
        let numbers = row.numbers()?;
        let [number, mode, duration, demands @ ..] = numbers.as_slice() else {
            return Err(row.error("a job, its mode, its duration and its demands were expected"));
        };
        row.same("job", *number, job)?;
        row.same("mode", *mode, 1)?;
        draft.job(row.duration(*duration)?, &row.amounts(demands, resources)?);
        draft.fits(row)?;
    }
    let row = rows.next("the capacities of the resources")?;
    let capacities = row.amounts(&row.numbers()?, resources)?;
    if let Some(row) = rows.next_if_any() {
        return Err(row.error("the text was expected to end after the capacities"));
    }
    Ok(draft.into_instance(&capacities))
}

/// The number of jobs with source and sink, and of resources.
fn sizes(row: Row) -> Result<(usize, usize), ReadError> {
    let numbers = row.numbers()?;
    let wrong =
        || row.error("the number of jobs and of resources were expected, as in \"30 5 0 0\"");
    let [jobs, renewable, others @ ..] = numbers.as_slice() else {
        return Err(wrong());
    };
    if others.iter().any(|&other| other != 0) {
        return Err(row.error("only resources that renew each period can be read"));
    }
    let jobs = usize::try_from(*jobs).map_err(|_| wrong())?;
    let renewable = usize::try_from(*renewable).map_err(|_| wrong())?;
    Ok((jobs.saturating_add(2), renewable))
}

/// The jobs that `job` is tied to, each with its weight.
fn successors(row: Row, job: usize, jobs: usize) -> Result<Vec<(usize, Tick)>, ReadError> {
    let (plain, bracketed) = match row.text.find('[') {
        Some(at) => row.text.split_at(at),
        None => (row.text, ""),
    };
    let numbers = row.numbers_in(plain)?;
    let [number, modes, count, next @ ..] = numbers.as_slice() else {
        return Err(row.error("a job, its modes and its successors were expected"));
    };
    row.same("job", *number, job)?;
    row.same("number of modes", *modes, 1)?;
    row.counted("successors", *count, next.len())?;
    let weights = weights(row, bracketed)?;
    row.counted("weights", *count, weights.len())?;
    let known = |(&next, weight): (&i64, Tick)| {
        let known = usize::try_from(next).ok();
        known
            .filter(|&next| next < jobs && next != job)
            .map(|next| (next, weight))
            .ok_or_else(|| row.error(format!("job {job} cannot be tied to job {next}")))
    };
    next.iter().zip(weights).map(known).collect()
}

/// The numbers in brackets, one in each.
fn weights(row: Row, bracketed: &str) -> Result<Vec<Tick>, ReadError> {
    let wrong = || row.error("a weight in brackets was expected, as in \"[-4]\"");
    let weight = |piece: &str| {
        let inner = piece.trim_end().strip_suffix(']').ok_or_else(wrong)?;
        let numbers = row.numbers_in(inner)?;
        let [number] = numbers.as_slice() else {
            return Err(wrong());
        };
        Tick::try_from(*number).map_err(|_| wrong())
    };
    bracketed.split('[').skip(1).map(weight).collect()
}
