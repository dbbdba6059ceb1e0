//! `grounds cover --behind`: what is behind a face, from the finish inwards.

use grounds_cover::{
    BEFORE_DRILLING, BehindFace, CoverWords, Found, Part, PartOf, behind_face, find,
};
use grounds_model::Target;
use grounds_site::Subject;
use serde::Serialize;

use super::{show, show_json};
use crate::{
    ending::{Ending, Trouble},
    opened::Planned,
    page::{HEAD, PLAIN, Page, QUIET, harmless},
};

pub(super) fn run(
    planned: &Planned,
    words: &CoverWords<'_>,
    question: &str,
    json: bool,
) -> Result<Ending, Trouble> {
    let found = asked(planned, question);
    if found.faces.is_empty() {
        let shown: String = harmless(question).chars().take(80).collect();
        return Err(Trouble::Input(format!(
            "nothing in this job is called {shown:?}: ask with names of the job, such as {}",
            example(planned)
        )));
    }
    if json {
        show_json(&BehindFile::of(words, &found))?;
    } else {
        show(page(words, &found))?;
    }
    Ok(Ending::Fine)
}

/// A face by its key, else what the words find.
fn asked(planned: &Planned, question: &str) -> Found {
    let face = match planned.job.resolve(&question.trim().into()) {
        Some(Target::Face { place, face }) => {
            behind_face(&planned.job, &planned.site, &place, &face)
        }
        _ => None,
    };
    match face {
        Some(face) => Found {
            faces: vec![face],
            ..Found::default()
        },
        None => find(&planned.job, &planned.site, question, None),
    }
}

fn example(planned: &Planned) -> String {
    let place = planned.job.places.values().next();
    place.map_or_else(
        || "\"pipe in the shower\"".to_owned(),
        |place| format!("{:?}", format!("{} wall", place.name.to_lowercase())),
    )
}

fn page(words: &CoverWords<'_>, found: &Found) -> Page {
    let mut page = Page::default();
    if !found.not_known.is_empty() {
        let words = found.not_known.join(", ");
        page.paragraph(QUIET, 0, &format!("Nothing in the job is called: {words}."));
    }
    for face in &found.faces {
        page.heading(HEAD, &face.name);
        page.paragraph(
            QUIET,
            2,
            &format!("{}.{}, the finish first", face.place, face.face),
        );
        for part in &face.parts {
            let mark = if is_asked(found, part) { " <-" } else { "" };
            page.item(
                2,
                &format!("{}: {}.{mark}", part.name, words.part(part).join(", ")),
            );
        }
        for id in &face.holds {
            page.paragraph(PLAIN, 4, &format!("{id}: {}", words.hold_in_short(id)));
        }
    }
    page.heading(HEAD, "Before you drill");
    page.paragraph(PLAIN, 2, BEFORE_DRILLING);
    page
}

fn is_asked(found: &Found, part: &Part) -> bool {
    let subject = match &part.of {
        PartOf::Layer(key) => Subject::Layer(key.clone()),
        PartOf::Piece(id) => Subject::Piece(id.clone()),
    };
    found.things.contains(&subject)
}

/// What was found, as JSON.
#[derive(Debug, Serialize)]
struct BehindFile<'a> {
    not_known: &'a [String],
    faces: Vec<FaceFile<'a>>,
    caution: &'static str,
}

#[derive(Debug, Serialize)]
struct FaceFile<'a> {
    place: &'a str,
    face: &'a str,
    name: &'a str,
    /// The finish first.
    parts: Vec<PartFile<'a>>,
    holds: Vec<&'a str>,
}

#[derive(Debug, Serialize)]
struct PartFile<'a> {
    about: String,
    name: &'a str,
    asked_for: bool,
    covered: bool,
    photos: Vec<&'a str>,
    said: Vec<String>,
}

impl<'a> BehindFile<'a> {
    fn of(words: &CoverWords<'_>, found: &'a Found) -> Self {
        let face = |face: &'a BehindFace| FaceFile {
            place: face.place.as_str(),
            face: face.face.as_str(),
            name: &face.name,
            parts: face
                .parts
                .iter()
                .map(|part| part_file(words, found, part))
                .collect(),
            holds: face.holds.iter().map(|id| id.as_str()).collect(),
        };
        Self {
            not_known: &found.not_known,
            faces: found.faces.iter().map(face).collect(),
            caution: BEFORE_DRILLING,
        }
    }
}

fn part_file<'a>(words: &CoverWords<'_>, found: &Found, part: &'a Part) -> PartFile<'a> {
    let about = match &part.of {
        PartOf::Layer(key) => key.to_string(),
        PartOf::Piece(id) => id.to_string(),
    };
    PartFile {
        about,
        name: &part.name,
        asked_for: is_asked(found, part),
        covered: part.is_covered,
        photos: part
            .evidence
            .photos
            .iter()
            .map(|(key, _)| key.as_str())
            .collect(),
        said: words.part(part),
    }
}
