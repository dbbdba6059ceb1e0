//! Sums and multiples of amounts that are whole numbers of a small unit.

/// Adds, multiplies and sums up a type that wraps an `i64` and has a `ZERO`; stops at its limits
/// instead of going round.
macro_rules! amount_sums {
    ($amount:ident) => {
        impl std::ops::Add for $amount {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0.saturating_add(other.0))
            }
        }

        impl std::ops::Mul<u32> for $amount {
            type Output = Self;
            fn mul(self, times: u32) -> Self {
                Self(self.0.saturating_mul(i64::from(times)))
            }
        }

        impl std::iter::Sum for $amount {
            fn sum<I: Iterator<Item = Self>>(amounts: I) -> Self {
                amounts.fold(Self::ZERO, std::ops::Add::add)
            }
        }
    };
}

pub(crate) use amount_sums;
