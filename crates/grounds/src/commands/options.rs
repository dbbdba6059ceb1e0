//! `grounds options`: what would win time back for a date.

use std::io::{IsTerminal, Write};

use grounds_model::Id;
use grounds_sequence::{
    Words,
    options::{Aim, Offer, Progress, Terms, WinBack, win_back},
    words::{count, upper_first},
};

use super::show;
use crate::{
    arguments::Options,
    ending::{Ending, Trouble},
    opened::Planned,
    page::{HEAD, PLAIN, Page, QUIET},
};

/// Ways of each kind that are shown unless all are asked for.
const SHOWN: usize = 6;

pub(super) fn run(asked: &Options) -> Result<Ending, Trouble> {
    let planned = Planned::of(&asked.job)?;
    let aim = asked
        .milestone
        .as_deref()
        .map_or(Aim::LastFinish, |key| Aim::Milestone(Id::from(key)));
    let (job, site, outlook) = (&planned.job, &planned.site, &planned.outlook);
    let win = win_back(job, site, outlook, &aim, &Terms::default(), &tell)
        .map_err(|error| Trouble::Input(error.to_string()))?;
    wipe();
    let most = if asked.all { usize::MAX } else { SHOWN };
    show(page(&planned, &win, most))?;
    Ok(Ending::Fine)
}

/// How far it has got, on a terminal alone.
fn tell(progress: Progress) {
    let mut err = std::io::stderr();
    if err.is_terminal() && progress.of > 0 {
        // Nobody is left to tell if this cannot be written.
        let _ = write!(err, "\r{} of {} tried", progress.done, progress.of);
    }
}

fn wipe() {
    let mut err = std::io::stderr();
    if err.is_terminal() {
        let _ = write!(err, "\r{:30}\r", "");
    }
}

fn page(planned: &Planned, win: &WinBack, most: usize) -> Page {
    let words = Words::new(&planned.outlook, &planned.job);
    let said = words.win_back(win);
    let mut page = Page::default();
    page.heading(HEAD, &planned.title());
    page.paragraph(PLAIN, 0, &format!("{}.", said.title));
    let found = win.singles.len() + win.pairs.len();
    let tried = format!(
        "{} of {} things tried would win a day or more. Nothing is done until you do it.",
        upper_first(&count(found)),
        win.tried
    );
    page.paragraph(PLAIN, 0, &tried);
    offers(&mut page, &words, win, "One thing done", &win.singles, most);
    offers(
        &mut page,
        &words,
        win,
        "Two things together",
        &win.pairs,
        most,
    );
    sentences(&mut page, "Why nothing helps", &said.nothing);
    sentences(&mut page, "What the date hangs on", &said.hangs_on);
    sentences(&mut page, "What is not offered", &said.left_out);
    page
}

fn offers(
    page: &mut Page,
    words: &Words<'_>,
    win: &WinBack,
    title: &str,
    offers: &[Offer],
    most: usize,
) {
    if offers.is_empty() {
        return;
    }
    page.heading(HEAD, title);
    for offer in offers.iter().take(most) {
        let said = words.offer(win, offer);
        page.item(2, &said.title);
        page.paragraph(PLAIN, 4, &format!("{} {}", said.gain, said.cost));
        for line in &said.others {
            page.paragraph(PLAIN, 4, line);
        }
        if !said.hear.is_empty() {
            let hear = format!("Must hear of it: {}.", said.hear.join("; "));
            page.paragraph(QUIET, 4, &hear);
        }
        for line in said.cautions.iter().chain(&said.enter) {
            page.paragraph(QUIET, 4, line);
        }
    }
    let more = offers.len().saturating_sub(most);
    if more > 0 {
        page.paragraph(QUIET, 2, &format!("And {more} more; --all shows them."));
    }
}

fn sentences(page: &mut Page, title: &str, lines: &[String]) {
    if lines.is_empty() {
        return;
    }
    page.heading(HEAD, title);
    for line in lines {
        page.item(2, line);
    }
}
