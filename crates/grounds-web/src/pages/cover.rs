//! Cover: what is about to be hidden, what is missing behind it, what was covered without, and what is
//! behind a wall.

mod before;
mod behind;
mod forms;
mod hold;
mod photos;
mod register;
mod row;

use grounds_cover::{CoverWords, Covering, Register};
use grounds_schedule::{ActivityId, DAY, Tick};
use maud::{Markup, html};

use crate::visit::Visit;

pub(crate) use before::before;
pub(crate) use behind::behind;
pub(crate) use hold::hold;
pub(crate) use register::{cover, way_here};

/// How far ahead the start page looks.
const AHEAD: Tick = 5 * DAY;

/// The register of the job as it stands.
pub(crate) fn register_of(visit: &Visit) -> Register {
    let picture = &visit.picture;
    Register::of(&picture.job, &picture.site, &picture.outlook)
}

fn words(visit: &Visit) -> CoverWords<'_> {
    CoverWords::new(visit.words(), &visit.picture.site)
}

/// The part of the start page; nothing where nothing is about to be covered.
pub(crate) fn about_to_be_covered(visit: &Visit) -> Markup {
    let register = register_of(visit);
    let until = register.now.saturating_add(AHEAD);
    let coming: Vec<&Covering> = register
        .to_come(None)
        .filter(|covering| covering.start < until && covering.is_asked())
        .collect();
    let without = register
        .unseen()
        .iter()
        .filter(|covering| covering.lacks_what_the_job_asks())
        .count();
    html! {
        @if !coming.is_empty() || without > 0 {
            section class="part" aria-labelledby="covered" {
                h2 id="covered" { "About to be covered" }
                ul class="rows plain" {
                    @for covering in &coming { (row::short(visit, covering)) }
                }
                p class="go" {
                    a href=(visit.to("cover")) { "All that will be hidden" }
                    @match without {
                        0 => ".",
                        1 => ", and one thing that was covered without.",
                        n => { ", and " (n) " that were covered without." }
                    }
                }
            }
        }
    }
}

/// What a piece of work hides, for its own page; nothing where it hides nothing.
pub(crate) fn behind_work(visit: &Visit, by: ActivityId) -> Markup {
    let register = register_of(visit);
    html! {
        @if let Some(covering) = register.of_task(by) {
            (row::checks(visit, covering))
            (row::missing(visit, covering))
            (row::let_go(visit, covering))
        }
    }
}
