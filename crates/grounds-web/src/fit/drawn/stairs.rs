//! Flights with the figure of each rise.

use std::collections::BTreeMap;

use grounds_draw::{FloorFinish, Hatch, Rise, StairLayout, Verdict as Drawn};
use grounds_lines::{
    answers::{Answer, Answers, Verdict},
    said,
};
use grounds_model::{FaceKind, Flight, Id, Layer};
use grounds_site::words;

use super::{Drawing, layers, verdict};
use crate::marks::hatch;

/// The depth that treads are drawn with: the job does not say it, and the drawing does not either.
const GOING: f64 = 250.0;

/// Every flight that has its rises judged.
pub(crate) fn stairs(drawing: &Drawing<'_>, answers: &Answers) -> BTreeMap<Id, StairLayout> {
    let places = drawing.lines.job.places.iter();
    places
        .filter_map(|(id, place)| {
            let layout = layout(drawing, answers, id, place.flight.as_ref()?)?;
            Some((id.clone(), layout))
        })
        .collect()
}

fn layout(
    drawing: &Drawing<'_>,
    answers: &Answers,
    id: &Id,
    flight: &Flight,
) -> Option<StairLayout> {
    let job = drawing.lines.job;
    let first = answers.get(&format!("{id}.first-rise"))?;
    let last = answers.get(&format!("{id}.last-rise"))?;
    let (lowest, highest) = (first.figures?.mean, last.figures?.mean);
    let between = flight.rise.mm();
    let rises: Vec<Rise> = (0..flight.risers)
        .map(|step| {
            let (height, answer) = match step {
                0 => (lowest, Some(first)),
                _ if step + 1 == flight.risers => (highest, Some(last)),
                _ => (between, None),
            };
            Rise {
                height,
                words: drawing.figure(height),
                marked: answer.is_some_and(|answer| answer.verdict == Verdict::Fails),
            }
        })
        .collect();
    let total: f64 = rises.iter().map(|rise| rise.height).sum();
    let heights = || rises.iter().map(|rise| rise.height);
    let spread = heights().fold(f64::MIN, f64::max) - heights().fold(f64::MAX, f64::min);
    let most = flight.most_difference.map_or(0.0, |most| most.mm());
    let units = drawing.lines.units();
    Some(StairLayout {
        title: format!(
            "{}: {} rises",
            words::capital(&words::plain(&job.places.get(id)?.name)),
            flight.risers
        ),
        said: format!(
            "{} rises; the first comes to {}, the last to {}, those between to {}",
            flight.risers,
            said::length(lowest, units),
            said::length(highest, units),
            said::length(between, units)
        ),
        going: GOING,
        going_words: String::new(),
        below: floor(drawing, &flight.foot),
        above: floor(drawing, &flight.head),
        treads: floor(drawing, id),
        total_words: format!("{} floor to floor", drawing.figure(total)),
        difference_words: format!(
            "largest less smallest {}; at most {}",
            drawing.figure(spread),
            drawing.figure(most)
        ),
        verdict: worse(first, last),
        rises,
    })
}

fn worse(a: &Answer, b: &Answer) -> Drawn {
    verdict(a.verdict.min(b.verdict))
}

/// What lies on the floor of a place.
fn floor(drawing: &Drawing<'_>, place: &Id) -> FloorFinish {
    let job = drawing.lines.job;
    let faces = job.places.get(place).map(|place| &place.faces);
    let mut floors = faces
        .into_iter()
        .flatten()
        .filter(|(_, face)| face.kind == FaceKind::Floor);
    let found = floors
        .next()
        .map(|(key, _)| layers(drawing.lines, place, key));
    let solid = |layer: &&Layer| layer.thickness.is_some() && !layer.between;
    let outer = found
        .as_ref()
        .and_then(|layers| layers.iter().rev().copied().find(|layer| solid(layer)));
    let Some(outer) = outer else {
        return FloorFinish {
            words: String::new(),
            thickness: 0.0,
            hatch: Hatch::Void,
        };
    };
    let thickness = outer
        .thickness
        .map_or(0.0, |thickness| thickness.nominal().mm());
    let name = words::plain(&outer.name);
    FloorFinish {
        words: format!("{} {}", name.to_lowercase(), drawing.figure(thickness)),
        thickness,
        hatch: hatch(outer.material),
    }
}
