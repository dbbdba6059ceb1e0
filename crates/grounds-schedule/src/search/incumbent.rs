//! The plan that a search stands on, with what is needed to see what holds it up.

use super::compiled::Compiled;
use super::improve::Worth;
use crate::chance::Chance;
use crate::problem::{ActivityId, Tick};

/// The plan that a search stands on.
#[derive(Clone, Debug)]
pub(crate) struct Incumbent {
    pub(crate) worth: Worth,
    pub(crate) starts: Vec<Tick>,
    pub(crate) finishes: Vec<Tick>,
    /// Earliest starts by what is placed before.
    pub(crate) low: Vec<Tick>,
    pub(crate) order: Vec<ActivityId>,
}

impl Incumbent {
    /// Something that ends last, or later than is due.
    pub(crate) fn driver(
        &self,
        c: &Compiled,
        open: &[usize],
        chance: &mut Chance,
    ) -> Option<usize> {
        let dues = &c.problem.dues;
        if !dues.is_empty() && chance.happens(50) {
            let due = &dues[chance.below(dues.len())];
            let i = due.activity.index();
            if c.open[i] && self.finishes[i] > due.at {
                return Some(i);
            }
        }
        open.iter().copied().max_by_key(|&i| (self.finishes[i], i))
    }

    /// What an activity waits for most: what lets it start latest, or, where a crew or a room holds it
    /// up, now and then who had that just before. `users` has the open users of each resource.
    pub(crate) fn waits_for(
        &self,
        c: &Compiled,
        users: &[Vec<usize>],
        i: usize,
        chance: &mut Chance,
    ) -> Option<usize> {
        let held = self.starts[i] > c.work[i].first_start(self.low[i]);
        if held && chance.happens(60) {
            let uses = c.problem.activities[i].uses.iter();
            let sharing = uses
                .flat_map(|wanted| &users[wanted.resource.index()])
                .copied();
            let before = sharing.filter(|&j| j != i && self.finishes[j] <= self.starts[i]);
            if let Some(j) = before.max_by_key(|&j| (self.finishes[j], j)) {
                return Some(j);
            }
        }
        let arcs = c.into.of(i).map(|arc| &c.arcs[arc]);
        arcs.filter(|arc| !arc.longest)
            .map(|arc| {
                let source = (self.starts[arc.from], self.finishes[arc.from]);
                (arc.lower(c.work[i], source.0, source.1), arc.from)
            })
            .max()
            .map(|(_, from)| from)
    }
}
