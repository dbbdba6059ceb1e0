//! Fit: will it be flush, in line and the right size, before it is ordered or covered.

mod all;
mod changed;
mod dates;
mod holds_up;
mod need;
mod opening;
mod plane;
mod read;
mod row;
mod set_out;
mod sheet;
mod shown;
mod stair;
mod working;

use grounds_lines::answers::{Answer, Verdict};
use grounds_schedule::Tick;
use grounds_sequence::words::{count, lower_first, upper_first};
use maud::{Markup, html};

use crate::{fit::ToRead, pages::fit::dates::Cover, say, visit::Visit};

pub(crate) use holds_up::go_on;
pub(crate) use need::need;
pub(crate) use opening::opening;
pub(crate) use plane::plane;
pub(crate) use read::{Typed, read};
pub(crate) use row::address;
pub(crate) use set_out::{set_out, set_out_list};
pub(crate) use sheet::{paper, scale};
pub(crate) use stair::stair;

/// Days that a week has, when it is said what to measure this week.
const WEEK: i32 = 7;

/// Rows that stand in the open in any list.
const SHOWN: usize = 12;

/// The page.
pub(crate) fn fit(visit: &Visit) -> Markup {
    let fit = &visit.picture.fit;
    let trouble = dates::soonest_first(visit);
    html! {
        (opening_words(visit, &trouble))
        (changed::changed(visit, None))
        @for fault in fit.faults.iter().take(SHOWN) { p class="notice breach" { (fault) } }
        @if fit.answers.is_empty() {
            @if fit.faults.is_empty() { (nothing_wanted()) }
        } @else {
            div class="columns fit-columns" {
                div { (in_trouble(visit, &trouble)) }
                div {
                    (measure(visit)) (cannot_tell(visit)) (doubts(visit)) (set_by(visit)) (sheets(visit))
                }
            }
            (all::all(visit))
        }
        (set_out::short(visit))
        (crate::pages::rules::way_here(visit))
    }
}

/// What fails first, what to do about it by when, and what else there is.
fn opening_words(visit: &Visit, trouble: &[&Answer]) -> Markup {
    let fit = &visit.picture.fit;
    let failing = trouble
        .iter()
        .filter(|answer| answer.verdict == Verdict::Fails)
        .count();
    let first = trouble.first();
    let advice = first
        .and_then(|answer| fit.facts(answer))
        .and_then(|facts| facts.advice.clone());
    html! {
        header class="opening" {
            h1 {
                (headline(failing, trouble.len() - failing, fit.answers.len()))
                @if let Some(advice) = &advice { " First: " (lower_first(advice)) }
            }
            @if let Some(answer) = first {
                p class="lead" {
                    @if let Some(by) = dates::bites(visit, answer) { b { (by.before(visit)) } " " }
                    (rest(visit, failing, trouble.len() - failing))
                }
            }
        }
    }
}

fn headline(failing: usize, tight: usize, all: usize) -> String {
    match (failing, tight) {
        (0, 0) if all == 0 => "Nothing has to fit here yet.".to_owned(),
        (0, 0) => "Everything that can be told will fit.".to_owned(),
        (0, 1) => "One fit is tight.".to_owned(),
        (0, n) => format!("{} fits are tight.", upper_first(&count(n))),
        (1, _) => "One fit will not come right.".to_owned(),
        (n, _) => format!("{} fits will not come right.", upper_first(&count(n))),
    }
}

/// What stands below, each with its place on the page.
fn rest(visit: &Visit, failing: usize, tight: usize) -> Markup {
    let unknown = unknown(visit).len();
    let due = to_take(visit).0.len();
    html! {
        @if failing > 0 && tight > 0 {
            span class="soft" { (upper_first(&count(tight))) (if tight == 1 { " more is tight. " } else { " more are tight. " }) }
        }
        @if unknown > 0 {
            a href="#unknown" { (upper_first(&count(unknown))) " nobody can tell yet" } ". "
        }
        @if due > 0 {
            a href="#measure" { (upper_first(&say::counted(due, "reading", "readings"))) " to take this week" } "."
        }
    }
}

fn nothing_wanted() -> Markup {
    html! {
        p class="nothing" {
            "No piece, opening, threshold or stair of this job says yet how it must line up."
        }
    }
}

