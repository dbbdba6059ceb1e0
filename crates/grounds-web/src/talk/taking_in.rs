//! A walk is handed in: its words, when it began, who walked.

use axum::{
    Form,
    extract::rejection::FormRejection,
    http::StatusCode,
    response::{IntoResponse, Redirect, Response},
};
use grounds_model::Moment;
use grounds_store::{LONGEST_TRANSCRIPT, WalkHead};
use grounds_walk::transcript;
use jiff::{Timestamp, tz::TimeZone};
use serde::Deserialize;

use super::all;
use crate::{
    fault::Fault,
    looking::{Looking, Lost},
    pages::{self, Tab, frame},
    visit::{Visit, one_line},
    writing::not_understood,
};

/// The longest form, in bytes: text may be three times as long as it is written in a form.
pub(crate) const LONGEST_FORM: usize = 3 * LONGEST_TRANSCRIPT + 64 * 1024;

/// The longest name of a walk, in characters.
const LONGEST_NAME: usize = 80;

/// What was filled in.
#[derive(Debug, Default, Deserialize)]
pub(crate) struct Filled {
    /// What was said.
    #[serde(default)]
    pub(crate) talk: String,
    /// The day it was said.
    #[serde(default)]
    pub(crate) day: String,
    /// The time of day it began.
    #[serde(default)]
    pub(crate) time: String,
    /// Who walked.
    #[serde(default)]
    pub(crate) by: String,
    /// What it is called.
    #[serde(default)]
    pub(crate) name: String,
}

impl Filled {
    /// A form that nobody has filled in: now, by whoever looks.
    pub(crate) fn of(visit: &Visit) -> Self {
        let now = visit.now.to_zoned_datetime(visit.picture.zone().clone());
        Self {
            day: now.strftime("%Y-%m-%d").to_string(),
            time: now.strftime("%H:%M").to_string(),
            by: visit.who.clone(),
            ..Self::default()
        }
    }
}

/// What is wrong with a form, and in which field.
#[derive(Debug)]
pub(crate) struct Wrong {
    /// The field.
    pub(crate) field: &'static str,
    /// A sentence.
    pub(crate) why: String,
}

/// Answers `POST /j/{job}/walks`.
pub(crate) async fn take_in(
    looking: Looking,
    form: Result<Form<Filled>, FormRejection>,
) -> Result<Response, Lost> {
    let visit = &looking.visit;
    let Form(filled) = form.map_err(|rejection| match rejection.status() {
        StatusCode::PAYLOAD_TOO_LARGE => {
            let why = "That is more than 5 MB of talk; split it by hour.".to_owned();
            Lost::new(Fault::Input(why)).back_to(&visit.to("walks"))
        }
        _ => not_understood(rejection),
    })?;
    let head = match head(visit, &filled) {
        Ok(head) => head,
        Err(wrong) => {
            let talks = all(&looking).await?;
            let page = pages::walks(visit, &talks, &filled, Some(&wrong));
            let page = frame(visit, "Walks", Some(Tab::Walk), &page);
            return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
        }
    };
    let store = looking.desk.store();
    let kept = store.keep_walk(&visit.key, &head, &filled.talk).await;
    kept.map_err(|error| Lost::new(error.into()).back_to(&visit.to("walks")))?;
    let page = visit.to(&format!("walks/{}", head.id));
    Ok(Redirect::to(&page).into_response())
}

/// The head of a walk, or what is wrong with the form.
fn head(visit: &Visit, filled: &Filled) -> Result<WalkHead, Wrong> {
    let wrong = |field, why: &str| Wrong {
        field,
        why: why.to_owned(),
    };
    let by = visit
        .signed(&filled.by)
        .ok_or_else(|| wrong("by", "Say who walked."))?;
    let begun = begun(visit, filled)?;
    if filled.talk.len() > LONGEST_TRANSCRIPT {
        return Err(wrong(
            "talk",
            "That is more than 5 MB of talk; split it by hour.",
        ));
    }
    if filled.talk.contains('\0') {
        return Err(wrong(
            "talk",
            "That is no plain text; save it as UTF-8 and try again.",
        ));
    }
    transcript::read(&filled.talk).map_err(|_| {
        wrong(
            "talk",
            "There is no talk in it. A line looks like: [1:05] Kitchen. Units are in.",
        )
    })?;
    Ok(WalkHead {
        id: grounds_walk::file::walk_id(begun, &by, &filled.talk),
        begun,
        by,
        name: named(&filled.name, begun, visit.picture.zone()),
    })
}

/// When it began, on the job's wall clock.
fn begun(visit: &Visit, filled: &Filled) -> Result<Timestamp, Wrong> {
    let wrong = |field, why: &str| Wrong {
        field,
        why: why.to_owned(),
    };
    let text = format!("{} {}", filled.day.trim(), filled.time.trim());
    let moment: Moment = text.trim().parse().map_err(|_| {
        wrong(
            "day",
            "Say on which day and when it began, like 2027-06-10 and 7:10.",
        )
    })?;
    let civil = moment.date.to_datetime(moment.time_or_midnight());
    let zone = visit.picture.zone();
    let at = zone.to_ambiguous_timestamp(civil).compatible();
    let at = at.map_err(|_| wrong("day", "That day cannot be reckoned with."))?;
    let far = at.as_second().abs_diff(visit.now.as_second()) > 50 * 366 * 86_400;
    if at > visit.now {
        return Err(wrong(
            "day",
            "A walk that is still to come has not been said yet.",
        ));
    }
    if far {
        return Err(wrong(
            "day",
            "That is too long ago; give the day of the walk.",
        ));
    }
    Ok(at)
}

/// What it is called: as was typed, else by its day.
fn named(typed: &str, begun: Timestamp, zone: &TimeZone) -> String {
    one_line(typed, LONGEST_NAME)
        .unwrap_or_else(|| format!("Walk of {}", crate::say::short(begun, zone)))
}
