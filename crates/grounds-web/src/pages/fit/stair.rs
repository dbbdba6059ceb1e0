//! The sheet of a flight.

use grounds_draw::{Scale, on_every_medium};
use grounds_lines::answers::Verdict;
use maud::{Markup, PreEscaped, html};

use super::row;
use crate::visit::Visit;

/// The page of a flight; nothing for a place that has none.
pub(crate) fn stair(visit: &Visit, id: &str) -> Option<Markup> {
    let fit = &visit.picture.fit;
    let (key, layout) = fit.stairs.iter().find(|(key, _)| key.as_str() == id)?;
    let name = visit
        .picture
        .job
        .places
        .get(key)
        .map_or("", |place| &place.name);
    let needs: Vec<_> = ["first-rise", "last-rise"]
        .iter()
        .filter_map(|word| fit.need(&format!("{id}.{word}")))
        .collect();
    let worst = needs.iter().min_by_key(|(answer, _)| answer.verdict)?;
    let advice = worst.1.advice.clone();
    let holds = worst.0.verdict == Verdict::Holds;
    Some(html! {
        header class="opening" {
            p class="place-line" { (name) }
            h1 {
                @if holds { "The rises come out even enough." }
                @else { (advice.unwrap_or_else(|| "The rises are uneven.".to_owned())) }
            }
            p class="lead" { (worst.0.said) }
        }
        (PreEscaped(on_every_medium(Scale::Fifth, |medium| grounds_draw::stair_layout(layout, medium))))
        section class="part" aria-labelledby="rises" {
            h2 id="rises" { "First and last rise" }
            ul class="rows plain fits" {
                @for (answer, _) in &needs { (row::plain(visit, answer)) }
            }
        }
        p class="soft" {
            "One rise that differs is where people fall. What may differ is for local code to say; until "
            "a flight is even, mark it or shut it."
        }
    })
}
