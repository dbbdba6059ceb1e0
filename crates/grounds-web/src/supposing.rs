//! What if: a form supposes something, and its answer shows what that would do. Only when it is
//! entered does it become a note.

use std::{str::FromStr, sync::Arc};

use axum::{
    Form,
    extract::rejection::FormRejection,
    http::StatusCode,
    response::{IntoResponse, Redirect, Response},
};
use grounds_model::Id;
use grounds_sequence::{
    Effort,
    what_if::{Supposed, WhatIf, what_if},
    words::upper_first,
};
use jiff::civil::Date;
use serde::Deserialize;
use tokio::task::spawn_blocking;
use uuid::Uuid;

use crate::{
    acts,
    fault::Fault,
    looking::{Looking, Lost},
    pages::{self, frame},
    picture::Picture,
    say,
    visit::Visit,
    writing,
};

/// What a form supposes.
#[derive(Clone, Debug, Default, Deserialize)]
pub(crate) struct Asked {
    /// Which kind of thing.
    #[serde(default)]
    pub(crate) kind: String,
    /// Of what, by its key.
    #[serde(default)]
    pub(crate) about: String,
    /// On which day, or from which.
    #[serde(default)]
    pub(crate) on: String,
    /// To which day.
    #[serde(default)]
    pub(crate) to: String,
    /// The form, where it is entered.
    once: Option<Uuid>,
}

/// Why a form supposes nothing.
#[derive(Debug)]
pub(crate) struct Refusal {
    /// What is wrong, as a sentence.
    pub(crate) why: String,
    /// The field that it is about.
    pub(crate) field: &'static str,
}

impl Refusal {
    fn of(field: &'static str, why: impl Into<String>) -> Self {
        Self {
            why: why.into(),
            field,
        }
    }
}

/// What became of a form.
#[derive(Debug)]
pub(crate) enum Answer {
    /// What it would do.
    Then(Box<Supposed>),
    /// It makes no sense; what was typed stays.
    Refused(Refusal),
}

/// Answers `POST /j/{job}/what-if`.
pub(crate) async fn suppose(
    Looking { visit, .. }: Looking,
    form: Result<Form<Asked>, FormRejection>,
) -> Result<Response, Lost> {
    let (asked, answer) = answer(&visit, form).await?;
    Ok(page(&visit, &asked, &answer))
}

/// Answers `POST /j/{job}/what-if/enter`: what was supposed is so.
pub(crate) async fn enter(
    Looking { desk, visit }: Looking,
    form: Result<Form<Asked>, FormRejection>,
) -> Result<Response, Lost> {
    let (asked, answer) = answer(&visit, form).await?;
    let supposed = match answer {
        Answer::Then(supposed) => supposed,
        refused @ Answer::Refused(_) => return Ok(page(&visit, &asked, &refused)),
    };
    let back = visit.to("what-if");
    if supposed.notes.is_empty() {
        let why = "No note can say that: it is written in the job.";
        return Err(Lost::new(Fault::Input(why.to_owned())).back_to(&back));
    }
    let saying = writing::saying(&visit, asked.once.unwrap_or(visit.once));
    let notes = acts::entered(&supposed.notes, &saying);
    let first = notes.first().map(|note| note.id);
    desk.write_once(notes)
        .await
        .map_err(|fault| Lost::new(fault).back_to(&back))?;
    let to = first.map_or_else(String::new, |id| format!("?wrote={id}"));
    Ok(Redirect::to(&format!("{}{to}", visit.to("now"))).into_response())
}

fn page(visit: &Visit, asked: &Asked, answer: &Answer) -> Response {
    let page = pages::what_if(visit, Some((asked, answer)));
    let page = frame(visit, "What if", None, &page);
    match answer {
        Answer::Then(_) => page.into_response(),
        Answer::Refused(_) => (StatusCode::UNPROCESSABLE_ENTITY, page).into_response(),
    }
}

/// Plans as if it were so.
async fn answer(
    visit: &Visit,
    form: Result<Form<Asked>, FormRejection>,
) -> Result<(Asked, Answer), Lost> {
    let asked = match form {
        Ok(Form(asked)) => asked,
        Err(error) => {
            let error = say::cut(&error.to_string(), 200);
            let why = format!("The form could not be read: {error}.");
            let refusal = Refusal::of("", why);
            return Ok((Asked::default(), Answer::Refused(refusal)));
        }
    };
    let what = match what(&visit.picture, &asked) {
        Ok(what) => what,
        Err(refusal) => return Ok((asked, Answer::Refused(refusal))),
    };
    let picture: Arc<Picture> = visit.picture.clone();
    let made = spawn_blocking(move || {
        let Picture {
            job,
            notes,
            outlook,
            ..
        } = picture.as_ref();
        let judge = &grounds_settle::held_up;
        what_if(job, notes, outlook, &what, judge, Effort::default())
    });
    let made = made
        .await
        .map_err(|error| Lost::new(Fault::broke_off(error)).back_to(&visit.to("what-if")))?;
    let answer = match made {
        Ok(supposed) => Answer::Then(Box::new(supposed)),
        Err(error) => {
            let field = if asked.on.is_empty() { "about" } else { "on" };
            Answer::Refused(Refusal::of(
                field,
                format!("{}.", upper_first(&error.to_string())),
            ))
        }
    };
    Ok((asked, answer))
}

/// What the form supposes, or what is missing.
fn what(picture: &Picture, asked: &Asked) -> Result<WhatIf, Refusal> {
    let job = &picture.job;
    let about = asked.about.as_str();
    let known = |id: Option<&Id>| {
        let missing = || format!("Nothing in this job is called “{}”.", say::cut(about, 120));
        id.cloned().ok_or_else(|| Refusal::of("about", missing()))
    };
    match asked.kind.as_str() {
        "arrives" => Ok(WhatIf::Arrives {
            piece: known(job.pieces.get_key_value(about).map(|(id, _)| id))?,
            on: day("on", &asked.on)?,
        }),
        "decided" => Ok(WhatIf::Decided {
            decision: known(job.decisions.get_key_value(about).map(|(id, _)| id))?,
            on: day("on", &asked.on)?,
        }),
        "away" => {
            let trade = known(job.trades.get_key_value(about).map(|(id, _)| id))?;
            let (from, to): (Date, Date) = (day("on", &asked.on)?, day("to", &asked.to)?);
            if to < from {
                let why = "The last day away comes before the first.";
                return Err(Refusal::of("to", why));
            }
            Ok(WhatIf::Away { trade, from, to })
        }
        "fails" => Ok(WhatIf::Fails {
            hold: known(job.holds.get_key_value(about).map(|(id, _)| id))?,
        }),
        _ => Err(Refusal::of("", "Pick what might happen.")),
    }
}

fn day<T: FromStr>(field: &'static str, text: &str) -> Result<T, Refusal> {
    text.trim()
        .parse()
        .map_err(|_| Refusal::of(field, "Say which day, like 2027-06-24."))
}
