//! What if: a form supposes something, and its answer shows what that would do. Only when it is
//! entered does it become a note.

use std::sync::Arc;

use axum::{
    Form,
    extract::rejection::FormRejection,
    response::{IntoResponse, Redirect, Response},
};
use grounds_model::{Id, Moment};
use grounds_sequence::{
    Effort,
    what_if::{Supposed, WhatIf, what_if},
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

/// Answers `POST /j/{job}/what-if`.
pub(crate) async fn suppose(
    Looking { visit, .. }: Looking,
    form: Result<Form<Asked>, FormRejection>,
) -> Result<Response, Lost> {
    let asked = read(&visit, form)?;
    let supposed = seen(&visit, &asked).await?;
    let page = pages::what_if(&visit, Some((&asked, &supposed)));
    Ok(frame(&visit, "What if", None, &page).into_response())
}

/// Answers `POST /j/{job}/what-if/enter`: what was supposed is so.
pub(crate) async fn enter(
    Looking { desk, visit }: Looking,
    form: Result<Form<Asked>, FormRejection>,
) -> Result<Response, Lost> {
    let asked = read(&visit, form)?;
    let supposed = seen(&visit, &asked).await?;
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

fn read(visit: &Visit, form: Result<Form<Asked>, FormRejection>) -> Result<Asked, Lost> {
    let Form(asked) = form.map_err(|error| {
        let why = format!(
            "The form could not be read: {}.",
            say::cut(&error.to_string(), 200)
        );
        Lost::new(Fault::Input(why)).back_to(&visit.to("what-if"))
    })?;
    Ok(asked)
}

/// Plans as if it were so.
async fn seen(visit: &Visit, asked: &Asked) -> Result<Supposed, Lost> {
    let lost = |fault: Fault| Lost::new(fault).back_to(&visit.to("what-if"));
    let what = what(&visit.picture, asked).map_err(|why| lost(Fault::Input(why)))?;
    let picture: Arc<Picture> = visit.picture.clone();
    let made = spawn_blocking(move || {
        let Picture {
            job,
            notes,
            outlook,
            ..
        } = picture.as_ref();
        what_if(job, notes, outlook, &what, Effort::default())
    });
    let made = made.await.map_err(Fault::broke_off).map_err(lost)?;
    made.map_err(|error| lost(Fault::Input(format!("{error}."))))
}

/// What the form supposes, or a sentence that says what is missing.
fn what(picture: &Picture, asked: &Asked) -> Result<WhatIf, String> {
    let job = &picture.job;
    let about = asked.about.as_str();
    let missing = || format!("Nothing in this job is called “{}”.", say::cut(about, 120));
    let day = |text: &str| {
        text.trim()
            .parse::<Date>()
            .map_err(|_| "Say which day.".to_owned())
    };
    let moment = |text: &str| {
        text.trim()
            .parse::<Moment>()
            .map_err(|_| "Say which day.".to_owned())
    };
    let known = |id: Option<&Id>| id.cloned().ok_or_else(missing);
    match asked.kind.as_str() {
        "arrives" => Ok(WhatIf::Arrives {
            piece: known(job.pieces.get_key_value(about).map(|(id, _)| id))?,
            on: moment(&asked.on)?,
        }),
        "decided" => Ok(WhatIf::Decided {
            decision: known(job.decisions.get_key_value(about).map(|(id, _)| id))?,
            on: moment(&asked.on)?,
        }),
        "away" => {
            let trade = known(job.trades.get_key_value(about).map(|(id, _)| id))?;
            let (from, to) = (day(&asked.on)?, day(&asked.to)?);
            if to < from {
                return Err("The last day away comes before the first.".to_owned());
            }
            Ok(WhatIf::Away { trade, from, to })
        }
        "fails" => Ok(WhatIf::Fails {
            hold: known(job.holds.get_key_value(about).map(|(id, _)| id))?,
        }),
        _ => Err("Pick what might happen.".to_owned()),
    }
}
