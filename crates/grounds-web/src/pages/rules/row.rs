//! One rule of a house as a row.

use grounds_rules::house::Applied;
use grounds_sequence::words::upper_first;
use maud::{Markup, html};

use super::{address, goes_on, shown};
use crate::visit::Visit;

/// One that is not kept: what is the matter, and the ways out.
pub(super) fn failing(visit: &Visit, key: &str, applied: &Applied) -> Markup {
    html! {
        li class="row fit-row fails" {
            div class="row-words" {
                h4 class="row-name" { a href=(address(visit, key)) { (name(applied)) } }
                p { (applied.answer.said) }
                @match goes_on(visit, applied) {
                    Some(decided) => p class="row-why" { (decided) },
                    None => p class="to-do" { (applied.rule.way_out) },
                }
            }
        }
    }
}

/// One that nobody can tell: which figures are missing, and who has them.
pub(super) fn unknown(visit: &Visit, key: &str, applied: &Applied) -> Markup {
    html! {
        li class="row fit-row unknown" {
            div class="row-words" {
                h4 class="row-name" { a href=(address(visit, key)) { (name(applied)) } }
                @for (who, what) in shown::by_whom(&applied.answer) {
                    p class="row-why" { (upper_first(&what.join("; "))) ": from " b { (who) } "." }
                }
            }
        }
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
