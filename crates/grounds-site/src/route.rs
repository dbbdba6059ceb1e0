//! The way through a house for somebody who looks at all of it.

use std::collections::{BTreeMap, BTreeSet};

use grounds_model::{Id, Job, OUTSIDE, PassageKind};

/// What one door or opening counts for on the way.
const DOOR: u32 = 1;

/// What coming in from the open air, or going out, counts for.
const OPEN_AIR: u32 = 2;

/// What a flight of stairs counts for.
const STAIR: u32 = 4;

/// All places of a job in the order in which somebody walks them, each once: in at the lowest
/// entrance, always on to the nearest place that was not seen yet, and a level to its end before
/// the next one.
///
/// Nearest is by the passages: a door or an opening counts 1, the open air 2, a flight of stairs 4.
/// Of two that are as near, the lower level comes first, then the key that is first in the
/// alphabet. Places that nothing leads to come last.
#[must_use]
pub fn walking_order(job: &Job) -> Vec<Id> {
    let ways = ways(job);
    let mut left: BTreeSet<&Id> = job.places.keys().collect();
    let mut order = Vec::with_capacity(left.len());
    let Some(mut here) = first(job, &ways) else {
        return order;
    };
    left.remove(here);
    order.push(here.clone());
    while let Some(next) = next(job, &ways, here, &left) {
        left.remove(next);
        order.push(next.clone());
        here = next;
    }
    order
}

/// Where one can go from each place, and what it counts for.
type Ways<'a> = BTreeMap<&'a str, Vec<(&'a str, u32)>>;

fn ways(job: &Job) -> Ways<'_> {
    let mut ways = Ways::new();
    for passage in job.passages.values() {
        let [a, b] = [passage.between[0].as_str(), passage.between[1].as_str()];
        let far = match passage.kind {
            PassageKind::Stair => STAIR,
            _ if a == OUTSIDE || b == OUTSIDE => OPEN_AIR,
            PassageKind::Door | PassageKind::Opening => DOOR,
        };
        both_ways(&mut ways, a, b, far);
    }
    let entrances = job.places.iter().filter(|(_, place)| place.entrance);
    for (id, _) in entrances {
        both_ways(&mut ways, OUTSIDE, id.as_str(), OPEN_AIR);
    }
    ways
}

fn both_ways<'a>(ways: &mut Ways<'a>, a: &'a str, b: &'a str, far: u32) {
    ways.entry(a).or_default().push((b, far));
    ways.entry(b).or_default().push((a, far));
}

/// Where somebody comes in: the lowest place that opens to the outside, else the lowest of all.
fn first<'a>(job: &'a Job, ways: &Ways<'a>) -> Option<&'a Id> {
    let open = ways.get(OUTSIDE);
    let is_open =
        |id: &Id| open.is_some_and(|ends| ends.iter().any(|(end, _)| *end == id.as_str()));
    job.places
        .keys()
        .min_by_key(|id| (!is_open(id), height(job, id), *id))
}

/// The nearest place that was not seen yet, on this level as long as it has one.
fn next<'a>(
    job: &'a Job,
    ways: &Ways<'a>,
    here: &'a Id,
    left: &BTreeSet<&'a Id>,
) -> Option<&'a Id> {
    let level = |id: &Id| job.places.get(id).map(|place| &place.level);
    let far = distances(ways, here.as_str());
    left.iter().copied().min_by_key(|id| {
        let away = far.get(id.as_str()).copied().unwrap_or(u32::MAX);
        (level(id) != level(here), away, height(job, id), *id)
    })
}

fn height(job: &Job, id: &Id) -> Option<grounds_measure::Length> {
    let place = job.places.get(id)?;
    job.levels.get(&place.level).map(|level| level.height)
}

/// How far everything is from one place that can be reached from it.
fn distances<'a>(ways: &Ways<'a>, from: &'a str) -> BTreeMap<&'a str, u32> {
    let mut far = BTreeMap::from([(from, 0_u32)]);
    let mut edge = BTreeSet::from([(0_u32, from)]);
    while let Some((away, here)) = edge.pop_first() {
        for (there, more) in ways.get(here).into_iter().flatten() {
            let total = away.saturating_add(*more);
            if far.get(there).is_none_or(|known| total < *known) {
                far.insert(there, total);
                edge.insert((total, there));
            }
        }
    }
    far
}
