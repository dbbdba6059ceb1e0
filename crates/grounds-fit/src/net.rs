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

impl LinkKind {
    /// The distance aimed at, read or set; the middle of the range where nothing was chosen.
    #[must_use]
    pub fn nominal(self) -> f64 {
        match self {
            Self::Built { nominal, .. } => nominal,
            Self::Measured { reading, .. } => reading,
            Self::Set {
                low, high, chosen, ..
            } => chosen.unwrap_or(f64::midpoint(low, high)),
        }
    }

    /// How far the distance may fall short of the nominal and how far it may exceed it. A reading
    /// has no limits of its own; three standard deviations stand in.
    #[must_use]
    pub fn tolerance(self) -> (f64, f64) {
        match self {
            Self::Built { minus, plus, .. } => (minus, plus),
            Self::Measured { sigma, .. } => (3.0 * sigma, 3.0 * sigma),
            Self::Set { within, .. } => (within, within),
        }
    }

    /// The least and the most that the distance can be.
    #[must_use]
    pub fn limits(self) -> Interval {
        let (minus, plus) = self.tolerance();
        Interval {
            low: self.nominal() - minus,
            high: self.nominal() + plus,
        }
    }

    /// How values lie within the limits; a reading is normal.
    #[must_use]
    pub fn shape(self) -> Shape {
        match self {
            Self::Built { shape, .. } | Self::Set { shape, .. } => shape,
            Self::Measured { .. } => Shape::Normal,
        }
    }

    /// The mean of the distance: with unequal tolerances it lies beside the nominal, by half of
    /// their difference (normal and even) or a third of it (triangle) \[published: the means of
    /// these distributions\].
    #[must_use]
    pub fn mean(self) -> f64 {
        let (minus, plus) = self.tolerance();
        let shift = match self.shape() {
            Shape::Normal | Shape::Even => (plus - minus) / 2.0,
            Shape::Triangle => (plus - minus) / 3.0,
        };
        self.nominal() + shift
    }

    /// The variance of the distance, mm²: a thirty-sixth of the squared width between the limits
    /// for normal values, a twelfth for even ones, (m² + p² + m·p)/18 for a triangle
    /// \[published: the variances of these distributions\].
    #[must_use]
    pub fn variance(self) -> f64 {
        let (minus, plus) = self.tolerance();
        let width = minus + plus;
        match self.shape() {
            Shape::Normal => width * width / 36.0,
            Shape::Even => width * width / 12.0,
            Shape::Triangle => (minus * minus + plus * plus + minus * plus) / 18.0,
        }
    }
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

impl Need {
    /// By how much a distance lies inside the limits, at the nearer of them; below zero outside,
    /// infinite without limits.
    #[must_use]
    pub fn margin(&self, distance: f64) -> f64 {
        let below = self.least.map_or(f64::INFINITY, |least| distance - least);
        let above = self.most.map_or(f64::INFINITY, |most| most - distance);
        below.min(above)
    }

    /// The same for all distances of an interval: at its worse end.
    #[must_use]
    pub fn margin_of(&self, interval: Interval) -> f64 {
        self.margin(interval.low).min(self.margin(interval.high))
    }
}

/// Two distances and everything between them, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// The least.
    pub low: f64,
    /// The most.
    pub high: f64,
}

impl Interval {
    /// As far below as above the middle.
    #[must_use]
    pub fn about(middle: f64, half: f64) -> Self {
        Self {
            low: middle - half,
            high: middle + half,
        }
    }

    /// Half the distance between both ends.
    #[must_use]
    pub fn half(self) -> f64 {
        (self.high - self.low) / 2.0
    }

    /// Whether a distance lies in it, the ends included.
    #[must_use]
    pub fn contains(self, distance: f64) -> bool {
        self.low <= distance && distance <= self.high
    }
}
