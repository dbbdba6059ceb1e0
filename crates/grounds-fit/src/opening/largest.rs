//! The largest upright rectangle in an outline.
//!
//! An upright rectangle lies in a polygon when it lies inside and no edge cuts it, and an edge does
//! not cut it when the rectangle lies wholly left, right, above or below of the edge, or on its inner
//! hand. Edges that the whole outline keeps at their inner hand are limits from the start; a convex
//! outline is settled by them. Where an edge still cuts the best rectangle, the five ways around it
//! are tried, the most promising first, and ways that cannot beat the best known are given up
//! (branch and bound; exact up to a ten-millionth of a millimetre).

use super::limits::{Fineness, Found, Goal, Limits};
use super::{Outline, Point};

/// A cut shallower than this is none, in mm.
const TOUCH: f64 = 1e-7;

/// The most rectangles that are tried; simple outlines need a few dozen.
const MOST: usize = 20_000;

/// An upright rectangle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rectangle {
    /// Its left edge.
    pub left: f64,
    /// Its lower edge.
    pub bottom: f64,
    /// How wide it is.
    pub width: f64,
    /// How high it is.
    pub height: f64,
}

impl Rectangle {
    /// Its right edge.
    #[must_use]
    pub fn right(&self) -> f64 {
        self.left + self.width
    }

    /// Its upper edge.
    #[must_use]
    pub fn top(&self) -> f64 {
        self.bottom + self.height
    }

    /// Its area in mm².
    #[must_use]
    pub fn area(&self) -> f64 {
        self.width * self.height
    }

    fn middle(&self) -> Point {
        Point {
            x: self.left + self.width / 2.0,
            y: self.bottom + self.height / 2.0,
        }
    }

    /// Whether an edge runs through the inside.
    fn is_cut_by(&self, (from, to): (Point, Point)) -> bool {
        let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
        for (start, run, low, high) in [
            (from.x, to.x - from.x, self.left, self.right()),
            (from.y, to.y - from.y, self.bottom, self.top()),
        ] {
            let (low, high) = (low + TOUCH, high - TOUCH);
            if high <= low {
                return false;
            }
            if run == 0.0 {
                if start <= low || start >= high {
                    return false;
                }
                continue;
            }
            let (a, b) = ((low - start) / run, (high - start) / run);
            enters = enters.max(a.min(b));
            leaves = leaves.min(a.max(b));
        }
        enters < leaves
    }
}

/// The largest rectangle, and whether it is proven to be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Largest {
    /// The rectangle.
    pub rectangle: Rectangle,
    /// False where the outline is so ragged that the search was cut short.
    pub proven: bool,
}

/// The upright rectangle of the largest area in an outline. `None` only where nothing above a
/// ten-millionth of a millimetre goes in.
///
/// ```
/// use grounds_fit::opening::{Outline, Point, largest_rectangle};
/// // A side that leans in by 10 over 2000 costs less in width than in height.
/// let corners = [(0.0, 0.0), (900.0, 0.0), (890.0, 2000.0), (0.0, 2000.0)];
/// let outline = Outline::new(corners.map(|(x, y)| Point { x, y }).to_vec())?;
/// let found = largest_rectangle(&outline).unwrap();
/// assert!((found.rectangle.width - 890.0).abs() < 1e-6);
/// assert!((found.rectangle.height - 2000.0).abs() < 1e-6);
/// # Ok::<(), grounds_fit::opening::OpeningFault>(())
/// ```
#[must_use]
pub fn largest_rectangle(outline: &Outline) -> Option<Largest> {
    let search = Search::new(outline, Goal::Area, Fineness::FULL);
    search.run(0.0, f64::INFINITY)
}

/// The most room, the same at all four edges, that an upright rectangle of this size has in the
/// outline: below zero by how much each edge would have to give way if it does not go in. With it
/// the rectangle, grown by that room. `None` if no place was found at all.
#[must_use]
pub fn room_around(outline: &Outline, width: f64, height: f64) -> Option<(f64, Rectangle)> {
    let goal = Goal::Room(width, height);
    let search = Search::new(outline, goal, Fineness::FULL);
    let found = search.run(f64::NEG_INFINITY, f64::INFINITY)?.rectangle;
    Some((
        ((found.width - width).min(found.height - height)) / 2.0,
        found,
    ))
}

