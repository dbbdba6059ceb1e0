//! Screeds, and the tile and stone on them.

use grounds_model::{FaceKind, Layer, Material, Work};
use grounds_site::Subject;

use super::{House, Stack, length};
use crate::{
    given::Given,
    quantity::{Quantity, Time},
    rules::tile_and_stone::{floor_flatness, movement_joints, screed_drying, slab_moisture},
};

/// A thinner bed dries with its tile and is no screed to be waited for, in mm.
const THIN: f64 = 30.0;

pub(super) fn apply(house: &mut House<'_>) {
    for stack in house.faces() {
        if stack.face.kind != FaceKind::Floor {
            continue;
        }
        let thick = |layer: &&Layer| {
            layer
                .thickness
                .is_some_and(|thickness| thickness.nominal().mm() >= THIN)
        };
        let screed = stack.thick(Material::Screed).filter(thick);
        let tile = stack.thick(Material::Tile).or(stack.thick(Material::Stone));
        let finish = screed.and_then(|screed| stack.after(screed));
        if let Some(screed) = screed {
            dry(house, stack, screed, finish);
        }
        if let Some(tile) = tile {
            flat(house, stack, tile);
        }
    }
}

fn dry<'a>(house: &mut House<'a>, stack: Stack<'a>, screed: &Layer, finish: Option<&Layer>) {
    let covered = finish.map(|finish| stack.key(finish));
    if covered
        .clone()
        .is_some_and(|key| house.done(&Work::Layer(key)))
    {
        return;
    }
    let mut given = Given::new();
    if let Some(thickness) = screed.thickness {
        given.set(
            &screed_drying::THICKNESS,
            length(thickness.nominal()),
            "the build-up",
        );
    }
    let state = house.site.state(&Subject::Layer(stack.key(screed)));
    if let Some(done) = state.done {
        let age = house.site.at.duration_since(done.at).as_secs_f64();
        given.set(
            &screed_drying::AGE,
            Time::of_base(age),
            "since it was laid, by the log",
        );
    }
    let (place, face) = (stack.place_key, stack.face_key);
    // To falls under a membrane it need not dry out: its test is the flood.
    if finish.is_some_and(|finish| finish.material == Material::Membrane)
        && screed.id.as_str() != "screed"
    {
        return;
    }
    house.face(
        &screed_drying::RULE,
        place,
        face,
        given.clone(),
        covered.clone(),
    );
    if state.done.is_some() {
        house.face(&slab_moisture::RULE, place, face, given, covered);
    }
}

fn flat<'a>(house: &mut House<'a>, stack: Stack<'a>, tile: &Layer) {
    let key = stack.key(tile);
    let (place, face) = (stack.place_key, stack.face_key);
    let mut given = Given::new();
    let outside = stack.place.kind == grounds_model::PlaceKind::Deck;
    if let Some(size) = stack.place.size {
        let side = size.first().max(size.second());
        given.set(
            &movement_joints::RUN,
            length(side),
            "the longer side of the room",
        );
    }
    let lies = if outside { "sun-or-outside" } else { "inside" };
    given.set_word(&movement_joints::LIES, lies, "the kind of place");
    let stair = stack.place.kind == grounds_model::PlaceKind::Stair;
    if !(outside || stair) {
        house.face(
            &movement_joints::RULE,
            place,
            face,
            given,
            Some(key.clone()),
        );
    }
    // A floor that has not been looked at yet is not asked about before its tile is next.
    let read = house.readings.latest(
        &grounds_model::Target::Face {
            place: place.clone(),
            face: face.clone(),
        },
        floor_flatness::GAP.spec.name,
    );
    let written = stack
        .face
        .figures
        .contains_key(floor_flatness::GAP.spec.name);
    if read.is_some() || written {
        house.face(&floor_flatness::RULE, place, face, Given::new(), Some(key));
    }
}
