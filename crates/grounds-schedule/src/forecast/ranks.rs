//! How far one thing goes with another: ranks, their correlation, and the difference between the
//! worst runs and the best.

/// Runs by score, the lowest first.
pub(super) struct Ranked {
    /// Score and run.
    sorted: Vec<(f32, u32)>,
}

impl Ranked {
    /// Sorts runs by their scores, given in the order of the runs; equal scores by run.
    #[allow(clippy::cast_possible_truncation)]
    pub(super) fn of(scores: impl Iterator<Item = f64>) -> Self {
        let mut keys: Vec<u64> = scores
            .zip(0u32..)
            .map(|(score, run)| u64::from(in_order(score as f32)) << 32 | u64::from(run))
            .collect();
        keys.sort_unstable();
        let sorted = keys
            .into_iter()
            .map(|key| (from_order((key >> 32) as u32), key as u32))
            .collect();
        Self { sorted }
    }

    /// Ranks from 0 in the order of the runs, less their mean; the middle rank where several scores
    /// are the same.
    #[allow(clippy::cast_precision_loss)]
    pub(super) fn ranks(&self) -> Vec<f64> {
        let mut ranks = vec![0.0; self.sorted.len()];
        let mean = (self.sorted.len() as f64 - 1.0) / 2.0;
        let mut first = 0;
        for same in self.sorted.chunk_by(|a, b| a.0 == b.0) {
            let middle = first as f64 + (same.len() as f64 - 1.0) / 2.0;
            for &(_, run) in same {
                ranks[run as usize] = middle - mean;
            }
            first += same.len();
        }
        ranks
    }

    /// The mean of `dates` in the fifth of the runs with the highest scores, less that in the fifth
    /// with the lowest. Where more than four fifths of the scores are the same, they are the one
    /// side and all others the other.
    #[allow(clippy::cast_precision_loss)]
    pub(super) fn swing(&self, dates: &[i32]) -> f64 {
        let fifth = (self.sorted.len() / 5).max(1);
        let same = self.sorted.chunk_by(|a, b| a.0 == b.0).next();
        let same = same.map_or(0, <[_]>::len);
        let (low, high) = if same + fifth > self.sorted.len() && same < self.sorted.len() {
            self.sorted.split_at(same)
        } else {
            let high = self.sorted.len().saturating_sub(fifth);
            (&self.sorted[..fifth.min(high)], &self.sorted[high..])
        };
        let mean = |of: &[(f32, u32)]| {
            let dates = of.iter().map(|&(_, run)| f64::from(dates[run as usize]));
            dates.sum::<f64>() / of.len().max(1) as f64
        };
        mean(high) - mean(low)
    }
}

/// A number whose order is that of the score.
fn in_order(score: f32) -> u32 {
    let bits = score.to_bits();
    if bits >> 31 == 1 {
        !bits
    } else {
        bits | 1 << 31
    }
}

fn from_order(order: u32) -> f32 {
    f32::from_bits(if order >> 31 == 1 {
        order & !(1 << 31)
    } else {
        !order
    })
}

/// The correlation of two lists of ranks less their means; 0 where one of the two never changes.
pub(super) fn correlation(a: &[f64], b: &[f64]) -> f64 {
    let sum = |x: &[f64], y: &[f64]| x.iter().zip(y).map(|(x, y)| x * y).sum::<f64>();
    let scale = (sum(a, a) * sum(b, b)).sqrt();
    if scale > 0.0 { sum(a, b) / scale } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::{Ranked, correlation};

    fn ranks(values: impl Iterator<Item = f64>) -> Vec<f64> {
        Ranked::of(values).ranks()
    }

    #[test]
    fn equal_values_share_the_middle_rank() {
        let found = ranks([3.0, -1.0, 3.0, 2.0].into_iter());
        assert_eq!(found, [1.0, -1.5, 1.0, -0.5]);
    }

    #[test]
    fn what_always_rises_together_is_fully_correlated_by_rank() {
        let cubes = ranks((0..20).map(|x| f64::from(x * x * x)));
        let plain = ranks((0..20).map(f64::from));
        assert!((correlation(&cubes, &plain) - 1.0).abs() < 1e-12);
        let falling = ranks((0..20).map(|x| f64::from(-x)));
        assert!((correlation(&falling, &plain) + 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_rare_fail_is_told_by_the_runs_with_it_against_those_without() {
        let scores = [0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 1.0];
        let dates = [10, 10, 10, 10, 10, 10, 10, 10, 10, 24];
        let swing = Ranked::of(scores.into_iter()).swing(&dates);
        assert!((swing - 14.0).abs() < 1e-12);
    }
}
