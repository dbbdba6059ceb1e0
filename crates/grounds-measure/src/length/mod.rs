//! Lengths: exact, in feet and inches or metric.

mod print;
mod read;
mod round;

pub(crate) use read::{Side, no_unit, read_side};
pub use round::{Rounding, Step};

use std::iter::Sum;
use std::ops::{Add, AddAssign, Mul, Neg, Sub, SubAssign};

/// A length, exact to 1/64 in, to 0.001 in and to 0.0001 mm alike.
///
/// It is kept as a whole number of 1/40 000 mm. In that unit 1/64 in is 15 875, 0.001 in is 1 016
/// and 0.1 mm is 4 000, since 1 in = 25.4 mm exactly (international yard and pound agreement, 1959;
/// published). Sums and differences therefore never drift.
///
/// Texts with a unit are read by [`str::parse`]: `3' 4 5/8"`, `3'-4 5/8"`, `40-5/8"`, `5/8 in`,
/// `½"`, `1032 mm`, `1,032 mm`, `1.03 m`, `10 cm`, `-1/2"`. A bare number needs the job's system:
/// [`Length::parse_in`].
///
/// `Display` prints text that reads back to the same length, in whichever system is exact; for
/// people use [`Length::display`].
///
/// Lengths that are read lie within ±100 km; arithmetic that would leave the range of the type
/// stops at its end.
///
/// ```
/// use grounds_measure::{Length, Units};
/// let tile: Length = "7/64\"".parse()?;
/// let joint: Length = "3 mm".parse()?;
/// assert_eq!((tile + joint - tile).to_string(), "3 mm");
/// let wall: Length = (0..64).map(|_| "1/64 in".parse::<Length>()).sum::<Result<_, _>>()?;
/// assert_eq!(wall.display(Units::Imperial).to_string(), "1\"");
/// # Ok::<(), grounds_measure::MeasureError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Length(i64);

impl Length {
    /// Small units (1/40 000 mm) in a millimetre.
    pub const UNITS_PER_MM: i64 = 40_000;
    /// Small units (1/40 000 mm) in 1/64 inch.
    pub const UNITS_PER_64TH: i64 = 15_875;
    /// No length.
    pub const ZERO: Self = Self(0);
    /// The longest length that is read: 100 km.
    pub const LONGEST: Self = Self(100_000_000 * Self::UNITS_PER_MM);

    /// Small units in an inch and in a foot.
    pub(crate) const INCH: i64 = 64 * Self::UNITS_PER_64TH;
    pub(crate) const FOOT: i64 = 12 * Self::INCH;

    /// So many whole millimetres.
    #[must_use]
    pub const fn from_mm(mm: i64) -> Self {
        Self(mm.saturating_mul(Self::UNITS_PER_MM))
    }

    /// So many tenths of a millimetre.
    #[must_use]
    pub const fn from_tenths_mm(tenths: i64) -> Self {
        Self(tenths.saturating_mul(Self::UNITS_PER_MM / 10))
    }

    /// So many whole inches.
    #[must_use]
    pub const fn from_inches(inches: i64) -> Self {
        Self(inches.saturating_mul(Self::INCH))
    }

    /// So many 64ths of an inch.
    #[must_use]
    pub const fn from_64ths(sixty_fourths: i64) -> Self {
        Self(sixty_fourths.saturating_mul(Self::UNITS_PER_64TH))
    }

    /// So many small units of 1/40 000 mm.
    #[must_use]
    pub const fn from_units(units: i64) -> Self {
        Self(units)
    }

    /// The nearest length to a computed number of millimetres; `None` unless it is a number within
    /// [`Length::LONGEST`] either way.
    #[must_use]
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_precision_loss,
        reason = "held within ±100 km"
    )]
    pub fn from_mm_f64(mm: f64) -> Option<Self> {
        let units = (mm * Self::UNITS_PER_MM as f64).round();
        (units.abs() <= Self::LONGEST.0 as f64).then_some(Self(units as i64))
    }

    /// Small units of 1/40 000 mm.
    #[must_use]
    pub const fn units(self) -> i64 {
        self.0
    }

    /// Millimetres, for computing with physics; exact arithmetic stays with the type.
    #[must_use]
    #[expect(
        clippy::cast_precision_loss,
        reason = "a nearest number is what is asked for"
    )]
    pub fn mm(self) -> f64 {
        self.0 as f64 / Self::UNITS_PER_MM as f64
    }

    /// Metres, for computing with physics.
    #[must_use]
    pub fn metres(self) -> f64 {
        self.mm() / 1000.0
    }

    /// The same length without its sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.saturating_abs())
    }

    /// Whether it is below zero.
    #[must_use]
    pub const fn is_negative(self) -> bool {
        self.0 < 0
    }

    /// Whether it is above zero.
    #[must_use]
    pub const fn is_positive(self) -> bool {
        self.0 > 0
    }

    /// The sum, or `None` past the range of the type.
    #[must_use]
    pub fn checked_add(self, other: Self) -> Option<Self> {
        self.0.checked_add(other.0).map(Self)
    }

    /// So many times the length, or `None` past the range of the type.
    #[must_use]
    pub fn checked_mul(self, times: i64) -> Option<Self> {
        self.0.checked_mul(times).map(Self)
    }

    /// How many whole `parts` go into the length, and what is left over, never below zero.
    /// `None` unless `part` is above zero.
    ///
    /// ```
    /// use grounds_measure::Length;
    /// let (boards, rest) = Length::from_mm(1000).divide_by(Length::from_mm(120)).unwrap();
    /// assert_eq!((boards, rest), (8, Length::from_mm(40)));
    /// ```
    #[must_use]
    pub fn divide_by(self, part: Self) -> Option<(i64, Self)> {
        part.is_positive()
            .then(|| (self.0.div_euclid(part.0), Self(self.0.rem_euclid(part.0))))
    }
}

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl AddAssign for Length {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl SubAssign for Length {
    fn sub_assign(&mut self, other: Self) {
        *self = *self - other;
    }
}

impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self(self.0.saturating_neg())
    }
}

impl Mul<i64> for Length {
    type Output = Self;
    fn mul(self, times: i64) -> Self {
        Self(self.0.saturating_mul(times))
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Self>>(lengths: I) -> Self {
        lengths.fold(Self::ZERO, Add::add)
    }
}

impl<'a> Sum<&'a Length> for Length {
    fn sum<I: Iterator<Item = &'a Self>>(lengths: I) -> Self {
        lengths.copied().sum()
    }
}
