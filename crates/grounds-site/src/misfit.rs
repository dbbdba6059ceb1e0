//! Asking about notes that say what cannot be said of their subject.

use grounds_model::{Hold, Ref};

use crate::{
    house,
    note::{Kind, Note},
    questions::Questions,
    state::Subject,
    words,
};

/// The question for a kind of note that its subject cannot take.
pub(crate) fn words(questions: &Questions<'_>, note: &Note, subject: &Subject) -> String {
    let name = questions.name(subject);
    let (by, day, kind) = (by(note), questions.day(note.at), note.kind.word());
    match (subject, note.kind) {
        (Subject::Hold(_), Kind::Done) => {
            format!("{by} noted {name} done on {day}. Did it pass or fail?")
        }
        (Subject::Place(_) | Subject::Job, _) => {
            format!(
                "{by} noted “{kind}” on {day} for all of {name}. Which layer or piece is meant?"
            )
        }
        (_, Kind::Passed | Kind::Failed) => {
            let hint = which_hold(questions, subject);
            format!(
                "{by} noted on {day} that {name} {kind}, but that is no test or inspection. {hint}"
            )
        }
        _ => format!(
            "{by} noted “{kind}” on {day} for {name}, where it says nothing. What is meant?"
        ),
    }
}

/// The question for a note about a face that must name its layer.
pub(crate) fn which_layer(questions: &Questions<'_>, note: &Note) -> String {
    let (by, day) = (by(note), questions.day(note.at));
    let face = face_name(questions, &note.about);
    match note.kind {
        Kind::Undone => {
            format!("{by} noted on {day} that {face} must be done again. How many layers come off?")
        }
        Kind::Damaged => {
            format!("{by} noted on {day} that {face} was damaged. Which layers must be done again?")
        }
        kind => {
            let kind = kind.word();
            format!("{by} noted “{kind}” on {day} for all of {face}. Which layer is meant?")
        }
    }
}

/// `the walls in the stair hall`.
pub(crate) fn face_name(questions: &Questions<'_>, about: &Ref) -> String {
    let Some((place, face)) = about.as_str().split_once('.') else {
        return words::plain(about.as_str());
    };
    let found = questions.job.places.get_key_value(place);
    let name = found
        .and_then(|(_, place)| place.faces.get(face))
        .and_then(|face| face.name.clone())
        .unwrap_or_else(|| face.replace('-', " "));
    let place = house::place_name(questions.job, &place.into());
    format!("{} in {place}", words::with_article(&name))
}

/// Who wrote a note, as the head of a sentence.
fn by(note: &Note) -> String {
    let by = words::plain(&note.by);
    if by.is_empty() {
        "Somebody".to_owned()
    } else {
        by
    }
}

/// The holds that look at a subject or guard it, as a question.
fn which_hold(questions: &Questions<'_>, subject: &Subject) -> String {
    let points_at_it = |about: &Ref| house::works(questions.job, about).contains(subject);
    let is_about_it = |hold: &Hold| hold.after.iter().chain(&hold.before).any(points_at_it);
    let ids = questions
        .job
        .holds
        .iter()
        .filter(|(_, hold)| is_about_it(hold));
    let names: Vec<String> = ids
        .map(|(id, _)| questions.name(&Subject::Hold(id.clone())))
        .collect();
    match names.as_slice() {
        [] => "Which one is meant?".to_owned(),
        names => format!("Is {} meant?", words::list(names)),
    }
}
