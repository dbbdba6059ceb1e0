//! The statement of a fit problem: points, links between them, and the needs they must meet.
//!
//! Everything is along one axis per line; points of different lines are simply not linked. The
//! distance of a link or need is the position of `to` less the position of `from`, in millimetres,
//! positive along the line's direction.

macro_rules! id {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(pub u32);

        impl $name {
            /// The position in the vector that this id points into.
            #[must_use]
            pub fn index(self) -> usize {
                self.0 as usize
            }
        }

        impl From<usize> for $name {
            fn from(index: usize) -> Self {
                Self(u32::try_from(index).unwrap_or(u32::MAX))
            }
        }
    };
}

id!(/// A plane, edge or centre: one of [`Net::points`].
    PointId);
id!(/// Position in [`Net::links`].
    LinkId);
id!(/// Position in [`Net::needs`].
    NeedId);

/// Points, links and needs: everything that is known or wanted about where things come to be.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Net {
    /// How many points there are; they have no content of their own.
    pub points: usize,
    /// How far points are from each other.
    pub links: Vec<Link>,
    /// What must be true of two points.
    pub needs: Vec<Need>,
}

/// How far one point is from another, and how well that is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Link {
    /// The point counted from.
    pub from: PointId,
    /// The point counted to.
    pub to: PointId,
    /// What kind of knowledge it is.
    pub kind: LinkKind,
}

/// Where the knowledge of a distance comes from. All figures in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LinkKind {
    /// It is or will be built so: a layer, a piece, framing.
    Built {
        /// The distance aimed at.
        nominal: f64,
        /// How far it may fall short, never below zero.
        minus: f64,
        /// How far it may exceed, never below zero.
        plus: f64,
        /// How values lie between the limits.
        shape: Shape,
    },
    /// It was measured; it stands beside what was built, and is weighed against it.
    Measured {
        /// The distance read.
        reading: f64,
        /// Standard uncertainty (one standard deviation) of instrument and hand, above zero.
        sigma: f64,
    },
    /// It is chosen on site.
    Set {
        /// The least that can be chosen.
        low: f64,
        /// The most that can be chosen.
        high: f64,
        /// What was chosen or designed; until then the middle of the range stands in.
        chosen: Option<f64>,
        /// How truly the hand sets it: the half-width of the tolerance, never below zero.
        within: f64,
        /// How values lie within the tolerance.
        shape: Shape,
    },
}

/// How values lie between their limits.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Shape {
    /// Normal about the middle of the limits, the limits three standard deviations out.
    #[default]
    Normal,
    /// As likely anywhere between the limits; its standard deviation is half the width over √3.
    Even,
    /// A triangle over the limits with its peak at the nominal.
    Triangle,
}

/// What must be true of the distance of two points: a reveal, flush, a clearance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Need {
    /// The point counted from.
    pub from: PointId,
    /// The point counted to.
    pub to: PointId,
    /// The least that will do; nothing for no lower limit.
    pub least: Option<f64>,
    /// The most that will do; nothing for no upper limit.
    pub most: Option<f64>,
}
