//! Weights of pieces and of powders.

use crate::amount_sums::amount_sums;
use crate::error::Fault;
use crate::print::{Choice, print_exact, rounded_decimal};
use crate::reading::{Scaled, Scanner, Unit, Written, read_scaled, written_as_string};
use crate::units::Units;
use std::fmt;

/// A weight, never below zero, as a whole number of nanograms.
///
/// A pound is 453 592 370 000 of them exactly and an ounce 28 349 523 125 (1 lb = 0.453 592 37 kg,
/// international yard and pound agreement, 1959; published). Reads `42 kg`, `350 g`, `1.2 t`
/// (tonnes), `95 lb`, `6 oz`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Weight(i64);

const GRAM: i64 = 1_000_000_000;
const KG: i64 = 1000 * GRAM;
const POUND: i64 = 453_592_370_000;
const OUNCE: i64 = 28_349_523_125;
const CHOICES: &[Choice] = &[
    ("kg", KG, 3),
    ("lb", POUND, 2),
    ("oz", OUNCE, 2),
    ("g", GRAM, 9),
];

impl Weight {
    /// No weight.
    pub const ZERO: Self = Self(0);
    /// The largest weight that is read: 1 000 tonnes.
    pub const LARGEST: Self = Self(1_000_000 * KG);

    /// The nearest weight to a computed number of kilograms; `None` unless it lies between zero and
    /// [`Weight::LARGEST`].
    #[must_use]
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_precision_loss,
        reason = "held in range"
    )]
    pub fn from_kg_f64(kg: f64) -> Option<Self> {
        let units = (kg * KG as f64).round();
        (0.0..=Self::LARGEST.0 as f64)
            .contains(&units)
            .then_some(Self(units as i64))
    }

    /// Small units: nanograms.
    #[must_use]
    pub const fn units(self) -> i64 {
        self.0
    }

    /// The weight of so many nanograms; `None` below zero.
    #[must_use]
    pub const fn from_units(units: i64) -> Option<Self> {
        if units < 0 { None } else { Some(Self(units)) }
    }

    /// Kilograms, for computing with physics.
    #[must_use]
    #[expect(
        clippy::cast_precision_loss,
        reason = "a nearest number is what is asked for"
    )]
    pub fn kg(self) -> f64 {
        self.0 as f64 / KG as f64
    }

    /// Prints for people in the job's units, to tenths: `42 kg`, `92.6 lb`.
    #[must_use]
    pub fn display(self, units: Units) -> impl fmt::Display {
        match units {
            Units::Metric => format!("{} kg", rounded_decimal(self.0, KG, 1)),
            Units::Imperial => format!("{} lb", rounded_decimal(self.0, POUND, 1)),
        }
    }
}

impl Scaled for Weight {
    const UNITS: &'static [Unit] = &[
        Unit::large(&["kg", "kilogram", "kilograms", "kilos"], KG),
        Unit::new(&["g", "gram", "grams"], GRAM),
        Unit::large(&["t", "tonne", "tonnes"], 1000 * KG),
        Unit::new(&["lb", "lbs", "pound", "pounds"], POUND),
        Unit::new(&["oz", "ounce", "ounces"], OUNCE),
    ];
    const RANGE: (i64, i64) = (0, Self::LARGEST.0);
    const RANGE_SAID: &'static str = "a weight from zero to 1000 t";
    const FINEST_SAID: Option<&'static str> = None;

    fn from_small(small: i64) -> Self {
        Self(small)
    }
}

impl Written for Weight {
    const WHAT: &'static str = "weight";
    const EXAMPLE: &'static str = "a weight like 42 kg or 95 lb";

    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        read_scaled(scan)
    }
}

written_as_string!(Weight, "Weight", "weight");

impl fmt::Display for Weight {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        print_exact(f, self.0, CHOICES)
    }
}

amount_sums!(Weight);
