//! One piece of work: what, when, why not sooner, what it opens, what was said of it.

use std::collections::BTreeSet;

use grounds_model::PlaceKind;
use grounds_schedule::ActivityId;
use grounds_sequence::{
    Task, TaskState, Work,
    words::{lower_first, upper_first},
};
use grounds_site::{Note, Value};
use maud::{Markup, html};

use crate::{
    chain, marks,
    pages::{cautions, cover, row},
    say,
    visit::Visit,
};

/// How deep reasons are followed.
const DEEP: usize = 4;

/// Work that is listed under what it opens.
const LISTED: usize = 12;

/// The page.
pub(crate) fn work(visit: &Visit, id: ActivityId) -> Markup {
    let outlook = &visit.picture.outlook;
    let Some(task) = outlook.network.task(id) else {
        return html! {};
    };
    html! {
        article data-panel {
            header class="opening" {
                p class="place-line" { (place_line(visit, task)) }
                h1 class="panel-name" { (task.name) (kind_word(&task.work)) }
                p class="lead" { (when(visit, id, task)) }
            }
            (press(visit, id, task))
            div class="columns" {
                div { (why(visit, id, task)) (roots(visit, id)) (opens(visit, id)) }
                div {
                    (marks::section(&visit.picture, id))
                    (behind(visit, id))
                    (facts(visit, id, task))
                    (said(visit, task))
                    (caution(visit, task))
                }
            }
        }
    }
}

/// The buttons. What cannot start yet may have begun all the same: that is asked for, not offered.
fn press(visit: &Visit, id: ActivityId, task: &Task) -> Markup {
    let outlook = &visit.picture.outlook;
    let name = visit.words().task(id);
    let early = task.state == TaskState::ToCome
        && outlook.startable[id.index()].is_none()
        && matches!(
            task.work,
            Work::Layer(_) | Work::Set(_) | Work::Measure(_) | Work::SetUp(_)
        );
    html! {
        @if early {
            details class="fold" {
                summary { "It has begun all the same" }
                (row::buttons(visit, task, &name))
            }
        } @else {
            (row::buttons(visit, task, &name))
        }
        @if task.state != TaskState::Done { (trouble(visit, task)) }
    }
}

fn place_line(visit: &Visit, task: &Task) -> String {
    let job = &visit.picture.job;
    let level = task
        .place
        .as_ref()
        .and_then(|place| job.places.get(place))
        .and_then(|place| job.levels.get(&place.level));
    let place = match &task.work {
        Work::Decide(_) => format!("Asked of {}", lower_first(&task.where_)),
        _ => upper_first(&task.where_),
    };
    match level {
        Some(level) => format!("{place} · {}", lower_first(&level.name)),
        None => place,
    }
}

fn kind_word(work: &Work) -> &'static str {
    match work {
        Work::Measure(_) => ": measure",
        Work::Arrive(_) => ": on site",
        Work::SetUp(_) => ": set up",
        Work::PutRight(_) => ": put right",
        _ => "",
    }
}

fn when(visit: &Visit, id: ActivityId, task: &Task) -> Markup {
    let outlook = &visit.picture.outlook;
    let words = visit.words();
    let start = words.when(outlook.plan.starts[id.index()]);
    let finish = words.when(outlook.plan.finishes[id.index()]);
    let moment = outlook.plan.starts[id.index()] == outlook.plan.finishes[id.index()];
    html! {
        @match task.state {
            TaskState::Done => { "Done " b { (finish) } "." }
            TaskState::InHand => { "In hand since " b { (start) } ", should end " b { (finish) } "." }
            TaskState::ToCome if moment => { b { (upper_first(&start)) } "." }
            TaskState::ToCome => {
                b { (upper_first(&start)) } ", until " b { (finish) } ": " (words.takes(id)) " of work."
            }
        }
        @if let Some(shut) = row::shuts(visit, id).filter(|_| task.state != TaskState::Done) {
            " " (shut)
        }
    }
}

fn why(visit: &Visit, id: ActivityId, task: &Task) -> Markup {
    html! {
        @if task.state == TaskState::ToCome {
            section class="part" aria-labelledby="why" {
                h2 id="why" { "Why not sooner" }
                (reasons(visit, id, DEEP, &mut BTreeSet::new()))
            }
        }
    }
}

/// Reasons, each with the reasons behind it.
fn reasons(visit: &Visit, id: ActivityId, deep: usize, told: &mut BTreeSet<ActivityId>) -> Markup {
    let outlook = &visit.picture.outlook;
    let words = visit.words();
    told.insert(id);
    let mut said = BTreeSet::new();
    let list: Vec<(String, Option<ActivityId>)> = outlook.reasons[id.index()]
        .iter()
        .map(|reason| {
            let behind = chain::behind(&outlook.network.problem, id, reason);
            (words.reason(id, reason), behind.first().copied())
        })
        .filter(|(sentence, _)| !sentence.is_empty() && said.insert(sentence.clone()))
        .collect();
    html! {
        ol class="reasons" {
            @for (sentence, other) in list {
                @let next = other.filter(|other| deep > 1 && !told.contains(other) && is_to_come(visit, *other));
                li class=[next.is_none().then_some("root")] {
                    @match other.and_then(|other| outlook.network.task(other)) {
                        Some(task) => a href=(visit.to_work(&task.key)) { (sentence) },
                        None => (sentence),
                    }
                    @if let Some(next) = next { (reasons(visit, next, deep - 1, told)) }
                }
            }
        }
    }
}

