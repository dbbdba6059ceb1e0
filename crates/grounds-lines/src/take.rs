//! Readings that can be taken for a need, and how the note of each says it.
//!
//! What a note `measured` must say for a reading to count is told in [`readings`](crate::readings);
//! here the same table is read the other way round: from what is not sure to the note that would
//! settle it.

use grounds_model::{FaceKind, Id, LayerKey, PlaceKind, Ref, Target};
use grounds_site::{Subject, words};

use crate::{
    answers::{Answer, Part, cover_is_open},
    lines::{Lines, NeedKind, Source, moves_the_face},
    said,
};

/// One reading that somebody can take.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Take {
    /// What the note is about.
    pub about: Ref,
    /// The word of the note, as `width` or `from mill-floor`; empty where it gives a length and no
    /// more.
    pub what: String,
    /// What is read, for the middle of a sentence: `the width of the opening for the wheel glass`.
    pub asked: String,
    /// What it is read with, and how, as a sentence.
    pub with: &'static str,
    /// The words for above and below nothing, where it can be either: `proud` and `shy`.
    pub sides: Option<(&'static str, &'static str)>,
}

const RULE: &str = "A rule at an open edge or through a box. Take three and enter the middle one.";
const PIECE: &str = "Callipers or a rule on the piece itself.";
const STRAIGHTEDGE: &str =
    "A straightedge over the face, and a rule or feelers from it to the piece.";
const LEVEL: &str = "A laser or a long level from the height mark, where the fit is wanted.";
const STRUCTURE: &str = "A tape or a laser from the control line. Take three, enter the worst.";
const ACROSS: &str = "A tape at foot, middle and head; the narrowest counts.";
const UP: &str = "A tape at left, middle and right; the lowest counts.";
const THRESHOLD: &str = "A straightedge over the threshold and a rule under it.";
const TAPE: &str = "A tape held with care.";
const DEPTH: &str = "A rule from the layer it sits on out to its own face.";
const CENTRE: &str = "A tape to both sides: half of what they differ.";

/// The readings that would tell more about a need: what is missing, then what settles it at once.
#[must_use]
pub fn takes(lines: &Lines<'_>, answer: &Answer) -> Vec<Take> {
    let missing = answer.missing.iter();
    let mut all: Vec<Take> = missing
        .filter_map(|it| of_missing(lines, &it.about, &it.what))
        .collect();
    all.extend(direct(lines, answer));
    let mut parts: Vec<&Part> = answer.parts.iter().collect();
    parts.sort_by(|a, b| b.share.total_cmp(&a.share));
    all.extend(parts.into_iter().filter_map(|part| of_part(lines, part)));
    let mut seen = Vec::new();
    all.retain(|take| {
        let key = (take.about.clone(), take.what.clone());
        let new = !seen.contains(&key);
        seen.push(key);
        new
    });
    all
}

/// The reading of something by the words of its note; none where such a note would not count.
#[must_use]
pub fn take(lines: &Lines<'_>, about: &Ref, what: &str) -> Option<Take> {
    let named = || lines.with_said(about);
    let make = |asked: String, with, sides| {
        Some(Take {
            about: about.clone(),
            what: what.to_owned(),
            asked,
            with,
            sides,
        })
    };
    let from = what.strip_prefix("from ");
    match (lines.job.resolve(about)?, what) {
        (Target::Layer(key), "" | "thickness") => make(
            format!("how thick {} came out", layer(lines, &key)),
            RULE,
            None,
        ),
        (Target::Layer(key), "from structure") => make(
            format!("from the structure to the face of {}", layer(lines, &key)),
            RULE,
            None,
        ),
        (Target::Face { place, face }, "structure") => make(
            format!(
                "where the structure of {} stands, {}",
                said::face(lines.job, &place, &face),
                placed_from(lines, &place, &face)
            ),
            STRUCTURE,
            Some(("out from it", "behind it")),
        ),
        (Target::Face { place, face }, _) => level(lines, about, (&place, &face), from?),
        (Target::Piece(_), "thickness" | "width" | "height") => {
            make(format!("the {what} of {}", named()), PIECE, None)
        }
        (Target::Piece(id), "") => make(
            format!("the clear width for {}", said::piece(lines.job, &id)),
            ACROSS,
            None,
        ),
        (Target::Piece(_), "depth") => make(
            format!("how far the face of {} stands off what it sits on", named()),
            DEPTH,
            None,
        ),
        (Target::Piece(id), "proud") => make(
            format!(
                "how far {} stands proud or shy of {} as it is today",
                named(),
                flush_with(lines, &id)?
            ),
            STRAIGHTEDGE,
            Some(("proud", "shy")),
        ),
        (Target::Piece(_), "above floor") => make(
            format!("from the floor as it is today to the bottom of {}", named()),
            TAPE,
            None,
        ),
        (Target::Piece(_), "off centre") => make(
            format!("how far {} is off its centre", named()),
            CENTRE,
            Some(("to the right", "to the left")),
        ),
        (Target::Piece(_), _) => make(
            format!("from {} to the face of {}", control(lines, from?)?, named()),
            STRUCTURE,
            Some(("out from it", "behind it")),
        ),
        (Target::Opening(_), _) => of_opening(about, what, &named()),
        (Target::Passage(id), "" | "step") => {
            let [first, second] = &lines.job.passages.get(&id)?.between;
            make(
                format!(
                    "how far the floor in {} stands over the floor in {} today",
                    said::place(lines.job, second),
                    said::place(lines.job, first)
                ),
                THRESHOLD,
                Some(("over", "under")),
            )
        }
        (Target::Line(id), _) => {
            let link = lines
                .job
                .lines
                .get(&id)?
                .links
                .iter()
                .find(|(key, _)| key.as_str() == what)?
                .1;
            make(words::with_article(&link.name), TAPE, None)
        }
        _ => None,
    }
}

