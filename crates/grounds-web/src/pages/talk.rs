//! Spoken walks: the list of those that are kept, each with its talk and what it proposes.

mod entry;
mod list;
mod mend;
mod moved;
mod one;

use grounds_walk::file::time_code;
use maud::{Markup, html};
use uuid::Uuid;

use crate::visit::Visit;

pub(crate) use list::walks;
pub(crate) use mend::mend;
pub(crate) use one::{address, walk};

/// The way to the walks from the page of the job.
pub(crate) fn way_here(visit: &Visit) -> Markup {
    html! {
        section class="part" aria-labelledby="walks" {
            h2 id="walks" { "What was said on walks" }
            p { "Talk through the house becomes notes once you have accepted them, sentence by sentence." }
            p class="onward" { a class="can" href=(visit.to("walks")) { "Walks" } }
        }
    }
}

/// The way from a note to the sentence that it came of: `on a walk, at 1:05`.
pub(crate) fn said_in(visit: &Visit, walk: Uuid, at_ms: Option<u64>) -> Markup {
    let page = visit.to(&format!("walks/{walk}"));
    let at = at_ms.map_or_else(String::new, |ms| format!("?at={ms}#t-{ms}"));
    html! {
        a href={ (page) (at) } {
            "said on a walk" @if let Some(ms) = at_ms { ", at " (time_code(ms)) }
        }
    }
}
