//! Which nodes matter for getting to which, worked out once; and who can walk where, remembered
//! for every set of shut nodes that comes up.

use std::collections::HashMap;

use crate::problem::{NodeId, Problem};

/// The nodes that matter for the way to one node, among those that anything ever shuts.
#[derive(Clone, Debug, Default)]
pub(crate) struct Way {
    /// Every way passes these.
    pub(crate) must: Vec<NodeId>,
    /// Some way passes these.
    pub(crate) may: Vec<NodeId>,
}

/// The ways through a house.
#[derive(Clone, Debug, Default)]
pub(crate) struct Ways {
    /// For each node, what matters for getting there. Empty where nothing does.
    pub(crate) to: Vec<Way>,
    /// For each node that is ever shut, the nodes whose way it matters for.
    pub(crate) served: Vec<Vec<NodeId>>,
    neighbours: Vec<Vec<NodeId>>,
    entrances: Vec<NodeId>,
    words: usize,
    known: HashMap<Box<[u64]>, Box<[u64]>>,
    queue: Vec<NodeId>,
}

fn has(set: &[u64], node: usize) -> bool {
    set.get(node / 64)
        .is_some_and(|word| word >> (node % 64) & 1 == 1)
}

/// Adds a node to a set.
pub(crate) fn insert(set: &mut [u64], node: NodeId) {
    if let Some(word) = set.get_mut(node.index() / 64) {
        *word |= 1 << (node.index() % 64);
    }
}

impl Ways {
    pub(crate) fn new(problem: &Problem) -> Self {
        let access = &problem.access;
        let count = access.neighbours.len();
        let mut ways = Self {
            to: vec![Way::default(); count],
            served: vec![Vec::new(); count],
            neighbours: access.neighbours.clone(),
            entrances: access.entrances.clone(),
            words: count.div_ceil(64),
            ..Self::default()
        };
        if access.entrances.is_empty() {
            return ways;
        }
        let mut shut = vec![false; count];
        let mut wanted = vec![false; count];
        for activity in &problem.activities {
            for closure in &activity.closes {
                shut[closure.node.index()] = true;
            }
            if let Some(at) = activity.at {
                wanted[at.index()] = true;
            }
        }
        ways.relate(&shut, &wanted);
        ways
    }

    /// Fills `to` and `served`.
    fn relate(&mut self, shut: &[bool], wanted: &[bool]) {
        let count = shut.len();
        let passed = passed_on_the_way(&self.neighbours, &self.entrances);
        let none = vec![0; self.words];
        for node in (0..count).map(NodeId::from).filter(|n| wanted[n.index()]) {
            if !self.lead_to(node, &none) {
                continue;
            }
            for &other in &passed[node.index()] {
                if !shut[other.index()] {
                    continue;
                }
                self.to[node.index()].may.push(other);
                self.served[other.index()].push(node);
                let mut alone = vec![0; self.words];
                insert(&mut alone, other);
                if !self.lead_to(node, &alone) {
                    self.to[node.index()].must.push(other);
                }
            }
        }
    }

    /// Words in a set of nodes.
    pub(crate) fn words(&self) -> usize {
        self.words
    }

    /// Whether somebody can stand at `node` having walked in past the `shut` nodes.
    pub(crate) fn lead_to(&mut self, node: NodeId, shut: &[u64]) -> bool {
        if let Some(reached) = self.known.get(shut) {
            return has(reached, node.index());
        }
        let reached = self.walk(shut);
        let leads = has(&reached, node.index());
        self.known.insert(shut.into(), reached);
        leads
    }

    fn walk(&mut self, shut: &[u64]) -> Box<[u64]> {
        let mut reached = vec![0; self.words];
        self.queue.clear();
        self.queue.extend(&self.entrances);
        while let Some(node) = self.queue.pop() {
            if has(shut, node.index()) || has(&reached, node.index()) {
                continue;
            }
            insert(&mut reached, node);
            self.queue.extend(&self.neighbours[node.index()]);
        }
        reached.into()
    }
}

/// For each node, the nodes that lie on some way to it from an entrance that never passes a node
/// twice: the members of the biconnected parts between the outside and the node (Tarjan 1972).
fn passed_on_the_way(neighbours: &[Vec<NodeId>], entrances: &[NodeId]) -> Vec<Vec<NodeId>> {
    let parts = Parts::find(neighbours, entrances);
    let count = neighbours.len();
    let mut passed: Vec<Vec<NodeId>> = vec![Vec::new(); count];
    for &node in &parts.in_order {
        let mut all = vec![NodeId::from(node)];
        let mut top = node;
        while let Some(part) = parts.above.get(top).copied().flatten() {
            let (highest, members) = &parts.parts[part];
            all.extend(
                members
                    .iter()
                    .filter(|&&m| m < count)
                    .map(|&m| NodeId::from(m)),
            );
            top = *highest;
            if top < count {
                all.push(NodeId::from(top));
            }
        }
        all.sort_unstable();
        all.dedup();
        passed[node] = all;
    }
    passed
}

/// Biconnected parts of a house seen from outside; the outside is the node after the last.
#[derive(Default)]
struct Parts {
    /// Each part's highest node and its other members.
    parts: Vec<(usize, Vec<usize>)>,
    /// For each node, the part that joins it to the outside.
    above: Vec<Option<usize>>,
    /// Nodes in the order in which they were found.
    in_order: Vec<usize>,
}

impl Parts {
    fn find(neighbours: &[Vec<NodeId>], entrances: &[NodeId]) -> Self {
        let outside = neighbours.len();
        let near = |n: usize, i: usize| -> Option<usize> {
            if n == outside {
                return entrances.get(i).map(|e| e.index());
            }
            match neighbours[n].get(i) {
                Some(other) => Some(other.index()),
                None if i == neighbours[n].len() && entrances.contains(&NodeId::from(n)) => {
                    Some(outside)
                }
                None => None,
            }
        };
        let mut found = Self {
            above: vec![None; outside + 1],
            ..Self::default()
        };
        let mut number = vec![0usize; outside + 1];
        let mut low = vec![0usize; outside + 1];
        let mut next = 1;
        number[outside] = next;
        low[outside] = next;
        let mut path = vec![(outside, 0usize)];
        let mut pending = Vec::new();
        while let Some(last) = path.last_mut() {
            let (node, i) = *last;
            last.1 += 1;
            match near(node, i) {
                Some(other) if number[other] == 0 => {
                    next += 1;
                    number[other] = next;
                    low[other] = next;
                    found.in_order.push(other);
                    pending.push(other);
                    path.push((other, 0));
                }
                Some(other) => low[node] = low[node].min(number[other]),
                None => {
                    path.pop();
                    let Some(&(parent, _)) = path.last() else {
                        break;
                    };
                    low[parent] = low[parent].min(low[node]);
                    if low[node] >= number[parent] {
                        found.close_part(parent, node, &mut pending);
                    }
                }
            }
        }
        found
    }

    fn close_part(&mut self, top: usize, node: usize, pending: &mut Vec<usize>) {
        let mut members = Vec::new();
        while let Some(member) = pending.pop() {
            self.above[member] = Some(self.parts.len());
            members.push(member);
            if member == node {
                break;
            }
        }
        self.parts.push((top, members));
    }
}
