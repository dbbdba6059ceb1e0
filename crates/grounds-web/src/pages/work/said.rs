//! What was written down about a piece of work.

use grounds_sequence::{Task, Work, words::upper_first};
use grounds_site::{Note, Value};
use maud::{Markup, html};

use crate::{
    pages::{photos, talk},
    say,
    visit::Visit,
};

/// The notes about it, the latest first.
pub(super) fn said(visit: &Visit, task: &Task) -> Markup {
    let site = &visit.picture.site;
    let subjects = match &task.work {
        Work::Layer(keys) => keys
            .iter()
            .cloned()
            .map(grounds_site::Subject::Layer)
            .collect::<Vec<_>>(),
        other => vec![other.subject()],
    };
    let mut notes: Vec<&Note> = subjects
        .iter()
        .filter_map(|subject| site.states.get(subject))
        .flat_map(|state| state.notes.iter())
        .filter_map(|id| site.notes.get(id))
        .collect();
    notes.sort_by_key(|note| (std::cmp::Reverse(note.at), note.id));
    notes.dedup_by_key(|note| (note.at, note.kind, note.by.clone(), note.photos.clone()));
    html! {
        @if !notes.is_empty() {
            section class="part" aria-labelledby="said" {
                h2 id="said" { "Written down" }
                ul class="rows plain" {
                    @for note in notes.iter().take(20) { (note_row(visit, note)) }
                }
            }
        }
    }
}

fn note_row(visit: &Visit, note: &Note) -> Markup {
    html! {
        li class="row" {
            div class="row-words" {
                p class="row-name" { (upper_first(note.kind.word())) (value(visit, note)) }
                @if let Some(words) = &note.words { p { (say::cut(words, 600)) } }
                (photos::of_note(visit, note))
                p class="row-why" {
                    (say::short(note.at, visit.picture.zone())) ", " (note.by)
                    @if let Some(walk) = note.walk { ", " (talk::said_in(visit, walk, note.walk_ms)) }
                }
            }
        }
    }
}

fn value(visit: &Visit, note: &Note) -> String {
    match &note.value {
        None => String::new(),
        Some(Value::When(moment)) => {
            let network = &visit.picture.outlook.network;
            format!(", {}", visit.words().when(network.clock.beginning(*moment)))
        }
        Some(value) => format!(": {}", value.in_words(visit.picture.job.job.units)),
    }
}
