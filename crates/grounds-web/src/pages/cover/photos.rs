//! Photos of one thing as a strip: small, each leading to the whole.

use grounds_cover::Said;
use maud::{Markup, html};

use crate::visit::Visit;

/// Photos of one thing that are shown.
const SHOWN: usize = 12;

/// The photos of a thing; nothing where there are none.
pub(super) fn strip(visit: &Visit, photos: &[(String, Said)]) -> Markup {
    html! {
        @if !photos.is_empty() {
            ul class="photos" {
                @for (key, _) in photos.iter().take(SHOWN) { li { (crate::pages::photos::one(visit, key)) } }
                @if photos.len() > SHOWN { li { "and " (photos.len() - SHOWN) " more" } }
            }
        }
    }
}
