//! Setting out from figures that are typed: a list of what can be asked, and a form for each, whose
//! answer stands in its own address.

use grounds_draw::{Scale, on_every_medium};
use grounds_lines::asked::{Answer, Field, Kind, Question, Table, Typed, Wrong};
use grounds_measure::Units;
use maud::{Markup, PreEscaped, html};

use crate::{
    fit::set_out::{Known, drawing, known},
    pages::cautions::LOCAL_CODE,
    visit::{Visit, encode},
};

/// Rows of a table that stand in the open.
const ROWS: usize = 60;

/// The way there, at the end of the page of fit.
pub(super) fn short(visit: &Visit) -> Markup {
    html! {
        section class="part" aria-labelledby="set-out" {
            h2 id="set-out" { a href=(visit.to("fit/set-out")) { "Set out" } }
            p { "From figures you type: equal gaps, boards and tiles, risers, cut lists, pockets, wood over the year, shims." }
        }
    }
}

/// The list of what can be asked.
pub(crate) fn set_out_list(visit: &Visit) -> Markup {
    html! {
        header class="opening" {
            p class="place-line" { a href=(visit.to("fit")) { "Fit" } }
            h1 { "Set out from figures you type." }
            p class="lead" { "Each answer stands in its address: keep the link, send it, or print the page." }
        }
        ul class="rows plain" {
            @for question in Question::ALL {
                li class="row" {
                    div class="row-words" {
                        h2 class="row-name" { a href=(address(visit, question)) { (question.title()) } }
                        p class="row-why" { (question.tells()) }
                    }
                }
            }
        }
    }
}

fn address(visit: &Visit, question: Question) -> String {
    visit.to(&format!("fit/set-out/{}", question.word()))
}

/// The page of one question, and whether what was typed could be read.
pub(crate) fn set_out(visit: &Visit, question: Question) -> (Markup, bool) {
    let units = visit.picture.job.job.units;
    let known = known(question, &visit.picture.job, &visit.picture.fit);
    let is_asked = question
        .fields()
        .iter()
        .any(|field| visit.query.contains_key(field.key));
    let first = known.first().filter(|_| !is_asked);
    let typed = match first {
        Some(known) => known.typed.clone(),
        None => visit.query.clone(),
    };
    // What a job fills in may be a part of what is needed: nothing is wrong yet then.
    let answer = (is_asked || first.is_some()).then(|| question.answer(&typed, units));
    let (answer, wrong) = match answer {
        Some(Ok(answer)) => (Some(answer), Vec::new()),
        Some(Err(wrong)) if is_asked => (None, wrong),
        _ => (None, Vec::new()),
    };
    let page = html! {
        header class="opening" {
            p class="place-line" {
                a href=(visit.to("fit/set-out")) { "Set out" } ", " (lower(question.title()))
            }
            (said(question, answer.as_ref(), &wrong))
        }
        @if let Some(known) = first {
            p class="soft" { "Filled in from the job: " (known.name) "." }
        }
        div class="columns fit-columns" {
            div {
                @if let Some(answer) = &answer { (worked(question, answer, units)) }
                @else { p class="nothing" { "The answer, its drawing and its working come here." } }
            }
            div {
                (form(visit, question, &typed, &wrong))
                (offered(visit, question, &known))
            }
        }
    };
    (page, wrong.is_empty())
}

fn lower(title: &str) -> String {
    grounds_sequence::words::lower_first(title)
}

fn said(question: Question, answer: Option<&Answer>, wrong: &[Wrong]) -> Markup {
    html! {
        @match (answer, wrong) {
            (Some(answer), _) => {
                h1 { (held_together(&answer.said)) }
                @if !answer.then.is_empty() { p class="lead" { (answer.then) } }
            }
            (None, []) => {
                h1 { (question.title()) "." }
                p class="lead" { (question.tells()) }
            }
            (None, wrong) => {
                h1 { "That cannot be read yet." }
                @for wrong in wrong.iter().take(12) {
                    p class="notice" role="alert" { a href={ "#" (wrong.field) } { (wrong.said) } }
                }
            }
        }
    }
}

/// A sentence whose figures keep their unit beside them where lines break.
fn held_together(said: &str) -> String {
    said.replace(" mm", "\u{a0}mm")
}

