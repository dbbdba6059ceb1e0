//! Taking over a half-done house: what is there, place by place, and what nobody knows that matters.

mod room;
mod stock;
mod unknown;

use grounds_model::{Id, Job};
use grounds_site::{Look, Site};
use grounds_survey::{
    Weight,
    progress::{self, Looked},
    several::{self, Part},
};
use maud::{Markup, html};
use uuid::Uuid;

pub(crate) use room::room;

use crate::{
    pages::cautions,
    say,
    surveying::{self, without_marked, written_together},
    visit::Visit,
};

/// Unknowns that stand in the open.
const SHOWN: usize = 8;

/// Unknowns that are listed when they are unfolded.
const LISTED: usize = 120;

/// Layers that everything can be marked up to, at most.
const LAYERS: usize = 60;

/// The page of a house.
pub(crate) fn survey(visit: &Visit) -> Markup {
    html! {
        header class="opening" {
            h1 { (how_far(visit)) }
            p class="lead soft" {
                "Tap for each face the outermost thing that is there. What lies behind it is taken to be \
                 there, and kept apart from what somebody saw."
            }
            (onward(visit, None))
        }
        (taken(visit))
        div class="columns" {
            div { (places(visit)) (up_to(visit)) }
            div { (unknowns(visit)) (stock::part(visit)) }
        }
    }
}

/// `9 of 36 places looked at.`
fn how_far(visit: &Visit) -> String {
    let (done, of) = looked(visit);
    match (done, of) {
        (_, 0) => "No place of this job has a face to look at.".to_owned(),
        (done, of) if done == of => format!(
            "{} looked at.",
            if of == 1 {
                "The one place is".to_owned()
            } else {
                format!("All {of} places are")
            }
        ),
        (done, of) => format!(
            "{done} of {} looked at.",
            say::counted(of, "place", "places")
        ),
    }
}

fn looked(visit: &Visit) -> (usize, usize) {
    progress::places(&visit.picture.job, &visit.picture.site)
}

/// The way to the next place.
fn onward(visit: &Visit, after: Option<&Id>) -> Markup {
    let (job, site) = (&visit.picture.job, &visit.picture.site);
    html! {
        @if let Some(next) = progress::next_place(job, site, after) {
            p class="onward" {
                a class="do" href=(to_room(visit, &next)) {
                    @if after.is_none() { "Begin with: " } @else { "Next: " }
                    (name_of(job, &next))
                }
            }
        }
    }
}

fn to_room(visit: &Visit, place: &Id) -> String {
    visit.to(&format!("survey/in/{place}"))
}

fn name_of(job: &Job, place: &Id) -> String {
    let place = job.places.get(place);
    place.map_or_else(String::new, |place| place.name.clone())
}

/// What every form of the survey carries.
fn hidden(visit: &Visit) -> Markup {
    html! {
        input type="hidden" name="once" value=(visit.once);
        input type="hidden" name="back" value=(without_marked(&visit.path));
    }
}

/// What was just marked, and the way back.
fn taken(visit: &Visit) -> Markup {
    let id = visit.asked("marked").and_then(|id| id.parse::<Uuid>().ok());
    let notes = id.map_or_else(Vec::new, |id| written_together(visit, id));
    let Some(first) = notes.first() else {
        return html! {};
    };
    let is_back = visit
        .picture
        .notes
        .iter()
        .any(|note| note.replaces == Some(first.id));
    html! {
        @if !is_back {
            form class="notice good taken" method="post" action=(visit.to("survey/back")) data-act {
                span { "Written down: " (say::counted(notes.len(), "note", "notes")) ". " }
                input type="hidden" name="note" value=(first.id);
                (hidden(visit))
                button class="quiet" { "Take it back" }
            }
        }
    }
}

fn places(visit: &Visit) -> Markup {
    let job = &visit.picture.job;
    let mut levels: Vec<_> = job.levels.iter().collect();
    levels.sort_by_key(|(id, level)| (level.height, *id));
    html! {
        section class="part" aria-labelledby="places" {
            h2 id="places" { "Place by place" }
            @for (id, level) in levels {
                @let here = job.places.iter().filter(|(_, place)| place.level == *id);
                h3 class="trade" { (level.name) " " span { "· " (say::height(level.height, job.job.units)) } }
                ul class="survey-places" {
                    @for (key, place) in here { (place_line(visit, key, &place.name)) }
                }
            }
        }
    }
}

