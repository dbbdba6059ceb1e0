//! What the notes show of a thing: done, read, photographed, passed, by whom and when.

use grounds_model::Ref;
use grounds_site::{Kind, Note, Site, Subject, Value};
use jiff::Timestamp;
use uuid::Uuid;

/// One thing that somebody said.
#[derive(Clone, Debug, PartialEq)]
pub struct Said {
    /// When it was true.
    pub at: Timestamp,
    /// Who says so.
    pub by: String,
    /// The note.
    pub note: Uuid,
    /// In words, if there are any.
    pub words: Option<String>,
    /// Nobody saw it: it is taken to be so because what covers it is there.
    pub presumed: bool,
}

impl Said {
    /// What a note says.
    #[must_use]
    pub fn of(note: &Note) -> Self {
        Self {
            at: note.at,
            by: note.by.clone(),
            note: note.id,
            presumed: note.presumed,
            words: note.words.clone().filter(|words| !words.trim().is_empty()),
        }
    }

    /// What the note of that id says.
    pub(crate) fn by_id(site: &Site, id: Uuid) -> Option<Self> {
        site.notes.get(&id).map(Self::of)
    }
}

/// What the notes show of a thing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Evidence {
    /// It is done, set or passed.
    pub done: Option<Said>,
    /// Its last fail, while it has not passed since.
    pub failed: Option<Said>,
    /// What was read on it, the earliest first.
    pub readings: Vec<(Value, Said)>,
    /// Photos that show it, by their keys in the photo store, the earliest first.
    pub photos: Vec<(String, Said)>,
    /// What says where a photo of it is kept that is not in the photo store.
    pub kept_elsewhere: Vec<Said>,
}

/// When a thing could be seen: what was said of its whole face counts for it only then.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct InView {
    /// From here on.
    pub(crate) from: Option<Timestamp>,
    /// Until here.
    pub(crate) until: Option<Timestamp>,
}

impl Evidence {
    /// What the notes show of a thing that nothing hides yet.
    #[must_use]
    pub fn of(site: &Site, subject: &Subject) -> Self {
        Self::in_view(site, subject, InView::default())
    }

    pub(crate) fn in_view(site: &Site, subject: &Subject, view: InView) -> Self {
        let Some(state) = site.states.get(subject) else {
            return Self::default();
        };
        let said = |id: Uuid| Said::by_id(site, id);
        let mut evidence = Self {
            done: state.done.and_then(|seen| said(seen.note)),
            failed: state.failed.and_then(|seen| said(seen.note)),
            ..Self::default()
        };
        for note in counting(site, subject, view) {
            let photos = note.photos.iter();
            evidence
                .photos
                .extend(photos.map(|key| (key.clone(), Said::of(note))));
            if crate::asks::is_kept_elsewhere(note) {
                evidence.kept_elsewhere.push(Said::of(note));
            }
            if let Some(value) = note.value.as_ref().filter(|value| is_reading(value)) {
                evidence.readings.push((value.clone(), Said::of(note)));
            }
        }
        evidence
    }

    /// The same with what is known of another thing beside it.
    pub(crate) fn and(mut self, other: Self) -> Self {
        self.done = self
            .done
            .zip(other.done)
            .map(|(a, b)| if b.at > a.at { b } else { a });
        self.failed = self.failed.or(other.failed);
        for reading in other.readings {
            if !self.readings.contains(&reading) {
                self.readings.push(reading);
            }
        }
        for said in other.kept_elsewhere {
            if !self.kept_elsewhere.contains(&said) {
                self.kept_elsewhere.push(said);
            }
        }
        for photo in other.photos {
            if !self.photos.iter().any(|(key, _)| *key == photo.0) {
                self.photos.push(photo);
            }
        }
        self
    }
}

/// The notes that show a thing as it is: since it was last undone, damaged or failed, and of its whole face
/// only while it was in view.
pub(crate) fn counting<'s>(
    site: &'s Site,
    subject: &Subject,
    view: InView,
) -> impl Iterator<Item = &'s Note> + use<'s> {
    let ids = site.states.get(subject).map(|state| state.notes.as_slice());
    let notes: Vec<&Note> = ids
        .unwrap_or_default()
        .iter()
        .filter_map(|id| site.notes.get(id))
        .collect();
    let anew = notes
        .iter()
        .rposition(|note| matches!(note.kind, Kind::Undone | Kind::Damaged | Kind::Failed))
        .map_or(0, |at| at + 1);
    let own = Ref::from(subject.to_string());
    let shows = move |note: &&Note| {
        note.about == own
            || view.from.is_some_and(|from| note.at >= from)
                && view.until.is_none_or(|until| note.at <= until)
    };
    notes.into_iter().skip(anew).filter(shows)
}

/// Whether a value is something that was read, and not a date or a share of work.
pub(crate) fn is_reading(value: &Value) -> bool {
    !matches!(value, Value::When(_) | Value::Share(_))
}
