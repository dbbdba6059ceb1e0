//! Timber floors.

use grounds_model::{FaceKind, Material, PlaceKind, Work};

use super::{House, Stack, climate, length};
use crate::{
    given::Given,
    rules::timber::{heating_before_timber, timber_acclimation, timber_moisture, timber_movement},
};

pub(super) fn apply(house: &mut House<'_>) {
    for stack in house.faces() {
        let inside = matches!(stack.place.kind, PlaceKind::Room | PlaceKind::Hall);
        if stack.face.kind != FaceKind::Floor || !inside {
            continue;
        }
        if let Some(boards) = stack.thick(Material::Timber) {
            floor(house, stack, boards);
        }
    }
}

fn floor<'a>(house: &mut House<'a>, stack: Stack<'a>, boards: &grounds_model::Layer) {
    let key = stack.key(boards);
    let laid = house.done(&Work::Layer(key.clone()));
    let (place, face) = (stack.place_key, stack.face_key);
    let mut given = Given::new();
    if let Some(size) = stack.place.size {
        let side = size.first().max(size.second());
        given.set(
            &timber_movement::FIELD,
            length(side),
            "the longer side of the room, at worst",
        );
    }
    house.face(
        &timber_movement::RULE,
        place,
        face,
        given,
        Some(key.clone()),
    );
    if laid {
        return;
    }
    for rule in [&timber_moisture::RULE, &timber_acclimation::RULE] {
        house.face(rule, place, face, Given::new(), Some(key.clone()));
    }
    let begins = house.told.begins(&key).unwrap_or(house.site.at);
    let mut given = Given::new();
    climate::put_air_at(house, place, begins, &mut given);
    house.face(&heating_before_timber::RULE, place, face, given, Some(key));
}
