//! One thing that nobody knows: why it matters, what it costs to find out, and what was decided.

use grounds_sequence::words::{lower_first, upper_first};
use grounds_survey::{
    Unknown,
    unknowns::{Decided, Estimate},
};
use maud::{Markup, html};

use super::{hidden, look_word};
use crate::{
    say,
    visit::{LONGEST_NAME, Visit},
};

/// The unknown, with its buttons.
pub(super) fn card(visit: &Visit, it: &Unknown) -> Markup {
    let id = id_of(it);
    html! {
        article class="cause unknown" id=(id) {
            h3 { (it.asks) }
            @for because in &it.because { p { (because) } }
            (cost(visit, it))
            @match &it.decided {
                Some(decided) => {
                    p class="survey-decided" { (decided_words(visit, decided)) }
                    details class="fold" {
                        summary { "Decide anew" span class="said" { ": " (it.asks) } }
                        (choices(visit, it, &id))
                    }
                },
                None => (choices(visit, it, &id)),
            }
        }
    }
}

fn id_of(it: &Unknown) -> String {
    let plain = |c: char| if c.is_ascii_alphanumeric() { c } else { '-' };
    format!("u-{}", it.key.chars().map(plain).collect::<String>())
}

/// Until when to look, and what it costs if it is not there.
fn cost(visit: &Visit, it: &Unknown) -> Markup {
    let words = visit.words();
    html! {
        @if let Some((next, at)) = it.buried_by {
            p {
                "Look before " b { (words.when(at)) } ": " (lower_first(&words.task(next)))
                " goes over it then."
            }
        }
        @if let Some(missing) = &it.missing {
            p {
                "If it is not there: about " b { (say::counted(missing.days as usize, "day", "days")) }
                @if let Some(cents) = missing.cents { " and " b { (words.money(cents)) } " of wages" }
                " to open, do it and put it back."
            }
            details class="fold" {
                summary { "The working" span class="said" { ": " (it.asks) } }
                ul class="working-lines" {
                    @for (how, estimate) in &it.ways {
                        @for line in &estimate.working { li { (look_word(*how)) ": " (line) } }
                    }
                    @for line in &missing.working { li { (upper_first(line)) } }
                    li class="soft" {
                        "An estimate: half the time of putting on to take off, one after another, days of 8 h; without material."
                    }
                }
            }
        }
    }
}

fn decided_words(visit: &Visit, decided: &Decided) -> Markup {
    let words = visit.words();
    match decided {
        Decided::Look { how, work, .. } => html! {
            "Decided: " (lower_first(look_word(*how)))
            @if let Some(id) = work {
                @let network = &visit.picture.outlook.network;
                @let start = visit.picture.outlook.plan.starts[id.index()];
                @if let Some(task) = network.task(*id) {
                    ", planned " b { (words.when(start)) } ". "
                    a href=(visit.to_work(&task.key)) { (words.task(*id)) }
                }
            }
        },
        Decided::LetGo(seen) => {
            let note = visit.picture.site.notes.get(&seen.note);
            let by = note.map_or("somebody", |note| note.by.as_str());
            let why = note.and_then(|note| note.words.as_deref()).unwrap_or("");
            html! {
                "Let go by " b { (by) } ", " (say::short(seen.at, visit.picture.zone())) ": “" (why) "”"
            }
        }
    }
}

fn choices(visit: &Visit, it: &Unknown, id: &str) -> Markup {
    html! {
        form class="survey-ways" method="post" action=(visit.to("survey/decide")) data-act {
            (hidden(visit))
            input type="hidden" name="unknown" value=(it.key);
            @for (how, estimate) in &it.ways {
                button class="can" name="how" value=(how.word()) {
                    (look_word(*how)) span class="soft" { (in_short(visit, estimate)) }
                    span class="said" { ": " (it.asks) }
                }
            }
        }
        details class="fold" {
            summary { "Let it go" span class="said" { ": " (it.asks) } }
            form class="form" method="post" action=(visit.to("survey/decide")) data-act {
                (hidden(visit))
                input type="hidden" name="unknown" value=(it.key);
                div class="field" {
                    label for={ "by-" (id) } { "Who lets it go" }
                    input id={ "by-" (id) } name="by" value=(visit.who) maxlength=(LONGEST_NAME) required autocomplete="name";
                }
                div class="field" {
                    label for={ "why-" (id) } { "Why that will do" }
                    textarea id={ "why-" (id) } name="words" rows="2" maxlength="2000" required {}
                }
                p class="form-do" { button class="can" { "Let it go" } }
            }
        }
    }
}

/// ` · 2 h · £80`
fn in_short(visit: &Visit, estimate: &Estimate) -> String {
    if estimate.minutes == 0 {
        return String::new();
    }
    let hours = estimate.minutes / 60;
    let time = match (hours, estimate.minutes % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {minutes} min"),
    };
    match estimate.cents.filter(|cents| *cents > 0) {
        Some(cents) => format!(" · {time} · {}", visit.words().money(cents)),
        None => format!(" · {time}"),
    }
}
