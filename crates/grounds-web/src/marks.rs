//! Drawings of one piece of work.

use grounds_schedule::ActivityId;
use maud::{Markup, html};

use crate::picture::Picture;

/// The stack mark of a piece of work.
pub(crate) fn of_task(_picture: &Picture, _id: ActivityId) -> Markup {
    html! {}
}

/// The section through the face that a piece of work is on.
pub(crate) fn section(_picture: &Picture, _id: ActivityId) -> Markup {
    html! {}
}
