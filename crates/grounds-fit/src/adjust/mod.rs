//! What each need comes to once readings are in: generalised least squares over the net.
//!
//! What is built and what was set are prior observations with their mean and variance, readings are
//! observations beside them, each weighed by one over its variance. Positions x solve
//! AᵀPA·x = AᵀPl, the covariance of x is (AᵀPA)⁻¹, residuals are v = adjusted less observed, and the
//! redundancy number of a link is the share of an error in it that shows in its own residual
//! \[published: textbooks of adjustment computations, levelling networks\].
//!
//! Spreads come from the stated uncertainties alone; they are not scaled by how well the readings
//! agree. Whoever wants that multiplies by [`ChiSquare::factor`].

mod snoop;

use statrs::distribution::{ChiSquared, ContinuousCDF};

use crate::check::{self, Unsound};
use crate::net::{LinkId, Need, NeedId, Net, PointId};
use crate::network::{estimate::Estimate, select};
use crate::prior::{self, Term};

pub use snoop::{CRITICAL, Outlier, TESTABLE};

/// A net with its readings weighed in.
#[derive(Clone, Debug)]
pub struct Adjustment {
    /// One for each need of the net, in its order; none where no links join its points.
    pub needs: Vec<Option<NeedPosterior>>,
    /// One for each link of the net, in its order; none where it had no say: a setting not yet
    /// chosen whose points are joined otherwise, or a link set aside.
    pub links: Vec<Option<Residual>>,
    /// How well everything agrees.
    pub agreement: ChiSquare,
    /// Links that disagree with the others, the worst of each group of loops first. They still have
    /// their say in everything above: see [`adjust_without`].
    pub outliers: Vec<Outlier>,
    pub(crate) estimate: Estimate,
    ends: Vec<(PointId, PointId)>,
}

/// What one need comes to. All figures in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NeedPosterior {
    /// The mean of the distance.
    pub mean: f64,
    /// Its standard deviation.
    pub spread: f64,
    /// The chance that the need is met, 0 to 1; as [`crate::prior::NeedPrior::chance`].
    pub chance: f64,
}

/// How one link agrees with all others. Lengths are millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Residual {
    /// The distance of its points, adjusted.
    pub adjusted: f64,
    /// The standard deviation of that.
    pub spread: f64,
    /// Adjusted less observed: what the link was corrected by.
    pub residual: f64,
    /// The share of an error in this link that shows in its own residual: 0 where nothing checks it,
    /// 1 where the others know everything better. All of them add up to the degrees of freedom.
    pub redundancy: f64,
    /// The residual in standard deviations of itself (Baarda's w); none where the redundancy is less
    /// than [`TESTABLE`].
    pub standardised: Option<f64>,
}

/// The weighed sum of squared residuals.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChiSquare {
    /// Σ(v/σ)².
    pub value: f64,
    /// How many links there are beyond those that are needed to join the points.
    pub freedom: usize,
    /// The chance of a value as large or larger if all uncertainties are as stated: below 0.05
    /// something is off; 1 without degrees of freedom.
    pub chance: f64,
}

impl ChiSquare {
    fn new(value: f64, freedom: usize) -> Self {
        #[expect(clippy::cast_precision_loss, reason = "far below 2^52")]
        let distribution = ChiSquared::new(freedom as f64);
        Self {
            value,
            freedom,
            chance: distribution.map_or(1.0, |chi| chi.sf(value)),
        }
    }

    /// The standard deviation of unit weight, √(value / freedom): about 1 where the uncertainties are
    /// as stated; none without degrees of freedom.
    #[must_use]
    pub fn factor(&self) -> Option<f64> {
        #[expect(clippy::cast_precision_loss, reason = "far below 2^52")]
        (self.freedom > 0).then(|| (self.value / self.freedom as f64).sqrt())
    }
}

/// Weighs the readings of a net in.
///
/// # Errors
/// When the net is unsound, with all its faults. A need whose points are not joined is no error; it
/// gets no answer.
pub fn adjust(net: &Net) -> Result<Adjustment, Unsound> {
    adjust_without(net, &[])
}

/// The same, with some links left out of the account: outliers that were looked into, or what an
/// answer would be without one reading.
///
/// # Errors
/// As [`adjust`].
pub fn adjust_without(net: &Net, set_aside: &[LinkId]) -> Result<Adjustment, Unsound> {
    check::sound(net)?;
    let estimate = Estimate::new(net, &select::with_readings(net, set_aside));
    let (links, agreement) = residuals(net, &estimate);
    let needs = net.needs.iter();
    Ok(Adjustment {
        needs: needs.map(|need| posterior(&estimate, need)).collect(),
        links,
        agreement,
        outliers: snoop::outliers(net, &estimate),
        ends: net.needs.iter().map(|need| (need.from, need.to)).collect(),
        estimate,
    })
}

impl Adjustment {
    /// What each link does to a need: in loops the coefficient tells how much of an error in the link
    /// comes through. Empty where its points are not joined.
    #[must_use]
    pub fn working(&self, need: NeedId) -> Vec<Term> {
        let ends = self.ends.get(need.index());
        ends.map_or_else(Vec::new, |(from, to)| {
            prior::terms(&self.estimate, *from, *to)
        })
    }

    /// Mean and standard deviation of the distance of any two points; none where they are not joined
    /// or do not exist.
    #[must_use]
    pub fn distance(&self, from: PointId, to: PointId) -> Option<(f64, f64)> {
        let points = self.estimate.graph.points();
        if from.index().max(to.index()) >= points {
            return None;
        }
        let route = self.estimate.blocks.route(from.index(), to.index())?;
        let figures = self.estimate.figures(&route);
        Some((figures.mean, figures.variance.sqrt()))
    }
}

fn posterior(estimate: &Estimate, need: &Need) -> Option<NeedPosterior> {
    let route = estimate.blocks.route(need.from.index(), need.to.index())?;
    let figures = estimate.figures(&route);
    Some(NeedPosterior {
        mean: figures.mean,
        spread: figures.variance.sqrt(),
        chance: prior::chance(estimate, &route, &figures, need),
    })
}

fn residuals(net: &Net, estimate: &Estimate) -> (Vec<Option<Residual>>, ChiSquare) {
    let mut links = vec![None; net.links.len()];
    let (mut value, mut freedom) = (0.0, 0);
    for (edges, solved) in estimate.blocks.edges.iter().zip(&estimate.loops) {
        let Some(solved) = solved else {
            for edge in edges.iter().map(|edge| &estimate.graph.edges[*edge]) {
                links[edge.link.index()] = Some(Residual {
                    adjusted: edge.mean,
                    spread: edge.variance.sqrt(),
                    residual: 0.0,
                    redundancy: 0.0,
                    standardised: None,
                });
            }
            continue;
        };
        freedom += solved.edges.len() - solved.points.len();
        for (edge, residual) in snoop::residuals(&estimate.graph, solved) {
            let weight = solved.weighed[edge].weight;
            value += residual.residual * residual.residual * weight;
            let link = estimate.graph.edges[solved.edges[edge]].link;
            links[link.index()] = Some(residual);
        }
    }
    (links, ChiSquare::new(value, freedom))
}
