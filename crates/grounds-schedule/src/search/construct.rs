//! A plan from a list: the most urgent activity that may be placed goes where it fits first.
//!
//! The serial schedule generation scheme (Kelley 1963; Kolisch 1996), over blocks of activities
//! that bound each other in a circle: coats joined by a latest recoat are placed together. If the
//! window between two of them is missed, the earlier one is put later by what was missing, and
//! the block is placed anew. If a window can never be met, it is left out and reported.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::clock::NEVER;
use super::compiled::Compiled;
use super::fit::{Fitter, Regard};
use super::passes::{Forward, settle};
use super::state::State;
use super::ways::Ways;
use crate::problem::{ActivityId, Fact, Tick};

/// Times a block is placed anew before a window is left out.
const TRIES: u32 = 120;
/// Times a block is placed anew in all before every window is left out.
const TRIES_IN_ALL: u32 = 600;

/// Activities that are placed anew piece by piece before longest waits are given up, and the least and
/// most rounds that this makes.
const LOOSE_PLACINGS: usize = 800;
const LOOSE_ROUNDS: (usize, usize) = (3, 40);

/// How much of the problem a plan breaks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Broken {
    /// Lags, dates, horizons and ways in that are broken.
    pub(crate) count: u32,
    /// Ticks by which lags, dates and horizons are missed, in all.
    pub(crate) ticks: i64,
}

/// Builds plans from lists, again and again in the same memory.
pub(crate) struct Builder {
    fitter: Fitter,
    pub(crate) state: State,
    hopeless: Vec<bool>,
    left_out: Vec<bool>,
    raised: Vec<u32>,
    /// Earliest starts by what is placed already.
    pub(crate) low: Vec<Tick>,
    block_low: Vec<Tick>,
    /// Earliest starts by dates, and by what a caller asks for.
    floors: Vec<Tick>,
    rank: Vec<u32>,
    needs: Vec<u32>,
    ready: BinaryHeap<Reverse<(u32, u32)>>,
    sequence: Vec<usize>,
    /// Whether a member of the block in hand is in the sequence.
    sequenced: Vec<bool>,
    cut_off: u32,
    /// Breaches that no plan avoids: places without a way in, begun work that never ends.
    given: u32,
    /// Those, and what time alone breaks.
    unavoidable: u32,
    /// Whether some activities bound each other in a circle.
    has_circles: bool,
    /// What longest waits ask for when everything is placed piece by piece.
    asked: Vec<Tick>,
    waits: Vec<u32>,
}

impl Builder {
    pub(crate) fn new(c: &Compiled, ways: Ways, forward: &Forward) -> Self {
        let mut fitter = Fitter::new(ways);
        let given = (0..c.count()).filter(|&i| match c.problem.activities[i].fact {
            Fact::Open => !fitter.can_reach(c, i),
            Fact::Begun { .. } => c.base.finishes[i] > c.problem.horizon,
            Fact::Done { .. } => false,
        });
        let given = u32::try_from(given.count()).unwrap_or(u32::MAX);
        let late = (0..c.count()).filter(|&i| c.open[i] && forward.starts[i] > c.latest[i]);
        let hopeless = forward.hopeless.iter().filter(|hopeless| **hopeless);
        let by_time = u32::try_from(late.count() + hopeless.count()).unwrap_or(u32::MAX);
        Self {
            fitter,
            given,
            unavoidable: given.saturating_add(by_time),
            has_circles: c.blocks.members.iter().any(|members| members.len() > 1),
            asked: vec![0; c.count()],
            waits: vec![0; c.count()],
            state: c.base.clone(),
            hopeless: forward.hopeless.clone(),
            left_out: forward.hopeless.clone(),
            raised: vec![0; c.arcs.len()],
            low: vec![0; c.count()],
            block_low: vec![0; c.count()],
            floors: c.earliest.clone(),
            rank: vec![0; c.count()],
            needs: vec![0; c.blocks.members.len()],
            ready: BinaryHeap::with_capacity(c.blocks.members.len()),
            sequence: Vec::with_capacity(c.count()),
            sequenced: vec![false; c.count()],
            cut_off: 0,
        }
    }

