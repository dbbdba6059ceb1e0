//! What is behind a face, from the finish inwards.

use grounds_measure::Length;
use grounds_model::{FaceKind, Id, Job, LayerKey, Material, Relation};
use grounds_site::{Site, Subject};

use crate::{
    evidence::Evidence,
    hides::{Hiding, hides, looks_at},
    kinds::{HiddenKind, kind_of, kind_of_piece},
};

/// What a part of a face is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PartOf {
    /// A layer.
    Layer(LayerKey),
    /// A piece.
    Piece(Id),
}

/// One thing behind a face.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// What it is.
    pub of: PartOf,
    /// What kind of thing it is.
    pub kind: HiddenKind,
    /// What everyone calls it.
    pub name: String,
    /// What it is made of.
    pub material: Option<Material>,
    /// How thick it is, as designed.
    pub thickness: Option<Length>,
    /// How far its outer side lies behind the finish, as designed.
    pub depth: Option<Length>,
    /// Where it sits, in words of the job: heights, sizes, what it is centred on.
    pub sits: Vec<String>,
    /// Something hides it, or will.
    pub is_hidden: bool,
    /// What hides it is there.
    pub is_covered: bool,
    /// What was seen of it.
    pub evidence: Evidence,
}

/// A face and what is behind it.
#[derive(Clone, Debug, PartialEq)]
pub struct BehindFace {
    /// The place.
    pub place: Id,
    /// The face.
    pub face: Id,
    /// What everyone calls the face: `Kitchen walls`.
    pub name: String,
    /// Which way it looks.
    pub kind: FaceKind,
    /// Layers and pieces, the finish first.
    pub parts: Vec<Part>,
    /// Tests and inspections that looked at something of it.
    pub holds: Vec<Id>,
}

/// What is behind every face of a place; nothing where there is no such place.
#[must_use]
pub fn behind(job: &Job, site: &Site, place: &Id) -> Vec<BehindFace> {
    let hiding = hides(job);
    let faces = job
        .places
        .get(place)
        .into_iter()
        .flat_map(|place| place.faces.keys());
    faces
        .filter_map(|face| behind_with(job, site, &hiding, place, face))
        .collect()
}

/// What is behind a face; nothing where there is no such face.
#[must_use]
pub fn behind_face(job: &Job, site: &Site, place: &Id, face: &Id) -> Option<BehindFace> {
    behind_with(job, site, &hides(job), place, face)
}

pub(crate) fn behind_with(
    job: &Job,
    site: &Site,
    hiding: &Hiding,
    place: &Id,
    face: &Id,
) -> Option<BehindFace> {
    let here = job.places.get(place)?;
    let design = here.faces.get(face)?;
    let keys = job.layers_of(place, face);
    let mut parts = Vec::new();
    let mut depth = Length::ZERO;
    for key in keys.iter().rev() {
        parts.extend(pieces_on(job, site, hiding, &keys, key, depth));
        let Some(layer) = job.layer(key) else {
            continue;
        };
        let thickness = layer.thickness.map(|thickness| thickness.nominal());
        let subject = Subject::Layer(key.clone());
        parts.push(Part {
            kind: kind_of(layer),
            name: layer.name.clone(),
            material: Some(layer.material),
            thickness,
            depth: Some(depth),
            sits: readings_in_words(job, site, &subject),
            is_hidden: !hiding.covers_of(&subject).is_empty(),
            is_covered: is_covered(site, hiding, &subject),
            evidence: Evidence::of(site, &subject),
            of: PartOf::Layer(key.clone()),
        });
        if !layer.between {
            depth = thickness
                .and_then(|t| depth.checked_add(t))
                .unwrap_or(depth);
        }
    }
    let own = place.as_str();
    let looks_here = |hold: &grounds_model::Hold| {
        looks_at(job, hold).iter().any(|subject| match subject {
            Subject::Layer(key) => key.place.as_str() == own && key.face == *face,
            Subject::Piece(id) => job
                .pieces
                .get(id)
                .is_some_and(|p| p.place.as_str() == own && p.face.as_ref() == Some(face)),
            _ => false,
        })
    };
    let holds = job.holds.iter().filter(|(_, hold)| looks_here(hold));
    Some(BehindFace {
        place: place.clone(),
        face: face.clone(),
        name: face_name(job, place, face),
        kind: design.kind,
        parts,
        holds: holds.map(|(id, _)| id.clone()).collect(),
    })
}

