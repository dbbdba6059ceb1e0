//! The rules of a house as a page: what fails first, by place.

use grounds_rules::{Verdict, house::Applied};
use grounds_sequence::words::upper_first;
use grounds_settle::{rule_goes_on, rule_key};

use super::Checked;
use crate::page::{ALARM, HEAD, PLAIN, Page, QUIET};

pub(super) fn page(checked: &Checked<'_>, title: &str, all: bool) -> Page {
    let mut page = Page::default();
    page.heading(HEAD, title);
    let code = &checked.code;
    page.paragraph(QUIET, 0, &format!("By {}.", code.title));
    if checked.applied.is_empty() {
        page.paragraph(PLAIN, 0, "No rule speaks of anything in this job yet.");
        return page;
    }
    standing(&mut page, checked, Verdict::Fails, ALARM, "Fails");
    standing(
        &mut page,
        checked,
        Verdict::CannotTell,
        HEAD,
        "Cannot be told yet",
    );
    if all {
        standing(&mut page, checked, Verdict::Passes, HEAD, "Passes");
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

/// The rules that stand so, by place.
fn standing(
    page: &mut Page,
    checked: &Checked<'_>,
    verdict: Verdict,
    style: anstyle::Style,
    title: &str,
) {
    let mut place = None;
    for applied in checked.with(verdict) {
        if place.is_none() {
            page.heading(style, title);
        }
        if place != Some(&applied.place) {
            page.paragraph(HEAD, 2, checked.place(applied));
            place = Some(&applied.place);
        }
        one(page, checked, applied);
    }
}

fn one(page: &mut Page, checked: &Checked<'_>, applied: &Applied) {
    let called = upper_first(&applied.called);
    page.item(4, &format!("{called}: {}", applied.answer.said));
    let mut after = rule_key(applied);
    if applied.answer.verdict == Verdict::Fails {
        if let Some(decided) = rule_goes_on(checked.site, applied) {
            let note = checked.site.notes.get(&decided.note);
            let by = note.map_or_else(String::new, |note| format!(" by {}", note.by));
            after.push_str(&format!(": it goes on as it is, decided{by}"));
        } else {
            page.paragraph(PLAIN, 6, applied.rule.way_out);
        }
    }
    page.paragraph(QUIET, 6, &after);
}
