//! A section on paper, true to scale.

use grounds_draw::{Medium, Scale, fit_section};
use maud::{Markup, PreEscaped, html};

use super::row;
use crate::visit::Visit;

/// The scale that an address asks for: 1:1 unless it says otherwise.
pub(crate) fn scale(asked: Option<&str>) -> Scale {
    let named = |scale: &&Scale| Some(scale.words()) == asked;
    Scale::ALL
        .iter()
        .find(named)
        .copied()
        .unwrap_or(Scale::Full)
}

/// The page with one section of a need as it will be printed.
pub(crate) fn paper(visit: &Visit, key: &str, at: Scale, index: usize) -> Option<Markup> {
    let (answer, facts) = visit.picture.fit.need(key)?;
    let section = facts.sections.get(index)?;
    let address = row::address(visit, key);
    Some(html! {
        header class="opening" {
            p class="place-line" { a href=(address) { (answer.name) } }
            h1 { "Section at " (at.words()) }
            p class="lead" { (answer.said) }
        }
        div class="tools" {
            nav class="pick" aria-label="Scale" {
                @for scale in Scale::ALL {
                    a href=(format!("{address}/paper?at={}&n={index}", scale.words()))
                        aria-current=[(scale == at).then_some("true")] { (scale.words()) }
                }
            }
            button type="button" class="can" data-print hidden { "Print it" }
        }
        div class="paper-sheet" tabindex="0" role="region" aria-label="The sheet" {
            (PreEscaped(fit_section(section, Medium::Paper(at))))
        }
        p class="soft" {
            "Print at full size, never fitted to the page, and hold a rule to the scale bar before "
            "anything is cut from it. What does not fit the sheet is drawn at the next smaller scale, and says so."
        }
    })
}