fn in_trouble(visit: &Visit, trouble: &[&Answer]) -> Markup {
    let (open, more) = trouble.split_at(trouble.len().min(SHOWN));
    html! {
        section class="part" aria-labelledby="trouble" {
            h2 id="trouble" { "In trouble" }
            @if trouble.is_empty() { p class="nothing" { "Nothing fails, nothing is tight." } }
            ul class="rows plain fits" { @for answer in open { (row::troubled(visit, answer)) } }
            @if !more.is_empty() {
                details class="fold" {
                    summary { (more.len()) " more in trouble" }
                    ul class="rows plain fits" {
                        @for answer in more { (row::troubled(visit, answer)) }
                    }
                }
            }
        }
    }
}

/// The needs that a figure is missing for.
fn unknown(visit: &Visit) -> Vec<&Answer> {
    let answers = visit.picture.fit.answers.iter();
    answers
        .filter(|answer| answer.verdict == Verdict::CannotTell)
        .collect()
}

fn cannot_tell(visit: &Visit) -> Markup {
    let fit = &visit.picture.fit;
    let unknown = unknown(visit);
    html! {
        @if !unknown.is_empty() {
            section class="part" aria-labelledby="unknown" {
                h2 id="unknown" { "Nobody can tell yet" }
                ul class="rows plain" {
                    @for answer in unknown.iter().take(SHOWN) {
                        li class="row" id=(row::row_id(&answer.key)) {
                            div class="row-words" {
                                h3 class="row-name" {
                                    a href=(row::address(visit, &answer.key)) { (answer.name) }
                                }
                                p class="row-why" {
                                    (fit.facts(answer).and_then(|facts| facts.advice.clone()).unwrap_or_default())
                                }
                            }
                            (row::read_button(visit, answer, "Enter it"))
                        }
                    }
                }
                @if unknown.len() > SHOWN { p class="nothing" { "and " (unknown.len() - SHOWN) " more." } }
            }
        }
    }
}

/// A reading to take, with what covers it and when.
type Due<'a> = (Option<Cover>, &'a ToRead);

/// The readings to take this week, what is covered first before the others, and those that can wait.
fn to_take(visit: &Visit) -> (Vec<Due<'_>>, Vec<Due<'_>>) {
    let fit = &visit.picture.fit;
    // What nobody can tell stands in a list of its own, with whom to ask.
    let told =
        |to_read: &&ToRead| to_read.measure.telling.is_some() || to_read.measure.before.is_some();
    let mut all: Vec<Due<'_>> = fit
        .measure
        .iter()
        .filter(told)
        .map(|to_read| {
            let before = to_read.measure.before.as_ref();
            (
                before.and_then(|before| dates::cover(visit, before)),
                to_read,
            )
        })
        .collect();
    all.sort_by_key(|(cover, _)| cover.as_ref().map_or(Tick::MAX, |cover| cover.start));
    let until = dates::in_days(visit, WEEK);
    let is_due = |cover: &Option<Cover>| cover.as_ref().is_none_or(|cover| cover.start <= until);
    all.into_iter().partition(|(cover, _)| is_due(cover))
}

/// What to measure, what is covered this week first.
fn measure(visit: &Visit) -> Markup {
    let (due, later) = to_take(visit);
    html! {
        section class="part" aria-labelledby="measure" {
            h2 id="measure" { "Measure this week" }
            @if due.is_empty() {
                p class="nothing" { "No reading that matters is lost this week." }
            }
            ul class="rows plain" {
                @for (cover, to_read) in due.iter().take(SHOWN) { (to_measure(visit, cover.as_ref(), to_read)) }
            }
            @if !later.is_empty() {
                details class="fold" {
                    summary { (say::counted(later.len(), "reading", "readings")) " that can wait" }
                    ul class="rows plain" {
                        @for (cover, to_read) in later.iter().take(40) { (to_measure(visit, cover.as_ref(), to_read)) }
                    }
                }
            }
        }
    }
}

fn to_measure(visit: &Visit, cover: Option<&Cover>, to_read: &ToRead) -> Markup {
    let measure = &to_read.measure;
    let need = measure.needs.first().map_or("", String::as_str);
    html! {
        li class="row" {
            div class="row-words" {
                h3 class="row-name" { (upper_first(&measure.what)) }
                p class="row-why" {
                    @if let Some(cover) = cover { b { (cover.before(visit)) } " " }
                    (say::counted(measure.needs.len(), "fit hangs", "fits hang")) " on it. "
                    @if let Some(take) = &to_read.take { (take.with) }
                }
            }
            @if let Some(take) = &to_read.take {
                div class="row-do" {
                    a class="can" href=(row::to_read(visit, take, need)) {
                        "Enter it" span class="said" { ": " (measure.what) }
                    }
                }
            }
        }
    }
}

