//! Schedules pushed against the end and back against the beginning.
//!
//! Activities are placed from the end of time in the order of their finishes, the last first, each as
//! late as it can be; then from the beginning in the order of the starts this gives. Where every wait
//! is at least as long as the work waited for, neither pass makes the schedule longer (Li and Willis
//! 1992, Tormos and Lova 2001: forward–backward improvement; Valls, Ballestín and Quintanilla 2005:
//! double justification; from memory).

use super::core::Core;
use super::list::{Sorter, Straightener};
use super::precedence::Precedence;
use super::profile::Profile;
use super::serial::Direction;
use crate::problem::Tick;

/// Lengths beyond which a pass is given up, since what comes of it would hardly be wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cuts {
    /// For the first pass, from the list.
    pub first: Tick,
    /// For the pass from the end.
    pub back: Tick,
    /// For the last pass.
    pub last: Tick,
}

impl Cuts {
    /// The same for all passes.
    #[must_use]
    pub fn all(cut: Tick) -> Self {
        Self {
            first: cut,
            back: cut,
            last: cut,
        }
    }
}

/// Builds schedules of one problem from lists and justifies them. Nothing is allocated on the way.
#[derive(Clone, Debug)]
pub struct Builder<const W: usize> {
    durations: Vec<Tick>,
    forward: Way<W>,
    backward: Way<W>,
    profile: Profile<W>,
    sorter: Sorter,
    straightener: Straightener,
    list: Vec<u32>,
    /// Starts as they are seen from the end.
    mirrored: Vec<Tick>,
    /// Some wait is shorter than the work waited for, so that a pass can make a schedule longer.
    may_grow: bool,
    /// Activities placed so far.
    pub placed: u64,
    /// Passes so far.
    pub passes: u64,
}

/// A direction of time with its waits.
#[derive(Clone, Debug)]
struct Way<const W: usize> {
    precedence: Precedence,
    direction: Direction<W>,
    /// No wait lets an activity start before what it waits for starts.
    straight: bool,
}

impl<const W: usize> Way<W> {
    fn new(core: &Core, precedence: Precedence, earliest: &[Tick], tails: &[Tick]) -> Self {
        let mut waits = (0..core.count()).flat_map(|i| precedence.before(i));
        Self {
            straight: waits.all(|&(_, ticks)| ticks >= 0),
            direction: Direction::new(core, &precedence, earliest, tails),
            precedence,
        }
    }
}

impl<const W: usize> Builder<W> {
    /// For a problem whose amounts fit into `W` words, and its waits. Work that is not given up is
    /// placed within `ticks`.
    #[must_use]
    pub fn new(core: &Core, precedence: &Precedence, ticks: usize) -> Self {
        let count = core.count();
        let heads = precedence.heads(&core.earliest);
        let tails = precedence.tails(&core.durations);
        let back = precedence.mirrored(&core.durations);
        let ends = heads.iter().zip(&core.durations);
        let ends: Vec<Tick> = ends.map(|(head, work)| head + work).collect();
        Self {
            durations: core.durations.clone(),
            forward: Way::new(core, precedence.clone(), &core.earliest, &tails),
            backward: Way::new(core, back, &vec![0; count], &ends),
            profile: Profile::new(&core.capacities, ticks),
            sorter: Sorter::default(),
            straightener: Straightener::new(count),
            list: vec![0; count],
            mirrored: vec![0; count],
            may_grow: (core.waits.iter())
                .any(|wait| wait.ticks < core.durations[wait.from as usize]),
            placed: 0,
            passes: 0,
        }
    }

    /// The waits.
    #[must_use]
    pub fn precedence(&self) -> &Precedence {
        &self.forward.precedence
    }

    /// The schedule of a list, justified unless that makes it longer: its starts and its last finish.
    /// `None` if a pass was given up.
    pub fn justified(&mut self, list: &[u32], starts: &mut [Tick], cuts: Cuts) -> Option<Tick> {
        let first = self.schedule(list, starts, cuts.first)?;
        let justified = self.justify(starts, first, cuts);
        if self.may_grow && justified.is_none_or(|finish| finish > first) {
            return self.schedule(list, starts, cuts.last);
        }
        justified
    }

    /// The schedule of a list: its starts and its last finish. `None` if it was given up.
    pub fn schedule(&mut self, list: &[u32], starts: &mut [Tick], cut: Tick) -> Option<Tick> {
        self.profile.clear();
        self.passes += 1;
        let direction = &self.forward.direction;
        direction.place(list, &mut self.profile, starts, cut, &mut self.placed)
    }

    /// Pushes a schedule against its end and back: its new starts and its new last finish. `None` if a
    /// pass was given up.
    pub fn justify(&mut self, starts: &mut [Tick], finish: Tick, cuts: Cuts) -> Option<Tick> {
        let mut mirrored = std::mem::take(&mut self.mirrored);
        let back = self.turned(true, starts, finish, &mut mirrored, cuts.back);
        let finish = back.and_then(|back| self.turned(false, &mirrored, back, starts, cuts.last));
        self.mirrored = mirrored;
        finish
    }

    /// Writes the list of a schedule: its activities in the order of their starts.
    pub fn list_of(&mut self, starts: &[Tick], finish: Tick, list: &mut [u32]) {
        let Way {
            precedence,
            straight,
            ..
        } = &self.forward;
        let order = &precedence.order;
        self.sorter.sort(order, list, finish, |i| starts[i]);
        if !straight {
            self.straightener.straighten(precedence, list);
        }
    }

    /// Puts a list right that does not obey the waits.
    pub fn straighten(&mut self, list: &mut [u32]) {
        let precedence = &self.forward.precedence;
        self.straightener.straighten(precedence, list);
    }

    /// Places everything from the other end of time, what ends last in `starts` first; seen from there.
    fn turned(
        &mut self,
        back: bool,
        starts: &[Tick],
        finish: Tick,
        turned: &mut [Tick],
        cut: Tick,
    ) -> Option<Tick> {
        let way = if back { &self.backward } else { &self.forward };
        let durations = &self.durations;
        let from_end = |i: usize| finish - starts[i] - durations[i];
        let order = &way.precedence.order;
        self.sorter.sort(order, &mut self.list, finish, from_end);
        if !way.straight {
            self.straightener
                .straighten(&way.precedence, &mut self.list);
        }
        self.profile.clear();
        self.passes += 1;
        let (profile, placed) = (&mut self.profile, &mut self.placed);
        way.direction
            .place(&self.list, profile, turned, cut, placed)
    }
}
