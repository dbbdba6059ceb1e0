//! What is to be expected of each need before anything is measured: nominal, worst case, spread,
//! chance, and what each link does to it.
//!
//! Sources:
//! - worst case T = Σ|aᵢ|·Tᵢ and root sum of squares T = √Σ(aᵢTᵢ)² of independent, centred links
//!   \[published: report on stack methods, 1995\]; inflated by 1.5 for shifted or not normal values
//!   \[from memory\]. With unequal tolerances the middle lies at the mean, not at the nominal.
//! - Worst case where links close loops: difference constraints and shortest paths (textbook
//!   algorithms \[published\]).
//! - Spread where links close loops: generalised least squares, see [`crate::adjust`].
//! - Chance of meeting a need: the normal distribution where the sum is close to normal, else exactly
//!   for the stated shapes; see [`Prior::needs`].

mod chance;
mod worst;

use statrs::distribution::{ContinuousCDF, Normal};

use crate::check::{self, Unsound};
use crate::net::{Interval, LinkId, Need, NeedId, Net, PointId};
use crate::network::{
    blocks::Leg,
    estimate::{Estimate, Figures},
    select,
};
use chance::Sum;
pub(crate) use worst::Worst;

/// How much wider the inflated root sum of squares is than the plain one.
pub const INFLATION: f64 = 1.5;

/// Loops of more links than this count as normal in chances and in the root sum of squares: so many
/// links leave nothing of their shapes.
const MANY: usize = 256;

/// What is to be expected of every need.
#[derive(Clone, Debug)]
pub struct Prior {
    /// One for each need of the net, in its order; none where no links join its points.
    pub needs: Vec<Option<NeedPrior>>,
    /// Loops that cannot close within their tolerances. Needs across them have no worst case.
    pub contradictions: Vec<Contradiction>,
    estimate: Estimate,
    ends: Vec<(PointId, PointId)>,
}

/// What is to be expected of one need. All figures in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NeedPrior {
    /// The distance with every link at its nominal.
    pub nominal: f64,
    /// The mean of the distance; beside the nominal where tolerances are unequal.
    pub mean: f64,
    /// Its standard deviation.
    pub spread: f64,
    /// The least and most that can be with every link within its limits; none where the links
    /// contradict each other.
    pub worst: Option<Interval>,
    /// The mean, less and plus the root sum of squares of the tolerances.
    pub rss: Interval,
    /// The mean, less and plus [`INFLATION`] times that.
    pub inflated: Interval,
    /// The chance that the need is met, 0 to 1, good to a thousandth.
    ///
    /// Normal links, and sums whose skewness and kurtosis move no probability by more than half a
    /// thousandth (first terms of the Edgeworth series), are taken from the normal distribution.
    /// Sums of few even or triangular links are taken from the Fourier series of their exact
    /// distribution on its support (closed characteristic functions \[published\]), which no sampling
    /// could match in speed.
    pub chance: f64,
}

/// What one link does to a distance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Term {
    /// The link.
    pub link: LinkId,
    /// What a millimetre more in the link adds to the distance: 1 or −1 along a chain, something
    /// between where loops share it.
    pub coefficient: f64,
    /// Its share of the variance, 0 to 1; all shares add up to 1, or are 0 where nothing spreads.
    pub share: f64,
}

/// A loop that cannot close: each of its links within its limits still leaves a gap.
#[derive(Clone, Debug, PartialEq)]
pub struct Contradiction {
    /// The links of the loop, in order round it.
    pub links: Vec<LinkId>,
    /// By how much it fails to close at least, mm, above zero.
    pub gap: f64,
}

