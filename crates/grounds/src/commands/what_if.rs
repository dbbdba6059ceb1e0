//! `grounds what-if`: what something would do, before it happens.

use grounds_sequence::{
    Effort, Words,
    what_if::{Supposed, WhatIf, what_if},
};

use super::show;
use crate::{
    arguments::Suppose,
    ending::{Ending, Trouble},
    opened::{Opened, Planned},
    page::{ALARM, HEAD, PLAIN, Page},
};

pub(super) fn run(asked: &Suppose) -> Result<Ending, Trouble> {
    let opened = Opened::open(&asked.job.job, &asked.job.data)?;
    let at = opened.moment(asked.job.at)?;
    let notes = opened.notes.clone();
    let planned = opened.plan(at)?;
    let text = asked.what.join(" ");
    let trouble = |error: grounds_sequence::what_if::WhatIfError| Trouble::Input(error.to_string());
    let what = WhatIf::read(&text, &planned.job).map_err(trouble)?;
    let (job, outlook) = (&planned.job, &planned.outlook);
    let judge = &grounds_settle::held_up;
    let supposed =
        what_if(job, &notes, outlook, &what, judge, Effort::default()).map_err(trouble)?;
    show(page(&planned, &supposed))?;
    Ok(Ending::Fine)
}

fn page(planned: &Planned, supposed: &Supposed) -> Page {
    let words = Words::new(&planned.outlook, &planned.job);
    let said = words.what_if(supposed);
    let mut page = Page::default();
    page.heading(HEAD, &planned.title());
    page.paragraph(PLAIN, 0, &format!("{}:", said.title));
    for line in &said.reached {
        page.item(2, line);
    }
    page.item(2, &said.cost);
    if !said.breaches.is_empty() {
        page.heading(ALARM, "Then this cannot be met");
        for line in &said.breaches {
            page.item(2, line);
        }
    }
    if !said.moves.is_empty() {
        page.heading(HEAD, "The next ten working days");
        for line in &said.moves {
            page.item(2, line);
        }
    }
    if !said.enter.is_empty() {
        page.heading(HEAD, "If it is so");
        for line in &said.enter {
            page.item(2, line);
        }
    }
    page
}