/// Readings that disagree, and those that cannot be used.
fn doubts(visit: &Visit) -> Markup {
    let fit = &visit.picture.fit;
    html! {
        @if !fit.doubts.is_empty() || !fit.unused.is_empty() {
            section class="part" aria-labelledby="doubts" {
                h2 id="doubts" { "In doubt" }
                ul class="rows plain" {
                    @for doubt in fit.doubts.iter().take(SHOWN) {
                        li class="row" {
                            div class="row-words" { p { (doubt.said) } }
                            @if let Some(take) = &doubt.take {
                                div class="row-do" {
                                    a class="can" href=(row::to_read(visit, take, "")) {
                                        "Read it again" span class="said" { ": " (take.asked) }
                                    }
                                }
                            }
                        }
                    }
                    @for (_, why) in fit.unused.iter().take(SHOWN) {
                        li class="row" { div class="row-words" { p { (why) } } }
                    }
                }
            }
        }
    }
}

fn set_by(visit: &Visit) -> Markup {
    let fit = &visit.picture.fit;
    html! {
        @if !fit.set_outs.is_empty() {
            section class="part" aria-labelledby="set" {
                h2 id="set" { "Set by" }
                @let (open, more) = fit.set_outs.split_at(fit.set_outs.len().min(4));
                ul class="reasons" { @for (_, said) in open { li { (said) } } }
                @if !more.is_empty() {
                    details class="fold" {
                        summary { (more.len()) " more to set" }
                        ul class="reasons" { @for (_, said) in more.iter().take(60) { li { (said) } } }
                    }
                }
            }
        }
    }
}

/// Sheets of openings, flights and planes.
fn sheets(visit: &Visit) -> Markup {
    let fit = &visit.picture.fit;
    let job = &visit.picture.job;
    let place = |id: &grounds_model::Id| {
        job.places
            .get(id)
            .map_or_else(|| id.to_string(), |place| place.name.clone())
    };
    html! {
        @if !(fit.openings.is_empty() && fit.stairs.is_empty() && fit.planes.is_empty()) {
            section class="part" aria-labelledby="sheets" {
                h2 id="sheets" { "Sheets to take along" }
                ul class="links" {
                    @for id in fit.planes.keys() {
                        @let name = job.controls.get(id).map_or("", |control| &control.name);
                        li { a href=(visit.to(&format!("fit/plane/{id}"))) { (name) } " with its shims" }
                    }
                    @for id in fit.stairs.keys() {
                        li { a href=(visit.to(&format!("fit/stair/{id}"))) { (place(id)) } ", rise by rise" }
                    }
                    @for (id, sheet) in fit.openings.iter().filter(|(_, sheet)| sheet.is_read()) {
                        li { a href=(visit.to(&format!("fit/opening/{id}"))) { (sheet.name) } ", as read" }
                    }
                }
                @let unread = fit.openings.values().filter(|sheet| !sheet.is_read()).count();
                @if unread > 0 {
                    details class="fold" {
                        summary { (say::counted(unread, "opening", "openings")) " nobody has put a tape to" }
                        ul class="links" {
                            @for (id, sheet) in fit.openings.iter().filter(|(_, sheet)| !sheet.is_read()).take(60) {
                                li { a href=(visit.to(&format!("fit/opening/{id}"))) { (sheet.name) } }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// One sentence for other pages while something fails; nothing otherwise.
pub(crate) fn in_one_sentence(visit: &Visit) -> Option<String> {
    let failing: Vec<&Answer> = dates::soonest_first(visit)
        .into_iter()
        .filter(|answer| answer.verdict == Verdict::Fails)
        .collect();
    let names: Vec<String> = failing
        .iter()
        .take(2)
        .map(|answer| thing(visit, answer))
        .collect();
    let more = failing.len().saturating_sub(names.len());
    let all = match more {
        0 => grounds_sequence::words::join(&names),
        n => format!("{} and {} more", names.join(", "), count(n)),
    };
    match failing.len() {
        0 => None,
        1 => Some(format!("One fit is in trouble: {all}.")),
        n => Some(format!(
            "{} fits are in trouble: {all}.",
            upper_first(&count(n))
        )),
    }
}

/// What a need is about, for the middle of a sentence.
fn thing(visit: &Visit, answer: &Answer) -> String {
    let job = &visit.picture.job;
    let about = answer.about.as_str();
    let piece = job.pieces.get(about).map(|piece| piece.name.as_str());
    let place = job.places.get(about).map(|place| place.name.as_str());
    match piece.or(place) {
        Some(name) => grounds_site::words::with_article(name),
        None => grounds_sequence::words::lower_first(&answer.name),
    }
}

pub(crate) use shown::of_work;
