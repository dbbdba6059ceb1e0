//! Now: what can start, what holds the rest, what is about to be covered.

use std::collections::BTreeMap;

use grounds_model::Id;
use grounds_sequence::{StartRow, TaskState, Work};
use maud::{Markup, html};

use crate::{
    pages::{cause, cover, fit, live, row, survey},
    say,
    visit::Visit,
};

/// Rows of one trade that stand in the open at most; the rest fold away.
const SHOWN_OF_TRADE: usize = 6;

/// Questions that stand in the open.
const SHOWN_QUESTIONS: usize = 4;

/// Said of the chances until they are known.
const NOT_YET: &str = "How sure the dates are is being worked out.";

/// The page.
pub(crate) fn now(visit: &Visit) -> Markup {
    html! {
        (opening(visit))
        (breaches(visit))
        div class="columns" {
            div { (starts(visit)) (decisions(visit)) }
            div { (cause::held_up(visit)) (cover::about_to_be_covered(visit)) (questions(visit)) }
        }
    }
}

fn opening(visit: &Visit) -> Markup {
    let words = visit.words();
    let first = visit
        .picture
        .outlook
        .roots
        .iter()
        .find(|root| root.weighs());
    html! {
        header class="opening" {
            h1 { (words.today()) }
            p class="lead" {
                @if let Some(root) = first {
                    a href="#held" { b { (words.cause_subject(&root.cause)) } } " holds the most: " (cause::figures(root)) ". "
                }
                span class="soft" { (words.forecast()) }
            }
            p class="lead" {
                a href=(visit.to("forecast")) data-live-chances {
                    (live::chances(visit).unwrap_or_else(|| NOT_YET.to_owned()))
                }
            }
            @if let Some(trouble) = fit::in_one_sentence(visit) {
                p class="lead" { a href=(visit.to("fit#trouble")) { (trouble) } }
            }
            @if let Some(why) = words.why_no_sooner() {
                details class="fold" {
                    summary { "Why no order of work ends sooner" }
                    p { (why) }
                }
            }
            (promises(visit))
            (survey::offered(visit))
            p class="onward" {
                a class="can" href=(visit.to("win-back")) { "Win time back" }
                a class="can" href=(visit.to("what-if")) { "What if" }
            }
            (live::live(visit, live::Of::Plan))
        }
    }
}

/// What the plan cannot meet, said plainly.
fn breaches(visit: &Visit) -> Markup {
    let breaches = visit.words().breaches();
    html! {
        @if !breaches.is_empty() {
            section class="part" aria-labelledby="cannot" {
                h2 id="cannot" { "Cannot be met" }
                @for sentence in breaches.iter().take(3) {
                    p class="notice breach" { (sentence) }
                }
                @if breaches.len() > 3 {
                    details class="fold" {
                        summary { (breaches.len() - 3) " more" }
                        @for sentence in breaches.iter().skip(3).take(200) {
                            p class="notice breach" { (sentence) }
                        }
                    }
                }
                @for clash in visit.words().clashes().iter().take(20) {
                    p { "These do not go together; one of them has to give:" }
                    ul class="reasons" {
                        @for part in clash { li { (part) } }
                    }
                }
            }
        }
    }
}

/// Starts that somebody was told and that the plan has on another day: who was told must hear of it.
fn promises(visit: &Visit) -> Markup {
    let moved = visit.words().moved_promises();
    let network = &visit.picture.outlook.network;
    let many = match moved.len() {
        0 => return html! {},
        1 => "One start that was promised moves: say so to whom it was promised".to_owned(),
        many => format!("{many} starts that were promised move: say so to whom they were promised"),
    };
    html! {
        details class="fold" {
            summary { (many) }
            ul class="reasons" {
                @for (id, said) in moved.iter().take(20) {
                    li {
                        (said) " "
                        @if let Some(task) = network.task(*id) {
                            a href=(visit.to_work(&task.key)) { "Why" span class="said" { ": " (task.name) } }
                        }
                    }
                }
            }
        }
    }
}

fn starts(visit: &Visit) -> Markup {
    let outlook = &visit.picture.outlook;
    let rows: Vec<StartRow> = outlook
        .starts()
        .into_iter()
        .filter(|row| {
            let task = &outlook.network.tasks[row.id.index()];
            !matches!(task.work, Work::Decide(_) | Work::Shut(_) | Work::Arrive(_))
        })
        .collect();
    let mut trades: BTreeMap<Option<&Id>, Vec<&StartRow>> = BTreeMap::new();
    for row in &rows {
        trades
            .entry(outlook.network.tasks[row.id.index()].trade.as_ref())
            .or_default()
            .push(row);
    }
    let mut trades: Vec<_> = trades.into_iter().collect();
    trades.sort_by_key(|(trade, rows)| {
        let in_hand = rows.iter().any(|row| row.in_hand);
        let planned = rows.iter().map(|row| row.planned).min();
        (!in_hand, planned, *trade)
    });
    html! {
        section class="part" aria-labelledby="can-start" {
            h2 id="can-start" { "In hand and can start" }
            @for (trade, rows) in trades { (of_trade(visit, trade, &rows)) }
            @if rows.is_empty() { p class="nothing" { "Nothing can start today." } }
        }
    }
}

