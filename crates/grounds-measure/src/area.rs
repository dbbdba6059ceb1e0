//! Areas of faces.

use crate::amount_sums::amount_sums;
use crate::error::Fault;
use crate::length::Length;
use crate::print::{Choice, print_exact, rounded_decimal};
use crate::reading::{Scaled, Scanner, Unit, Written, read_scaled, written_as_string};
use crate::units::Units;
use std::fmt;

/// An area, never below zero, as a whole number of 1/100 mm².
///
/// A square foot is 9 290 304 of them exactly ((304.8 mm)²), so both systems are exact to 0.01 ft²
/// and 0.01 mm²; finer texts are taken to the nearest. Reads `12.5 m2`, `134 ft2`, `134 sq ft`,
/// `180000 mm2`, `90 in2`.
///
/// ```
/// use grounds_measure::{Area, Length};
/// let wall = Area::of(Length::from_mm(4200), Length::from_mm(2600));
/// assert_eq!(wall.to_string(), "10.92 m2");
/// assert_eq!("134 sq ft".parse::<Area>()?.to_string(), "134 ft2");
/// # Ok::<(), grounds_measure::MeasureError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Area(i64);

const M2: i64 = 100_000_000;
const FT2: i64 = 9_290_304;
const CHOICES: &[Choice] = &[("m2", M2, 3), ("ft2", FT2, 2), ("m2", M2, 8)];

impl Area {
    /// No area.
    pub const ZERO: Self = Self(0);
    /// The largest area that is read: 1 km².
    pub const LARGEST: Self = Self(1_000_000 * M2);

    /// The area of a rectangle, to the nearest 1/100 mm²; zero if a side is below zero.
    #[must_use]
    pub fn of(width: Length, height: Length) -> Self {
        // Square small units in 1/100 mm²: (40 000)² / 100.
        const EACH: i128 = 16_000_000;
        let square = i128::from(width.units().max(0)) * i128::from(height.units().max(0));
        Self(i64::try_from((square + EACH / 2) / EACH).unwrap_or(i64::MAX))
    }

    /// The nearest area to a computed number of square metres; `None` unless it lies between zero
    /// and [`Area::LARGEST`].
    #[must_use]
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_precision_loss,
        reason = "held in range"
    )]
    pub fn from_m2_f64(m2: f64) -> Option<Self> {
        let units = (m2 * M2 as f64).round();
        (0.0..=Self::LARGEST.0 as f64)
            .contains(&units)
            .then_some(Self(units as i64))
    }

    /// Small units of 1/100 mm².
    #[must_use]
    pub const fn units(self) -> i64 {
        self.0
    }

    /// Square metres, for computing with physics.
    #[must_use]
    #[expect(
        clippy::cast_precision_loss,
        reason = "a nearest number is what is asked for"
    )]
    pub fn m2(self) -> f64 {
        self.0 as f64 / M2 as f64
    }

    /// What is left after openings of this area; `None` when they are larger than the face.
    #[must_use]
    pub fn less(self, openings: Self) -> Option<Self> {
        (openings <= self).then(|| Self(self.0 - openings.0))
    }

    /// Prints for people in the job's units: `10.92 m2` to hundredths, `117.5 ft2` to tenths.
    #[must_use]
    pub fn display(self, units: Units) -> impl fmt::Display {
        match units {
            Units::Metric => format!("{} m2", rounded_decimal(self.0, M2, 2)),
            Units::Imperial => format!("{} ft2", rounded_decimal(self.0, FT2, 1)),
        }
    }
}

impl Scaled for Area {
    const UNITS: &'static [Unit] = &[
        Unit::large(
            &[
                "m2",
                "m²",
                "m^2",
                "sq m",
                "sqm",
                "square metres",
                "square meters",
            ],
            M2,
        ),
        Unit::new(
            &[
                "ft2",
                "ft²",
                "ft^2",
                "sq ft",
                "sq. ft.",
                "sqft",
                "square feet",
                "square foot",
            ],
            FT2,
        ),
        Unit::new(&["mm2", "mm²", "mm^2", "sq mm"], 100),
        Unit::new(&["cm2", "cm²", "cm^2", "sq cm"], 10_000),
        Unit::new(&["in2", "in²", "in^2", "sq in", "square inches"], 64_516),
        Unit::new(&["yd2", "yd²", "yd^2", "sq yd", "square yards"], 9 * FT2),
    ];
    const RANGE: (i64, i64) = (0, Self::LARGEST.0);
    const RANGE_SAID: &'static str = "an area from zero to 1 km²";
    const FINEST_SAID: Option<&'static str> = None;

    fn from_small(small: i64) -> Self {
        Self(small)
    }
}

impl Written for Area {
    const WHAT: &'static str = "area";
    const EXAMPLE: &'static str = "an area like 12.5 m2 or 134 ft2";

    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        read_scaled(scan)
    }
}

written_as_string!(Area, "Area", "area");

impl fmt::Display for Area {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        print_exact(f, self.0, CHOICES)
    }
}

amount_sums!(Area);
