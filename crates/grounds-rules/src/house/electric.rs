//! Light strip, boxes, heavy lamps, light on stairs.

use grounds_model::{Id, Piece, PieceKind, PlaceKind};

use super::{House, mass};
use crate::{
    given::Given,
    quantity::{Length, Quantity},
    rules::electric::{
        box_depth, box_fill, fixture_support, led_driver, led_voltage_drop, tread_light,
    },
};

pub(super) fn apply(house: &mut House<'_>) {
    for (key, piece) in &house.job.pieces {
        match piece.kind {
            Some(PieceKind::LightStrip) => {
                house.piece(&led_driver::RULE, key, piece, Given::new());
                house.piece(&led_voltage_drop::RULE, key, piece, Given::new());
            }
            Some(PieceKind::Box) => wall_box(house, key, piece),
            Some(PieceKind::Light) => light(house, key, piece),
            _ => {}
        }
    }
}

fn wall_box<'a>(house: &mut House<'a>, key: &'a Id, piece: &'a Piece) {
    let mut given = Given::new();
    if let Some(finish) = finish_over_frame(house, piece) {
        given.set(&box_depth::FINISH, finish, "the build-up of the face");
    }
    house.piece(&box_depth::RULE, key, piece, given);
    if piece.figures.contains_key(box_fill::HOLDS.spec.name) {
        house.piece(&box_fill::RULE, key, piece, Given::new());
    }
}

/// What comes on the frame in front of a box: every layer of its face that has a thickness and does
/// not lie between the framing.
fn finish_over_frame(house: &House<'_>, piece: &Piece) -> Option<Length> {
    let face = house
        .job
        .face(piece.place.as_str(), piece.face.as_ref()?.as_str())?;
    let layers = &house.job.build_up(face)?.layers;
    let thick = layers.iter().filter(|layer| !layer.between);
    let mm: f64 = thick
        .filter_map(|layer| layer.thickness)
        .map(|thickness| thickness.nominal().mm())
        .sum();
    Some(Length::of_base(mm / 1000.0))
}

fn light<'a>(house: &mut House<'a>, key: &'a Id, piece: &'a Piece) {
    let place = house.job.places.get(&piece.place);
    if place.is_some_and(|place| place.kind == PlaceKind::Stair) && piece.count > 1 {
        house.piece(&tread_light::RULE, key, piece, Given::new());
    }
    let Some(weight) = piece.weight else { return };
    let mut given = Given::new();
    given.set(
        &fixture_support::WEIGHT,
        mass(weight),
        "the weight of the piece",
    );
    house.piece(&fixture_support::RULE, key, piece, given);
}
