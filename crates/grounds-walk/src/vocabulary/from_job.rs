//! The vocabulary that a job gives.

use grounds_model::{Job, LayerKey};
use jiff::civil::Date;

use super::{Person, Place, Sort, Thing, Vocabulary};

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
            also: trade
                .aliases
                .iter()
                .cloned()
                .chain(contact.as_deref().and_then(first_name).map(str::to_owned))
                .chain(contact)
                .collect(),
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

/// The first name of a contact: `Ines` for `Ines Harrow`; none where a title comes first.
fn first_name(contact: &str) -> Option<&str> {
    let (first, _) = contact.split_once(' ')?;
    let title = matches!(
        first.trim_end_matches('.'),
        "Mr" | "Mrs" | "Ms" | "Miss" | "Dr"
    );
    (first.len() > 2 && !title).then_some(first)
}

/// A name up to its first comma, where it has one: `Skim` for `Skim, two coats, trowelled`.
fn shorter(name: &str) -> Option<String> {
    let (head, _) = name.split_once(',')?;
    Some(head.trim().to_owned()).filter(|head| !head.is_empty())
}

/// What a layer is called: by its name and the short of it, with its face and without.
fn names_of_layer(name: &str, face_name: &str, face: &str, layer: &str) -> Vec<String> {
    let short = shorter(name);
    let plain = |text: &str| text.replace('-', " ");
    let mut names = vec![format!("{face_name} {name}"), name.to_owned()];
    if let Some(short) = short {
        names.push(format!("{face_name} {short}"));
        names.push(short);
    }
    names.push(plain(&format!("{face} {layer}")));
    names.push(plain(layer));
    names
}

fn layers(job: &Job) -> impl Iterator<Item = Thing> + '_ {
    job.layer_keys().filter_map(|key: LayerKey| {
        let layer = job.layer(&key)?;
        let face = job.face(key.place.as_str(), key.face.as_str())?;
        let face_name = face.name.clone().unwrap_or_else(|| key.face.to_string());
        Some(Thing {
            id: key.to_string(),
            place: Some(key.place.to_string()),
            sort: Sort::Layer,
            names: names_of_layer(
                &layer.name,
                &face_name,
                key.face.as_str(),
                key.layer.as_str(),
            ),
        })
    })
}

fn pieces(job: &Job) -> impl Iterator<Item = Thing> + '_ {
    job.pieces.iter().map(|(id, piece)| Thing {
        id: id.to_string(),
        place: Some(piece.place.to_string()),
        sort: Sort::Piece,
        names: std::iter::once(piece.name.clone())
            .chain(shorter(&piece.name))
            .chain(piece.aliases.iter().cloned())
            .collect(),
    })
}

fn rest(job: &Job) -> impl Iterator<Item = Thing> + '_ {
    let openings = job.openings.iter().map(|(id, opening)| Thing {
        id: id.to_string(),
        place: Some(opening.place.to_string()),
        sort: Sort::Opening,
        names: vec![opening.name.clone()],
    });
    let holds = job.holds.iter().map(|(id, hold)| Thing {
        id: id.to_string(),
        place: Some(hold.place.to_string()),
        sort: Sort::Hold,
        names: vec![hold.name.clone()],
    });
    let decisions = job.decisions.iter().map(|(id, decision)| Thing {
        id: id.to_string(),
        place: None,
        sort: Sort::Decision,
        names: vec![decision.name.clone()],
    });
    openings.chain(holds).chain(decisions)
}
