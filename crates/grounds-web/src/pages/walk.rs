//! Walk: the house place by place, in the order in which somebody walks it. The script of the page
//! makes the same of it from what the phone knows, and goes on without a signal.

use grounds_model::Id;
use grounds_sequence::words::upper_first;
use grounds_site::walking_order;
use maud::{Markup, PreEscaped, html};

use crate::{
    marks,
    pages::frame::without_wrote,
    say,
    visit::{Visit, encode},
    walking::{Face, How, Layer, Place, Sort, Standing, Thing},
};

/// The page with its title; nothing where the place that is asked for is not there.
pub(crate) fn walk(visit: &Visit) -> Option<(String, Markup)> {
    let order = walking_order(&visit.picture.job);
    let inside = match visit.asked("place") {
        None => ("Walk".to_owned(), list(visit, &order)),
        Some(key) => {
            let at = order.iter().position(|id| id.as_str() == key)?;
            let place = Place::of(visit, order.get(at)?)?;
            (place.name.clone(), one(visit, &order, at, &place))
        }
    };
    let (title, inside) = inside;
    let who = (visit.who != crate::visit::NOBODY_SAID).then_some(&visit.who);
    let inside = html! {
        div class="walk" data-walk=(visit.key) data-who=[who] { (inside) }
        @if visit.asked("place").is_none() {
            p class="onward" { a class="can" href=(visit.to("walks")) { "What was said on walks" } }
        }
    };
    Some((title, inside))
}

/// All places, by level.
fn list(visit: &Visit, order: &[Id]) -> Markup {
    let places: Vec<Place> = order.iter().filter_map(|id| Place::of(visit, id)).collect();
    let levels = places.chunk_by(|a, b| a.level == b.level);
    html! {
        header class="opening" {
            h1 { (say::counted(places.len(), "place", "places")) ", in the order you walk them." }
        }
        @for level in levels {
            section class="part" {
                h2 { (level.first().map_or("", |place| place.level.as_str())) }
                ul class="rows plain" {
                    @for place in level {
                        li class="row" {
                            a class="walk-to" href=(address(visit, &place.key)) {
                                b { (place.name) } " "
                                span class="row-why" { (upper_first(&place.next)) }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn address(visit: &Visit, key: &str) -> String {
    visit.to(&format!("walk?place={}", encode(key, "")))
}

/// One place.
fn one(visit: &Visit, order: &[Id], at: usize, place: &Place) -> Markup {
    let name = |at: Option<usize>| {
        let id = order.get(at?)?;
        let design = visit.picture.job.places.get(id)?;
        Some((id.as_str(), design.name.as_str()))
    };
    html! {
        header class="opening" {
            p class="place-line" { (place.level) " · " (at + 1) " of " (order.len()) }
            h1 { (place.name) }
            p class="lead soft" { (upper_first(&place.next)) "." }
        }
        @for one in &place.faces { (face(visit, place, one)) }
        (things(visit, place))
        (remark(visit, place))
        nav class="route" aria-label="Places" {
            @match name(at.checked_sub(1)) {
                Some((key, name)) => a href=(address(visit, key)) rel="prev" { "‹ " (name) },
                None => span {},
            }
            a href=(visit.to("walk")) { "All" span class="said" { " places" } }
            @match name(Some(at + 1)) {
                Some((key, name)) => a href=(address(visit, key)) rel="next" { (name) " ›" },
                None => span {},
            }
        }
    }
}

fn face(visit: &Visit, place: &Place, face: &Face) -> Markup {
    let (on, open): (Vec<&Layer>, Vec<&Layer>) = face
        .layers
        .iter()
        .partition(|layer| layer.how.is == Standing::Done);
    let mark = |face: &Face| {
        let (here, key) = face.about.split_once('.')?;
        marks::face(&visit.picture, &here.into(), &key.into())
    };
    html! {
        section class="part" {
            h2 { (face.name) }
            @if let Some(drawn) = mark(face) {
                div class="walk-stack" {
                    (PreEscaped(grounds_draw::stack_mark(&face.name, &drawn.layers)))
                    p class="soft" { (on.len()) " of " (face.layers.len()) " on" }
                }
            }
            ul class="walk-rows" {
                @for layer in open { (row(visit, &about(face, layer), Sort::Layer, &layer.design.name, &layer.how, &place.name)) }
            }
            @if !on.is_empty() {
                details class="fold" {
                    summary { "On: " (say::counted(on.len(), "layer", "layers")) span class="said" { ", " (face.name) } }
                    ul class="walk-rows" {
                        @for layer in on { (row(visit, &about(face, layer), Sort::Layer, &layer.design.name, &layer.how, &place.name)) }
                    }
                }
            }
        }
    }
}

fn about(face: &Face, layer: &Layer) -> String {
    format!("{}/{}", face.about, layer.design.id)
}

fn things(visit: &Visit, place: &Place) -> Markup {
    let of = |sort: Sort| place.things.iter().filter(move |thing| thing.sort == sort);
    let part = |sort: Sort, title: &str| {
        let mut all: Vec<&Thing> = of(sort).collect();
        all.sort_by_key(|thing| thing.how.is == Standing::Done);
        html! {
            @if !all.is_empty() {
                section class="part" {
                    h2 { (title) }
                    ul class="walk-rows" {
                        @for thing in all {
                            (row(visit, &thing.about, sort, &thing.name, &thing.how, &place.name))
                        }
                    }
                }
            }
        }
    };
    html! {
        (part(Sort::Hold, "Tests and inspections"))
        (part(Sort::Piece, "Pieces"))
        (part(Sort::Opening, "Openings"))
    }
}

/// One thing: its name, how far it is, and what can be said of it with one press.
fn row(visit: &Visit, about: &str, sort: Sort, name: &str, how: &How, place: &str) -> Markup {
    html! {
        li class="walk-row" {
            p class="walk-name" { b { (name) } " " span class="row-why" { (how.say) } }
            @if let Some(trouble) = &how.trouble { p class="walk-trouble" { (trouble) } }
            @if !sort.taps(how.is).is_empty() {
                form class="taps" method="post" action=(visit.to("walk")) data-act {
                    input type="hidden" name="about" value=(about);
                    input type="hidden" name="once" value=(visit.once);
                    input type="hidden" name="back" value=(without_wrote(&visit.path));
                    @for tap in sort.taps(how.is) {
                        button name="kind" value=(tap.0.word()) {
                            (tap.1) span class="said" { ": " (name) ", " (place) }
                        }
                    }
                }
            }
        }
    }
}

/// Words about the place.
fn remark(visit: &Visit, place: &Place) -> Markup {
    html! {
        details class="fold" {
            summary { "Words about " (place.name) }
            form class="form" method="post" action=(visit.to("walk")) data-act {
                input type="hidden" name="about" value=(place.key);
                input type="hidden" name="once" value=(visit.once);
                input type="hidden" name="back" value=(without_wrote(&visit.path));
                div class="field" {
                    label for="place-words" { "In your words" }
                    textarea id="place-words" name="words" rows="2" maxlength="2000" required {}
                }
                p class="form-do" {
                    button class="do" name="kind" value="remark" { "Write it down" }
                    button class="can" name="kind" value="problem" { "It is in the way" }
                }
            }
        }
    }
}