/// Where the tape, the level and the plumb line go in an opening.
fn of_opening(about: &Ref, what: &str, named: &str) -> Option<Take> {
    let place = |rest: &str| {
        let rest = rest.trim();
        if rest.is_empty() {
            String::new()
        } else {
            format!(", {rest}")
        }
    };
    let (asked, with, sides) = if let Some(rest) = what.strip_prefix("width") {
        (format!("the width of {named}{}", place(rest)), ACROSS, None)
    } else if let Some(rest) = what.strip_prefix("height") {
        (format!("the height of {named}{}", place(rest)), UP, None)
    } else {
        match what {
            "diagonal rising" => (
                format!("the diagonal of {named} from the left foot to the right head"),
                TAPE,
                None,
            ),
            "diagonal falling" => (
                format!("the diagonal of {named} from the left head to the right foot"),
                TAPE,
                None,
            ),
            "plumb left" | "plumb right" => (
                format!(
                    "how far the head of the {} side of {named} is off plumb",
                    what.trim_start_matches("plumb ")
                ),
                "A plumb line or a long level over the whole height.",
                Some(("to the right", "to the left")),
            ),
            "level sill" | "level head" => (
                format!(
                    "how far the right end of the {} of {named} is off level",
                    what.trim_start_matches("level ")
                ),
                "A laser or a long level over the whole width.",
                Some(("higher", "lower")),
            ),
            _ => return None,
        }
    };
    Some(Take {
        about: about.clone(),
        what: what.to_owned(),
        asked,
        with,
        sides,
    })
}

/// The reading that settles a need by itself, once everything it is about stands.
fn direct(lines: &Lines<'_>, answer: &Answer) -> Option<Take> {
    let stands = |id: &Id| {
        let state = lines.site.state(&Subject::Piece(id.clone()));
        state.done.is_some() || state.started.is_some()
    };
    let about = &answer.about;
    match (lines.job.resolve(about)?, answer.kind) {
        (Target::Piece(id), NeedKind::Flush | NeedKind::Reveal) if stands(&id) => {
            take(lines, about, "proud")
        }
        (Target::Piece(id), NeedKind::AboveFloor) if stands(&id) => {
            take(lines, about, "above floor")
        }
        (Target::Piece(id), NeedKind::Centred) if stands(&id) => take(lines, about, "off centre"),
        (Target::Piece(id), NeedKind::Width | NeedKind::Height) => {
            let mut all = lines.job.openings.iter();
            let (opening, _) = all.find(|(_, opening)| opening.piece.as_ref() == Some(&id))?;
            let word = match answer.kind {
                NeedKind::Width => "width",
                _ => "height",
            };
            take(lines, &Ref(opening.0.clone()), word)
        }
        (Target::Passage(_), NeedKind::Threshold) => take(lines, about, "step"),
        _ => None,
    }
}

fn of_missing(lines: &Lines<'_>, about: &Ref, what: &str) -> Option<Take> {
    let words = [
        ("the thickness of ", "thickness"),
        ("the width of ", "width"),
        ("the height of ", "height"),
        ("how truly ", "off centre"),
        ("where the structure of ", "structure"),
        ("the figure for setting ", "depth"),
    ];
    let found = words.iter().find(|(begins, _)| what.starts_with(begins));
    match found {
        Some((_, word)) => take(lines, about, word),
        None => by_hand(lines, what),
    }
}

