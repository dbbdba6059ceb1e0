//! One fit with its working.

use grounds_lines::{
    answers::{Answer, ToMeasure},
    said,
};

use super::{Fits, list, verdict_word};
use crate::page::{HEAD, PLAIN, Page, QUIET};

/// A share of what is not sure that is worth a line.
const WORTH: f64 = 0.01;

/// Standard deviations between which nineteen cases of twenty lie.
const NINETEEN_IN_TWENTY: f64 = 1.96;

pub(super) fn page(fits: &Fits<'_>, answer: &Answer) -> Page {
    let mut page = Page::default();
    page.heading(
        HEAD,
        &format!("{}: {}", answer.name, verdict_word(answer.verdict)),
    );
    page.paragraph(PLAIN, 2, &answer.said);
    page.heading(HEAD, "Working");
    for line in &answer.working {
        worked(&mut page, line);
    }
    shares(&mut page, answer);
    measure_first(&mut page, fits, answer);
    set_by(&mut page, fits, answer);
    if let Some(holds) = fits.holds_words(answer) {
        page.heading(HEAD, "What it holds");
        page.paragraph(PLAIN, 2, &holds);
    }
    does_not_add_up(&mut page, fits, answer);
    page
}

/// A line of the working, its sign in a column of its own.
fn worked(page: &mut Page, line: &str) {
    let (sign, rest) = line.split_once("  ").unwrap_or(("", line));
    page.row(2, &[(sign, 1)], rest.trim_start());
}

/// Where the doubt comes from, the most of it first.
fn shares(page: &mut Page, answer: &Answer) {
    let mut parts: Vec<_> = answer.parts.iter().filter(|p| p.share >= WORTH).collect();
    if parts.len() < 2 {
        return;
    }
    parts.sort_by(|a, b| b.share.total_cmp(&a.share));
    page.heading(HEAD, "Where the doubt comes from");
    for part in parts {
        let share = format!("{:3.0} %", 100.0 * part.share);
        page.row(2, &[(&share, 5)], &part.name);
    }
}

fn measure_first(page: &mut Page, fits: &Fits<'_>, answer: &Answer) {
    let has_it = |it: &&ToMeasure| it.needs.contains(&answer.key);
    let mut those = fits.answers.measure.iter().filter(has_it).peekable();
    if those.peek().is_none() {
        return;
    }
    page.heading(HEAD, "Measure first");
    for it in those {
        page.item(2, &it.said);
        let change = it.changes.iter().find(|(key, ..)| *key == answer.key);
        if let Some((_, now, then)) = change {
            let within =
                |spread: f64| said::length(NINETEEN_IN_TWENTY * spread, fits.lines.units());
            let change = format!("It is ±{} now, and ±{} then.", within(*now), within(*then));
            page.paragraph(QUIET, 4, &change);
        }
        if let Some(covered) = fits.covered_words(it) {
            page.paragraph(QUIET, 4, &covered);
        }
    }
}

fn set_by(page: &mut Page, fits: &Fits<'_>, answer: &Answer) {
    let own = |link| answer.parts.iter().any(|part| part.link == link);
    let set_outs = fits.answers.set_outs.iter().filter(|it| own(it.link));
    let clashes = fits.answers.clashes.iter();
    let clashes = clashes.filter(|clash| clash.needs.contains(&answer.key));
    let said = set_outs.map(|it| it.said.clone());
    let mut all = said.chain(clashes.map(|it| it.said.clone())).peekable();
    if all.peek().is_some() {
        page.heading(HEAD, "Set out");
        list(page, all);
    }
}

fn does_not_add_up(page: &mut Page, fits: &Fits<'_>, answer: &Answer) {
    let own = |link| answer.parts.iter().any(|part| part.link == link);
    let mut doubts = fits
        .answers
        .doubts
        .iter()
        .filter(|it| own(it.link))
        .peekable();
    if doubts.peek().is_some() {
        page.heading(HEAD, "Does not add up");
        list(page, doubts.map(|doubt| doubt.said.clone()));
    }
}
