//! What a fit holds up, and going on with it as it is.

use grounds_lines::holdups::Holdup;
use grounds_model::Id;
use maud::{Markup, html};
use uuid::Uuid;

use super::dates;
use crate::{
    say,
    visit::{LONGEST_NAME, NOBODY_SAID, Visit},
};

/// What it holds up and from when, in one sentence; or who lets it go on.
pub(super) fn in_short(visit: &Visit, holdup: &Holdup) -> Markup {
    if let Some(decided) = &holdup.overruled {
        return html! { (let_go(visit, decided.note)) };
    }
    let words = visit.words();
    let cover = holdup.cover.as_ref();
    let cover = cover.and_then(|cover| dates::cover(visit, cover));
    html! {
        @match (&holdup.order, cover) {
            (Some(piece), None) => { "Holds up its order" (due(visit, piece)) "." },
            (Some(piece), Some(cover)) => {
                "Holds up its order" (due(visit, piece)) " and " (words.mid(cover.id)) ", planned for "
                b { (words.when(cover.start)) } "."
            },
            (None, Some(cover)) => {
                "Holds up " (words.mid(cover.id)) ", planned for " b { (words.when(cover.start)) } "."
            },
            (None, None) => {}
        }
    }
}

/// When a piece is to be on site, as the plan has it.
fn due(visit: &Visit, piece: &Id) -> Markup {
    html! {
        @if let Some(arrives) = dates::arrives(visit, piece) {
            ", due " b { (visit.words().when(arrives.start)) }
        }
    }
}

/// Who decided that it goes on as it is.
fn let_go(visit: &Visit, note: Uuid) -> String {
    let by = visit.picture.site.notes.get(&note);
    let by = by.map_or_else(String::new, |note| {
        format!(" by {}", say::cut(&note.by, 60))
    });
    format!("Goes on as it is: decided{by}.")
}

/// The part of a need's page: what must wait, and the way to let it go on.
pub(super) fn part(visit: &Visit, key: &str, holdup: Option<&Holdup>) -> Markup {
    let Some(holdup) = holdup else {
        return html! {};
    };
    html! {
        section class="part" aria-labelledby="holds" {
            h2 id="holds" { "What it holds up" }
            @match &holdup.overruled {
                Some(decided) => {
                    p { (let_go(visit, decided.note)) }
                    @if let Some(note) = visit.picture.site.notes.get(&decided.note) {
                        @if let Some(words) = &note.words { p class="enter" { (say::cut(words, 600)) } }
                        p class="soft" { (say::short(note.at, visit.picture.zone())) ". A new reading opens it again." }
                        form method="post" action=(visit.to("back")) data-act {
                            input type="hidden" name="note" value=(note.id);
                            input type="hidden" name="once" value=(visit.once);
                            input type="hidden" name="back" value=(super::row::address(visit, key));
                            button class="quiet" { "Hold it up again" }
                        }
                    }
                }
                None => {
                    (waits(visit, holdup))
                    (go_on(visit, "fit/decide", ("need", key)))
                }
            }
        }
    }
}

fn waits(visit: &Visit, holdup: &Holdup) -> Markup {
    let network = &visit.picture.outlook.network;
    let words = visit.words();
    let cover = holdup
        .cover
        .as_ref()
        .and_then(|cover| dates::cover(visit, cover));
    html! {
        ul class="checks" {
            @if let Some(piece) = &holdup.order {
                @let name = visit.picture.job.pieces.get(piece).map_or("", |piece| &piece.name);
                li {
                    "Do not order "
                    @match network.find(&format!("{piece}:arrive")).and_then(|id| network.task(id)) {
                        Some(task) => a href=(visit.to_work(&task.key)) { (grounds_site::words::with_article(name)) },
                        None => (grounds_site::words::with_article(name)),
                    }
                    " before it is settled."
                }
            }
            @if let Some(cover) = cover {
                li {
                    "Do not begin "
                    @match network.task(cover.id) {
                        Some(task) => a href=(visit.to_work(&task.key)) { (words.mid(cover.id)) },
                        None => (words.mid(cover.id)),
                    }
                    ", planned for " b { (words.when(cover.start)) } ": it covers what has to be put right."
                }
            }
        }
    }
}

/// Somebody takes it as it is: who, and why. `to` is where the form goes, `about` the field that says
/// what it is about.
pub(crate) fn go_on(visit: &Visit, to: &str, about: (&str, &str)) -> Markup {
    let known = visit.who != NOBODY_SAID;
    html! {
        details class="fold" {
            summary { "Let it go on as it is" }
            form class="form" method="post" action=(visit.to(to)) data-act {
                input type="hidden" name=(about.0) value=(about.1);
                input type="hidden" name="once" value=(visit.once);
                div class="field" {
                    label for="decider" { "Who decides" }
                    input id="decider" name="by" maxlength=(LONGEST_NAME) required autocomplete="name"
                        value=[known.then_some(visit.who.as_str())] aria-describedby="decider-hint";
                    p class="hint" id="decider-hint" { "A person, by name: whoever answers for it." }
                }
                div class="field" {
                    label for="reason" { "Why that will do" }
                    textarea id="reason" name="words" rows="3" maxlength="2000" required {}
                }
                p class="form-do" { button class="do" { "Go on as it is" } }
            }
        }
    }
}
