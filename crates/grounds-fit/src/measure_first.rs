//! What to measure first: the one reading that tells the most.
//!
//! What is at stake is the **doubt** of each need: the chance of being wrong when one has to say
//! today whether it will be met, which is the smaller of the chances of meeting and of missing it. A
//! need that is sure to be met or sure to be missed has none; what it wants is not a reading but
//! work.
//!
//! A reading of a distance with standard deviation σ takes c²/(v + σ²) off the variance of a need,
//! c being their covariance and v the variance of the distance (the rank-one update of least
//! squares \[published\]), and it moves the need's mean by a normal amount of just that variance. The
//! doubt to be expected afterwards is the mean over those moves. Distances count as normal here.

use std::collections::BTreeMap;

use crate::adjust::Adjustment;
use crate::net::{LinkKind, Need, NeedId, Net, PointId};
use crate::network::estimate::{Estimate, Pull};
use crate::prior::normal_chance;
use statrs::distribution::{ContinuousCDF, Normal};

/// A reading that could be taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Candidate {
    /// The point to measure from.
    pub from: PointId,
    /// The point to measure to.
    pub to: PointId,
    /// Standard uncertainty of instrument and hand, mm, above zero.
    pub sigma: f64,
}

/// What a reading is worth.
#[derive(Clone, Debug, PartialEq)]
pub struct Gain {
    /// The reading.
    pub candidate: Candidate,
    /// By how much it is expected to lower the doubt, added up over all needs.
    pub doubt: f64,
    /// By how much it lowers the variance, as a share of the squared room of each need, added up
    /// over all needs. Where nothing is in doubt this decides the order.
    pub variance: f64,
    /// The needs that it tells something of, the most doubt taken first.
    pub needs: Vec<NeedGain>,
}

/// What a reading is worth to one need.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NeedGain {
    /// The need.
    pub need: NeedId,
    /// Its spread today, mm.
    pub spread: f64,
    /// Its spread with the reading, mm, whatever the reading says.
    pub spread_after: f64,
    /// Its doubt today.
    pub doubt: f64,
    /// The doubt to be expected with the reading.
    pub doubt_after: f64,
}

/// Readings that suggest themselves: across each need, and along each link that is built or set.
#[must_use]
pub fn candidates(net: &Net, sigma: f64) -> Vec<Candidate> {
    let needs = net.needs.iter().map(|need| (need.from, need.to));
    let links = net
        .links
        .iter()
        .filter(|link| !matches!(link.kind, LinkKind::Measured { .. }))
        .map(|link| (link.from, link.to));
    let mut pairs: Vec<_> = needs
        .chain(links)
        .map(|(from, to)| (from.min(to), from.max(to)))
        .collect();
    pairs.sort_unstable();
    pairs.dedup();
    let pairs = pairs.into_iter();
    pairs
        .map(|(from, to)| Candidate { from, to, sigma })
        .collect()
}

/// What each reading is worth, the best first. Readings between points that are not joined or do not
/// exist, and those without an uncertainty above zero, are left out.
///
/// The net must be the one that was adjusted; needs without an answer are passed over.
#[must_use]
pub fn measure_first(net: &Net, adjustment: &Adjustment, candidates: &[Candidate]) -> Vec<Gain> {
    let estimate = &adjustment.estimate;
    let watched = watched(net, adjustment);
    let scores = scores();
    let mut gains: Vec<Gain> = candidates
        .iter()
        .filter_map(|candidate| gain(estimate, &watched, &scores, *candidate))
        .collect();
    gains.sort_by(|a, b| {
        let doubt = b.doubt.total_cmp(&a.doubt);
        doubt.then(b.variance.total_cmp(&a.variance))
    });
    gains
}

/// A need that has limits and an answer, and how it hangs on each block.
struct Watched<'a> {
    id: NeedId,
    need: &'a Need,
    mean: f64,
    spread: f64,
    pulls: BTreeMap<usize, Pull>,
}

