//! A circle told in words.

use super::{Event, Order, Reason};
use crate::{
    checks::{Notes, loops::Circle},
    document::{Aim, written},
    faults::Severity,
    view::Work,
};

impl Order<'_> {
    /// Notes a circle at the first key that somebody wrote.
    pub(super) fn report(&self, severity: Severity, circle: &Circle, notes: &mut Notes<'_, '_>) {
        let steps = self.told(circle);
        let paths: Vec<Vec<&str>> = circle
            .iter()
            .filter_map(|(_, reason)| match self.reasons.get(*reason) {
                Some(Reason::Written(path)) => Some(path.iter().map(String::as_str).collect()),
                _ => None,
            })
            .collect();
        let Some(first) = paths.first() else { return };
        let mut keys: Vec<String> = paths.iter().map(|path| written(path)).collect();
        keys.dedup();
        let what = format!(
            "this goes round in a circle: {}",
            steps.join(", which comes before ")
        );
        let mend = if keys.len() == 1 {
            format!(
                "take it out of {}, or name something further out or further in",
                keys.join(", ")
            )
        } else {
            format!("one of these must go: {}", keys.join(", "))
        };
        notes.add(severity, Aim::Value, first, what, mend);
    }

    /// The circle in words, from the first thing round to itself. Layers that only lie between two
    /// others of the same stack are left out.
    fn told(&self, circle: &Circle) -> Vec<String> {
        let stack_step = |reason: &usize| matches!(self.reasons.get(*reason), Some(Reason::Stack));
        let mut steps: Vec<String> = Vec::new();
        for (at, (node, reason)) in circle.iter().enumerate() {
            let came_by_stack = at > 1
                && circle.get(at - 1).is_some_and(|(_, before)| {
                    stack_step(before)
                        || at > 2
                            && circle
                                .get(at - 2)
                                .is_some_and(|(_, before)| stack_step(before))
                });
            let leaves_by_stack = stack_step(reason)
                || circle.get(at + 1).is_some_and(|(next, after)| {
                    self.events.get(*next) == self.events.get(*node) && stack_step(after)
                });
            let Some(name) = self.events.get(*node).and_then(Event::told) else {
                continue;
            };
            if came_by_stack && leaves_by_stack {
                continue;
            }
            if steps.last() != Some(&name) {
                steps.push(name);
            }
        }
        if let Some(first) = steps.first().cloned()
            && (steps.len() == 1 || steps.last() != Some(&first))
        {
            steps.push(first);
        }
        steps
    }
}

impl Event {
    /// What people call it; nothing for a mere gathering of parts that needs no telling.
    fn told(&self) -> Option<String> {
        Some(match self {
            Self::Work(Work::Layer(key)) => format!("the layer `{key}`"),
            Self::Work(Work::Piece(id)) => format!("setting `{id}`"),
            Self::Work(Work::Hold(id)) => format!("the hold `{id}`"),
            Self::Work(Work::Decision(id)) => format!("the decision `{id}`"),
            Self::Work(Work::Milestone(id)) => format!("the milestone `{id}`"),
            Self::Measure(id) => format!("measuring `{id}`"),
            Self::All(..) => return None,
        })
    }
}
