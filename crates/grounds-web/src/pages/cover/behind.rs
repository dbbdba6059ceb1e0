//! Behind the wall: what is behind a face, from the finish inwards, by place or by asking.

use grounds_cover::{BEFORE_DRILLING, BehindFace, Found, Part, PartOf, behind as of_place, find};
use grounds_model::Id;
use grounds_sequence::words::upper_first;
use grounds_site::Subject;
use maud::{Markup, PreEscaped, html};

use super::{photos, words};
use crate::{
    marks, say,
    visit::{Visit, encode},
};

/// The page.
pub(crate) fn behind(visit: &Visit) -> Markup {
    let job = &visit.picture.job;
    let place = visit
        .asked("place")
        .map(Id::from)
        .filter(|id| job.places.contains_key(id));
    let ask = visit.asked("ask").map(|ask| say::cut(ask, 200));
    let found = found(visit, place.as_ref(), ask.as_deref());
    html! {
        header class="opening" {
            p class="place-line" { a href=(visit.to("cover")) { "Cover" } }
            h1 { (headline(&found, place.is_some() || ask.is_some())) }
            @if !found.not_known.is_empty() {
                p class="lead" { "Nothing in the job is called “" (found.not_known.join("”, “")) "”." }
            }
            p class="notice" { (BEFORE_DRILLING) }
        }
        form class="form ask-behind" method="get" action=(visit.to("behind")) {
            div class="field" {
                label for="ask" { "What are you looking for?" }
                input id="ask" name="ask" type="search" maxlength="200" value=[ask.as_deref()]
                    placeholder="pipe in the shower" enterkeyhint="search";
            }
            div class="field" {
                label for="place" { "Where" }
                select id="place" name="place" {
                    option value="" { "The whole house" }
                    @for (id, each) in &job.places {
                        option value=(id) selected[Some(id) == place.as_ref()] { (each.name) }
                    }
                }
            }
            p class="form-do" { button class="do" { "Look" } }
        }
        @for face in &found.faces { (one(visit, face, &found)) }
    }
}

fn found(visit: &Visit, place: Option<&Id>, ask: Option<&str>) -> Found {
    let picture = &visit.picture;
    match (ask, place) {
        (Some(ask), place) => find(&picture.job, &picture.site, ask, place),
        (None, Some(place)) => Found {
            faces: of_place(&picture.job, &picture.site, place),
            ..Found::default()
        },
        (None, None) => Found::default(),
    }
}

fn headline(found: &Found, was_asked: bool) -> String {
    match (found.faces.as_slice(), was_asked) {
        ([], false) => "What is behind the wall?".to_owned(),
        ([], true) => "Nothing was found; try other words.".to_owned(),
        ([face], _) => format!(
            "Behind {}",
            grounds_sequence::words::lower_first(&face.name)
        ),
        (faces, _) => format!("Behind {}", say::counted(faces.len(), "face", "faces")),
    }
}

/// One face.
fn one(visit: &Visit, face: &BehindFace, found: &Found) -> Markup {
    let drawn = marks::face(&visit.picture, &face.place, &face.face);
    let anchor = format!("{}-{}", face.place, face.face);
    html! {
        section class="part behind" aria-labelledby=(anchor) {
            h2 id=(anchor) { (face.name) }
            div class="columns" {
                div {
                    ol class="checks" {
                        @for part in &face.parts {
                            li class=[part.evidence.done.is_some().then_some("seen")] {
                                @if is_asked(found, part) { mark { (upper_first(&part.name)) } } @else { b { (upper_first(&part.name)) } }
                                ": " (words(visit).part(part).join(", ")) "."
                                (photos::strip(visit, &part.evidence.photos))
                            }
                        }
                    }
                    @for id in &face.holds {
                        @if let Some(hold) = visit.picture.job.holds.get(id) {
                            p class="row-why" {
                                a href=(visit.to(&format!("cover/hold/{}", encode(id.as_str(), "")))) { (hold.name) }
                                ": " (words(visit).hold_in_short(id)) "."
                            }
                        }
                    }
                }
                @if let Some(drawn) = drawn {
                    figure class="face" {
                        figcaption { "Section: " (drawn.name) }
                        (PreEscaped(grounds_draw::stack_section(&drawn)))
                    }
                }
            }
        }
    }
}

fn is_asked(found: &Found, part: &Part) -> bool {
    let subject = match &part.of {
        PartOf::Layer(key) => Subject::Layer(key.clone()),
        PartOf::Piece(id) => Subject::Piece(id.clone()),
    };
    found.things.contains(&subject)
}
