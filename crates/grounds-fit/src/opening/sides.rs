//! The four edges of an opening, and how far they are from square, plumb, level and straight.

use super::Survey;

/// An edge of an opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// The left side.
    Left,
    /// The right side.
    Right,
    /// The lower edge.
    Sill,
    /// The upper edge.
    Head,
}

/// One figure for each edge.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Sides {
    /// Of the left side.
    pub left: f64,
    /// Of the right side.
    pub right: f64,
    /// Of the sill.
    pub sill: f64,
    /// Of the head.
    pub head: f64,
}

impl Sides {
    /// The same for all.
    #[must_use]
    pub fn all(each: f64) -> Self {
        Self {
            left: each,
            right: each,
            sill: each,
            head: each,
        }
    }

    /// Every edge with its figure.
    #[must_use]
    pub fn each(&self) -> [(Side, f64); 4] {
        [
            (Side::Left, self.left),
            (Side::Right, self.right),
            (Side::Sill, self.sill),
            (Side::Head, self.head),
        ]
    }

    /// The largest, without signs.
    #[must_use]
    pub fn worst(&self) -> f64 {
        self.each()
            .iter()
            .map(|(_, off)| off.abs())
            .fold(0.0, f64::max)
    }
}

/// How far an opening is from a true rectangle, in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figures {
    /// The rising diagonal less the falling one: zero for a square opening.
    pub out_of_square: f64,
    /// How far the far end of each edge is off plumb or level, over its whole length: to the right
    /// for sides, up for sill and head.
    pub leans: Sides,
    /// How far each edge stands in at most from the straight line between its corners.
    pub bows: Sides,
}

impl Survey {
    /// How far the likeliest shape is from a true rectangle.
    #[must_use]
    pub fn figures(&self) -> Figures {
        let [a, b, c, d] = self.corners();
        let [left, right, sill, head] = self.bows();
        Figures {
            out_of_square: a.to(c) - d.to(b),
            leans: Sides {
                left: d.x - a.x,
                right: c.x - b.x,
                sill: b.y - a.y,
                head: c.y - d.y,
            },
            bows: Sides {
                left,
                right,
                sill,
                head,
            },
        }
    }
}
