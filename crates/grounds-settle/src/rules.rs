//! Rules of the trade and of the code that a house does not keep: what each is about, who let it go
//! on as it is.

use grounds_lines::holdups::let_go;
use grounds_model::{Ref, Target, Work};
use grounds_rules::house::Applied;
use grounds_site::{Seen, Site, Subject};

/// What a rule is applied to, as notes and documents write it: `kitchen-hood`, `bathroom.floor`.
#[must_use]
pub fn rule_about(applied: &Applied) -> Ref {
    Ref(match &applied.about {
        Target::Face { place, face } => format!("{place}.{face}"),
        about => Subject::of(about.clone()).map_or_else(String::new, |subject| subject.to_string()),
    })
}

/// The key of a rule in a house, the same from day to day: `make-up-air/kitchen-hood`.
#[must_use]
pub fn rule_key(applied: &Applied) -> String {
    format!("{}/{}", applied.rule.name, rule_about(applied))
}

/// Who decided that what a rule is applied to goes on as it is; none if nobody did, or if something
/// was measured there since. For a face, the decision is about the layer that is held.
#[must_use]
pub fn rule_goes_on(site: &Site, applied: &Applied) -> Option<Seen> {
    let held = applied.holds.iter().filter_map(|work| match work {
        Work::Layer(key) => Some(Subject::Layer(key.clone())),
        _ => None,
    });
    let about = Subject::of(applied.about.clone());
    let mut subjects = about.into_iter().chain(held);
    subjects.find_map(|subject| let_go(site, &subject))
}
