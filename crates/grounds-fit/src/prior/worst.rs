//! Worst cases: the least and most of a distance with every link within its limits.
//!
//! Along single links limits add up. In a loop every link bounds the difference of two positions
//! from both sides; the most that one point can lie beyond another is then the length of the
//! shortest path between them, and a path that returns to its start with a length below zero is a
//! loop that cannot close (textbook: systems of difference constraints \[published\]).

use std::cmp::Reverse;
use std::collections::{BinaryHeap, VecDeque};

use super::Contradiction;
use crate::net::{Interval, LinkId};
use crate::network::{
    blocks::Leg,
    estimate::{Estimate, Loop},
};

/// What counts as closed, mm: rounding of sums stays below.
const CLOSED: f64 = 1e-7;

pub(crate) struct Worst {
    loops: Vec<Option<Bounds>>,
    pub(super) contradictions: Vec<Contradiction>,
}

impl Worst {
    pub(crate) fn new(estimate: &Estimate) -> Self {
        let mut worst = Self {
            loops: Vec::with_capacity(estimate.loops.len()),
            contradictions: Vec::new(),
        };
        for solved in &estimate.loops {
            let bounds = solved.as_ref().map(|solved| Bounds::new(estimate, solved));
            worst.loops.push(match bounds {
                Some(Ok(bounds)) => Some(bounds),
                Some(Err(contradiction)) => {
                    worst.contradictions.push(contradiction);
                    None
                }
                None => None,
            });
        }
        worst
    }

    /// The limits along a route; none across a loop that cannot close.
    pub(crate) fn route(&self, estimate: &Estimate, route: &[Leg]) -> Option<Interval> {
        let mut sum = Interval {
            low: 0.0,
            high: 0.0,
        };
        for leg in route {
            let part = self.leg(estimate, leg)?;
            sum.low += part.low;
            sum.high += part.high;
        }
        Some(sum)
    }

    fn leg(&self, estimate: &Estimate, leg: &Leg) -> Option<Interval> {
        if estimate.loops[leg.block].is_none() {
            let (edge, sign) = estimate.single(leg);
            return Some(if sign > 0.0 {
                edge.limits
            } else {
                Interval {
                    low: -edge.limits.high,
                    high: -edge.limits.low,
                }
            });
        }
        let bounds = self.loops[leg.block].as_ref()?;
        let place = |point| {
            estimate
                .number(leg.block, point)
                .map_or(0, |number| number + 1)
        };
        let (from, to) = (place(leg.from), place(leg.to));
        Some(Interval {
            low: -bounds.most(to, from),
            high: bounds.most(from, to),
        })
    }
}

/// The bounds of a block on its positions: `to` lies at most `most` beyond `from`.
#[derive(Clone, Copy)]
struct Bound {
    from: usize,
    to: usize,
    most: f64,
    link: LinkId,
}

/// The bounds of a block by the point they start from, and positions that keep them all.
struct Bounds {
    starts: Vec<usize>,
    bounds: Vec<Bound>,
    positions: Vec<f64>,
}

impl Bounds {
    /// Points are counted from 0, the top, and on as the block counts them.
    fn new(estimate: &Estimate, solved: &Loop) -> Result<Self, Contradiction> {
        let place = |number: Option<usize>| number.map_or(0, |number| number + 1);
        let mut bounds = Vec::with_capacity(2 * solved.edges.len());
        for (edge, it) in solved.edges.iter().zip(&solved.weighed) {
            let edge = &estimate.graph.edges[*edge];
            let (from, to, link) = (place(it.from), place(it.to), edge.link);
            bounds.push(Bound {
                from,
                to,
                most: edge.limits.high,
                link,
            });
            bounds.push(Bound {
                from: to,
                to: from,
                most: -edge.limits.low,
                link,
            });
        }
        bounds.sort_by_key(|bound| bound.from);
        let points = solved.points.len() + 1;
        let mut starts = vec![0; points + 1];
        for bound in &bounds {
            starts[bound.from + 1] += 1;
        }
        for point in 0..points {
            starts[point + 1] += starts[point];
        }
        let mut positions = vec![0.0];
        positions.extend(&solved.nominal);
        let mut all = Self {
            starts,
            bounds,
            positions,
        };
        all.settle()?;
        Ok(all)
    }

    fn at(&self, point: usize) -> std::ops::Range<usize> {
        self.starts[point]..self.starts[point + 1]
    }

    /// Pulls positions back until every bound is kept, beginning with the nominal ones (Bellman and
    /// Ford \[published\]).
    fn settle(&mut self) -> Result<(), Contradiction> {
        let points = self.positions.len();
        let mut waiting: VecDeque<usize> = (0..points).collect();
        let mut waits = vec![true; points];
        let mut pulled: Vec<Option<usize>> = vec![None; points];
        let mut pulls = 0_usize;
        while let Some(point) = waiting.pop_front() {
            waits[point] = false;
            for at in self.at(point) {
                let bound = self.bounds[at];
                let most = self.positions[point] + bound.most;
                if self.positions[bound.to] <= most + CLOSED {
                    continue;
                }
                self.positions[bound.to] = most;
                pulled[bound.to] = Some(at);
                pulls += 1;
                if pulls.is_multiple_of(points)
                    && let Some(contradiction) = self.ring(&pulled)
                {
                    return Err(contradiction);
                }
                if !waits[bound.to] {
                    waits[bound.to] = true;
                    waiting.push_back(bound.to);
                }
            }
        }
        Ok(())
    }

    /// Bounds that pull each other round a ring, if there is one. Such a ring is always a loop that
    /// cannot close (textbook).
    fn ring(&self, pulled: &[Option<usize>]) -> Option<Contradiction> {
        let mut tried = vec![0; pulled.len()];
        for start in 0..pulled.len() {
            let mut at = start;
            while tried[at] == 0 {
                tried[at] = start + 1;
                match pulled[at] {
                    Some(bound) => at = self.bounds[bound].from,
                    None => break,
                }
            }
            if tried[at] == start + 1 && pulled[at].is_some() {
                return Some(self.round(pulled, at));
            }
        }
        None
    }

    fn round(&self, pulled: &[Option<usize>], start: usize) -> Contradiction {
        let (mut links, mut gap, mut at) = (Vec::new(), 0.0, start);
        while let Some(bound) = pulled[at].map(|bound| self.bounds[bound]) {
            links.push(bound.link);
            gap -= bound.most;
            at = bound.from;
            if at == start {
                break;
            }
        }
        links.reverse();
        Contradiction { links, gap }
    }

    /// The most that a point can lie beyond another (Dijkstra \[published\] on what each bound leaves
    /// free at the settled positions, which is never below zero).
    fn most(&self, from: usize, to: usize) -> f64 {
        let mut least = vec![f64::INFINITY; self.positions.len()];
        let mut heap = BinaryHeap::from([Reverse((0_u64, from))]);
        least[from] = 0.0;
        while let Some(Reverse((key, point))) = heap.pop() {
            let so_far = f64::from_bits(key);
            if point == to {
                break;
            }
            if so_far > least[point] {
                continue;
            }
            for bound in &self.bounds[self.at(point)] {
                let free = self.positions[point] + bound.most - self.positions[bound.to];
                let next = so_far + free.max(0.0);
                if next < least[bound.to] {
                    least[bound.to] = next;
                    // Not below zero, so that the order of bits is the order of lengths.
                    heap.push(Reverse((next.to_bits(), bound.to)));
                }
            }
        }
        least[to] + self.positions[to] - self.positions[from]
    }
}
