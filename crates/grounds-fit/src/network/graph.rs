//! Links as edges, with their figures worked out once.

use crate::net::{Interval, LinkId, Net, Shape};

/// One link, ready for arithmetic.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Edge {
    pub(crate) link: LinkId,
    pub(crate) from: usize,
    pub(crate) to: usize,
    pub(crate) nominal: f64,
    pub(crate) mean: f64,
    pub(crate) variance: f64,
    pub(crate) limits: Interval,
    pub(crate) shape: Shape,
}

/// Points and edges; the edges at each point lie together.
#[derive(Clone, Debug)]
pub(crate) struct Graph {
    pub(crate) edges: Vec<Edge>,
    starts: Vec<usize>,
    around: Vec<usize>,
}

impl Graph {
    /// The graph of some links of a sound net.
    pub(crate) fn new(net: &Net, links: &[LinkId]) -> Self {
        let edges: Vec<Edge> = links.iter().map(|id| edge(net, *id)).collect();
        let mut starts = vec![0; net.points + 1];
        for edge in &edges {
            starts[edge.from + 1] += 1;
            starts[edge.to + 1] += 1;
        }
        for point in 0..net.points {
            starts[point + 1] += starts[point];
        }
        let mut next = starts.clone();
        let mut around = vec![0; 2 * edges.len()];
        for (index, edge) in edges.iter().enumerate() {
            for end in [edge.from, edge.to] {
                around[next[end]] = index;
                next[end] += 1;
            }
        }
        Self {
            edges,
            starts,
            around,
        }
    }

    pub(crate) fn points(&self) -> usize {
        self.starts.len() - 1
    }

    /// The edges at a point.
    pub(crate) fn at(&self, point: usize) -> &[usize] {
        &self.around[self.starts[point]..self.starts[point + 1]]
    }

    /// The other end of an edge.
    pub(crate) fn across(&self, edge: usize, point: usize) -> usize {
        let edge = &self.edges[edge];
        edge.from + edge.to - point
    }
}

fn edge(net: &Net, id: LinkId) -> Edge {
    let link = &net.links[id.index()];
    Edge {
        link: id,
        from: link.from.index(),
        to: link.to.index(),
        nominal: link.kind.nominal(),
        mean: link.kind.mean(),
        variance: link.kind.variance(),
        limits: link.kind.limits(),
        shape: link.kind.shape(),
    }
}
