//! One piece of work as a row: its stack, its words, its button.

use grounds_schedule::{ActivityId, Clock, End, Moment, Tick, Tread};
use grounds_sequence::{
    Sought, StartRow, Task, TaskState, Work,
    words::{lower_first, upper_first},
};
use maud::{Markup, html};

use crate::{acts, acts::Act, marks, pages::frame::without_wrote, visit::Visit};

/// A row for work that can start or is in hand.
pub(crate) fn row(visit: &Visit, start: &StartRow) -> Markup {
    let outlook = &visit.picture.outlook;
    let Some(task) = outlook.network.task(start.id) else {
        return html! {};
    };
    let name = visit.words().task(start.id);
    html! {
        li class="row" id=(row_id(task)) {
            (marks::of_task(&visit.picture, start.id))
            div class="row-words" {
                h4 class="row-name" { a href=(visit.to_work(&task.key)) { (name) } }
                p class="row-why" { (why(visit, start, task)) }
            }
            (buttons(visit, task, &name))
            (trouble(visit, task, &name))
        }
    }
}

/// The id of a row, the same from page to page.
pub(crate) fn row_id(task: &Task) -> String {
    row_id_of(&task.key)
}

/// The id of a row of that key.
pub(crate) fn row_id_of(key: &str) -> String {
    let plain = |c: char| {
        if c.is_ascii_alphanumeric() || c == '-' {
            c
        } else {
            '_'
        }
    };
    format!("a-{}", key.chars().map(plain).collect::<String>())
}

/// What there is to say of it in one or two lines.
fn why(visit: &Visit, start: &StartRow, task: &Task) -> Markup {
    let outlook = &visit.picture.outlook;
    let words = visit.words();
    let activity = &outlook.network.problem.activities[start.id.index()];
    let finish = outlook.plan.finishes[start.id.index()];
    html! {
        @if start.in_hand {
            "In hand since " b { (words.when(start.planned)) }
            ", should end " b { (words.when(finish)) } "."
        } @else {
            @if activity.work > 0 { b { (words.takes(start.id)) } ". " }
            @if start.planned > start.from {
                "Can wait: the plan starts it " b { (words.when(start.planned)) } "."
            } @else if start.from > outlook.network.now_tick() {
                "From " b { (words.when(start.from)) } "."
            }
        }
        @if let Some(by) = words.must_start_by(start.id) { " " b class="window" { (by) } }
        @if activity.unbroken { " Must not stop once begun." }
        @if let Some(shut) = shuts(visit, start.id) { " " (shut) }
        @if !start.opens.is_empty() { " " (opens(visit, task, &start.opens)) }
        @if task.limited_by_air { " Watch the air: it has limits." }
    }
}

/// `Opens 4 things, measure glass first.`
fn opens(visit: &Visit, task: &Task, opened: &[ActivityId]) -> String {
    let network = &visit.picture.outlook.network;
    let Some((first, next)) = opened
        .first()
        .and_then(|id| Some((*id, network.task(*id)?)))
    else {
        return String::new();
    };
    // In the same place the place goes without saying.
    let name = match next.work {
        Work::Layer(_) if next.where_ == task.where_ => lower_first(&next.name),
        _ => lower_first(&visit.words().task(first)),
    };
    match opened.len() {
        1 => format!("Opens {name}."),
        n => format!("Opens {n} things, {name} first."),
    }
}

/// `Shuts the mill hall until Fri 12 June 12:00, and cuts off 4 more.`
pub(crate) fn shuts(visit: &Visit, id: ActivityId) -> Option<String> {
    let network = &visit.picture.outlook.network;
    let activity = network.problem.activities.get(id.index())?;
    let closure = activity
        .closes
        .iter()
        .filter(|closure| closure.bars <= Tread::Boots)
        .max_by_key(|closure| moment(visit, closure.until, id))?;
    let place = network
        .node_name(closure.node)
        .map(|id| visit.words().place(id))?;
    let until = visit.words().when(moment(visit, closure.until, id));
    let more = match network.cut_off_by(closure.node).len().saturating_sub(1) {
        0 => String::new(),
        n => format!(", and cuts off {n} more"),
    };
    Some(format!(
        "Shuts {} until {until}{more}.",
        with_article(&place)
    ))
}

