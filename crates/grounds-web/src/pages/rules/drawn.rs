//! What a rule is applied to, drawn where there is a drawing of it: a face in section, an opening with its
//! tapes, a flight with its rises.

use grounds_draw::{Scale, on_every_medium};
use grounds_model::{Id, Target};
use grounds_rules::house::Applied;
use maud::{Markup, PreEscaped, html};

use crate::{marks, visit::Visit};

/// The drawing; nothing where there is none.
pub(super) fn drawn(visit: &Visit, applied: &Applied) -> Markup {
    let fit = &visit.picture.fit;
    match &applied.about {
        Target::Face { place, face } => section(visit, place, face),
        Target::Layer(key) => section(visit, &key.place, &key.face),
        Target::Piece(id) => {
            let piece = visit.picture.job.pieces.get(id);
            let face = piece.and_then(|piece| Some((&piece.place, piece.face.as_ref()?)));
            face.map_or_else(|| html! {}, |(place, face)| section(visit, place, face))
        }
        Target::Opening(id) => html! {
            @if let Some(sheet) = fit.openings.get(id) {
                (PreEscaped(on_every_medium(Scale::Fifth, |medium| {
                    grounds_draw::opening_sheet(&sheet.found().drawn, medium)
                })))
            }
        },
        Target::Place(id) => html! {
            @if let Some(layout) = fit.stairs.get(id) {
                (PreEscaped(on_every_medium(Scale::Fifth, |medium| grounds_draw::stair_layout(layout, medium))))
            }
        },
        _ => html! {},
    }
}

fn section(visit: &Visit, place: &Id, key: &Id) -> Markup {
    html! {
        @if let Some(face) = marks::face(&visit.picture, place, key) {
            figure class="face" {
                figcaption { "Section: " (face.name) }
                (PreEscaped(grounds_draw::stack_section(&face)))
            }
        }
    }
}
