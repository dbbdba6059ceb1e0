//! The small picture of a need.

use grounds_draw::Bands;
use grounds_lines::{
    answers::{Answer, wanted_words},
    lines::Lines,
    said,
};

use super::verdict;

/// Where a need lands; nothing while a figure is missing.
pub(crate) fn bands(lines: &Lines<'_>, answer: &Answer) -> Option<Bands> {
    let figures = answer.figures?;
    let wanted = lines.wanted(&answer.key)?;
    let worst = figures.worst.unwrap_or(figures.likely);
    let (least, most) = answer.limits;
    Some(Bands {
        said: format!(
            "Wanted {}, lands at {}",
            wanted_words(lines, wanted),
            said::signed(figures.mean, lines.units())
        ),
        least,
        most,
        lands: figures.mean,
        likely: (figures.likely.low, figures.likely.high),
        worst: (worst.low, worst.high),
        verdict: verdict(answer.verdict),
    })
}
