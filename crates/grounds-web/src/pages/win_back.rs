//! Win time back: ways to reach a date sooner, each with what it wins, costs and asks of others.
//! Nothing is applied here; each way says how it is put into effect.

use grounds_model::Id;
use grounds_schedule::Tick;
use grounds_sequence::{
    Work,
    options::{Aim, Awaited, Means, Offer, Progress, Sooner},
    words::upper_first,
};
use maud::{Markup, html};

use crate::{
    acts::Act,
    pages::{live, row},
    say,
    visit::{Visit, encode},
    ways::{self, Found, Ways},
};

/// Ways that stand in the open; the rest fold away.
const SHOWN: usize = 6;

/// The page, for the date that the address names.
pub(crate) fn win_back(visit: &Visit) -> Markup {
    let aim = asked(visit);
    let known = visit.ways.get(ways::name(&aim));
    html! {
        header class="opening" {
            p class="place-line" { "Win time back" }
            h1 { (title(visit, &aim, known)) }
            p class="lead" { (lead(visit, &aim, known)) }
            @if matches!(known, Some(Ways::Trying(_))) { (live::live_at_once(visit, live::Of::Ways)) }
        }
        (form(visit, &aim, known))
        @if let Some(Ways::Found(found)) = known { (ways_found(visit, &aim, found)) }
    }
}

/// The date that the address names; the last finish where it names none of the job.
pub(crate) fn asked(visit: &Visit) -> Aim {
    let named = visit.asked("for").unwrap_or_default();
    ways::aim(&visit.picture, named).unwrap_or(Aim::LastFinish)
}

/// How far looking for ways has got, in words.
pub(crate) fn how_far(progress: Progress) -> String {
    match progress.of {
        0 => "Looking for ways to win time back.".to_owned(),
        of => format!(
            "Looking for ways to win time back: {} of {of} tried.",
            progress.done
        ),
    }
}

fn title(visit: &Visit, aim: &Aim, known: Option<&Ways>) -> String {
    match known {
        Some(Ways::Found(found)) => {
            let words = found.picture.words();
            format!("{}.", words.win_back(&found.win).title)
        }
        Some(Ways::None(why)) => format!("{}.", upper_first(why.trim_end_matches('.'))),
        _ => format!("What would bring {} forward?", date_name(visit, aim)),
    }
}

fn lead(visit: &Visit, aim: &Aim, known: Option<&Ways>) -> Markup {
    let words = visit.words();
    html! {
        @match known {
            Some(Ways::Found(found)) => {
                @match found.win.singles.len() + found.win.pairs.len() {
                    0 => "Nothing that was tried helps.",
                    n => { b { (upper_first(&grounds_sequence::words::count(n))) } " of " (found.win.tried) " things tried would win a day or more. Nothing is done until you do it." }
                }
            }
            _ => {
                @if let Some(at) = planned(visit, aim) { "The plan reaches it " b { (words.day(at)) } ". " }
                "Overtime, another crew, a sooner delivery, another order of work: each is planned and proved, and \
                 nothing is done until you do it."
            }
        }
    }
}

fn date_name(visit: &Visit, aim: &Aim) -> String {
    let name = aim
        .milestone()
        .and_then(|id| visit.picture.job.milestones.get(id));
    name.map_or_else(
        || "the last finish".to_owned(),
        |milestone| format!("“{}”", milestone.name),
    )
}

/// When the plan reaches a date.
fn planned(visit: &Visit, aim: &Aim) -> Option<Tick> {
    let outlook = &visit.picture.outlook;
    let Some(milestone) = aim.milestone() else {
        return Some(outlook.finish());
    };
    let reach = |id: &grounds_schedule::ActivityId| {
        let task = outlook.network.task(*id);
        task.is_some_and(|task| task.work == Work::Reach(milestone.clone()))
    };
    let id = outlook.network.open().find(reach)?;
    Some(outlook.plan.finishes[id.index()])
}

/// Which date, and the button that begins.
fn form(visit: &Visit, aim: &Aim, known: Option<&Ways>) -> Markup {
    let open = |id: &Id| planned(visit, &Aim::Milestone(id.clone())).is_some();
    let again = matches!(known, Some(Ways::Found(_)));
    let trying = matches!(known, Some(Ways::Trying(_)));
    html! {
        form class="tools asks" method="post" action=(visit.to("win-back")) data-act {
            label {
                "Which date"
                select name="for" {
                    option value="" selected[*aim == Aim::LastFinish] { "The last finish" }
                    @for (id, milestone) in visit.picture.job.milestones.iter().filter(|(id, _)| open(id)) {
                        option value=(id) selected[aim.milestone() == Some(id)] { (milestone.name) }
                    }
                }
            }
            button class=(if again || trying { "can" } else { "do" }) disabled[trying] {
                @if again { "Look again" } @else { "Look for ways" }
            }
        }
    }
}

