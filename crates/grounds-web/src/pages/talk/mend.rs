//! A small form for what was said otherwise than it was read: what it is about, what is said of it,
//! and the day or figure that goes with it.

use std::collections::BTreeMap;

use grounds_model::Ref;
use grounds_sequence::words::upper_first;
use grounds_site::{Kind, Value};
use grounds_walk::file::{Entry, about, kind_words, time_code};
use maud::{Markup, html};

use super::address;
use crate::{
    say,
    talk::{Answered, Talk, refs},
    visit::Visit,
};

/// Kinds of notes that are offered, in the order in which they are usually meant.
const KINDS: [Kind; 16] = [
    Kind::Remark,
    Kind::Started,
    Kind::Progress,
    Kind::Done,
    Kind::Undone,
    Kind::Arrived,
    Kind::Promised,
    Kind::Ordered,
    Kind::Shipped,
    Kind::Damaged,
    Kind::Measured,
    Kind::Passed,
    Kind::Failed,
    Kind::Decided,
    Kind::Problem,
    Kind::Cleared,
];

/// The page, with what was typed where that was wrong.
pub(crate) fn mend(
    visit: &Visit,
    talk: &Talk,
    entry: &Entry,
    wrong: Option<(&Answered, &String)>,
) -> Markup {
    let chosen = entry.chosen.and_then(|at| entry.choices.get(at));
    let typed = wrong.map(|(typed, _)| typed);
    let meant = typed.map_or_else(
        || chosen.map_or_else(String::new, |choice| refs(&choice.about)),
        |typed| typed.about.clone(),
    );
    let kind = typed.map_or(entry.kind.word(), |typed| typed.kind.as_str());
    let (day, figure) = match (typed, &entry.value) {
        (Some(typed), _) => (typed.day.clone(), typed.figure.clone()),
        (None, Some(Value::When(moment))) => (moment.date.to_string(), String::new()),
        (None, value) => (
            String::new(),
            value.as_ref().map_or_else(String::new, printed),
        ),
    };
    html! {
        header class="opening" {
            p class="place-line" {
                a href=(address(visit, talk)) { (talk.kept.head.name) }
                @if let Some(ms) = entry.at_ms { " · " (time_code(ms)) }
            }
            h1 { "“" (say::cut(&entry.sentence, 200)) "”" }
            p class="lead" { "What does that say?" }
        }
        form class="form" method="post" action={ (address(visit, talk)) "/answer" } data-act="go" {
            @if let Some((_, why)) = wrong { p class="notice" id="wrong" role="alert" { (why) } }
            input type="hidden" name="tie" value=(entry.tie.as_str());
            div class="field" {
                label for="about" { "It is about" }
                select id="about" name="about" aria-describedby=[wrong.map(|_| "wrong")] { (things(visit, talk, entry, &meant)) }
            }
            div class="field" {
                label for="kind" { "It is" }
                select id="kind" name="kind" aria-describedby=[wrong.map(|_| "wrong")] {
                    @for each in KINDS {
                        option value=(each.word()) selected[each.word() == kind] { (upper_first(kind_words(each))) }
                    }
                }
            }
            div class="field-pair" {
                div class="field" {
                    label for="day" { "Day, if there is one" }
                    input id="day" type="date" name="day" value=(day);
                }
                div class="field" {
                    label for="figure" { "Figure, if there is one" }
                    input id="figure" name="figure" value=(figure) maxlength="60" autocomplete="off" aria-describedby="figure-hint";
                    p class="hint" id="figure-hint" { "Like 74 %, 18 C, 12 mm." }
                }
            }
            p class="form-do" {
                button class="do" name="answer" value="mend" { "Write it down so" }
                button class="quiet" name="answer" value="refuse" formnovalidate { "Refuse it" }
                a class="quiet" href=(address(visit, talk)) { "Back" }
            }
        }
    }
}

/// Everything that it may be about: what fits first, then what is in the same place, then the rest.
fn things(visit: &Visit, talk: &Talk, entry: &Entry, meant: &str) -> Markup {
    let job = &visit.picture.job;
    let vocabulary = &talk.read.vocabulary;
    let mut by_place: BTreeMap<Option<&str>, Vec<(Ref, String)>> = BTreeMap::new();
    for thing in &vocabulary.things {
        let key = Ref::from(thing.id.as_str());
        let name = about(job, &key);
        by_place
            .entry(thing.place.as_deref())
            .or_default()
            .push((key, name));
    }
    let offered = |value: &str| {
        entry
            .choices
            .iter()
            .any(|choice| refs(&choice.about) == value)
    };
    let here = entry
        .choices
        .last()
        .and_then(|place| place.about.first())
        .map(Ref::as_str);
    let mut places: Vec<(&str, &str)> = vocabulary
        .places
        .iter()
        .map(|place| (place.id.as_str(), place.name.as_str()))
        .collect();
    places.sort_by_key(|(id, _)| Some(*id) != here);
    html! {
        optgroup label="Perhaps" {
            @for choice in &entry.choices {
                option value=(refs(&choice.about)) selected[refs(&choice.about) == meant] { (upper_first(&choice.name)) }
            }
        }
        @for (id, name) in &places {
            optgroup label=(name) {
                @if !offered(id) { option value=(id) selected[*id == meant] { (name) ", the place itself" } }
                @for (key, name) in by_place.get(&Some(*id)).into_iter().flatten() {
                    @if !offered(key.as_str()) {
                        option value=(key.as_str()) selected[key.as_str() == meant] { (upper_first(name)) }
                    }
                }
            }
        }
        optgroup label="Decisions" {
            @for (key, name) in by_place.get(&None).into_iter().flatten() {
                @if !offered(key.as_str()) {
                    option value=(key.as_str()) selected[key.as_str() == meant] { (upper_first(name)) }
                }
            }
        }
        optgroup label="Who" {
            @for person in &vocabulary.people {
                @if !offered(&person.id) {
                    option value=(person.id) selected[person.id == meant] { (person.name) }
                }
            }
        }
    }
}

fn printed(value: &Value) -> String {
    match value {
        Value::Share(share) => share.to_string(),
        Value::When(_) => String::new(),
        Value::Length(length) => length.to_string(),
        Value::Temperature(read) => read.to_string(),
        Value::Humidity(read) => read.to_string(),
        Value::Reading { figure, .. } => figure.clone(),
    }
}
