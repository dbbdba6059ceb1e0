//! Stairs by their flights; handrails and guards by their pieces.

use grounds_model::{Align, Flight, Id, Piece, PieceKind, PlaceKind, Relation};

use super::{House, count, length};
use crate::{
    given::Given,
    quantity,
    rules::stairs::{
        even_risers, flight, guard_gaps, guard_height, guard_load, handrail, handrail_grip,
        headroom, nosing, riser_and_going, stair_width,
    },
};

pub(super) fn apply(house: &mut House<'_>) {
    for (key, place) in &house.job.places {
        if let Some(flight) = &place.flight {
            stair(house, key, flight);
        }
    }
    for (key, piece) in &house.job.pieces {
        match piece.kind {
            Some(PieceKind::Handrail) => rail(house, key, piece),
            Some(PieceKind::Guard) => guard(house, key, piece),
            _ => {}
        }
    }
}

fn stair<'a>(house: &mut House<'a>, key: &'a Id, stair: &Flight) {
    let mut given = Given::new();
    given.set(
        &riser_and_going::RISER,
        length(stair.rise),
        "the flight as framed",
    );
    given.set(&flight::RISERS, count(stair.risers), "the flight as framed");
    if let Some(most) = stair.most_difference {
        given.set(&even_risers::MOST, length(most), "set for this flight");
    }
    for rule in [
        &riser_and_going::RULE,
        &even_risers::RULE,
        &flight::RULE,
        &nosing::RULE,
        &headroom::RULE,
        &stair_width::RULE,
    ] {
        house.place(rule, key, given.clone());
    }
}

/// How far a piece is aligned by, in one relation.
fn aligned(piece: &Piece, how: Relation) -> Option<quantity::Length> {
    let by = |align: &Align| align.by.filter(|_| align.how == how);
    piece.align.iter().find_map(by).map(length)
}

fn rail<'a>(house: &mut House<'a>, key: &'a Id, piece: &'a Piece) {
    let mut given = Given::new();
    let place = house.job.places.get(&piece.place);
    if let Some(stair) = place.and_then(|place| place.flight.as_ref()) {
        given.set(&flight::RISERS, count(stair.risers), "the flight as framed");
    }
    if let Some(height) = aligned(piece, Relation::AboveFloor) {
        given.set(&handrail::HEIGHT, height, "how the rail is aligned");
    }
    if let Some(clear) = aligned(piece, Relation::Clear) {
        given.set(&handrail::CLEARANCE, clear, "how the rail is aligned");
    }
    house.piece(&handrail::RULE, key, piece, given);
    let mut given = Given::new();
    if let Some(thickness) = piece.thickness {
        given.set(
            &handrail_grip::DIAMETER,
            length(thickness.nominal()),
            "the thickness of the rail",
        );
    }
    house.piece(&handrail_grip::RULE, key, piece, given);
}

fn guard<'a>(house: &mut House<'a>, key: &'a Id, piece: &'a Piece) {
    let mut given = Given::new();
    if let Some(height) = aligned(piece, Relation::AboveFloor) {
        given.set(&guard_height::HEIGHT, height, "how the guard is aligned");
    }
    let kind = house.job.places.get(&piece.place).map(|place| place.kind);
    let stands = match kind {
        Some(PlaceKind::Stair) => "stair",
        Some(PlaceKind::Deck) => "balcony",
        _ => "floor",
    };
    given.set_word(&guard_height::STANDS, stands, "the kind of place");
    for rule in [&guard_height::RULE, &guard_gaps::RULE, &guard_load::RULE] {
        house.piece(rule, key, piece, given.clone());
    }
}
