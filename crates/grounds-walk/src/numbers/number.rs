//! Exact numbers: fractions of whole numbers.

use std::fmt;

use serde::Serialize;

/// An exact number, as a fraction in lowest terms with a positive denominator.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize)]
pub struct Number {
    top: i64,
    bottom: i64,
}

impl Number {
    /// A fraction; none when the bottom is zero or a part is out of range.
    #[must_use]
    pub fn fraction(top: i64, bottom: i64) -> Option<Self> {
        if bottom == 0 || top == i64::MIN || bottom == i64::MIN {
            return None;
        }
        let shared = common(top.unsigned_abs(), bottom.unsigned_abs());
        let shared = i64::try_from(shared.max(1)).ok()?;
        let sign = bottom.signum();
        Some(Self {
            top: sign * (top / shared),
            bottom: sign * (bottom / shared),
        })
    }

    /// A whole number.
    #[must_use]
    pub fn whole(number: i64) -> Self {
        Self {
            top: number,
            bottom: 1,
        }
    }

    /// The sum, if it is in range.
    #[must_use]
    pub fn plus(self, other: Self) -> Option<Self> {
        let left = self.top.checked_mul(other.bottom)?;
        let right = other.top.checked_mul(self.bottom)?;
        Self::fraction(
            left.checked_add(right)?,
            self.bottom.checked_mul(other.bottom)?,
        )
    }

    /// The difference, if it is in range.
    #[must_use]
    pub fn minus(self, other: Self) -> Option<Self> {
        self.plus(other.times(-1, 1)?)
    }

    /// The number times a fraction, if it is in range.
    #[must_use]
    pub fn times(self, top: i64, bottom: i64) -> Option<Self> {
        Self::fraction(self.top.checked_mul(top)?, self.bottom.checked_mul(bottom)?)
    }

    /// The whole number that it is, if it is one.
    #[must_use]
    pub fn as_whole(self) -> Option<i64> {
        (self.bottom == 1).then_some(self.top)
    }

    /// The number, rounded to what a float holds.
    #[must_use]
    #[expect(
        clippy::cast_precision_loss,
        reason = "for sizes and for other crates' units"
    )]
    pub fn as_f64(self) -> f64 {
        self.top as f64 / self.bottom as f64
    }

    /// Top and bottom in lowest terms.
    #[must_use]
    pub fn parts(self) -> (i64, i64) {
        (self.top, self.bottom)
    }

    /// Reads digits as people type them: `1,200`, `9.5`, `5/8`.
    pub(crate) fn read(text: &str) -> Option<Self> {
        if text.len() > 24 {
            return None;
        }
        if let Some((top, bottom)) = text.split_once('/') {
            return Self::fraction(top.parse().ok()?, bottom.parse().ok()?);
        }
        let plain = text.replace(',', "");
        let (whole, part) = plain.split_once('.').unwrap_or((&plain, ""));
        if !(whole.is_empty() || whole.bytes().all(|b| b.is_ascii_digit()))
            || !part.bytes().all(|b| b.is_ascii_digit())
            || (whole.is_empty() && part.is_empty())
        {
            return None;
        }
        let places = u32::try_from(part.len()).ok()?;
        let top = format!("{whole}{part}").parse().ok()?;
        Self::fraction(top, 10_i64.checked_pow(places)?)
    }
}

impl PartialOrd for Number {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Number {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        let left = i128::from(self.top) * i128::from(other.bottom);
        let right = i128::from(other.top) * i128::from(self.bottom);
        left.cmp(&right)
    }
}

fn common(mut a: u64, mut b: u64) -> u64 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

impl fmt::Display for Number {
    /// Decimals where they end (`9.5`), a fraction where the bottom is a tape's (`30-1/16`).
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (top, bottom) = (self.top, self.bottom);
        if bottom == 1 {
            return write!(f, "{top}");
        }
        if !matches!(bottom, 3 | 4 | 8 | 16 | 32 | 64) && 1_000_000 % bottom == 0 {
            return write!(f, "{}", self.as_f64());
        }
        let (whole, rest) = (top / bottom, (top % bottom).abs());
        if whole == 0 {
            write!(f, "{top}/{bottom}")
        } else {
            write!(f, "{whole}-{rest}/{bottom}")
        }
    }
}
