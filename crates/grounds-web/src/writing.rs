//! Forms: what buttons send, and the notes that come of it.

use axum::{
    Form,
    extract::rejection::FormRejection,
    http::{HeaderValue, StatusCode, header},
    response::{IntoResponse, Redirect, Response},
};
use grounds_model::Ref;
use grounds_site::{Kind, Note};
use serde::Deserialize;
use uuid::Uuid;

use crate::{
    acts::{self, Act, Saying},
    covering,
    fault::Fault,
    looking::{Looking, Lost, own_page},
    say,
    visit::{Visit, a_name, encode},
};

/// The longest words of a note from a form, in characters.
const LONGEST_WORDS: usize = 2000;

/// A button that was pressed.
#[derive(Debug, Deserialize)]
pub(crate) struct Pressed {
    /// The piece of work, by its key, or anything else that a note can be about.
    about: String,
    act: Act,
    once: Uuid,
    #[serde(default)]
    back: String,
    #[serde(default)]
    words: String,
    #[serde(default)]
    when: String,
}

/// A note that is to be taken back.
#[derive(Debug, Deserialize)]
pub(crate) struct TakenBack {
    note: Uuid,
    once: Uuid,
    #[serde(default)]
    back: String,
}

/// The name of who writes.
#[derive(Debug, Deserialize)]
pub(crate) struct Named {
    name: String,
}

/// Answers `POST /j/{job}/notes`.
pub(crate) async fn press(
    Looking { desk, visit }: Looking,
    form: Result<Form<Pressed>, FormRejection>,
) -> Result<Response, Lost> {
    let Form(pressed) = form.map_err(not_understood)?;
    let back = own_page(&pressed.back).to_owned();
    let lost = |fault: Fault| Lost::new(fault).back_to(&back);
    if pressed.act == Act::Start
        && let Some(stop) = covering::stop(&visit, &pressed.about, &back)
    {
        return Ok(stop);
    }
    let notes = notes(&visit, &pressed).map_err(lost)?;
    let first = notes.first().map(|note| note.id);
    desk.write_once(notes).await.map_err(lost)?;
    Ok(seen_at(&back, first).into_response())
}

/// Answers `POST /j/{job}/back`.
pub(crate) async fn take_back(
    Looking { desk, visit }: Looking,
    form: Result<Form<TakenBack>, FormRejection>,
) -> Result<Response, Lost> {
    let Form(taken) = form.map_err(not_understood)?;
    let lost = |fault: Fault| Lost::new(fault).back_to(&taken.back);
    let together = acts::together(&visit.picture, &taken.note);
    if together.is_empty() {
        let why = "The note that was to be taken back is not here.";
        return Err(lost(Fault::Input(why.to_owned())));
    }
    let notes = acts::take_back(&together, &saying(&visit, taken.once));
    let first = notes.first().map(|note| note.id);
    desk.write_once(notes).await.map_err(lost)?;
    Ok(seen_at(own_page(&taken.back), first).into_response())
}

/// Answers `POST /j/{job}/who`.
pub(crate) async fn name(
    Looking { visit, .. }: Looking,
    form: Result<Form<Named>, FormRejection>,
) -> Result<Response, Lost> {
    let Form(named) = form.map_err(not_understood)?;
    let name = a_name(&named.name).unwrap_or_else(|| crate::visit::NOBODY_SAID.to_owned());
    let cookie = format!(
        "who={}; Path=/; Max-Age=31536000; SameSite=Strict; HttpOnly",
        encode(&name, "")
    );
    let mut response = Redirect::to(&visit.to("more")).into_response();
    if let Ok(value) = HeaderValue::from_str(&cookie) {
        response.headers_mut().insert(header::SET_COOKIE, value);
    }
    Ok(response)
}

/// The page that a form came from, showing what was written.
pub(crate) fn seen_at(back: &str, wrote: Option<Uuid>) -> impl IntoResponse {
    let joint = if back.contains('?') { '&' } else { '?' };
    let to = match wrote {
        Some(id) => format!("{back}{joint}wrote={id}"),
        None => back.to_owned(),
    };
    let to = HeaderValue::from_str(&to).unwrap_or(HeaderValue::from_static("/"));
    (StatusCode::SEE_OTHER, [(header::LOCATION, to)])
}

pub(crate) fn not_understood(rejection: FormRejection) -> Lost {
    let why = format!(
        "The form could not be read: {}.",
        say::cut(&rejection.to_string(), 200)
    );
    Lost::new(Fault::Input(why))
}

/// Who says it and when, with the form that it was said in.
pub(crate) fn saying(visit: &Visit, once: Uuid) -> Saying {
    let is_ours = once.get_version_num() == 7;
    Saying {
        by: visit.who.clone(),
        at: visit.now,
        once: if is_ours { once } else { visit.once },
        words: None,
        when: None,
    }
}

/// Words as they were typed, without control characters.
pub(crate) fn words(typed: &str) -> Result<String, Fault> {
    let words: String = typed
        .trim()
        .chars()
        .filter(|c| !c.is_control() || *c == '\n')
        .collect();
    if words.chars().count() > LONGEST_WORDS {
        return Err(Fault::Input(format!(
            "Say it in at most {LONGEST_WORDS} characters."
        )));
    }
    Ok(words)
}

/// The notes that a press of a button writes.
fn notes(visit: &Visit, pressed: &Pressed) -> Result<Vec<Note>, Fault> {
    let words = words(&pressed.words)?;
    if pressed.act == Act::Trouble && words.is_empty() {
        return Err(Fault::Input(
            "Say what stands in the way, in a few words.".to_owned(),
        ));
    }
    let when = Some(pressed.when.trim()).filter(|when| !when.is_empty());
    if pressed.act == Act::Promised && when.is_none() {
        return Err(Fault::Input("Say which day was given.".to_owned()));
    }
    if when.is_some_and(|when| when.parse::<grounds_model::Moment>().is_err()) {
        return Err(Fault::Input(
            "The day could not be read; pick it again.".to_owned(),
        ));
    }
    let saying = Saying {
        words: Some(words).filter(|words| !words.is_empty()),
        when: when.map(str::to_owned),
        ..saying(visit, pressed.once)
    };
    written(visit, pressed, &saying)
}

fn written(visit: &Visit, pressed: &Pressed, saying: &Saying) -> Result<Vec<Note>, Fault> {
    let picture = &visit.picture;
    let network = &picture.outlook.network;
    let task = network.find(&pressed.about).and_then(|id| network.task(id));
    if let Some(task) = task {
        let notes = match pressed.act {
            Act::Missing => acts::missing(picture, task, saying),
            act => act.notes(task, &picture.site, saying),
        };
        return notes.ok_or_else(|| {
            Fault::Input(format!(
                "That cannot be said of {}.",
                say::cut(&task.name, 200)
            ))
        });
    }
    let about = Ref::from(pressed.about.as_str());
    let kind = match pressed.act {
        Act::Trouble => Kind::Problem,
        Act::Cleared => Kind::Cleared,
        _ => return Err(nothing_called(&pressed.about)),
    };
    if picture.job.resolve(&about).is_none() {
        return Err(nothing_called(&pressed.about));
    }
    Ok(vec![acts::about_anything(&about, kind, saying)])
}

fn nothing_called(about: &str) -> Fault {
    Fault::Input(format!(
        "Nothing in this job is called “{}”.",
        say::cut(about, 120)
    ))
}
