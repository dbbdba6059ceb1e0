//! Activities that bound each other in a circle: the strongly connected parts of the arcs.

use super::arcs::{Arc, Lists};

/// The parts, each before those that depend on it (Tarjan 1972).
#[derive(Clone, Debug, Default)]
pub(crate) struct Blocks {
    /// Members of each block.
    pub(crate) members: Vec<Vec<usize>>,
    /// The block of each activity; `usize::MAX` for facts.
    pub(crate) of: Vec<usize>,
    /// For each block, the arcs that come into it from other blocks.
    pub(crate) needs: Vec<u32>,
}

impl Blocks {
    pub(crate) fn find(open: &[bool], arcs: &[Arc], out: &Lists) -> Self {
        let mut blocks = Self {
            of: vec![usize::MAX; open.len()],
            ..Self::default()
        };
        let mut walk = Walk {
            number: vec![0; open.len()],
            low: vec![0; open.len()],
            next: 0,
        };
        for (root, _) in open.iter().enumerate().filter(|(_, open)| **open) {
            if walk.number[root] == 0 {
                walk.from(root, arcs, out, &mut blocks);
            }
        }
        blocks.members.reverse();
        for (number, members) in blocks.members.iter_mut().enumerate() {
            members.sort_unstable();
            for &member in members.iter() {
                blocks.of[member] = number;
            }
        }
        blocks.needs = vec![0; blocks.members.len()];
        for arc in arcs {
            let (from, to) = (blocks.of[arc.from], blocks.of[arc.to]);
            if from != to {
                blocks.needs[to] += 1;
            }
        }
        blocks
    }
}

struct Walk {
    number: Vec<usize>,
    low: Vec<usize>,
    next: usize,
}

impl Walk {
    fn enter(&mut self, node: usize) {
        self.next += 1;
        self.number[node] = self.next;
        self.low[node] = self.next;
    }

    fn from(&mut self, root: usize, arcs: &[Arc], out: &Lists, blocks: &mut Blocks) {
        let mut path = vec![(root, out.of(root))];
        let mut pending = vec![root];
        self.enter(root);
        while let Some((node, arcs_left)) = path.last_mut() {
            let node = *node;
            match arcs_left.next().map(|i| arcs[i].to) {
                Some(other) if self.number[other] == 0 => {
                    self.enter(other);
                    pending.push(other);
                    path.push((other, out.of(other)));
                }
                Some(other) => {
                    if blocks.of[other] == usize::MAX {
                        self.low[node] = self.low[node].min(self.number[other]);
                    }
                }
                None => {
                    path.pop();
                    if let Some((parent, _)) = path.last() {
                        self.low[*parent] = self.low[*parent].min(self.low[node]);
                    }
                    if self.low[node] == self.number[node] {
                        close(node, &mut pending, blocks);
                    }
                }
            }
        }
    }
}

fn close(node: usize, pending: &mut Vec<usize>, blocks: &mut Blocks) {
    let mut members = Vec::new();
    while let Some(member) = pending.pop() {
        blocks.of[member] = blocks.members.len();
        members.push(member);
        if member == node {
            break;
        }
    }
    blocks.members.push(members);
}