fn place_line(visit: &Visit, key: &Id, name: &str) -> Markup {
    let looked = progress::in_place(&visit.picture.job, &visit.picture.site, key);
    let class = match looked {
        Looked { faces: 0, .. } => "not-yet",
        looked if looked.is_all() => "all",
        _ => "partly",
    };
    html! {
        @if looked.of > 0 {
            li class=(class) {
                a href=(to_room(visit, key)) {
                    span { (name) }
                    span class="soft" {
                        @match class {
                            "all" => "looked at",
                            "not-yet" => { (say::counted(looked.of, "face", "faces")) },
                            _ => { (looked.faces) " of " (say::counted(looked.of, "face", "faces")) },
                        }
                    }
                }
            }
        }
    }
}

/// Everything up to a layer, in a level or in the whole house.
fn up_to(visit: &Visit) -> Markup {
    let (job, site) = (&visit.picture.job, &visit.picture.site);
    let layers = several::layers_to_mark(job, site, &Part::House);
    html! {
        @if !layers.is_empty() {
            section class="part" aria-labelledby="up-to" {
                h2 id="up-to" { "Everything up to …" }
                p { "For faces that nobody has marked yet, all at once." }
                form class="form" method="post" action=(visit.to("survey/mark")) data-act {
                    (hidden(visit))
                    div class="field" {
                        label for="layer" { "Up to which layer" }
                        select id="layer" name="layer" {
                            @for (id, name, faces) in layers.iter().take(LAYERS) {
                                option value=(id) { (name) " (" (say::counted(*faces, "face", "faces")) ")" }
                            }
                        }
                    }
                    div class="field" {
                        label for="part" { "Where" }
                        select id="part" name="part" {
                            option value="" { "In the whole house" }
                            @for (id, level) in &job.levels { option value=(id) { (level.name) } }
                        }
                    }
                    p class="form-do" { button class="can" { "Mark them all" } }
                }
            }
        }
    }
}

fn unknowns(visit: &Visit) -> Markup {
    let all = surveying::of(visit);
    let (matter, little): (Vec<_>, Vec<_>) = all.iter().partition(|it| it.weight != Weight::Little);
    let (open, more) = matter.split_at(matter.len().min(SHOWN));
    html! {
        section class="part" aria-labelledby="unknown" {
            h2 id="unknown" { "What nobody knows that matters" }
            @if looked(visit).0 == 0 && all.is_empty() {
                p class="nothing" { "It stands here once the first place is looked at." }
            } @else if matter.is_empty() {
                p class="nothing" { "Nothing that matters is unknown." }
            }
            @if !matter.is_empty() { p class="soft survey-caution" { (cautions::OPENING) } }
            @for it in open { (unknown::card(visit, it)) }
            @if !more.is_empty() {
                details class="fold" {
                    summary { (more.len()) " more that matter less" }
                    @for it in more.iter().take(LISTED) { (unknown::card(visit, it)) }
                }
            }
            @if !little.is_empty() {
                details class="fold" {
                    summary { (say::counted(little.len(), "thing", "things")) " that nobody saw and that matter little" }
                    ul class="checks" { @for it in little.iter().take(LISTED) { li { (it.asks) } } }
                }
            }
        }
    }
}

/// How a look is said on a button.
fn look_word(how: Look) -> &'static str {
    match how {
        Look::Opening => "Open it and look",
        Look::Camera => "Look with a camera",
        Look::Test => "Test it",
        Look::Meter => "Read a meter",
    }
}

/// Whether anything that matters is unknown and undecided.
fn undecided(visit: &Visit) -> usize {
    let open = surveying::of(visit).into_iter();
    open.filter(|it| it.weight != Weight::Little && it.decided.is_none())
        .count()
}

/// The part of More that leads here.
pub(crate) fn way_here(visit: &Visit) -> Markup {
    html! {
        section class="part" aria-labelledby="survey" {
            h2 id="survey" { "Survey" }
            (line(visit))
        }
    }
}

/// The line that leads here.
pub(crate) fn line(visit: &Visit) -> Markup {
    let (done, of) = looked(visit);
    html! {
        p class="survey-line" {
            a href=(visit.to("survey")) { "Survey: what is there, and what nobody knows" }
            ". " (done) " of " (say::counted(of, "place", "places")) " looked at"
            @match undecided(visit) {
                0 => ".",
                1 => "; one thing that matters is unknown.",
                n => { "; " (n) " things that matter are unknown." },
            }
        }
    }
}

/// Offered on the first page of a job of which nothing is known yet.
pub(crate) fn offered(visit: &Visit) -> Markup {
    let nothing: bool = visit.picture.notes.is_empty();
    html! {
        @if nothing {
            p class="lead" {
                "Nothing is noted yet. Is some of it done already? "
                a href=(visit.to("survey")) { "Survey the house" } " first: a few taps for each room."
            }
        }
    }
}

/// The state of a house, for the parts of the page.
fn site(visit: &Visit) -> (&Job, &Site) {
    (&visit.picture.job, &visit.picture.site)
}
