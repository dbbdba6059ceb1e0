//! Finding what somebody asks for: `where is the pipe in the shower`.

use std::collections::{BTreeMap, BTreeSet};

use grounds_model::{FaceKind, Id, Job, Material};
use grounds_site::{Site, Subject};
use grounds_walk::content_stems;

use crate::{
    behind::{BehindFace, Part, PartOf, behind_with, face_name},
    hides::hides,
};

/// The longest question that is read, in characters.
const LONGEST: usize = 200;

/// At most this many faces are shown.
const MOST_FACES: usize = 12;

/// Words of the question itself, which name nothing in a house.
const ASKING: [&str; 16] = [
    "what", "where", "which", "behind", "show", "is", "are", "there", "find", "me", "please",
    "under", "hidden", "run", "any", "whats",
];

/// What was found for a question.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Found {
    /// Faces, the best match first.
    pub faces: Vec<BehindFace>,
    /// Layers and pieces that were asked for by name; nothing where only a place was.
    pub things: Vec<Subject>,
    /// Words of the question that name nothing in the job.
    pub not_known: Vec<String>,
}

/// Finds the faces, and the things behind them, that a question names. `within` keeps to one place.
#[must_use]
pub fn find(job: &Job, site: &Site, question: &str, within: Option<&Id>) -> Found {
    let words = words_of(question);
    if words.is_empty() {
        return Found::default();
    }
    let hiding = hides(job);
    let mut known: BTreeSet<usize> = BTreeSet::new();
    let mut hits: Vec<Hit> = Vec::new();
    for (place, here) in &job.places {
        if within.is_some_and(|only| only != place) {
            continue;
        }
        let of_place = place_stems(job, place);
        for (face, design) in &here.faces {
            let Some(behind) = behind_with(job, site, &hiding, place, face) else {
                continue;
            };
            let mut of_face = stems(&face_name(job, place, face));
            let by_name = matching(&words, &of_face).len();
            of_face.extend(kind_stems(design.kind));
            let named: BTreeSet<usize> = matching(&words, &of_place);
            let sided: BTreeSet<usize> = matching(&words, &of_face)
                .difference(&named)
                .copied()
                .collect();
            let things: Vec<(Subject, BTreeSet<usize>)> = behind
                .parts
                .iter()
                .map(|part| (subject_of(part), matching(&words, &part_stems(job, part))))
                .filter(|(_, matched)| {
                    matched
                        .iter()
                        .any(|word| !named.contains(word) && !sided.contains(word))
                })
                .collect();
            let mut all: BTreeSet<usize> = named.union(&sided).copied().collect();
            all.extend(
                things
                    .iter()
                    .flat_map(|(_, matched)| matched.iter().copied()),
            );
            known.extend(all.iter().copied());
            let best = things.iter().map(|(_, matched)| matched.len()).max();
            let things = things
                .into_iter()
                .filter(|(_, matched)| Some(matched.len()) == best)
                .map(|(subject, _)| subject)
                .collect();
            hits.push(Hit {
                matched: all.len(),
                by_name,
                behind,
                things,
            });
        }
    }
    let most = hits.iter().map(|hit| hit.matched).max().unwrap_or(0);
    let mut best: Vec<Hit> = hits
        .into_iter()
        .filter(|hit| most > 0 && hit.matched == most)
        .collect();
    best.sort_by_key(|hit| std::cmp::Reverse(hit.by_name));
    let mut found = Found::default();
    for hit in best.into_iter().take(MOST_FACES) {
        found.things.extend(hit.things);
        found.faces.push(hit.behind);
    }
    found.not_known = words
        .iter()
        .enumerate()
        .filter(|(index, _)| !known.contains(index))
        .map(|(_, word)| word.said.clone())
        .collect();
    found
}

struct Hit {
    matched: usize,
    /// How many words are of its own name, and not only of the kind of face that it is.
    by_name: usize,
    behind: BehindFace,
    things: Vec<Subject>,
}

/// A word that was asked for, as it was said and as it is compared.
struct Word {
    said: String,
    stems: Vec<String>,
}

fn words_of(question: &str) -> Vec<Word> {
    let short: String = question.chars().take(LONGEST).collect();
    let mut met: BTreeMap<Vec<String>, ()> = BTreeMap::new();
    let plain = short.replace(|c: char| !c.is_alphanumeric(), " ");
    plain
        .split_whitespace()
        .filter(|word| !ASKING.contains(&word.to_lowercase().as_str()))
        .map(|word| Word {
            said: word.to_owned(),
            stems: content_stems(&word.to_lowercase()),
        })
        .filter(|word| !word.stems.is_empty() && met.insert(word.stems.clone(), ()).is_none())
        .collect()
}

fn stems(text: &str) -> BTreeSet<String> {
    // A word counts by itself and as part of a name of several words.
    let mut all: BTreeSet<String> = content_stems(&text.to_lowercase()).into_iter().collect();
    let plain = text
        .to_lowercase()
        .replace(|c: char| !c.is_alphanumeric(), " ");
    all.extend(plain.split_whitespace().flat_map(content_stems));
    all
}

fn place_stems(job: &Job, id: &Id) -> BTreeSet<String> {
    let Some(place) = job.places.get(id) else {
        return BTreeSet::new();
    };
    let mut all = stems(&place.name);
    all.extend(place.aliases.iter().flat_map(|alias| stems(alias)));
    all.extend(stems(&id.as_str().replace('-', " ")));
    if let Some(level) = job.levels.get(&place.level) {
        all.extend(stems(&level.name));
    }
    all
}

fn kind_stems(kind: FaceKind) -> BTreeSet<String> {
    stems(match kind {
        FaceKind::Floor => "floor",
        FaceKind::Wall => "wall",
        FaceKind::Ceiling => "ceiling",
        FaceKind::Soffit => "soffit ceiling",
    })
}

fn part_stems(job: &Job, part: &Part) -> BTreeSet<String> {
    let mut all = stems(&part.name);
    match &part.of {
        PartOf::Layer(key) => all.extend(stems(&key.layer.as_str().replace('-', " "))),
        PartOf::Piece(id) => {
            all.extend(stems(&id.as_str().replace('-', " ")));
            let aliases = job.pieces.get(id).map(|piece| piece.aliases.as_slice());
            all.extend(
                aliases
                    .unwrap_or_default()
                    .iter()
                    .flat_map(|alias| stems(alias)),
            );
        }
    }
    if part.material == Some(Material::Service) {
        all.extend(stems("services"));
    }
    all
}

fn matching(words: &[Word], of: &BTreeSet<String>) -> BTreeSet<usize> {
    let is_in = |word: &Word| word.stems.iter().all(|stem| of.contains(stem));
    (0..words.len())
        .filter(|&index| words.get(index).is_some_and(is_in))
        .collect()
}

fn subject_of(part: &Part) -> Subject {
    match &part.of {
        PartOf::Layer(key) => Subject::Layer(key.clone()),
        PartOf::Piece(id) => Subject::Piece(id.clone()),
    }
}