/// The reading of a part as designed, if it can be read today.
fn of_part(lines: &Lines<'_>, part: &Part) -> Option<Take> {
    if part.source != Source::Design {
        return None;
    }
    if let Some(take) = by_hand(lines, &part.name) {
        return Some(take);
    }
    match lines.job.resolve(&part.about)? {
        Target::Layer(key) => {
            let done = lines.site.state(&Subject::Layer(key.clone())).done;
            done?;
            if is_floor(lines, &key.place, &key.face) {
                return level_of(lines, &key.place, &key.face);
            }
            cover_is_open(lines, &part.about).then(|| take(lines, &part.about, ""))?
        }
        Target::Face { place, face } if is_floor(lines, &place, &face) => {
            level_of(lines, &place, &face)
        }
        Target::Face { place, face } => is_bare(lines, &place, &face)
            .then(|| take(lines, &part.about, "structure"))
            .flatten(),
        Target::Piece(id) => {
            let state = lines.site.state(&Subject::Piece(id));
            let here = state.arrived.is_some() || state.done.is_some();
            let word = [
                ("the thickness of ", "thickness"),
                ("the width of ", "width"),
                ("the height of ", "height"),
            ];
            let found = word
                .iter()
                .find(|(begins, _)| part.name.starts_with(begins));
            match found {
                Some((_, word)) if here && state.done.is_none() => take(lines, &part.about, word),
                _ => None,
            }
        }
        Target::Opening(_) => {
            let word = if part.name.starts_with("the height") {
                "height"
            } else {
                "width"
            };
            take(lines, &part.about, word)
        }
        _ => None,
    }
}

/// The link of a line by hand of that name.
fn by_hand(lines: &Lines<'_>, name: &str) -> Option<Take> {
    let mut links = lines
        .job
        .lines
        .iter()
        .flat_map(|(id, line)| line.links.iter().map(move |(key, link)| (id, key, link)));
    let (id, key, _) = links.find(|(_, _, link)| words::with_article(&link.name) == name)?;
    take(lines, &Ref(id.0.clone()), key.as_str())
}

fn level_of(lines: &Lines<'_>, place: &Id, face: &Id) -> Option<Take> {
    let level = &lines.job.places.get(place)?.level;
    let about = Ref(format!("{place}.{face}"));
    take(lines, &about, &format!("from {level}"))
}

fn level(lines: &Lines<'_>, about: &Ref, (place, face): (&Id, &Id), from: &str) -> Option<Take> {
    let said = said::face(lines.job, place, face);
    let level = lines
        .job
        .levels
        .iter()
        .find(|(key, _)| key.as_str() == from);
    let (asked, with, sides) = match level {
        Some((_, level)) => (
            format!(
                "the level of {said} as it is today, from the finished level of {}",
                words::with_article(&level.name)
            ),
            LEVEL,
            ("above", "below"),
        ),
        None => (
            format!("from {} to {said} as it is today", control(lines, from)?),
            STRUCTURE,
            ("out from it", "behind it"),
        ),
    };
    Some(Take {
        about: about.clone(),
        what: format!("from {from}"),
        asked,
        with,
        sides: Some(sides),
    })
}

fn control(lines: &Lines<'_>, key: &str) -> Option<String> {
    let mut controls = lines.job.controls.iter();
    let (_, control) = controls.find(|(id, _)| id.as_str() == key)?;
    Some(words::with_article(&control.name))
}

fn placed_from(lines: &Lines<'_>, place: &Id, face: &Id) -> String {
    let found = lines.job.face(place.as_str(), face.as_str());
    let from = found
        .and_then(|face| face.structure.as_ref())
        .and_then(|structure| structure.from.as_ref());
    match from {
        Some(from) => format!("from {}", lines.with_said(from)),
        None => "from the finished floor level".to_owned(),
    }
}

fn flush_with(lines: &Lines<'_>, id: &Id) -> Option<String> {
    let align = &lines.job.pieces.get(id)?.align;
    let mut with = align.iter().map(|align| &align.with);
    let face = with.find(|with| {
        matches!(
            lines.job.resolve(with),
            Some(Target::Face { .. } | Target::Layer(_))
        )
    })?;
    Some(lines.with_said(face))
}

fn layer(lines: &Lines<'_>, key: &LayerKey) -> String {
    grounds_site::name(lines.job, &Subject::Layer(key.clone()))
}

fn is_floor(lines: &Lines<'_>, place: &Id, face: &Id) -> bool {
    let found = lines.job.face(place.as_str(), face.as_str());
    let stair = lines
        .job
        .places
        .get(place)
        .is_some_and(|place| place.kind == PlaceKind::Stair);
    found.is_some_and(|face| face.kind == FaceKind::Floor) && !stair
}

fn is_bare(lines: &Lines<'_>, place: &Id, face: &Id) -> bool {
    let layers = lines.job.layers_of(place, face);
    layers.iter().all(|key| {
        let state = lines.site.state(&Subject::Layer(key.clone()));
        state.done.is_none() || !lines.job.layer(key).is_some_and(moves_the_face)
    })
}
