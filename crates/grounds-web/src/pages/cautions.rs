//! Where work can hurt somebody: the usual caution, in one line. Local code comes first.
//!
//! Grade: common practice throughout; none of it replaces a data sheet, a risk assessment or a
//! licensed person.

use grounds_model::{FaceKind, Job, Layer, Material, Piece, PlaceKind};
use grounds_sequence::{Task, Work};

/// Said with every caution.
pub(crate) const LOCAL_CODE: &str =
    "Local code, the maker's sheet and licensed practice come before anything said here.";

/// The cautions for a piece of work; none where there is nothing to say.
pub(crate) fn cautions(job: &Job, task: &Task) -> Vec<&'static str> {
    let mut lines = Vec::new();
    if matches!(task.work, Work::Decide(_) | Work::Reach(_) | Work::Shut(_)) {
        return lines;
    }
    lines.extend(task.material.and_then(of_material));
    if matches!(task.work, Work::Look(_)) {
        lines.push(OPENING);
    }
    if is_dusty(job, task) {
        lines.push(
            "Dust: extract at the tool, wear a mask that suits the dust, keep others out. Dust of \
             stone, tile and concrete scars lungs.",
        );
    }
    if is_high(job, task) {
        lines.push(
            "Height: work from a platform or scaffold that was checked today, with edges guarded.",
        );
    }
    if piece(job, task).is_some_and(|piece| piece.heavy) {
        lines.push(LOAD);
    }
    lines.dedup();
    lines
}

/// Said where glass is carried or set.
pub(crate) const GLASS: &str = "Glass: gloves, sleeves and eye protection; carry it on edge with enough hands or suckers, and \
     keep people out from under it.";

/// The cautions for setting a piece; none where there is nothing to say.
pub(crate) fn of_piece(piece: &Piece) -> Vec<&'static str> {
    let mut lines: Vec<&str> = piece.material.and_then(of_material).into_iter().collect();
    if piece.heavy {
        lines.push(LOAD);
    }
    lines
}

/// Said before anything is opened.
pub(crate) const OPENING: &str = "Before anything is opened: find cables and pipes, have them switched off and proved dead by \
     whoever may; in an older house have old board, tile adhesive and paint tested for asbestos and \
     lead first; do not cut what bears load.";

const LOAD: &str = "Load: plan the lift and the way in, and check that the floor bears it.";

fn of_material(material: Material) -> Option<&'static str> {
    Some(match material {
        Material::Glass => GLASS,
        Material::Service => {
            "Electricity, gas and water: switched off, locked and proved dead before hands go in; \
             licensed people only where the law says so."
        }
        Material::Lime | Material::Screed | Material::Concrete => {
            "Lime and cement burn skin and eyes: gloves and goggles, and water at hand."
        }
        Material::Finish => {
            "Fumes and fire: air the room, no flame. Rags with oil catch fire by themselves: lay \
             them flat outside or under water in a metal bin."
        }
        Material::Adhesive | Material::Membrane => {
            "Fumes: air the room, gloves on, no flame near solvents."
        }
        Material::Insulation => "Fibres: mask, goggles and long sleeves.",
        Material::Stone => "Stone is heavy and its dust harmful: lift with help, cut wet.",
        _ => return None,
    })
}

fn piece<'a>(job: &'a Job, task: &Task) -> Option<&'a Piece> {
    match &task.work {
        Work::Set(id) | Work::Arrive(id) => job.pieces.get(id),
        _ => None,
    }
}

fn layer<'a>(job: &'a Job, task: &Task) -> Option<&'a Layer> {
    match &task.work {
        Work::Layer(keys) => keys.first().and_then(|key| job.layer(key)),
        _ => None,
    }
}

fn is_dusty(job: &Job, task: &Task) -> bool {
    layer(job, task).is_some_and(|layer| layer.dusty)
        || piece(job, task).is_some_and(|piece| piece.dusty)
}

fn is_high(job: &Job, task: &Task) -> bool {
    let Some(place) = task.place.as_ref().and_then(|id| job.places.get(id)) else {
        return false;
    };
    let face = task
        .face
        .as_ref()
        .and_then(|id| place.faces.get(id))
        .map(|face| face.kind);
    matches!(place.kind, PlaceKind::Stair | PlaceKind::Deck)
        || matches!(face, Some(FaceKind::Ceiling | FaceKind::Soffit))
}
