//! Every rule there is, to be worked out without a job.

use grounds_rules::all;
use maud::{Markup, html};

use crate::visit::Visit;

/// The page.
pub(crate) fn index(visit: &Visit) -> Markup {
    let all = all();
    html! {
        header class="opening" {
            p class="place-line" { a href=(visit.to("rules")) { "Rules" } }
            h1 { "What do you want to work out?" }
            p class="lead" {
                (all.len()) " rules of the trade and of the code, each with its working and its source. \
                 Nothing is written down."
            }
        }
        div class="rule-index" {
            @for group in all.chunk_by(|a, b| a.family == b.family) {
                @if let Some(first) = group.first() {
                    section class="part" {
                        h2 { (first.family.title()) }
                        ul class="links" {
                            @for rule in group {
                                li { a href=(visit.to(&format!("rules/work-out/{}", rule.name))) { (rule.title) } }
                            }
                        }
                    }
                }
            }
        }
    }
}
