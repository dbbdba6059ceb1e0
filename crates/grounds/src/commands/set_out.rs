//! `grounds set-out`: a row, a flight, a cut list, a pocket, a floor or shims, from figures typed.

use grounds_lines::asked::{Answer, Field, Kind, LONGEST_TEXT, Question, Typed};
use grounds_measure::Units;
use serde::Serialize;

use super::{show, show_json};
use crate::{
    arguments::{In, SetOut},
    asked::{nearest, quoted},
    ending::{Ending, Trouble},
    page::{ALARM, HEAD, PLAIN, Page, QUIET},
};

/// Rows of a table that are printed; all of them stand in the JSON.
const ROWS: usize = 40;

pub(super) fn run(asked: &SetOut) -> Result<Ending, Trouble> {
    let question = Question::named(&asked.what).ok_or_else(|| {
        let words: Vec<&str> = Question::ALL.iter().map(|it| it.word()).collect();
        Trouble::Input(format!(
            "{} cannot be set out; write one of {}, as in grounds set-out gaps clear=1830 piece=38 \
             under=102",
            quoted(&asked.what),
            words.join(", ")
        ))
    })?;
    let units = units(asked);
    if asked.given.is_empty() && !asked.json {
        show(wanted(question, units))?;
        return Ok(Ending::Fine);
    }
    let typed = typed(question, &asked.given)?;
    match question.answer(&typed, units) {
        Ok(answer) => {
            if asked.json {
                show_json(&File::of(question, units, &answer))?;
            } else {
                show(page(question, &answer))?;
            }
            Ok(if answer.does {
                Ending::Fine
            } else {
                Ending::CannotBeMet
            })
        }
        Err(wrong) => {
            let lines = wrong
                .iter()
                .map(|wrong| format!("{}= {}", wrong.field, wrong.said));
            Err(Trouble::Input(lines.collect::<Vec<_>>().join("\n")))
        }
    }
}

/// The units asked for, or those in which a figure is typed.
fn units(asked: &SetOut) -> Units {
    match asked.units {
        Some(In::Metric) => Units::Metric,
        Some(In::Imperial) => Units::Imperial,
        None if asked.given.iter().any(|text| is_in_inches(text)) => Units::Imperial,
        None => Units::Metric,
    }
}

/// Whether a figure is followed by a mark of feet or inches, or is a fraction.
fn is_in_inches(text: &str) -> bool {
    const MARKS: [&str; 9] = ["\"", "'", "″", "′", "”", "’", "in", "ft", "/"];
    let after = text.match_indices(|c: char| c.is_ascii_digit());
    let mut after = after.filter_map(|(at, digit)| text.get(at + digit.len()..));
    after.any(|rest| {
        let rest = rest.trim_start();
        MARKS.iter().any(|mark| rest.starts_with(mark))
    })
}

/// What was given, each under the key of a field.
fn typed(question: Question, given: &[String]) -> Result<Typed, Trouble> {
    let mut typed = Typed::new();
    for text in given {
        let Some((key, value)) = text.split_once('=') else {
            return Err(Trouble::Input(format!(
                "{} has no “=”; write what is given as KEY=VALUE, such as {}",
                quoted(text),
                example(question)
            )));
        };
        let key = key.trim();
        let keys = question.fields().iter().map(|field| field.key);
        if !keys.clone().any(|known| known == key) {
            let near = nearest(key, keys.clone(), 1);
            let mean = near
                .first()
                .map_or_else(|| ".".to_owned(), |near| format!("; did you mean {near}?"));
            let all: Vec<&str> = keys.collect();
            return Err(Trouble::Input(format!(
                "{} is nothing that {} asks for{mean} It asks for {}.",
                quoted(key),
                question.word(),
                all.join(", ")
            )));
        }
        if value.len() > LONGEST_TEXT {
            return Err(Trouble::Input(format!(
                "{key}= is more than {LONGEST_TEXT} characters; give a part of it at a time"
            )));
        }
        if typed.insert(key.to_owned(), value.to_owned()).is_some() {
            return Err(Trouble::Input(format!("{key}= is given twice; keep one")));
        }
    }
    Ok(typed)
}

