//! One need as a row.

use grounds_lines::{
    answers::{Answer, Verdict},
    take::Take,
};
use maud::{Markup, PreEscaped, html};

use super::holds_up;
use crate::{
    fit::Facts,
    visit::{Visit, encode},
};

/// The address of the page of a need.
pub(crate) fn address(visit: &Visit, key: &str) -> String {
    visit.to(&format!("fit/need/{}", encode(key, ".")))
}

/// The address of the page on which a reading is entered. `need` is where it leads back to.
pub(super) fn to_read(visit: &Visit, take: &Take, need: &str) -> String {
    let mut to = format!(
        "fit/read?about={}&what={}",
        encode(take.about.as_str(), "/."),
        encode(&take.what, "")
    );
    if !need.is_empty() {
        to.push_str(&format!("&need={}", encode(need, ".")));
    }
    visit.to(&to)
}

/// The id of a row, the same from page to page.
pub(super) fn row_id(key: &str) -> String {
    format!("n-{}", key.replace('.', "_"))
}

/// The picture of a need; nothing while it cannot be told.
pub(super) fn picture(facts: &Facts) -> Markup {
    html! {
        @if let Some(bands) = &facts.bands { (PreEscaped(grounds_draw::bands(bands))) }
    }
}

/// A need that fails or is tight: its picture, what it comes to, what to do and what it holds up.
pub(super) fn troubled(visit: &Visit, answer: &Answer) -> Markup {
    let Some(facts) = visit.picture.fit.facts(answer) else {
        return html! {};
    };
    html! {
        li class=(format!("row fit-row {}", class(answer.verdict))) id=(row_id(&answer.key)) {
            (picture(facts))
            div class="row-words" {
                h3 class="row-name" { a href=(address(visit, &answer.key)) { (answer.name) } }
                @if let Some(short) = &facts.short { p { (short) } }
                @if let Some(advice) = &facts.advice { p class="to-do" { (advice) } }
                @if let Some(holdup) = &facts.holdup {
                    p class="row-why" { (holds_up::in_short(visit, holdup)) }
                }
            }
        }
    }
}

/// A need in a list of many.
pub(super) fn plain(visit: &Visit, answer: &Answer) -> Markup {
    let Some(facts) = visit.picture.fit.facts(answer) else {
        return html! {};
    };
    html! {
        li class=(format!("row fit-row {}", class(answer.verdict))) {
            (picture(facts))
            div class="row-words" {
                p class="row-name" { a href=(address(visit, &answer.key)) { (answer.name) } }
                p class="row-why" {
                    b { (word(answer.verdict)) }
                    @if !facts.wanted.is_empty() { ", wanted " (facts.wanted) "." }
                }
            }
        }
    }
}

/// The button that leads to the reading that tells most about a need.
pub(super) fn read_button(visit: &Visit, answer: &Answer, label: &str) -> Markup {
    let facts = visit.picture.fit.facts(answer);
    let take = facts.and_then(|facts| facts.takes.first());
    html! {
        @if let Some(take) = take {
            div class="row-do" {
                a class="can" href=(to_read(visit, take, &answer.key)) {
                    (label) span class="said" { ": " (take.asked) }
                }
            }
        }
    }
}

/// How a need stands, in a word or two.
pub(super) fn word(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Fails => "Will not come right",
        Verdict::Tight => "Tight",
        Verdict::CannotTell => "Nobody can tell yet",
        Verdict::Holds => "Holds",
    }
}

/// The class of a verdict.
pub(super) fn class(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Fails => "fails",
        Verdict::Tight => "tight",
        Verdict::CannotTell => "unknown",
        Verdict::Holds => "holds",
    }
}
