//! Chance by number: draw `index` of run `run` is the same whoever asks for it, and when.

use std::sync::LazyLock;

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

    /// A standard normal number: the score whose chance is the unit draw.
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss
    )]
    pub(crate) fn normal(self, index: u32) -> f64 {
        let unit = self.unit(index);
        let at = unit * CELLS as f64;
        let cell = at as usize;
        if !(TAIL..CELLS - TAIL).contains(&cell) {
            return score(unit);
        }
        let (a, b) = (SCORES[cell], SCORES[cell + 1]);
        a + (b - a) * (at - cell as f64)
    }
}

/// Cells of the table of scores. Between its points the error stays below 0.0002.
const CELLS: usize = 4096;
/// Cells at either end that are too curved for the table.
const TAIL: usize = 16;

/// Standard normal scores at equal steps of chance.
#[allow(clippy::cast_precision_loss)]
static SCORES: LazyLock<Vec<f64>> = LazyLock::new(|| {
    (0..=CELLS)
        .map(|cell| score((cell as f64 / CELLS as f64).clamp(1e-12, 1.0 - 1e-12)))
        .collect()
});

/// The standard normal score that is not passed with chance `unit`.
fn score(unit: f64) -> f64 {
    -std::f64::consts::SQRT_2 * erfc_inv(2.0 * unit)
}

#[cfg(test)]
mod tests {
    use super::{Draws, score};

    #[test]
    fn a_run_draws_the_same_whoever_asks() {
        let (a, b) = (Draws::new(7, 41), Draws::new(7, 41));
        assert_eq!(a.unit(3).to_bits(), b.unit(3).to_bits());
        assert_ne!(a.unit(3).to_bits(), a.unit(4).to_bits());
        assert_ne!(a.unit(3).to_bits(), Draws::new(7, 42).unit(3).to_bits());
        assert_ne!(a.unit(3).to_bits(), Draws::new(8, 41).unit(3).to_bits());
    }

    #[test]
    fn scores_are_those_of_the_normal_distribution() {
        // Standard normal quantiles [published, any statistical table]: 0.8, 0.9, 0.975, 0.99.
        for (chance, known) in [
            (0.8, 0.8416),
            (0.9, 1.2816),
            (0.975, 1.9600),
            (0.99, 2.3263),
        ] {
            assert!((score(chance) - known).abs() < 5e-5, "{chance}");
        }
        let far = (0..20_000)
            .map(|run| Draws::new(1, run))
            .map(|draws| (draws.normal(0) - score(draws.unit(0))).abs())
            .fold(0.0, f64::max);
        assert!(far < 2e-4, "the table is off by {far}");
    }

    #[test]
    fn draws_are_spread_evenly() {
        let count = 40_000;
        let (mut sum, mut squares, mut together) = (0.0, 0.0, 0.0);
        for run in 0..count {
            let (a, b) = (Draws::new(3, run).normal(5), Draws::new(3, run).normal(6));
            sum += a;
            squares += a * a;
            together += a * b;
        }
        // Within four standard errors of mean 0, variance 1 and no correlation.
        let count = f64::from(count);
        let error = 4.0 / count.sqrt();
        assert!((sum / count).abs() < error);
        assert!((squares / count - 1.0).abs() < error * 2f64.sqrt());
        assert!((together / count).abs() < error);
    }
}
