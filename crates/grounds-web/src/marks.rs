//! From jobs and plans to what drawings are drawn from.

use grounds_draw::{Face, FaceKind, Hatch, Layer, Piece, State, Trouble};
use grounds_model::{FaceKind as Kind, Id, LayerKey, Material, Target};
use grounds_schedule::ActivityId;
use grounds_sequence::{Task, TaskState, Work};
use grounds_site::Subject;
use maud::{Markup, PreEscaped, html};

use crate::picture::Picture;

/// The stack mark of a piece of work; nothing where it has to do with no face.
pub(crate) fn of_task(picture: &Picture, id: ActivityId) -> Markup {
    let Some(task) = picture.outlook.network.task(id) else {
        return html! {};
    };
    match face_of(picture, task) {
        Some((place, face)) => {
            let layers = layers(picture, &place, &face);
            html! { (PreEscaped(grounds_draw::stack_mark(&task.where_, &layers))) }
        }
        None => html! { (PreEscaped(grounds_draw::stack_mark(&task.where_, &[]))) },
    }
}

/// The section through the face that a piece of work is on; nothing where it is on none.
pub(crate) fn section(picture: &Picture, id: ActivityId) -> Markup {
    let Some(task) = picture.outlook.network.task(id) else {
        return html! {};
    };
    let drawn = face_of(picture, task).and_then(|(place, key)| face(picture, &place, &key));
    html! {
        @if let Some(face) = drawn {
            figure class="face" {
                figcaption { "Section: " (face.name) }
                (PreEscaped(grounds_draw::stack_section(&face)))
            }
        }
    }
}

/// A face as drawings take it.
pub(crate) fn face(picture: &Picture, place: &Id, key: &Id) -> Option<Face> {
    let design = picture.job.face(place.as_str(), key.as_str())?;
    Some(Face {
        name: design
            .name
            .clone()
            .unwrap_or_else(|| key.as_str().replace('-', " ")),
        kind: match design.kind {
            Kind::Floor => FaceKind::Floor,
            Kind::Wall => FaceKind::Wall,
            Kind::Ceiling | Kind::Soffit => FaceKind::Ceiling,
        },
        layers: layers(picture, place, key),
        pieces: pieces(picture, place, key),
    })
}

/// How far a piece of work has got, as drawings show it.
pub(crate) fn state(picture: &Picture, id: ActivityId) -> State {
    let Some(task) = picture.outlook.network.task(id) else {
        return State::ToCome;
    };
    match task.state {
        TaskState::Done => State::Done,
        TaskState::InHand => State::InHand {
            percent: task.share,
        },
        TaskState::ToCome if picture.outlook.startable[id.index()].is_some() => State::Next,
        TaskState::ToCome => State::ToCome,
    }
}

/// Whether something is wrong with a piece of work.
pub(crate) fn trouble(picture: &Picture, id: ActivityId) -> Trouble {
    if picture.broken.contains(&id) {
        return Trouble::Breach;
    }
    let Some(task) = picture.outlook.network.task(id) else {
        return Trouble::None;
    };
    match picture.site.states.get(&task.work.subject()) {
        Some(state) if state.failed.is_some() && task.state != TaskState::Done => Trouble::Breach,
        Some(state) if !state.problems.is_empty() || state.damaged.is_some() => Trouble::Care,
        _ => Trouble::None,
    }
}

/// The hatch of a material.
pub(crate) fn hatch(material: Material) -> Hatch {
    match material {
        Material::Board => Hatch::Board,
        Material::Plaster | Material::Lime => Hatch::Plaster,
        Material::Screed => Hatch::Screed,
        Material::Concrete => Hatch::Concrete,
        Material::Masonry | Material::Stone => Hatch::Stone,
        Material::Tile | Material::Grout => Hatch::Tile,
        Material::Timber | Material::Sheet => Hatch::Timber,
        Material::Metal => Hatch::Metal,
        Material::Glass => Hatch::Glass,
        Material::Membrane | Material::Adhesive => Hatch::Membrane,
        Material::Insulation => Hatch::Insulation,
        Material::Paint | Material::Finish => Hatch::Paint,
        Material::Fabric => Hatch::Fabric,
        Material::Service | Material::Void => Hatch::Void,
    }
}

fn layers(picture: &Picture, place: &Id, face: &Id) -> Vec<Layer> {
    let job = &picture.job;
    let keys = job.layers_of(place, face);
    keys.iter()
        .filter_map(|key| job.layer(key).map(|design| layer(picture, key, design)))
        .collect()
}

fn layer(picture: &Picture, key: &LayerKey, design: &grounds_model::Layer) -> Layer {
    let task = picture.layer_tasks.get(key).copied();
    let noted = picture.site.states.get(&Subject::Layer(key.clone()));
    let state = match task {
        _ if noted.is_some_and(|state| state.done.is_some()) => State::Done,
        Some(id) => state(picture, id),
        None => State::ToCome,
    };
    let thickness = design.thickness.map(|thickness| thickness.nominal());
    let units = picture.job.job.units;
    Layer {
        name: design.name.clone(),
        hatch: hatch(design.material),
        thickness: thickness.map_or(0.0, |length| length.mm()),
        thickness_words: thickness.map_or_else(String::new, |l| l.display(units).to_string()),
        state,
        trouble: task.map_or(Trouble::None, |id| trouble(picture, id)),
    }
}

fn pieces(picture: &Picture, place: &Id, face: &Id) -> Vec<Piece> {
    let network = &picture.outlook.network;
    let keys = picture.job.layers_of(place, face);
    let here = picture
        .job
        .pieces
        .iter()
        .filter(|(_, piece)| piece.place == *place && piece.face.as_ref() == Some(face));
    here.map(|(id, piece)| {
        let task = network.find(id.as_str());
        let sits_on = |key: &LayerKey| piece.after.iter().any(|r| r.as_str() == key.to_string());
        Piece {
            name: piece.name.clone(),
            after: keys.iter().rposition(sits_on).unwrap_or(keys.len()),
            state: task.map_or(State::ToCome, |id| state(picture, id)),
            trouble: task.map_or(Trouble::None, |id| trouble(picture, id)),
        }
    })
    .collect()
}

/// The face that a piece of work is on, or that it looks at.
fn face_of(picture: &Picture, task: &Task) -> Option<(Id, Id)> {
    match &task.work {
        Work::Layer(keys) => keys
            .first()
            .map(|key| (key.place.clone(), key.face.clone())),
        Work::Pass(id) | Work::SetUp(id) | Work::PutRight(id) => {
            let hold = picture.job.holds.get(id)?;
            hold.after.iter().chain(&hold.before).find_map(|reference| {
                match picture.job.resolve(reference)? {
                    Target::Layer(key) => Some((key.place, key.face)),
                    Target::Face { place, face } => Some((place, face)),
                    _ => None,
                }
            })
        }
        _ => task.place.clone().zip(task.face.clone()),
    }
}
