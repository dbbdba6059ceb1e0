//! Photos as a strip: small, each leading to the large one.

use grounds_cover::{CoverWords, Said};
use maud::{Markup, html};

use crate::visit::{Visit, encode};

/// Photos of one thing that are shown.
const SHOWN: usize = 12;

/// The photos of a thing; nothing where there are none.
pub(super) fn strip(
    visit: &Visit,
    words: &CoverWords<'_>,
    name: &str,
    photos: &[(String, Said)],
) -> Markup {
    html! {
        @if !photos.is_empty() {
            ul class="photos" {
                @for (key, said) in photos.iter().take(SHOWN) {
                    @let at = visit.to(&format!("photos/{}", encode(key, ".")));
                    li {
                        a href=(at) {
                            img src={ (at) "/small" } loading="lazy" width="160" height="120"
                                alt={ "Photo of " (name) ", " (words.on_by(said)) ". Where it does not show, it is still on the phone that took it." };
                        }
                    }
                }
                @if photos.len() > SHOWN { li { "and " (photos.len() - SHOWN) " more" } }
            }
        }
    }
}
