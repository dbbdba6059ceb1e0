//! What to do about a need that does not hold, in one sentence.

use grounds_model::{Id, Material, Target};
use grounds_site::{Subject, words::capital};

use crate::{
    answers::{Answer, Answers, Verdict},
    lines::{Lines, NeedKind, Wanted},
    said,
};

/// A change smaller than this is none, in millimetres.
const NOTHING: f64 = 0.05;

/// What to do so that a need comes right; nothing where it holds, or where only measuring helps.
///
/// What is set by hand and not set yet is set anew; what is not ordered yet is ordered otherwise;
/// else the thing itself has to give, or what it is judged by. No more than that is known here: what
/// may be cut, packed or planed is for the trade to say.
#[must_use]
pub fn advice(lines: &Lines<'_>, answers: &Answers, answer: &Answer) -> Option<String> {
    match answer.verdict {
        Verdict::Holds => None,
        Verdict::CannotTell => ask(answer),
        Verdict::Fails | Verdict::Tight => set_anew(answers, answer).or_else(|| {
            let wanted = lines.wanted(&answer.key)?;
            let off = off(answer)?;
            (off.abs() > NOTHING).then(|| give(lines, wanted, off))
        }),
    }
}

fn ask(answer: &Answer) -> Option<String> {
    let missing = answer.missing.first()?;
    Some(if missing.who == said::site_lead() {
        format!("Measure {}.", missing.what)
    } else {
        format!("Ask {} for {}.", missing.who, missing.what)
    })
}

/// What is still to be set, to another figure than drawn.
fn set_anew(answers: &Answers, answer: &Answer) -> Option<String> {
    let parts = &answer.parts;
    let of_it = |link| parts.iter().any(|part| part.link == link);
    let found = answers.set_outs.iter().find(|out| {
        of_it(out.link)
            && out
                .drawn
                .is_none_or(|drawn| (drawn - out.value).abs() > 0.25)
    });
    let clashes = answers
        .clashes
        .iter()
        .any(|clash| clash.needs.contains(&answer.key));
    found.filter(|_| !clashes).map(|out| out.said.clone())
}

/// How far the mean lies above the middle of what is wanted, or outside its one limit.
fn off(answer: &Answer) -> Option<f64> {
    let mean = answer.figures?.mean;
    match answer.limits {
        (Some(least), Some(most)) => Some(mean - f64::midpoint(least, most)),
        (Some(least), None) => Some((mean - least).min(0.0)),
        (None, Some(most)) => Some((mean - most).max(0.0)),
        (None, None) => None,
    }
}

/// What has to give, and by how much. `off` is above zero where there is too much.
fn give(lines: &Lines<'_>, wanted: &Wanted, off: f64) -> String {
    let by = said::length(off, lines.units());
    let subject = wanted.subject.as_str();
    let against = wanted.against.as_str();
    let short = off < 0.0;
    match wanted.kind {
        NeedKind::Flush | NeedKind::InPlane | NeedKind::Reveal => {
            match (stands(lines, wanted), short) {
                (true, true) => format!("Bring {subject} out {by}, or {against} back as much."),
                (true, false) => format!("Take {subject} back {by}, or bring {against} out."),
                (false, true) => format!("Pack {subject} out {by}."),
                (false, false) => format!("Set {subject} {by} further back."),
            }
        }
        NeedKind::Clear if short => format!("Move {subject} {by} further from {against}."),
        NeedKind::Clear => format!("Move {subject} {by} nearer to {against}."),
        NeedKind::Centred => format!("Move {subject} {by} over, to the middle."),
        NeedKind::AboveFloor if short => format!("Raise {subject} {by}."),
        NeedKind::AboveFloor => format!("Lower {subject} {by}."),
        NeedKind::Width | NeedKind::Height => size(lines, wanted, &by, short),
        NeedKind::Threshold if short => {
            format!("Make up {by} under {subject}, or take as much off {against}.")
        }
        NeedKind::Threshold => {
            format!("Make up {by} under {against}, or take as much off {subject}.")
        }
        NeedKind::Rise if wanted.key.ends_with("last-rise") && short => {
            format!("Make up {by} on the floor at the head of the flight.")
        }
        NeedKind::Rise if wanted.key.ends_with("last-rise") => {
            format!("Bring the floor at the head of the flight down {by}.")
        }
        NeedKind::Rise if short => {
            format!("Bring the floor at the foot of the flight down {by}.")
        }
        NeedKind::Rise => format!("Make up {by} on the floor at the foot of the flight."),
        NeedKind::ByHand => {
            let more = if short { "more" } else { "less" };
            format!("Find {by} {more} from {against} to {subject}.")
        }
    }
}

/// Whether the piece of a need is in.
fn stands(lines: &Lines<'_>, wanted: &Wanted) -> bool {
    match lines.job.resolve(&wanted.about) {
        Some(Target::Piece(id)) => lines.site.state(&Subject::Piece(id)).done.is_some(),
        _ => true,
    }
}

/// A piece that is too large or too small for its opening.
fn size(lines: &Lines<'_>, wanted: &Wanted, by: &str, short: bool) -> String {
    let subject = wanted.subject.as_str();
    let against = wanted.against.as_str();
    let Some(Target::Piece(id)) = lines.job.resolve(&wanted.about) else {
        return format!("Find {by} between {subject} and {against}.");
    };
    let state = lines.site.state(&Subject::Piece(id.clone()));
    let way = match wanted.kind {
        NeedKind::Width => "narrower",
        _ => "lower",
    };
    if !short {
        return format!("Close {by} beside {subject}, or order it as much larger.");
    }
    if state.arrived.is_some() || state.done.is_some() {
        return if is_glass(lines, &id) {
            format!("Ease {against} by {by}: glass that is made cannot be cut.")
        } else {
            format!("Ease {against} by {by}, or have {subject} cut.")
        };
    }
    if state.ordered.is_some() {
        return format!(
            "{}: call today, it has to come {by} {way}, or ease {against} as much.",
            capital(subject)
        );
    }
    format!("Order {subject} {by} {way}.")
}

fn is_glass(lines: &Lines<'_>, id: &Id) -> bool {
    let piece = lines.job.pieces.get(id);
    piece.is_some_and(|piece| piece.material == Some(Material::Glass))
}
