//! Who hides what, by the job alone.

use std::collections::{BTreeMap, BTreeSet};

use grounds_model::{Hold, Id, Job, LayerKey, Target, Work};
use grounds_site::Subject;

use crate::kinds::closes;

/// What covers: a layer on a face, or a piece.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Cover {
    /// A layer on a face.
    Layer(LayerKey),
    /// A piece.
    Piece(Id),
}

impl Cover {
    /// What a note about it is about.
    #[must_use]
    pub fn subject(&self) -> Subject {
        match self {
            Self::Layer(key) => Subject::Layer(key.clone()),
            Self::Piece(id) => Subject::Piece(id.clone()),
        }
    }
}

/// What hides what: for each thing that covers, the layers, pieces and holds that it hides.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Hiding {
    /// By what covers; structure side first.
    pub by: BTreeMap<Cover, Vec<Subject>>,
}

impl Hiding {
    fn add(&mut self, cover: &Cover, hidden: Subject) {
        let all = self.by.entry(cover.clone()).or_default();
        if !all.contains(&hidden) {
            all.push(hidden);
        }
    }

    /// What hides a thing, the first of it; none where it stays in view.
    #[must_use]
    pub fn covers_of(&self, hidden: &Subject) -> Vec<&Cover> {
        let all = self.by.iter();
        all.filter(|(_, hides)| hides.contains(hidden))
            .map(|(cover, _)| cover)
            .collect()
    }
}

/// What each layer and piece of a job hides.
///
/// A layer hides everything on its face that lies between it and the last layer before it that hid
/// what was under that; a piece hides what the job says goes in before it. Whatever a hold or a piece
/// names in its `before` counts as covering, whatever it is made of.
#[must_use]
pub fn hides(job: &Job) -> Hiding {
    let named = named_covers(job);
    let mut hiding = Hiding::default();
    for (place, design) in &job.places {
        for face in design.faces.keys() {
            stack(job, &job.layers_of(place, face), &named, &mut hiding);
        }
    }
    for (id, piece) in &job.pieces {
        for cover in piece
            .before
            .iter()
            .flat_map(|about| covers_named(job, about))
        {
            hiding.add(&cover, Subject::Piece(id.clone()));
        }
    }
    let seen_by_others: BTreeSet<Subject> = hiding.by.values().flatten().cloned().collect();
    for (id, hold) in &job.holds {
        guard(job, id, hold, &seen_by_others, &mut hiding);
    }
    hiding
}

/// One face, structure side first.
fn stack(job: &Job, keys: &[LayerKey], named: &BTreeSet<Cover>, hiding: &mut Hiding) {
    let mut in_view: Vec<&LayerKey> = Vec::new();
    for key in keys {
        let Some(layer) = job.layer(key) else {
            continue;
        };
        let cover = Cover::Layer(key.clone());
        if closes(layer) || named.contains(&cover) {
            for under in in_view.drain(..) {
                hiding.add(&cover, Subject::Layer(under.clone()));
            }
        }
        // Protection is taken up again: it is never hidden for good.
        if !layer.protective {
            in_view.push(key);
        }
    }
}

/// A hold, with what it looks at that nothing else hides.
fn guard(job: &Job, id: &Id, hold: &Hold, hidden: &BTreeSet<Subject>, hiding: &mut Hiding) {
    let looked_at: Vec<Subject> = looks_at(job, hold)
        .into_iter()
        .filter(|subject| !hidden.contains(subject))
        .collect();
    let guarded: BTreeSet<Cover> = hold
        .before
        .iter()
        .flat_map(|about| covers_named(job, about))
        .collect();
    for cover in &guarded {
        for subject in &looked_at {
            if *subject != cover.subject() {
                hiding.add(cover, subject.clone());
            }
        }
        hiding.add(cover, Subject::Hold(id.clone()));
    }
}

/// The layers and pieces that a hold looks at: what it names, and of a whole face or place all of it.
#[must_use]
pub fn looks_at(job: &Job, hold: &Hold) -> Vec<Subject> {
    let works = hold
        .after
        .iter()
        .filter_map(|about| job.resolve(about))
        .flat_map(|target| job.works(&target));
    let mut all: Vec<Subject> = Vec::new();
    for work in works {
        let subject = match work {
            Work::Layer(key) => Subject::Layer(key),
            Work::Piece(id) => Subject::Piece(id),
            _ => continue,
        };
        if !all.contains(&subject) {
            all.push(subject);
        }
    }
    all
}

/// The layers and pieces that a `before` names as covering.
#[must_use]
pub fn covers_named(job: &Job, about: &grounds_model::Ref) -> Vec<Cover> {
    match job.resolve(about) {
        Some(Target::Layer(key)) => vec![Cover::Layer(key)],
        Some(Target::Face { place, face }) => {
            let first = job.layers_of(&place, &face).into_iter().next();
            first.map(Cover::Layer).into_iter().collect()
        }
        Some(Target::Piece(id)) => vec![Cover::Piece(id)],
        Some(Target::Opening(id)) => {
            let piece = job
                .openings
                .get(&id)
                .and_then(|opening| opening.piece.clone());
            piece.map(Cover::Piece).into_iter().collect()
        }
        Some(Target::Place(place)) => closing_in(job, &place),
        _ => Vec::new(),
    }
}

/// Everything in a place that closes something.
fn closing_in(job: &Job, place: &Id) -> Vec<Cover> {
    let faces = job
        .places
        .get(place)
        .into_iter()
        .flat_map(|p| p.faces.keys());
    faces
        .flat_map(|face| job.layers_of(place, face))
        .filter(|key| job.layer(key).is_some_and(closes))
        .map(Cover::Layer)
        .collect()
}

/// Everything that a piece or a hold names in its `before`.
fn named_covers(job: &Job) -> BTreeSet<Cover> {
    let pieces = job.pieces.values().flat_map(|piece| &piece.before);
    let holds = job.holds.values().flat_map(|hold| &hold.before);
    pieces
        .chain(holds)
        .flat_map(|about| covers_named(job, about))
        .collect()
}
