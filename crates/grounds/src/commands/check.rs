//! `grounds check`: every fault of a job document and its log.

use grounds_model::{Fault, Job, examine};
use grounds_rules::figures;
use grounds_site::{NoteFault, read_notes};
use serde::Serialize;

use super::{show_json, unwritten};
use crate::{
    annotate,
    arguments::Check,
    ending::{Ending, Trouble},
    folder::Folder,
    page::{self, harmless},
};

pub(super) fn run(asked: &Check) -> Result<Ending, Trouble> {
    let folder = Folder::read(&asked.job)?;
    let name = folder.job_path.display().to_string();
    let notes_name = folder.notes_path.display().to_string();
    let (job, mut faults) = examine(&name, &folder.job);
    if let Some(job) = &job {
        let of_figures = figures::examine(&name, &folder.job, job);
        faults.more += of_figures.more;
        faults.list.extend(of_figures.list);
        faults.list.sort_by_key(|fault| (fault.line, fault.column));
    }
    let (notes, note_faults) = read_notes(&notes_name, &folder.notes);
    let errors = faults.errors().count() + faults.more;
    let ending = if job.is_some() && errors == 0 && note_faults.is_empty() {
        Ending::Fine
    } else {
        Ending::BadInput
    };
    if asked.json {
        let lines: Vec<Line<'_>> = faults
            .list
            .iter()
            .map(Line::of_job)
            .chain(note_faults.iter().map(Line::of_note))
            .collect();
        show_json(&CheckFile {
            faults: lines,
            more: faults.more,
        })?;
        return Ok(ending);
    }
    let mut report = annotate::faults(&name, &folder.job, &faults);
    for fault in &note_faults {
        report.push_str(&harmless(&format!(
            "{}:{}: {}",
            fault.file, fault.line, fault.what
        )));
        report.push_str(&format!("\n  mend: {}\n\n", harmless(&fault.mend)));
    }
    report.push_str(&closing(
        job.as_ref().filter(|_| errors == 0),
        errors,
        note_faults.len(),
        notes.len(),
    ));
    page::print(&report).map_err(unwritten)?;
    Ok(ending)
}

fn closing(job: Option<&Job>, errors: usize, note_faults: usize, notes: usize) -> String {
    match (job, note_faults) {
        (Some(job), 0) => format!(
            "No fault in {}: {}, {}, {}, {}, {}.\n",
            harmless(&job.job.name),
            counted(job.places.len(), "place"),
            counted(
                job.places.values().map(|place| place.faces.len()).sum(),
                "face"
            ),
            counted(job.pieces.len(), "piece"),
            counted(job.holds.len(), "hold"),
            counted(notes, "note"),
        ),
        _ => {
            let document = counted(errors, "fault");
            let log = counted(note_faults, "fault");
            format!("{document} in the document, {log} in the log.\n")
        }
    }
}

fn counted(n: usize, noun: &str) -> String {
    match n {
        0 => format!("no {noun}s"),
        1 => format!("1 {noun}"),
        n => format!("{n} {noun}s"),
    }
}

/// `grounds check --json`
#[derive(Debug, Serialize)]
struct CheckFile<'a> {
    faults: Vec<Line<'a>>,
    /// Faults beyond those that are listed.
    more: usize,
}

/// One fault of the document or of the log.
#[derive(Debug, Serialize)]
struct Line<'a> {
    file: &'a str,
    line: usize,
    column: usize,
    key: &'a str,
    what: &'a str,
    mend: &'a str,
    severity: String,
}

impl<'a> Line<'a> {
    fn of_job(fault: &'a Fault) -> Self {
        Self {
            file: &fault.file,
            line: fault.line,
            column: fault.column,
            key: &fault.key,
            what: &fault.what,
            mend: &fault.mend,
            severity: fault.severity.to_string(),
        }
    }

    fn of_note(fault: &'a NoteFault) -> Self {
        Self {
            file: &fault.file,
            line: fault.line,
            column: 1,
            key: "",
            what: &fault.what,
            mend: &fault.mend,
            severity: "error".to_owned(),
        }
    }
}
