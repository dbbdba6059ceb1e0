//! What goes on behind the plan: a line that keeps itself up to date, and an offer to show what is
//! new. It never moves the page under a thumb; without script it is right when the page is loaded
//! again.

use maud::{Markup, html};
use serde::Serialize;

use crate::{
    pages::{frame::without_wrote, win_back},
    visit::{Visit, encode},
    ways::{self, Ways},
};

/// What the line says now, for the script that keeps it up to date.
#[derive(Debug, Serialize)]
pub(crate) struct Live {
    /// What is the latest: another word for every picture.
    edition: String,
    /// Something is still being worked out.
    busy: bool,
    /// The line.
    line: String,
}

impl Live {
    /// What there is to say now.
    pub(crate) fn of(visit: &Visit) -> Self {
        if visit.query.contains_key("for") {
            return Self::of_ways(visit);
        }
        Self {
            edition: visit.picture.edition.to_string(),
            busy: visit.study.busy(),
            line: line(visit),
        }
    }

    /// What there is to say of looking for ways to win time back.
    fn of_ways(visit: &Visit) -> Self {
        let aim = win_back::asked(visit);
        match visit.ways.get(ways::name(&aim)) {
            Some(Ways::Trying(progress)) => Self {
                edition: "trying".to_owned(),
                busy: true,
                line: win_back::how_far(*progress),
            },
            _ => Self {
                edition: "tried".to_owned(),
                busy: false,
                line: "Looked for ways to win time back.".to_owned(),
            },
        }
    }
}

/// The line on a page.
pub(crate) fn live(visit: &Visit) -> Markup {
    let live = Live::of(visit);
    html! {
        div class="live" data-live=(visit.to("live")) data-edition=(live.edition) data-busy[live.busy] {
            p class="live-line" { (live.line) }
            p class="live-new" hidden {
                a class="can" href=(without_wrote(&visit.path)) data-live-show { "Show it" }
            }
        }
    }
}

/// The line on a page that has nothing to show yet: what is new is shown at once.
pub(crate) fn live_ways(visit: &Visit) -> Markup {
    let live = Live::of_ways(visit);
    let aim = win_back::asked(visit);
    let from = visit.to(&format!("live?for={}", encode(ways::name(&aim), "")));
    html! {
        div class="live" data-live=(from) data-edition=(live.edition) data-busy[live.busy] data-live-at-once {
            p class="live-line" { (live.line) }
            p class="live-new" {
                a class="can" href=(without_wrote(&visit.path)) data-live-show { "See how far it is" }
            }
        }
    }
}

fn line(visit: &Visit) -> String {
    let words = visit.words();
    let better = visit
        .study
        .first
        .and_then(|first| words.better_than(first.finish, first.cents, "the plan made at first"));
    match (visit.study.looking, better) {
        (true, Some(better)) => format!("{better} Still looking for a better order of work."),
        (true, None) => "Looking for a better order of work.".to_owned(),
        (false, Some(better)) => better,
        (false, None) => "No better order of work was found in the time given.".to_owned(),
    }
}