fn ways_found(visit: &Visit, aim: &Aim, found: &Found) -> Markup {
    let said = found.picture.words().win_back(&found.win);
    let stale = found.picture.edition != visit.picture.edition;
    html! {
        @if stale {
            p class="notice" { "The plan has changed since this was worked out. Look again before you go by it." }
        }
        div class="columns" {
            div {
                (list(visit, aim, found, "One thing done", &found.win.singles, stale))
                (list(visit, aim, found, "Two things together", &found.win.pairs, stale))
            }
            div {
                (sentences("hangs-on", "What the date hangs on", &said.hangs_on))
                (sentences("nothing", "Why nothing helps", &said.nothing))
                (sentences("left-out", "What is not offered", &said.left_out))
            }
        }
    }
}

fn sentences(id: &str, title: &str, lines: &[String]) -> Markup {
    html! {
        @if !lines.is_empty() {
            section class="part" aria-labelledby=(id) {
                h2 id=(id) { (title) }
                ul class="reasons" { @for line in lines { li { (line) } } }
            }
        }
    }
}

fn list(
    visit: &Visit,
    aim: &Aim,
    found: &Found,
    title: &str,
    offers: &[Offer],
    stale: bool,
) -> Markup {
    let (open, more) = offers.split_at(offers.len().min(SHOWN));
    let id = if title.starts_with("One") {
        "one"
    } else {
        "two"
    };
    html! {
        @if !offers.is_empty() {
            section class="part" aria-labelledby=(id) {
                h2 id=(id) { (title) }
                @for (index, each) in open.iter().enumerate() { (offer(visit, aim, found, each, &format!("{id}-{index}"), stale)) }
                @if !more.is_empty() {
                    details class="fold" {
                        summary { (say::counted(more.len(), "way more", "ways more")) }
                        @for (index, each) in more.iter().enumerate() {
                            (offer(visit, aim, found, each, &format!("{id}-{}", index + SHOWN), stale))
                        }
                    }
                }
            }
        }
    }
}

/// One way: what it wins in large figures at the left, the rest in sentences.
fn offer(visit: &Visit, aim: &Aim, found: &Found, offer: &Offer, id: &str, stale: bool) -> Markup {
    let words = found.picture.words();
    let said = words.offer(&found.win, offer);
    let moves = words.moves(&offer.effect);
    html! {
        article class="way" id={ "way-" (id) } {
            p class="way-won" { b { (offer.won) } " " (if offer.won == 1 { "day" } else { "days" }) }
            div {
                h3 { (said.title) }
                p { (said.gain) " " (said.cost) }
                @for other in &said.others { p { (other) } }
                @for caution in &said.cautions { p class="soft" { (caution) } }
                @if !said.hear.is_empty() || !moves.is_empty() {
                    details class="fold" {
                        summary { "Who must hear of it" span class="said" { ": " (said.title) } }
                        ul class="reasons" { @for line in &said.hear { li { (line) } } }
                        @if !moves.is_empty() {
                            p { "What moves in the next ten working days:" }
                            ul class="reasons" { @for line in &moves { li { (line) } } }
                        }
                    }
                }
                details class="fold" {
                    summary { "How to put it into effect" span class="said" { ": " (said.title) } }
                    @for (means, how) in offer.means.iter().zip(&said.enter) {
                        p class="enter" { (how) }
                        (does_it(visit, aim, found, means, id, stale))
                    }
                }
            }
        }
    }
}

/// The form that puts it into effect, where one does.
fn does_it(
    visit: &Visit,
    aim: &Aim,
    found: &Found,
    means: &Means,
    id: &str,
    stale: bool,
) -> Markup {
    match means {
        Means::Sooner(sooner) if !matches!(sooner.what, Awaited::Booking(_)) => {
            date_form(visit, found, sooner, id)
        }
        Means::Order if !stale => html! {
            form class="form" method="post" action=(visit.to("win-back/order")) data-act {
                input type="hidden" name="for" value=(ways::name(aim));
                p class="form-do" { button class="can" { "Keep to this order" } }
            }
        },
        _ => html! {},
    }
}

/// Writes a date down once it is agreed.
fn date_form(visit: &Visit, found: &Found, sooner: &Sooner, id: &str) -> Markup {
    let network = &found.picture.outlook.network;
    let Some(task) = network.find(&sooner.key).and_then(|id| network.task(id)) else {
        return html! {};
    };
    let field = format!("by-{id}-{}", row::row_id(task));
    html! {
        form class="form" method="post" action=(visit.to("notes")) data-act {
            (row::hidden(visit, &task.key))
            input type="hidden" name="act" value=(row::value(Act::Promised));
            div class="field" {
                label for=(field) { "Which day was agreed for " (task.name) }
                input id=(field) type="date" name="when" required value=(network.clock.day(sooner.by));
            }
            p class="form-do" { button class="can" { "Write it down" } }
        }
    }
}

/// The address of this page for a date.
pub(crate) fn address(visit: &Visit, aim: &Aim) -> String {
    match ways::name(aim) {
        "" => visit.to("win-back"),
        date => visit.to(&format!("win-back?for={}", encode(date, ""))),
    }
}
