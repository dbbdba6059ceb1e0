//! Showers and wet rooms: floors of tile or sheet on a membrane with a drain.

use grounds_model::{FaceKind, Job, Layer, Material, Place, PlaceKind, Target, Work};

use super::{House, Stack};
use crate::{
    given::Given,
    quantity::{Quantity, Time},
    rules::wet_rooms::{flood_test, membrane_upturn, shower_fall, wet_threshold},
};

/// Whether a place has a floor or wall with a membrane under its tile or plaster.
pub(super) fn is_wet(job: &Job, place: &Place) -> bool {
    let build_ups = place.faces.values().filter_map(|face| job.build_up(face));
    build_ups
        .into_iter()
        .any(|build_up| membrane(&build_up.layers).is_some())
}

/// The last layer of a membrane that is laid in coats: a waterproof one.
fn membrane(layers: &[Layer]) -> Option<&Layer> {
    let mut coats = layers
        .iter()
        .filter(|layer| layer.material == Material::Membrane && layer.thickness.is_some());
    let first = coats.next()?;
    coats.next().filter(|_| first.recoat.is_some())
}

pub(super) fn apply(house: &mut House<'_>) {
    for stack in house.faces() {
        if stack.place.kind == PlaceKind::Deck {
            continue;
        }
        let Some(membrane) = membrane(stack.layers) else {
            continue;
        };
        let cover = stack.after(membrane).map(|layer| stack.key(layer));
        match stack.face.kind {
            FaceKind::Floor => floor(house, stack, cover),
            FaceKind::Wall => {
                let mut given = Given::new();
                given.set_word(
                    &membrane_upturn::WHERE,
                    "shower-wall",
                    "a wall with a membrane",
                );
                house.face(
                    &membrane_upturn::RULE,
                    stack.place_key,
                    stack.face_key,
                    given,
                    cover,
                );
            }
            FaceKind::Ceiling | FaceKind::Soffit => {}
        }
    }
    flood_tests(house);
}

fn floor<'a>(house: &mut House<'a>, stack: Stack<'a>, cover: Option<grounds_model::LayerKey>) {
    for rule in [&shower_fall::RULE, &wet_threshold::RULE] {
        house.face(
            rule,
            stack.place_key,
            stack.face_key,
            Given::new(),
            cover.clone(),
        );
    }
}

/// Holds that stand for a time on a membrane.
fn flood_tests(house: &mut House<'_>) {
    for (key, hold) in &house.job.holds {
        let Some(minutes) = hold.stands.and_then(|stands| stands.minutes()) else {
            continue;
        };
        // A test of water on a membrane, not of pipes in the same wall.
        let tested = hold
            .after
            .iter()
            .filter_map(|after| house.job.resolve(after));
        let waterproof = tested.into_iter().any(|target| match target {
            Target::Layer(layer) => house
                .job
                .layer(&layer)
                .is_some_and(|layer| layer.material == Material::Membrane),
            _ => false,
        });
        if !waterproof {
            continue;
        }
        let mut given = Given::new();
        given.set(
            &flood_test::STOOD,
            Time::of_base(f64::from(minutes) * 60.0),
            "how long the test stands",
        );
        let holds = house.unless_done(Work::Hold(key.clone()));
        house.apply(
            &flood_test::RULE,
            Target::Hold(key.clone()),
            Some(&hold.place),
            given,
            holds,
        );
    }
}
