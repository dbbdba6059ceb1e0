//! Volumes of what comes in tins, pails and bags.

use crate::amount_sums::amount_sums;
use crate::error::Fault;
use crate::print::{Choice, print_exact, rounded_decimal};
use crate::reading::{Scaled, Scanner, Unit, Written, read_scaled, written_as_string};
use crate::units::Units;
use std::fmt;

/// A volume, never below zero, as a whole number of 1/1000 mm³.
///
/// A US gallon is 3 785 411 784 of them exactly (231 in³; NIST Handbook 44, appendix C, published)
/// and a cubic foot 28 316 846 592. Finer texts are taken to the nearest. Reads `5 L`, `750 mL`,
/// `0.4 m3`, `1 gal`, `1 qt`, `3 ft3`. A gallon is always the US gallon.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Volume(i64);

const LITRE: i64 = 1_000_000_000;
const GALLON: i64 = 3_785_411_784;
const FT3: i64 = 28_316_846_592;
const CHOICES: &[Choice] = &[
    ("L", LITRE, 3),
    ("gal", GALLON, 2),
    ("ft3", FT3, 2),
    ("L", LITRE, 9),
];

impl Volume {
    /// No volume.
    pub const ZERO: Self = Self(0);
    /// The largest volume that is read: 1 000 m³.
    pub const LARGEST: Self = Self(1_000_000 * LITRE);

    /// The nearest volume to a computed number of litres; `None` unless it lies between zero and
    /// [`Volume::LARGEST`].
    #[must_use]
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_precision_loss,
        reason = "held in range"
    )]
    pub fn from_litres_f64(litres: f64) -> Option<Self> {
        let units = (litres * LITRE as f64).round();
        (0.0..=Self::LARGEST.0 as f64)
            .contains(&units)
            .then_some(Self(units as i64))
    }

    /// Small units of 1/1000 mm³.
    #[must_use]
    pub const fn units(self) -> i64 {
        self.0
    }

    /// The volume of so many small units; `None` below zero.
    #[must_use]
    pub const fn from_units(units: i64) -> Option<Self> {
        if units < 0 { None } else { Some(Self(units)) }
    }

    /// Litres, for computing with physics.
    #[must_use]
    #[expect(
        clippy::cast_precision_loss,
        reason = "a nearest number is what is asked for"
    )]
    pub fn litres(self) -> f64 {
        self.0 as f64 / LITRE as f64
    }

    /// Prints for people in the job's units, to hundredths: `7.5 L`, `1.98 gal`.
    #[must_use]
    pub fn display(self, units: Units) -> impl fmt::Display {
        match units {
            Units::Metric => format!("{} L", rounded_decimal(self.0, LITRE, 2)),
            Units::Imperial => format!("{} gal", rounded_decimal(self.0, GALLON, 2)),
        }
    }
}

impl Scaled for Volume {
    const UNITS: &'static [Unit] = &[
        Unit::large(&["L", "litre", "litres", "liter", "liters"], LITRE),
        Unit::new(
            &[
                "mL",
                "millilitre",
                "millilitres",
                "milliliter",
                "milliliters",
            ],
            LITRE / 1000,
        ),
        Unit::large(
            &["m3", "m³", "m^3", "cubic metres", "cubic meters"],
            1000 * LITRE,
        ),
        Unit::new(&["gal", "gallon", "gallons"], GALLON),
        Unit::new(&["qt", "quart", "quarts"], GALLON / 4),
        Unit::new(
            &["ft3", "ft³", "ft^3", "cu ft", "cubic feet", "cubic foot"],
            FT3,
        ),
        Unit::new(&["yd3", "yd³", "yd^3", "cu yd", "cubic yards"], 27 * FT3),
    ];
    const RANGE: (i64, i64) = (0, Self::LARGEST.0);
    const RANGE_SAID: &'static str = "a volume from zero to 1000 m³";
    const FINEST_SAID: Option<&'static str> = None;

    fn from_small(small: i64) -> Self {
        Self(small)
    }
}

impl Written for Volume {
    const WHAT: &'static str = "volume";
    const EXAMPLE: &'static str = "a volume like 5 L or 1 gal";

    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        read_scaled(scan)
    }
}

written_as_string!(Volume, "Volume", "volume");

impl fmt::Display for Volume {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        print_exact(f, self.0, CHOICES)
    }
}

amount_sums!(Volume);
