//! How far a face has got, and the notes that say it.

use grounds_model::{Id, Job, LayerKey, Piece, Ref, Target};
use grounds_site::{Kind, Note, Site, Subject, Value};
use jiff::Timestamp;
use uuid::Uuid;

/// How far a face has got.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Reach {
    /// Up to this layer, which is the outermost that is there.
    UpTo(Id),
    /// Nothing of its build-up is there.
    Nothing,
    /// Nobody could look.
    Unknown,
}

/// What somebody marked on one face.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Mark {
    /// The place.
    pub place: Id,
    /// The face in that place.
    pub face: Id,
    /// How far it has got.
    pub reach: Reach,
}

/// One thing that a mark or a decision says; a note once somebody has written it.
#[derive(Clone, Debug, PartialEq)]
pub struct Said {
    /// What it is about.
    pub about: Ref,
    /// What kind of thing.
    pub kind: Kind,
    /// Nobody saw it.
    pub presumed: bool,
    /// What goes with it.
    pub value: Option<Value>,
    /// In words.
    pub words: Option<String>,
}

impl Said {
    /// Something about a thing, seen.
    #[must_use]
    pub fn new(about: impl Into<Ref>, kind: Kind) -> Self {
        Self {
            about: about.into(),
            kind,
            presumed: false,
            value: None,
            words: None,
        }
    }

    /// The same about what nobody saw.
    #[must_use]
    pub fn unseen(self) -> Self {
        Self {
            presumed: true,
            ..self
        }
    }

    /// The same in words.
    #[must_use]
    pub fn words(self, words: impl Into<String>) -> Self {
        Self {
            words: Some(words.into()),
            ..self
        }
    }

    /// The note of it. The id is made where it is written.
    #[must_use]
    pub fn note(&self, id: Uuid, at: Timestamp, by: &str) -> Note {
        Note {
            value: self.value.clone(),
            words: self.words.clone(),
            presumed: self.presumed,
            ..Note::new(id, at, by, self.about.clone(), self.kind)
        }
    }
}

/// What a mark says: a word about every layer of its face, and about the pieces that its layers cover.
///
/// The outermost layer was seen. What lies behind it, and pieces that it covers, are presumed. What
/// lies over it is not there. Nothing is said of pieces in plain sight, nor of a face or a layer that
/// the job does not have. What a mark says depends on nothing but the job and the
/// mark, so that marks may come in any order; of two marks of one face the later counts.
#[must_use]
pub fn said(job: &Job, mark: &Mark) -> Vec<Said> {
    let keys = job.layers_of(&mark.place, &mark.face);
    let face = format!("{}.{}", mark.place, mark.face);
    let on = match &mark.reach {
        Reach::Unknown if keys.is_empty() => return Vec::new(),
        Reach::Unknown => {
            let unknown = Said::new(face, Kind::Remark).unseen();
            return vec![unknown.words("Nobody could look.")];
        }
        Reach::Nothing => 0,
        Reach::UpTo(layer) => match keys.iter().position(|key| key.layer == *layer) {
            Some(at) => at + 1,
            None => return Vec::new(),
        },
    };
    let layer = |(at, key): (usize, &LayerKey)| {
        let about = key.to_string();
        let protective = job.layer(key).is_some_and(|layer| layer.protective);
        match at + 1 {
            outermost if outermost == on => Some(Said::new(about, Kind::Done)),
            // Protection is taken up again: that it was there once says nothing.
            behind if behind < on => (!protective).then(|| Said::new(about, Kind::Done).unseen()),
            _ => Some(Said::new(about, Kind::Undone).words("Not there.")),
        }
    };
    let layers = keys.iter().enumerate().filter_map(layer);
    let behind = job.pieces.iter().filter(|(_, piece)| {
        let on_face = piece.place == mark.place && piece.face.as_ref() == Some(&mark.face);
        on_face && is_covered(job, piece, keys.get(..on).unwrap_or_default())
    });
    let pieces = behind.map(|(id, _)| Said::new(id.as_str(), Kind::Done).unseen());
    layers.chain(pieces).collect()
}

/// Whether something that covers a piece is among the layers that are on.
fn is_covered(job: &Job, piece: &Piece, on: &[LayerKey]) -> bool {
    let mut covers = piece.before.iter();
    covers.any(|cover| matches!(job.resolve(cover), Some(Target::Layer(key)) if on.contains(&key)))
}

/// The face that a mark is of, in words: `walls in the hall`.
#[must_use]
pub fn face_words(job: &Job, place: &Id, face: &Id) -> String {
    let named = job
        .face(place.as_str(), face.as_str())
        .and_then(|face| face.name.clone());
    let name = named.unwrap_or_else(|| face.as_str().replace('-', " "));
    let place = grounds_site::name(job, &Subject::Place(place.clone()));
    format!("{} in {place}", grounds_sequence::words::lower_first(&name))
}

/// How far a face has got, as notes say it; nothing where nobody said a word of it.
#[must_use]
pub fn reach(job: &Job, site: &Site, place: &Id, face: &Id) -> Option<Reach> {
    let keys = job.layers_of(place, face);
    let state = |key: &LayerKey| site.state(&Subject::Layer(key.clone()));
    let outermost = keys.iter().rev().find(|key| state(key).done.is_some());
    if let Some(key) = outermost {
        return Some(Reach::UpTo(key.layer.clone()));
    }
    let states: Vec<_> = keys.iter().map(state).collect();
    if states.iter().any(grounds_site::State::is_told) {
        return Some(Reach::Nothing);
    }
    let unseen = states.iter().any(|state| state.unseen.is_some());
    unseen.then_some(Reach::Unknown)
}
