//! One mark for several faces: all walls alike, a room like another, everything up to a layer.

use std::collections::BTreeMap;

use grounds_model::{FaceKind, Id, Job};
use grounds_site::Site;

use crate::mark::{Mark, Reach, reach};

/// Which part of the house is meant.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Part {
    /// One place.
    Place(Id),
    /// Every place of a level.
    Level(Id),
    /// The whole house.
    House,
}

impl Part {
    /// Whether a place of the job belongs to it.
    #[must_use]
    pub fn has(&self, job: &Job, place: &Id) -> bool {
        match self {
            Self::Place(id) => id == place,
            Self::Level(level) => job.places.get(place).is_some_and(|it| it.level == *level),
            Self::House => true,
        }
    }
}

/// The marks of all walls of a place, where one of them was marked so: those with the same build-up
/// alike, others as far as they have a layer of that key or of that name. A wall that has none is
/// left out.
#[must_use]
pub fn walls_alike(job: &Job, place: &Id, mark: &Mark) -> Vec<Mark> {
    let Some(here) = job.places.get(place) else {
        return Vec::new();
    };
    let walls = here
        .faces
        .iter()
        .filter(|(_, face)| face.kind == FaceKind::Wall);
    let alike = |(face, _): (&Id, _)| {
        let reach = match &mark.reach {
            Reach::UpTo(layer) => Reach::UpTo(same_layer(job, mark, layer, place, face)?),
            other => other.clone(),
        };
        Some(Mark {
            place: place.clone(),
            face: face.clone(),
            reach,
        })
    };
    walls.filter_map(alike).collect()
}

/// The layer of a face that is like one of another face: of the same key, else of the same name.
fn same_layer(job: &Job, mark: &Mark, layer: &Id, place: &Id, face: &Id) -> Option<Id> {
    let name = |place: &Id, face: &Id, layer: &Id| {
        let key = grounds_model::LayerKey {
            place: place.clone(),
            face: face.clone(),
            layer: layer.clone(),
        };
        job.layer(&key).map(|layer| layer.name.to_lowercase())
    };
    let keys = job.layers_of(place, face);
    let by_key = keys.iter().find(|key| key.layer == *layer);
    let wanted = name(&mark.place, &mark.face, layer);
    let by_name = || {
        keys.iter()
            .find(|key| wanted.is_some() && name(place, face, &key.layer) == wanted)
    };
    by_key.or_else(by_name).map(|key| key.layer.clone())
}

/// The marks of a room that is like another: each face as far as the face of the other with the same
/// build-up, of the same key before any other. Faces that the other has nothing like are left out.
#[must_use]
pub fn like_room(job: &Job, site: &Site, from: &Id, to: &Id) -> Vec<Mark> {
    let (Some(source), Some(goal)) = (job.places.get(from), job.places.get(to)) else {
        return Vec::new();
    };
    if from == to {
        return Vec::new();
    }
    let mark = |(key, face): (&Id, &grounds_model::Face)| {
        let same = |(_, other): &(&Id, &grounds_model::Face)| other.build_up == face.build_up;
        let named = source.faces.get_key_value(key).filter(same);
        let (like, _) = named.or_else(|| source.faces.iter().find(same))?;
        Some(Mark {
            place: to.clone(),
            face: key.clone(),
            reach: reach(job, site, from, like)?,
        })
    };
    goal.faces.iter().filter_map(mark).collect()
}

/// The marks of everything up to a layer, by its name or key, over a part of the house: each face that
/// has such a layer and of which nobody has said a word yet.
#[must_use]
pub fn everything_up_to(job: &Job, site: &Site, layer: &str, part: &Part) -> Vec<Mark> {
    let wanted = layer.trim().to_lowercase();
    let mut marks = Vec::new();
    for (place, design) in job.places.iter().filter(|(place, _)| part.has(job, place)) {
        for (face, design) in &design.faces {
            let layers = job.build_up(design).map_or(&[][..], |it| &it.layers);
            let is_it = |layer: &&grounds_model::Layer| {
                layer.name.to_lowercase() == wanted || layer.id.as_str() == wanted
            };
            let Some(layer) = layers.iter().rev().find(is_it) else {
                continue;
            };
            if reach(job, site, place, face).is_none() {
                marks.push(Mark {
                    place: place.clone(),
                    face: face.clone(),
                    reach: Reach::UpTo(layer.id.clone()),
                });
            }
        }
    }
    marks
}

/// The layers that everything can be marked up to, by key, over a part of the house: a name for each,
/// and how many faces would be marked; those of most faces first.
#[must_use]
pub fn layers_to_mark(job: &Job, site: &Site, part: &Part) -> Vec<(Id, String, usize)> {
    let mut found: BTreeMap<&Id, (&str, usize)> = BTreeMap::new();
    for (place, design) in job.places.iter().filter(|(place, _)| part.has(job, place)) {
        for (face, design) in &design.faces {
            if reach(job, site, place, face).is_some() {
                continue;
            }
            for layer in job.build_up(design).map_or(&[][..], |it| &it.layers) {
                found.entry(&layer.id).or_insert((&layer.name, 0)).1 += 1;
            }
        }
    }
    let mut layers: Vec<_> = found
        .into_iter()
        .map(|(id, (name, faces))| (id.clone(), name.to_owned(), faces))
        .collect();
    layers.sort_by(|a, b| (b.2, &a.0).cmp(&(a.2, &b.0)));
    layers
}

/// Rooms that a place can be marked like, the most alike first: places that somebody marked, with how
/// many faces of the same build-up.
#[must_use]
pub fn rooms_like(job: &Job, site: &Site, place: &Id) -> Vec<(Id, usize)> {
    let others = job.places.keys().filter(|other| *other != place);
    let mut like: Vec<(Id, usize)> = others
        .map(|other| (other.clone(), like_room(job, site, other, place).len()))
        .filter(|(_, faces)| *faces > 0)
        .collect();
    like.sort_by(|a, b| (b.1, &a.0).cmp(&(a.1, &b.0)));
    like
}
