//! Exact fractions, used only while reading.

/// A fraction of two whole numbers, the lower one above zero. It is not kept reduced.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Exact {
    over: i128,
    under: i128,
}

impl Exact {
    /// `over / under`; `None` when `under` is not above zero.
    pub(crate) fn new(over: i128, under: i128) -> Option<Self> {
        (under > 0).then_some(Self { over, under })
    }

    /// The sum of two fractions; `None` past 128 bits.
    pub(crate) fn plus(self, other: Self) -> Option<Self> {
        let left = self.over.checked_mul(other.under)?;
        let right = other.over.checked_mul(self.under)?;
        Self::new(
            left.checked_add(right)?,
            self.under.checked_mul(other.under)?,
        )
    }

    /// Whether it is smaller than one.
    pub(crate) fn is_below_one(self) -> bool {
        self.over < self.under
    }

    /// The same size with the other sign.
    pub(crate) fn negated(self) -> Self {
        Self {
            over: -self.over,
            under: self.under,
        }
    }

    /// This many of a unit that is `each` small units, as small units; `None` when that is not a
    /// whole number.
    pub(crate) fn whole(self, each: i64) -> Option<i128> {
        let scaled = self.over.checked_mul(i128::from(each))?;
        (scaled % self.under == 0).then(|| scaled / self.under)
    }

    /// This many of a unit that is `each` small units, to the nearest small unit, halves away from
    /// zero.
    pub(crate) fn nearest(self, each: i64) -> Option<i128> {
        let scaled = self.over.checked_mul(i128::from(each))?;
        let half = if scaled < 0 {
            -(self.under / 2)
        } else {
            self.under / 2
        };
        Some(scaled.checked_add(half)? / self.under)
    }
}
