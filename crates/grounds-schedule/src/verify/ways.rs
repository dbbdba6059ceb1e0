//! Who can walk where: a plain walk through the house for every set of shut nodes.

use std::collections::BTreeMap;

use crate::problem::{Access, ActivityId, GroupId, NodeId, Problem, Tick, Tread};

/// A closure as it falls in a plan: `node` is shut in `[from, until)`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Shut {
    pub(super) node: NodeId,
    pub(super) from: Tick,
    pub(super) until: Tick,
    pub(super) bars: Tread,
    pub(super) by: ActivityId,
    pub(super) group: Option<GroupId>,
}

impl Shut {
    /// Whether it bars the crew of an activity at all.
    pub(super) fn bars(&self, problem: &Problem, who: ActivityId) -> bool {
        let activity = &problem.activities[who.index()];
        let own = self.by == who || (self.group.is_some() && self.group == activity.group);
        !own && self.bars <= activity.tread
    }
}

/// The ways through a house, remembered for each set of shut nodes.
pub(super) struct Ways<'a> {
    access: &'a Access,
    reached: BTreeMap<Vec<NodeId>, Vec<bool>>,
}

impl<'a> Ways<'a> {
    pub(super) fn new(access: &'a Access) -> Self {
        Self {
            access,
            reached: BTreeMap::new(),
        }
    }

    /// Whether somebody can stand at `node` having walked in from an entrance, past the `shut` nodes.
    pub(super) fn lead_to(&mut self, node: NodeId, shut: &[NodeId]) -> bool {
        if !self.reached.contains_key(shut) {
            let reached = walk(self.access, self.access.entrances.iter().copied(), shut);
            self.reached.insert(shut.to_vec(), reached);
        }
        let reached = self.reached.get(shut);
        reached
            .and_then(|r| r.get(node.index()))
            .copied()
            .unwrap_or(false)
    }

    /// The shut nodes that keep `node` from being reached: itself, or the edge of its pocket.
    pub(super) fn barriers(&self, node: NodeId, shut: &[NodeId]) -> Vec<NodeId> {
        if shut.contains(&node) {
            return vec![node];
        }
        let pocket = walk(self.access, std::iter::once(node), shut);
        let in_pocket = |m: &NodeId| pocket.get(m.index()).copied().unwrap_or(false);
        let touches = |n: &NodeId| {
            self.access
                .neighbours
                .get(n.index())
                .is_some_and(|near| near.iter().any(in_pocket))
        };
        shut.iter().copied().filter(touches).collect()
    }
}

/// All nodes that can be walked to from the open ones of `from`.
fn walk(access: &Access, from: impl Iterator<Item = NodeId>, shut: &[NodeId]) -> Vec<bool> {
    let mut reached = vec![false; access.neighbours.len()];
    let mut next: Vec<NodeId> = from.collect();
    while let Some(node) = next.pop() {
        match reached.get_mut(node.index()) {
            Some(seen) if !*seen && !shut.contains(&node) => *seen = true,
            _ => continue,
        }
        next.extend(&access.neighbours[node.index()]);
    }
    reached
}
