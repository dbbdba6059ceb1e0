//! The distribution of a sum of independent links of different shapes.

use nalgebra::Complex;

use super::normal_chance;
use crate::net::{Need, Shape};
use crate::network::{estimate::Figures, graph::Edge};

/// How far the first terms of the Edgeworth series may move a probability for the sum to count as
/// normal.
const NEAR: f64 = 5e-4;
/// Where the Fourier series is cut: terms below this, and never more terms than that.
const SMALL: f64 = 1e-7;
const TERMS: u32 = 4000;
/// How many standard deviations of the normal part belong to the support.
const REACH: f64 = 8.0;

/// A sum of links, each with its coefficient.
#[derive(Default)]
pub(super) struct Sum<'a> {
    links: Vec<(&'a Edge, f64)>,
    /// Variance of everything that is normal, and all of it.
    normal: f64,
    total: f64,
    /// Third and fourth cumulants.
    third: f64,
    fourth: f64,
    squares: f64,
}

impl<'a> Sum<'a> {
    pub(super) fn add(&mut self, edge: &'a Edge, coefficient: f64) {
        let variance = coefficient * coefficient * edge.variance;
        let half = coefficient * edge.limits.half();
        self.total += variance;
        self.squares += half * half;
        match edge.shape {
            Shape::Normal => self.normal += variance,
            Shape::Even => self.fourth -= 1.2 * variance * variance,
            Shape::Triangle => {
                self.fourth -= 0.6 * variance * variance;
                self.third += coefficient.powi(3) * third_moment(edge);
            }
        }
        self.links.push((edge, coefficient));
    }

    /// Adds something normal of which only the variance is known.
    pub(super) fn add_normal(&mut self, variance: f64) {
        self.normal += variance;
        self.total += variance;
        self.squares += 9.0 * variance;
    }

    pub(super) fn root_sum_of_squares(&self) -> f64 {
        self.squares.sqrt()
    }

    pub(super) fn chance(&self, figures: &Figures, need: &Need) -> f64 {
        if self.is_near_normal() {
            return normal_chance(figures.mean, figures.variance.sqrt(), need);
        }
        let series = Series::new(self);
        let below = |limit: f64| series.below(limit - figures.mean);
        let above_least = need.least.map_or(1.0, |least| 1.0 - below(least));
        let above_most = need.most.map_or(0.0, |most| 1.0 - below(most));
        (above_least - above_most).clamp(0.0, 1.0)
    }

    /// The largest values of (z² − 1)·φ(z)/6 and (z³ − 3z)·φ(z)/24 are 0.0665 and 0.0230.
    fn is_near_normal(&self) -> bool {
        let skewness = self.third.abs() / self.total.powf(1.5);
        let excess = self.fourth.abs() / (self.total * self.total);
        self.normal >= self.total || 0.0665 * skewness + 0.0230 * excess < NEAR
    }
}

/// The third central moment of a triangle with its peak at the nominal \[published\].
fn third_moment(edge: &Edge) -> f64 {
    let (minus, plus) = (
        edge.nominal - edge.limits.low,
        edge.limits.high - edge.nominal,
    );
    (plus - minus) * (2.0 * minus + plus) * (minus + 2.0 * plus) / 270.0
}

/// The Fourier series of the density of a sum about its mean, over its support.
struct Series {
    middle: f64,
    period: f64,
    values: Vec<Complex<f64>>,
}

impl Series {
    fn new(sum: &Sum) -> Self {
        let tail = REACH * sum.normal.sqrt();
        let (mut low, mut high) = (-tail, tail);
        let shaped: Vec<_> = sum
            .links
            .iter()
            .filter(|(edge, coefficient)| {
                edge.shape != Shape::Normal && coefficient * edge.limits.half() != 0.0
            })
            .collect();
        for (edge, coefficient) in &shaped {
            let ends = [
                coefficient * (edge.limits.low - edge.mean),
                coefficient * (edge.limits.high - edge.mean),
            ];
            low += ends[0].min(ends[1]);
            high += ends[0].max(ends[1]);
        }
        let mut series = Self {
            middle: f64::midpoint(low, high),
            period: high - low,
            values: Vec::new(),
        };
        let mut quiet = 0;
        for term in 1..=TERMS {
            let speed = series.speed(term);
            let normal = (-sum.normal * speed * speed / 2.0).exp();
            let mut value = Complex::from_polar(normal, -speed * series.middle);
            for (edge, coefficient) in &shaped {
                value *= turned(edge, speed * coefficient);
            }
            series.values.push(value);
            quiet = if value.norm() < SMALL * f64::from(term) {
                quiet + 1
            } else {
                0
            };
            if quiet == 5 {
                break;
            }
        }
        series
    }

    fn speed(&self, term: u32) -> f64 {
        std::f64::consts::TAU * f64::from(term) / self.period
    }

    /// The chance of a deviation from the mean below `deviation`.
    fn below(&self, deviation: f64) -> f64 {
        let x = deviation - self.middle;
        if x <= -self.period / 2.0 {
            return 0.0;
        }
        if x >= self.period / 2.0 {
            return 1.0;
        }
        let mut sum = 0.5 + x / self.period;
        let mut end = 1.0;
        for (term, value) in (1..).zip(&self.values) {
            end = -end;
            let (sine, cosine) = (self.speed(term) * x).sin_cos();
            let part = value.re * sine - value.im * (cosine - end);
            sum += part / (std::f64::consts::PI * f64::from(term));
        }
        sum.clamp(0.0, 1.0)
    }
}

/// The characteristic function of an even or triangular link about its mean.
fn turned(edge: &Edge, speed: f64) -> Complex<f64> {
    match edge.shape {
        Shape::Triangle => {
            let (minus, plus) = (
                edge.nominal - edge.limits.low,
                edge.limits.high - edge.nominal,
            );
            let value = minus * falling(-speed * minus) + plus * falling(speed * plus);
            value / (minus + plus) * Complex::from_polar(1.0, speed * (edge.nominal - edge.mean))
        }
        Shape::Even | Shape::Normal => {
            let turn = speed * edge.limits.half();
            let value = if turn.abs() < 1e-4 {
                1.0 - turn * turn / 6.0
            } else {
                turn.sin() / turn
            };
            Complex::from(value)
        }
    }
}

/// The characteristic function of the density 2(1 − u) on 0 to 1.
fn falling(turn: f64) -> Complex<f64> {
    if turn.abs() < 1e-2 {
        let square = turn * turn;
        let re = 1.0 - square / 12.0 + square * square / 360.0;
        let im = turn / 3.0 * (1.0 - square / 20.0);
        return Complex::new(re, im);
    }
    let half = (turn / 2.0).sin() / turn;
    Complex::new(4.0 * half * half, 2.0 * (turn - turn.sin()) / (turn * turn))
}