/// What everyone calls a face: `Kitchen, splashback`.
pub(crate) fn face_name(job: &Job, place: &Id, face: &Id) -> String {
    let here = job.places.get(place);
    let place_name = here.map_or_else(|| place.to_string(), |place| place.name.clone());
    let design = here.and_then(|place| place.faces.get(face));
    let own = design
        .and_then(|face| face.name.clone())
        .unwrap_or_else(|| face.as_str().replace('-', " "));
    format!(
        "{place_name}, {}",
        grounds_sequence::words::lower_first(&own)
    )
}

/// The pieces that sit on a layer of a face, or on the outermost where the job names none of them.
fn pieces_on(
    job: &Job,
    site: &Site,
    hiding: &Hiding,
    keys: &[LayerKey],
    on: &LayerKey,
    depth: Length,
) -> Vec<Part> {
    let here = job
        .pieces
        .iter()
        .filter(|(_, piece)| piece.place == on.place && piece.face.as_ref() == Some(&on.face));
    here.filter(|(_, piece)| {
        let sits_on = |key: &LayerKey| piece.after.iter().any(|r| r.as_str() == key.to_string());
        let at = keys
            .iter()
            .rposition(sits_on)
            .unwrap_or(keys.len().saturating_sub(1));
        keys.get(at) == Some(on)
    })
    .map(|(id, piece)| {
        let subject = Subject::Piece(id.clone());
        let mut sits = Vec::new();
        if let Some(size) = piece.size {
            sits.push(format!("{} in size", size.display(job.job.units)));
        }
        sits.extend(piece.align.iter().map(|align| aligned(job, align)));
        sits.extend(readings_in_words(job, site, &subject));
        Part {
            kind: kind_of_piece(piece),
            name: piece.name.clone(),
            material: piece.material,
            thickness: piece.thickness.map(|thickness| thickness.nominal()),
            depth: Some(depth),
            sits,
            is_hidden: !hiding.covers_of(&subject).is_empty(),
            is_covered: is_covered(site, hiding, &subject),
            evidence: Evidence::of(site, &subject),
            of: PartOf::Piece(id.clone()),
        }
    })
    .collect()
}

/// `1100 mm above the finished floor`.
fn aligned(job: &Job, align: &grounds_model::Align) -> String {
    let by = align.by.map(|by| by.display(job.job.units).to_string());
    let with = job.resolve(&align.with).and_then(Subject::of).map_or_else(
        || align.with.as_str().replace(['.', '-', '/'], " "),
        |subject| grounds_site::name(job, &subject),
    );
    match (align.how, by) {
        (Relation::AboveFloor, Some(by)) => format!("{by} above the finished floor"),
        (Relation::AboveFloor, None) => "on the finished floor".to_owned(),
        (Relation::Flush, None) => format!("flush with {with}"),
        (Relation::Flush, Some(by)) => format!("{by} off {with}"),
        (Relation::Reveal, by) => format!("with a reveal{} to {with}", of(by)),
        (Relation::InPlane, _) => format!("in plane with {with}"),
        (Relation::Centred, _) => format!("centred on {with}"),
        (Relation::EqualGaps, _) => format!("with equal gaps to {with}"),
        (Relation::Clear, by) => format!("clear of {with}{}", by_words(by)),
    }
}

fn of(by: Option<String>) -> String {
    by.map_or_else(String::new, |by| format!(" of {by}"))
}

fn by_words(by: Option<String>) -> String {
    by.map_or_else(String::new, |by| format!(" by at least {by}"))
}

/// What was read of a thing, in words: `read 1,104 mm by Ana`.
fn readings_in_words(job: &Job, site: &Site, subject: &Subject) -> Vec<String> {
    let evidence = Evidence::of(site, subject);
    let readings = evidence.readings.iter();
    readings
        .map(|(value, said)| {
            let figure = value.in_words(job.job.units);
            let words = said.words.as_deref().map(grounds_site::words::plain);
            let what = words.map_or_else(String::new, |words| format!(" ({words})"));
            format!("read {figure}{what}")
        })
        .collect()
}

fn is_covered(site: &Site, hiding: &Hiding, subject: &Subject) -> bool {
    hiding.covers_of(subject).iter().any(|cover| {
        let state = site.states.get(&cover.subject());
        state.is_some_and(|state| state.started.is_some() || state.done.is_some())
    })
}
