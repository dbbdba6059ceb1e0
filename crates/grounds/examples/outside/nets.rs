//! Nets of points, links and needs as they are computed, for the comparison with numpy and scipy.

use std::error::Error;

use grounds_fit::adjust::{Adjustment, adjust};
use grounds_fit::net::{Link, LinkKind, Net, Shape};
use grounds_fit::prior::{Prior, prior};
use grounds_fit::set_out::{Measure, SetOuts, set_outs};
use serde::Serialize;

#[path = "../../../grounds-fit/tests/drawn/mod.rs"]
pub(crate) mod drawn;

use drawn::{Dice, Plan};

const CASES: u64 = 1000;
const SEED: u64 = 20_270_612;

/// The marks of the tape; the comparison is of exact values.
const TAPE: f64 = 1.0;

/// Nominal, mean, spread, worst low and high (none where links contradict each other), chance.
type Expected = (f64, f64, f64, Option<(f64, f64)>, f64);

/// A drawn net with what we make of it. All lengths are millimetres.
#[derive(Serialize)]
pub(crate) struct Case {
    points: usize,
    links: Vec<Drawn>,
    /// From, to, least and most.
    needs: Vec<(u32, u32, Option<f64>, Option<f64>)>,
    prior: Vec<Expected>,
    contradictions: usize,
    /// Mean and spread.
    posterior: Vec<(f64, f64)>,
    /// Residual and redundancy of each link that had a say.
    residuals: Vec<Option<(f64, f64)>>,
    /// Σ(v/σ)² and the degrees of freedom.
    agreement: (f64, usize),
    worst_case: Out,
    spreads: Out,
}

#[derive(Serialize)]
struct Drawn {
    from: u32,
    to: u32,
    kind: &'static str,
    shape: &'static str,
    nominal: f64,
    minus: f64,
    plus: f64,
    /// Of a setting.
    range: Option<(f64, f64)>,
}

/// Settings as link and value, and the margin of each need.
#[derive(Serialize)]
struct Out {
    settings: Vec<(u32, f64)>,
    margins: Vec<Option<f64>>,
    clashes: usize,
}

pub(crate) fn nets() -> Result<Vec<Case>, Box<dyn Error>> {
    let mut dice = Dice::new(SEED);
    (0..CASES).map(|seed| case(plan(&mut dice), seed)).collect()
}

fn plan(dice: &mut Dice) -> Plan {
    Plan {
        groups: 1 + dice.below(2),
        points: 3 + dice.below(7),
        readings: dice.below(7),
        loops: dice.below(4),
        needs: 1 + dice.below(4),
        settings: 0.4,
        shaped: 0.4,
    }
}

fn case(plan: Plan, seed: u64) -> Result<Case, Box<dyn Error>> {
    let net = drawn::net(plan, seed);
    let (prior, adjusted) = (prior(&net)?, adjust(&net)?);
    Ok(Case {
        points: net.points,
        links: net.links.iter().map(drawn).collect(),
        needs: needs(&net),
        contradictions: prior.contradictions.len(),
        prior: expected(&prior)?,
        posterior: posterior(&adjusted)?,
        residuals: adjusted
            .links
            .iter()
            .map(|link| link.map(|link| (link.residual, link.redundancy)))
            .collect(),
        agreement: (adjusted.agreement.value, adjusted.agreement.freedom),
        worst_case: out(set_outs(&net, Measure::WorstCase, TAPE)?),
        spreads: out(set_outs(&net, Measure::Spreads, TAPE)?),
    })
}

fn needs(net: &Net) -> Vec<(u32, u32, Option<f64>, Option<f64>)> {
    let needs = net.needs.iter();
    needs
        .map(|need| (need.from.0, need.to.0, need.least, need.most))
        .collect()
}

fn expected(prior: &Prior) -> Result<Vec<Expected>, Box<dyn Error>> {
    let needs = prior.needs.iter();
    needs
        .map(|need| {
            let need = need.ok_or("a need is not joined")?;
            let worst = need.worst.map(|worst| (worst.low, worst.high));
            Ok((need.nominal, need.mean, need.spread, worst, need.chance))
        })
        .collect()
}

fn posterior(adjusted: &Adjustment) -> Result<Vec<(f64, f64)>, Box<dyn Error>> {
    let needs = adjusted.needs.iter();
    needs
        .map(|need| {
            let need = need.ok_or("a need is not joined")?;
            Ok((need.mean, need.spread))
        })
        .collect()
}

fn drawn(link: &Link) -> Drawn {
    let (minus, plus) = link.kind.tolerance();
    let (kind, range) = match link.kind {
        LinkKind::Built { .. } => ("built", None),
        LinkKind::Measured { .. } => ("measured", None),
        LinkKind::Set { low, high, .. } => ("set", Some((low, high))),
    };
    Drawn {
        from: link.from.0,
        to: link.to.0,
        kind,
        shape: match link.kind.shape() {
            Shape::Normal => "normal",
            Shape::Even => "even",
            Shape::Triangle => "triangle",
        },
        nominal: link.kind.nominal(),
        minus,
        plus,
        range,
    }
}

fn out(out: SetOuts) -> Out {
    Out {
        settings: out
            .settings
            .iter()
            .map(|setting| (setting.link.0, setting.exact))
            .collect(),
        margins: out
            .margins
            .iter()
            .map(|margin| margin.map(|margin| margin.exact))
            .collect(),
        clashes: out.clashes.len(),
    }
}
