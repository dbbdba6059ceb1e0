//! Why a piece of work does not begin sooner, and what it waits for in the end.

use std::collections::BTreeSet;

use grounds_schedule::ActivityId;
use grounds_sequence::{
    Task, TaskState, behind,
    words::{ChainStep, span_words},
};
use maud::{Markup, html};

use crate::{say, visit::Visit};

/// How deep reasons are followed.
const DEEP: usize = 4;

/// Why it does not begin sooner, each reason with the reasons behind it.
pub(super) fn why(visit: &Visit, id: ActivityId, task: &Task) -> Markup {
    html! {
        @if task.state == TaskState::ToCome {
            section class="part" aria-labelledby="why" {
                h2 id="why" { "Why not sooner" }
                (reasons(visit, id, DEEP, &mut BTreeSet::new()))
                @for said in visit.words().to_settle(id) { p class="to-do" { (said) } }
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
            let behind = behind(&outlook.network.problem, id, reason);
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

/// How the time from now to its start is spent, step by step, so that it adds up.
pub(super) fn chain(visit: &Visit, id: ActivityId) -> Markup {
    let words = visit.words();
    let chain = words.chain(id);
    let (Some(first), Some(last)) = (chain.first(), chain.last()) else {
        return html! {};
    };
    html! {
        section class="part" aria-labelledby="chain" {
            h2 id="chain" { "From now to its start: " (span_words(last.until - first.from)) }
            ol class="chain" {
                @for step in &chain {
                    li {
                        b class="chain-span" { (step.span()) }
                        div {
                            p { (what(visit, step)) }
                            @if let Some(why) = &step.why { p class="soft" { (why) } }
                            p class="soft" { "to " (words.when(step.until)) }
                        }
                    }
                }
            }
        }
    }
}

fn what(visit: &Visit, step: &ChainStep) -> Markup {
    let task = step
        .work
        .and_then(|id| visit.picture.outlook.network.task(id));
    html! {
        @match task {
            Some(task) => a href=(visit.to_work(&task.key)) { (step.what) },
            None => (step.what),
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
