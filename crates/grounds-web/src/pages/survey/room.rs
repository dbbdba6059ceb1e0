//! One room of the survey: each face as a stack to tap.

use grounds_draw::{Layer as Drawn, State as How, Trouble};
use grounds_model::{Face, FaceKind, Id, LayerKey, Piece};
use grounds_sequence::words::upper_first;
use grounds_site::{State, Subject};
use grounds_survey::{
    Reach,
    mark::{Mark, reach},
    several,
};
use maud::{Markup, PreEscaped, html};

use super::{hidden, name_of, onward, site, taken};
use crate::{marks, say, visit::Visit};

/// Rooms that a room can be marked like, at most.
const LIKE: usize = 4;

/// Said of what is presumed.
const BEHIND: &str = "behind, not seen";

/// The page of a room; nothing where there is no such place.
pub(crate) fn room(visit: &Visit, place: &str) -> Option<Markup> {
    let (job, _) = site(visit);
    let (key, design) = job.places.get_key_value(place)?;
    let faces: Vec<(&Id, &Face)> = design.faces.iter().collect();
    let level = job.levels.get(&design.level).map(|level| &level.name);
    Some(html! {
        header class="opening" {
            p class="place-line" {
                a href=(visit.to("survey")) { "Survey" }
                @if let Some(level) = level { " · " (level) }
            }
            h1 { (design.name) ": " (how_far(visit, key)) }
            p class="lead soft" { "Tap the outermost thing that is there." }
        }
        (taken(visit))
        (like(visit, key))
        div class="survey-faces" {
            @for (face, design) in &faces { (face_part(visit, key, face, design)) }
        }
        (pieces(visit, key))
        div class="survey-next" {
            (onward(visit, Some(key)))
            p { a href=(visit.to("survey")) { "All places" } }
        }
    })
}

fn how_far(visit: &Visit, place: &Id) -> String {
    let (job, site) = site(visit);
    let looked = grounds_survey::progress::in_place(job, site, place);
    match looked.of - looked.faces {
        0 => "looked at.".to_owned(),
        left if left == looked.of => {
            format!("{} to look at.", say::counted(left, "face", "faces"))
        }
        left => format!(
            "{left} of {} to go.",
            say::counted(looked.of, "face", "faces")
        ),
    }
}

/// Rooms like this one that are marked already, while this one is not.
fn like(visit: &Visit, place: &Id) -> Markup {
    let (job, site) = site(visit);
    let looked = grounds_survey::progress::in_place(job, site, place);
    let rooms = several::rooms_like(job, site, place);
    html! {
        @if !rooms.is_empty() && !looked.is_all() {
            form class="survey-like" id="like" method="post" action=(visit.to("survey/mark")) data-act {
                (hidden(visit))
                input type="hidden" name="place" value=(place);
                @for (from, faces) in rooms.iter().take(LIKE) {
                    button class="can" name="from" value=(from) {
                        "Same as " (name_of(job, from))
                        span class="soft" { " " (faces) " of " (say::counted(looked.of, "face", "faces")) }
                    }
                }
            }
        }
    }
}

fn face_part(visit: &Visit, place: &Id, face: &Id, design: &Face) -> Markup {
    let (job, site) = site(visit);
    let keys = job.layers_of(place, face);
    let now = reach(job, site, place, face);
    let name = design
        .name
        .clone()
        .unwrap_or_else(|| face.as_str().replace('-', " "));
    let build_up = job.build_up(design).map_or("", |it| it.name.as_str());
    let id = format!("f-{face}");
    html! {
        @if !keys.is_empty() {
            section class="survey-face" aria-labelledby=(id) {
                h2 id=(id) { (upper_first(&name)) " " span class="soft" { (build_up) } }
                p class="survey-now" { (said(visit, &keys, now.as_ref())) }
                form method="post" action=(visit.to("survey/mark")) data-act {
                    (hidden(visit))
                    input type="hidden" name="place" value=(place);
                    input type="hidden" name="face" value=(face);
                    (alike(visit, place, face, design))
                    div class="survey-stack" role="group" aria-label=(name) {
                        (tap(&id, "nothing", now == Some(Reach::Nothing), &html! { "Nothing yet" }, ""))
                        @for (at, key) in keys.iter().enumerate() {
                            (layer_tap(visit, &id, &keys, at, key, now.as_ref()))
                        }
                        (tap(&id, "unknown", now == Some(Reach::Unknown), &html! { "Cannot see" }, ""))
                    }
                }
            }
        }
    }
}

fn tap(id: &str, value: &str, is_now: bool, inside: &Markup, said: &str) -> Markup {
    let class = if said == BEHIND {
        "survey-tap behind"
    } else {
        "survey-tap"
    };
    let plain: String = value
        .chars()
        .map(|c| if c.is_ascii_alphanumeric() { c } else { '-' })
        .collect();
    html! {
        button id={ (id) "-" (plain) } class=(class) name="reach" value=(value) aria-pressed=(is_now) {
            (inside)
            @if !said.is_empty() { span class="soft" { (said) } }
        }
    }
}

