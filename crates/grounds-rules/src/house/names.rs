//! What things are called, in the middle of a sentence.

use grounds_model::{Id, Job, Target};
use grounds_site::{Subject, name};

/// What people call what a rule is applied to.
pub(super) fn called(job: &Job, target: &Target) -> String {
    if let Target::Face { place, face } = target {
        return face_called(job, place, face);
    }
    Subject::of(target.clone()).map_or_else(String::new, |subject| name(job, &subject))
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
