//! The fits of a piece of work, on its own page.

use std::collections::BTreeSet;

use grounds_lines::answers::{Answer, Verdict};
use grounds_model::Ref;
use grounds_sequence::{Task, Work};
use maud::{Markup, html};

use super::row;
use crate::visit::Visit;

/// Rows that stand in the open.
const SHOWN: usize = 4;

/// The part of the page; nothing where nothing has to fit there.
pub(crate) fn of_work(visit: &Visit, task: &Task) -> Markup {
    let about: BTreeSet<Ref> = match &task.work {
        Work::Layer(keys) => keys.iter().map(|key| Ref(key.to_string())).collect(),
        Work::Set(id) | Work::Arrive(id) | Work::Measure(id) => BTreeSet::from([Ref(id.0.clone())]),
        _ => BTreeSet::new(),
    };
    let own = |answer: &&Answer| about.contains(&answer.about);
    let fit = &visit.picture.fit;
    // A piece is asked about itself; a layer about everything that it is part of.
    let found: Vec<&Answer> = if matches!(task.work, Work::Layer(_)) {
        fit.about(&about).collect()
    } else {
        fit.answers.iter().filter(own).collect()
    };
    let trouble = found
        .iter()
        .filter(|answer| answer.verdict != Verdict::Holds)
        .count();
    let (open, more) = found.split_at(found.len().min(SHOWN.max(trouble.min(8))));
    html! {
        @if !found.is_empty() {
            section class="part" aria-labelledby="fits" {
                h2 id="fits" { "Will it fit" }
                ul class="rows plain fits" { @for answer in open { (row::plain(visit, answer)) } }
                @if !more.is_empty() {
                    details class="fold" {
                        summary { (more.len()) " more" }
                        ul class="rows plain fits" {
                            @for answer in more.iter().take(60) { (row::plain(visit, answer)) }
                        }
                    }
                }
            }
        }
    }
}
