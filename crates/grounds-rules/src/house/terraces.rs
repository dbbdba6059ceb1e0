//! Terraces: places outside with a floor on a membrane.

use grounds_model::{FaceKind, Material, PlaceKind};

use super::{House, length};
use crate::{
    given::Given,
    rules::terraces::{paver_edge, paver_pedestals, terrace_fall, terrace_upstand},
};

pub(super) fn apply(house: &mut House<'_>) {
    for stack in house.faces() {
        let outside = stack.place.kind == PlaceKind::Deck;
        if !outside || stack.face.kind != FaceKind::Floor || !stack.has(Material::Membrane) {
            continue;
        }
        let after_membrane = stack
            .layers
            .iter()
            .rev()
            .find(|layer| layer.material == Material::Membrane)
            .map(|layer| stack.key(layer));
        let (place, face) = (stack.place_key, stack.face_key);
        house.face(
            &terrace_fall::RULE,
            place,
            face,
            Given::new(),
            after_membrane,
        );
        let Some(pavers) = stack.thick(Material::Stone).or(stack.thick(Material::Tile)) else {
            continue;
        };
        let cover = Some(stack.key(pavers));
        house.face(
            &terrace_upstand::RULE,
            place,
            face,
            Given::new(),
            cover.clone(),
        );
        let mut given = Given::new();
        if let Some(thickness) = pavers.thickness {
            given.set(
                &paver_pedestals::THICK,
                length(thickness.nominal()),
                "the build-up",
            );
        }
        house.face(&paver_pedestals::RULE, place, face, given, cover.clone());
        house.face(&paver_edge::RULE, place, face, Given::new(), cover);
    }
}