fn of_trade(visit: &Visit, trade: Option<&Id>, rows: &[&StartRow]) -> Markup {
    let tonight = end_of_today(visit);
    let is_due = |row: &&&StartRow| row.in_hand || row.planned < tonight;
    let due = rows
        .iter()
        .take_while(is_due)
        .count()
        .clamp(1, SHOWN_OF_TRADE)
        .min(rows.len());
    let (open, folded) = rows.split_at(due);
    let name = trade.map_or_else(|| "Yourself".to_owned(), |id| visit.words().trade(id));
    html! {
        h3 class="trade" {
            (name)
            @if let Some(id) = trade { " " span { "· " (crews(visit, id, rows)) } }
        }
        ul class="rows" { @for start in open { (row::row(visit, start)) } }
        @if !folded.is_empty() {
            details class="fold" {
                summary { (folded.len()) " more can start" span class="said" { ": " (name) } }
                ul class="rows" { @for start in folded { (row::row(visit, start)) } }
            }
        }
    }
}

/// Midnight at the end of the day on site.
fn end_of_today(visit: &Visit) -> grounds_schedule::Tick {
    let network = &visit.picture.outlook.network;
    let today = network.clock.day(network.now_tick());
    network.clock.midnight(today.tomorrow().unwrap_or(today))
}

/// `1 of 2 crews at work`
fn crews(visit: &Visit, trade: &Id, rows: &[&StartRow]) -> String {
    let outlook = &visit.picture.outlook;
    let at_work = rows
        .iter()
        .filter(|row| outlook.network.tasks[row.id.index()].state == TaskState::InHand)
        .count();
    let design = visit.picture.job.trades.get(trade);
    if design.is_some_and(|design| design.authority) {
        return "authority".to_owned();
    }
    let crews = design.map_or(1, |design| design.crews) as usize;
    format!("{at_work} of {}", say::counted(crews, "crew", "crews"))
}

fn decisions(visit: &Visit) -> Markup {
    let outlook = &visit.picture.outlook;
    let network = &outlook.network;
    let mut open: Vec<_> = network
        .open()
        .filter(|id| matches!(network.tasks[id.index()].work, Work::Decide(_)))
        .map(|id| {
            (
                outlook
                    .opened_by(id)
                    .first()
                    .map(|next| outlook.plan.starts[next.index()]),
                id,
            )
        })
        .collect();
    open.sort_by_key(|(needed, id)| (needed.is_none(), *needed, *id));
    html! {
        @if !open.is_empty() {
            section class="part" aria-labelledby="decide" {
                h2 id="decide" { "Decisions to get" }
                ul class="rows plain" {
                    @for (_, id) in open { (decision(visit, id)) }
                }
            }
        }
    }
}

fn decision(visit: &Visit, id: grounds_schedule::ActivityId) -> Markup {
    let outlook = &visit.picture.outlook;
    let words = visit.words();
    let task = &outlook.network.tasks[id.index()];
    let holds = outlook.opened_by(id);
    html! {
        li class="row" id=(row::row_id(task)) {
            div class="row-words" {
                h3 class="row-name" { a href=(visit.to_work(&task.key)) { (task.name) } }
                p class="row-why" {
                    "By " (task.where_) ". "
                    "The plan takes " b { (words.when(outlook.plan.starts[id.index()])) } "."
                    @if !holds.is_empty() { " Waiting: " (words.list(&holds, 2)) "." }
                }
            }
            (row::buttons(visit, task, &task.name))
        }
    }
}

fn questions(visit: &Visit) -> Markup {
    let site = &visit.picture.site;
    let mut questions: Vec<_> = site.questions.iter().collect();
    // What came up last is asked first.
    questions.sort_by_key(|question| {
        let times = question.notes.iter().filter_map(|id| site.notes.get(id));
        std::cmp::Reverse(times.map(|note| note.at).max())
    });
    html! {
        @if !questions.is_empty() {
            section class="part" aria-labelledby="questions" {
                h2 id="questions" { "Does not add up" }
                ul class="checks" {
                    @for question in questions.iter().take(SHOWN_QUESTIONS) {
                        li { (question.words) }
                    }
                }
                @if questions.len() > SHOWN_QUESTIONS {
                    p { a href=(visit.to("more#questions")) {
                        "All " (say::counted(questions.len(), "question", "questions"))
                    } }
                }
            }
        }
    }
}
