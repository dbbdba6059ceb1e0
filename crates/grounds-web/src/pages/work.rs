//! One piece of work: what, when, why not sooner, what it opens, what was said of it.

mod facts;
mod said;
mod why;

use grounds_schedule::ActivityId;
use grounds_sequence::{
    Task, TaskState, Work,
    words::{lower_first, upper_first},
};
use maud::{Markup, html};

use crate::{
    marks,
    pages::{cautions, cover, fit, row},
    visit::{Visit, encode},
};

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
            (onward(visit, id, task))
            div class="columns" {
                div { (why::why(visit, id, task)) (why::chain(visit, id)) (why::roots(visit, id)) (opens(visit, id)) }
                div {
                    (marks::section(&visit.picture, id))
                    (fit::of_work(visit, task))
                    (behind(visit, id))
                    (facts::facts(visit, id, task))
                    (said::said(visit, task))
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

/// What can be asked about it: what would win time, where it drives a date; what if, where it is dated.
fn onward(visit: &Visit, id: ActivityId, task: &Task) -> Markup {
    let to_come = task.state == TaskState::ToCome;
    let drives = to_come && visit.drives(id);
    let dated = match &task.work {
        Work::Arrive(id) | Work::Pass(id) | Work::Decide(id) if to_come => Some(id),
        _ => None,
    };
    let date = match &task.work {
        Work::Reach(id) => format!("win-back?for={}", encode(id.as_str(), "")),
        _ => "win-back".to_owned(),
    };
    html! {
        @if drives || dated.is_some() {
            p class="onward" {
                @if drives { a class="can" href=(visit.to(&date)) { "Win time back" } }
                @if let Some(about) = dated {
                    a class="can" href=(visit.to(&format!("what-if?about={}", encode(about.as_str(), "")))) { "What if" }
                }
            }
        }
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
        @if let Some(spare) = words.can_wait(id, visit.latest(id)) { " " (spare) }
        @else if task.state == TaskState::ToCome && visit.drives(id) {
            " It drives the finish or a milestone: any later, and that moves."
        }
        @if let Some(shut) = row::shuts(visit, id).filter(|_| task.state != TaskState::Done) {
            " " (shut)
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
    let checks = cover::behind_work(visit, id);
    html! {
        @if !checks.0.is_empty() {
            section class="part" aria-labelledby="before" {
                h2 id="before" { "Before it is covered" }
                (checks)
            }
        }
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
