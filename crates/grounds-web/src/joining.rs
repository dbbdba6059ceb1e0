//! Phones: letting them join, and shutting them out.

use std::sync::Arc;

use axum::{
    Form, Json,
    extract::{ConnectInfo, Query, Request, State, rejection::FormRejection},
    http::{HeaderValue, Method, StatusCode, header},
    response::{IntoResponse, Redirect, Response},
};
use maud::Markup;
use serde::Deserialize;
use serde_json::json;
use uuid::Uuid;

use crate::{
    desks::Desks,
    fault::Fault,
    looking::{Looking, Lost},
    pages::{self, Asked},
    phones::{NotJoined, Peer, Phones},
    visit::{Visit, a_name},
    writing::not_understood,
};

/// What only the desk does.
const AT_THE_DESK: &str =
    "Phones are let in and shut out on the machine that Grounds runs on, not through a phone.";

/// What a phone is told that was shut out.
const SHUT_OUT: &str = "This phone was shut out at the desk. What it has not sent yet stays on it; \
     ask there to let it join again.";

/// What a phone is told that has not joined.
const NOT_JOINED: &str = "This phone has not joined. Open /join on it, with a code from the desk.";

/// What is asked for with the address.
#[derive(Debug, Default, Deserialize)]
pub(crate) struct Coded {
    #[serde(default)]
    code: String,
}

/// The form of a phone that joins.
#[derive(Debug, Deserialize)]
pub(crate) struct Joining {
    #[serde(default)]
    code: String,
    #[serde(default)]
    name: String,
}

/// A phone that is to be shut out.
#[derive(Debug, Deserialize)]
pub(crate) struct ShutOut {
    phone: Uuid,
}

/// Answers `GET /j/{job}/phones`.
pub(crate) async fn phones(
    State(desks): State<Arc<Desks>>,
    Looking { visit, .. }: Looking,
) -> Result<Markup, Lost> {
    at_the_desk(&visit)?;
    let people = desks.store().people().await.map_err(Fault::from)?;
    let inside = pages::phones(&visit, desks.phones.as_deref(), &people);
    Ok(pages::frame(&visit, "Phones", None, &inside))
}

/// Answers `POST /j/{job}/phones/code`.
pub(crate) async fn let_join(
    State(desks): State<Arc<Desks>>,
    Looking { visit, .. }: Looking,
) -> Result<Redirect, Lost> {
    at_the_desk(&visit)?;
    door_of(&desks, &visit)?.make_code(&visit.key)?;
    Ok(Redirect::to(&visit.to("phones#join")))
}

/// Answers `POST /j/{job}/phones/revoke`.
pub(crate) async fn revoke(
    State(desks): State<Arc<Desks>>,
    Looking { visit, .. }: Looking,
    form: Result<Form<ShutOut>, FormRejection>,
) -> Result<Redirect, Lost> {
    at_the_desk(&visit)?;
    let Form(out) = form.map_err(not_understood)?;
    let revoked = desks.store().revoke_person(out.phone).await;
    revoked.map_err(Fault::from)?;
    Ok(Redirect::to(&visit.to("phones")))
}

/// Answers `GET /j/{job}/phones/grounds.crt`.
pub(crate) async fn certificate_from_desk(
    State(desks): State<Arc<Desks>>,
    Looking { visit, .. }: Looking,
) -> Result<Response, Lost> {
    file(door_of(&desks, &visit)?)
}

fn at_the_desk(visit: &Visit) -> Result<(), Lost> {
    if visit.door.is_desk() {
        return Ok(());
    }
    Err(Lost::new(Fault::Desk(AT_THE_DESK)).back_to(&visit.to("more")))
}

fn door_of<'a>(desks: &'a Desks, visit: &Visit) -> Result<&'a Phones, Lost> {
    desks.phones.as_deref().ok_or_else(|| {
        let why = "There is no door for phones; start Grounds with --phones.";
        Lost::new(Fault::Missing(why.to_owned())).back_to(&visit.to("phones"))
    })
}

