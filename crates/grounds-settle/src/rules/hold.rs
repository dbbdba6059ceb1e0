//! What rules that are not kept hold up.

use grounds_model::{Ref, Work};
use grounds_rules::{Family, Verdict, house::Applied};
use grounds_sequence::{HeldUp, Holds};
use grounds_site::{Site, Subject, words::capital};

use super::{rule_about, rule_goes_on, rule_key};

/// What rules that are not kept hold up: the order and the setting of a piece, the layer that would
/// cover what is wrong. What is begun is too late to hold, what somebody let go on is not held.
///
/// Coats are left out: that they wait for their air and for what is under them to dry is in the plan
/// already.
pub(crate) fn held_by_rules(site: &Site, applied: &[Applied]) -> Vec<HeldUp> {
    applied
        .iter()
        .filter(|applied| applied.answer.verdict == Verdict::Fails)
        .filter(|applied| applied.rule.family != Family::Coats)
        .filter(|applied| rule_goes_on(site, applied).is_none())
        .map(|applied| of_rule(site, applied))
        .filter(|held| !held.holds.is_empty())
        .collect()
}

fn of_rule(site: &Site, applied: &Applied) -> HeldUp {
    let said = applied.answer.said.trim_end_matches('.');
    let holds = applied.holds.iter();
    HeldUp {
        key: rule_key(applied),
        about: rule_about(applied),
        matter: format!("{}: {said}", capital(&applied.called)),
        said: applied.rule.way_out.to_owned(),
        holds: holds.flat_map(|work| holds_back(site, work)).collect(),
    }
}

/// What is kept back of a piece of work: nothing once it has begun.
pub(super) fn holds_back(site: &Site, work: &Work) -> Vec<Holds> {
    let to_come = |subject: Subject| {
        let state = site.state(&subject);
        state.started.is_none() && state.done.is_none()
    };
    match work {
        Work::Piece(id) if to_come(Subject::Piece(id.clone())) => {
            vec![Holds::Order(id.clone()), Holds::Work(Ref(id.0.clone()))]
        }
        Work::Layer(key) if to_come(Subject::Layer(key.clone())) => {
            vec![Holds::Work(Ref(key.to_string()))]
        }
        Work::Hold(id) if to_come(Subject::Hold(id.clone())) => {
            vec![Holds::Work(Ref(id.0.clone()))]
        }
        _ => Vec::new(),
    }
}
