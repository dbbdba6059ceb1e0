//! What things are called, in the middle of a sentence.

use grounds_model::{Id, Job, Target};
use grounds_site::{Subject, name};

/// What people call what a rule is applied to.
pub(super) fn called(job: &Job, target: &Target) -> String {
    let subject = match target {
        Target::Face { place, face } => return face_called(job, place, face),
        Target::Layer(key) => Subject::Layer(key.clone()),
        Target::Place(id) => Subject::Place(id.clone()),
        Target::Passage(id) => Subject::Passage(id.clone()),
        Target::Piece(id) => Subject::Piece(id.clone()),
        Target::Opening(id) => Subject::Opening(id.clone()),
        Target::Hold(id) => Subject::Hold(id.clone()),
        Target::Decision(id) => Subject::Decision(id.clone()),
        Target::Milestone(id) => Subject::Milestone(id.clone()),
        Target::Trade(id) => Subject::Trade(id.clone()),
        Target::Control(id) => Subject::Control(id.clone()),
        Target::Line(id) => Subject::Line(id.clone()),
        Target::Job => Subject::Job,
    };
    name(job, &subject)
}

fn face_called(job: &Job, place: &Id, face: &Id) -> String {
    let named = job
        .face(place.as_str(), face.as_str())
        .and_then(|face| face.name.clone());
    let face = named.unwrap_or_else(|| face.as_str().replace('-', " "));
    let place = name(job, &Subject::Place(place.clone()));
    format!("{} of {place}", with_article(&face))
}

/// A name with its article.
pub(super) fn with_article(name: &str) -> String {
    grounds_site::words::with_article(name)
}
