//! The house by level.

use maud::{Markup, html};

use crate::visit::Visit;

/// The page.
pub(crate) fn house(visit: &Visit) -> Markup {
    html! { header class="opening" { h1 { (visit.picture.job.job.name) } } }
}
