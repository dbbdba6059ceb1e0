//! Whether a resource has enough for all that must run within an interval.
//!
//! The overload check of time-table edge finding: Vilím, "Timetable edge finding filtering algorithm for
//! discrete cumulative resources", CPAIOR 2011; explained as in Schutt, Feydy and Stuckey, "Explaining
//! time-table-edge-finding propagation for the cumulative resource constraint", CPAIOR 2013.

use super::atom::{Atom, high, low};
use super::cumulative::Cumulative;
use super::trail::{Conflict, Trail};
use crate::problem::Tick;

/// A task as the check sees it.
#[derive(Clone, Copy, Debug)]
struct Share {
    /// It starts no earlier.
    start: Tick,
    /// It ends no later.
    end: Tick,
    /// From here on what runs of it before any later moment is more than what certainly runs.
    turn: Tick,
    /// Ticks of it that do not run for certain.
    loose: Tick,
    amount: i64,
    /// What certainly runs of all tasks before its start.
    before: i64,
}

/// Room for the check, kept from one to the next.
#[derive(Clone, Debug, Default)]
pub(super) struct Shares {
    shares: Vec<Share>,
    ends: Vec<(Tick, i64)>,
    dues: Vec<(i64, bool, u32, Tick)>,
}

impl Cumulative {
    /// Looks for an interval that is asked to hold more than it can. The blocks must be good.
    pub(super) fn check_energy(&mut self, trail: &mut Trail) -> Result<usize, Conflict> {
        let mut room = std::mem::take(&mut self.shares);
        self.share_out(&mut room);
        let mut full = None;
        'all: for &(end, before_end) in &room.ends {
            let mut energy = 0;
            for share in room.shares.iter().rev() {
                if share.start >= end {
                    continue;
                }
                let ticks = if share.end <= end {
                    share.loose
                } else {
                    (end - share.turn).max(0)
                };
                energy += share.amount * i64::from(ticks);
                let certain = before_end - share.before;
                if energy + certain > self.capacity() * i64::from(end - share.start) {
                    full = Some((share.start, end));
                    break 'all;
                }
            }
        }
        let work = room.ends.len() * room.shares.len() / 2;
        if let Some((from, until)) = full {
            self.explain_overload(from, until, trail, &mut room.dues);
        }
        self.shares = room;
        match full {
            Some(_) => Err(Conflict::Clash),
            None => Ok(work),
        }
    }

    fn share_out(&self, room: &mut Shares) {
        room.shares.clear();
        room.ends.clear();
        for (task, &(low, high)) in self.tasks().iter().zip(self.seen()) {
            let certain = (low + task.ticks - high).max(0);
            let share = Share {
                start: low,
                end: high + task.ticks,
                turn: high.max(low + task.ticks),
                loose: task.ticks - certain,
                amount: task.amount,
                before: 0,
            };
            if share.loose > 0 {
                room.shares.push(share);
                room.ends.push((share.end, 0));
            }
        }
        room.shares.sort_unstable_by_key(|share| share.start);
        room.ends.sort_unstable();
        room.ends.dedup();
        let shares = room.shares.iter_mut();
        self.certain_before(shares.map(|share| (share.start, &mut share.before)));
        self.certain_before(room.ends.iter_mut().map(|(end, before)| (*end, before)));
    }

    /// What certainly runs before each of some moments, which must rise.
    fn certain_before<'a>(&self, moments: impl Iterator<Item = (Tick, &'a mut i64)>) {
        let blocks = self.blocks();
        let (mut done, mut sum) = (0, 0);
        for (at, before) in moments {
            while done < blocks.len() && blocks[done].until <= at {
                let block = &blocks[done];
                sum += block.amount * i64::from(block.until - block.from);
                done += 1;
            }
            let part = blocks.get(done).filter(|block| block.from < at);
            *before = sum + part.map_or(0, |block| block.amount * i64::from(at - block.from));
        }
    }

    /// Writes down why so much must run in an interval: of each task no more than is needed.
    fn explain_overload(
        &self,
        from: Tick,
        until: Tick,
        trail: &mut Trail,
        dues: &mut Vec<(i64, bool, u32, Tick)>,
    ) {
        dues.clear();
        let mut spare = -1 - self.capacity() * i64::from(until - from);
        for (t, (task, &(earliest, latest))) in self.tasks().iter().zip(self.seen()).enumerate() {
            let inside = (earliest + task.ticks - from).min(until - latest);
            let inside = inside.min(task.ticks).min(until - from);
            if inside <= 0 {
                continue;
            }
            let number = task.number as usize;
            let free = from + inside - task.ticks <= trail.root(low(number))
                && inside - until <= trail.root(high(number));
            let energy = task.amount * i64::from(inside);
            spare += energy;
            dues.push((energy, free, t as u32, inside));
        }
        dues.sort_unstable();
        trail.clash.clear();
        for &(energy, free, t, inside) in dues.iter() {
            let task = self.tasks()[t as usize];
            let number = task.number as usize;
            if !free && energy <= spare {
                spare -= energy;
                continue;
            }
            let less = if free { 0 } else { spare / task.amount };
            spare -= less * task.amount;
            // It is less than the whole, or all of it would have been left out.
            let inside = inside - less as Tick;
            trail.clash.extend([
                Atom::at_least(number, from + inside - task.ticks),
                Atom::at_most(number, until - inside),
            ]);
        }
    }
}
