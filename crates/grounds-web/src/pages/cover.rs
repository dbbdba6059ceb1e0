//! About to be covered: what disappears in the next days, and what is missing behind it.

use std::collections::BTreeMap;

use grounds_model::Id;
use grounds_schedule::{ActivityId, DAY, Tick};
use grounds_sequence::{LagWhy, TaskState, Work};
use maud::{Markup, html};

use crate::visit::Visit;

/// How far ahead is looked.
const AHEAD: Tick = 5 * DAY;

/// Work that covers things, and what it covers.
struct Covering {
    by: ActivityId,
    /// Tests, inspections and pieces behind it.
    behind: Vec<ActivityId>,
}

/// The part of the page; nothing where nothing is about to be covered.
pub(crate) fn about_to_be_covered(visit: &Visit) -> Markup {
    let coming = coming(visit);
    html! {
        @if !coming.is_empty() {
            section class="part" aria-labelledby="covered" {
                h2 id="covered" { "About to be covered" }
                ul class="rows plain" {
                    @for covering in &coming { (row(visit, covering)) }
                }
            }
        }
    }
}

/// What a piece of work hides: what must be seen before it starts.
pub(crate) fn behind(visit: &Visit, by: ActivityId) -> Markup {
    let covering = coverings(visit).remove(&by);
    html! {
        @if let Some(behind) = covering {
            (checks(visit, &behind))
        }
    }
}

fn coming(visit: &Visit) -> Vec<Covering> {
    let outlook = &visit.picture.outlook;
    let network = &outlook.network;
    let until = network.now_tick().saturating_add(AHEAD);
    let mut coming: Vec<Covering> = coverings(visit)
        .into_iter()
        .filter(|(by, _)| {
            network.tasks[by.index()].state == TaskState::ToCome
                && outlook.plan.starts[by.index()] < until
        })
        .map(|(by, behind)| Covering { by, behind })
        .collect();
    coming.sort_by_key(|covering| (outlook.plan.starts[covering.by.index()], covering.by));
    coming
}

/// Every piece of work that covers something, with what it covers.
fn coverings(visit: &Visit) -> BTreeMap<ActivityId, Vec<ActivityId>> {
    let network = &visit.picture.outlook.network;
    let mut all: BTreeMap<ActivityId, Vec<ActivityId>> = BTreeMap::new();
    for (lag, why) in network.problem.lags.iter().zip(&network.lag_why) {
        let covers = matches!(why, LagWhy::Covers | LagWhy::Hold);
        let is_cover = matches!(
            network.tasks[lag.to.index()].work,
            Work::Layer(_) | Work::Set(_)
        );
        if covers && is_cover {
            let behind = all.entry(lag.to).or_default();
            if !behind.contains(&lag.from) {
                behind.push(lag.from);
            }
        }
    }
    all
}

fn row(visit: &Visit, covering: &Covering) -> Markup {
    let outlook = &visit.picture.outlook;
    let network = &outlook.network;
    let words = visit.words();
    let Some(task) = network.task(covering.by) else {
        return html! {};
    };
    let missing = covering
        .behind
        .iter()
        .filter(|id| network.tasks[id.index()].state != TaskState::Done)
        .count();
    html! {
        li class="row" {
            div class="row-words" {
                h3 class="row-name" { a href=(visit.to_work(&task.key)) { (words.task(covering.by)) } }
                p class="row-why" {
                    b { (grounds_sequence::words::upper_first(&words.when(outlook.plan.starts[covering.by.index()]))) }
                    @match missing {
                        0 => ": everything behind it is in and seen.",
                        1 => ": one thing behind it is missing.",
                        n => { ": " (n) " things behind it are missing." }
                    }
                }
                (checks(visit, &covering.behind))
            }
        }
    }
}

fn checks(visit: &Visit, behind: &[ActivityId]) -> Markup {
    let network = &visit.picture.outlook.network;
    html! {
        ul class="checks" {
            @for id in behind.iter().take(20) {
                @if let Some(task) = network.task(*id) {
                    li class=[class(visit, task)] {
                        (visit.words().task(*id)) (status(visit, task))
                    }
                }
            }
        }
    }
}

fn class(visit: &Visit, task: &grounds_sequence::Task) -> Option<&'static str> {
    if task.state == TaskState::Done {
        return Some("seen");
    }
    let state = visit.picture.site.state(&task.work.subject());
    state.failed.is_some().then_some("failed")
}

fn status(visit: &Visit, task: &grounds_sequence::Task) -> String {
    match (&task.work, task.state) {
        (Work::Pass(_), TaskState::Done) => ": passed".to_owned(),
        (_, TaskState::Done) => ": in".to_owned(),
        (Work::Pass(hold), _) => {
            let failed = visit
                .picture
                .site
                .state(&task.work.subject())
                .failed
                .is_some();
            let first = if failed {
                ": failed"
            } else {
                ": still to pass"
            };
            format!("{first}{}", evidence(visit, hold))
        }
        _ => ": not in yet".to_owned(),
    }
}

/// What a hold wants to see.
fn evidence(visit: &Visit, hold: &Id) -> String {
    let wanted = visit
        .picture
        .job
        .holds
        .get(hold)
        .map(|hold| hold.evidence.join(", "));
    wanted
        .filter(|text| !text.is_empty())
        .map_or_else(String::new, |text| format!(" ({text})"))
}
