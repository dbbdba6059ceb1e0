//! How far one thing goes with another: ranks, their correlation, and the difference between the
//! worst runs and the best.

/// Ranks from 0, with the middle rank where several are the same.
#[allow(clippy::cast_precision_loss)]
pub(super) fn ranks(values: impl Iterator<Item = f64>) -> Vec<f64> {
    let values: Vec<f64> = values.collect();
    let mut order: Vec<usize> = (0..values.len()).collect();
    order.sort_unstable_by(|&a, &b| values[a].total_cmp(&values[b]).then(a.cmp(&b)));
    let mut ranks = vec![0.0; values.len()];
    let mut first = 0;
    while first < order.len() {
        let value = values[order[first]];
        let many = order[first..]
            .iter()
            .take_while(|&&i| values[i] == value)
            .count();
        let middle = first as f64 + (many as f64 - 1.0) / 2.0;
        for &i in &order[first..first + many] {
            ranks[i] = middle;
        }
        first += many;
    }
    ranks
}

/// Pearson's correlation; 0 where one of the two never changes. Of ranks it is Spearman's.
#[allow(clippy::cast_precision_loss)]
pub(super) fn correlation(a: &[f64], b: &[f64]) -> f64 {
    let count = a.len().min(b.len()) as f64;
    let (mean_a, mean_b) = (a.iter().sum::<f64>() / count, b.iter().sum::<f64>() / count);
    let (mut ab, mut aa, mut bb) = (0.0, 0.0, 0.0);
    for (x, y) in a.iter().zip(b) {
        let (x, y) = (x - mean_a, y - mean_b);
        ab += x * y;
        aa += x * x;
        bb += y * y;
    }
    let scale = (aa * bb).sqrt();
    if scale > 0.0 { ab / scale } else { 0.0 }
}

/// The mean of `dates` in the fifth of the runs with the highest scores, less that in the fifth with
/// the lowest. Where more than four fifths of the scores are the same, they are the one side and all
/// others the other.
#[allow(clippy::cast_precision_loss)]
pub(super) fn swing(scores: &[f64], dates: &[i32]) -> f64 {
    let mut order: Vec<usize> = (0..scores.len()).collect();
    order.sort_unstable_by(|&a, &b| scores[a].total_cmp(&scores[b]).then(a.cmp(&b)));
    let fifth = (order.len() / 5).max(1);
    let lowest = order.first().map_or(0.0, |&i| scores[i]);
    let same = order.iter().take_while(|&&i| scores[i] == lowest).count();
    let (low, high) = if same > order.len() - fifth && same < order.len() {
        order.split_at(same)
    } else {
        (&order[..fifth], &order[order.len() - fifth..])
    };
    let mean = |of: &[usize]| {
        of.iter().map(|&i| f64::from(dates[i])).sum::<f64>() / of.len().max(1) as f64
    };
    mean(high) - mean(low)
}

#[cfg(test)]
mod tests {
    use super::{correlation, ranks, swing};

    #[test]
    fn equal_values_share_the_middle_rank() {
        let found = ranks([3.0, 1.0, 3.0, 2.0].into_iter());
        assert_eq!(found, [2.5, 0.0, 2.5, 1.0]);
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
        assert!((swing(&scores, &dates) - 14.0).abs() < 1e-12);
    }
}
