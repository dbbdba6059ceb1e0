//! Blocks of a graph and the way from block to block.
//!
//! Source: depth-first search with low points (Hopcroft and Tarjan, 1973 \[published\]), here with a
//! stack of its own, so that long chains cannot overflow the program's.

use super::graph::Graph;

/// A graph taken apart into blocks. Every point but the first of its component lies below exactly
/// one block, whose **top** is the point that leads back toward the first.
#[derive(Clone, Debug)]
pub(crate) struct Blocks {
    /// Edges of each block.
    pub(crate) edges: Vec<Vec<usize>>,
    /// Top of each block.
    pub(crate) top: Vec<usize>,
    /// The block that a point lies below; none for the first of a component.
    above: Vec<Option<usize>>,
    /// Blocks between a point and the first of its component.
    depth: Vec<usize>,
    /// First point of the component.
    pub(crate) first: Vec<usize>,
}

/// A piece of a route: through one block from point to point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Leg {
    pub(crate) block: usize,
    pub(crate) from: usize,
    pub(crate) to: usize,
}

impl Blocks {
    pub(crate) fn new(graph: &Graph) -> Self {
        let mut search = Search::new(graph);
        for point in 0..graph.points() {
            if search.found[point] == 0 {
                search.explore(point);
            }
        }
        search.finish()
    }

    /// The legs from one point to another, in order; none where they are not joined.
    pub(crate) fn route(&self, from: usize, to: usize) -> Option<Vec<Leg>> {
        if self.first[from] != self.first[to] {
            return None;
        }
        let (mut ahead, mut behind) = (Vec::new(), Vec::new());
        let (mut a, mut b) = (from, to);
        while a != b {
            match (self.above[a], self.above[b]) {
                (Some(block), Some(same)) if block == same => {
                    ahead.push(Leg {
                        block,
                        from: a,
                        to: b,
                    });
                    break;
                }
                (Some(block), _) if self.depth[a] >= self.depth[b] => {
                    let top = self.top[block];
                    ahead.push(Leg {
                        block,
                        from: a,
                        to: top,
                    });
                    a = top;
                }
                (_, Some(block)) => {
                    let top = self.top[block];
                    behind.push(Leg {
                        block,
                        from: top,
                        to: b,
                    });
                    b = top;
                }
                _ => return None,
            }
        }
        ahead.extend(behind.into_iter().rev());
        Some(ahead)
    }
}

struct Search<'a> {
    graph: &'a Graph,
    /// When a point was found, from 1; 0 for not yet.
    found: Vec<usize>,
    /// The earliest found point that the part below reaches.
    low: Vec<usize>,
    order: Vec<usize>,
    open: Vec<usize>,
    edges: Vec<Vec<usize>>,
    top: Vec<usize>,
    above: Vec<Option<usize>>,
    first: Vec<usize>,
}

/// A point on the way down, the edge it was reached by, and how many of its edges were tried.
struct Step {
    point: usize,
    by: Option<usize>,
    tried: usize,
}

impl<'a> Search<'a> {
    fn new(graph: &'a Graph) -> Self {
        let points = graph.points();
        Self {
            graph,
            found: vec![0; points],
            low: vec![0; points],
            order: Vec::with_capacity(points),
            open: Vec::new(),
            edges: Vec::new(),
            top: Vec::new(),
            above: vec![None; points],
            first: vec![0; points],
        }
    }

    fn explore(&mut self, first: usize) {
        let mut way = vec![self.enter(first, None, first)];
        while let Some(step) = way.last_mut() {
            let point = step.point;
            if let Some(&edge) = self.graph.at(point).get(step.tried) {
                step.tried += 1;
                if step.by == Some(edge) {
                    continue;
                }
                let other = self.graph.across(edge, point);
                if self.found[other] == 0 {
                    self.open.push(edge);
                    let next = self.enter(other, Some(edge), first);
                    way.push(next);
                } else if self.found[other] < self.found[point] {
                    self.open.push(edge);
                    self.low[point] = self.low[point].min(self.found[other]);
                }
            } else {
                let by = step.by;
                way.pop();
                if let (Some(edge), Some(parent)) = (by, way.last()) {
                    let parent = parent.point;
                    self.low[parent] = self.low[parent].min(self.low[point]);
                    if self.low[point] >= self.found[parent] {
                        self.close(edge, parent);
                    }
                }
            }
        }
    }

    fn enter(&mut self, point: usize, by: Option<usize>, first: usize) -> Step {
        self.order.push(point);
        self.found[point] = self.order.len();
        self.low[point] = self.order.len();
        self.first[point] = first;
        Step {
            point,
            by,
            tried: 0,
        }
    }

    /// Everything found since an edge is one block below a point.
    fn close(&mut self, edge: usize, top: usize) {
        let block = self.edges.len();
        let start = self.open.iter().rposition(|open| *open == edge);
        let edges = self.open.split_off(start.unwrap_or(0));
        for edge in &edges {
            let edge = &self.graph.edges[*edge];
            for end in [edge.from, edge.to] {
                if end != top {
                    self.above[end] = Some(block);
                }
            }
        }
        self.edges.push(edges);
        self.top.push(top);
    }

    fn finish(self) -> Blocks {
        let mut depth = vec![0; self.found.len()];
        for point in &self.order {
            if let Some(block) = self.above[*point] {
                depth[*point] = depth[self.top[block]] + 1;
            }
        }
        Blocks {
            edges: self.edges,
            top: self.top,
            above: self.above,
            depth,
            first: self.first,
        }
    }
}
