//! What a note's reference points at in the job, and what people call it.

use grounds_model::{Face, Id, Job, Layer, LayerKey, Ref, Target, WHOLE_JOB, Work};

use crate::{state::Subject, words};

/// What a reference points at.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Aim {
    /// One thing.
    One(Subject),
    /// A face: its layers, structure side first.
    Face(Vec<LayerKey>),
    /// Nothing that the job knows.
    Nothing,
}

/// The layers of a face, structure side first.
pub(crate) fn layers<'a>(job: &'a Job, face: &Face) -> &'a [Layer] {
    job.build_up(face).map_or(&[], |build_up| &build_up.layers)
}

/// What a reference points at.
pub(crate) fn aim(job: &Job, about: &Ref) -> Aim {
    let Some(target) = job.resolve(about) else {
        return Aim::Nothing;
    };
    if let Target::Face { place, face } = target {
        return Aim::Face(job.layers_of(&place, &face));
    }
    Subject::of(target).map_or(Aim::Nothing, Aim::One)
}

/// The work that a reference stands for: all layers of a face, everything in a place.
pub(crate) fn works(job: &Job, about: &Ref) -> Vec<Subject> {
    let Some(target) = job.resolve(about) else {
        return Vec::new();
    };
    let works = job.works(&target).into_iter();
    works
        .map(|work| match work {
            Work::Layer(key) => Subject::Layer(key),
            Work::Piece(id) => Subject::Piece(id),
            Work::Hold(id) => Subject::Hold(id),
            Work::Decision(id) => Subject::Decision(id),
            Work::Milestone(id) => Subject::Milestone(id),
        })
        .collect()
}

/// Every reference that the job understands.
pub(crate) fn references(job: &Job) -> Vec<String> {
    let mut all = vec![WHOLE_JOB.to_owned()];
    for (place, design) in &job.places {
        for (face, design) in &design.faces {
            all.push(format!("{place}.{face}"));
            all.extend(
                layers(job, design)
                    .iter()
                    .map(|layer| format!("{place}.{face}/{}", layer.id)),
            );
        }
    }
    let keys = job
        .places
        .keys()
        .chain(job.pieces.keys())
        .chain(job.holds.keys())
        .chain(job.openings.keys())
        .chain(job.decisions.keys())
        .chain(job.milestones.keys())
        .chain(job.passages.keys())
        .chain(job.trades.keys())
        .chain(job.controls.keys())
        .chain(job.lines.keys());
    all.extend(keys.map(Id::to_string));
    all
}

/// What people call a subject, for the middle of a sentence: `the finish coat in the stair hall`.
#[must_use]
pub fn name(job: &Job, subject: &Subject) -> String {
    match subject {
        Subject::Layer(key) => layer_name(job, key),
        Subject::Place(id) => place_name(job, id),
        Subject::Piece(id) => called(job.pieces.get(id).map(|x| x.name.as_str()), id),
        Subject::Hold(id) => called(job.holds.get(id).map(|x| x.name.as_str()), id),
        Subject::Opening(id) => called(job.openings.get(id).map(|x| x.name.as_str()), id),
        Subject::Decision(id) => called(job.decisions.get(id).map(|x| x.name.as_str()), id),
        Subject::Milestone(id) => called(job.milestones.get(id).map(|x| x.name.as_str()), id),
        Subject::Trade(id) => called(job.trades.get(id).map(|x| x.name.as_str()), id),
        Subject::Passage(id) => called(job.passages.get(id).and_then(|x| x.name.as_deref()), id),
        Subject::Control(id) => called(job.controls.get(id).map(|x| x.name.as_str()), id),
        Subject::Line(id) => called(job.lines.get(id).map(|x| x.name.as_str()), id),
        Subject::Job => "the whole job".to_owned(),
    }
}

/// What people call a place.
pub(crate) fn place_name(job: &Job, id: &Id) -> String {
    called(job.places.get(id).map(|place| place.name.as_str()), id)
}

/// What people call a layer, without where it is.
pub(crate) fn layer_alone(job: &Job, key: &LayerKey) -> String {
    let face = job
        .places
        .get(&key.place)
        .and_then(|place| place.faces.get(&key.face));
    let layer = face.and_then(|face| layers(job, face).iter().find(|layer| layer.id == key.layer));
    called(layer.map(|layer| layer.name.as_str()), &key.layer)
}

/// The layer and its place; the face too, where the place has more than one such layer.
fn layer_name(job: &Job, key: &LayerKey) -> String {
    let place = place_name(job, &key.place);
    let faces = job.places.get(&key.place).map(|place| &place.faces);
    let face = faces.and_then(|faces| faces.get(&key.face));
    let layer = face
        .and_then(|face| layers(job, face).iter().find(|layer| layer.id == key.layer))
        .map(|layer| layer.name.as_str());
    let same = faces.map_or(0, |faces| {
        let has_it = |face: &&Face| {
            layers(job, face)
                .iter()
                .any(|l| Some(l.name.as_str()) == layer)
        };
        faces.values().filter(has_it).count()
    });
    let what = layer_alone(job, key);
    if same < 2 {
        return format!("{what} in {place}");
    }
    let face = called(face.and_then(|face| face.name.as_deref()), &key.face);
    format!("{what} on {face} in {place}")
}

/// A name with its article; the key in words where there is no name.
fn called(name: Option<&str>, key: &Id) -> String {
    match name.filter(|name| !name.trim().is_empty()) {
        Some(name) => words::with_article(name),
        None => words::with_article(&key.as_str().replace('-', " ")),
    }
}
