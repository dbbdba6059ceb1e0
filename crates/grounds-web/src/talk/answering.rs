//! Answers: what was proposed is accepted, mended or refused, one by one or together.

use axum::{
    Form,
    extract::{Path, rejection::FormRejection},
    http::StatusCode,
    response::{IntoResponse, Redirect, Response},
};
use grounds_model::Ref;
use grounds_site::{Kind, Note, Value};
use grounds_store::{Answer, WalkAnswer};
use grounds_walk::file::{Choice, Entry, Mended, as_chosen, can_be_said};
use serde::Deserialize;
use uuid::Uuid;

use super::{Least, Status, Talk, entry_of, figure, id_of};
use crate::{
    acts,
    fault::Fault,
    looking::{Looking, Lost},
    pages::{self, Tab, frame},
    say,
    visit::Visit,
    writing::{not_understood, saying},
};

/// What is answered.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Given {
    /// As proposed.
    Accept,
    /// As the form has it.
    Mend,
    /// Not at all.
    Refuse,
    /// The answer is taken back.
    Reopen,
}

/// A form that answers.
#[derive(Debug, Deserialize)]
pub(crate) struct Answered {
    tie: String,
    answer: Given,
    /// What it is about, by reference; several with spaces between.
    #[serde(default)]
    pub(crate) about: String,
    #[serde(default)]
    pub(crate) kind: String,
    #[serde(default)]
    pub(crate) day: String,
    #[serde(default)]
    pub(crate) figure: String,
    /// The test that it passes is noted too.
    #[serde(default)]
    passes: String,
}

/// A form that accepts several.
#[derive(Debug, Deserialize)]
pub(crate) struct Together {
    least: Least,
}

/// Answers `POST /j/{job}/walks/{id}/answer`.
pub(crate) async fn answer(
    looking: Looking,
    Path((_, id)): Path<(String, String)>,
    form: Result<Form<Answered>, FormRejection>,
) -> Result<Response, Lost> {
    let Form(answered) = form.map_err(not_understood)?;
    let talk = Talk::open(&looking, id_of(&id)).await?;
    let visit = &looking.visit;
    let back = visit.to(&format!("walks/{}", talk.kept.head.id));
    let lost = |fault: Fault| Lost::new(fault).back_to(&back);
    if answered.answer == Given::Reopen {
        let (answers, notes) = reopened(visit, &talk, &answered.tie);
        let wrote = write(&looking, &talk, answers, notes).await.map_err(lost)?;
        return Ok(seen(&talk, visit, &answered.tie, wrote));
    }
    let entry = entry_of(visit, &talk, &answered.tie)?;
    let says = match answered.answer {
        Given::Accept => Some(accepted(visit, &talk, entry, &answered).map_err(lost)?),
        Given::Mend => match mended(visit, &answered) {
            Ok(says) => Some(says),
            Err(why) => {
                let page = pages::mend(visit, &talk, entry, Some((&answered, &why)));
                let page = frame(visit, "Mend it", Some(Tab::Walk), &page);
                return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
            }
        },
        Given::Refuse | Given::Reopen => None,
    };
    let is_open = talk.status(&answered.tie, &visit.picture) == Status::Open;
    let mut wrote = None;
    if is_open {
        let passes = !answered.passes.is_empty();
        let notes = says.map_or_else(Vec::new, |says| {
            notes_of(visit, &talk, entry, &says, passes)
        });
        let kind = match answered.answer {
            Given::Accept => Answer::Accepted,
            Given::Mend => Answer::Mended,
            Given::Refuse | Given::Reopen => Answer::Refused,
        };
        let answers = vec![kept_answer(visit, entry, kind, &notes)];
        wrote = write(&looking, &talk, answers, notes).await.map_err(lost)?;
    }
    Ok(seen(&talk, visit, &answered.tie, wrote))
}

/// Answers `POST /j/{job}/walks/{id}/accept`.
pub(crate) async fn accept_together(
    looking: Looking,
    Path((_, id)): Path<(String, String)>,
    form: Result<Form<Together>, FormRejection>,
) -> Result<Response, Lost> {
    let Form(asked) = form.map_err(not_understood)?;
    let talk = Talk::open(&looking, id_of(&id)).await?;
    let visit = &looking.visit;
    let mut answers = Vec::new();
    let mut notes = Vec::new();
    for entry in talk.together(asked.least, &visit.picture) {
        if let Some(says) = entry.as_proposed() {
            let new = notes_of(visit, &talk, entry, &says, entry.means.is_some());
            answers.push(kept_answer(visit, entry, Answer::Accepted, &new));
            notes.extend(new);
        }
    }
    let back = visit.to(&format!("walks/{}", talk.kept.head.id));
    let wrote = write(&looking, &talk, answers, notes).await;
    let wrote = wrote.map_err(|fault| Lost::new(fault).back_to(&back))?;
    Ok(seen(&talk, visit, "", wrote))
}

/// Writes answers and notes; gives the first of the notes.
async fn write(
    looking: &Looking,
    talk: &Talk,
    answers: Vec<WalkAnswer>,
    notes: Vec<Note>,
) -> Result<Option<Uuid>, Fault> {
    let first = notes.first().map(|note| note.id);
    looking
        .desk
        .answer(talk.kept.head.id, &answers, notes)
        .await?;
    Ok(first)
}

