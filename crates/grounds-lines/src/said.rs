//! Names and figures as they stand in sentences.

use grounds_measure::{Length, Rounding, Step, Units};
use grounds_model::{Id, Job};
use grounds_site::words;

use crate::lines::Lines;
use grounds_fit::net::PointId;

/// A place: `the mill hall`.
pub(crate) fn place(job: &Job, id: &Id) -> String {
    let name = job.places.get(id).map(|place| place.name.as_str());
    called(name, id)
}

/// A face: `the walls in the mill hall`.
pub(crate) fn face(job: &Job, at: &Id, key: &Id) -> String {
    let found = job.face(at.as_str(), key.as_str());
    let name = called(found.and_then(|face| face.name.as_deref()), key);
    format!("{name} in {}", place(job, at))
}

/// A piece: `the stair glass`.
pub(crate) fn piece(job: &Job, id: &Id) -> String {
    called(job.pieces.get(id).map(|piece| piece.name.as_str()), id)
}

/// Something with a name, or its key in words.
pub(crate) fn called(name: Option<&str>, key: &Id) -> String {
    match name.filter(|name| !name.trim().is_empty()) {
        Some(name) => words::with_article(name),
        None => words::with_article(&key.as_str().replace('-', " ")),
    }
}

/// A trade with whom to ask: `Oriel Fenn (glass)`.
pub(crate) fn trade(job: &Job, id: &Id) -> String {
    let Some(trade) = job.trades.get(id) else {
        return id.as_str().replace('-', " ");
    };
    let name = words::plain(&trade.name);
    match trade
        .contact
        .as_ref()
        .and_then(|contact| contact.name.as_deref())
    {
        Some(person) => format!("{} ({})", words::plain(person), lower_first(&name)),
        None => name,
    }
}

/// Who reads what nobody else has.
pub(crate) fn site_lead() -> String {
    "whoever holds the tape on site".to_owned()
}

/// A point of the lines.
pub(crate) fn point(lines: &Lines<'_>, id: PointId) -> String {
    lines
        .stands_for(id)
        .map_or_else(|| "a point".to_owned(), |point| point.name.clone())
}

/// A name fit for the middle of a sentence, without article.
pub(crate) fn plain_lower(name: &str) -> String {
    lower_first(&words::plain(name))
}

/// The first letter small.
pub(crate) fn lower_first(text: &str) -> String {
    let mut chars = text.chars();
    chars
        .next()
        .map_or_else(String::new, |c| c.to_lowercase().chain(chars).collect())
}

/// A distance in millimetres as it is said in the job's units, without its sign: whole millimetres
/// from 10 up and tenths below; feet, inches and 16ths, finer only under an eighth.
#[must_use]
pub fn length(mm: f64, units: Units) -> String {
    let Some(length) = Length::from_mm_f64(mm.abs()) else {
        return "an endless distance".to_owned();
    };
    let step = match units {
        Units::Metric if mm.abs() >= 9.95 => Step::MM,
        Units::Metric => Step::TENTH_MM,
        Units::Imperial if mm.abs() < 3.0 => Step::SIXTY_FOURTH_INCH,
        Units::Imperial => Step::SIXTEENTH_INCH,
    };
    let rounded = length.round_to(step, Rounding::Nearest);
    rounded.display(units).to_string()
}

/// A distance with its sign.
#[must_use]
pub fn signed(mm: f64, units: Units) -> String {
    let text = length(mm, units);
    let nothing = length(0.0, units);
    if mm < 0.0 && text != nothing {
        format!("−{text}")
    } else {
        text
    }
}

/// A figure that must not be rounded for its reader: one that was given.
#[must_use]
pub fn exact(mm: f64, units: Units) -> String {
    Length::from_mm_f64(mm.abs()).map_or_else(
        || "an endless distance".to_owned(),
        |length| length.display(units).to_string(),
    )
}

/// A length as it is, with its sign, in the job's units: not rounded unless it must be, and then
/// marked so.
#[must_use]
pub fn signed_exact(length: Length, units: Units) -> String {
    let text = length.abs().display(units).to_string();
    if length.is_negative() {
        format!("−{text}")
    } else {
        text
    }
}

/// A chance as it is said: `nine cases of ten`, `one case of twenty`.
#[must_use]
pub fn chance(of: f64) -> String {
    const SAID: [(f64, &str); 18] = [
        (0.005, "hardly any case"),
        (0.015, "one case of a hundred"),
        (0.03, "one case of fifty"),
        (0.075, "one case of twenty"),
        (0.15, "one case of ten"),
        (0.225, "one case of five"),
        (0.29, "one case of four"),
        (0.36, "one case of three"),
        (0.45, "four cases of ten"),
        (0.55, "every second case"),
        (0.63, "six cases of ten"),
        (0.71, "two cases of three"),
        (0.775, "three cases of four"),
        (0.85, "four cases of five"),
        (0.95, "nine cases of ten"),
        (0.975, "nineteen cases of twenty"),
        (0.985, "forty-nine cases of fifty"),
        (0.995, "ninety-nine cases of a hundred"),
    ];
    SAID.iter()
        .find(|(below, _)| of < *below)
        .map_or("practically every case", |(_, said)| said)
        .to_owned()
}

/// Whether a name stands for several: `the boards in the hall`, `the tread lights, back stair`.
pub(crate) fn is_several(name: &str) -> bool {
    const LINKS: [&str; 8] = ["to", "of", "in", "for", "on", "over", "from", "with"];
    let head = name.split(',').next().unwrap_or_default();
    let words = head.split(' ').take_while(|word| !LINKS.contains(word));
    let last = words.last().unwrap_or_default();
    last.ends_with('s') && !last.ends_with("ss")
}

/// `a`, `a and b`, `a, b and c`: all of them.
pub(crate) fn all(parts: &[String]) -> String {
    match parts.split_last() {
        None => String::new(),
        Some((last, [])) => last.clone(),
        Some((last, before)) => format!("{} and {last}", before.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_said_as_the_tape_reads() {
        assert_eq!(length(92.6, Units::Metric), "93 mm");
        assert_eq!(length(-2.64, Units::Metric), "2.6 mm");
        assert_eq!(length(19.05, Units::Imperial), "3/4\"");
        assert_eq!(length(2.4, Units::Imperial), "3/32\"");
        assert_eq!(signed(-3.0, Units::Metric), "−3 mm");
        assert_eq!(signed(-0.01, Units::Metric), "0 mm");
    }

    #[test]
    fn a_verb_knows_one_from_several() {
        assert!(is_several("the boards in the mill hall"));
        assert!(is_several("the tread lights, back stair"));
        assert!(!is_several("the glass screen to the wheels"));
        assert!(!is_several("the stair glass"));
    }

    #[test]
    fn chances_are_said_in_cases() {
        assert_eq!(chance(0.9), "nine cases of ten");
        assert_eq!(chance(0.5), "every second case");
        assert_eq!(chance(1.0), "practically every case");
    }
}
