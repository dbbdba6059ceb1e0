//! The walks that are kept, and the form that takes in another.

use grounds_sequence::words::{count, upper_first};
use maud::{Markup, html};

use super::address;
use crate::{
    say,
    talk::{Filled, Talk, Wrong},
    visit::{LONGEST_NAME, Visit},
};

/// The page.
pub(crate) fn walks(
    visit: &Visit,
    talks: &[Talk],
    filled: &Filled,
    wrong: Option<&Wrong>,
) -> Markup {
    html! {
        header class="opening" {
            p class="place-line" { "Walks" }
            h1 { (headline(visit, talks)) }
            p class="lead" { "Nothing that was said counts before somebody has accepted it." }
        }
        div class="columns" {
            div {
                section class="part" aria-labelledby="kept" {
                    h2 id="kept" { "Kept" }
                    @if talks.is_empty() { p class="nothing" { "No walk yet." } }
                    ul class="rows plain" { @for talk in talks { (row(visit, talk)) } }
                }
            }
            div { (form(visit, filled, wrong)) }
        }
    }
}

fn headline(visit: &Visit, talks: &[Talk]) -> String {
    let waiting = |talk: &&Talk| talk.waiting(&visit.picture) > 0;
    let open = talks.iter().filter(waiting).count();
    match (talks.len(), open) {
        (0, _) => "Say what you see; Grounds writes it down.".to_owned(),
        (_, 0) => "Every walk is answered.".to_owned(),
        (_, 1) => "One walk waits for your answers.".to_owned(),
        (_, n) => format!("{} walks wait for your answers.", upper_first(&count(n))),
    }
}

fn row(visit: &Visit, talk: &Talk) -> Markup {
    let head = &talk.kept.head;
    let waiting = talk.waiting(&visit.picture);
    html! {
        li class="row" id={ "w-" (head.id) } {
            div class="row-words" {
                h3 class="row-name" { a href=(address(visit, talk)) { (head.name) } }
                p class="row-why" {
                    (say::short(head.begun, visit.picture.zone())) ", " (head.by) ". "
                    (say::counted(talk.read.transcript.cues.len(), "sentence", "sentences")) "; "
                    @match waiting {
                        0 => "all answered.",
                        n => { b { (say::counted(n, "thing waits", "things wait")) } " for an answer." }
                    }
                }
            }
        }
    }
}

fn form(visit: &Visit, filled: &Filled, wrong: Option<&Wrong>) -> Markup {
    let is_wrong = |field: &str| wrong.is_some_and(|wrong| wrong.field == field);
    let invalid = |field: &str| is_wrong(field).then_some("true");
    let told = |field: &str| is_wrong(field).then_some("wrong");
    html! {
        section class="part" aria-labelledby="take-in" {
            h2 id="take-in" { "Another walk" }
            form class="form" method="post" action=(visit.to("walks")) data-act="go" {
                @if let Some(wrong) = wrong { p class="notice" id="wrong" role="alert" { (wrong.why) } }
                div class="field" data-file-into="talk" hidden {
                    label for="file" { "A file of what was said" }
                    input id="file" type="file" accept=".vtt,.srt,.txt,text/plain,text/vtt" aria-describedby="file-hint";
                    p class="hint" id="file-hint" { "WebVTT, SubRip or plain text, as a recogniser writes it. It is read on this device." }
                }
                div class="field" {
                    label for="talk" { "What was said" }
                    textarea id="talk" name="talk" rows="8" required spellcheck="false"
                        aria-invalid=[invalid("talk")] aria-describedby=(told("talk").unwrap_or("talk-hint")) { (filled.talk) }
                    p class="hint" id="talk-hint" { "Paste it, with its times if it has any: [1:05] Kitchen. The island is in." }
                }
                div class="field-pair" {
                    div class="field" {
                        label for="day" { "On" }
                        input id="day" type="date" name="day" value=(filled.day) required
                            aria-invalid=[invalid("day")] aria-describedby=[told("day")];
                    }
                    div class="field" {
                        label for="time" { "It began at" }
                        input id="time" type="time" name="time" value=(filled.time) required
                            aria-invalid=[invalid("day")] aria-describedby=[told("day")];
                    }
                }
                div class="field" {
                    label for="by" { "Who walked" }
                    input id="by" name="by" value=(filled.by) required maxlength=(LONGEST_NAME)
                        aria-invalid=[invalid("by")] aria-describedby=[told("by")];
                }
                div class="field" {
                    label for="name" { "Call it, if you like" }
                    input id="name" name="name" value=(filled.name) maxlength="80" autocomplete="off";
                }
                p class="form-do" { button class="do" { "Read it" } }
            }
        }
    }
}