/// The page of the walk, at what comes next, with what the first note moved.
fn seen(talk: &Talk, visit: &Visit, tie: &str, wrote: Option<Uuid>) -> Response {
    let page = visit.to(&format!("walks/{}", talk.kept.head.id));
    let moved = wrote.map_or_else(String::new, |id| format!("?moved={id}"));
    let at = talk
        .entries
        .iter()
        .position(|entry| entry.tie.as_str() == tie);
    let at = at.map_or_else(String::new, |at| format!("#e-{at}"));
    Redirect::to(&format!("{page}{moved}{at}")).into_response()
}

/// The notes of an entry. Nothing was seen later than now: a walk that is said to have begun just now
/// was over before it was handed in.
fn notes_of(visit: &Visit, talk: &Talk, entry: &Entry, says: &Mended, passes: bool) -> Vec<Note> {
    let means = entry.means.as_ref().filter(|_| passes);
    let turn = talk.turn(entry.tie.as_str());
    let notes = entry.notes(&talk.head(), says, turn, means).into_iter();
    notes
        .map(|note| Note {
            at: note.at.min(visit.now),
            ..note
        })
        .collect()
}

fn kept_answer(visit: &Visit, entry: &Entry, answer: Answer, notes: &[Note]) -> WalkAnswer {
    WalkAnswer {
        tie: entry.tie.to_string(),
        answer,
        notes: notes.iter().map(|note| note.id).collect(),
        sentence: entry.sentence.clone(),
        at_ms: entry.at_ms,
        at: visit.now,
        by: visit.who.clone(),
    }
}

/// What an entry says as proposed, or about the one of its choices that was taken.
fn accepted(visit: &Visit, talk: &Talk, entry: &Entry, form: &Answered) -> Result<Mended, Fault> {
    if form.about.is_empty() {
        let why = "Choose first what it is about.".to_owned();
        return entry.as_proposed().ok_or(Fault::Input(why));
    }
    let is_it = |choice: &&Choice| refs(&choice.about) == form.about;
    let choice = entry
        .choices
        .iter()
        .find(is_it)
        .ok_or_else(|| Fault::Input("That is none of what it may be about.".to_owned()))?;
    let picture = &visit.picture;
    let (vocabulary, head) = (&talk.read.vocabulary, talk.head());
    Ok(as_chosen(
        &picture.job,
        &picture.site,
        vocabulary,
        &talk.read.walk,
        &head,
        entry,
        choice,
    ))
}

/// References as a form carries them.
pub(crate) fn refs(about: &[Ref]) -> String {
    let keys: Vec<&str> = about.iter().map(Ref::as_str).collect();
    keys.join(" ")
}

/// What the form says, or what is wrong with it.
fn mended(visit: &Visit, form: &Answered) -> Result<Mended, String> {
    let job = &visit.picture.job;
    let about: Vec<Ref> = form
        .about
        .split_whitespace()
        .take(20)
        .map(Ref::from)
        .collect();
    let targets: Option<Vec<_>> = about.iter().map(|about| job.resolve(about)).collect();
    let targets = targets.filter(|targets| !targets.is_empty());
    let targets = targets.ok_or("Choose what it is about.")?;
    let kind = Kind::ALL.into_iter().find(|kind| kind.word() == form.kind);
    let kind = kind.ok_or("Choose what is said of it.")?;
    if let Some(wrong) = targets.iter().position(|target| !can_be_said(kind, target)) {
        let name = about
            .get(wrong)
            .map_or_else(String::new, |about| grounds_walk::file::about(job, about));
        let kind = grounds_walk::file::kind_words(kind);
        return Err(format!("“{kind}” cannot be said of {name}."));
    }
    let value = value(visit, form, kind, targets.first())?;
    Ok(Mended { about, kind, value })
}

fn value(
    visit: &Visit,
    form: &Answered,
    kind: Kind,
    target: Option<&grounds_model::Target>,
) -> Result<Option<Value>, String> {
    let day = Some(form.day.trim()).filter(|day| !day.is_empty());
    let typed = Some(form.figure.trim()).filter(|figure| !figure.is_empty());
    match kind {
        Kind::Promised => {
            let day = day.ok_or("Say which day was given.")?;
            Ok(Some(Value::When(moment(day)?)))
        }
        Kind::Problem | Kind::Ordered | Kind::Shipped => {
            Ok(day.map(moment).transpose()?.map(Value::When))
        }
        Kind::Progress => {
            let typed = typed.ok_or("Say how far it has got, like 60 %.")?;
            figure::share(typed).map(Some)
        }
        Kind::Measured => typed
            .map(|typed| figure::read(&visit.picture.job, target, typed))
            .transpose(),
        _ => Ok(None),
    }
}

fn moment(day: &str) -> Result<grounds_model::Moment, String> {
    day.parse()
        .map_err(|_| format!("“{}” is no day; pick it again.", say::cut(day, 40)))
}

/// The answer that opens it again, with the notes that take back those that came of it.
fn reopened(visit: &Visit, talk: &Talk, tie: &str) -> (Vec<WalkAnswer>, Vec<Note>) {
    let Status::Answered(answer) = talk.status(tie, &visit.picture) else {
        return (Vec::new(), Vec::new());
    };
    let notes = visit.picture.notes.iter();
    let came: Vec<&Note> = notes
        .filter(|note| answer.notes.contains(&note.id))
        .collect();
    let back = acts::take_back(&came, &saying(visit, visit.once));
    let reopened = WalkAnswer {
        answer: Answer::Reopened,
        notes: Vec::new(),
        at: visit.now,
        by: visit.who.clone(),
        ..answer.clone()
    };
    (vec![reopened], back)
}
