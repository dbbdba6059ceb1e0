//! Numbers drawn from a seed: the same seed always gives the same numbers.

use statrs::distribution::{ContinuousCDF, Normal};

/// A source of drawn numbers: splitmix64 (Steele, Lea and Flood, 2014 \[published\]).
#[derive(Clone, Copy, Debug)]
pub(crate) struct Luck(u64);

impl Luck {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// Any number between 0 and 1, neither included.
    pub(crate) fn share(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^= z >> 31;
        #[expect(clippy::cast_precision_loss, reason = "52 bits fit")]
        let whole = (z >> 12) as f64;
        (whole + 0.5) / 4_503_599_627_370_496.0
    }

    /// A normal number of mean 0 and spread 1.
    pub(crate) fn normal(&mut self) -> f64 {
        Normal::standard().inverse_cdf(self.share())
    }
}
