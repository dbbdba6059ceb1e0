//! The sentence of an answer: where it lands, how often that will do, and why.

use grounds_measure::Units;
use grounds_site::words::capital;

use super::{Answer, Figures, Part, Verdict, wanted_words};
use crate::{
    lines::{Lines, NeedKind, Source, Wanted},
    said,
};

/// A change smaller than this is no reason, in millimetres.
const NOTHING: f64 = 0.05;

/// How a need stands, and why.
pub(super) fn sentence(lines: &Lines<'_>, wanted: &Wanted, answer: &Answer) -> String {
    let Some(figures) = answer.figures else {
        return cannot_tell(wanted);
    };
    let lands = answer.lands.as_deref().unwrap_or_default();
    let chance = chance_words(&figures);
    let wish = wanted_words(lines, wanted);
    let mut text = match answer.verdict {
        Verdict::Holds => format!("{lands}: it holds in {chance}, wanted {wish}."),
        Verdict::Tight => format!("{lands}: it holds in only {chance}, wanted {wish}."),
        _ => format!("{lands}, wanted {wish}: it holds in {chance}."),
    };
    if answer.verdict != Verdict::Holds
        && let Some(reason) = reason(lines, wanted, answer)
    {
        text.push(' ');
        text.push_str(&reason);
    }
    text
}

/// In how many cases it will do.
pub(super) fn chance_words(figures: &Figures) -> String {
    if figures.chance >= 0.9995 {
        "every case".to_owned()
    } else if figures.chance < 0.0005 {
        "no case".to_owned()
    } else {
        said::chance(figures.chance)
    }
}

fn cannot_tell(wanted: &Wanted) -> String {
    let parts: Vec<String> = wanted
        .missing
        .iter()
        .map(|missing| {
            if missing.who == said::site_lead() {
                format!("nobody has measured {}", missing.what)
            } else {
                format!("{} has {}", missing.who, missing.what)
            }
        })
        .collect();
    format!(
        "Nobody can tell yet whether {} will come right. {}.",
        wanted.subject,
        capital(&said::all(&parts))
    )
}

/// Where it lands.
pub(super) fn lands(units: Units, wanted: &Wanted, figures: &Figures) -> String {
    let subject = capital(&wanted.subject);
    let against = &wanted.against;
    let figure = said::length(figures.mean, units);
    let nothing = figure == said::length(0.0, units);
    let verb = |one: &'static str, several: &'static str| {
        if said::is_several(&wanted.subject) {
            several
        } else {
            one
        }
    };
    let (sits, stands) = (verb("sits", "sit"), verb("stands", "stand"));
    let (comes, is, has) = (
        verb("comes", "come"),
        verb("is", "are"),
        verb("has", "have"),
    );
    match wanted.kind {
        NeedKind::Flush | NeedKind::InPlane | NeedKind::Reveal if nothing => {
            format!("{subject} {sits} flush with {against}")
        }
        NeedKind::Flush | NeedKind::InPlane | NeedKind::Reveal => {
            let side = if figures.mean < 0.0 { "shy" } else { "proud" };
            format!("{subject} {sits} {figure} {side} of {against}")
        }
        NeedKind::Clear if figures.mean < 0.0 => {
            format!("{subject} {stands} {figure} into {against}")
        }
        NeedKind::Clear => format!("{subject} {stands} {figure} clear of {against}"),
        NeedKind::Centred if nothing => format!("{subject} {sits} centred on {against}"),
        NeedKind::Centred => format!("{subject} {sits} {figure} off the centre of {against}"),
        NeedKind::AboveFloor => format!(
            "The bottom of {} comes {figure} over {against}",
            wanted.subject
        ),
        NeedKind::Width | NeedKind::Height if figures.mean < 0.0 => {
            let way = way(wanted.kind);
            format!("{subject} {is} {figure} too large for {against} {way}")
        }
        NeedKind::Width | NeedKind::Height => {
            let way = way(wanted.kind);
            format!("{subject} {has} {figure} of play in {against} {way}")
        }
        NeedKind::Threshold if nothing => format!("{subject} {comes} level with {against}"),
        NeedKind::Threshold => {
            let side = if figures.mean < 0.0 { "under" } else { "over" };
            format!("{subject} {comes} {figure} {side} {against}")
        }
        NeedKind::Rise => format!("{subject} {comes} to {figure}"),
        NeedKind::ByHand => format!(
            "{}: from {against} to {} comes to {}",
            wanted.name,
            wanted.subject,
            said::signed(figures.mean, units)
        ),
    }
}

fn way(kind: NeedKind) -> &'static str {
    match kind {
        NeedKind::Width => "side to side",
        _ => "head and foot together",
    }
}

/// Why: what was read otherwise than designed, else the largest uncertainty, else the sum itself.
fn reason(lines: &Lines<'_>, wanted: &Wanted, answer: &Answer) -> Option<String> {
    let units = lines.units();
    let figures = answer.figures?;
    if let Some(part) = moved(answer) {
        let designed = part.designed?;
        let setting = answer
            .parts
            .iter()
            .any(|part| part.name.starts_with("setting "));
        let figure = |mm: f64| said::signed(mm, units);
        return Some(if setting && part.figure >= 0.0 {
            format!(
                "It was set for {} of {}, and {} went on.",
                figure(designed),
                part.name,
                figure(part.figure)
            )
        } else {
            format!(
                "{} was to be {}, and {} was read.",
                capital(&part.name),
                figure(designed),
                figure(part.figure)
            )
        });
    }
    if wanted.need.margin(figures.mean) >= 0.0 {
        let most = answer
            .parts
            .iter()
            .max_by(|a, b| a.share.total_cmp(&b.share))?;
        return (most.share > 0.3).then(|| {
            format!(
                "Most of what is not sure is {} (±{}).",
                most.name,
                said::length(most.tolerance.0.max(most.tolerance.1), units)
            )
        });
    }
    Some(format!(
        "The sum does not come out as drawn: {}.",
        sum(answer, units)
    ))
}

/// The part whose reading moved the distance most away from what was designed, if any did.
fn moved(answer: &Answer) -> Option<&Part> {
    let shift = |part: &Part| {
        let designed = part.designed.unwrap_or(part.figure);
        (part.figure - designed).abs() * part.coefficient.abs()
    };
    answer
        .parts
        .iter()
        .filter(|part| matches!(part.source, Source::Reading { .. }) && shift(part) > NOTHING)
        .max_by(|a, b| shift(a).total_cmp(&shift(b)))
}

/// The parts as a sum: `37 − 5/8 (board) …`.
fn sum(answer: &Answer, units: Units) -> String {
    const SHOWN: usize = 6;
    let some = |part: &&Part| part.figure.abs() > NOTHING;
    let mut parts: Vec<&Part> = answer.parts.iter().filter(some).collect();
    // What adds comes first, so that the sum reads as one would say it.
    parts.sort_by_key(|part| part.coefficient * part.figure < 0.0);
    let rest = parts.len().saturating_sub(SHOWN);
    parts.truncate(SHOWN);
    let mut text = String::new();
    for (at, part) in parts.iter().enumerate() {
        let below = part.coefficient * part.figure < 0.0;
        text.push_str(match (at, below) {
            (0, true) => "−",
            (0, false) => "",
            (_, true) => " − ",
            (_, false) => " + ",
        });
        text.push_str(&format!(
            "{} {}",
            said::length(part.figure, units),
            part.name
        ));
    }
    if rest > 0 {
        text.push_str(&format!(" and {rest} more"));
    }
    text
}