    /// Places everything in the order of the list as far as lags allow. Activities that the list
    /// does not name come last; names that come twice count once.
    ///
    /// Blocks are placed whole; where that breaks something that could hold, everything is placed once
    /// more piece by piece, and the better of the two plans stays.
    pub(crate) fn build(&mut self, c: &Compiled, list: &[ActivityId]) -> Broken {
        let whole = self.build_whole(c, list);
        if whole.count <= self.unavoidable || !self.has_circles {
            return whole;
        }
        let loose = self.build_loose(c);
        if loose < whole {
            return loose;
        }
        self.build_whole(c, list)
    }

    /// The same where nothing may start before a moment of its own.
    pub(crate) fn build_not_before(
        &mut self,
        c: &Compiled,
        list: &[ActivityId],
        not_before: &[Tick],
    ) -> Broken {
        let floor = |(floor, &own): (&mut Tick, &Tick)| *floor = own.max(*floor);
        self.floors.iter_mut().zip(not_before).for_each(floor);
        let broken = self.build(c, list);
        self.floors.copy_from_slice(&c.earliest);
        broken
    }

    /// Places block after block.
    fn build_whole(&mut self, c: &Compiled, list: &[ActivityId]) -> Broken {
        self.state.copy_from(&c.base);
        self.low.copy_from_slice(&self.floors);
        self.needs.copy_from_slice(&c.blocks.needs);
        self.left_out.copy_from_slice(&self.hopeless);
        self.cut_off = self.given;
        self.set_ranks(list);
        self.ready.clear();
        for block in 0..c.blocks.members.len() {
            if self.needs[block] == 0 {
                self.make_ready(c, block);
            }
        }
        while let Some(Reverse((_, block))) = self.ready.pop() {
            self.place_block(c, block as usize);
            self.release(c, block as usize);
        }
        self.assess(c)
    }

    fn set_ranks(&mut self, list: &[ActivityId]) {
        self.rank.fill(u32::MAX);
        let mut next = 0;
        for id in list {
            if let Some(rank) = self
                .rank
                .get_mut(id.index())
                .filter(|rank| **rank == u32::MAX)
            {
                *rank = next;
                next += 1;
            }
        }
    }

    fn make_ready(&mut self, c: &Compiled, block: usize) {
        let members = &c.blocks.members[block];
        let rank = members
            .iter()
            .map(|&m| self.rank[m])
            .min()
            .unwrap_or(u32::MAX);
        self.ready.push(Reverse((rank, block as u32)));
    }

    /// Passes a placed block's times on to what waits for it.
    fn release(&mut self, c: &Compiled, block: usize) {
        for &m in &c.blocks.members[block] {
            let (start, finish) = (self.state.starts[m], self.state.finishes[m]);
            for i in c.out.of(m) {
                let arc = &c.arcs[i];
                let to = c.blocks.of[arc.to];
                if to == block {
                    continue;
                }
                let lower = arc.lower(c.work[arc.to], start, finish);
                self.low[arc.to] = self.low[arc.to].max(lower);
                self.needs[to] -= 1;
                if self.needs[to] == 0 {
                    self.make_ready(c, to);
                }
            }
        }
    }

    fn place_block(&mut self, c: &Compiled, block: usize) {
        let members = &c.blocks.members[block];
        if let [only] = members[..] {
            let (start, finish) = self.spot(c, only, self.low[only]);
            self.state.place(c, only, start, finish);
            return;
        }
        self.put_in_sequence(c, block);
        self.forget_raises(c, block);
        for &m in members {
            self.block_low[m] = self.low[m];
        }
        let (mut tries, mut in_all) = (0, 0);
        while let Some(arc) = self.try_block(c, block) {
            self.raised[arc] += 1;
            tries += 1;
            in_all += 1;
            if tries < TRIES && self.block_low[c.arcs[arc].to] <= c.problem.horizon {
                continue;
            }
            self.leave_out(c, block, arc, in_all >= TRIES_IN_ALL);
            self.forget_raises(c, block);
            for &m in members {
                self.block_low[m] = self.low[m];
            }
            tries = 0;
        }
    }

    fn forget_raises(&mut self, c: &Compiled, block: usize) {
        for &m in &c.blocks.members[block] {
            for i in c.out.of(m) {
                self.raised[i] = 0;
            }
        }
    }

