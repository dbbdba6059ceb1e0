//! Held up by: the few causes that hold the rest.

use grounds_sequence::{Cause, DateWhy, Root, Task, Work};
use maud::{Markup, html};

use crate::{
    acts::Act,
    pages::{fit, row, rules},
    say,
    visit::Visit,
};

/// Causes that stand in the open.
const SHOWN: usize = 6;

/// Work that a cause lists when it is unfolded.
const LISTED: usize = 60;

/// The part of the page: what weighs stands in the open, what only takes its turn folds away.
pub(crate) fn held_up(visit: &Visit) -> Markup {
    let roots = &visit.picture.outlook.roots;
    let (heavy, light): (Vec<_>, Vec<_>) = roots
        .iter()
        .enumerate()
        .partition(|(_, root)| root.weighs());
    let (open, more) = heavy.split_at(heavy.len().min(SHOWN));
    html! {
        section class="part" aria-labelledby="held" {
            h2 id="held" { "Held up by" }
            @for (index, root) in open { (cause(visit, *index, root)) }
            @if roots.is_empty() { p class="nothing" { "Nothing is held up." } }
            @if !more.is_empty() {
                details class="fold" {
                    summary { (say::counted(more.len(), "more cause", "more causes")) }
                    @for (index, root) in more { (cause(visit, *index, root)) }
                }
            }
            @if !light.is_empty() {
                details class="fold" {
                    summary { (takes_turns(light.len())) }
                    @for (index, root) in light.iter().take(LISTED) { (cause(visit, *index, root)) }
                }
            }
        }
    }
}

/// What folds away, in words.
fn takes_turns(count: usize) -> String {
    match count {
        1 => "One thing only takes its turn or dries".to_owned(),
        n => format!("{n} things only take their turn or dry"),
    }
}

/// One cause, with all that it holds.
pub(crate) fn cause(visit: &Visit, index: usize, root: &Root) -> Markup {
    let words = visit.words().root(root);
    html! {
        article class="cause" id={ "cause-" (index) } {
            h3 { (words.title) }
            @if !words.detail.is_empty() { p class="cause-how" { (words.detail) } }
            p { (holds(visit, root)) }
            (mend(visit, index, &root.cause))
            @if root.holds.len() > 3 {
                details class="fold" {
                    summary { "All " (root.holds.len()) span class="said" { " held by " (words.title) } }
                    ul class="rows plain" {
                        @for id in root.holds.iter().take(LISTED) { (row::line(visit, *id)) }
                    }
                    @if root.holds.len() > LISTED {
                        p class="nothing" { "and " (root.holds.len() - LISTED) " more." }
                    }
                }
            }
        }
    }
}

fn holds(visit: &Visit, root: &Root) -> Markup {
    html! { "Holds " (figures(root)) ": " (visit.words().list(&root.holds, 3)) "." }
}

/// `23 activities and 6 days of the finish`
pub(crate) fn figures(root: &Root) -> Markup {
    html! {
        b { (say::counted(root.holds.len(), "activity", "activities")) }
        @if root.days > 0 {
            " and " b { (say::counted(root.days.unsigned_abs() as usize, "day", "days")) } " of the finish"
        }
    }
}

/// What to press when the cause is gone, or a date for it is known.
fn mend(visit: &Visit, index: usize, cause: &Cause) -> Markup {
    let network = &visit.picture.outlook.network;
    match cause {
        Cause::Arrival(id) | Cause::Hold(id) | Cause::Decision(id) => {
            let Some(task) = network.task(*id) else {
                return html! {};
            };
            let dated = Act::Promised.kind(&task.work).is_some();
            // A test that is not to be had yet can neither pass nor fail.
            let is_early = matches!(cause, Cause::Hold(_))
                && visit.picture.outlook.startable[id.index()].is_none();
            html! {
                @if !is_early { (row::buttons(visit, task, &visit.words().task(*id))) }
                @if dated { (date_form(visit, task, index)) }
            }
        }
        Cause::Problem(date) => match network.date_why(*date) {
            Some(DateWhy::Problem { subject, words, .. }) => html! {
                form class="form" method="post" action=(visit.to("notes")) data-act {
                    (row::hidden(visit, &subject.to_string()))
                    p class="form-do" {
                        button class="can" name="act" value=(row::value(Act::Cleared)) {
                            "Cleared" span class="said" { ": " (words) }
                        }
                    }
                }
            },
            _ => html! {},
        },
        Cause::HeldUp(held) => match network.held.get(*held) {
            Some(held) => html! {
                p class="go" {
                    a class="can" href=(to_settle(visit, &held.key)) {
                        "Measure or settle it" span class="said" { ": " (held.matter) }
                    }
                }
            },
            None => html! {},
        },
        Cause::Shut(id) | Cause::InHand(id) => match network.task(*id) {
            Some(task) => row::buttons(visit, task, &visit.words().task(*id)),
            None => html! {},
        },
        Cause::Crews(_) | Cause::Room(_) | Cause::Drying(_) | Cause::Air(_) | Cause::Booking(_) => {
            html! {}
        }
    }
}

/// The page on which something is settled: of a rule, whose key has its thing after a stroke, or of a
/// fit.
fn to_settle(visit: &Visit, key: &str) -> String {
    if visit.picture.rules.get(key).is_some() {
        rules::address(visit, key)
    } else {
        fit::address(visit, key)
    }
}

fn date_word(work: &Work) -> &'static str {
    match work {
        Work::Pass(_) => "Booked for a day",
        Work::Decide(_) => "An answer is promised",
        _ => "A date was given",
    }
}

fn date_form(visit: &Visit, task: &Task, index: usize) -> Markup {
    let field = format!("d-{index}");
    html! {
        details class="fold" {
            summary { (date_word(&task.work)) span class="said" { " for " (task.name) } }
            form class="form" method="post" action=(visit.to("notes")) data-act {
                (row::hidden(visit, &task.key))
                input type="hidden" name="act" value=(row::value(Act::Promised));
                div class="field" {
                    label for=(field) { "Which day" }
                    input id=(field) type="date" name="when" required;
                }
                p class="form-do" { button class="do" { "Write it down" } }
            }
        }
    }
}
