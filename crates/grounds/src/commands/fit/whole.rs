//! All fits of a house: what fails or is tight, what to measure, what is doubtful.

use grounds_lines::answers::{ToMeasure, Verdict};
use grounds_schedule::{DAY, Tick};
use grounds_sequence::words::upper_first;

use super::{Fits, NOTHING_ASKED, counts, list};
use crate::page::{ALARM, HEAD, PLAIN, Page, QUIET};

/// What can be measured is listed so far, unless all of it is asked for.
const LISTED: usize = 8;

/// What is covered within so many days is measured this week.
const WEEK: Tick = 7;

pub(super) fn page(fits: &Fits<'_>, all: bool) -> Page {
    let mut page = Page::default();
    page.heading(HEAD, &fits.planned.title());
    if fits.answers.answers.is_empty() {
        page.paragraph(PLAIN, 0, &format!("{}.", upper_first(NOTHING_ASKED)));
        return page;
    }
    standing(&mut page, fits, Verdict::Fails);
    standing(&mut page, fits, Verdict::Tight);
    clashes(&mut page, fits);
    to_measure(&mut page, fits, all);
    doubts(&mut page, fits);
    if all {
        standing(&mut page, fits, Verdict::CannotTell);
        standing(&mut page, fits, Verdict::Holds);
        set_outs(&mut page, fits);
    }
    page.heading(HEAD, "All fits");
    page.paragraph(PLAIN, 2, &counts(fits.answers));
    if !all {
        let more = "grounds fit JOB NEED shows the working of one, by its key; --all lists all.";
        page.paragraph(QUIET, 2, more);
    }
    page
}

/// The fits that stand so, with what they hold up.
fn standing(page: &mut Page, fits: &Fits<'_>, verdict: Verdict) {
    let mut those = fits.with(verdict).peekable();
    if those.peek().is_none() {
        return;
    }
    let (style, title) = match verdict {
        Verdict::Fails => (ALARM, "Fails"),
        Verdict::Tight => (HEAD, "Tight"),
        Verdict::CannotTell => (HEAD, "Cannot be told yet"),
        Verdict::Holds => (HEAD, "Holds"),
    };
    page.heading(style, title);
    for answer in those {
        page.item(2, &answer.said);
        let holds = fits.holds_words(answer);
        let holds = holds.map_or_else(String::new, |holds| format!(": {holds}"));
        page.paragraph(QUIET, 4, &format!("{}{holds}", answer.key));
    }
}

/// Fits that cannot be met together. One that cannot be met by itself has failed above.
fn clashes(page: &mut Page, fits: &Fits<'_>) {
    let clashes = fits.answers.clashes.iter();
    let mut together = clashes.filter(|it| it.needs.len() > 1).peekable();
    if together.peek().is_some() {
        page.heading(ALARM, "Cannot all be met, whatever is set");
        list(page, together.map(|clash| clash.said.clone()));
    }
}

/// What to measure by when it is covered: this week, later, and what nothing covers.
fn to_measure(page: &mut Page, fits: &Fits<'_>, all: bool) {
    let end = fits.planned.outlook.network.now_tick() + WEEK * DAY;
    let mut dated: Vec<(Tick, &ToMeasure)> = Vec::new();
    let mut open: Vec<&ToMeasure> = Vec::new();
    for it in &fits.answers.measure {
        match fits.covered(it) {
            Some(at) => dated.push((at, it)),
            None => open.push(it),
        }
    }
    // What is covered first comes first; at one time the most telling.
    dated.sort_by_key(|(at, _)| *at);
    let (week, later): (Vec<_>, Vec<_>) = dated.into_iter().partition(|(at, _)| *at < end);
    let only = |list: Vec<(Tick, _)>| list.into_iter().map(|(_, it)| it).collect::<Vec<_>>();
    measures(page, fits, "Measure this week", &only(week), usize::MAX);
    let most = if all { usize::MAX } else { LISTED };
    measures(page, fits, "Measure later", &only(later), most);
    measures(page, fits, "Measure or ask, any day", &open, most);
}

fn measures(page: &mut Page, fits: &Fits<'_>, title: &str, those: &[&ToMeasure], most: usize) {
    if those.is_empty() {
        return;
    }
    page.heading(HEAD, title);
    for it in those.iter().take(most) {
        page.item(2, &it.said);
        if let Some(covered) = fits.covered_words(it) {
            page.paragraph(QUIET, 4, &covered);
        }
    }
    if those.len() > most {
        page.paragraph(
            QUIET,
            2,
            &format!("and {} more; --all lists them.", those.len() - most),
        );
    }
}

fn doubts(page: &mut Page, fits: &Fits<'_>) {
    let doubts = fits.answers.doubts.iter().map(|doubt| doubt.said.clone());
    let unused = fits.lines.unused.iter().map(|(_, why)| why.clone());
    let mut all = doubts.chain(unused).peekable();
    if all.peek().is_some() {
        page.heading(HEAD, "Does not add up");
        list(page, all);
    }
}

fn set_outs(page: &mut Page, fits: &Fits<'_>) {
    let set_outs = &fits.answers.set_outs;
    if !set_outs.is_empty() {
        page.heading(HEAD, "Set out");
        list(page, set_outs.iter().map(|it| it.said.clone()));
    }
}
