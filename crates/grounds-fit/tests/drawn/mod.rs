//! Nets drawn from a seed, for tests, benchmarks and checks.

#![allow(dead_code, reason = "each of its users needs a part")]
#![allow(missing_docs, unreachable_pub, reason = "it is no public interface")]

use grounds_fit::net::{Link, LinkKind, Need, Net, PointId, Shape};

/// A source of drawn numbers: splitmix64 (Steele, Lea and Flood, 2014 [published]).
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// A number from 0 to 1.
    pub fn share(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.share()
    }

    pub fn below(&mut self, count: usize) -> usize {
        (self.share() * count as f64) as usize
    }

    pub fn happens(&mut self, share: f64) -> bool {
        self.share() < share
    }
}

/// How a net is drawn.
#[derive(Clone, Copy, Debug)]
pub struct Plan {
    /// Groups of points that hang together.
    pub groups: usize,
    /// Points of each.
    pub points: usize,
    /// Readings of each, between points near to one another.
    pub readings: usize,
    /// Built links of each beyond a tree, between points near to one another.
    pub loops: usize,
    /// Needs of each.
    pub needs: usize,
    /// The share of settings among the links of the tree, none of them chosen.
    pub settings: f64,
    /// The share of shapes that are not normal.
    pub shaped: f64,
}

/// A net whose links agree: there is a place for every point, the nominals miss it by no more than
/// their tolerance and readings by their uncertainty.
pub fn net(plan: Plan, seed: u64) -> Net {
    let mut dice = Dice::new(seed);
    let mut net = Net::default();
    for _ in 0..plan.groups {
        group(&mut net, plan, &mut dice);
    }
    net
}

fn group(net: &mut Net, plan: Plan, dice: &mut Dice) {
    let first = net.points;
    net.points += plan.points;
    let places: Vec<f64> = (0..plan.points)
        .map(|_| dice.between(0.0, 3000.0))
        .collect();
    let id = |at: usize| PointId::from(first + at);
    for to in 1..plan.points {
        let from = to - 1 - dice.below(to.min(4));
        let way = places[to] - places[from];
        let kind = if dice.happens(plan.settings) {
            setting(way, dice)
        } else {
            built(way, plan, dice)
        };
        net.links.push(turned(id(from), id(to), kind, dice));
    }
    for _ in 0..plan.loops {
        let (from, to) = pair(plan.points, dice);
        let kind = built(places[to] - places[from], plan, dice);
        net.links.push(Link {
            from: id(from),
            to: id(to),
            kind,
        });
    }
    for _ in 0..plan.readings {
        let (from, to) = pair(plan.points, dice);
        let sigma = dice.between(0.3, 2.0);
        let reading = places[to] - places[from] + sigma * normal(dice);
        net.links.push(Link {
            from: id(from),
            to: id(to),
            kind: LinkKind::Measured { reading, sigma },
        });
    }
    for _ in 0..plan.needs {
        let (from, to) = pair(plan.points, dice);
        let way = places[to] - places[from];
        let least = (!dice.happens(0.2)).then(|| way - dice.between(0.5, 6.0));
        let most = (!dice.happens(0.2)).then(|| way + dice.between(0.5, 6.0));
        net.needs.push(Need {
            from: id(from),
            to: id(to),
            least,
            most,
        });
    }
}

/// Two different points not far from each other.
fn pair(points: usize, dice: &mut Dice) -> (usize, usize) {
    let from = dice.below(points);
    let away = 1 + dice.below((points - 1).min(8));
    let to = if from + away < points {
        from + away
    } else {
        (from + points - away) % points
    };
    if to == from {
        (from, (from + 1) % points)
    } else {
        (from, to)
    }
}

fn normal(dice: &mut Dice) -> f64 {
    (0..12).map(|_| dice.share()).sum::<f64>() - 6.0
}

fn shape(plan: Plan, dice: &mut Dice) -> Shape {
    match dice.happens(plan.shaped) {
        false => Shape::Normal,
        true if dice.happens(0.5) => Shape::Even,
        true => Shape::Triangle,
    }
}

fn built(way: f64, plan: Plan, dice: &mut Dice) -> LinkKind {
    let (minus, plus) = (dice.between(0.2, 3.0), dice.between(0.2, 3.0));
    LinkKind::Built {
        nominal: way + dice.between(-plus, minus),
        minus,
        plus,
        shape: shape(plan, dice),
    }
}

fn setting(way: f64, dice: &mut Dice) -> LinkKind {
    LinkKind::Set {
        low: way - dice.between(2.0, 20.0),
        high: way + dice.between(2.0, 20.0),
        chosen: None,
        within: dice.between(0.2, 1.0),
        shape: Shape::Normal,
    }
}

/// A link either way round.
fn turned(from: PointId, to: PointId, kind: LinkKind, dice: &mut Dice) -> Link {
    if dice.happens(0.7) {
        return Link { from, to, kind };
    }
    let kind = match kind {
        LinkKind::Built {
            nominal,
            minus,
            plus,
            shape,
        } => LinkKind::Built {
            nominal: -nominal,
            minus: plus,
            plus: minus,
            shape,
        },
        LinkKind::Measured { reading, sigma } => LinkKind::Measured {
            reading: -reading,
            sigma,
        },
        LinkKind::Set {
            low,
            high,
            chosen,
            within,
            shape,
        } => LinkKind::Set {
            low: -high,
            high: -low,
            chosen: chosen.map(|value| -value),
            within,
            shape,
        },
    };
    Link {
        from: to,
        to: from,
        kind,
    }
}
