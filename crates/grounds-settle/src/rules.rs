//! Rules of the trade and of the code that a house does not keep: what each is about, who let it go
//! on as it is.

use grounds_model::{Ref, Target, Work};
use grounds_rules::house::Applied;
use grounds_site::{Kind, Seen, Site, Subject};

/// What a rule is applied to, as notes and documents write it: `kitchen-hood`, `bathroom.floor`.
#[must_use]
pub fn rule_about(applied: &Applied) -> Ref {
    Ref(match &applied.about {
        Target::Face { place, face } => format!("{place}.{face}"),
        about => subject(about).map_or_else(String::new, |subject| subject.to_string()),
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
    let subjects = subject(&applied.about).into_iter().chain(held);
    subjects
        .filter_map(|subject| {
            let state = site.state(&subject);
            let decided = state.accepted?;
            let measured_since =
                state
                    .notes
                    .iter()
                    .filter_map(|id| site.notes.get(id))
                    .any(|note| {
                        note.kind == Kind::Measured
                            && (note.at, note.id) > (decided.at, decided.note)
                    });
            (!measured_since).then_some(decided)
        })
        .next()
}

/// What is noted about a target; nothing for a whole face, which is noted by its layers.
fn subject(target: &Target) -> Option<Subject> {
    Some(match target {
        Target::Face { .. } => return None,
        Target::Layer(key) => Subject::Layer(key.clone()),
        Target::Place(id) => Subject::Place(id.clone()),
        Target::Passage(id) => Subject::Passage(id.clone()),
        Target::Piece(id) => Subject::Piece(id.clone()),
        Target::Opening(id) => Subject::Opening(id.clone()),
        Target::Hold(id) => Subject::Hold(id.clone()),
        Target::Decision(id) => Subject::Decision(id.clone()),
        Target::Milestone(id) => Subject::Milestone(id.clone()),
        Target::Trade(id) => Subject::Trade(id.clone()),
        Target::Control(id) => Subject::Control(id.clone()),
        Target::Line(id) => Subject::Line(id.clone()),
        Target::Job => Subject::Job,
    })
}
