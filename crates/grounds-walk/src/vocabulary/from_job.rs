//! The vocabulary that a job gives.

use grounds_model::{Job, LayerKey};
use jiff::civil::Date;

use super::{Person, Place, Thing, Vocabulary};

/// What a job's document knows before a walk on the given day.
///
/// Places are its places with their aliases, people its trades with theirs and their contacts,
/// things its layers, pieces, openings, holds and decisions, each by the id that a note takes.
#[must_use]
pub fn from_job(job: &Job, day: Date) -> Vocabulary {
    let places = job.places.iter().map(|(id, place)| Place {
        id: id.to_string(),
        name: place.name.clone(),
        also: place.aliases.clone(),
    });
    let people = job.trades.iter().map(|(id, trade)| {
        let contact = trade
            .contact
            .as_ref()
            .and_then(|contact| contact.name.clone());
        Person {
            id: id.to_string(),
            name: trade.name.clone(),
            also: trade.aliases.iter().cloned().chain(contact).collect(),
        }
    });
    Vocabulary {
        day,
        units: job.job.units,
        places: places.collect(),
        people: people.collect(),
        things: layers(job).chain(pieces(job)).chain(rest(job)).collect(),
    }
}

fn layers(job: &Job) -> impl Iterator<Item = Thing> + '_ {
    job.layer_keys().filter_map(|key: LayerKey| {
        let layer = job.layer(&key)?;
        let face = job.face(key.place.as_str(), key.face.as_str())?;
        let face_name = face.name.clone().unwrap_or_else(|| key.face.to_string());
        Some(Thing {
            id: key.to_string(),
            place: Some(key.place.to_string()),
            names: vec![
                format!("{face_name} {}", layer.name),
                layer.name.clone(),
                format!("{} {}", key.face, key.layer).replace('-', " "),
            ],
        })
    })
}

fn pieces(job: &Job) -> impl Iterator<Item = Thing> + '_ {
    job.pieces.iter().map(|(id, piece)| Thing {
        id: id.to_string(),
        place: Some(piece.place.to_string()),
        names: std::iter::once(piece.name.clone())
            .chain(piece.aliases.iter().cloned())
            .collect(),
    })
}

fn rest(job: &Job) -> impl Iterator<Item = Thing> + '_ {
    let openings = job.openings.iter().map(|(id, opening)| Thing {
        id: id.to_string(),
        place: Some(opening.place.to_string()),
        names: vec![opening.name.clone()],
    });
    let holds = job.holds.iter().map(|(id, hold)| Thing {
        id: id.to_string(),
        place: Some(hold.place.to_string()),
        names: vec![hold.name.clone()],
    });
    let decisions = job.decisions.iter().map(|(id, decision)| Thing {
        id: id.to_string(),
        place: None,
        names: vec![decision.name.clone()],
    });
    openings.chain(holds).chain(decisions)
}
