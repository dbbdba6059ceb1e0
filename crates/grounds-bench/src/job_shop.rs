//! Reader of job shops: jobs that visit machines in an order of their own.
//!
//! The format is the usual one of the operations research library of Beasley, "OR-Library:
//! distributing test problems by electronic mail", Journal of the Operational Research Society 41
//! (1990) 1069–1072. Lines that begin with `#` are remarks. The first other line has the number of
//! jobs and of machines; then each job has a line of pairs `machine time`, in its order; machines
//! are counted from 0.

use grounds_schedule::Tick;

use crate::instance::{Draft, Instance};
use crate::rows::{ReadError, Row, Rows};

/// Larger shops are refused.
const MOST_MACHINES: usize = 10_000;

/// Reads an instance. Each machine becomes a resource of which there is one.
///
/// # Errors
///
/// [`ReadError`] with the first line that is not as the format has it.
pub fn read(text: &str) -> Result<Instance, ReadError> {
    let mut rows = Rows::new(text);
    let (jobs, machines) = sizes(next(&mut rows, "the number of jobs and machines")?)?;
    let mut draft = Draft::default();
    for _ in 0..jobs {
        let row = next(&mut rows, "the operations of every job")?;
        let mut before = None;
        for (machine, time) in operations(row, machines)? {
            let operation = draft.job_on(machine, time);
            if let Some(before) = before.replace(operation) {
                draft.after(before, operation);
            }
        }
        draft.fits(row)?;
    }
    if let Ok(row) = next(&mut rows, "nothing") {
        return Err(row.error(format!("the text was expected to end after {jobs} jobs")));
    }
    Ok(draft.into_instance(&vec![1; machines]))
}

/// The next line that is no remark.
fn next<'t>(rows: &mut Rows<'t>, wanted: &str) -> Result<Row<'t>, ReadError> {
    loop {
        let row = rows.next(wanted)?;
        if !row.text.starts_with('#') {
            return Ok(row);
        }
    }
}

/// The number of jobs and of machines.
fn sizes(row: Row) -> Result<(usize, usize), ReadError> {
    let wrong = || row.error("the number of jobs and of machines were expected, as in \"6 6\"");
    let numbers = row.numbers()?;
    let [jobs, machines] = numbers.as_slice() else {
        return Err(wrong());
    };
    let size = |number: &i64| usize::try_from(*number).map_err(|_| wrong());
    let (jobs, machines) = (size(jobs)?, size(machines)?);
    if machines > MOST_MACHINES {
        return Err(row.error(format!("there are more than {MOST_MACHINES} machines")));
    }
    Ok((jobs, machines))
}

/// Machine and time of each operation of a job.
fn operations(row: Row, machines: usize) -> Result<Vec<(usize, Tick)>, ReadError> {
    let numbers = row.numbers()?;
    let (pairs, rest) = numbers.as_chunks::<2>();
    if !rest.is_empty() {
        return Err(row.error("pairs of a machine and a time were expected"));
    }
    let operation = |&[machine, time]: &[i64; 2]| {
        let known = usize::try_from(machine).ok().filter(|&m| m < machines);
        let machine = known.ok_or_else(|| {
            row.error(format!(
                "there is no machine {machine}; they are counted from 0"
            ))
        })?;
        Ok((machine, row.duration(time)?))
    };
    pairs.iter().map(operation).collect()
}
