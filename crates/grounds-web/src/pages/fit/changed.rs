//! What the reading that was just entered changed.

use grounds_lines::{
    answers::{Answer, Verdict},
    said,
};
use grounds_sequence::words::lower_first;
use maud::{Markup, html};

use super::row;
use crate::{picture::Since, visit::Visit};

/// A change smaller than this is none, in millimetres.
const NOTHING: f64 = 0.05;

/// What the note that was just written changed: of one need, and what others turned.
pub(super) fn changed(visit: &Visit, key: Option<&str>) -> Markup {
    let fit = &visit.picture.fit;
    let Some(wrote) = visit.just_written() else {
        return html! {};
    };
    if let Some((_, why)) = fit.unused.iter().find(|(id, _)| *id == wrote) {
        return html! { p class="notice breach" role="alert" { (why) } };
    }
    let since = visit.picture.since.as_ref();
    let Some(since) = since.filter(|since| since.notes.contains(&wrote)) else {
        return html! {};
    };
    let own = key.and_then(|key| moved(visit, since, key));
    let turned: Vec<(&Answer, Verdict)> = turned(visit, since)
        .filter(|(answer, _)| Some(answer.key.as_str()) != key)
        .collect();
    html! {
        @if own.is_some() || !turned.is_empty() {
            section class="part" aria-labelledby="changed" {
                h2 id="changed" { "What that changed" }
                @if let Some(own) = own { p class="prospect-said" { (own) } }
                @if !turned.is_empty() {
                    ul class="reasons" {
                        @for (answer, before) in turned.iter().take(12) {
                            li {
                                a href=(row::address(visit, &answer.key)) { (answer.name) }
                                ": " (lower_first(row::word(*before))) " before, now "
                                b { (lower_first(row::word(answer.verdict))) } "."
                            }
                        }
                    }
                }
            }
        }
    }
}

/// How far a need moved, and how much surer it is.
fn moved(visit: &Visit, since: &Since, key: &str) -> Option<String> {
    let units = visit.picture.job.job.units;
    let (after, _) = visit.picture.fit.need(key)?;
    let (before, _) = since.fit.need(key)?;
    let verdict = if before.verdict == after.verdict {
        format!("Still: {}.", lower_first(row::word(after.verdict)))
    } else {
        format!(
            "It was: {}. Now: {}.",
            lower_first(row::word(before.verdict)),
            lower_first(row::word(after.verdict))
        )
    };
    let (Some(was), Some(is)) = (before.figures, after.figures) else {
        return Some(verdict);
    };
    let half = |half: f64| said::length(half, units);
    let moved = if (was.mean - is.mean).abs() < NOTHING {
        format!("It lands where it did, at {}", said::signed(is.mean, units))
    } else {
        format!(
            "It lands at {}, not {}",
            said::signed(is.mean, units),
            said::signed(was.mean, units)
        )
    };
    let surer = if (was.spread - is.spread).abs() < NOTHING / 2.0 {
        format!("as sure as before, ±{}", half(is.likely.half()))
    } else {
        format!(
            "and is known to ±{} instead of ±{}",
            half(is.likely.half()),
            half(was.likely.half())
        )
    };
    Some(format!("{moved}, {surer}. {verdict}"))
}

/// The needs that stand otherwise than before.
fn turned<'a>(visit: &'a Visit, since: &'a Since) -> impl Iterator<Item = (&'a Answer, Verdict)> {
    visit.picture.fit.answers.iter().filter_map(|answer| {
        let (before, _) = since.fit.need(&answer.key)?;
        (before.verdict != answer.verdict).then_some((answer, before.verdict))
    })
}
