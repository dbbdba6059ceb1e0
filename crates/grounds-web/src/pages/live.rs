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

/// What a page shows that may become another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Of {
    /// The plan.
    Plan,
    /// The drawing of the weeks, with what has time to spare.
    Weeks,
    /// Ways to win time back.
    Ways,
    /// How sure the dates are.
    Chances,
}

/// What the line says now, for the script that keeps it up to date.
#[derive(Debug, Serialize)]
pub(crate) struct Live {
    /// What is the latest: another word for everything that a page would show otherwise.
    edition: String,
    /// Something is still being worked out.
    busy: bool,
    /// The line.
    line: String,
    /// How sure the finish is, where that is known.
    #[serde(skip_serializing_if = "Option::is_none")]
    chances: Option<String>,
}

impl Of {
    fn named(name: Option<&str>) -> Self {
        match name {
            Some("weeks") => Self::Weeks,
            Some("ways") => Self::Ways,
            Some("chances") => Self::Chances,
            _ => Self::Plan,
        }
    }

    /// Where the script asks.
    fn address(self, visit: &Visit) -> String {
        match self {
            Self::Plan => visit.to("live"),
            Self::Weeks => visit.to("live?of=weeks"),
            Self::Chances => visit.to("live?of=chances"),
            Self::Ways => {
                let aim = win_back::asked(visit);
                visit.to(&format!(
                    "live?of=ways&for={}",
                    encode(ways::name(&aim), "")
                ))
            }
        }
    }
}

impl Live {
    /// What the script asks for.
    pub(crate) fn asked(visit: &Visit) -> Self {
        Self::of(visit, Of::named(visit.asked("of")))
    }

    fn of(visit: &Visit, of: Of) -> Self {
        let edition = visit.picture.edition;
        match of {
            Of::Plan => Self {
                edition: edition.to_string(),
                busy: visit.study.busy(),
                line: line(visit),
                chances: chances(visit),
            },
            Of::Weeks => Self {
                edition: format!("{edition}-{}", visit.study.knows_spare(&visit.picture)),
                busy: visit.study.busy(),
                line: line(visit),
                chances: chances(visit),
            },
            Of::Ways => Self::of_ways(visit),
            Of::Chances => Self {
                edition: chances_edition(visit),
                ..Self::of(visit, Of::Plan)
            },
        }
    }

    fn of_ways(visit: &Visit) -> Self {
        let aim = win_back::asked(visit);
        match visit.ways.get(ways::name(&aim)) {
            Some(Ways::Trying(progress)) => Self {
                edition: "trying".to_owned(),
                busy: true,
                line: win_back::how_far(*progress),
                chances: None,
            },
            _ => Self {
                edition: "tried".to_owned(),
                busy: false,
                line: "Looked for ways to win time back.".to_owned(),
                chances: None,
            },
        }
    }
}

/// The line on a page that goes on being of use: what is new is offered.
pub(crate) fn live(visit: &Visit, of: Of) -> Markup {
    let live = Live::of(visit, of);
    html! {
        div class="live" data-live=(of.address(visit)) data-edition=(live.edition) data-busy[live.busy] {
            p class="live-line" { (live.line) }
            p class="live-new" hidden {
                a class="can" href=(without_wrote(&visit.path)) data-live-show { "Show it" }
            }
        }
    }
}

/// The line on a page that has nothing to show yet: what is new is shown at once.
pub(crate) fn live_at_once(visit: &Visit, of: Of) -> Markup {
    let live = Live::of(visit, of);
    html! {
        div class="live" data-live=(of.address(visit)) data-edition=(live.edition) data-busy[live.busy]
            data-live-at-once {
            p class="live-line" { (live.line) }
            p class="live-new" {
                a class="can" href=(without_wrote(&visit.path)) data-live-show { "See how far it is" }
            }
        }
    }
}

/// Which plan the chances that are known are of.
fn chances_edition(visit: &Visit) -> String {
    let study = &visit.study;
    match (&study.forecast, &study.no_forecast) {
        (Some(reckoned), _) => format!("of-{}", reckoned.picture.edition),
        (None, Some(_)) => "none".to_owned(),
        (None, None) => "not-yet".to_owned(),
    }
}

/// How sure the finish is, in words, with a word where that is of an earlier plan.
pub(crate) fn chances(visit: &Visit) -> Option<String> {
    let reckoned = visit.study.forecast.as_ref()?;
    let said = reckoned.picture.words().chances(&reckoned.forecast.finish);
    Some(match visit.study.is_forecast_of(&visit.picture) {
        true => said,
        false => format!("{} (before the last change).", said.trim_end_matches('.')),
    })
}

fn line(visit: &Visit) -> String {
    let words = visit.words();
    let study = &visit.study;
    let better = study
        .first
        .and_then(|first| words.better_than(first.finish, first.cents, "the plan made at first"));
    let found = match (study.looking, better) {
        (true, Some(better)) => format!("{better} Still looking for a better order of work."),
        (true, None) => "Looking for a better order of work.".to_owned(),
        (false, Some(better)) => better,
        (false, None) => "No better order of work was found in the time given.".to_owned(),
    };
    if !study.looking && !study.reckoned {
        return format!("{found} Working out how sure the dates are.");
    }
    let straight = study
        .straight
        .filter(|_| !study.looking)
        .and_then(|straight| words.straight_list(straight.finish, straight.cents));
    match straight {
        Some(straight) => format!("{found} {straight}"),
        None => found,
    }
}
