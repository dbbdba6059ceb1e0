//! What is written down about what is hidden, and the stop before something is hidden unseen.

use axum::{
    Form,
    extract::rejection::FormRejection,
    http::StatusCode,
    response::{IntoResponse, Response},
};
use grounds_cover::{Ask, Covering, Hidden, KEPT_ELSEWHERE, Register, Wanted};
use grounds_model::Ref;
use grounds_site::{Kind, Note, Subject, Value};
use serde::Deserialize;
use uuid::Uuid;

use crate::{
    acts::{self, Act, Saying},
    fault::Fault,
    looking::{Looking, Lost, own_page},
    pages::{self, Tab},
    say,
    visit::{NOBODY_SAID, Visit},
    writing::{not_understood, saying, seen_at, words},
};

/// That something goes on without what is asked.
#[derive(Debug, Deserialize)]
pub(crate) struct LetGo {
    /// The work that covers, by its key.
    about: String,
    by: String,
    words: String,
    once: Uuid,
    #[serde(default)]
    back: String,
    /// Whether it starts with the same press.
    #[serde(default)]
    start: String,
}

/// What was seen of something that is asked for.
#[derive(Debug, Deserialize)]
pub(crate) struct Seen {
    /// What is asked of what: the reference, a bar, and the words of the ask.
    ask: String,
    words: String,
    once: Uuid,
    #[serde(default)]
    back: String,
}

/// The page to stop at, where a start would hide something that is asked for and not there.
pub(crate) fn stop(visit: &Visit, key: &str, back: &str) -> Option<Response> {
    let covering = covering(visit, key).filter(Covering::wants_reason)?;
    let page = pages::before(visit, &covering, back);
    let frame = pages::frame(visit, "Before it is covered", Some(Tab::Cover), &page);
    Some((StatusCode::UNPROCESSABLE_ENTITY, frame).into_response())
}

fn covering(visit: &Visit, key: &str) -> Option<Covering> {
    let picture = &visit.picture;
    let task = picture.outlook.network.find(key)?;
    let register = Register::of(&picture.job, &picture.site, &picture.outlook);
    let mut all = register.coverings.into_iter();
    all.find(|covering| covering.task == task)
}

/// Answers `POST /j/{job}/cover/let-go`.
pub(crate) async fn let_go(
    Looking { desk, visit }: Looking,
    form: Result<Form<LetGo>, FormRejection>,
) -> Result<Response, Lost> {
    let Form(let_go) = form.map_err(not_understood)?;
    let back = own_page(&let_go.back).to_owned();
    let lost = |fault: Fault| Lost::new(fault).back_to(&back);
    let wrong = |why: &str| lost(Fault::Input(why.to_owned()));
    let Some(covering) = covering(&visit, &let_go.about) else {
        let shown = say::cut(&let_go.about, 120);
        return Err(wrong(&format!(
            "Nothing that covers is called “{shown}” here."
        )));
    };
    let by = visit
        .signed(&let_go.by)
        .filter(|name| name != NOBODY_SAID)
        .ok_or_else(|| wrong("Say who lets it go, by name."))?;
    let said = words(&let_go.words).map_err(lost)?;
    if said.is_empty() {
        return Err(wrong("Say why it may be covered without, in a few words."));
    }
    let saying = Saying {
        by,
        words: Some(said),
        ..saying(&visit, let_go.once)
    };
    let mut notes = decided(&covering, &saying);
    if let_go.start == "yes" {
        notes.extend(started(&visit, &covering, &saying));
    }
    let first = notes.last().map(|note| note.id);
    desk.write_once(notes).await.map_err(lost)?;
    Ok(seen_at(&back, first).into_response())
}

/// The decision on every face of what covers.
fn decided(covering: &Covering, saying: &Saying) -> Vec<Note> {
    let note = |subject: Subject| Note {
        words: saying.words.clone(),
        ..Note::new(
            acts::one_id(saying, (Kind::Decided, &subject)),
            saying.at,
            saying.by.clone(),
            Ref::from(subject.to_string()),
            Kind::Decided,
        )
    };
    let covers = covering.covers.iter();
    covers.map(|cover| note(cover.subject())).collect()
}

fn started(visit: &Visit, covering: &Covering, saying: &Saying) -> Vec<Note> {
    let task = visit.picture.outlook.network.task(covering.task);
    let wordless = Saying {
        words: None,
        ..saying.clone()
    };
    task.and_then(|task| Act::Start.notes(task, &visit.picture.site, &wordless))
        .unwrap_or_default()
}

/// Answers `POST /j/{job}/cover/seen`.
pub(crate) async fn seen(
    Looking { desk, visit }: Looking,
    form: Result<Form<Seen>, FormRejection>,
) -> Result<Response, Lost> {
    let Form(seen) = form.map_err(not_understood)?;
    let back = own_page(&seen.back).to_owned();
    let lost = |fault: Fault| Lost::new(fault).back_to(&back);
    let picture = &visit.picture;
    let register = Register::of(&picture.job, &picture.site, &picture.outlook);
    let Some((hidden, ask)) = asked(&register, &seen.ask) else {
        let why = "That is not asked for, or it is there already.";
        return Err(lost(Fault::Input(why.to_owned())));
    };
    let said = words(&seen.words).map_err(lost)?;
    if said.is_empty() {
        let why = "Say what was seen or read, in a few words.";
        return Err(lost(Fault::Input(why.to_owned())));
    }
    let saying = Saying {
        words: Some(said),
        ..saying(&visit, seen.once)
    };
    let notes: Vec<Note> = hidden
        .subjects
        .iter()
        .map(|subject| seen_note(subject, ask, &saying))
        .collect();
    let first = notes.first().map(|note| note.id);
    desk.write_once(notes).await.map_err(lost)?;
    Ok(seen_at(&back, first).into_response())
}

/// The ask that a form names.
fn asked<'r>(register: &'r Register, text: &str) -> Option<(&'r Hidden, &'r Ask)> {
    let (about, what) = text.split_once('|')?;
    let hidden = register
        .coverings
        .iter()
        .flat_map(|covering| &covering.hides);
    hidden
        .filter(|hidden| {
            hidden
                .subjects
                .iter()
                .any(|subject| subject.to_string() == about)
        })
        .find_map(|hidden| {
            let ask = hidden.asks.iter().find(|ask| ask.what == what)?;
            (ask.wanted != Wanted::Pass).then_some((hidden, ask))
        })
}

fn seen_note(subject: &Subject, ask: &Ask, saying: &Saying) -> Note {
    let said = saying.words.clone().unwrap_or_default();
    let (kind, words, value) = match ask.wanted {
        Wanted::Photo => {
            let words = format!(
                "{}{} {said}",
                KEPT_ELSEWHERE[..1].to_uppercase(),
                &KEPT_ELSEWHERE[1..]
            );
            (Kind::Remark, Some(words), None)
        }
        Wanted::Reading => {
            let value = Value::Reading {
                what: say::cut(&ask.what, 200),
                figure: say::cut(&said, 200),
            };
            (Kind::Measured, None, Some(value))
        }
        _ => (Kind::Remark, Some(format!("{}: {said}", ask.what)), None),
    };
    Note {
        words,
        value,
        ..Note::new(
            acts::one_id(saying, (kind, subject, &ask.what)),
            saying.at,
            saying.by.clone(),
            Ref::from(subject.to_string()),
            kind,
        )
    }
}
