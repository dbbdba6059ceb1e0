//! Heated floors, and heating that melts snow.

use grounds_model::{FaceKind, Material, PieceKind, Work};

use super::House;
use crate::{
    given::Given,
    rules::heating::{
        floor_warmth, heated_screed, snow_melt_electric, snow_melt_load, snow_melt_water,
    },
};

pub(super) fn apply(house: &mut House<'_>) {
    for stack in house.faces() {
        if stack.face.kind != FaceKind::Floor {
            continue;
        }
        // Pipes under a screed: a floor that is heated.
        let pipes = stack
            .layers
            .iter()
            .position(|layer| layer.material == Material::Service);
        let screed = stack
            .layers
            .iter()
            .position(|layer| layer.material == Material::Screed);
        let (Some(pipes), Some(screed)) = (pipes, screed) else {
            continue;
        };
        let on_insulation = stack.has(Material::Insulation);
        if pipes > screed || !on_insulation {
            continue;
        }
        let finish = stack
            .layers
            .iter()
            .skip(screed + 1)
            .find(|layer| !matches!(layer.material, Material::Service | Material::Screed));
        let cover = finish.map(|finish| stack.key(finish));
        let mut given = Given::new();
        let heat_up = stack
            .layers
            .iter()
            .skip(screed + 1)
            .find(|layer| layer.material == Material::Service);
        if let Some(heat_up) = heat_up
            && house.done(&Work::Layer(stack.key(heat_up)))
        {
            given.set_yes_no(&heated_screed::DONE, true, heat_up.name.clone());
        }
        let finishes = [Material::Stone, Material::Tile, Material::Timber];
        if let Some(material) = finishes.into_iter().find(|material| stack.has(*material)) {
            given.set_word(&floor_warmth::FINISH, material.name(), "the build-up");
        }
        house.face(
            &heated_screed::RULE,
            stack.place_key,
            stack.face_key,
            given.clone(),
            cover.clone(),
        );
        house.face(
            &floor_warmth::RULE,
            stack.place_key,
            stack.face_key,
            given,
            cover,
        );
    }
    for (key, piece) in &house.job.pieces {
        if piece.kind != Some(PieceKind::SnowMelt) {
            continue;
        }
        house.piece(&snow_melt_load::RULE, key, piece, Given::new());
        let pumped = piece
            .figures
            .contains_key(snow_melt_water::PUMPED.spec.name);
        let supply = if pumped {
            &snow_melt_water::RULE
        } else {
            &snow_melt_electric::RULE
        };
        house.piece(supply, key, piece, Given::new());
    }
}
