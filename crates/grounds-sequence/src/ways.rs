//! The ways through the house: places and passages as nodes.

use std::collections::BTreeMap;

use grounds_model::{Id, Job, OUTSIDE};
use grounds_schedule::{Access, NodeId};

/// The access graph, with the node of every place and passage.
#[derive(Clone, Debug, Default)]
pub(crate) struct Ways {
    pub(crate) access: Access,
    nodes: BTreeMap<Id, NodeId>,
    names: Vec<Id>,
}

impl Ways {
    pub(crate) fn of(job: &Job) -> Self {
        let mut ways = Self::default();
        for (id, place) in &job.places {
            let node = ways.add(id);
            if place.entrance {
                ways.access.entrances.push(node);
            }
        }
        for (id, passage) in &job.passages {
            let node = ways.add(id);
            for end in &passage.between {
                if end.as_str() == OUTSIDE {
                    ways.access.entrances.push(node);
                } else if let Some(place) = ways.node(end) {
                    ways.access.join(node, place);
                }
            }
        }
        ways.forget_without_entrance();
        ways
    }

    /// A job that names no way in has no access constraint, so its places need no ways either.
    fn forget_without_entrance(&mut self) {
        if self.access.entrances.is_empty() {
            for neighbours in &mut self.access.neighbours {
                neighbours.clear();
            }
        }
    }

    fn add(&mut self, id: &Id) -> NodeId {
        let node = self.access.add();
        self.nodes.insert(id.clone(), node);
        self.names.push(id.clone());
        node
    }

    pub(crate) fn node(&self, id: &Id) -> Option<NodeId> {
        self.nodes.get(id).copied()
    }

    /// The place or passage of a node.
    pub(crate) fn name(&self, node: NodeId) -> Option<&Id> {
        self.names.get(node.index())
    }

    /// Places that nobody can reach while `shut` is closed, `shut` itself among them.
    pub(crate) fn cut_off_by(&self, shut: NodeId) -> Vec<NodeId> {
        if self.access.entrances.is_empty() {
            return vec![shut];
        }
        let mut reached = vec![false; self.access.neighbours.len()];
        let mut open: Vec<NodeId> = Vec::new();
        for &entrance in &self.access.entrances {
            if entrance != shut && !reached[entrance.index()] {
                reached[entrance.index()] = true;
                open.push(entrance);
            }
        }
        while let Some(node) = open.pop() {
            for &next in &self.access.neighbours[node.index()] {
                if next != shut && !reached[next.index()] {
                    reached[next.index()] = true;
                    open.push(next);
                }
            }
        }
        (0..reached.len())
            .filter(|&i| !reached[i])
            .map(NodeId::from)
            .collect()
    }

    /// How many nodes lie between a place and the nearest entrance; unreachable places are far.
    pub(crate) fn depths(&self) -> Vec<u32> {
        let mut depth = vec![u32::MAX; self.access.neighbours.len()];
        let mut queue: std::collections::VecDeque<NodeId> =
            self.access.entrances.iter().copied().collect();
        for &entrance in &self.access.entrances {
            depth[entrance.index()] = 0;
        }
        while let Some(node) = queue.pop_front() {
            for &next in &self.access.neighbours[node.index()] {
                if depth[next.index()] == u32::MAX {
                    depth[next.index()] = depth[node.index()] + 1;
                    queue.push_back(next);
                }
            }
        }
        depth
    }
}