fn worked(question: Question, answer: &Answer, units: Units) -> Markup {
    html! {
        div class="sections" {
            (PreEscaped(on_every_medium(Scale::Fifth, |medium| drawing(question, answer, units, medium))))
        }
        section class="part" aria-labelledby="working" {
            h2 id="working" { "Working" }
            ul class="reasons" { @for line in &answer.working { li { (line) } } }
        }
        (table(&answer.table))
        section class="part" aria-labelledby="caution" {
            h2 id="caution" { "Caution" }
            ul class="reasons" {
                @for line in answer.cautions { li { (line) } }
                li { (LOCAL_CODE) }
            }
        }
        section class="part" aria-labelledby="source" {
            h2 id="source" { "Where it comes from" }
            ul class="reasons" {
                @for source in &answer.sources { li { (source.what) " (" (source.grade.word()) ")" } }
            }
        }
    }
}

fn table(table: &Table) -> Markup {
    html! {
        @if !table.rows.is_empty() {
            section class="part" aria-labelledby="rows" {
                h2 id="rows" { (table.title) }
                div class="scrolls" tabindex="0" role="region" aria-label={ (table.title) ", as a table" } {
                    table class="table" {
                        thead { tr { @for head in table.heads { th scope="col" { (head) } } } }
                        tbody {
                            @for row in table.rows.iter().take(ROWS) {
                                tr { @for cell in row { td { (cell) } } }
                            }
                        }
                    }
                }
                @if table.rows.len() > ROWS { p class="soft" { "and " (table.rows.len() - ROWS) " more." } }
            }
        }
    }
}

fn form(visit: &Visit, question: Question, typed: &Typed, wrong: &[Wrong]) -> Markup {
    let units = visit.picture.job.job.units;
    html! {
        section class="part" aria-labelledby="figures" {
            h2 id="figures" { "Figures" }
            p class="soft" {
                @match units {
                    Units::Metric => "A bare figure is in millimetres.",
                    Units::Imperial => "A bare figure is in inches; feet and fractions as on a tape.",
                }
            }
            form class="form" method="get" action=(address(visit, question)) {
                @for each in question.fields() {
                    (field(each, units, typed, wrong.iter().find(|wrong| wrong.field == each.key)))
                }
                p class="form-do" { button class="do" { "Set it out" } }
            }
        }
    }
}

fn field(field: &Field, units: Units, typed: &Typed, wrong: Option<&Wrong>) -> Markup {
    let key = field.key;
    let value = typed.get(key).map_or(field.usual(units), String::as_str);
    let hint = field.hint(units);
    // What is wrong ends with the hint.
    let described = match (wrong.is_some(), hint.is_empty()) {
        (true, _) => Some(format!("{key}-fault")),
        (false, false) => Some(format!("{key}-hint")),
        (false, true) => None,
    };
    let invalid = wrong.map(|_| "true");
    html! {
        div class="field" {
            label for=(key) { (field.label) }
            @match field.kind {
                Kind::Choice(choices) => {
                    @let usual = choices.iter().any(|(word, _)| word.eq_ignore_ascii_case(value.trim()));
                    select id=(key) name=(key) aria-invalid=[invalid] aria-describedby=[described] {
                        @if !usual { option value=(value) selected { (crate::say::cut(value, 60)) } }
                        @for (word, label) in choices {
                            option value=(word) selected[word.eq_ignore_ascii_case(value.trim())] { (label) }
                        }
                    }
                }
                Kind::Lengths | Kind::Lines => {
                    textarea id=(key) name=(key) rows="4" aria-invalid=[invalid] aria-describedby=[described] { (value) }
                }
                Kind::Above | Kind::NotBelow | Kind::Count | Kind::Percent | Kind::Degrees => {
                    input id=(key) name=(key) value=(value) autocomplete="off" inputmode=(mode(field.kind, units))
                        aria-invalid=[invalid] aria-describedby=[described];
                }
            }
            @if let Some(wrong) = wrong { p class="fault" id={ (key) "-fault" } { (wrong.said) } }
            @else if !hint.is_empty() { p class="hint" id={ (key) "-hint" } { (hint) } }
        }
    }
}

fn mode(kind: Kind, units: Units) -> &'static str {
    match (kind, units) {
        (Kind::Count, _) => "numeric",
        (Kind::Above | Kind::NotBelow, Units::Imperial) => "text",
        _ => "decimal",
    }
}

/// What of the job can fill the form.
fn offered(visit: &Visit, question: Question, known: &[Known]) -> Markup {
    html! {
        @if !known.is_empty() {
            section class="part" aria-labelledby="known" {
                h2 id="known" { "From the job" }
                ul class="links" {
                    @for each in known {
                        li { a href={ (address(visit, question)) "?" (query(&each.typed)) } { (each.name) } }
                    }
                }
            }
        }
    }
}

/// What is typed as the query of an address.
fn query(typed: &Typed) -> String {
    let pairs = typed
        .iter()
        .map(|(key, text)| format!("{}={}", encode(key, ""), encode(text, "")));
    pairs.collect::<Vec<_>>().join("&")
}