fn example(question: Question) -> String {
    let needed = question.fields().iter().find(|field| field.is_needed);
    needed.map_or_else(String::new, |field| format!("{}=1830", field.key))
}

/// What can be given.
fn wanted(question: Question, units: Units) -> Page {
    let mut page = Page::default();
    page.heading(HEAD, question.title());
    page.paragraph(PLAIN, 0, question.tells());
    page.heading(HEAD, "What can be given");
    for field in question.fields() {
        page.row(2, &[(field.key, 9)], &described(field, units));
    }
    page
}

fn described(field: &Field, units: Units) -> String {
    let hint = match field.kind {
        Kind::Choice(choices) => {
            let words: Vec<&str> = choices.iter().map(|(word, _)| *word).collect();
            format!("One of: {}.", words.join("; "))
        }
        _ => field.hint(units).to_owned(),
    };
    let usual = field.usual(units);
    let left_out = if usual.is_empty() {
        String::new()
    } else {
        format!(" Left out: {usual}.")
    };
    format!("{}. {hint}{left_out}", field.label)
}

fn page(question: Question, answer: &Answer) -> Page {
    let mut page = Page::default();
    page.heading(if answer.does { HEAD } else { ALARM }, question.title());
    page.paragraph(PLAIN, 0, &answer.said);
    if !answer.then.is_empty() {
        page.paragraph(PLAIN, 0, &answer.then);
    }
    let table = &answer.table;
    if !table.rows.is_empty() {
        page.heading(HEAD, table.title);
        let widths: Vec<usize> = (0..table.heads.len())
            .map(|column| {
                let cells = table
                    .rows
                    .iter()
                    .take(ROWS)
                    .filter_map(|row| row.get(column));
                let widest = cells.map(|cell| cell.chars().count()).max().unwrap_or(0);
                let head = table.heads.get(column).map_or(0, |head| head.len());
                widest.max(head).min(40)
            })
            .collect();
        let heads: Vec<String> = table.heads.iter().map(|head| (*head).to_owned()).collect();
        for row in std::iter::once(&heads).chain(table.rows.iter().take(ROWS)) {
            if let Some((last, before)) = row.split_last() {
                let cells = before
                    .iter()
                    .map(String::as_str)
                    .zip(widths.iter().copied());
                page.row(2, &cells.collect::<Vec<_>>(), last);
            }
        }
        if table.rows.len() > ROWS {
            let more = format!("and {} more; --json lists them.", table.rows.len() - ROWS);
            page.paragraph(QUIET, 2, &more);
        }
    }
    list(
        &mut page,
        "Working",
        answer.working.iter().map(String::as_str),
    );
    list(&mut page, "Caution", answer.cautions.iter().copied());
    let sources: Vec<String> = answer
        .sources
        .iter()
        .map(|source| format!("{} ({})", source.what, source.grade.word()))
        .collect();
    list(
        &mut page,
        "Where it comes from",
        sources.iter().map(String::as_str),
    );
    page
}

fn list<'a>(page: &mut Page, title: &str, lines: impl Iterator<Item = &'a str>) {
    page.heading(HEAD, title);
    for line in lines {
        page.item(2, line);
    }
}

/// `grounds set-out --json`: the words of the answer and its rows.
#[derive(Debug, Serialize)]
struct File<'a> {
    asked: &'a str,
    units: Units,
    /// Whether what is asked for can be had.
    does: bool,
    said: &'a str,
    then: &'a str,
    heads: &'a [&'a str],
    rows: &'a [Vec<String>],
    working: &'a [String],
    cautions: &'a [&'a str],
    sources: Vec<From<'a>>,
}

/// Where a rule comes from.
#[derive(Debug, Serialize)]
struct From<'a> {
    what: &'a str,
    grade: &'a str,
}

impl<'a> File<'a> {
    fn of(question: Question, units: Units, answer: &'a Answer) -> Self {
        let sources = answer.sources.iter();
        Self {
            asked: question.word(),
            units,
            does: answer.does,
            said: &answer.said,
            then: &answer.then,
            heads: answer.table.heads,
            rows: &answer.table.rows,
            working: &answer.working,
            cautions: answer.cautions,
            sources: sources
                .map(|source| From {
                    what: source.what,
                    grade: source.grade.word(),
                })
                .collect(),
        }
    }
}