/// Answers `GET /join`.
pub(crate) async fn ask(State(phones): State<Arc<Phones>>, Query(coded): Query<Coded>) -> Markup {
    let asked = Asked {
        code: crate::say::cut(&coded.code, 100),
        ..Asked::default()
    };
    pages::join(&phones, &asked)
}

/// Answers `POST /join`.
pub(crate) async fn join(
    State(phones): State<Arc<Phones>>,
    ConnectInfo(Peer(from)): ConnectInfo<Peer>,
    form: Result<Form<Joining>, FormRejection>,
) -> Result<Response, Lost> {
    let Form(joining) = form.map_err(not_understood)?;
    let mut asked = Asked {
        code: crate::say::cut(&joining.code, 100),
        name: crate::say::cut(&joining.name, 100),
        ..Asked::default()
    };
    // The name first: a code that was right must not be used up by a name that is missing.
    let Some(name) = a_name(&joining.name) else {
        asked.bad_name = Some("Say who you are; every note bears that name.");
        let page = pages::join(&phones, &asked);
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    };
    let (status, why) = match phones.join(from, &joining.code, &name).await? {
        Ok(joined) => return Ok(welcome(&joined.job, &joined.cookie)),
        Err(NotJoined::WrongCode) => (
            StatusCode::UNPROCESSABLE_ENTITY,
            "That code is not good now. Each is good for ten minutes and for one phone; ask for a \
             new one at the desk.",
        ),
        Err(NotJoined::TooMany) => (
            StatusCode::TOO_MANY_REQUESTS,
            "Too many wrong codes came from here. Wait ten minutes, then ask for a new one at the \
             desk.",
        ),
    };
    asked.bad_code = Some(why);
    Ok((status, pages::join(&phones, &asked)).into_response())
}

/// Sends a phone that has joined on its way.
fn welcome(job: &str, cookie: &str) -> Response {
    let mut response = Redirect::to(&format!("/j/{job}/walk")).into_response();
    if let Ok(cookie) = HeaderValue::from_str(cookie) {
        response.headers_mut().insert(header::SET_COOKIE, cookie);
    }
    response
}

/// Answers `GET /join/certificate`.
pub(crate) async fn certificate(State(phones): State<Arc<Phones>>) -> Markup {
    pages::take_in_certificate(&phones)
}

/// Answers `GET /join/certificate/grounds.crt`.
pub(crate) async fn certificate_file(State(phones): State<Arc<Phones>>) -> Result<Response, Lost> {
    file(&phones)
}

/// The certificate of the authority, as phones take it in.
fn file(phones: &Phones) -> Result<Response, Lost> {
    let Some((certificate, _)) = phones.certificate.to_take_in() else {
        let why = "The certificate of this door was given; there is none to take in.";
        return Err(Lost::new(Fault::Missing(why.to_owned())));
    };
    let headers = [
        (header::CONTENT_TYPE, "application/x-x509-ca-cert"),
        (
            header::CONTENT_DISPOSITION,
            "attachment; filename=\"grounds.crt\"",
        ),
    ];
    Ok((headers, certificate.to_vec()).into_response())
}

/// What a phone is answered that has not joined: a page sends it to joining, a program is told.
pub(crate) fn not_joined(request: &Request) -> Response {
    let path = request.uri().path();
    if is_for_program(path) || *request.method() != Method::GET {
        let told = Json(json!({ "error": NOT_JOINED }));
        return (StatusCode::UNAUTHORIZED, told).into_response();
    }
    Redirect::to("/join").into_response()
}

/// What a phone is answered that was shut out.
pub(crate) fn shut_out(path: &str) -> Response {
    if is_for_program(path) {
        let told = Json(json!({ "error": SHUT_OUT }));
        return (StatusCode::FORBIDDEN, told).into_response();
    }
    (StatusCode::FORBIDDEN, pages::shut_out(SHUT_OUT)).into_response()
}

/// Whether an address is asked for by programs.
fn is_for_program(path: &str) -> bool {
    path.starts_with("/api/") || path.ends_with(".json") || path.ends_with("/live")
}
