//! What is wrong with a net, before anything is computed from it.

use std::fmt;

use thiserror::Error;

use crate::net::{Link, LinkId, LinkKind, NeedId, Net, PointId};
use crate::network::joined::Joined;

/// Where a fault lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// In a link.
    Link(LinkId),
    /// In a need.
    Need(NeedId),
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Link(id) => write!(f, "link {}", id.0),
            Self::Need(id) => write!(f, "need {}", id.0),
        }
    }
}

/// A fault of a net: where it is, what is wrong and how to mend it.
#[derive(Clone, Copy, Debug, PartialEq, Error)]
#[error("{place}: {what}")]
pub struct Fault {
    /// Where.
    pub place: Place,
    /// What is wrong.
    pub what: Wrong,
}

/// What can be wrong, with its mend.
#[derive(Clone, Copy, Debug, PartialEq, Error)]
pub enum Wrong {
    /// A point that does not exist.
    #[error("point {} does not exist; there are {points} points, counted from 0: name one of them", point.0)]
    NoSuchPoint {
        /// The point named.
        point: PointId,
        /// How many there are.
        points: usize,
    },
    /// Both ends are the same point.
    #[error("both ends are point {}; name two different points", .0.0)]
    SamePoint(PointId),
    /// A figure is not a number, or endless.
    #[error("its {0} is not a number; write millimetres, such as 12.5")]
    NotANumber(Figure),
    /// A figure is too large to be a length in a house.
    #[error("its {0} is more than a kilometre; write millimetres, such as 12.5")]
    TooLarge(Figure),
    /// A tolerance is below zero.
    #[error("its {figure} is {value} mm, below zero; give how far it may miss, such as 1.5")]
    BelowZero {
        /// Which.
        figure: Figure,
        /// Its value.
        value: f64,
    },
    /// The uncertainty of a reading is zero or below.
    #[error("its uncertainty is {0} mm; a reading is never exact: a steel tape has about 0.8")]
    NoUncertainty(f64),
    /// The low end lies above the high end.
    #[error("its {low_name} {low} mm lies above its {high_name} {high} mm; swap them")]
    Crossed {
        /// Name of the low end.
        low_name: Figure,
        /// The low end.
        low: f64,
        /// Name of the high end.
        high_name: Figure,
        /// The high end.
        high: f64,
    },
    /// The chosen value is outside its range.
    #[error("{chosen} mm was chosen, but only {low} to {high} mm can be set; choose within that")]
    OutOfRange {
        /// What was chosen.
        chosen: f64,
        /// The least that can be.
        low: f64,
        /// The most that can be.
        high: f64,
    },
    /// No links lead from one end of a need to the other.
    #[error(
        "no links lead from point {} to point {}; add what lies between, or measure across",
        from.0, to.0
    )]
    NotJoined {
        /// The point counted from.
        from: PointId,
        /// The point counted to.
        to: PointId,
    },
}

/// A figure of a link or need, by the name a message uses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Figure {
    /// The distance aimed at.
    Nominal,
    /// The tolerance downward.
    Minus,
    /// The tolerance upward.
    Plus,
    /// The distance read.
    Reading,
    /// The uncertainty of a reading.
    Sigma,
    /// The least that can be set.
    Low,
    /// The most that can be set.
    High,
    /// What was chosen.
    Chosen,
    /// How truly it is set.
    Within,
    /// The least that will do.
    Least,
    /// The most that will do.
    Most,
}

impl fmt::Display for Figure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Nominal => "nominal",
            Self::Minus => "minus tolerance",
            Self::Plus => "plus tolerance",
            Self::Reading => "reading",
            Self::Sigma => "uncertainty",
            Self::Low => "low end",
            Self::High => "high end",
            Self::Chosen => "chosen value",
            Self::Within => "setting tolerance",
            Self::Least => "least",
            Self::Most => "most",
        })
    }
}

/// A net that nothing can be computed from, with everything that is wrong with it.
#[derive(Clone, Debug, PartialEq, Error)]
#[error("{}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join("; "))]
pub struct Unsound(pub Vec<Fault>);

/// The longest length taken, mm.
const LONGEST: f64 = 1e6;

/// Everything that is wrong with a net, links first. A net without faults can be computed.
#[must_use]
pub fn faults(net: &Net) -> Vec<Fault> {
    let mut found = unsound(net);
    if found.is_empty() {
        found = not_joined(net);
    }
    found
}