fn is_to_come(visit: &Visit, id: ActivityId) -> bool {
    visit
        .picture
        .outlook
        .network
        .task(id)
        .is_some_and(|task| task.state == TaskState::ToCome)
}

fn roots(visit: &Visit, id: ActivityId) -> Markup {
    let outlook = &visit.picture.outlook;
    let words = visit.words();
    let roots = outlook.roots_of(id);
    html! {
        @if !roots.is_empty() {
            section class="part" aria-labelledby="roots" {
                h2 id="roots" { "In the end it waits for" }
                ul class="reasons" {
                    @for index in roots.iter().take(6) {
                        @let root = words.root(&outlook.roots[*index]);
                        li class="root" { b { (root.title) } ". " (root.detail) }
                    }
                    @if roots.len() > 6 {
                        li { (say::counted(roots.len() - 6, "smaller cause", "smaller causes")) }
                    }
                }
            }
        }
    }
}

fn opens(visit: &Visit, id: ActivityId) -> Markup {
    let opened = visit.picture.outlook.opened_by(id);
    html! {
        @if !opened.is_empty() {
            section class="part" aria-labelledby="opens" {
                h2 id="opens" { "What it opens" }
                ul class="rows plain" {
                    @for next in opened.iter().take(LISTED) { (row::line(visit, *next)) }
                }
                @if opened.len() > LISTED { p class="nothing" { "and " (opened.len() - LISTED) " more." } }
            }
        }
    }
}

fn behind(visit: &Visit, id: ActivityId) -> Markup {
    let checks = cover::behind(visit, id);
    html! {
        @if !checks.0.is_empty() {
            section class="part" aria-labelledby="before" {
                h2 id="before" { "Before it is covered" }
                (checks)
            }
        }
    }
}

fn facts(visit: &Visit, id: ActivityId, task: &Task) -> Markup {
    let job = &visit.picture.job;
    let trade = task.trade.as_ref().and_then(|id| job.trades.get(id));
    let contact = trade.and_then(|trade| trade.contact.as_ref());
    let people = people(visit, task);
    let place = task.place.as_ref().and_then(|id| job.places.get(id));
    html! {
        dl class="facts" {
            @if let Some(trade) = trade {
                div { dt { "Trade" } dd {
                    (trade.name)
                    @if let Some(people) = people { ", " (say::counted(people as usize, "person", "people")) }
                } }
            }
            @if let Some(contact) = contact {
                div { dt { "Call" } dd {
                    @if let Some(name) = &contact.name { (name) " " }
                    @if let Some(phone) = &contact.phone {
                        a href={ "tel:" (dialled(phone)) } { (phone) }
                    }
                } }
            }
            @if visit.picture.outlook.network.problem.activities[id.index()].unbroken {
                div { dt { "Once begun" } dd { "must not stop overnight" } }
            }
            @if place.is_some_and(|place| place.kind == PlaceKind::Stair) {
                div { dt { "On a stair" } dd { "see who must pass while it is worked on" } }
            }
            div { dt { "Key" } dd { code { (task.key) } } }
        }
    }
}

fn people(visit: &Visit, task: &Task) -> Option<u32> {
    let job = &visit.picture.job;
    let own = match &task.work {
        Work::Layer(keys) => keys
            .first()
            .and_then(|key| job.layer(key))
            .and_then(|l| l.people),
        Work::Set(id) => job.pieces.get(id).and_then(|piece| piece.people),
        _ => None,
    };
    let trade = task.trade.as_ref().and_then(|id| job.trades.get(id));
    own.or(trade.map(|trade| trade.people))
}

/// A telephone number as a link takes it.
fn dialled(phone: &str) -> String {
    phone
        .chars()
        .filter(|c| c.is_ascii_digit() || *c == '+')
        .collect()
}

fn said(visit: &Visit, task: &Task) -> Markup {
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
    notes.dedup_by_key(|note| (note.at, note.kind, note.by.clone()));
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
                p class="row-why" { (say::short(note.at, visit.picture.zone())) ", " (note.by) }
            }
        }
    }
}

fn value(visit: &Visit, note: &Note) -> String {
    match &note.value {
        None => String::new(),
        Some(Value::Share(share)) => format!(": {share}"),
        Some(Value::When(moment)) => {
            let network = &visit.picture.outlook.network;
            format!(", {}", visit.words().when(network.clock.beginning(*moment)))
        }
        Some(Value::Length(length)) => format!(": {length}"),
        Some(Value::Temperature(read)) => format!(": {read}"),
        Some(Value::Humidity(read)) => format!(": {read}"),
        Some(Value::Reading { what, figure }) => format!(": {what} {figure}"),
    }
}

fn trouble(visit: &Visit, task: &Task) -> Markup {
    html! {
        details class="fold trouble" {
            summary { "Trouble with it" }
            (row::trouble_form(visit, &task.key, "here"))
        }
    }
}

fn caution(visit: &Visit, task: &Task) -> Markup {
    let lines = cautions::cautions(&visit.picture.job, task);
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
