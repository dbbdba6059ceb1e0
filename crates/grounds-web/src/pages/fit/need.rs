//! One need: where it lands, drawn to scale, and everything that is known of it.

use grounds_draw::{Medium, Scale, Section, fit_section, on_every_medium};
use grounds_lines::answers::{Answer, Verdict};
use maud::{Markup, PreEscaped, html};

use super::{changed, dates, holds_up, row, working};
use crate::{
    fit::{Facts, Onto},
    pages::cautions,
    visit::Visit,
};

/// The page of a need; nothing for a key that there is none of.
pub(crate) fn need(visit: &Visit, key: &str) -> Option<Markup> {
    let (answer, facts) = visit.picture.fit.need(key)?;
    let units = visit.picture.job.job.units;
    Some(html! {
        article class="need" {
            header class="opening" {
                p class="place-line" { (place_line(visit, facts)) (answer.name) }
                h1 { (headline(answer, facts)) }
                p class="lead" { (answer.said) }
            }
            (changed::changed(visit, Some(key)))
            (drawn(visit, facts))
            div class="columns" {
                div {
                    (measure_first(visit, answer, facts))
                    (set_by(facts))
                    (holds_up::part(visit, key, facts.holdup.as_ref()))
                    (clashes(visit, key))
                    (care(visit, answer))
                }
                div {
                    (working::shares(answer))
                    (working::working(answer, units))
                    (onward(visit, answer, facts))
                }
            }
        }
    })
}

fn place_line(visit: &Visit, facts: &Facts) -> String {
    let job = &visit.picture.job;
    let place = facts.place.as_ref().and_then(|id| job.places.get(id));
    place.map_or_else(String::new, |place| format!("{} · ", place.name))
}

/// What to do, or that nothing needs to be done.
fn headline(answer: &Answer, facts: &Facts) -> String {
    match (&facts.advice, answer.verdict) {
        (Some(advice), _) => advice.clone(),
        (None, Verdict::Holds) => format!("{}: it holds.", answer.name),
        (None, Verdict::Tight) => format!("{}: tight. Measure before it is covered.", answer.name),
        (None, _) => format!("{}: it will not come right.", answer.name),
    }
}

/// The sections to scale with their files, else the larger picture of where it lands.
fn drawn(visit: &Visit, facts: &Facts) -> Markup {
    html! {
        @if !facts.sections.is_empty() {
            div class=(if facts.sections.len() > 1 { "sections two" } else { "sections" }) {
                @for section in &facts.sections { (section_on_every_medium(section, Scale::Full)) }
            }
        } @else if facts.bands.is_some() && !has_sheet(facts) {
            figure class="bands-large" {
                (row::picture(facts))
                figcaption { "Wanted " (facts.wanted) "." }
            }
        }
        @match &facts.sheet {
            Some(Onto::Stair(id)) => {
                @if let Some(layout) = visit.picture.fit.stairs.get(id) {
                    (PreEscaped(on_every_medium(Scale::Fifth, |medium| grounds_draw::stair_layout(layout, medium))))
                }
            },
            Some(Onto::Opening(id)) => {
                @if let Some(sheet) = visit.picture.fit.openings.get(id) {
                    (PreEscaped(on_every_medium(Scale::Fifth, |medium| grounds_draw::opening_sheet(&sheet.found().drawn, medium))))
                }
            },
            Some(Onto::Plane(_)) | None => {}
        }
    }
}

/// Whether a sheet of its own is drawn in place of the small picture.
fn has_sheet(facts: &Facts) -> bool {
    matches!(facts.sheet, Some(Onto::Stair(_) | Onto::Opening(_)))
}

fn section_on_every_medium(section: &Section, scale: Scale) -> Markup {
    PreEscaped(on_every_medium(scale, |medium: Medium| {
        fit_section(section, medium)
    }))
}

