//! Which links disagree with the others: data snooping.
//!
//! Source: Baarda, *A testing procedure for use in geodetic networks*, 1968 \[published; the critical
//! value 3.29 for a two-sided level of 0.001 is the usual one\].

use super::Residual;
use crate::net::{LinkId, LinkKind, Net};
use crate::network::{
    estimate::{Estimate, Loop},
    graph::Graph,
};

/// The standardised residual beyond which a link disagrees: one true link in a thousand does.
pub const CRITICAL: f64 = 3.29;

/// The redundancy below which a link cannot be tested: an error in it would hardly show.
pub const TESTABLE: f64 = 1e-4;

/// Standardised residuals that differ by less cannot be told apart.
const ALIKE: f64 = 1e-4;

/// A link that disagrees with the others.
#[derive(Clone, Debug, PartialEq)]
pub struct Outlier {
    /// The link: the reading to take again, or what was not built as meant.
    pub link: LinkId,
    /// Its standardised residual, once the outliers before it are left out; beyond ±[`CRITICAL`].
    pub standardised: f64,
    /// How far the link's figure lies above what all others say of its distance (below, if below
    /// zero), mm.
    pub off_by: f64,
    /// Other links that may be wrong just as well: with too few readings one cannot tell. What was
    /// built or set is then named before a reading, because a design says what was meant and a
    /// reading what was seen.
    pub rivals: Vec<LinkId>,
}

/// Residuals of a block, each with its edge by the block's count.
pub(super) fn residuals(graph: &Graph, solved: &Loop) -> Vec<(usize, Residual)> {
    let variances = solved.factor.variances(&solved.weighed);
    let edges = solved.edges.iter().zip(&solved.weighed).zip(variances);
    edges
        .map(|((edge, it), variance)| {
            let adjusted = solved.adjusted(it);
            let residual = adjusted - graph.edges[*edge].mean;
            let redundancy = (1.0 - variance * it.weight).clamp(0.0, 1.0);
            let standardised =
                (redundancy > TESTABLE).then(|| residual * (it.weight / redundancy).sqrt());
            Residual {
                adjusted,
                spread: variance.max(0.0).sqrt(),
                residual,
                redundancy,
                standardised,
            }
        })
        .enumerate()
        .collect()
}

/// The outliers of all blocks. Of each block the worst is left out, and the rest adjusted anew, until
/// no link disagrees.
pub(super) fn outliers(net: &Net, estimate: &Estimate) -> Vec<Outlier> {
    let mut found = Vec::new();
    for solved in estimate.loops.iter().flatten() {
        let mut found_here = worst(net, &estimate.graph, solved);
        let mut rest = solved.clone();
        while let Some((edge, outlier)) = found_here {
            found.push(outlier);
            rest = without(&estimate.graph, rest, edge);
            found_here = worst(net, &estimate.graph, &rest);
        }
    }
    found
}

fn worst(net: &Net, graph: &Graph, solved: &Loop) -> Option<(usize, Outlier)> {
    let residuals = residuals(graph, solved);
    let size = |residual: &Residual| residual.standardised.map_or(0.0, f64::abs);
    let most = residuals.iter().map(|(_, it)| size(it)).fold(0.0, f64::max);
    if most <= CRITICAL {
        return None;
    }
    let link = |edge: usize| graph.edges[solved.edges[edge]].link;
    let mut alike: Vec<_> = residuals
        .iter()
        .filter(|(_, residual)| size(residual) >= most * (1.0 - ALIKE))
        .collect();
    alike.sort_by_key(|(edge, _)| {
        let link = link(*edge);
        let read = matches!(net.links[link.index()].kind, LinkKind::Measured { .. });
        (read, link)
    });
    let (edge, residual) = alike.first()?;
    let outlier = Outlier {
        link: link(*edge),
        standardised: residual.standardised?,
        off_by: -residual.residual / residual.redundancy,
        rivals: alike[1..].iter().map(|(edge, _)| link(*edge)).collect(),
    };
    Some((*edge, outlier))
}

/// A block without one edge. It still hangs together: what nothing else checks is never taken out.
fn without(graph: &Graph, solved: Loop, edge: usize) -> Loop {
    let Loop {
        points,
        mut edges,
        mut weighed,
        ..
    } = solved;
    edges.remove(edge);
    weighed.remove(edge);
    Loop::new(graph, points, edges, weighed)
}
