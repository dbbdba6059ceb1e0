//! Forms of the page that wins time back.

use axum::{
    Form,
    extract::rejection::FormRejection,
    response::{IntoResponse, Redirect, Response},
};
use grounds_sequence::options::{Aim, Means};
use serde::Deserialize;

use crate::{
    fault::Fault,
    looking::{Looking, Lost},
    pages, say,
    ways::{self, Ways},
};

/// The date that time is to be won for: a milestone, or nothing for the last finish.
#[derive(Debug, Deserialize)]
pub(crate) struct Wanted {
    #[serde(rename = "for", default)]
    date: String,
}

/// Answers `POST /j/{job}/win-back`: begins to look, and shows how far that has got.
pub(crate) async fn look(
    Looking { desk, visit }: Looking,
    form: Result<Form<Wanted>, FormRejection>,
) -> Result<Response, Lost> {
    let aim = aim(&visit, form)?;
    let to = pages::win_back_address(&visit, &aim);
    ways::begin(&desk, aim);
    Ok(Redirect::to(&to).into_response())
}

/// Answers `POST /j/{job}/win-back/order`: the plan keeps to the order of work that was found.
pub(crate) async fn order(
    Looking { desk, visit }: Looking,
    form: Result<Form<Wanted>, FormRejection>,
) -> Result<Response, Lost> {
    let aim = aim(&visit, form)?;
    let back = pages::win_back_address(&visit, &aim);
    let lost = |why: &str| Lost::new(Fault::Input(why.to_owned())).back_to(&back);
    let Some(Ways::Found(found)) = visit.ways.get(ways::name(&aim)) else {
        return Err(lost(
            "No other order of work is known for that date; look for ways first.",
        ));
    };
    let only_order = |means: &[Means]| matches!(means, [Means::Order]);
    let offer = found
        .win
        .singles
        .iter()
        .find(|offer| only_order(&offer.means));
    let Some(offer) = offer.filter(|_| found.picture.edition == visit.picture.edition) else {
        return Err(lost(
            "The plan has changed since that order was found; look again.",
        ));
    };
    let order = offer.order.clone();
    desk.keep_to(&found.picture, order)
        .await
        .map_err(|fault| Lost::new(fault).back_to(&back))?;
    Ok(Redirect::to(&visit.to("now")).into_response())
}

fn aim(
    visit: &crate::visit::Visit,
    form: Result<Form<Wanted>, FormRejection>,
) -> Result<Aim, Lost> {
    let back = visit.to("win-back");
    let lost = |why: String| Lost::new(Fault::Input(why)).back_to(&back);
    let Form(wanted) = form.map_err(|error| {
        lost(format!(
            "The form could not be read: {}.",
            say::cut(&error.to_string(), 200)
        ))
    })?;
    ways::aim(&visit.picture, &wanted.date).ok_or_else(|| {
        lost(format!(
            "There is no milestone called “{}” in this job.",
            say::cut(&wanted.date, 120)
        ))
    })
}
