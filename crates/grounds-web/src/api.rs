//! The same things for programs: the plan as a file, and notes in.

use std::{
    collections::{BTreeMap, BTreeSet},
    sync::Arc,
};

use axum::{
    Extension, Json,
    extract::{Path, State, rejection::JsonRejection},
    response::{IntoResponse, Response},
};
use grounds_sequence::PlanFile;
use grounds_site::Note;
use serde_json::json;
use uuid::Uuid;

use crate::{desks::Desks, door::Door, fault::Fault};

/// The most notes that are taken at once.
const MOST_NOTES: usize = 10_000;

/// A fault, for a program.
#[derive(Debug)]
pub(crate) struct Refused(Fault);

impl From<Fault> for Refused {
    fn from(fault: Fault) -> Self {
        Self(fault)
    }
}

impl IntoResponse for Refused {
    fn into_response(self) -> Response {
        (
            self.0.status(),
            Json(json!({ "error": self.0.to_string() })),
        )
            .into_response()
    }
}

/// Answers `GET /api/jobs/{job}/plan`.
pub(crate) async fn plan(
    State(desks): State<Arc<Desks>>,
    Path(key): Path<String>,
) -> Result<Json<PlanFile>, Refused> {
    let picture = desks.desk(&key).await?.picture();
    Ok(Json(PlanFile::of(&picture.outlook, &picture.job)))
}

/// Answers `POST /api/jobs/{job}/notes`: all of the notes are kept, or none. The same note sent
/// again changes nothing. Once answered, they are on the disk.
pub(crate) async fn notes(
    State(desks): State<Arc<Desks>>,
    Extension(door): Extension<Door>,
    Path(key): Path<String>,
    body: Result<Json<Vec<Note>>, JsonRejection>,
) -> Result<Json<serde_json::Value>, Refused> {
    let Json(notes) = body.map_err(|error| {
        let what = crate::say::cut(&error.body_text(), 300);
        Fault::Input(format!(
            "The notes could not be read: {what}. Send an array of notes."
        ))
    })?;
    if notes.len() > MOST_NOTES {
        return Err(Fault::Input(format!("Send at most {MOST_NOTES} notes at once.")).into());
    }
    let desk = desks.desk(&key).await?;
    let sent = notes.len();
    let notes = match door.name() {
        Some(name) => signed(notes, name, &desk.picture().notes),
        None => notes,
    };
    let new = desk.write(notes).await?;
    Ok(Json(json!({ "new": new, "known": sent - new })))
}

/// Notes under the name of whoever sends them. One that is here already, and says the same, stays
/// as it is: somebody who joined again under another name may still hold notes that arrived.
fn signed(notes: Vec<Note>, name: &str, here: &[Note]) -> Vec<Note> {
    let sent: BTreeSet<Uuid> = notes.iter().map(|note| note.id).collect();
    let known = here.iter().filter(|note| sent.contains(&note.id));
    let known: BTreeMap<Uuid, &Note> = known.map(|note| (note.id, note)).collect();
    let sign = |note: Note| match known.get(&note.id) {
        Some(known) if says_the_same(known, &note) => (*known).clone(),
        _ => Note {
            by: name.to_owned(),
            ..note
        },
    };
    notes.into_iter().map(sign).collect()
}

fn says_the_same(known: &Note, note: &Note) -> bool {
    let unsigned = Note {
        by: known.by.clone(),
        ..note.clone()
    };
    *known == unsigned
}
