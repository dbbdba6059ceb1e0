//! Asking about what two people say of one thing at about the same time, and that cannot both be so.

use std::collections::BTreeMap;

use grounds_measure::Units;
use jiff::SignedDuration;

use crate::{
    house::{self, Aim},
    note::{Kind, Note, Value},
    questions::Questions,
    state::{Seen, Subject},
    words,
};

/// Two people who look at a thing within this time of each other saw the same thing. What one of
/// them says later than that is news.
const TOGETHER: SignedDuration = SignedDuration::from_mins(60);

/// Readings of one thing that lie further apart than this share of the larger do not go together.
const APART: f64 = 0.1;

/// Asks about every thing of which two people said different things at about the same time, for as
/// long as nobody has said more of it since. Notes are given in order of time.
pub(crate) fn ask(counting: &[&Note], questions: &mut Questions<'_>) {
    let mut of_each: BTreeMap<Subject, Vec<&Note>> = BTreeMap::new();
    for note in counting {
        if let Aim::One(subject) = house::aim(questions.job, &note.about) {
            of_each.entry(subject).or_default().push(note);
        }
    }
    for (subject, notes) in &of_each {
        let states: Vec<&Note> = notes
            .iter()
            .copied()
            .filter(|note| stand(note).is_some())
            .collect();
        last_two(&states, questions, subject);
        for readings in readings(notes).values() {
            last_two(readings, questions, subject);
        }
    }
}

/// What was read of a thing, by what it was.
fn readings<'a>(notes: &[&'a Note]) -> BTreeMap<String, Vec<&'a Note>> {
    let mut all: BTreeMap<String, Vec<&Note>> = BTreeMap::new();
    for note in notes
        .iter()
        .copied()
        .filter(|note| note.kind == Kind::Measured)
    {
        if let Some((what, _)) = note.value.as_ref().and_then(figure) {
            all.entry(what).or_default().push(note);
        }
    }
    all
}

/// Asks about the last note of a list and the one of somebody else nearest before it.
fn last_two(notes: &[&Note], questions: &mut Questions<'_>, subject: &Subject) {
    let Some((last, before)) = notes.split_last() else {
        return;
    };
    let near = |note: &&&Note| note.by != last.by && last.at.duration_since(note.at) <= TOGETHER;
    let Some(other) = before.iter().rev().find(near) else {
        return;
    };
    if !clash(other, last) {
        return;
    }
    let units = questions.job.job.units;
    let (first, then) = questions.clock.two(other.at, last.at);
    let words = format!(
        "{} noted {} {} on {first}, but {} noted it {} on {then}. Which is right? Until somebody says, the later word counts.",
        words::plain(&other.by),
        questions.name(subject),
        said(other, units),
        words::plain(&last.by),
        said(last, units),
    );
    let seen = [other, last].map(|note| Seen {
        at: note.at,
        note: note.id,
    });
    questions.ask(subject, &words, &seen);
}

fn clash(one: &Note, other: &Note) -> bool {
    if one.kind == Kind::Measured {
        return match (
            one.value.as_ref().and_then(figure),
            other.value.as_ref().and_then(figure),
        ) {
            (Some((_, a)), Some((_, b))) => (a - b).abs() > APART * a.abs().max(b.abs()),
            _ => false,
        };
    }
    match (stand(one), stand(other)) {
        (Some(a), Some(b)) => a != b,
        _ => false,
    }
}

/// Where a note takes its stand, if it takes one that another can contradict.
fn stand(note: &Note) -> Option<bool> {
    match note.kind {
        Kind::Done | Kind::Passed | Kind::Decided => Some(true),
        Kind::Undone | Kind::Failed | Kind::Problem => Some(false),
        _ => None,
    }
}

/// What was read, and the number at the head of the figure.
fn figure(value: &Value) -> Option<(String, f64)> {
    let (what, text) = match value {
        Value::Length(length) => ("length".to_owned(), length.mm().to_string()),
        Value::Temperature(temperature) => ("temperature".to_owned(), temperature.to_string()),
        Value::Humidity(humidity) => ("humidity".to_owned(), humidity.to_string()),
        Value::Reading { what, figure } => (what.trim().to_lowercase(), figure.clone()),
        Value::Share(_) | Value::When(_) => return None,
    };
    let text = text.trim();
    let is_part = |c: char| c.is_ascii_digit() || matches!(c, '.' | '-' | '+');
    let end = text.find(|c| !is_part(c)).unwrap_or(text.len());
    let number = text.get(..end)?.parse().ok()?;
    Some((what, number))
}

/// What a note says, for the middle of a sentence.
fn said(note: &Note, units: Units) -> String {
    match (note.kind, &note.value) {
        (Kind::Measured, Some(Value::Reading { figure, .. })) => {
            format!("measured at {}", words::plain(figure))
        }
        (Kind::Measured, Some(value)) => format!("measured at {}", value.in_words(units)),
        (Kind::Undone, _) => "not right".to_owned(),
        (Kind::Problem, _) => "in trouble".to_owned(),
        (kind, _) => kind.word().to_owned(),
    }
}
