//! Rules: what the trade and the building code would not pass, what nobody can tell, and what is as
//! it should be.

mod drawn;
mod holds_up;
mod index;
mod one;
mod row;
mod shown;
mod work_out;

use grounds_model::Id;
use grounds_rules::{Verdict, house::Applied};
use grounds_sequence::words::{count, upper_first};
use maud::{Markup, html};

use crate::{say, visit::Visit};

pub(crate) use index::index;
pub(crate) use one::one;
pub(crate) use work_out::work_out;

/// Open questions that stand in the open.
const OPEN: usize = 8;

/// The page.
pub(crate) fn rules(visit: &Visit) -> Markup {
    let rules = &visit.picture.rules;
    html! {
        header class="opening" {
            p class="place-line" { (rules.code.title) ", " (rules.code.edition) }
            h1 { (headline(visit)) }
            p class="lead" { (lead(visit)) }
        }
        div class="columns fit-columns" {
            div { (failing(visit)) }
            div { (unknown(visit)) }
        }
        (passing(visit))
        (changes(visit))
    }
}

/// What is not kept.
fn headline(visit: &Visit) -> String {
    let rules = &visit.picture.rules;
    match rules.count(Verdict::Fails) {
        0 if rules.applied.is_empty() => "No rule speaks of this job yet.".to_owned(),
        0 => "Every rule that can be told is kept.".to_owned(),
        1 => "One rule is not kept.".to_owned(),
        n => format!("{} rules are not kept.", upper_first(&count(n))),
    }
}

fn lead(visit: &Visit) -> Markup {
    let rules = &visit.picture.rules;
    let (unknown, passes) = (
        rules.count(Verdict::CannotTell),
        rules.count(Verdict::Passes),
    );
    html! {
        @if unknown > 0 {
            a href="#unknown" { (upper_first(&count(unknown))) " nobody can tell yet" } ". "
        }
        @if passes > 0 {
            a href="#passes" { (passes) (if passes == 1 { " is kept" } else { " are kept" }) } ". "
        }
        a href=(visit.to("rules/work-out")) { "Work one out" } " with figures of your own."
    }
}

/// What is not kept, by place: what bites soonest first.
fn failing(visit: &Visit) -> Markup {
    let picture = &visit.picture;
    let all = picture.rules.all();
    let groups = grounds_settle::failing(&picture.job, &picture.site, &picture.outlook, all);
    html! {
        section class="part" aria-labelledby="fails" {
            h2 id="fails" { "Not kept" }
            @if groups.is_empty() { p class="nothing" { "Nothing is against a rule." } }
            @for group in &groups {
                h3 class="trade" { (place_name(visit, group.place.as_ref())) }
                ul class="rows plain" {
                    @for (applied, bites) in &group.rules { (row::failing(visit, applied, *bites)) }
                }
            }
        }
    }
}

/// What nobody can tell yet: the figure, who has it and until when, what bites soonest first.
fn unknown(visit: &Visit) -> Markup {
    let picture = &visit.picture;
    let all = picture.rules.all();
    let rows = grounds_settle::unknown(&picture.job, &picture.site, &picture.outlook, all);
    html! {
        @if !rows.is_empty() {
            section class="part" aria-labelledby="unknown" {
                h2 id="unknown" { "Nobody can tell yet" }
                @let (open, more) = rows.split_at(rows.len().min(OPEN));
                ul class="rows plain" { @for alike in open { (row::unknown(visit, alike)) } }
                @if !more.is_empty() {
                    details class="fold" {
                        summary { (say::counted(more.len(), "more", "more")) }
                        ul class="rows plain" { @for alike in more { (row::unknown(visit, alike)) } }
                    }
                }
            }
        }
    }
}

/// What is kept, folded by place.
fn passing(visit: &Visit) -> Markup {
    let groups = visit
        .picture
        .rules
        .by_place(&visit.picture.job, Verdict::Passes);
    html! {
        @if !groups.is_empty() {
            section class="part" aria-labelledby="passes" {
                h2 id="passes" { "Kept" }
                @for (place, group) in &groups {
                    details class="fold level-fold" {
                        summary {
                            b { (place_name(visit, place.as_ref())) } " "
                            span class="soft" { (say::counted(group.len(), "rule", "rules")) }
                        }
                        ul class="rows plain" { @for (key, applied) in group { (row::passing(visit, key, applied)) } }
                    }
                }
            }
        }
    }
}

/// Limits of the code that are changed for the job.
fn changes(visit: &Visit) -> Markup {
    let changes = &visit.picture.rules.code.changes;
    html! {
        @if !changes.is_empty() {
            section class="part" aria-labelledby="changed" {
                h2 id="changed" { "Changed for this job" }
                ul class="reasons" {
                    @for (key, change) in changes {
                        li { (upper_first(&key.replace('-', " "))) ": " b { (change.is) } ". " (change.why) }
                    }
                }
            }
        }
    }
}

/// The way here from the end of another page.
pub(crate) fn way_here(visit: &Visit) -> Markup {
    let failing = visit.picture.rules.count(Verdict::Fails);
    html! {
        section class="part" aria-labelledby="rules" {
            h2 id="rules" { "Rules" }
            p {
                a href=(visit.to("rules")) {
                    @match failing {
                        0 => "What the trade and the code ask for",
                        1 => "One rule of the trade or the code is not kept",
                        n => { (upper_first(&count(n))) " rules of the trade or the code are not kept" },
                    }
                }
                ", each with its working and its source."
            }
            p { a href=(visit.to("rules/work-out")) { "Work one out" } " with figures of your own." }
        }
    }
}

fn place_name<'a>(visit: &'a Visit, place: Option<&Id>) -> &'a str {
    place
        .and_then(|id| visit.picture.job.places.get(id))
        .map_or("The whole house", |place| place.name.as_str())
}

/// What an answer says: its first sentence, and the rest of it.
fn in_two(applied_said: &str) -> (&str, &str) {
    match applied_said.find(". ") {
        Some(at) => {
            let (first, rest) = applied_said.split_at(at + 1);
            (first, rest.trim_start())
        }
        None => (applied_said, ""),
    }
}

/// The address of the page of a rule in a house.
pub(crate) fn address(visit: &Visit, key: &str) -> String {
    let (rule, about) = key.split_once('/').unwrap_or((key, ""));
    visit.to(&format!(
        "rules/{}/{}",
        crate::visit::encode(rule, ""),
        crate::visit::encode(about, ".:")
    ))
}

/// The note that lets what a rule is about go on as it is, in words.
fn goes_on(visit: &Visit, applied: &Applied) -> Option<String> {
    let decided = grounds_settle::rule_goes_on(&visit.picture.site, applied)?;
    Some(holds_up::let_go(visit, decided.note))
}
