//! The weeks ahead.

use maud::{Markup, html};

use crate::visit::Visit;

/// The page.
pub(crate) fn weeks(visit: &Visit) -> Markup {
    html! { header class="opening" { h1 { (visit.words().forecast()) } } }
}
