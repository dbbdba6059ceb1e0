//! A piece cut to the opening's own corners, and whether that is worth it.

use grounds_measure::{Length, Step};

use super::order::rounded_down;
use super::{Clearance, Outline, Point, Rectangle, Sides, Survey, largest_rectangle};

/// How much more than its clearance a joint may show, in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Judgement {
    /// Up to here a joint hides it.
    pub hides: f64,
    /// Up to here the piece is cut out of square; beyond, the wall is mended first.
    pub cuts: f64,
}

impl Judgement {
    /// 1/8 in and 3/8 in, as glass beside a wall out of plumb is judged (common practice). A wall
    /// that carries hinges must be plumb within 1/8 in over their height.
    pub const GLASS: Self = Self {
        hides: 25.4 / 8.0,
        cuts: 25.4 * 3.0 / 8.0,
    };
}

/// What to make.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Way {
    /// A true rectangle: the joints hide the rest.
    Square,
    /// Four straight cuts to the corners given.
    Tapered,
    /// Tapered, and an edge scribed to its wall, which is not straight.
    Scribed,
    /// An edge is too far out: mend the opening, then measure again.
    MendFirst,
}

/// A piece of four straight cuts that keeps its clearances.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tapered {
    /// Its corners from the lower left, against the clock, in the opening.
    pub corners: [Point; 4],
    /// Lower and upper edge, then left and right, rounded down to the step.
    pub edges: [Length; 4],
    /// Rising and falling diagonal, rounded down to the step.
    pub diagonals: [Length; 2],
    /// How much wider than its clearance the joint beside a square piece gets at most.
    pub beside_square: Sides,
    /// What to make.
    pub way: Way,
}

impl Survey {
    /// The piece cut to the opening's own corners: every edge in by its clearance and by what its
    /// side stands in. `None` where nothing is left of it.
    ///
    /// ```
    /// use grounds_fit::opening::{Clearance, Judgement, Lean, Reading, Readings, Survey, Way};
    /// use grounds_measure::Step;
    /// // 7/8 in out of plumb in 80 in: no joint hides that, and no glass should follow it.
    /// let read = |at, read| Reading { at, read };
    /// let mut readings = Readings::new(
    ///     vec![read(0.0, 1535.1), read(2032.0, 1557.3)],
    ///     vec![read(0.0, 2032.0), read(1535.0, 2032.0)],
    /// );
    /// readings.left = Some(Lean { over: 2032.0, off: 0.0 });
    /// let survey = Survey::of(&readings)?;
    /// let piece = survey.tapered(Clearance::all(3.0), Step::MM, Judgement::GLASS).unwrap();
    /// assert_eq!(piece.way, Way::MendFirst);
    /// # Ok::<(), grounds_fit::opening::OpeningFault>(())
    /// ```
    #[must_use]
    pub fn tapered(&self, clearance: Clearance, step: Step, judged: Judgement) -> Option<Tapered> {
        let [left, right, sill, head] = self.bows();
        let [a, b, c, d] = self.corners();
        let sides = [
            moved_in(a, b, clearance.sill + sill),
            moved_in(b, c, clearance.right + right),
            moved_in(c, d, clearance.head + head),
            moved_in(d, a, clearance.left + left),
        ];
        let [a, b, c, d] = [
            meet(sides[3], sides[0])?,
            meet(sides[0], sides[1])?,
            meet(sides[1], sides[2])?,
            meet(sides[2], sides[3])?,
        ];
        let square = largest_rectangle(self.outline())?.rectangle;
        let beside_square = beside(self.outline(), square);
        let down = |mm: f64| rounded_down(mm, step);
        let bow = left.max(right).max(sill).max(head);
        Some(Tapered {
            corners: [a, b, c, d],
            edges: [
                down(a.to(b))?,
                down(d.to(c))?,
                down(a.to(d))?,
                down(b.to(c))?,
            ],
            diagonals: [down(a.to(c))?, down(d.to(b))?],
            way: match beside_square.worst() {
                gap if gap <= judged.hides => Way::Square,
                gap if gap > judged.cuts => Way::MendFirst,
                _ if bow > judged.hides => Way::Scribed,
                _ => Way::Tapered,
            },
            beside_square,
        })
    }
}

/// A line through two places, moved to its left by so much.
fn moved_in(from: Point, to: Point, by: f64) -> (Point, Point) {
    let length = from.to(to);
    let (aside, up) = (
        -(to.y - from.y) / length * by,
        (to.x - from.x) / length * by,
    );
    let moved = |place: Point| Point {
        x: place.x + aside,
        y: place.y + up,
    };
    (moved(from), moved(to))
}

/// Where two lines meet; `None` where they run side by side.
fn meet((a, b): (Point, Point), (c, d): (Point, Point)) -> Option<Point> {
    let across = (b.x - a.x) * (d.y - c.y) - (b.y - a.y) * (d.x - c.x);
    let share = ((c.x - a.x) * (d.y - c.y) - (c.y - a.y) * (d.x - c.x)) / across;
    share.is_finite().then_some(Point {
        x: a.x + share * (b.x - a.x),
        y: a.y + share * (b.y - a.y),
    })
}

/// The widest gap between each edge of a rectangle in an outline and the outline beside it.
fn beside(outline: &Outline, square: Rectangle) -> Sides {
    let mut gaps = Sides::default();
    for corner in outline.corners() {
        let (from_left, from_right) = (square.left - corner.x, corner.x - square.right());
        let (from_sill, from_head) = (square.bottom - corner.y, corner.y - square.top());
        gaps.left = gaps.left.max(from_left);
        gaps.right = gaps.right.max(from_right);
        gaps.sill = gaps.sill.max(from_sill);
        gaps.head = gaps.head.max(from_head);
    }
    gaps
}
