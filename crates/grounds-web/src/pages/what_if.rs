//! What if: forms that suppose something, and what it would do to every milestone.

use grounds_schedule::ActivityId;
use grounds_sequence::{Reached, TaskState, Work, what_if::Supposed, words::upper_first};
use maud::{Markup, html};

use crate::{
    say,
    supposing::{Answer, Asked, Refusal},
    visit::Visit,
};

/// A form's choices: key and name.
type Choices<'a> = Vec<(&'a str, String)>;

/// The page, with what was supposed.
pub(crate) fn what_if(visit: &Visit, asked: Option<(&Asked, &Answer)>) -> Markup {
    let seen = match asked {
        Some((asked, Answer::Then(supposed))) => Some((asked, supposed.as_ref())),
        _ => None,
    };
    html! {
        header class="opening" {
            p class="place-line" { "What if" }
            @match seen {
                Some((_, supposed)) => (title(visit, supposed)),
                None => {
                    h1 { "What would it do?" }
                    p class="lead" { "Suppose something before it happens. Nothing is written down until you say that it is so." }
                }
            }
        }
        @if let Some((asked, supposed)) = seen { (effect(visit, asked, supposed)) }
        section class="part" aria-labelledby="suppose" {
            h2 id="suppose" { @if seen.is_some() { "Suppose something else" } @else { "Suppose" } }
            div class="suppose" { (forms(visit, asked)) }
        }
    }
}

fn title(visit: &Visit, supposed: &Supposed) -> Markup {
    let said = visit.words().what_if(supposed);
    let worst = supposed
        .effect
        .reached
        .iter()
        .min_by_key(|reached| reached.days);
    let then = match worst {
        Some(reached) if reached.days < 0 => format!(
            "{} comes {} later",
            name(visit, reached),
            say::counted(reached.days.unsigned_abs() as usize, "day", "days")
        ),
        _ => "no date comes later".to_owned(),
    };
    html! {
        h1 { (said.title) ": " (then) "." }
        p class="lead" { (said.cost) " Nothing is written down." }
    }
}

fn name(visit: &Visit, reached: &Reached) -> String {
    let milestone = reached
        .milestone
        .as_ref()
        .and_then(|id| visit.picture.job.milestones.get(id));
    milestone.map_or_else(
        || "the last finish".to_owned(),
        |milestone| format!("“{}”", milestone.name),
    )
}

fn effect(visit: &Visit, asked: &Asked, supposed: &Supposed) -> Markup {
    let said = visit.words().what_if(supposed);
    html! {
        div class="columns" {
            div {
                section class="part" aria-labelledby="dates" {
                    h2 id="dates" { "The dates" }
                    div class="scrolls" tabindex="0" role="region" aria-label="The dates, now and then" {
                        table class="table" {
                            thead { tr { th scope="col" { "Date" } th scope="col" { "As planned" } th scope="col" { "Then" } th scope="col" { "That is" } } }
                            tbody {
                                @for reached in &supposed.effect.reached { (date(visit, reached)) }
                            }
                        }
                    }
                }
                @for breach in said.breaches.iter().take(20) { p class="notice breach" { (breach) } }
                (enter(visit, asked, supposed, &said.enter))
            }
            div {
                section class="part" aria-labelledby="moves" {
                    h2 id="moves" { "The next ten working days" }
                    @if said.moves.is_empty() { p class="nothing" { "No start moves to another day." } }
                    ul class="reasons" { @for line in &said.moves { li { (line) } } }
                }
            }
        }
    }
}

fn date(visit: &Visit, reached: &Reached) -> Markup {
    let words = visit.words();
    html! {
        tr {
            td { (upper_first(&name(visit, reached))) }
            td { (words.day(reached.before)) }
            td { b { (words.day(reached.after)) } }
            td {
                @match reached.days {
                    0 => "the same",
                    n if n > 0 => { (say::counted(n.unsigned_abs() as usize, "day", "days")) " sooner" }
                    n => { b { (say::counted(n.unsigned_abs() as usize, "day", "days")) " later" } }
                }
            }
        }
    }
}

/// The button that makes it a note, where a note can say it.
fn enter(visit: &Visit, asked: &Asked, supposed: &Supposed, how: &[String]) -> Markup {
    html! {
        section class="part" aria-labelledby="enter" {
            h2 id="enter" { "If it is so" }
            @for line in how { p class="enter" { (line) } }
            @if !supposed.notes.is_empty() {
                form class="form" method="post" action=(visit.to("what-if/enter")) data-act {
                    (kept("kind", &asked.kind)) (kept("about", &asked.about))
                    (kept("on", &asked.on)) (kept("to", &asked.to))
                    input type="hidden" name="once" value=(visit.once);
                    p class="form-do" { button class="can" { "It is so: write it down" } }
                }
            }
        }
    }
}

fn kept(name: &str, value: &str) -> Markup {
    html! { input type="hidden" name=(name) value=(value); }
}

