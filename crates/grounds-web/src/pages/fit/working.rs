//! The working of an answer, and what its spread is made of.

use grounds_lines::{
    answers::{Answer, Part},
    lines::Source,
    said,
};
use grounds_measure::Units;
use grounds_sequence::words::upper_first;
use maud::{Markup, html};

/// Shares below this are not worth a bar.
const LEAST: f64 = 0.005;

/// A tolerance smaller than this is none, in millimetres.
const NONE: f64 = 1e-4;

/// Length of the longest bar, in pixels.
const BAR: f64 = 152.0;

/// What the spread is made of, as bars with words.
pub(super) fn shares(answer: &Answer) -> Markup {
    let mut parts: Vec<&Part> = answer
        .parts
        .iter()
        .filter(|part| part.share >= LEAST)
        .collect();
    parts.sort_by(|a, b| b.share.total_cmp(&a.share));
    let most = parts.first().map_or(1.0, |part| part.share.max(LEAST));
    html! {
        @if !parts.is_empty() {
            section class="part" aria-labelledby="shares" {
                h2 id="shares" { "What the spread is made of" }
                ul class="shares" {
                    @for part in parts.iter().take(8) {
                        li {
                            span class="share-name" { (upper_first(part.name.trim_start_matches("the "))) }
                            svg class="share" viewBox="0 0 160 12" width="160" height="12" aria-hidden="true" {
                                rect class="share-bar" x="0" y="1" height="10" width=(format!("{:.1}", BAR * part.share / most)) {}
                            }
                            span class="share-of" { (format!("{:.0} %", 100.0 * part.share)) }
                        }
                    }
                }
                @if parts.len() > 8 { p class="soft" { "and " (parts.len() - 8) " smaller ones." } }
            }
        }
    }
}

/// The sum, line by line.
pub(super) fn working(answer: &Answer, units: Units) -> Markup {
    let Some(figures) = answer.figures else {
        return html! {
            section class="part" aria-labelledby="working" {
                h2 id="working" { "What is missing" }
                ul class="checks" {
                    @for missing in &answer.missing {
                        li { (upper_first(&missing.what)) ": ask " (missing.who) "." }
                    }
                }
            }
        };
    };
    html! {
        section class="part" aria-labelledby="working" {
            h2 id="working" { "Working" }
            div class="scrolls" tabindex="0" role="region" aria-label="The sum, line by line" {
                table class="table working" {
                    thead { tr {
                        th scope="col" { "Sum" } th scope="col" { "Within" } th scope="col" { "What" }
                    } }
                    tbody {
                        @for part in &answer.parts { (line(part, units)) }
                        tr class="total" {
                            td class="number" { "= " (said::signed(figures.mean, units)) }
                            td class="number" { "±" (said::length(figures.likely.half(), units)) }
                            td { "nineteen cases of twenty" }
                        }
                    }
                }
            }
            p {
                @if let Some(worst) = figures.worst {
                    "At the very worst between " b { (said::signed(worst.low, units)) } " and "
                    b { (said::signed(worst.high, units)) } ". "
                }
                "Met in " b { (share(figures.chance)) } " of cases."
            }
        }
    }
}

/// A chance in per cent, never rounded to certainty.
fn share(chance: f64) -> String {
    match 100.0 * chance {
        less if less < 0.05 => "less than 0.1 %".to_owned(),
        more if more >= 99.95 => "more than 99.9 %".to_owned(),
        other => format!("{other:.1} %"),
    }
}

fn line(part: &Part, units: Units) -> Markup {
    let below = part.coefficient * part.figure < 0.0;
    let (minus, plus) = part.tolerance;
    let weight = part.coefficient.abs();
    html! {
        tr {
            td class="number" {
                (if below { "− " } else { "+ " }) (said::length(part.figure, units))
            }
            td class="number" {
                @if minus.max(plus) >= NONE {
                    @if (minus - plus).abs() < NONE { "±" (said::length(plus, units)) }
                    @else { "+" (said::length(plus, units)) " −" (said::length(minus, units)) }
                }
            }
            td {
                (part.name)
                @if let Source::Reading { by, .. } = &part.source { span class="soft" { ", read by " (by) } }
                @if let Some(drawn) = part.designed { span class="soft" { " (drawn " (said::signed(drawn, units)) ")" } }
                @if (weight - 1.0).abs() >= NONE { span class="soft" { (format!(", counts for {:.0} %", 100.0 * weight)) } }
            }
        }
    }
}
