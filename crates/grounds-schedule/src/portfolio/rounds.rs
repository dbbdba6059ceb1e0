//! Lanes in step: what they find does not depend on who is faster.

use std::num::NonZeroUsize;
use std::thread;

use super::board::Board;
use super::lane::Lane;
use super::race::FIRST;
use crate::plain::{Found, Known};

/// The longest slice in units, some 15 to 20 milliseconds: so long it takes at most until others hear of a
/// better plan.
const LONGEST: u64 = 48_000;

/// The slice after one of `units`.
pub(super) fn longer(units: u64) -> u64 {
    (units * 2).min(LONGEST)
}

/// In each round every lane has a slice, all from the same knowledge; what they find is then taken in
/// by the order of the lanes.
pub(super) fn run(lanes: &mut [Lane], board: &Board, units: u64, threads: NonZeroUsize) {
    let mut left = units;
    let mut slice = FIRST;
    while left > 0 && !board.over() {
        let now = slice.min(left);
        let found = round(lanes, now, &board.known(), threads);
        if found.is_empty() {
            return;
        }
        found.into_iter().for_each(|found| board.hear(found));
        left -= now;
        slice = longer(slice);
    }
}

/// What the lanes found in one round, in their order; nothing of those that are done.
fn round(lanes: &mut [Lane], units: u64, known: &Known, threads: NonZeroUsize) -> Vec<Found> {
    let each = lanes.len().div_ceil(threads.get()).max(1);
    let turns = |lanes: &mut [Lane]| -> Vec<Found> {
        let turn = |lane: &mut Lane| lane.turn(units, known);
        lanes.iter_mut().filter_map(turn).collect()
    };
    if each >= lanes.len() {
        return turns(lanes);
    }
    thread::scope(|scope| {
        let parts: Vec<_> = lanes
            .chunks_mut(each)
            .map(|part| scope.spawn(move || turns(part)))
            .collect();
        let joined = parts.into_iter().map(|part| match part.join() {
            Ok(found) => found,
            Err(panic) => std::panic::resume_unwind(panic),
        });
        joined.flatten().collect()
    })
}