fn forms(visit: &Visit, asked: Option<(&Asked, &Answer)>) -> Markup {
    let job = &visit.picture.job;
    let trades: Choices<'_> = job
        .trades
        .iter()
        .map(|(id, trade)| (id.as_str(), trade.name.clone()))
        .collect();
    let kinds = [
        Kind {
            key: "arrives",
            title: "A delivery comes on another day",
            what: "What",
            choices: open(visit, is_arrival),
            days: &[("on", "On which day")],
        },
        Kind {
            key: "away",
            title: "A trade does not come",
            what: "Who",
            choices: trades,
            days: &[("on", "From"), ("to", "To, that day too")],
        },
        Kind {
            key: "fails",
            title: "A test or an inspection fails",
            what: "Which",
            choices: open(visit, is_pass),
            days: &[],
        },
        Kind {
            key: "decided",
            title: "A decision is made on another day",
            what: "Which",
            choices: open(visit, is_decision),
            days: &[("on", "On which day")],
        },
    ];
    let shown = |kind: &&Kind<'_>| !kind.choices.is_empty();
    let has_form = |asked: &Asked| kinds.iter().filter(shown).any(|k| k.key == asked.kind);
    html! {
        @if let Some((asked, Answer::Refused(refusal))) = asked && !has_form(asked) {
            p class="notice" role="alert" { (refusal.why) }
        }
        @for kind in kinds.iter().filter(shown) {
            (form(visit, kind, asked.filter(|(asked, _)| asked.kind == kind.key)))
        }
    }
}

/// A kind of thing that can be supposed.
struct Kind<'a> {
    key: &'a str,
    title: &'a str,
    what: &'a str,
    choices: Choices<'a>,
    /// The days that it asks for: field and label.
    days: &'a [(&'a str, &'a str)],
}

fn is_arrival(work: &Work) -> bool {
    matches!(work, Work::Arrive(_))
}

fn is_pass(work: &Work) -> bool {
    matches!(work, Work::Pass(_))
}

fn is_decision(work: &Work) -> bool {
    matches!(work, Work::Decide(_))
}

/// What is still to come of a kind, the soonest first.
fn open(visit: &Visit, kind: fn(&Work) -> bool) -> Choices<'_> {
    let outlook = &visit.picture.outlook;
    let mut ids: Vec<ActivityId> = outlook
        .network
        .open()
        .filter(|id| {
            let task = &outlook.network.tasks[id.index()];
            kind(&task.work) && task.state == TaskState::ToCome
        })
        .collect();
    ids.sort_by_key(|id| (outlook.plan.starts[id.index()], *id));
    let choice = |id: &ActivityId| {
        let task = outlook.network.task(*id)?;
        let key = match &task.work {
            Work::Arrive(id) | Work::Pass(id) | Work::Decide(id) => id.as_str(),
            _ => return None,
        };
        let when = visit.words().day(outlook.plan.starts[id.index()]);
        Some((key, format!("{} ({when})", task.name)))
    };
    ids.iter().filter_map(choice).collect()
}

/// A form, with what was typed into it.
fn form(visit: &Visit, kind: &Kind<'_>, asked: Option<(&Asked, &Answer)>) -> Markup {
    let wanted = asked.map_or(visit.asked("about"), |(asked, _)| {
        Some(asked.about.as_str())
    });
    let value = |name: &str| {
        asked.map_or("", |(asked, _)| match name {
            "on" => asked.on.as_str(),
            _ => asked.to.as_str(),
        })
    };
    let refusal = match asked {
        Some((_, Answer::Refused(refusal))) => Some(refusal),
        _ => None,
    };
    let why = format!("why-{}", kind.key);
    let wrong = |field: &str| refusal.is_some_and(|refusal| refusal.field == field);
    html! {
        form class="form" method="post" action=(visit.to("what-if")) data-act {
            h3 { (kind.title) }
            @if let Some(Refusal { why: words, .. }) = refusal {
                p class="notice" id=(why) role="alert" { (words) }
            }
            input type="hidden" name="kind" value=(kind.key);
            div class="field" {
                label for={ "about-" (kind.key) } { (kind.what) }
                select id={ "about-" (kind.key) } name="about"
                    aria-invalid=[wrong("about").then_some("true")]
                    aria-describedby=[wrong("about").then_some(&why)] {
                    @for (key, name) in &kind.choices {
                        option value=(key) selected[wanted == Some(*key)] { (name) }
                    }
                }
            }
            @for (name, label) in kind.days {
                div class="field" {
                    label for={ (name) "-" (kind.key) } { (label) }
                    input id={ (name) "-" (kind.key) } type="date" name=(name) value=(value(name)) required
                        aria-invalid=[wrong(name).then_some("true")]
                        aria-describedby=[wrong(name).then_some(&why)];
                }
            }
            p class="form-do" { button class="can" { "What then?" span class="said" { " " (kind.title) } } }
        }
    }
}
