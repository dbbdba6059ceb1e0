//! The walk through the house: what a phone needs to know to show it and to write notes by itself,
//! and what may be said of each sort of thing.

mod known;
mod sort;

use axum::{
    Form,
    extract::rejection::FormRejection,
    response::{IntoResponse, Response},
};
use grounds_model::Ref;
use grounds_site::{Kind, Note, Subject};
use serde::Deserialize;
use uuid::Uuid;

use crate::{
    acts,
    fault::Fault,
    looking::{Looking, Lost, own_page},
    say,
    visit::Visit,
    writing::{self, not_understood, saying, seen_at},
};

pub(crate) use known::{Face, How, Known, Layer, Place, Thing};
pub(crate) use sort::{Sort, Standing};

/// What stands in a note of trouble that was written in one tap.
const NO_WORDS: &str = "Not right.";

/// One thing said on the walk, without script.
#[derive(Debug, Deserialize)]
pub(crate) struct Said {
    about: String,
    kind: Kind,
    once: Uuid,
    #[serde(default)]
    back: String,
    #[serde(default)]
    words: String,
}

/// Answers `POST /j/{job}/walk`.
pub(crate) async fn write(
    Looking { desk, visit }: Looking,
    form: Result<Form<Said>, FormRejection>,
) -> Result<Response, Lost> {
    let Form(said) = form.map_err(not_understood)?;
    let back = own_page(&said.back).to_owned();
    let lost = |fault: Fault| Lost::new(fault).back_to(&back);
    let note = note(&visit, &said).map_err(lost)?;
    let id = note.id;
    desk.write_once(vec![note]).await.map_err(lost)?;
    Ok(seen_at(&back, Some(id)).into_response())
}

fn note(visit: &Visit, said: &Said) -> Result<Note, Fault> {
    let about = Ref::from(said.about.as_str());
    let target = visit.picture.job.resolve(&about);
    let sort = target.and_then(Subject::of).as_ref().and_then(Sort::of);
    if !sort.is_some_and(|sort| sort.takes(said.kind)) {
        let what = say::cut(&said.about, 120);
        return Err(Fault::Input(format!(
            "“{}” cannot be said of “{what}” on the walk.",
            said.kind.word()
        )));
    }
    let words = writing::words(&said.words)?;
    let words = match (words.is_empty(), said.kind) {
        (false, _) => Some(words),
        (true, Kind::Problem) => Some(NO_WORDS.to_owned()),
        (true, Kind::Remark) => {
            return Err(Fault::Input("Say it in a few words.".to_owned()));
        }
        (true, _) => None,
    };
    let saying = saying(visit, said.once);
    let id = acts::one_id(&saying, (said.kind, &about, &words));
    Ok(Note {
        words,
        ..Note::new(id, saying.at, saying.by, about, said.kind)
    })
}