    /// Leaves the window out that was missed most often; all windows of the block if `all`.
    fn leave_out(&mut self, c: &Compiled, block: usize, last: usize, all: bool) {
        let mut worst = last;
        for &m in &c.blocks.members[block] {
            for i in c.out.of(m) {
                let arc = &c.arcs[i];
                if c.blocks.of[arc.to] != block || self.left_out[i] {
                    continue;
                }
                if all && arc.longest {
                    self.left_out[i] = true;
                }
                let key = |i: usize| (self.raised[i] > 0 && c.arcs[i].longest, self.raised[i]);
                if key(i) > key(worst) {
                    worst = i;
                }
            }
        }
        self.left_out[worst] = true;
    }

    /// Members in the order of the list, but none before what it has to wait for.
    fn put_in_sequence(&mut self, c: &Compiled, block: usize) {
        let members = &c.blocks.members[block];
        self.sequence.clear();
        members.iter().for_each(|&m| self.sequenced[m] = false);
        for _ in members {
            let mut best: Option<((bool, u32, usize), usize)> = None;
            for &m in members {
                if self.sequenced[m] {
                    continue;
                }
                let waits = c.into.of(m).any(|i| {
                    let arc = &c.arcs[i];
                    let inner = c.blocks.of[arc.from] == block && !arc.longest;
                    inner && arc.amount >= 0 && !self.sequenced[arc.from]
                });
                let key = (waits, self.rank[m], m);
                if best.is_none_or(|(other, _)| key < other) {
                    best = Some((key, m));
                }
            }
            if let Some((_, m)) = best {
                self.sequence.push(m);
                self.sequenced[m] = true;
            }
        }
    }

    /// Places a block once. If an arc does not hold, takes everything out again, raises the bound
    /// of the activity that has to come later, and names the arc.
    fn try_block(&mut self, c: &Compiled, block: usize) -> Option<usize> {
        let members = &c.blocks.members[block];
        if let Some(arc) = settle(c, members, &mut self.block_low, &self.left_out) {
            self.block_low[c.arcs[arc].to] = NEVER;
            return Some(arc);
        }
        for k in 0..self.sequence.len() {
            let m = self.sequence[k];
            let mut from = self.block_low[m];
            for i in c.into.of(m).filter(|&i| !self.left_out[i]) {
                let arc = &c.arcs[i];
                if c.blocks.of[arc.from] == block && self.state.placed[arc.from] {
                    let source = (self.state.starts[arc.from], self.state.finishes[arc.from]);
                    from = from.max(arc.lower(c.work[m], source.0, source.1));
                }
            }
            let (start, finish) = self.spot(c, m, from);
            self.state.place(c, m, start, finish);
            let broken = c.out.of(m).find(|&i| {
                let arc = &c.arcs[i];
                let to = arc.to;
                let inner = c.blocks.of[to] == block && self.state.placed[to];
                let target = (self.state.starts[to], self.state.finishes[to]);
                inner && !self.left_out[i] && !arc.holds((start, finish), target)
            });
            let Some(i) = broken else { continue };
            let arc = &c.arcs[i];
            self.block_low[arc.to] = arc.lower(c.work[arc.to], start, finish);
            for n in 0..=k {
                self.state.unplace(c, self.sequence[n]);
            }
            return Some(i);
        }
        None
    }

    /// Places activity after activity by rank, each as soon as what it has to wait for is placed. What
    /// comes too late for something placed before makes that wait, and all is placed anew, a few
    /// times.
    fn build_loose(&mut self, c: &Compiled) -> Broken {
        self.asked.copy_from_slice(&self.floors);
        let rounds = (LOOSE_PLACINGS / c.count().max(1)).clamp(LOOSE_ROUNDS.0, LOOSE_ROUNDS.1);
        for round in 0..=rounds {
            if !self.place_loose(c, round < rounds) {
                break;
            }
        }
        self.assess_all(c)
    }

