//! Leaves out of a section what cannot be drawn.

use crate::fit_section::{Dimension, Section};

/// A hundred metres: nothing in a face is further off.
const FURTHEST: f64 = 1e5;
/// No face has more layers or pieces worth lettering.
const MOST: usize = 40;

/// The section without what is not a number, turned inside out or out of all measure.
pub(crate) fn sound(section: &Section) -> Section {
    let mut section = section.clone();
    section
        .layers
        .retain(|layer| is_stretch(layer.from, layer.to));
    section.layers.truncate(MOST);
    section.pieces.truncate(MOST);
    for piece in &mut section.pieces {
        piece.width = length(piece.width).max(1.0);
        piece.gap = length(piece.gap);
        if !is_stretch(piece.from, piece.to) {
            piece.from = section.layers.last().map_or(0.0, |layer| layer.from);
            piece.to = section.layers.last().map_or(0.0, |layer| layer.to);
        }
    }
    section.finish = section
        .finish
        .filter(|finish| is_place(finish.at))
        .map(|finish| crate::FinishPlane {
            minus: length(finish.minus),
            plus: length(finish.plus),
            ..finish
        });
    section.control = section.control.filter(|line| is_place(line.at));
    section
        .landings
        .retain(|landing| is_place(landing.lands) && is_place(landing.wanted));
    section.landings.truncate(MOST);
    section.strings.truncate(4);
    let is_sound = |dimension: &Dimension| is_stretch(dimension.from, dimension.to);
    for string in &mut section.strings {
        string.retain(is_sound);
        string.truncate(MOST);
    }
    section
}

fn is_place(mm: f64) -> bool {
    mm.is_finite() && mm.abs() <= FURTHEST
}

fn is_stretch(from: f64, to: f64) -> bool {
    is_place(from) && is_place(to) && to > from
}

fn length(mm: f64) -> f64 {
    if mm.is_finite() {
        mm.clamp(0.0, FURTHEST)
    } else {
        0.0
    }
}