/// What is to be expected of every need of a net, before readings.
///
/// Readings enter only where nothing else joins two parts (an existing slab that nobody designed);
/// then three standard deviations stand in as their worst case. A setting that nobody chose yet
/// stands in at the middle of its range, and only where nothing else joins its points.
///
/// # Errors
/// When the net is unsound, with all its faults. A need whose points are not joined is no error; it
/// gets no answer.
///
/// ```
/// use grounds_fit::net::{Link, LinkKind, Need, Net, PointId, Shape};
/// use grounds_fit::prior::prior;
/// // Stud face to finish: board 12.5 ± 0.5, skim 3 ± 1; the frame stands 18 ± 0.5 from the stud.
/// let built = |from, to, nominal, tolerance| Link {
///     from: PointId(from),
///     to: PointId(to),
///     kind: LinkKind::Built {
///         nominal,
///         minus: tolerance,
///         plus: tolerance,
///         shape: Shape::Normal,
///     },
/// };
/// let net = Net {
///     points: 4,
///     links: vec![built(0, 1, 12.5, 0.5), built(1, 2, 3.0, 1.0), built(0, 3, 18.0, 0.5)],
///     needs: vec![Need { from: PointId(2), to: PointId(3), least: Some(1.0), most: Some(4.0) }],
/// };
/// let prior = prior(&net)?;
/// let proud = prior.needs[0].ok_or("not joined")?;
/// assert!((proud.nominal - 2.5).abs() < 1e-9);
/// assert_eq!(proud.worst.map(|worst| (worst.low, worst.high)), Some((0.5, 4.5)));
/// assert!(proud.chance > 0.997);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn prior(net: &Net) -> Result<Prior, Unsound> {
    check::sound(net)?;
    let estimate = Estimate::new(net, &select::before_readings(net));
    let worst = Worst::new(&estimate);
    let needs = net.needs.iter();
    Ok(Prior {
        needs: needs
            .map(|need| expected(&estimate, &worst, need))
            .collect(),
        contradictions: worst.contradictions,
        ends: net.needs.iter().map(|need| (need.from, need.to)).collect(),
        estimate,
    })
}

impl Prior {
    /// What each link does to a need, in the order of the way from its first point to its second.
    /// Empty where its points are not joined.
    #[must_use]
    pub fn working(&self, need: NeedId) -> Vec<Term> {
        let ends = self.ends.get(need.index());
        ends.map_or_else(Vec::new, |(from, to)| terms(&self.estimate, *from, *to))
    }
}

fn expected(estimate: &Estimate, worst: &Worst, need: &Need) -> Option<NeedPrior> {
    let route = estimate.blocks.route(need.from.index(), need.to.index())?;
    let figures = estimate.figures(&route);
    let sum = sum_of(estimate, &route);
    let rss = sum.root_sum_of_squares();
    Some(NeedPrior {
        nominal: figures.nominal,
        mean: figures.mean,
        spread: figures.variance.sqrt(),
        worst: worst.route(estimate, &route),
        rss: Interval::about(figures.mean, rss),
        inflated: Interval::about(figures.mean, INFLATION * rss),
        chance: sum.chance(&figures, need),
    })
}

/// The chance that a distance known from links meets a need.
pub(crate) fn chance(estimate: &Estimate, route: &[Leg], figures: &Figures, need: &Need) -> f64 {
    sum_of(estimate, route).chance(figures, need)
}

fn sum_of<'a>(estimate: &'a Estimate, route: &[Leg]) -> Sum<'a> {
    let mut sum = Sum::default();
    for leg in route {
        if estimate.blocks.edges[leg.block].len() > MANY {
            sum.add_normal(estimate.leg(leg).variance);
            continue;
        }
        for (edge, coefficient) in estimate.coefficients(leg) {
            sum.add(&estimate.graph.edges[edge], coefficient);
        }
    }
    sum
}

/// The chance that a normal distance meets a need; a spread of zero is a sure thing.
#[must_use]
pub fn normal_chance(mean: f64, spread: f64, need: &Need) -> f64 {
    if spread <= 0.0 {
        return f64::from(need.margin(mean) >= 0.0);
    }
    let beyond = |room: f64| Normal::standard().sf(room / spread);
    let short = need.least.map_or(0.0, |least| beyond(mean - least));
    let over = need.most.map_or(0.0, |most| beyond(most - mean));
    (1.0 - short - over).max(0.0)
}

pub(crate) fn terms(estimate: &Estimate, from: PointId, to: PointId) -> Vec<Term> {
    let Some(route) = estimate.blocks.route(from.index(), to.index()) else {
        return Vec::new();
    };
    let mut terms = Vec::new();
    for leg in &route {
        for (edge, coefficient) in estimate.coefficients(leg) {
            let edge = &estimate.graph.edges[edge];
            terms.push(Term {
                link: edge.link,
                coefficient,
                share: coefficient * coefficient * edge.variance,
            });
        }
    }
    let total: f64 = terms.iter().map(|term| term.share).sum();
    for term in &mut terms {
        term.share = if total > 0.0 { term.share / total } else { 0.0 };
    }
    terms
}
