//! Panes of glass, and whatever else is heavy.

use grounds_model::{Id, Material, Piece, PieceKind, PlaceKind};

use super::{House, count, length, mass};
use crate::{
    given::Given,
    rules::{
        glass::{glass_clearance, glass_hinges, glass_weight, safety_glass},
        safety::lift_by_hand,
    },
};

/// Pieces that leave each of those who set them less than this are carried without a word, in kg.
const LIGHT: f64 = 20.0;

pub(super) fn apply(house: &mut House<'_>) {
    for (key, piece) in &house.job.pieces {
        if piece.material == Some(Material::Glass) {
            pane(house, key, piece);
        } else if let Some(weight) = piece.weight
            && weight.kg() > LIGHT * f64::from(lifters(house, piece))
        {
            heavy(house, key, piece);
        }
    }
    for (key, opening) in &house.job.openings {
        let piece = opening
            .piece
            .as_ref()
            .and_then(|piece| house.job.pieces.get(piece));
        let (Some(piece), Some(clearance)) = (piece, opening.clearance) else {
            continue;
        };
        // A guard is clamped in its shoe, which its maker answers for; it has no edge in a rebate.
        if piece.material != Some(Material::Glass) || piece.kind == Some(PieceKind::Guard) {
            continue;
        }
        let mut given = thickness(piece);
        given.set(
            &glass_clearance::CLEARANCE,
            length(clearance),
            "the clearance of the opening",
        );
        let target = grounds_model::Target::Opening(key.clone());
        let holds = opening.piece.clone().map(grounds_model::Work::Piece);
        let holds = holds.map_or(Vec::new(), |work| house.unless_done(work));
        house.apply(
            &glass_clearance::RULE,
            target,
            Some(&opening.place),
            given,
            holds,
        );
    }
}

fn thickness(piece: &Piece) -> Given {
    let mut given = Given::new();
    if let Some(thickness) = piece.thickness {
        given.set(
            &glass_weight::THICKNESS,
            length(thickness.nominal()),
            "the thickness of the pane",
        );
    }
    given
}

/// Who sets a piece.
fn lifters(house: &House<'_>, piece: &Piece) -> u32 {
    let trade = house.job.trades.get(&piece.trade);
    piece
        .people
        .or(trade.map(|trade| trade.people))
        .unwrap_or(1)
}

fn pane<'a>(house: &mut House<'a>, key: &'a Id, piece: &'a Piece) {
    let mut given = thickness(piece);
    if let Some(size) = piece.size {
        given.set(
            &glass_weight::WIDTH,
            length(size.first()),
            "the size of the pane",
        );
        given.set(
            &glass_weight::HEIGHT,
            length(size.second()),
            "the size of the pane",
        );
    }
    if let Some(weight) = piece.weight {
        given.set(
            &glass_weight::STATED,
            mass(weight),
            "the weight of the piece",
        );
        given.set(&glass_hinges::DOOR, mass(weight), "the weight of the piece");
    }
    given.set(
        &glass_weight::PEOPLE,
        count(lifters(house, piece)),
        "who sets it",
    );
    house.piece(&glass_weight::RULE, key, piece, given.clone());
    if piece.kind == Some(PieceKind::Door) {
        house.piece(&glass_hinges::RULE, key, piece, given);
    }
    if piece.kind == Some(PieceKind::Mirror) {
        return;
    }
    let place = house.job.places.get(&piece.place);
    let wet = place.is_some_and(|place| super::wet_rooms::is_wet(house.job, place));
    let stands = match (piece.kind, place.map(|place| place.kind)) {
        (Some(PieceKind::Door), _) => "door",
        (Some(PieceKind::Guard), _) => "guard",
        (_, Some(PlaceKind::Stair)) => "stair",
        _ if wet => "wet-room",
        _ => "window",
    };
    let mut given = Given::new();
    given.set_word(
        &safety_glass::WHERE,
        stands,
        "what it is and where it stands",
    );
    house.piece(&safety_glass::RULE, key, piece, given);
}

fn heavy<'a>(house: &mut House<'a>, key: &'a Id, piece: &'a Piece) {
    let mut given = Given::new();
    if let Some(weight) = piece.weight {
        given.set(
            &lift_by_hand::WEIGHT,
            mass(weight),
            "the weight of the piece",
        );
    }
    given.set(
        &glass_weight::PEOPLE,
        count(lifters(house, piece)),
        "who sets it",
    );
    house.piece(&lift_by_hand::RULE, key, piece, given);
}