/// A place's name in the middle of a sentence.
fn with_article(place: &str) -> String {
    let name = lower_first(place);
    if name.starts_with("the ") {
        name
    } else {
        format!("the {name}")
    }
}

/// When a closure begins or ends by the plan.
pub(crate) fn moment(visit: &Visit, moment: Moment, id: ActivityId) -> Tick {
    let outlook = &visit.picture.outlook;
    let base = match moment.end {
        End::Start => outlook.plan.starts[id.index()],
        End::Finish => outlook.plan.finishes[id.index()],
    };
    let problem = &outlook.network.problem;
    match moment.clock {
        Clock::Elapsed => base.saturating_add(moment.after),
        Clock::On(calendar) => problem
            .calendars
            .get(calendar.index())
            .and_then(|calendar| calendar.add(base, moment.after))
            .unwrap_or(problem.horizon),
    }
}

/// The form with the buttons of a piece of work.
pub(crate) fn buttons(visit: &Visit, task: &Task, name: &str) -> Markup {
    if let (Work::Look(Sought::Face(_)), Some(place)) = (&task.work, &task.place) {
        return html! {
            p class="row-do" {
                a class="can" href={ (visit.to("survey/in/")) (place) } {
                    "Mark it" span class="said" { ": " (lower_first(name)) }
                }
            }
        };
    }
    let buttons = acts::buttons(task);
    if buttons.is_empty() {
        return html! {};
    }
    let about = lower_first(name);
    let is_main = |act: Act| !matches!(act, Act::Start | Act::Failed | Act::Missing);
    html! {
        form class="row-do" method="post" action=(visit.to("notes")) data-act {
            (hidden(visit, &task.key))
            @for (act, word) in buttons {
                button class=(if is_main(act) && task.state == TaskState::InHand { "do" } else { "can" })
                    name="act" value=(value(act)) {
                    (word) span class="said" { ": " (about) }
                }
            }
        }
    }
}

/// The fold in which trouble with a piece of work is written down.
pub(crate) fn trouble(visit: &Visit, task: &Task, name: &str) -> Markup {
    let id = row_id(task);
    html! {
        details class="row-more fold trouble" {
            summary { "Trouble" span class="said" { " with " (lower_first(name)) } }
            (trouble_form(visit, &task.key, &id))
        }
    }
}

/// The form in which trouble is written down.
pub(crate) fn trouble_form(visit: &Visit, task_key: &str, id: &str) -> Markup {
    html! {
        form class="form" method="post" action=(visit.to("notes")) data-act {
            (hidden(visit, task_key))
            input type="hidden" name="act" value="trouble";
            div class="field" {
                label for={ "w-" (id) } { "What stands in the way?" }
                textarea id={ "w-" (id) } name="words" rows="2" maxlength="2000" required
                    aria-describedby={ "h-" (id) } {}
                p class="hint" id={ "h-" (id) } { "As you would say it on the phone." }
            }
            div class="field" {
                label for={ "u-" (id) } { "Until when, if you know" }
                input id={ "u-" (id) } type="date" name="when";
            }
            p class="form-do" { button class="do" { "Write it down" } }
        }
    }
}

/// What every form about a piece of work carries.
pub(crate) fn hidden(visit: &Visit, task_key: &str) -> Markup {
    html! {
        input type="hidden" name="about" value=(task_key);
        input type="hidden" name="once" value=(visit.once);
        input type="hidden" name="back" value=(without_wrote(&visit.path));
    }
}

/// The word of an act in a form.
pub(crate) fn value(act: Act) -> &'static str {
    match act {
        Act::Start => "start",
        Act::Missing => "missing",
        Act::Finish => "finish",
        Act::Passed => "passed",
        Act::Failed => "failed",
        Act::Trouble => "trouble",
        Act::Cleared => "cleared",
        Act::Promised => "promised",
    }
}

/// A line about a piece of work: its name as a link, when, and for how long.
pub(crate) fn line(visit: &Visit, id: ActivityId) -> Markup {
    let outlook = &visit.picture.outlook;
    let words = visit.words();
    let Some(task) = outlook.network.task(id) else {
        return html! {};
    };
    html! {
        li class="row" {
            div class="row-words" {
                p class="row-name" { a href=(visit.to_work(&task.key)) { (words.task(id)) } }
                p class="row-why" { (upper_first(&words.when(outlook.plan.starts[id.index()]))) }
            }
        }
    }
}