/// Needs by the first point of their component.
fn watched<'a>(net: &'a Net, adjustment: &Adjustment) -> BTreeMap<usize, Vec<Watched<'a>>> {
    let estimate = &adjustment.estimate;
    let mut watched: BTreeMap<usize, Vec<Watched<'a>>> = BTreeMap::new();
    for (index, (need, known)) in net.needs.iter().zip(&adjustment.needs).enumerate() {
        let bounded = need.least.is_some() || need.most.is_some();
        let (Some(known), true) = (known, bounded) else {
            continue;
        };
        let pulls = pulls(estimate, need.from, need.to).unwrap_or_default();
        let first = estimate.blocks.first[need.from.index()];
        watched.entry(first).or_default().push(Watched {
            id: index.into(),
            need,
            mean: known.mean,
            spread: known.spread,
            pulls,
        });
    }
    watched
}

fn pulls(estimate: &Estimate, from: PointId, to: PointId) -> Option<BTreeMap<usize, Pull>> {
    let points = estimate.graph.points();
    if from.index().max(to.index()) >= points {
        return None;
    }
    let route = estimate.blocks.route(from.index(), to.index())?;
    let legs = route.iter();
    Some(legs.map(|leg| (leg.block, estimate.pull(leg))).collect())
}

fn covariance(estimate: &Estimate, a: &BTreeMap<usize, Pull>, b: &BTreeMap<usize, Pull>) -> f64 {
    let shared = a
        .iter()
        .filter_map(|(block, a)| Some((*block, a, b.get(block)?)));
    shared
        .map(|(block, a, b)| estimate.covariance(block, a, b))
        .sum()
}

fn gain(
    estimate: &Estimate,
    watched: &BTreeMap<usize, Vec<Watched>>,
    scores: &[f64],
    candidate: Candidate,
) -> Option<Gain> {
    if !candidate.sigma.is_finite() || candidate.sigma <= 0.0 {
        return None;
    }
    let pulls = pulls(estimate, candidate.from, candidate.to)?;
    let variance = covariance(estimate, &pulls, &pulls) + candidate.sigma * candidate.sigma;
    let first = estimate.blocks.first[candidate.from.index()];
    let (mut told, mut relative) = (Vec::new(), 0.0);
    for it in watched.get(&first).into_iter().flatten() {
        let shared = covariance(estimate, &pulls, &it.pulls);
        let taken = (shared * shared / variance).min(it.spread * it.spread);
        if taken > 0.0 {
            told.push(told_of(it, taken, scores));
            relative += taken / squared_room(it);
        }
    }
    told.sort_by(|a, b| (b.doubt - b.doubt_after).total_cmp(&(a.doubt - a.doubt_after)));
    Some(Gain {
        candidate,
        doubt: told.iter().map(|it| it.doubt - it.doubt_after).sum(),
        variance: relative,
        needs: told,
    })
}

/// Of a need with one limit the room is twice what its mean is away from it, and never less than its
/// spread.
fn squared_room(it: &Watched) -> f64 {
    let room = match (it.need.least, it.need.most) {
        (Some(least), Some(most)) => most - least,
        _ => 2.0 * it.need.margin(it.mean).abs(),
    };
    room.max(it.spread).powi(2)
}

fn told_of(it: &Watched, taken: f64, scores: &[f64]) -> NeedGain {
    let spread_after = (it.spread * it.spread - taken).max(0.0).sqrt();
    let doubt = doubt(it.need, it.mean, it.spread);
    let moved = taken.sqrt();
    let after: f64 = scores
        .iter()
        .map(|score| self::doubt(it.need, it.mean + moved * score, spread_after))
        .sum();
    NeedGain {
        need: it.id,
        spread: it.spread,
        spread_after,
        doubt,
        // The mean of a concave function: more is known, never less.
        doubt_after: (after / f64::from(SCORES)).min(doubt),
    }
}

fn doubt(need: &Need, mean: f64, spread: f64) -> f64 {
    let chance = normal_chance(mean, spread, need);
    chance.min(1.0 - chance)
}

/// As many normal scores as a mean is taken over, each standing for an equal chance.
const SCORES: u32 = 64;

fn scores() -> Vec<f64> {
    (0..SCORES)
        .map(|at| (f64::from(at) + 0.5) / f64::from(SCORES))
        .map(|share| Normal::standard().inverse_cdf(share))
        .collect()
}