    /// Places everything piece by piece; whether it stopped because something has to wait longer.
    fn place_loose(&mut self, c: &Compiled, may_stop: bool) -> bool {
        self.state.copy_from(&c.base);
        self.low.copy_from_slice(&self.asked);
        self.cut_off = self.given;
        self.ready.clear();
        for i in (0..c.count()).filter(|&i| c.open[i]) {
            let waits = c.into.of(i).filter(|&arc| is_wait(c, arc)).count();
            self.waits[i] = u32::try_from(waits).unwrap_or(u32::MAX);
            // What waits for itself in a circle comes last.
            let rank = if waits == 0 { self.rank[i] } else { u32::MAX };
            self.ready.push(Reverse((rank, i as u32)));
        }
        while let Some(Reverse((_, i))) = self.ready.pop() {
            let i = i as usize;
            if self.state.placed[i] {
                continue;
            }
            let (start, finish) = self.spot(c, i, self.low[i]);
            self.state.place(c, i, start, finish);
            for a in c.out.of(i).filter(|&a| !self.hopeless[a]) {
                let arc = &c.arcs[a];
                let to = arc.to;
                let lower = arc.lower(c.work[to], start, finish);
                if self.state.placed[to] {
                    let late = self.state.starts[to] < lower && lower <= c.problem.horizon;
                    if late && may_stop {
                        self.asked[to] = self.asked[to].max(lower);
                        return true;
                    }
                    continue;
                }
                self.low[to] = self.low[to].max(lower);
                if is_wait(c, a) {
                    self.waits[to] -= 1;
                    if self.waits[to] == 0 {
                        self.ready.push(Reverse((self.rank[to], arc.to as u32)));
                    }
                }
            }
        }
        false
    }

    /// Takes a placed activity out and puts it where it fits from a moment on; its start.
    pub(crate) fn moved(&mut self, c: &Compiled, i: usize, from: Tick) -> Option<Tick> {
        self.state.unplace(c, i);
        let (start, finish) = self.fitter.find(c, &self.state, i, from, Regard::All)?;
        self.state.place(c, i, start, finish);
        Some(start)
    }

    /// Where an activity goes: where it fits; failing that, where its crews are free; failing
    /// that, beyond the end of time.
    fn spot(&mut self, c: &Compiled, i: usize, from: Tick) -> (Tick, Tick) {
        if let Some(found) = self.fitter.find(c, &self.state, i, from, Regard::All) {
            return found;
        }
        if let Some(found) = self.fitter.find(c, &self.state, i, from, Regard::Crews) {
            self.cut_off += 1;
            return found;
        }
        let start = c.problem.horizon + 1;
        (start, start + c.work[i].work)
    }

    /// What the plan breaks, where blocks were placed whole: what is not left out holds then.
    fn assess(&self, c: &Compiled) -> Broken {
        let left_out = c.arcs.iter().zip(&self.left_out).filter(|(_, out)| **out);
        self.broken(c, left_out.map(|(arc, _)| arc))
    }

    /// What the plan breaks, whatever made it.
    fn assess_all(&self, c: &Compiled) -> Broken {
        self.broken(c, c.arcs.iter())
    }

    /// What the plan breaks, as far as the search can break anything.
    fn broken<'c, 'a: 'c>(
        &self,
        c: &'c Compiled<'a>,
        arcs: impl Iterator<Item = &'c super::arcs::Arc<'a>>,
    ) -> Broken {
        let horizon = c.problem.horizon;
        let mut broken = Broken {
            count: self.cut_off,
            ticks: 0,
        };
        let mut miss = |by: Tick| {
            broken.count += 1;
            broken.ticks += i64::from(by);
        };
        let ends = |i: usize| (self.state.starts[i], self.state.finishes[i]);
        for i in (0..c.count()).filter(|&i| c.open[i]) {
            let (start, finish) = ends(i);
            if finish > horizon {
                miss(horizon.max(0));
            } else if start > c.latest[i] {
                miss(start - c.latest[i].max(0));
            }
        }
        for arc in arcs.chain(&c.own) {
            let (source, target) = (ends(arc.from), ends(arc.to));
            let planned = source.1 <= horizon && target.1 <= horizon;
            if planned && !arc.holds(source, target) {
                let end = super::arcs::pick(arc.to_end, target.0, target.1);
                miss(arc.earliest(source.0, source.1).saturating_sub(end));
            }
        }
        broken
    }
}

/// Whether an arc makes its target wait until its source is placed.
fn is_wait(c: &Compiled, arc: usize) -> bool {
    let arc = &c.arcs[arc];
    !arc.longest && arc.amount >= 0
}
