//! The page for what could not be answered.

use maud::{DOCTYPE, Markup, html};

use super::frame::head;
use crate::fault::Fault;

/// A page that says what went wrong and where to go from here. `back` is a page of our own.
pub(crate) fn lost(fault: &Fault, back: &str) -> Markup {
    let lines: Vec<String> = fault.to_string().lines().map(str::to_owned).collect();
    html! {
        (DOCTYPE)
        html lang="en" {
            (head(&format!("{} · Grounds", heading(fault).trim_end_matches('.'))))
            body {
                main id="main" class="page" tabindex="-1" {
                    header class="opening" { h1 { (heading(fault)) } }
                    @for line in lines.iter().take(40) { p class="notice breach" { (line) } }
                    p {
                        @if back != "/" { a href=(back) { "Go back" } " · " }
                        a href="/" { "Start page" }
                    }
                }
            }
        }
    }
}

fn heading(fault: &Fault) -> &'static str {
    match fault {
        Fault::Missing(_) => "That is not here.",
        Fault::Desk(_) => "That is done at the desk.",
        Fault::Photo(_) => "That photo was not taken.",
        Fault::Input(_) => "That could not be written down.",
        Fault::Store(_) => "That was not saved.",
        Fault::Document(_) | Fault::Plan(_) => "The job cannot be planned.",
        Fault::Broke(_) => "Something went wrong.",
    }
}
