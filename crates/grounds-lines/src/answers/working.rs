//! The working of an answer, line by line, as somebody with a pencil would set it down.

use super::{Answer, Part, Verdict};
use crate::{
    lines::{Lines, Source},
    said,
};

/// Standard deviations that a limit is out from the mean.
const WHOLE: f64 = 1e-4;

/// The lines of the working; what is missing where it cannot be reckoned.
pub(super) fn lines(lines: &Lines<'_>, answer: &Answer) -> Vec<String> {
    let units = lines.units();
    let Some(figures) = answer.figures else {
        let missing = answer.missing.iter();
        return missing
            .map(|missing| format!("?  {}: {} has it", missing.what, missing.who))
            .collect();
    };
    let mut out: Vec<String> = answer.parts.iter().map(|part| line(lines, part)).collect();
    let mut total = format!("=  {}", said::signed(figures.mean, units));
    let (least, most) = answer.limits;
    match (least, most) {
        (Some(least), Some(most)) => total.push_str(&format!(
            ", wanted {} to {}",
            said::signed(least, units),
            said::signed(most, units)
        )),
        (Some(least), None) => {
            total.push_str(&format!(", wanted at least {}", said::signed(least, units)));
        }
        (None, Some(most)) => {
            total.push_str(&format!(", wanted at most {}", said::signed(most, units)));
        }
        (None, None) => {}
    }
    out.push(total);
    if let Some(worst) = figures.worst {
        out.push(format!(
            "   worst cases {} and {}",
            said::signed(worst.low, units),
            said::signed(worst.high, units)
        ));
    }
    out.push(format!(
        "   nineteen cases of twenty from {} to {}",
        said::signed(figures.likely.low, units),
        said::signed(figures.likely.high, units)
    ));
    let verdict = match answer.verdict {
        Verdict::Holds => "holds",
        Verdict::Tight => "tight",
        Verdict::Fails => "fails",
        Verdict::CannotTell => "cannot tell",
    };
    out.push(format!(
        "   {verdict}: met in {:.1} % of cases",
        100.0 * figures.chance
    ));
    out
}

fn line(lines: &Lines<'_>, part: &Part) -> String {
    let units = lines.units();
    let below = part.coefficient * part.figure < 0.0;
    let sign = if below { "−" } else { "+" };
    let (minus, plus) = part.tolerance;
    let tolerance = if minus.max(plus) < WHOLE {
        String::new()
    } else if (minus - plus).abs() < WHOLE {
        format!(" ±{}", said::length(plus, units))
    } else {
        format!(
            " +{} −{}",
            said::length(plus, units),
            said::length(minus, units)
        )
    };
    let weight = part.coefficient.abs();
    let weight = if (weight - 1.0).abs() < WHOLE {
        String::new()
    } else {
        format!(", counts for {:.0} %", 100.0 * weight)
    };
    let source = match &part.source {
        Source::Design => String::new(),
        Source::Reading { by, .. } => format!(", read by {by}"),
    };
    format!(
        "{sign}  {}{tolerance}  {}{source}{weight}, {:.0} % of what is not sure",
        said::exact(part.figure, units),
        part.name,
        100.0 * part.share
    )
}