/// What to read, with what, and until when.
fn measure_first(visit: &Visit, answer: &Answer, facts: &Facts) -> Markup {
    let fit = &visit.picture.fit;
    let told = fit
        .measure
        .iter()
        .find(|to_read| to_read.measure.needs.contains(&answer.key));
    let first = told
        .and_then(|to_read| to_read.take.as_ref())
        .or(facts.takes.first());
    let Some(first) = first else {
        return html! {
            section class="part" aria-labelledby="first" {
                h2 id="first" { "Measure first" }
                p class="nothing" { "Nothing more can be read today: what it is made of is read already, or not there yet." }
            }
        };
    };
    let cover = told
        .and_then(|to_read| to_read.measure.before.as_ref())
        .and_then(|before| dates::cover(visit, before));
    let gain = told.and_then(|to_read| {
        let mut changes = to_read.measure.changes.iter();
        changes.find(|(key, ..)| *key == answer.key)
    });
    let rest = facts.takes.iter().filter(|take| *take != first).count();
    html! {
        section class="part" aria-labelledby="first" {
            h2 id="first" { "Measure first" }
            p {
                (grounds_sequence::words::upper_first(&first.asked)) ". "
                @if let Some((_, now, then)) = gain { (surer(visit, *now, *then)) " " }
                @if let Some(cover) = &cover { b { (cover.before(visit)) } }
            }
            p class="soft" { (first.with) }
            p class="go" {
                a class="do" href=(row::to_read(visit, first, &answer.key)) {
                    "Enter a reading" span class="said" { ": " (first.asked) }
                }
            }
            @if rest > 0 {
                details class="fold" {
                    summary { "Something else was read" }
                    ul class="links" {
                        @for take in facts.takes.iter().filter(|take| *take != first) {
                            li { a href=(row::to_read(visit, take, &answer.key)) {
                                (grounds_sequence::words::upper_first(&take.asked))
                            } }
                        }
                    }
                }
            }
        }
    }
}

/// By how much a reading would narrow it.
fn surer(visit: &Visit, now: f64, then: f64) -> Markup {
    let units = visit.picture.job.job.units;
    let half = |spread: f64| grounds_lines::said::length(1.96 * spread, units);
    html! { "It would narrow this from ±" (half(now)) " to " b { "±" (half(then)) } "." }
}

fn set_by(facts: &Facts) -> Markup {
    html! {
        @if !facts.set_by.is_empty() {
            section class="part" aria-labelledby="set-by" {
                h2 id="set-by" { "Set by" }
                ul class="reasons" { @for said in &facts.set_by { li { (said) } } }
            }
        }
    }
}

/// Needs that cannot all be met together with this one.
fn clashes(visit: &Visit, key: &str) -> Markup {
    let clashes = visit.picture.fit.clashes.iter();
    let here: Vec<&String> = clashes
        .filter(|(needs, _)| needs.len() > 1 && needs.iter().any(|need| need == key))
        .map(|(_, said)| said)
        .collect();
    html! {
        @if !here.is_empty() {
            section class="part" aria-labelledby="clash" {
                h2 id="clash" { "Does not go together" }
                @for said in here { p { (said) } }
            }
        }
    }
}

/// The files and sheets of a need.
fn onward(visit: &Visit, answer: &Answer, facts: &Facts) -> Markup {
    let address = row::address(visit, &answer.key);
    let work = visit.picture.outlook.network.find(answer.about.as_str());
    let task = work.and_then(|id| visit.picture.outlook.network.task(id));
    html! {
        section class="part screen-only" aria-labelledby="onward" {
            h2 id="onward" { "Take it along" }
            ul class="links" {
                @for (index, section) in facts.sections.iter().enumerate() {
                    @let which = if facts.sections.len() > 1 {
                        format!(" of {}", section.title)
                    } else {
                        String::new()
                    };
                    li {
                        "Section" (which) " to print at "
                        @for (at, scale) in Scale::ALL.iter().enumerate() {
                            @if at > 0 { " · " }
                            a class="scale" href=(format!("{address}/paper?at={}&n={index}", scale.words())) { (scale.words()) }
                        }
                    }
                    li {
                        a href=(format!("{address}/section.dxf?n={index}")) download { "Section" (which) " for the shop" }
                        ", full size in millimetres (DXF)"
                    }
                }
                @match &facts.sheet {
                    Some(Onto::Opening(id)) => li { a href=(visit.to(&format!("fit/opening/{id}"))) { "The opening, tape by tape" } },
                    Some(Onto::Stair(id)) => li { a href=(visit.to(&format!("fit/stair/{id}"))) { "The flight, rise by rise" } },
                    Some(Onto::Plane(id)) => li { a href=(visit.to(&format!("fit/plane/{id}"))) { "Everything in that plane, with its shims" } },
                    None => {}
                }
                @if let Some(task) = task {
                    li { a href=(visit.to_work(&task.key)) { "When it is set, and what it waits for" } }
                }
            }
        }
    }
}

/// Where hands go near something that can hurt.
fn care(visit: &Visit, answer: &Answer) -> Markup {
    let piece = visit.picture.job.pieces.get(answer.about.as_str());
    let lines = piece.map_or_else(Vec::new, cautions::of_piece);
    html! {
        @if !lines.is_empty() {
            section class="part" aria-labelledby="care" {
                h2 id="care" { "Take care" }
                @for line in &lines { p { (line) } }
                p class="soft" { (cautions::LOCAL_CODE) }
            }
        }
    }
}
