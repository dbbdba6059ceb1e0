//! Why a piece of work does not begin sooner, and what it waits for in the end.

use std::collections::BTreeSet;

use grounds_schedule::ActivityId;
use grounds_sequence::{Task, TaskState};
use maud::{Markup, html};

use crate::{chain, say, visit::Visit};

/// How deep reasons are followed.
const DEEP: usize = 4;

/// Why it does not begin sooner, each reason with the reasons behind it.
pub(super) fn why(visit: &Visit, id: ActivityId, task: &Task) -> Markup {
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

/// The causes that it waits for in the end.
pub(super) fn roots(visit: &Visit, id: ActivityId) -> Markup {
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
