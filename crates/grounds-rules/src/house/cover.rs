//! What must be reached, what must be backed, what must be closed against fire.

use grounds_model::{Face, HoldKind, Id, Material, Piece, PieceKind, Target, Work};

use super::{House, Stack, length};
use crate::{
    given::Given,
    rules::cover::{access_panel, blocking, fire_block},
};

pub(super) fn apply(house: &mut House<'_>) {
    for (key, piece) in &house.job.pieces {
        if piece.serviced {
            access(house, key, piece);
        }
        if matches!(piece.kind, Some(PieceKind::Handrail | PieceKind::Hung)) {
            backed(house, key, piece);
        }
    }
    for stack in house.faces() {
        fire(house, stack);
    }
}

/// Whether a face closes in what is set before its last layer of board, plaster or tile.
fn closes(house: &House<'_>, piece: &Piece, face: &Face) -> bool {
    let Some(build_up) = house.job.build_up(face) else {
        return false;
    };
    let cover = build_up.layers.iter().position(|layer| {
        matches!(
            layer.material,
            Material::Board | Material::Tile | Material::Stone | Material::Lime
        )
    });
    let set_after = piece
        .after
        .iter()
        .filter_map(|after| match house.job.resolve(after) {
            Some(Target::Layer(key)) => build_up
                .layers
                .iter()
                .position(|layer| layer.id == key.layer),
            _ => None,
        });
    cover.is_some_and(|cover| set_after.max().is_some_and(|after| after < cover))
}

fn access<'a>(house: &mut House<'a>, key: &'a Id, piece: &'a Piece) {
    let place = house.job.places.get(&piece.place);
    let face = piece
        .face
        .as_ref()
        .and_then(|face| place.and_then(|place| place.faces.get(face)));
    let mut given = Given::new();
    let buried = face.is_some_and(|face| closes(house, piece, face));
    given.set_yes_no(&access_panel::BURIED, buried, "what it is set before");
    if buried {
        let panels = house.job.pieces.values().filter(|other| {
            other.place == piece.place
                && other.face == piece.face
                && other.name.to_lowercase().contains("panel")
        });
        if let Some(panel) = panels.into_iter().next() {
            given.set_yes_no(&access_panel::PANEL, true, panel.name.clone());
            if let Some(size) = panel.size {
                given.set(
                    &access_panel::WIDTH,
                    length(size.first()),
                    panel.name.clone(),
                );
                given.set(
                    &access_panel::HEIGHT,
                    length(size.second()),
                    panel.name.clone(),
                );
            }
        }
    }
    house.piece(&access_panel::RULE, key, piece, given);
}

fn backed<'a>(house: &mut House<'a>, key: &'a Id, piece: &'a Piece) {
    let mut given = Given::new();
    let face = piece.face.as_ref();
    let face = face.and_then(|face| house.job.face(piece.place.as_str(), face.as_str()));
    let blocked = face
        .and_then(|face| house.job.build_up(face))
        .is_some_and(|build_up| {
            build_up
                .layers
                .iter()
                .any(|layer| layer.id.as_str() == "blocking")
        });
    if blocked {
        given.set_yes_no(&blocking::BLOCKED, true, "the build-up has blocking");
    }
    if let Some(weight) = piece.weight.filter(|_| piece.kind == Some(PieceKind::Hung)) {
        given.set(
            &blocking::WEIGHT,
            super::mass(weight),
            "the weight of the piece",
        );
    }
    house.piece(&blocking::RULE, key, piece, given);
}

/// Faces with fire-stopping: what was seen by the authority before they are boarded.
fn fire<'a>(house: &mut House<'a>, stack: Stack<'a>) {
    let Some(stop) = stack
        .layers
        .iter()
        .find(|layer| layer.id.as_str() == "fire-stop")
    else {
        return;
    };
    let cover = stack.after(stop).map(|layer| stack.key(layer));
    let mut given = Given::new();
    let guards = |before: &grounds_model::Ref| matches!(house.job.resolve(before), Some(Target::Layer(key)) if Some(&key) == cover.as_ref());
    let hold = house
        .job
        .holds
        .iter()
        .find(|(_, hold)| hold.kind == HoldKind::Authority && hold.before.iter().any(guards));
    if let Some((key, hold)) = hold
        && house.done(&Work::Hold(key.clone()))
    {
        given.set_yes_no(&fire_block::SEEN, true, hold.name.clone());
    }
    house.face(
        &fire_block::RULE,
        stack.place_key,
        stack.face_key,
        given,
        cover,
    );
}
