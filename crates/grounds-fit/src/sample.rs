//! A distance drawn many times over: what no formula was asked for.
//!
//! Every link is drawn for itself from its own shape, and the distance is the sum that the working
//! of a need states. Normal links may fall outside their limits, as three in a thousand do.

use crate::luck::Luck;
use crate::net::{LinkKind, Need, Net, Shape};
use crate::prior::Term;

/// A distance, drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Sample {
    /// All draws, mm, the least first.
    pub distances: Vec<f64>,
}

/// Draws a distance. `working` is [`crate::prior::Prior::working`] or
/// [`crate::adjust::Adjustment::working`] of a need of the same net; terms of links that do not exist
/// are passed over. The same seed always gives the same draws.
#[must_use]
pub fn sample(net: &Net, working: &[Term], runs: usize, seed: u64) -> Sample {
    let mut luck = Luck::new(seed);
    let terms: Vec<(LinkKind, f64)> = working
        .iter()
        .filter_map(|term| Some((net.links.get(term.link.index())?.kind, term.coefficient)))
        .collect();
    let mut distances: Vec<f64> = (0..runs)
        .map(|_| {
            let drawn = terms.iter();
            drawn
                .map(|(kind, coefficient)| coefficient * draw(*kind, &mut luck))
                .sum()
        })
        .collect();
    distances.sort_by(f64::total_cmp);
    Sample { distances }
}

fn draw(kind: LinkKind, luck: &mut Luck) -> f64 {
    let limits = kind.limits();
    match kind.shape() {
        Shape::Normal => kind.mean() + kind.variance().sqrt() * luck.normal(),
        Shape::Even => limits.low + (limits.high - limits.low) * luck.share(),
        Shape::Triangle => {
            let (minus, plus) = kind.tolerance();
            let (share, width) = (luck.share(), minus + plus);
            // The two sides of the triangle's distribution, inverted [published].
            if share * width <= minus {
                limits.low + (share * width * minus).sqrt()
            } else {
                limits.high - ((1.0 - share) * width * plus).sqrt()
            }
        }
    }
}

#[expect(clippy::cast_precision_loss, reason = "far below 2^52 draws")]
impl Sample {
    /// The mean of all draws; NaN without any.
    #[must_use]
    pub fn mean(&self) -> f64 {
        self.distances.iter().sum::<f64>() / self.distances.len() as f64
    }

    /// The standard deviation of all draws; NaN without any.
    #[must_use]
    pub fn spread(&self) -> f64 {
        let mean = self.mean();
        let squares = self.distances.iter().map(|it| (it - mean).powi(2));
        (squares.sum::<f64>() / self.distances.len() as f64).sqrt()
    }

    /// The share of draws that meet a need; NaN without any.
    #[must_use]
    pub fn met(&self, need: &Need) -> f64 {
        let met = self.distances.iter().filter(|it| need.margin(**it) >= 0.0);
        met.count() as f64 / self.distances.len() as f64
    }
}
