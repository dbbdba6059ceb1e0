//! The answer to a need for a list that names it already.

use grounds_site::words::capital;

use super::{Answer, Figures, Verdict, wanted_words, words::chance_words};
use crate::{
    lines::{Lines, NeedKind, Wanted},
    said,
};

/// Where a need lands and how often that will do, without saying again what it is about: `3 mm shy,
/// wanted within 1 mm: it holds in no case.` Nothing while a figure is missing.
#[must_use]
pub fn in_short(lines: &Lines<'_>, answer: &Answer) -> Option<String> {
    let figures = answer.figures?;
    let wanted = lines.wanted(&answer.key)?;
    let only = match answer.verdict {
        Verdict::Tight => "only ",
        _ => "",
    };
    Some(format!(
        "{}, wanted {}: it holds in {only}{}.",
        capital(&lands(lines, wanted, &figures)),
        wanted_words(lines, wanted),
        chance_words(&figures),
    ))
}

fn lands(lines: &Lines<'_>, wanted: &Wanted, figures: &Figures) -> String {
    let units = lines.units();
    let figure = said::length(figures.mean, units);
    let nothing = figure == said::length(0.0, units);
    let below = figures.mean < 0.0;
    match wanted.kind {
        NeedKind::Flush | NeedKind::InPlane | NeedKind::Reveal if nothing => "flush".to_owned(),
        NeedKind::Flush | NeedKind::InPlane | NeedKind::Reveal if below => format!("{figure} shy"),
        NeedKind::Flush | NeedKind::InPlane | NeedKind::Reveal => format!("{figure} proud"),
        NeedKind::Clear if below => format!("{figure} into it"),
        NeedKind::Clear => format!("{figure} clear"),
        NeedKind::Centred if nothing => "centred".to_owned(),
        NeedKind::Centred => format!("{figure} off the centre"),
        NeedKind::AboveFloor => format!("{figure} up"),
        NeedKind::Width | NeedKind::Height if below => format!("{figure} too large"),
        NeedKind::Width | NeedKind::Height => format!("{figure} of play"),
        NeedKind::Threshold if nothing => "level".to_owned(),
        NeedKind::Threshold if below => format!("{figure} under it"),
        NeedKind::Threshold => format!("{figure} over it"),
        NeedKind::Rise => figure,
        NeedKind::ByHand => said::signed(figures.mean, units),
    }
}