/// Whether an upright rectangle of this size goes in, to some hundredths of a millimetre.
pub(super) fn goes_in(outline: &Outline, width: f64, height: f64) -> bool {
    let search = Search::new(outline, Goal::Room(width, height), Fineness::TRIAL);
    search.run(-TOUCH, 0.0).is_some()
}

struct Search<'a> {
    outline: &'a Outline,
    edges: Vec<(Point, Point)>,
    goal: Goal,
    fineness: Fineness,
}

/// Limits that were chosen, and the edges that they were chosen for.
struct Branch {
    limits: Limits,
    settled: Vec<usize>,
    found: Found,
}

impl<'a> Search<'a> {
    fn new(outline: &'a Outline, goal: Goal, fineness: Fineness) -> Self {
        Self {
            outline,
            edges: outline.edges().collect(),
            goal,
            fineness,
        }
    }

    /// The best with a score above `floor`; the search ends with the first that reaches `enough`.
    fn run(&self, floor: f64, enough: f64) -> Option<Largest> {
        let mut best: Option<Found> = None;
        let mut open = vec![self.root()];
        let mut tried = 0;
        while let Some(branch) = open.pop() {
            let known = best.map_or(floor, |found| found.score);
            if branch.found.score <= known + TOUCH * TOUCH.max(known.abs() * 1e-5) {
                continue;
            }
            tried += 1;
            if tried > MOST {
                break;
            }
            match self.stands_in_the_way(&branch) {
                Some(edge) => open.extend(self.ways_around(&branch, edge)),
                None if self.outline.holds(branch.found.rectangle.middle()) => {
                    best = Some(branch.found);
                    if branch.found.score >= enough {
                        break;
                    }
                }
                None => {}
            }
        }
        best.map(|found| Largest {
            rectangle: found.rectangle,
            proven: tried <= MOST,
        })
    }

    fn root(&self) -> Branch {
        let corners = self.outline.corners();
        let mut limits = Limits::around(corners);
        let mut settled = Vec::new();
        for (index, (from, to)) in self.edges.iter().enumerate() {
            if corners.iter().all(|corner| from.turn(*to, *corner) >= 0.0) {
                limits.left_hand(*from, *to);
                settled.push(index);
            }
        }
        let found = limits.best(self.goal, self.fineness);
        Branch {
            limits,
            settled,
            found,
        }
    }

    /// An edge that cuts the rectangle; or, if it lies outside, one that has not been settled.
    fn stands_in_the_way(&self, branch: &Branch) -> Option<usize> {
        let open = |index: &usize| !branch.settled.contains(index);
        let cut = (0..self.edges.len())
            .filter(open)
            .find(|index| branch.found.rectangle.is_cut_by(self.edges[*index]));
        if cut.is_some() || self.outline.holds(branch.found.rectangle.middle()) {
            return cut;
        }
        (0..self.edges.len()).find(open)
    }

    /// The five ways to keep clear of an edge, the most promising last.
    fn ways_around(&self, branch: &Branch, index: usize) -> Vec<Branch> {
        let (from, to) = self.edges[index];
        let choices: [&dyn Fn(&mut Limits); 5] = [
            &|limits| limits.left_hand(from, to),
            &|limits| limits.left_of(from.x.min(to.x)),
            &|limits| limits.right_of(from.x.max(to.x)),
            &|limits| limits.below(from.y.min(to.y)),
            &|limits| limits.above(from.y.max(to.y)),
        ];
        let mut settled = branch.settled.clone();
        settled.push(index);
        let mut ways: Vec<Branch> = choices
            .iter()
            .map(|choose| {
                let mut limits = branch.limits.clone();
                choose(&mut limits);
                Branch {
                    found: limits.best(self.goal, self.fineness),
                    limits,
                    settled: settled.clone(),
                }
            })
            .collect();
        ways.sort_by(|a, b| a.found.score.total_cmp(&b.found.score));
        ways
    }
}
