//! How sure the dates are: for each milestone its chances as a curve, what drives it, where the spread
//! comes from, and how all of it is reckoned.

mod drawn;

use grounds_sequence::Prospect;
use maud::{Markup, PreEscaped, html};

use crate::{pages::live, picture::Picture, study::Reckoned, visit::Visit};

/// The page.
pub(crate) fn forecast(visit: &Visit) -> Markup {
    match &visit.study.forecast {
        Some(reckoned) => known(visit, reckoned),
        None => unknown(visit),
    }
}

/// Not worked out yet, or never to be.
fn unknown(visit: &Visit) -> Markup {
    html! {
        header class="opening" {
            p class="place-line" { "How sure the dates are" }
            @match &visit.study.no_forecast {
                Some(why) => {
                    h1 { "There is no telling how sure the dates are." }
                    p class="lead" { (why) }
                }
                None => {
                    h1 { "How sure the dates are is being worked out." }
                    p class="lead" { (visit.words().forecast()) }
                    (live::live_at_once(visit, live::Of::Chances))
                }
            }
        }
        (how(visit))
    }
}

fn known(visit: &Visit, reckoned: &Reckoned) -> Markup {
    let words = reckoned.picture.words();
    let forecast = &reckoned.forecast;
    html! {
        header class="opening" {
            p class="place-line" { "How sure the dates are" }
            h1 { (words.chances(&forecast.finish)) }
            p class="lead" { (words.against_plan(&forecast.finish)) " " span class="soft" { (bound(visit)) } }
            (live::live(visit, live::Of::Chances))
        }
        @if !visit.study.is_forecast_of(&visit.picture) {
            p class="notice" { "The plan has changed since; this is being worked out anew." }
        }
        (prospect(visit, reckoned, &forecast.finish, "finish"))
        @for (index, each) in forecast.milestones.iter().enumerate() {
            (prospect(visit, reckoned, each, &format!("milestone-{index}")))
        }
        (windows(&words.closing_windows(forecast)))
        (how(visit))
    }
}

/// Work that is to be timed with care, for a window closes after it.
fn windows(lines: &[String]) -> Markup {
    html! {
        @if !lines.is_empty() {
            section class="part" aria-labelledby="windows" {
                h2 id="windows" { "To be timed with care" }
                ul class="reasons" { @for line in lines { li { (line) } } }
            }
        }
    }
}

/// The plan, and what no order of work can beat.
fn bound(visit: &Visit) -> String {
    let words = visit.words();
    let why = words.why_no_sooner().unwrap_or_default();
    format!("{} {why}", words.forecast())
}

/// One date: its chances, its curve, what drives it and where its spread comes from.
fn prospect(visit: &Visit, reckoned: &Reckoned, prospect: &Prospect, id: &str) -> Markup {
    let picture = &reckoned.picture;
    let words = picture.words();
    let title = words.prospect_title(prospect);
    html! {
        section class="part prospect" aria-labelledby=(id) {
            h2 id=(id) { (title) }
            div class="columns" {
                div {
                    p class="prospect-said" { (words.chances(prospect)) }
                    p { (words.against_plan(prospect)) }
                    (PreEscaped(grounds_draw::curve(&drawn::curve(picture, prospect, &title))))
                }
                div {
                    @if !prospect.causes.is_empty() {
                        h3 class="trade" { "Where the spread comes from" }
                        ul class="reasons" {
                            @for cause in &prospect.causes { li { (words.cause_of_spread(cause)) } }
                        }
                    }
                    @if !prospect.drivers.is_empty() {
                        details class="fold" {
                            summary { "What drives it" span class="said" { ": " (title) } }
                            ul class="reasons" {
                                @for (id, share) in &prospect.drivers {
                                    li { (driver(visit, picture, *id, *share)) }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn driver(
    visit: &Visit,
    picture: &Picture,
    id: grounds_schedule::ActivityId,
    share: f64,
) -> Markup {
    let said = picture.words().driver(id, share);
    html! {
        @match picture.outlook.network.task(id) {
            Some(task) => a href=(visit.to_work(&task.key)) { (said) },
            None => (said),
        }
    }
}

/// How it is reckoned, and what it cannot know.
fn how(visit: &Visit) -> Markup {
    html! {
        section class="part" aria-labelledby="how" {
            h2 id="how" { "How it is reckoned" }
            @if let Some(reckoned) = &visit.study.forecast {
                p { (reckoned.picture.words().forecast_caution(&reckoned.forecast)) }
            }
            p { "The curve shows in what share of the runs each day, or an earlier one, is kept." }
        }
    }
}
