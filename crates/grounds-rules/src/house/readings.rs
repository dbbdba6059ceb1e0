//! Readings noted on site under the name of a figure.

use std::collections::BTreeMap;

use grounds_model::Target;
use grounds_site::{Note, Site, Subject, Value};

/// A reading as it was noted.
pub(super) struct Reading {
    /// The figure as written.
    pub(super) figure: String,
    /// Who read it, and when.
    pub(super) from: String,
}

/// All readings, by what they are about and by the key of their figure.
pub(super) struct Readings<'a> {
    notes: BTreeMap<(&'a Subject, String), &'a Note>,
}

impl<'a> Readings<'a> {
    /// The latest reading of each figure of each thing. Notes of a subject come in order of time.
    pub(super) fn of(site: &'a Site) -> Self {
        let mut notes = BTreeMap::new();
        for (subject, state) in &site.states {
            for note in state.notes.iter().filter_map(|id| site.notes.get(id)) {
                if let Some(Value::Reading { what, .. }) = &note.value {
                    let key = what.trim().to_lowercase().replace([' ', '_'], "-");
                    notes.insert((subject, key), note);
                }
            }
        }
        Self { notes }
    }

    /// The latest reading of a figure, of the thing itself or of a layer of the face.
    pub(super) fn latest(&self, about: &Target, key: &str) -> Option<Reading> {
        if self.notes.is_empty() {
            return None;
        }
        let latest = self
            .notes
            .iter()
            .filter(|((subject, name), _)| name == key && is_about(about, subject))
            .map(|(_, note)| note)
            .max_by_key(|note| (note.at, note.id))?;
        let Some(Value::Reading { figure, .. }) = &latest.value else {
            return None;
        };
        Some(Reading {
            figure: figure.clone(),
            from: format!(
                "read by {} on {}",
                latest.by,
                latest.at.strftime("%-d %B %Y")
            ),
        })
    }
}

fn is_about(about: &Target, subject: &Subject) -> bool {
    match (about, subject) {
        (Target::Piece(a), Subject::Piece(b))
        | (Target::Place(a), Subject::Place(b))
        | (Target::Hold(a), Subject::Hold(b))
        | (Target::Opening(a), Subject::Opening(b)) => a == b,
        (Target::Layer(a), Subject::Layer(b)) => a == b,
        (Target::Face { place, face }, Subject::Layer(layer)) => {
            *place == layer.place && *face == layer.face
        }
        _ => false,
    }
}
