//! Three-point judgements as a distribution: beta-PERT.
//!
//! Low `a`, likely `m` and high `b` become a beta distribution on `[a, b]` with
//! α = 1 + 4(m − a)/(b − a) and β = 1 + 4(b − m)/(b − a), whose mode is `m` and whose mean is
//! (a + 4m + b)/6. Source: the PERT papers of 1958–59 (Malcolm, Roseboom, Clark and Fazar 1959;
//! Clark 1962) \[published\].
//!
//! What is known against it, and what is done about it here:
//!
//! - The 4 is a convention, not a measurement; it fixes how sharply the likely value is believed.
//! - Low and high are taken as the very extremes. People who are asked name rather something like
//!   one time in ten either way, so real spreads are wider and tails longer than shown. Whoever
//!   means "one in ten" should give wider figures.
//! - The classical spread (b − a)/6 is only near the true one, (μ − a)(b − μ)/7 as a variance; the
//!   true one is what sampling gives.
//! - Adding up one path's means is optimistic where paths meet. The runs carry every path, so that
//!   bias is not in them.

use statrs::function::beta::{beta_reg, ln_beta};
use statrs::function::erf::erfc;

/// A beta-PERT distribution.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pert {
    low: f64,
    likely: f64,
    high: f64,
}

impl Pert {
    /// The distribution of a judgement; `None` unless low ≤ likely ≤ high and all are finite.
    #[must_use]
    pub fn new(low: f64, likely: f64, high: f64) -> Option<Self> {
        let finite = low.is_finite() && high.is_finite();
        (finite && low <= likely && likely <= high).then_some(Self { low, likely, high })
    }

    /// Whether there is nothing to draw: low and high are the same.
    #[must_use]
    pub fn is_certain(self) -> bool {
        self.high <= self.low
    }

    /// Where the likely value lies between low (0) and high (1).
    #[must_use]
    pub fn lean(self) -> f64 {
        if self.is_certain() {
            return 0.5;
        }
        (self.likely - self.low) / (self.high - self.low)
    }

    /// The two shapes, α and β.
    #[must_use]
    pub fn shapes(self) -> (f64, f64) {
        (1.0 + 4.0 * self.lean(), 5.0 - 4.0 * self.lean())
    }

    /// (a + 4m + b)/6.
    #[must_use]
    pub fn mean(self) -> f64 {
        (self.low + 4.0 * self.likely + self.high) / 6.0
    }

    /// (μ − a)(b − μ)/7.
    #[must_use]
    pub fn variance(self) -> f64 {
        let mean = self.mean();
        (mean - self.low) * (self.high - mean) / 7.0
    }

    /// The chance of a value at or below `x`.
    #[must_use]
    pub fn chance_by(self, x: f64) -> f64 {
        if x <= self.low {
            return if self.is_certain() && x >= self.low {
                1.0
            } else {
                0.0
            };
        }
        if x >= self.high {
            return 1.0;
        }
        let (alpha, beta) = self.shapes();
        beta_reg(alpha, beta, (x - self.low) / (self.high - self.low))
    }

    /// The value that is not passed with chance `p`.
    #[must_use]
    pub fn quantile(self, p: f64) -> f64 {
        let at = unit_quantile(self.shapes(), p, 0.5);
        self.low + (self.high - self.low) * at
    }
}

/// The quantile of the beta distribution on `[0, 1]`, by Newton's method kept within a shrinking
/// bracket. `near` is a first guess.
fn unit_quantile((alpha, beta): (f64, f64), p: f64, near: f64) -> f64 {
    if p <= 0.0 {
        return 0.0;
    }
    if p >= 1.0 {
        return 1.0;
    }
    let scale = ln_beta(alpha, beta);
    let (mut low, mut high) = (0.0, 1.0);
    let mut x = near.clamp(1e-9, 1.0 - 1e-9);
    for _ in 0..80 {
        let over = beta_reg(alpha, beta, x) - p;
        if over > 0.0 {
            high = x;
        } else {
            low = x;
        }
        let density = ((alpha - 1.0) * x.ln() + (beta - 1.0) * (-x).ln_1p() - scale).exp();
        let step = over / density;
        let next = if step.is_finite() && x - step > low && x - step < high {
            x - step
        } else {
            f64::midpoint(low, high)
        };
        if (next - x).abs() <= 1e-12 {
            return next;
        }
        x = next;
    }
    x
}

/// Points of a table.
const POINTS: usize = 512;
/// Standard normal scores that a table reaches to either side: chances of 3 in ten million.
const REACH: f64 = 5.0;

/// Quantiles of the beta distribution on `[0, 1]` for one lean, over standard normal scores: what
/// correlated drawing wants. Between its points it is straight, so it never falls.
#[derive(Clone, Debug)]
pub(crate) struct Table(Vec<f64>);

impl Table {
    pub(crate) fn new(lean: f64) -> Self {
        let shapes = (1.0 + 4.0 * lean, 5.0 - 4.0 * lean);
        let mut near = 0.0;
        let mut values = Vec::with_capacity(POINTS);
        for point in 0..POINTS {
            #[allow(clippy::cast_precision_loss)]
            let score = REACH * (2.0 * point as f64 / (POINTS - 1) as f64 - 1.0);
            near = unit_quantile(shapes, normal_chance(score), near);
            values.push(near);
        }
        Self(values)
    }

    /// The quantile at a standard normal score.
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss
    )]
    pub(crate) fn at(&self, score: f64) -> f64 {
        let x = ((score + REACH) * ((POINTS - 1) as f64 / (2.0 * REACH)))
            .clamp(0.0, (POINTS - 1) as f64 - 1e-9);
        let i = x as usize;
        let (a, b) = (self.0[i], self.0[i + 1]);
        a + (b - a) * (x - i as f64)
    }
}

/// The chance of a standard normal value at or below `score`.
pub(crate) fn normal_chance(score: f64) -> f64 {
    0.5 * erfc(-score / std::f64::consts::SQRT_2)
}
