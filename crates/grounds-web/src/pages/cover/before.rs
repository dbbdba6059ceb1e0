//! Before something is covered: what is missing, and who lets it go on without.

use grounds_cover::Covering;
use grounds_sequence::words::lower_first;
use maud::{Markup, html};

use super::{forms, row};
use crate::visit::Visit;

/// The page that stands between a start and what would be hidden by it.
pub(crate) fn before(visit: &Visit, covering: &Covering, back: &str) -> Markup {
    let name = visit.words().task(covering.task);
    let count = covering.missing().count();
    html! {
        header class="opening" {
            p class="place-line" { a href=(back) { "Back" } }
            h1 {
                "Before " (lower_first(&name)) " hides it: "
                @match count {
                    1 => "one thing is missing.",
                    n => { (grounds_sequence::words::count(n)) " things are missing." }
                }
            }
            p class="lead soft" {
                "Nothing has been started. What is missing can be seen until it is covered, and not \
                 after."
            }
        }
        div class="columns" {
            div {
                section class="part" aria-labelledby="missing" {
                    h2 id="missing" { "Missing" }
                    (row::missing(visit, covering))
                    p class="go" { a class="can" href=(visit.to("walk")) { "Take photos on the walk" } }
                }
                section class="part" aria-labelledby="hides" {
                    h2 id="hides" { "What it hides" }
                    (row::checks(visit, covering))
                }
            }
            div {
                section class="part" aria-labelledby="without" {
                    h2 id="without" { "Cover it all the same" }
                    (forms::start_without(visit, covering, back))
                }
            }
        }
    }
}
