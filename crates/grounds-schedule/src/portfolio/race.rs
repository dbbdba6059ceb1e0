//! Lanes that run free until they are told to stop.

use std::thread;

use super::board::Board;
use super::lane::Lane;
use super::rounds::longer;

/// Units of the first slice of a lane: easy problems are over after it.
pub(super) const FIRST: u64 = 3_000;

pub(super) fn run(lanes: &mut [Lane], board: &Board, keep_going: &(dyn Fn() -> bool + Sync)) {
    thread::scope(|scope| {
        let mut lanes = lanes.iter_mut();
        let mine = lanes.next();
        for lane in lanes {
            scope.spawn(move || go(lane, board, keep_going));
        }
        if let Some(lane) = mine {
            go(lane, board, keep_going);
        }
    });
}

fn go(lane: &mut Lane, board: &Board, keep_going: &(dyn Fn() -> bool + Sync)) {
    let mut slice = FIRST;
    while !board.over() && keep_going() {
        let Some(found) = lane.turn(slice, &board.known()) else {
            return;
        };
        board.hear(found);
        slice = longer(slice);
    }
}
