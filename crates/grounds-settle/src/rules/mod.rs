//! Rules of the trade and of the code in a house: what each is about, who let it go on as it is, what it
//! holds up while it is not kept, and by when.

mod bites;
mod hold;
mod lists;
mod told;

use grounds_lines::{answers::Answer, holdups::let_go};
use grounds_model::{Job, Ref, Target, Work};
use grounds_rules::house::{Applied, check};
use grounds_sequence::Outlook;
use grounds_site::{Seen, Site, Subject};

pub use bites::{Bites, rule_bites};
pub use lists::{Alike, InPlace, failing, unknown};

pub(crate) use hold::held_by_rules;
pub(crate) use told::rises;

/// What every rule says of a house: of the air that its layers are planned for, and with the rises of its
/// flights as they fit. `fits` are the answers of Fit.
#[must_use]
pub fn rules(job: &Job, site: &Site, outlook: &Outlook, fits: &[Answer]) -> Vec<Applied> {
    check(job, site, &told::told(job, outlook, fits))
}

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

/// What a decision about a rule is noted about: what the rule is applied to, for a face the layer that
/// it holds. None where nobody can decide about it.
#[must_use]
pub fn rule_decided_about(applied: &Applied) -> Option<Subject> {
    decided_about(applied).next()
}

/// Who decided that what a rule is applied to goes on as it is; none if nobody did, or if something
/// was measured there since. For a face, the decision is about the layer that is held.
#[must_use]
pub fn rule_goes_on(site: &Site, applied: &Applied) -> Option<Seen> {
    decided_about(applied).find_map(|subject| let_go(site, &subject))
}

fn decided_about(applied: &Applied) -> impl Iterator<Item = Subject> {
    let held = applied.holds.iter().filter_map(|work| match work {
        Work::Layer(key) => Some(Subject::Layer(key.clone())),
        _ => None,
    });
    // That a hold was passed or a decision was made is another thing than that a rule may rest.
    let about = Subject::of(applied.about.clone());
    let about = about.filter(|subject| {
        matches!(
            subject,
            Subject::Layer(_) | Subject::Place(_) | Subject::Piece(_) | Subject::Opening(_)
        )
    });
    about.into_iter().chain(held)
}