/// A layer as a bar to tap, with the section as it would be if this were the outermost.
fn layer_tap(
    visit: &Visit,
    id: &str,
    keys: &[LayerKey],
    at: usize,
    key: &LayerKey,
    now: Option<&Reach>,
) -> Markup {
    let (job, site) = site(visit);
    let state = site.state(&Subject::Layer(key.clone()));
    let is_now = now == Some(&Reach::UpTo(key.layer.clone()));
    let name = job.layer(key).map_or("", |layer| layer.name.as_str());
    let drawn = drawn(visit, keys, at);
    let inside = html! {
        span class="survey-mark" aria-hidden="true" { (PreEscaped(grounds_draw::stack_mark("", &drawn))) }
        span { (name) }
    };
    tap(
        id,
        &format!("to:{}", key.layer),
        is_now,
        &inside,
        told(&state),
    )
}

/// What is known of a layer, in two words.
fn told(state: &State) -> &'static str {
    match (state.done, state.presumed) {
        (_, Some(_)) => BEHIND,
        (Some(_), None) => "seen",
        _ if state.started.is_some() => "begun",
        _ => "",
    }
}

fn drawn(visit: &Visit, keys: &[LayerKey], at: usize) -> Vec<Drawn> {
    let (job, _) = site(visit);
    let layer = |(index, key): (usize, &LayerKey)| {
        let design = job.layer(key)?;
        Some(Drawn {
            name: design.name.clone(),
            hatch: marks::hatch(design.material),
            thickness: design.thickness.map_or(0.0, |it| it.nominal().mm()),
            thickness_words: String::new(),
            state: match index.cmp(&at) {
                std::cmp::Ordering::Less => How::Done,
                std::cmp::Ordering::Equal => How::Next,
                std::cmp::Ordering::Greater => How::ToCome,
            },
            trouble: Trouble::None,
        })
    };
    keys.iter().enumerate().filter_map(layer).collect()
}

/// How far the face has got, as a sentence.
fn said(visit: &Visit, keys: &[LayerKey], now: Option<&Reach>) -> String {
    let (job, _) = site(visit);
    match now {
        None => "Not looked at yet.".to_owned(),
        Some(Reach::Nothing) => "Nothing is there yet.".to_owned(),
        Some(Reach::Unknown) => {
            "Nobody could look: it counts as to come until somebody can.".to_owned()
        }
        Some(Reach::UpTo(layer)) => {
            let key = keys.iter().find(|key| key.layer == *layer);
            let name = key
                .and_then(|key| job.layer(key))
                .map(|layer| layer.name.clone());
            format!("Up to: {}.", name.unwrap_or_default())
        }
    }
}

/// The choice that all walls are alike; taken where none of them is marked yet.
fn alike(visit: &Visit, place: &Id, face: &Id, design: &Face) -> Markup {
    let (job, site) = site(visit);
    let Some(here) = job
        .places
        .get(place)
        .filter(|_| design.kind == FaceKind::Wall)
    else {
        return html! {};
    };
    let walls = here
        .faces
        .iter()
        .filter(|(_, face)| face.kind == FaceKind::Wall);
    let walls: Vec<&Id> = walls.map(|(key, _)| key).collect();
    let none_yet = walls
        .iter()
        .all(|wall| reach(job, site, place, wall).is_none());
    // What a wall of another build-up would take from a mark of this one.
    let keys = job.layers_of(place, face);
    let last = keys.last().map(|key| Mark {
        place: place.clone(),
        face: face.clone(),
        reach: Reach::UpTo(key.layer.clone()),
    });
    let like = last.map_or(0, |mark| several::walls_alike(job, place, &mark).len());
    html! {
        @if walls.len() > 1 && like > 1 {
            label class="survey-alike" {
                input type="checkbox" name="alike" value="yes" checked[none_yet];
                "All walls alike"
            }
        }
    }
}

/// Pieces of the place that no mark tells of.
fn pieces(visit: &Visit, place: &Id) -> Markup {
    let (job, site) = site(visit);
    let here: Vec<(&Id, &Piece, State)> = job
        .pieces
        .iter()
        .filter(|(_, piece)| piece.place == *place)
        .map(|(id, piece)| (id, piece, site.state(&Subject::Piece(id.clone()))))
        .filter(|(_, _, state)| state.presumed.is_none())
        .collect();
    html! {
        @if !here.is_empty() {
            section class="part" aria-labelledby="pieces" {
                h2 id="pieces" { "Pieces" }
                ul class="survey-pieces" {
                    @for (id, piece, state) in &here { (piece_line(visit, id, piece, state)) }
                }
            }
        }
    }
}

fn piece_line(visit: &Visit, id: &Id, piece: &Piece, state: &State) -> Markup {
    let is_in = state.done.is_some();
    let is_here = !is_in && state.arrived.is_some();
    let is_away = !is_in && !is_here && state.undone.is_some();
    html! {
        li id={ "p-" (id) } {
            p { (piece.name) }
            form method="post" action=(visit.to("survey/piece")) data-act {
                (hidden(visit))
                input type="hidden" name="piece" value=(id);
                @for (value, word, is_now) in [("in", "In", is_in), ("here", "On site", is_here), ("away", "Not here", is_away)] {
                    button id={ "p-" (id) "-" (value) } class="survey-tap" name="is" value=(value) aria-pressed=(is_now) {
                        (word) span class="said" { ": " (piece.name) }
                    }
                }
            }
        }
    }
}
