//! What to set by: the figures for what is still to be set, leaving the most room.

use grounds_fit::{
    net::{LinkId, LinkKind, Net, PointId},
    set_out::{Measure, set_outs},
};
use grounds_measure::Units;
use grounds_model::Ref;

use crate::{lines::Lines, said};

/// The finest marks that work is set out by, in millimetres.
fn tape(units: Units) -> f64 {
    match units {
        Units::Metric => 1.0,
        Units::Imperial => 25.4 / 16.0,
    }
}

/// A change smaller than this is none, in millimetres.
const SAME: f64 = 0.25;

/// What to set one thing by.
#[derive(Clone, Debug, PartialEq)]
pub struct SetOut {
    /// The link.
    pub link: LinkId,
    /// What is set.
    pub about: Ref,
    /// The figure, on the marks of a tape, in millimetres.
    pub value: f64,
    /// The figure that stands in the job, if one does.
    pub drawn: Option<f64>,
    /// What to do, as a sentence.
    pub said: String,
}

/// Needs that cannot all be met, whatever is set.
#[derive(Clone, Debug, PartialEq)]
pub struct Clash {
    /// The needs, by key.
    pub needs: Vec<String>,
    /// The clash, as a sentence.
    pub said: String,
}

/// What to set by, for everything with a range that is not set yet, over all needs at once and with
/// the readings weighed in; and the needs that clash.
#[must_use]
pub fn set_out(lines: &Lines<'_>) -> (Vec<SetOut>, Vec<Clash>) {
    let net = free(lines);
    let Ok(found) = set_outs(&net, Measure::Spreads, tape(lines.units())) else {
        return (Vec::new(), Vec::new());
    };
    let settings = found.settings.iter();
    let outs = settings
        .filter_map(|setting| one(lines, setting.link, setting.value))
        .collect();
    let clashes = found.clashes.iter();
    let clashes = clashes
        .map(|clash| {
            let found = |id: &grounds_fit::net::NeedId| {
                let mut all = lines.wanted.iter();
                all.find(|wanted| wanted.id == Some(*id))
            };
            let wanted: Vec<_> = clash.needs.iter().filter_map(found).collect();
            let names: Vec<String> = wanted
                .iter()
                .map(|wanted| said::lower_first(&wanted.name))
                .collect();
            Clash {
                needs: wanted.iter().map(|wanted| wanted.key.clone()).collect(),
                said: match names.as_slice() {
                    [only] => format!("Whatever is set, this is not met: {only}."),
                    _ => format!(
                        "These cannot all be met, whatever is set: {}.",
                        said::all(&names)
                    ),
                },
            }
        })
        .collect();
    (outs, clashes)
}

/// The net with everything open that is still to be set and has a range.
fn free(lines: &Lines<'_>) -> Net {
    let mut net = lines.net.clone();
    for (link, tie) in net.links.iter_mut().zip(&lines.ties) {
        if let LinkKind::Set {
            low, high, chosen, ..
        } = &mut link.kind
            && tie.open
            && high > low
        {
            *chosen = None;
        }
    }
    net
}

fn one(lines: &Lines<'_>, id: LinkId, value: f64) -> Option<SetOut> {
    let tie = lines.tie(id)?;
    let link = lines.net.links.get(id.index())?;
    let drawn = match link.kind {
        LinkKind::Set { chosen, .. } => chosen,
        _ => None,
    };
    let units = lines.units();
    let what = tie.name.strip_prefix("setting ").unwrap_or(&tie.name);
    // Against the axis the link runs from the face back to what it is set from.
    let from = from_point(lines, link.from, link.to, &tie.about);
    let change = match drawn {
        Some(drawn) if (drawn - value).abs() > SAME => {
            format!(", not {} as drawn", said::signed(drawn, units))
        }
        _ => String::new(),
    };
    Some(SetOut {
        link: id,
        about: tie.about.clone(),
        value,
        drawn,
        said: format!(
            "Set {what} {} from {}{change}.",
            said::signed(value, units),
            said::point(lines, from)
        ),
    })
}

/// The end of a setting that is not the piece itself.
fn from_point(lines: &Lines<'_>, a: PointId, b: PointId, about: &Ref) -> PointId {
    let own = |point: PointId| lines.stands_for(point).is_some_and(|it| it.about == *about);
    if own(a) && !own(b) { b } else { a }
}
