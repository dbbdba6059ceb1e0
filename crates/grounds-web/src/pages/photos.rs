//! Photos beside a note, and what stands there for one that is still on a phone.

use grounds_site::Note;
use grounds_store::{Facing, Photo};
use maud::{Markup, html};

use crate::{say, visit::Visit};

/// What stands for a photo that has not arrived.
pub(crate) const STILL_ON_THE_PHONE: &str = "The photo is still on the phone that took it.";

/// The most photos of one note that are shown.
const SHOWN: usize = 24;

/// The eight winds, from north, clockwise.
const WINDS: [&str; 8] = [
    "north",
    "north-east",
    "east",
    "south-east",
    "south",
    "south-west",
    "west",
    "north-west",
];

/// The photos of a note, small, each leading to the whole; nothing where it has none.
pub(crate) fn of_note(visit: &Visit, note: &Note) -> Markup {
    html! {
        @if !note.photos.is_empty() {
            ul class="photos" {
                @for key in note.photos.iter().take(SHOWN) {
                    li { (one(visit, key)) }
                }
            }
        }
    }
}

/// One photo by its key, small, leading to the whole.
pub(crate) fn one(visit: &Visit, key: &str) -> Markup {
    match visit.photos.get(key) {
        Some(photo) => {
            let whole = visit.to(&format!("photos/{key}"));
            html! {
                a href=(whole) {
                    img src={ (whole) "/small" } alt=(told(visit, photo)) width="120" height="120"
                        loading="lazy" decoding="async";
                }
            }
        }
        None => html! { p class="photo-missing" { (STILL_ON_THE_PHONE) } },
    }
}

/// Who took it, when, and looking where.
pub(crate) fn told(visit: &Visit, photo: &Photo) -> String {
    let mut told = format!("Photo by {}", photo.by);
    if let Some(at) = photo.taken {
        told.push_str(", ");
        told.push_str(&say::short(at, visit.picture.zone()));
    }
    if let Some(facing) = photo.facing {
        told.push_str(", looking ");
        told.push_str(wind(facing));
    }
    told
}

/// The wind that a direction is nearest to.
fn wind(facing: Facing) -> &'static str {
    let eighth = (facing.degrees() / 45.0).round() as usize % WINDS.len();
    WINDS[eighth]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_direction_is_told_as_the_nearest_wind() {
        let told = [
            (0.0, "north"),
            (22.4, "north"),
            (22.6, "north-east"),
            (180.0, "south"),
            (271.5, "west"),
            (359.9, "north"),
        ];
        for (degrees, name) in told {
            assert_eq!(wind(Facing::from_degrees(degrees).unwrap()), name);
        }
    }
}
