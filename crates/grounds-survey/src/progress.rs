//! How much of the house has been looked at.

use grounds_model::{Id, Job};
use grounds_site::Site;

use crate::mark::reach;

/// How much of a place, or of the house, has been looked at.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Looked {
    /// Faces of which somebody said how far they have got, or that nobody could look.
    pub faces: usize,
    /// All faces with a build-up.
    pub of: usize,
}

impl Looked {
    /// Whether nothing is left to look at.
    #[must_use]
    pub fn is_all(self) -> bool {
        self.faces == self.of
    }
}

/// How much of a place has been looked at.
#[must_use]
pub fn in_place(job: &Job, site: &Site, place: &Id) -> Looked {
    let mut looked = Looked::default();
    let faces = job.places.get(place).into_iter();
    for face in faces.flat_map(|place| place.faces.keys()) {
        if job.layers_of(place, face).is_empty() {
            continue;
        }
        looked.of += 1;
        looked.faces += usize::from(reach(job, site, place, face).is_some());
    }
    looked
}

/// How many places have been looked at, of those that have faces: `9 of 36`.
#[must_use]
pub fn places(job: &Job, site: &Site) -> (usize, usize) {
    let all = job.places.keys().map(|place| in_place(job, site, place));
    let faced: Vec<Looked> = all.filter(|looked| looked.of > 0).collect();
    let done = faced.iter().filter(|looked| looked.is_all()).count();
    (done, faced.len())
}

/// The place to look at next after one, by level from the lowest and then by key: the first that is
/// not wholly looked at, from the one after it on and round.
#[must_use]
pub fn next_place(job: &Job, site: &Site, after: Option<&Id>) -> Option<Id> {
    let order = walking_order(job);
    let from = after.and_then(|after| order.iter().position(|place| place == after));
    let from = from.map_or(0, |at| at + 1);
    let around = order.iter().cycle().skip(from).take(order.len());
    around
        .filter(|place| Some(*place) != after)
        .find(|place| !in_place(job, site, place).is_all())
        .cloned()
}

/// All places, level by level from the lowest, and by key within a level.
#[must_use]
pub fn walking_order(job: &Job) -> Vec<Id> {
    let height = |place: &grounds_model::Place| job.levels.get(&place.level).map(|it| it.height);
    let mut places: Vec<_> = job.places.iter().collect();
    places.sort_by_key(|(id, place)| (height(place), &place.level, *id));
    places.into_iter().map(|(id, _)| id.clone()).collect()
}
