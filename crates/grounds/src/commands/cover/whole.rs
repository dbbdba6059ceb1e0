//! The register as a page: what starts first comes first.

use grounds_cover::{CoverWords, Covering, Register};
use grounds_sequence::Words;

use crate::{
    opened::Planned,
    page::{ALARM, HEAD, PLAIN, Page, QUIET},
};

/// Coverings without something that are told one by one.
const UNSEEN: usize = 8;

pub(super) fn page(
    planned: &Planned,
    words: &CoverWords<'_>,
    register: &Register,
    weeks: Option<u16>,
) -> Page {
    let mut page = Page::default();
    page.heading(HEAD, &planned.title());
    page.paragraph(PLAIN, 0, &words.headline(register, weeks));
    let wanted = |covering: &&Covering| weeks.is_none() || covering.is_asked();
    let mut quiet = 0;
    for covering in register.to_come(weeks).filter(wanted) {
        if weeks.is_some() && covering.missing().next().is_none() {
            quiet += 1;
            continue;
        }
        one(&mut page, planned, words, covering);
    }
    if quiet > 0 {
        let text = match quiet {
            1 => "One more has everything that is asked for; --all lists it.".to_owned(),
            n => format!("{n} more have everything that is asked for; --all lists them."),
        };
        page.paragraph(QUIET, 0, &text);
    }
    unseen(&mut page, planned, words, register, weeks.is_none());
    page
}

/// One covering: what it is, when, what it hides, what is missing.
fn one(page: &mut Page, planned: &Planned, words: &CoverWords<'_>, covering: &Covering) {
    let name = Words::new(&planned.outlook, &planned.job).task(covering.task);
    page.heading(HEAD, &name);
    let (when, rest) = words.first_line(covering);
    page.paragraph(PLAIN, 2, &format!("{when}: {rest}"));
    for sentence in words.missing(covering) {
        page.item(2, &sentence);
    }
    let let_go = words.let_go(covering);
    if !let_go.is_empty() {
        page.paragraph(PLAIN, 2, &let_go);
    }
    for hidden in &covering.hides {
        let seen = words.seen(hidden);
        page.paragraph(QUIET, 2, &format!("Behind it: {}, {seen}.", hidden.name));
    }
}

/// What was covered without: what the job asks for by name, what is usual as a count.
fn unseen(
    page: &mut Page,
    planned: &Planned,
    words: &CoverWords<'_>,
    register: &Register,
    all: bool,
) {
    let unseen = register.unseen();
    let (asked, usual): (Vec<&Covering>, Vec<&Covering>) = unseen
        .into_iter()
        .partition(|covering| covering.lacks_what_the_job_asks());
    if !asked.is_empty() {
        page.heading(ALARM, "Covered without what the job asks for");
    }
    let most = if all { usize::MAX } else { UNSEEN };
    let plan = Words::new(&planned.outlook, &planned.job);
    for covering in asked.iter().take(most) {
        let said = words.let_go(covering);
        page.item(2, &format!("{}. {said}", plan.task(covering.task)));
        for sentence in words.missing(covering) {
            page.paragraph(QUIET, 4, &sentence);
        }
    }
    if asked.len() > most {
        let text = format!("and {} more; --all lists them.", asked.len() - most);
        page.paragraph(QUIET, 2, &text);
    }
    if !usual.is_empty() {
        let text = match usual.len() {
            1 => "One more was covered without a photo that is common practice.".to_owned(),
            n => format!("{n} more were covered without photos that are common practice."),
        };
        page.heading(HEAD, &text);
        if all {
            for covering in usual {
                page.item(2, &plan.task(covering.task));
                for sentence in words.missing(covering) {
                    page.paragraph(QUIET, 4, &sentence);
                }
            }
        }
    }
}