/// That nothing can be computed from, if so. Needs whose points are not joined do not stop the
/// others; they get no answer.
pub(crate) fn sound(net: &Net) -> Result<(), Unsound> {
    let found = unsound(net);
    if found.is_empty() {
        Ok(())
    } else {
        Err(Unsound(found))
    }
}

fn unsound(net: &Net) -> Vec<Fault> {
    let mut found = Vec::new();
    for (index, link) in net.links.iter().enumerate() {
        let place = Place::Link(index.into());
        let faults = ends(net, link.from, link.to)
            .into_iter()
            .chain(figures(link));
        found.extend(faults.map(|what| Fault { place, what }));
    }
    for (index, need) in net.needs.iter().enumerate() {
        let place = Place::Need(index.into());
        let mut faults = ends(net, need.from, need.to);
        let (least, most) = (need.least, need.most);
        faults.extend(least.and_then(|it| number(Figure::Least, it)));
        faults.extend(most.and_then(|it| number(Figure::Most, it)));
        if let (Some(least), Some(most)) = (least, most) {
            faults.extend(crossed((Figure::Least, least), (Figure::Most, most)));
        }
        found.extend(faults.into_iter().map(|what| Fault { place, what }));
    }
    found
}

fn not_joined(net: &Net) -> Vec<Fault> {
    let mut joined = Joined::new(net.points);
    for link in &net.links {
        joined.join(link.from.index(), link.to.index());
    }
    let needs = net.needs.iter().enumerate();
    needs
        .filter(|(_, need)| !joined.together(need.from.index(), need.to.index()))
        .map(|(index, need)| Fault {
            place: Place::Need(index.into()),
            what: Wrong::NotJoined {
                from: need.from,
                to: need.to,
            },
        })
        .collect()
}

fn ends(net: &Net, from: PointId, to: PointId) -> Vec<Wrong> {
    let missing = |point: PointId| {
        (point.index() >= net.points).then_some(Wrong::NoSuchPoint {
            point,
            points: net.points,
        })
    };
    let mut found: Vec<_> = missing(from).into_iter().chain(missing(to)).collect();
    if from == to {
        found.push(Wrong::SamePoint(from));
    }
    found
}

fn figures(link: &Link) -> Vec<Wrong> {
    match link.kind {
        LinkKind::Built {
            nominal,
            minus,
            plus,
            ..
        } => [
            number(Figure::Nominal, nominal),
            positive(Figure::Minus, minus),
            positive(Figure::Plus, plus),
        ]
        .into_iter()
        .flatten()
        .collect(),
        LinkKind::Measured { reading, sigma } => {
            let mut found: Vec<_> = number(Figure::Reading, reading).into_iter().collect();
            match number(Figure::Sigma, sigma) {
                Some(wrong) => found.push(wrong),
                None if sigma <= 0.0 => found.push(Wrong::NoUncertainty(sigma)),
                None => {}
            }
            found
        }
        LinkKind::Set {
            low,
            high,
            chosen,
            within,
            ..
        } => setting(low, high, chosen, within),
    }
}

fn setting(low: f64, high: f64, chosen: Option<f64>, within: f64) -> Vec<Wrong> {
    let mut found: Vec<_> = [
        number(Figure::Low, low),
        number(Figure::High, high),
        chosen.and_then(|value| number(Figure::Chosen, value)),
        positive(Figure::Within, within),
    ]
    .into_iter()
    .flatten()
    .collect();
    found.extend(crossed((Figure::Low, low), (Figure::High, high)));
    if let (true, Some(chosen)) = (found.is_empty(), chosen)
        && !(low..=high).contains(&chosen)
    {
        found.push(Wrong::OutOfRange { chosen, low, high });
    }
    found
}

fn number(figure: Figure, value: f64) -> Option<Wrong> {
    if !value.is_finite() {
        Some(Wrong::NotANumber(figure))
    } else if value.abs() > LONGEST {
        Some(Wrong::TooLarge(figure))
    } else {
        None
    }
}

fn positive(figure: Figure, value: f64) -> Option<Wrong> {
    number(figure, value).or((value < 0.0).then_some(Wrong::BelowZero { figure, value }))
}

fn crossed((low_name, low): (Figure, f64), (high_name, high): (Figure, f64)) -> Option<Wrong> {
    (low > high).then_some(Wrong::Crossed {
        low_name,
        low,
        high_name,
        high,
    })
}
