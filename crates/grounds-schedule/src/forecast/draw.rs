//! Chance by number: draw `index` of run `run` is the same whoever asks for it, and when.

use statrs::function::erf::erfc_inv;

/// The draws of one run. Draw `index` is number `index` of a splitmix64 sequence (Steele, Lea and
/// Flood 2014) that begins where the seed and the run say, so that runs can be shared out among
/// threads, and one draw can be had again without the others.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Draws(u64);

const GOLDEN: u64 = 0x9E37_79B9_7F4A_7C15;

fn mixed(mut z: u64) -> u64 {
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}

impl Draws {
    pub(crate) fn new(seed: u64, run: u32) -> Self {
        let run = u64::from(run)
            .wrapping_add(1)
            .wrapping_mul(0xD1B5_4A32_D192_ED03);
        Self(mixed(mixed(seed.wrapping_add(GOLDEN)) ^ run))
    }

    /// A number above 0 and below 1.
    #[allow(clippy::cast_precision_loss)]
    pub(crate) fn unit(self, index: u32) -> f64 {
        let step = GOLDEN.wrapping_mul(u64::from(index).wrapping_add(1));
        let number = mixed(self.0.wrapping_add(step));
        ((number >> 11) as f64 + 0.5) / (1u64 << 53) as f64
    }

    /// A standard normal number.
    pub(crate) fn normal(self, index: u32) -> f64 {
        -std::f64::consts::SQRT_2 * erfc_inv(2.0 * self.unit(index))
    }
}
