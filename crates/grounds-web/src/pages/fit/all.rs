//! All needs, by level and place.

use std::collections::BTreeMap;

use grounds_lines::answers::{Answer, Verdict};
use grounds_model::Id;
use maud::{Markup, html};

use super::row;
use crate::{say, visit::Visit};

/// The part of the page: each level folded.
pub(super) fn all(visit: &Visit) -> Markup {
    let job = &visit.picture.job;
    let mut levels: Vec<_> = job.levels.iter().collect();
    levels.sort_by_key(|(id, level)| (std::cmp::Reverse(level.height), *id));
    let (mut placed, mut elsewhere) = (BTreeMap::new(), Vec::new());
    for answer in &visit.picture.fit.answers {
        let place = visit
            .picture
            .fit
            .facts(answer)
            .and_then(|facts| facts.place.as_ref());
        match place.and_then(|id| job.places.get_key_value(id)) {
            Some((id, place)) => {
                let level: &mut BTreeMap<&Id, Vec<&Answer>> =
                    placed.entry(&place.level).or_default();
                level.entry(id).or_default().push(answer);
            }
            None => elsewhere.push(answer),
        }
    }
    html! {
        section class="part" aria-labelledby="all" {
            h2 id="all" { "All " (say::counted(visit.picture.fit.answers.len(), "fit", "fits")) }
            @for (id, level) in levels {
                @if let Some(places) = placed.get(id) {
                    details class="fold level-fold" {
                        summary { b { (level.name) } " " span class="soft" { (tally(places.values().flatten().copied())) } }
                        @for (place, answers) in places {
                            h3 class="trade" { (job.places.get(*place).map_or("", |place| &place.name)) }
                            ul class="rows plain fits" { @for answer in answers { (row::plain(visit, answer)) } }
                        }
                    }
                }
            }
            @if !elsewhere.is_empty() {
                details class="fold level-fold" {
                    summary { b { "Elsewhere" } " " span class="soft" { (tally(elsewhere.iter().copied())) } }
                    ul class="rows plain fits" { @for answer in &elsewhere { (row::plain(visit, answer)) } }
                }
            }
        }
    }
}

/// `24 fits, 3 in trouble`
fn tally<'a>(answers: impl Iterator<Item = &'a Answer>) -> String {
    let (mut count, mut trouble) = (0, 0);
    for answer in answers {
        count += 1;
        trouble += usize::from(matches!(answer.verdict, Verdict::Fails | Verdict::Tight));
    }
    let all = say::counted(count, "fit", "fits");
    if trouble == 0 {
        all
    } else {
        format!("{all}, {trouble} in trouble")
    }
}
