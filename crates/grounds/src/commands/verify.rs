//! `grounds verify`: proof that a plan obeys its job.

use std::{
    io::{self, Read},
    path::Path,
};

use grounds_sequence::{PlanFile, PlanFileError, Words};

use super::show;
use crate::{
    arguments::Verify,
    ending::{Ending, Trouble},
    folder::read_text,
    opened::Opened,
    page::{ALARM, HEAD, Page},
};

/// The largest plan that is read from standard input, in bytes.
const LARGEST: u64 = 256 * 1024 * 1024;

pub(super) fn run(asked: &Verify) -> Result<Ending, Trouble> {
    let file = read_plan(&asked.plan)?;
    let opened = Opened::open(&asked.job, &asked.data)?;
    let mut planned = opened.plan(file.at)?;
    let network = &planned.outlook.network;
    let unusable = |error: PlanFileError| Trouble::Input(error.to_string());
    let breaches = file.verify(network).map_err(unusable)?;
    let plan = file.plan(network).map_err(unusable)?;
    // The words speak of the plan that was given, not of the one that would be made today.
    planned.outlook.plan = plan;
    planned.outlook.breaches = breaches;
    let words = Words::new(&planned.outlook, &planned.job);
    let mut page = Page::default();
    let count = planned.outlook.breaches.len();
    if count == 0 {
        page.heading(
            HEAD,
            &format!(
                "No breach: all {} pieces of work obey the job.",
                file.work.len()
            ),
        );
        show(page)?;
        return Ok(Ending::Fine);
    }
    let noun = if count == 1 { "breach" } else { "breaches" };
    page.heading(ALARM, &format!("{count} {noun}:"));
    for breach in words.breaches() {
        page.item(2, &breach);
    }
    show(page)?;
    Ok(Ending::CannotBeMet)
}

fn read_plan(path: &Path) -> Result<PlanFile, Trouble> {
    let text = if path == Path::new("-") {
        let mut text = String::new();
        io::stdin()
            .take(LARGEST)
            .read_to_string(&mut text)
            .map_err(|error| Trouble::file("read", Path::new("standard input"), &error))?;
        text
    } else {
        read_text(path)?
    };
    serde_json::from_str(&text).map_err(|error| {
        Trouble::Input(format!(
            "{} is not a plan: {error}; make one with `grounds weeks JOB --json`",
            path.display()
        ))
    })
}
