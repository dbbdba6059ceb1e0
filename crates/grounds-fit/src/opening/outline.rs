//! The shape of an opening as a polygon.

use super::OpeningFault;

/// The most corners of an outline.
const MOST: usize = 200;

/// A place in the plane of the opening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Up.
    pub y: f64,
}

impl Point {
    /// How far it is to another.
    #[must_use]
    pub fn to(self, other: Self) -> f64 {
        (other.x - self.x).hypot(other.y - self.y)
    }

    /// Twice the area of the triangle with two others: above zero if they turn to the left.
    pub(super) fn turn(self, next: Self, last: Self) -> f64 {
        (next.x - self.x) * (last.y - self.y) - (next.y - self.y) * (last.x - self.x)
    }
}

/// A polygon whose edges do not cross, its corners in order against the clock.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    corners: Vec<Point>,
}

impl Outline {
    /// The outline with these corners in order, either way round.
    ///
    /// # Errors
    /// When there are fewer than three or more than 200, one is not a number, edges cross, or there
    /// is no area.
    pub fn new(mut corners: Vec<Point>) -> Result<Self, OpeningFault> {
        let number = |point: &Point| point.x.is_finite() && point.y.is_finite();
        if !(3..=MOST).contains(&corners.len()) || !corners.iter().all(number) {
            return Err(OpeningFault::BadOutline);
        }
        if twice_area(&corners) < 0.0 {
            corners.reverse();
        }
        let outline = Self { corners };
        if outline.area() <= 0.0 || outline.crosses_itself() {
            return Err(OpeningFault::BadOutline);
        }
        Ok(outline)
    }

    /// The corners, against the clock.
    #[must_use]
    pub fn corners(&self) -> &[Point] {
        &self.corners
    }

    /// Its area in mm².
    #[must_use]
    pub fn area(&self) -> f64 {
        twice_area(&self.corners) / 2.0
    }

    /// Its edges, the inside at their left.
    pub(super) fn edges(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        let next = self.corners.iter().cycle().skip(1);
        self.corners.iter().copied().zip(next.copied())
    }

    /// Whether a place is inside.
    #[must_use]
    pub fn holds(&self, place: Point) -> bool {
        let crossings = self.edges().filter(|(from, to)| {
            let spans = (from.y > place.y) != (to.y > place.y);
            spans && (from.turn(*to, place) > 0.0) == (to.y > from.y)
        });
        crossings.count() % 2 == 1
    }

    fn crosses_itself(&self) -> bool {
        let edges: Vec<_> = self.edges().collect();
        edges.iter().enumerate().any(|(i, (a, b))| {
            edges.iter().skip(i + 1).any(|(c, d)| {
                let apart = a.turn(*b, *c) * a.turn(*b, *d) < 0.0;
                apart && c.turn(*d, *a) * c.turn(*d, *b) < 0.0
            })
        })
    }
}

fn twice_area(corners: &[Point]) -> f64 {
    let next = corners.iter().cycle().skip(1);
    corners
        .iter()
        .zip(next)
        .map(|(a, b)| a.x * b.y - b.x * a.y)
        .sum()
}
