//! The rules of a house as a page: what fails first, by place.

use grounds_rules::{Verdict, house::Applied};
use grounds_sequence::words::{join, upper_first};
use grounds_settle::{rule_goes_on, rule_key};

use super::Checked;
use crate::{
    opened::Planned,
    page::{ALARM, HEAD, PLAIN, Page, QUIET},
};

pub(super) fn page(checked: &Checked<'_>, title: &str, all: bool) -> Page {
    let mut page = Page::default();
    page.heading(HEAD, title);
    let code = &checked.code;
    page.paragraph(QUIET, 0, &format!("By {}.", code.title));
    if checked.applied.is_empty() {
        page.paragraph(PLAIN, 0, "No rule speaks of anything in this job yet.");
        return page;
    }
    failing(&mut page, checked);
    unknown(&mut page, checked);
    if all {
        passing(&mut page, checked);
    }
    page.heading(HEAD, "All rules");
    page.paragraph(PLAIN, 2, &checked.counts());
    for (key, change) in &code.changes {
        let changed = format!("{key} is {} in this job: {}.", change.is, change.why);
        page.paragraph(QUIET, 2, changed.trim_end_matches('.'));
    }
    let more = if all {
        "grounds rule NAME tells what a rule asks for, its source and its caution."
    } else {
        "grounds rule NAME tells what a rule asks for, its source and its caution; --all lists \
         what passes."
    };
    page.paragraph(QUIET, 2, more);
    page
}

/// What is not kept, by place: what bites soonest first.
fn failing(page: &mut Page, checked: &Checked<'_>) {
    let Planned { job, site, outlook } = checked.planned;
    let groups = grounds_settle::failing(job, site, outlook, &checked.applied);
    if !groups.is_empty() {
        page.heading(ALARM, "Fails");
    }
    let words = checked.words();
    for group in &groups {
        page.paragraph(HEAD, 2, checked.place(group.place.as_ref()));
        for (applied, bites) in &group.rules {
            said(page, applied);
            let mut after = rule_key(applied);
            if let Some(decided) = rule_goes_on(site, applied) {
                let note = site.notes.get(&decided.note);
                let by = note.map_or_else(String::new, |note| format!(" by {}", note.by));
                after.push_str(&format!(": it goes on as it is, decided{by}"));
            } else {
                page.paragraph(PLAIN, 6, applied.rule.way_out);
                if let Some(bites) = bites {
                    page.paragraph(PLAIN, 6, &bites.words(&words));
                }
            }
            page.paragraph(QUIET, 6, &after);
        }
    }
}

/// What cannot be told yet, what bites soonest first, alike together.
fn unknown(page: &mut Page, checked: &Checked<'_>) {
    let Planned { job, site, outlook } = checked.planned;
    let rows = grounds_settle::unknown(job, site, outlook, &checked.applied);
    if !rows.is_empty() {
        page.heading(HEAD, "Cannot be told yet");
    }
    let words = checked.words();
    for alike in &rows {
        let Some(first) = alike.of.first() else {
            continue;
        };
        let called: Vec<String> = alike.of.iter().map(|one| one.called.clone()).collect();
        let said = &first.answer.said;
        page.item(2, &format!("{}: {said}", upper_first(&join(&called))));
        if let Some(bites) = alike.bites {
            page.paragraph(PLAIN, 4, &bites.words(&words));
        }
        let keys: Vec<String> = alike.of.iter().map(|one| rule_key(one)).collect();
        page.paragraph(QUIET, 4, &keys.join(", "));
    }
}

/// What passes, by place.
fn passing(page: &mut Page, checked: &Checked<'_>) {
    let mut place = None;
    for applied in checked.with(Verdict::Passes) {
        if place.is_none() {
            page.heading(HEAD, "Passes");
        }
        if place != Some(&applied.place) {
            page.paragraph(HEAD, 2, checked.place(applied.place.as_ref()));
            place = Some(&applied.place);
        }
        said(page, applied);
        page.paragraph(QUIET, 6, &rule_key(applied));
    }
}

fn said(page: &mut Page, applied: &Applied) {
    let called = upper_first(&applied.called);
    page.item(4, &format!("{called}: {}", applied.answer.said));
}
