//! Least squares over the blocks of a graph, each for itself.

use super::blocks::{Blocks, Leg};
use super::factor::{Factor, Sparse, Weighed};
use super::graph::{Edge, Graph};
use crate::net::{LinkId, Net};

/// In a loop no link is taken as truer than this, mm: the weights stay finite, and nothing in a
/// house is known to a thousandth of a millimetre.
const FINEST: f64 = 1e-3;

/// Everything that the links say together.
#[derive(Clone, Debug)]
pub(crate) struct Estimate {
    pub(crate) graph: Graph,
    pub(crate) blocks: Blocks,
    /// What is known of each block that closes loops; none for single links.
    pub(crate) loops: Vec<Option<Loop>>,
    /// Number of a point in the block it lies below.
    local: Vec<usize>,
}

/// A block of several links, solved.
#[derive(Clone, Debug)]
pub(crate) struct Loop {
    /// Points below the top.
    pub(crate) points: Vec<usize>,
    /// Its edges by their place in the graph, and as the matrix sees them.
    pub(crate) edges: Vec<usize>,
    pub(crate) weighed: Vec<Weighed>,
    pub(crate) factor: Factor,
    /// Position of each point from the top, from means and from nominals.
    pub(crate) mean: Vec<f64>,
    pub(crate) nominal: Vec<f64>,
}

/// What the links say of one distance.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Figures {
    pub(crate) nominal: f64,
    pub(crate) mean: f64,
    pub(crate) variance: f64,
}

/// How a distance hangs on one block, ready for covariances.
#[derive(Clone, Debug)]
pub(crate) enum Pull {
    /// Along a single link or against it.
    Single(f64),
    /// Through loops.
    Loop(Sparse),
}

impl Estimate {
    pub(crate) fn new(net: &Net, links: &[LinkId]) -> Self {
        let graph = Graph::new(net, links);
        let blocks = Blocks::new(&graph);
        let mut estimate = Self {
            local: vec![0; net.points],
            loops: Vec::with_capacity(blocks.edges.len()),
            graph,
            blocks,
        };
        for block in 0..estimate.blocks.edges.len() {
            let solved = (estimate.blocks.edges[block].len() > 1).then(|| estimate.solve(block));
            estimate.loops.push(solved);
        }
        estimate
    }

    fn solve(&mut self, block: usize) -> Loop {
        let edges = self.blocks.edges[block].clone();
        let top = self.blocks.top[block];
        let mut points: Vec<usize> = edges
            .iter()
            .flat_map(|edge| [self.graph.edges[*edge].from, self.graph.edges[*edge].to])
            .filter(|point| *point != top)
            .collect();
        points.sort_unstable();
        points.dedup();
        for (number, point) in points.iter().enumerate() {
            self.local[*point] = number;
        }
        let weighed: Vec<Weighed> = edges
            .iter()
            .map(|edge| self.weigh(&self.graph.edges[*edge], top))
            .collect();
        Loop::new(&self.graph, points, edges, weighed)
    }

    fn weigh(&self, edge: &Edge, top: usize) -> Weighed {
        let number = |point: usize| (point != top).then(|| self.local[point]);
        Weighed {
            from: number(edge.from),
            to: number(edge.to),
            weight: 1.0 / edge.variance.max(FINEST * FINEST),
        }
    }

    /// The number of a point in a block; none for its top.
    pub(crate) fn number(&self, block: usize, point: usize) -> Option<usize> {
        (point != self.blocks.top[block]).then(|| self.local[point])
    }

    pub(crate) fn figures(&self, route: &[Leg]) -> Figures {
        let mut sum = Figures::default();
        for leg in route {
            let part = self.leg(leg);
            sum.nominal += part.nominal;
            sum.mean += part.mean;
            sum.variance += part.variance;
        }
        sum
    }

    pub(crate) fn leg(&self, leg: &Leg) -> Figures {
        let Some(solved) = &self.loops[leg.block] else {
            let (edge, sign) = self.single(leg);
            return Figures {
                nominal: sign * edge.nominal,
                mean: sign * edge.mean,
                variance: edge.variance,
            };
        };
        let (from, to) = (
            self.number(leg.block, leg.from),
            self.number(leg.block, leg.to),
        );
        let along = |positions: &[f64]| {
            let at = |number: Option<usize>| number.map_or(0.0, |number| positions[number]);
            at(to) - at(from)
        };
        let pull = solved.factor.pull(from, to);
        Figures {
            nominal: along(&solved.nominal),
            mean: along(&solved.mean),
            variance: solved.factor.product(&pull, &pull),
        }
    }

    /// The edge of a block of one link, and whether a leg goes along it (1) or against it (−1).
    pub(crate) fn single(&self, leg: &Leg) -> (&Edge, f64) {
        let edge = &self.graph.edges[self.blocks.edges[leg.block][0]];
        (edge, if edge.from == leg.from { 1.0 } else { -1.0 })
    }

    /// The coefficient of each edge that a leg hangs on: the distance is their sum.
    pub(crate) fn coefficients(&self, leg: &Leg) -> Vec<(usize, f64)> {
        let Some(solved) = &self.loops[leg.block] else {
            return vec![(self.blocks.edges[leg.block][0], self.single(leg).1)];
        };
        let (from, to) = (
            self.number(leg.block, leg.from),
            self.number(leg.block, leg.to),
        );
        let gain = solved.factor.complete(&solved.factor.pull(from, to));
        let at = |number: Option<usize>| number.map_or(0.0, |number| gain[number]);
        let edges = solved.edges.iter().zip(&solved.weighed);
        edges
            .map(|(edge, it)| (*edge, it.weight * (at(it.to) - at(it.from))))
            .collect()
    }

    pub(crate) fn pull(&self, leg: &Leg) -> Pull {
        match &self.loops[leg.block] {
            None => Pull::Single(self.single(leg).1),
            Some(solved) => Pull::Loop(solved.factor.pull(
                self.number(leg.block, leg.from),
                self.number(leg.block, leg.to),
            )),
        }
    }

    /// The covariance of two distances within one block.
    pub(crate) fn covariance(&self, block: usize, a: &Pull, b: &Pull) -> f64 {
        match (a, b, &self.loops[block]) {
            (Pull::Single(a), Pull::Single(b), _) => {
                a * b * self.graph.edges[self.blocks.edges[block][0]].variance
            }
            (Pull::Loop(a), Pull::Loop(b), Some(solved)) => solved.factor.product(a, b),
            _ => 0.0,
        }
    }
}

impl Loop {
    pub(crate) fn new(
        graph: &Graph,
        points: Vec<usize>,
        edges: Vec<usize>,
        weighed: Vec<Weighed>,
    ) -> Self {
        let factor = Factor::new(points.len(), &weighed);
        let solve = |of: fn(&Edge) -> f64| {
            let mut right = vec![0.0; points.len()];
            for (edge, it) in edges.iter().zip(&weighed) {
                let pull = it.weight * of(&graph.edges[*edge]);
                if let Some(end) = it.from {
                    right[end] -= pull;
                }
                if let Some(end) = it.to {
                    right[end] += pull;
                }
            }
            factor.solve(&right)
        };
        let (mean, nominal) = (solve(|edge| edge.mean), solve(|edge| edge.nominal));
        Self {
            points,
            edges,
            weighed,
            factor,
            mean,
            nominal,
        }
    }

    /// The distance along an edge of the block, adjusted.
    pub(crate) fn adjusted(&self, edge: &Weighed) -> f64 {
        let at = |number: Option<usize>| number.map_or(0.0, |number| self.mean[number]);
        at(edge.to) - at(edge.from)
    }
}
