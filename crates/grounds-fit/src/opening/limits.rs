//! The best upright rectangle under straight limits, each of which binds one corner.
//!
//! Every half-plane binds an upright rectangle at one corner alone, so that with the lower edge y₁
//! and the upper edge y₂ known the widest rectangle is found at once: w(y₁, y₂) = min over limits at
//! the right − max over limits at the left, which is concave. The best y₂ for a y₁ is found by
//! halving, the best y₁ by golden section: what is sought is log-concave in both.

use super::{Point, Rectangle};

/// Which horizontal edge of the rectangle a limit looks at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Edge {
    Lower,
    Upper,
}

/// A limit of the left or right edge: `base + slope · y` of the lower or upper edge.
#[derive(Clone, Copy, Debug)]
struct Limit {
    edge: Edge,
    base: f64,
    slope: f64,
}

impl Limit {
    fn at(self, lower: f64, upper: f64) -> f64 {
        let y = match self.edge {
            Edge::Lower => lower,
            Edge::Upper => upper,
        };
        self.base + self.slope * y
    }

    /// How it changes as the upper edge rises.
    fn rise(self) -> f64 {
        match self.edge {
            Edge::Lower => 0.0,
            Edge::Upper => self.slope,
        }
    }
}

/// What is sought.
#[derive(Clone, Copy, Debug)]
pub(super) enum Goal {
    /// The largest area.
    Area,
    /// The most room, the same at all four edges, around a rectangle of this width and height.
    Room(f64, f64),
}

/// How finely to search: steps across and steps up.
#[derive(Clone, Copy, Debug)]
pub(super) struct Fineness {
    pub(super) golden: usize,
    pub(super) halving: usize,
}

impl Fineness {
    /// To the last figure.
    pub(super) const FULL: Self = Self {
        golden: 64,
        halving: 50,
    };
    /// To some hundredths of a millimetre, for many trials.
    pub(super) const TRIAL: Self = Self {
        golden: 26,
        halving: 18,
    };
}

/// All limits of a rectangle.
#[derive(Clone, Debug)]
pub(super) struct Limits {
    left: Vec<Limit>,
    right: Vec<Limit>,
    bottom: f64,
    top: f64,
}

/// A rectangle and how good it is.
#[derive(Clone, Copy, Debug)]
pub(super) struct Found {
    pub(super) score: f64,
    pub(super) rectangle: Rectangle,
}

impl Limits {
    /// Within the box around these places.
    pub(super) fn around(places: &[Point]) -> Self {
        let least = |of: fn(&Point) -> f64| places.iter().map(of).fold(f64::INFINITY, f64::min);
        let most = |of: fn(&Point) -> f64| places.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
        let mut limits = Self {
            left: Vec::new(),
            right: Vec::new(),
            bottom: least(|p| p.y),
            top: most(|p| p.y),
        };
        limits.right_of(least(|p| p.x));
        limits.left_of(most(|p| p.x));
        limits
    }

    /// The rectangle lies right of this `x`.
    pub(super) fn right_of(&mut self, x: f64) {
        self.left.push(Limit {
            edge: Edge::Lower,
            base: x,
            slope: 0.0,
        });
    }

    /// The rectangle lies left of this `x`.
    pub(super) fn left_of(&mut self, x: f64) {
        self.right.push(Limit {
            edge: Edge::Lower,
            base: x,
            slope: 0.0,
        });
    }

    /// The rectangle lies above this `y`.
    pub(super) fn above(&mut self, y: f64) {
        self.bottom = self.bottom.max(y);
    }

    /// The rectangle lies below this `y`.
    pub(super) fn below(&mut self, y: f64) {
        self.top = self.top.min(y);
    }

    /// The rectangle lies at the left hand of a walk from one place to another.
    pub(super) fn left_hand(&mut self, from: Point, to: Point) {
        /// Flatter than this is level.
        const LEVEL: f64 = 1e-9;
        let (dx, dy) = (to.x - from.x, to.y - from.y);
        if dy.abs() <= LEVEL * dx.abs() {
            if dx > 0.0 {
                self.above(from.y.max(to.y));
            } else {
                self.below(from.y.min(to.y));
            }
            return;
        }
        let slope = dx / dy;
        let limit = Limit {
            edge: if dx < 0.0 { Edge::Upper } else { Edge::Lower },
            base: from.x - slope * from.y,
            slope,
        };
        if dy > 0.0 {
            self.right.push(limit);
        } else {
            self.left.push(limit);
        }
    }

