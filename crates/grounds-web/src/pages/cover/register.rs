//! The register: what is about to be hidden, soonest first, and what was covered without.

use grounds_cover::{AUTHORITY_DECIDES, Covering, Wanted};
use grounds_sequence::words::upper_first;
use maud::{Markup, html};

use super::{register_of, row, words};
use crate::{say, visit::Visit};

/// Weeks that are looked ahead where the address does not say.
const WEEKS: u16 = 4;

/// The farthest that is looked ahead, in weeks.
const MOST_WEEKS: u16 = 520;

/// Rows that stand in the open.
const OPEN: usize = 12;

/// Rows of what was covered without that stand in the open.
const OPEN_WITHOUT: usize = 6;

/// The page.
pub(crate) fn cover(visit: &Visit) -> Markup {
    let register = register_of(visit);
    let weeks = weeks(visit);
    let coming: Vec<&Covering> = register.to_come(weeks).filter(|c| c.is_asked()).collect();
    let (lacking, ready): (Vec<&Covering>, Vec<&Covering>) = coming
        .into_iter()
        .partition(|covering| covering.missing().next().is_some());
    let (mut asked, usual): (Vec<&Covering>, Vec<&Covering>) = register
        .unseen()
        .into_iter()
        .partition(|covering| covering.lacks_what_the_job_asks());
    // What was covered without a pass weighs more than a photo that nobody kept.
    asked.sort_by_key(|covering| {
        let missing_pass = covering
            .missing()
            .any(|(_, ask)| ask.wanted == Wanted::Pass);
        (covering.let_go.is_some(), !missing_pass)
    });
    html! {
        header class="opening" {
            h1 { (words(visit).headline(&register, weeks)) }
            p class="lead" {
                a href=(visit.to("behind")) { "What is behind a wall?" }
                @if !asked.is_empty() {
                    " " a href="#without" {
                        (upper_first(&grounds_sequence::words::count(asked.len())))
                        (if asked.len() == 1 { " was" } else { " were" }) " covered without what the job asks for"
                    } "."
                }
            }
            nav class="cover-tools" aria-label="How far ahead" {
                p {
                    @for (page, word) in [("cover?weeks=1", "This week"), ("cover", "Four weeks"), ("cover?weeks=all", "All")] {
                        a href=(visit.to(page)) aria-current=[is_shown(weeks, page).then_some("true")] { (word) } " "
                    }
                }
            }
        }
        div class="columns" {
            div {
                section class="part" aria-labelledby="missing" {
                    h2 id="missing" { "Something is missing" }
                    @if lacking.is_empty() { p class="nothing" { "Nothing is missing behind what comes." } }
                    @let (open, more) = lacking.split_at(lacking.len().min(OPEN));
                    ul class="rows" { @for covering in open { (row::whole(visit, covering)) } }
                    @if !more.is_empty() {
                        details class="fold" {
                            summary { (say::counted(more.len(), "more", "more")) ", later" }
                            ul class="rows" { @for covering in more { (row::whole(visit, covering)) } }
                        }
                    }
                }
                @if !ready.is_empty() {
                    section class="part" aria-labelledby="ready" {
                        h2 id="ready" { "Everything is there" }
                        ul class="rows plain" { @for covering in &ready { (row::short(visit, covering)) } }
                    }
                }
            }
            div {
                (holds(visit))
                (without(visit, &asked, &usual))
                p class="soft" { (AUTHORITY_DECIDES) }
            }
        }
    }
}

/// Tests and inspections that are still to pass, with how they stand.
fn holds(visit: &Visit) -> Markup {
    let picture = &visit.picture;
    let mut open: Vec<(
        &grounds_model::Id,
        &grounds_model::Hold,
        grounds_cover::HoldLook,
    )> = picture
        .job
        .holds
        .iter()
        .filter_map(|(id, hold)| {
            let look = grounds_cover::look_at(&picture.job, &picture.site, &picture.outlook, id)?;
            let passed = matches!(look.state, grounds_cover::HoldState::Passed(_));
            (!passed).then_some((id, hold, look))
        })
        .collect();
    open.sort_by_key(|(id, _, look)| (look.planned, (*id).clone()));
    html! {
        @if !open.is_empty() {
            section class="part" aria-labelledby="holds" {
                h2 id="holds" { "Tests and inspections to come" }
                ul class="rows plain" {
                    @for (id, hold, look) in &open {
                        li class="row" {
                            div class="row-words" {
                                h3 class="row-name" {
                                    a href=(visit.to(&format!("cover/hold/{}", crate::visit::encode(id.as_str(), "")))) { (hold.name) }
                                }
                                @let said = words(visit).hold(hold, look);
                                @if let Some(first) = said.first() { p class="row-why" { (first) } }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// What was covered without: what the job asks for in the open, what is usual folded.
fn without(visit: &Visit, asked: &[&Covering], usual: &[&Covering]) -> Markup {
    html! {
        @if !asked.is_empty() || !usual.is_empty() {
            section class="part" aria-labelledby="without" {
                h2 id="without" { "Covered without" }
                @if asked.is_empty() { p class="nothing" { "Everything that the job asks for was seen." } }
                @let (open, more) = asked.split_at(asked.len().min(OPEN_WITHOUT));
                ul class="rows plain" { @for covering in open { (row::unseen(visit, covering)) } }
                @if !more.is_empty() {
                    details class="fold" {
                        summary { (say::counted(more.len(), "more", "more")) }
                        ul class="rows plain" { @for covering in more { (row::unseen(visit, covering)) } }
                    }
                }
                @if !usual.is_empty() {
                    details class="fold" {
                        summary {
                            (say::counted(usual.len(), "thing", "things"))
                            " covered without photos that are common practice"
                        }
                        ul class="rows plain" { @for covering in usual { (row::unseen(visit, covering)) } }
                    }
                }
            }
        }
    }
}

fn weeks(visit: &Visit) -> Option<u16> {
    match visit.asked("weeks") {
        Some("all") => None,
        Some(text) => Some(text.parse().unwrap_or(WEEKS).clamp(1, MOST_WEEKS)),
        None => Some(WEEKS),
    }
}

fn is_shown(weeks: Option<u16>, page: &str) -> bool {
    let of_page = match page.split_once('=') {
        Some((_, "all")) => None,
        Some((_, weeks)) => weeks.parse().ok(),
        None => Some(WEEKS),
    };
    weeks == of_page
}

/// The way here from the end of another page.
pub(crate) fn way_here(visit: &Visit) -> Markup {
    let register = register_of(visit);
    html! {
        section class="part" aria-labelledby="cover" {
            h2 id="cover" { "Cover" }
            p { a href=(visit.to("cover")) { (words(visit).headline(&register, Some(WEEKS))) } }
            p { a href=(visit.to("behind")) { "What is behind a wall" } ", with photos, readings and heights." }
        }
    }
}
