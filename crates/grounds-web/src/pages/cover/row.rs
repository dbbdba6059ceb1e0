//! One covering as a row: what it hides, what is missing, what can be written down.

use grounds_cover::{Covering, Hidden, HiddenKind, Standing};
use grounds_sequence::words::upper_first;
use grounds_site::Subject;
use maud::{Markup, html};

use super::{forms, words};
use crate::{
    marks, say,
    visit::{Visit, encode},
};

/// Hidden things that are listed one by one.
const LISTED: usize = 20;

/// A row of the start page.
pub(super) fn short(visit: &Visit, covering: &Covering) -> Markup {
    html! {
        li class="row" {
            div class="row-words" {
                h3 class="row-name" { a href=(visit.to_work(&covering.key)) { (visit.words().task(covering.task)) } }
                (first_line(visit, covering))
                (checks(visit, covering))
            }
        }
    }
}

/// A row of the register, with what can be written down.
pub(super) fn whole(visit: &Visit, covering: &Covering) -> Markup {
    let name = visit.words().task(covering.task);
    html! {
        li class="row cover-row" id=(anchor(covering)) {
            (marks::of_task(&visit.picture, covering.task))
            div class="row-words" {
                h3 class="row-name" { a href=(visit.to_work(&covering.key)) { (name) } }
                (first_line(visit, covering))
                (missing(visit, covering))
                (let_go(visit, covering))
                details class="fold" {
                    summary { "What it hides" span class="said" { ": " (name) } }
                    (checks(visit, covering))
                }
            }
            (forms::of_covering(visit, covering, &name))
        }
    }
}

/// A row of what was covered without.
pub(super) fn unseen(visit: &Visit, covering: &Covering) -> Markup {
    let name = visit.words().task(covering.task);
    html! {
        li class="row" id=(anchor(covering)) {
            div class="row-words" {
                h3 class="row-name" { a href=(visit.to_work(&covering.key)) { (name) } }
                p class="row-why" { (words(visit).let_go(covering)) }
                (not_there(visit, covering))
            }
            // What is only usual is not chased once it is hidden.
            @if covering.lacks_what_the_job_asks() { (forms::afterwards(visit, covering, &name)) }
        }
    }
}

fn anchor(covering: &Covering) -> String {
    let plain = |c: char| {
        if c.is_ascii_alphanumeric() || c == '-' {
            c
        } else {
            '_'
        }
    };
    format!("c-{}", covering.key.chars().map(plain).collect::<String>())
}

fn first_line(visit: &Visit, covering: &Covering) -> Markup {
    let (when, rest) = words(visit).first_line(covering);
    html! { p class="row-why" { b { (when) } ": " (rest) } }
}

/// What is missing, a line each; the job's own asks stand before what is usual.
pub(super) fn missing(visit: &Visit, covering: &Covering) -> Markup {
    let missing = words(visit).missing(covering);
    html! {
        @if !missing.is_empty() {
            ul class="lacks" {
                @for sentence in missing.iter().take(LISTED) { li { (sentence) } }
                @if missing.len() > LISTED { li { "and " (missing.len() - LISTED) " more." } }
            }
        }
    }
}

/// What is not there of what is covered: what the job asks for, and how many photos that are usual.
fn not_there(visit: &Visit, covering: &Covering) -> Markup {
    let all = covering.missing().count();
    let asked = covering
        .missing()
        .filter(|(_, ask)| ask.asked_by.is_the_job())
        .count();
    if asked == 0 {
        return missing(visit, covering);
    }
    let sentences = words(visit).missing(covering);
    html! {
        ul class="lacks" {
            @for sentence in sentences.iter().take(asked) { li { (sentence) } }
            @if all > asked {
                li class="soft" {
                    "and " (say::counted(all - asked, "photo that is", "photos that are")) " common practice."
                }
            }
        }
    }
}

/// Who let it go on, and why.
pub(super) fn let_go(visit: &Visit, covering: &Covering) -> Markup {
    let said = words(visit).let_go(covering);
    let covered_well = covering.standing != Standing::ToCome && !covering.is_unseen();
    html! {
        @if !said.is_empty() && !covered_well { p class="notice" { (said) } }
    }
}

/// What it hides, each with what was seen of it.
pub(super) fn checks(visit: &Visit, covering: &Covering) -> Markup {
    html! {
        ul class="checks" {
            @for hidden in covering.hides.iter().take(LISTED) {
                li class=[class(hidden)] {
                    (name(visit, hidden)) ": " (words(visit).seen(hidden)) "."
                }
            }
            @if covering.hides.len() > LISTED {
                li { "and " (say::counted(covering.hides.len() - LISTED, "more", "more")) "." }
            }
        }
    }
}

fn name(visit: &Visit, hidden: &Hidden) -> Markup {
    match hidden.subjects.first() {
        Some(Subject::Hold(id)) => html! {
            a href=(visit.to(&format!("cover/hold/{}", encode(id.as_str(), "")))) { (hidden.name) }
        },
        _ => html! { (upper_first(&hidden.name)) },
    }
}

fn class(hidden: &Hidden) -> Option<&'static str> {
    let evidence = &hidden.evidence;
    if hidden.kind == HiddenKind::Hold && evidence.done.is_none() && evidence.failed.is_some() {
        return Some("failed");
    }
    let is_in = evidence.done.is_some() || hidden.state == grounds_sequence::TaskState::Done;
    (is_in && hidden.missing().next().is_none()).then_some("seen")
}
