//! More: the job itself, its questions, its files, and what this program is.

use maud::{DOCTYPE, Markup, html};

use crate::{
    pages::{cautions, cover, frame, rules, survey, talk},
    say,
    visit::{LONGEST_NAME, Visit},
};

/// The page of a job.
pub(crate) fn more(visit: &Visit) -> Markup {
    let job = &visit.picture.job;
    html! {
        header class="opening" {
            @if let Some(about) = &job.job.about { p class="place-line" { (about) } }
            h1 { (job.job.name) }
            p class="lead" { (size(visit)) }
        }
        div class="columns" {
            div { (pages(visit)) (who(visit)) (talk::way_here(visit)) (files(visit)) (about()) }
            div { (cover::way_here(visit)) (rules::way_here(visit)) (survey::way_here(visit)) (questions(visit)) }
        }
    }
}

fn size(visit: &Visit) -> String {
    let job = &visit.picture.job;
    let network = &visit.picture.outlook.network;
    format!(
        "{} on {}, {}, {}, {}. {} written down.",
        say::counted(job.places.len(), "place", "places"),
        say::counted(job.levels.len(), "level", "levels"),
        say::counted(job.trades.len(), "trade", "trades"),
        say::counted(job.pieces.len(), "piece", "pieces"),
        say::counted(network.tasks.len(), "activity", "activities"),
        say::counted(visit.picture.notes.len(), "note", "notes"),
    )
}

/// The pages that the bar has no room for on the phone.
fn pages(visit: &Visit) -> Markup {
    html! {
        section class="part phone-only" aria-labelledby="pages" {
            h2 id="pages" { "More pages" }
            p class="onward" {
                a class="can" href=(visit.to("house")) { "House" }
                " "
                a class="can" href=(visit.to("cover")) { "Cover" }
            }
        }
    }
}

fn who(visit: &Visit) -> Markup {
    if let Some(name) = visit.door.name() {
        return html! {
            section class="part" aria-labelledby="who" {
                h2 id="who" { "Who is writing?" }
                p { "This phone writes as " b { (name) } "." }
            }
        };
    }
    html! {
        section class="part" aria-labelledby="who" {
            h2 id="who" { "Who is writing?" }
            form class="form" method="post" action=(visit.to("who")) {
                div class="field" {
                    label for="name" { "Your name" }
                    input id="name" name="name" value=(visit.who) maxlength=(LONGEST_NAME) required
                        autocomplete="name" aria-describedby="name-hint";
                    p class="hint" id="name-hint" {
                        "Every note says who wrote it. This browser remembers the name."
                    }
                }
                p class="form-do" { button class="can" { "That is me" } }
            }
        }
    }
}

fn files(visit: &Visit) -> Markup {
    let job = &visit.picture.job;
    html! {
        section class="part" aria-labelledby="files" {
            h2 id="files" { "Take it with you" }
            ul {
                li { a href=(visit.to("job.toml")) download { "The job" } ", as it is designed (job.toml)" }
                li { a href=(visit.to("notes.jsonl")) download { "The notes" } ", one a line (notes.jsonl)" }
                li { a href={ "/api/jobs/" (visit.key) "/plan" } download="plan.json" { "The plan" } ", with its reasons (plan.json)" }
            }
            p { (advice(job)) }
            p { a href="/jobs" { "Other jobs" } }
            @if visit.door.is_desk() { p { a href=(visit.to("phones")) { "Phones that write with you" } } }
        }
    }
}

/// What the check of the document says.
fn advice(job: &grounds_model::Job) -> String {
    let Ok(text) = job.to_toml() else {
        return "The job document cannot be written.".to_owned();
    };
    let (_, faults) = grounds_model::examine("job.toml", &text);
    match faults.list.len() {
        0 => "The job document has no faults.".to_owned(),
        n => format!(
            "The job document can be used; there is advice on it: {}.",
            say::counted(n, "line", "lines")
        ),
    }
}

fn questions(visit: &Visit) -> Markup {
    let questions = &visit.picture.site.questions;
    html! {
        section class="part" aria-labelledby="questions" {
            h2 id="questions" { "Does not add up" }
            @if questions.is_empty() { p class="nothing" { "All notes add up." } }
            ul class="checks" {
                @for question in questions.iter().take(200) { li { (question.words) } }
            }
        }
    }
}

fn about() -> Markup {
    html! {
        section class="part" aria-labelledby="about" {
            h2 id="about" { "About Grounds" }
            p {
                "In plastering, grounds are the strips fixed to a wall that set the plane and the \
                 thickness of the finish. The word also means reasons."
            }
            p {
                "Dates are what follows from the job and its notes; they are no promise of any \
                 trade. " (cautions::LOCAL_CODE)
            }
            p class="soft" {
                "Version " (env!("CARGO_PKG_VERSION")) ". Set in Barlow Semi Condensed (SIL Open \
                 Font License). Nothing leaves this machine but to \
                 phones that joined."
            }
        }
    }
}

/// The list of jobs: key, name, number of notes.
pub(crate) fn jobs(jobs: &[(String, String, usize)]) -> Markup {
    html! {
        (DOCTYPE)
        html lang="en" {
            (frame::head("Jobs · Grounds"))
            body {
                main id="main" class="page" tabindex="-1" {
                    header class="opening" {
                        h1 { @if jobs.is_empty() { "No job yet." } @else { "Which house?" } }
                        @if jobs.is_empty() {
                            p class="lead" {
                                "Make one with " code { "grounds new my-house" } " and take it in with "
                                code { "grounds import my-house" } "."
                            }
                        }
                    }
                    ul class="rows plain" {
                        @for (key, name, notes) in jobs {
                            li class="row" {
                                div class="row-words" {
                                    h2 class="row-name" { a href={ "/j/" (key) "/now" } { (name) } }
                                    p class="row-why" { (say::counted(*notes, "note", "notes")) }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}