    /// The best rectangle, up to how finely it is sought.
    pub(super) fn best(&self, goal: Goal, fineness: Fineness) -> Found {
        const GOLDEN: f64 = 0.618_033_988_749_894_9;
        let score = |lower: f64| self.best_from(lower, goal, fineness.halving);
        let (mut low, mut high) = (self.bottom, self.top.max(self.bottom));
        let mut best = higher(score(low), score(high));
        let mut inner = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
        let mut found = inner.map(score);
        for _ in 0..fineness.golden {
            if found[0].score >= found[1].score {
                high = inner[1];
                inner = [high - GOLDEN * (high - low), inner[0]];
                found = [score(inner[0]), found[0]];
            } else {
                low = inner[0];
                inner = [inner[1], low + GOLDEN * (high - low)];
                found = [found[1], score(inner[1])];
            }
            best = higher(best, higher(found[0], found[1]));
        }
        best
    }

    /// The best rectangle on this lower edge; where there is none, one without height and a score
    /// that says how far off it is.
    fn best_from(&self, lower: f64, goal: Goal, halving: usize) -> Found {
        let flat = self.width(lower, lower);
        match goal {
            Goal::Area if flat <= 0.0 => self.found(lower, lower, flat),
            Goal::Area => {
                let upper = halve(lower, self.top, halving, |upper| {
                    self.width(lower, upper) + (upper - lower) * self.widening(lower, upper) > 0.0
                });
                let area = (upper - lower) * self.width(lower, upper);
                self.found(lower, upper, area)
            }
            Goal::Room(width, height) => {
                let least = -width.min(height) / 2.0;
                let most = (self.top - lower - height) / 2.0;
                let spare =
                    |room: f64| self.width(lower, lower + height + 2.0 * room) - width - 2.0 * room;
                if most < least || spare(least) < 0.0 {
                    let short = (most - least).min(spare(least)).min(0.0);
                    return self.found(lower, lower, least + short);
                }
                let room = halve(least, most, halving, |room| spare(room) >= 0.0);
                self.found(lower, lower + height + 2.0 * room, room)
            }
        }
    }

    fn width(&self, lower: f64, upper: f64) -> f64 {
        let right = self.right.iter().map(|limit| limit.at(lower, upper));
        right.fold(f64::INFINITY, f64::min) - self.left_edge(lower, upper)
    }

    fn left_edge(&self, lower: f64, upper: f64) -> f64 {
        let left = self.left.iter().map(|limit| limit.at(lower, upper));
        left.fold(f64::NEG_INFINITY, f64::max)
    }

    /// How the width changes as the upper edge rises; never above zero.
    fn widening(&self, lower: f64, upper: f64) -> f64 {
        let by = |a: &&Limit, b: &&Limit| a.at(lower, upper).total_cmp(&b.at(lower, upper));
        let right = self.right.iter().min_by(by);
        let left = self.left.iter().max_by(by);
        right.map_or(0.0, |limit| limit.rise()) - left.map_or(0.0, |limit| limit.rise())
    }

    fn found(&self, lower: f64, upper: f64, score: f64) -> Found {
        let left = self.left_edge(lower, upper);
        Found {
            score,
            rectangle: Rectangle {
                left,
                bottom: lower,
                width: self.width(lower, upper),
                height: upper - lower,
            },
        }
    }
}

fn higher(a: Found, b: Found) -> Found {
    if b.score > a.score { b } else { a }
}

/// The last place where something holds that holds at first and then no more, by halving.
fn halve(low: f64, high: f64, times: usize, holds: impl Fn(f64) -> bool) -> f64 {
    if high <= low || holds(high) {
        return high.max(low);
    }
    let (mut low, mut high) = (low, high);
    for _ in 0..times {
        let middle = f64::midpoint(low, high);
        if holds(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    low
}
