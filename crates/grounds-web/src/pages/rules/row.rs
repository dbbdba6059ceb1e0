//! One rule of a house as a row.

use grounds_rules::house::Applied;
use grounds_sequence::words::upper_first;
use grounds_settle::{Alike, Bites, rule_key};
use maud::{Markup, html};

use super::{address, goes_on, shown};
use crate::visit::Visit;

/// One that is not kept: what is the matter, by when it must be settled, and the ways out.
pub(super) fn failing(visit: &Visit, applied: &Applied, bites: Option<Bites>) -> Markup {
    let words = visit.words();
    html! {
        li class="row fit-row fails" {
            div class="row-words" {
                h4 class="row-name" { a href=(address(visit, &rule_key(applied))) { (name(applied)) } }
                p { (applied.answer.said) }
                @match goes_on(visit, applied) {
                    Some(decided) => p class="row-why" { (decided) },
                    None => {
                        p class="to-do" { (applied.rule.way_out) }
                        @if let Some(bites) = bites { p class="row-why" { (bites.words(&words)) } }
                    }
                }
            }
        }
    }
}

/// What nobody can tell of one thing or of several: which figures are missing, who has them, and until
/// when there is time.
pub(super) fn unknown(visit: &Visit, alike: &Alike<'_>) -> Markup {
    let words = visit.words();
    let Some(first) = alike.of.first() else {
        return html! {};
    };
    html! {
        li class="row fit-row unknown" {
            div class="row-words" {
                @if alike.of.len() == 1 {
                    h3 class="row-name" { a href=(address(visit, &rule_key(first))) { (name(first)) } }
                } @else {
                    h3 class="row-name" { (first.rule.title) }
                    p { (several(visit, &alike.of)) }
                }
                @for (who, what) in shown::by_whom(&first.answer) {
                    p class="row-why" { (upper_first(&what.join("; "))) ": from " b { (who) } "." }
                }
                @if let Some(bites) = alike.bites { p class="row-why" { (bites.words(&words)) } }
            }
        }
    }
}

/// The things that one rule asks the same of, each with its page.
fn several(visit: &Visit, of: &[&Applied]) -> Markup {
    let last = of.len().saturating_sub(1);
    html! {
        @for (at, applied) in of.iter().enumerate() {
            @if at == 0 { "" } @else if at == last { " and " } @else { ", " }
            @let called = if at == 0 { upper_first(&applied.called) } else { applied.called.clone() };
            a href=(address(visit, &rule_key(applied))) { (called) }
        }
        "."
    }
}

/// One that is kept.
pub(super) fn passing(visit: &Visit, key: &str, applied: &Applied) -> Markup {
    html! {
        li class="row fit-row holds" {
            div class="row-words" {
                p class="row-name" { a href=(address(visit, key)) { (name(applied)) } }
                p class="row-why" { (applied.answer.said) }
            }
        }
    }
}

/// `Stair glass: guard height`
fn name(applied: &Applied) -> String {
    let called = applied.called.trim_start_matches("the ");
    let title = grounds_sequence::words::lower_first(applied.rule.title);
    format!("{}: {title}", upper_first(called))
}
