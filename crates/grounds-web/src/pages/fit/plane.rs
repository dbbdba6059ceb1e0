//! The sheet of a plane.

use grounds_draw::{Scale, on_every_medium};
use grounds_lines::{
    answers::{Answer, Verdict},
    lines::NeedKind,
};
use maud::{Markup, PreEscaped, html};

use super::row;
use crate::{fit::Onto, visit::Visit};

/// The page of a control line; nothing where no two pieces stand by it.
pub(crate) fn plane(visit: &Visit, id: &str) -> Option<Markup> {
    let fit = &visit.picture.fit;
    let (key, layout) = fit.planes.iter().find(|(key, _)| key.as_str() == id)?;
    let name = visit
        .picture
        .job
        .controls
        .get(key)
        .map_or("", |control| &control.name);
    let onto = Some(Onto::Plane(key.clone()));
    let needs: Vec<&Answer> = fit
        .answers
        .iter()
        .filter(|answer| answer.kind == NeedKind::InPlane)
        .filter(|answer| fit.facts(answer).is_some_and(|facts| facts.sheet == onto))
        .collect();
    let off = needs
        .iter()
        .filter(|answer| answer.verdict != Verdict::Holds)
        .count();
    let shims = layout
        .pieces
        .iter()
        .filter(|piece| piece.shim > 0.0)
        .count();
    Some(html! {
        header class="opening" {
            p class="place-line" { (name) }
            h1 {
                @match (off, shims) {
                    (0, 0) => { "All " (grounds_sequence::words::count(needs.len())) " come into one plane." }
                    (0, _) => { "All " (grounds_sequence::words::count(needs.len())) " will do; shims make them one plane." }
                    (1, _) => "One of them is not sure to be in plane.",
                    (n, _) => { (grounds_sequence::words::upper_first(&grounds_sequence::words::count(n))) " of them are not sure to be in plane." }
                }
            }
            p class="lead" {
                "Carried through the house by " (grounds_site::words::with_article(name)) ". "
                span class="soft" { "The eye follows an edge from floor to floor: read each mark again before the piece is fixed." }
            }
        }
        (PreEscaped(on_every_medium(Scale::Fifth, |medium| grounds_draw::plane_layout(layout, medium))))
        section class="part" aria-labelledby="pieces" {
            h2 id="pieces" { "Piece by piece" }
            ul class="rows plain fits" { @for answer in &needs { (row::plain(visit, answer)) } }
        }
    })
}
