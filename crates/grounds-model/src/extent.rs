//! How large a face is.

use grounds_measure::{Area, Length};

use crate::{
    job::Job,
    place::{FaceKind, Place},
};

impl Job {
    /// The area of a face: its own, else from the size of its place: length × width for floors,
    /// ceilings and soffits, perimeter × height for walls. Nothing where neither is stated.
    ///
    /// Openings are not taken off; state the area where they count.
    #[must_use]
    pub fn face_area(&self, place: &str, face: &str) -> Option<Area> {
        let place = self.places.get(place)?;
        let face = place.faces.get(face)?;
        face.area.or_else(|| area_by_size(place, face.kind))
    }

    /// The running length of a face: its own, else the perimeter of its place. Nothing where
    /// neither is stated.
    #[must_use]
    pub fn face_length(&self, place: &str, face: &str) -> Option<Length> {
        let place = self.places.get(place)?;
        let face = place.faces.get(face)?;
        face.length.or_else(|| perimeter(place))
    }
}

fn area_by_size(place: &Place, kind: FaceKind) -> Option<Area> {
    let size = place.size?;
    match kind {
        FaceKind::Wall => Some(Area::of(perimeter(place)?, size.third()?)),
        FaceKind::Floor | FaceKind::Ceiling | FaceKind::Soffit => Some(size.area()),
    }
}

fn perimeter(place: &Place) -> Option<Length> {
    let size = place.size?;
    (size.first() + size.second()).checked_mul(2)
}
