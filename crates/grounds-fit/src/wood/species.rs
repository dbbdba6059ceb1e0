//! How much each wood moves.

/// How a board was sawn from the log.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sawn {
    /// Rings along the width: it moves most.
    Flat,
    /// Rings across the width: it moves about half as much.
    Quarter,
}

/// How well a figure is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grade {
    /// Seen in print.
    Published,
    /// From a named print, recalled.
    Memory,
}

/// A wood and how its width changes per percent of moisture, as a fraction of the width.
///
/// Source: USDA Wood Handbook, table 13-5, dimensional change coefficients for 6–14 % of moisture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Species {
    /// The trade's name, in small letters.
    pub name: &'static str,
    /// Sawn to quarter: radial.
    pub radial: f64,
    /// Sawn flat: tangential.
    pub tangential: f64,
    /// How well the worse known of both is known.
    pub grade: Grade,
}

impl Species {
    /// All woods, by name.
    pub const ALL: &[Self] = &[
        published("american basswood", 0.00230, 0.00330),
        published("american beech", 0.00190, 0.00431),
        published("american elm", 0.00144, 0.00338),
        published("black ash", 0.00172, 0.00274),
        published("black cherry", 0.00126, 0.00248),
        published("black walnut", 0.00190, 0.00274),
        recalled("douglas-fir, coast", 0.00165, 0.00267),
        recalled("douglas-fir, interior north", 0.00130, 0.00241),
        recalled("eastern white pine", 0.00071, 0.00212),
        published("hard maple", 0.00165, 0.00353),
        published("hickory, pecan", 0.00169, 0.00315),
        recalled("hickory, true", 0.00259, 0.00411),
        recalled("mahogany", 0.00172, 0.00238),
        recalled("ponderosa pine", 0.00133, 0.00216),
        published("red alder", 0.00151, 0.00256),
        published("red oak", 0.00158, 0.00369),
        recalled("redwood, old growth", 0.00120, 0.00205),
        published("soft maple", 0.00137, 0.00289),
        recalled("southern pine, loblolly", 0.00165, 0.00259),
        recalled("southern pine, longleaf", 0.00176, 0.00263),
        published("sycamore", 0.00172, 0.00296),
        recalled("teak", 0.00101, 0.00186),
        recalled("western redcedar", 0.00082, 0.00173),
        published("white ash", 0.00169, 0.00274),
        published("white fir", 0.00112, 0.00245),
        published("white oak", 0.00180, 0.00365),
        published("yellow birch", 0.00256, 0.00338),
        recalled("yellow-poplar", 0.00158, 0.00289),
    ];

    /// The wood of this name, in any case; `None` if it is not among them.
    ///
    /// ```
    /// use grounds_fit::wood::{Sawn, Species};
    /// let oak = Species::named("White oak").unwrap();
    /// assert_eq!(oak.coefficient(Sawn::Quarter), 0.0018);
    /// ```
    #[must_use]
    pub fn named(name: &str) -> Option<&'static Self> {
        Self::ALL
            .iter()
            .find(|species| species.name.eq_ignore_ascii_case(name.trim()))
    }

    /// The change of width per percent of moisture, as a fraction of the width.
    #[must_use]
    pub fn coefficient(&self, sawn: Sawn) -> f64 {
        match sawn {
            Sawn::Flat => self.tangential,
            Sawn::Quarter => self.radial,
        }
    }
}

const fn published(name: &'static str, radial: f64, tangential: f64) -> Species {
    Species {
        name,
        radial,
        tangential,
        grade: Grade::Published,
    }
}

const fn recalled(name: &'static str, radial: f64, tangential: f64) -> Species {
    Species {
        name,
        radial,
        tangential,
        grade: Grade::Memory,
    }
}
