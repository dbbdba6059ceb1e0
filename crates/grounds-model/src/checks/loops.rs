//! Circles in a graph of what comes before what.

use std::collections::VecDeque;

/// One arrow of the graph: to which node, and for which reason.
#[derive(Clone, Copy, Debug)]
pub(super) struct Arrow {
    pub(super) to: usize,
    pub(super) reason: usize,
}

/// A graph of numbered nodes.
#[derive(Debug, Default)]
pub(super) struct Graph {
    arrows: Vec<Vec<Arrow>>,
    count: usize,
}

/// A circle: each step is a node and the reason of the arrow that leaves it for the next.
pub(crate) type Circle = Vec<(usize, usize)>;

impl Graph {
    /// A new node.
    pub(super) fn node(&mut self) -> usize {
        self.arrows.push(Vec::new());
        self.arrows.len() - 1
    }

    /// A new arrow between two nodes.
    pub(super) fn arrow(&mut self, from: usize, to: usize, reason: usize) {
        if let Some(arrows) = self.arrows.get_mut(from) {
            arrows.push(Arrow { to, reason });
            self.count += 1;
        }
    }

    /// How many arrows there are.
    pub(super) fn size(&self) -> usize {
        self.count
    }

    fn from(&self, node: usize) -> &[Arrow] {
        self.arrows.get(node).map_or(&[], Vec::as_slice)
    }

    /// One short circle for each knot of nodes that can all be reached from one another: the
    /// shortest through the arrow of the knot with the least reason.
    pub(super) fn circles(&self) -> Vec<Circle> {
        let knots = self.knots();
        let mut least: Vec<Option<(usize, usize, usize)>> = vec![None; self.arrows.len()];
        for (from, arrows) in self.arrows.iter().enumerate() {
            let knot = knots.get(from).copied().unwrap_or(from);
            for arrow in arrows {
                if knots.get(arrow.to) != Some(&knot) {
                    continue;
                }
                if let Some(slot) = least.get_mut(knot)
                    && slot.is_none_or(|(reason, _, _)| arrow.reason < reason)
                {
                    *slot = Some((arrow.reason, from, arrow.to));
                }
            }
        }
        least
            .into_iter()
            .flatten()
            .filter_map(|(reason, from, to)| self.circle(from, to, reason, &knots))
            .collect()
    }

    /// The shortest circle that begins with a given arrow.
    fn circle(&self, from: usize, to: usize, reason: usize, knots: &[usize]) -> Option<Circle> {
        let knot = knots.get(from);
        let mut came: Vec<Option<(usize, usize)>> = vec![None; self.arrows.len()];
        let mut queue = VecDeque::from([to]);
        while let Some(node) = queue.pop_front() {
            if node == from {
                break;
            }
            for arrow in self.from(node) {
                if knots.get(arrow.to) != knot || arrow.to == to {
                    continue;
                }
                if let Some(slot) = came.get_mut(arrow.to)
                    && slot.is_none()
                {
                    *slot = Some((node, arrow.reason));
                    queue.push_back(arrow.to);
                }
            }
        }
        let mut circle = Vec::new();
        let mut node = from;
        while node != to {
            let (before, reason) = (*came.get(node)?)?;
            circle.push((before, reason));
            node = before;
        }
        circle.push((from, reason));
        circle.reverse();
        Some(circle)
    }

    /// For each node, a number shared by exactly the nodes of its knot (Tarjan, 1972, without
    /// recursion).
    fn knots(&self) -> Vec<usize> {
        let size = self.arrows.len();
        let unseen = usize::MAX;
        let mut order = vec![unseen; size];
        let mut low = vec![0; size];
        let mut knots = vec![unseen; size];
        let mut open: Vec<usize> = Vec::new();
        let mut walk: Vec<(usize, usize)> = Vec::new();
        let mut next = 0;
        for root in 0..size {
            if order[root] != unseen {
                continue;
            }
            walk.push((root, 0));
            while let Some((node, arrow)) = walk.pop() {
                if arrow == 0 {
                    order[node] = next;
                    low[node] = next;
                    next += 1;
                    open.push(node);
                }
                match self.from(node).get(arrow) {
                    Some(Arrow { to, .. }) => {
                        walk.push((node, arrow + 1));
                        if order[*to] == unseen {
                            walk.push((*to, 0));
                        } else if knots[*to] == unseen {
                            low[node] = low[node].min(order[*to]);
                        }
                    }
                    None => {
                        if let Some((parent, _)) = walk.last() {
                            low[*parent] = low[*parent].min(low[node]);
                        }
                        if low[node] == order[node] {
                            while let Some(member) = open.pop() {
                                knots[member] = node;
                                if member == node {
                                    break;
                                }
                            }
                        }
                    }
                }
            }
        }
        knots
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn graph(nodes: usize, arrows: &[(usize, usize)]) -> Graph {
        let mut graph = Graph::default();
        (0..nodes).for_each(|_| _ = graph.node());
        for (reason, (from, to)) in arrows.iter().enumerate() {
            graph.arrow(*from, *to, reason);
        }
        graph
    }

    #[test]
    fn a_line_has_no_circle() {
        assert!(
            graph(4, &[(0, 1), (1, 2), (0, 2), (2, 3)])
                .circles()
                .is_empty()
        );
    }

    #[test]
    fn each_knot_gives_its_shortest_circle() {
        let circles = graph(6, &[(0, 1), (1, 2), (2, 0), (1, 0), (3, 4), (4, 5), (5, 3)]).circles();
        assert_eq!(
            circles,
            [vec![(0, 0), (1, 3)], vec![(3, 4), (4, 5), (5, 6)]]
        );
    }

    #[test]
    fn a_thing_before_itself_is_a_circle() {
        assert_eq!(graph(2, &[(0, 1), (1, 1)]).circles(), [vec![(1, 1)]]);
    }

    #[test]
    fn a_long_line_needs_no_deep_stack() {
        let arrows: Vec<(usize, usize)> = (0..200_000).map(|at| (at, at + 1)).collect();
        assert!(graph(200_001, &arrows).circles().is_empty());
    }
}
