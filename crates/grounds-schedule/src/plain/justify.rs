//! Schedules pushed against the end and back against the beginning.
//!
//! Activities are placed from the end of time in the order of their finishes, the last first, each as
//! late as it can be; then from the beginning in the order of the starts this gives. Neither pass
//! makes the schedule longer (Tormos and Lova 2001: forward–backward improvement; Valls, Ballestín and
//! Quintanilla 2005: double justification; from memory).

use super::core::Core;
use super::list::{Sorter, Straightener};
use super::precedence::Precedence;
use super::profile::Profile;
use super::serial::Direction;
use crate::problem::Tick;

/// Beyond these lengths a pass is given up, since what comes of it would hardly be wanted.
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
    /// No pass is given up.
    pub const NONE: Self = Self {
        first: Tick::MAX,
        back: Tick::MAX,
        last: Tick::MAX,
    };
}

/// Builds schedules of one problem from lists and justifies them.
#[derive(Clone, Debug)]
pub struct Builder<const W: usize> {
    durations: Vec<Tick>,
    /// The waits as they are, and as they are from the end of time.
    ways: [Way<W>; 2],
    profile: Profile<W>,
    sorter: Sorter,
    straightener: Straightener,
    list: Vec<u32>,
    mirrored: Vec<Tick>,
    /// Activities placed so far.
    pub placed: u64,
    /// Passes so far.
    pub passes: u64,
}

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
    /// For a problem and its waits. No schedule takes longer than `ticks`.
    #[must_use]
    pub fn new(core: &Core, precedence: Precedence, ticks: usize) -> Self {
        let count = core.count();
        let heads = precedence.heads(&core.earliest);
        let tails = precedence.tails(&core.durations);
        let back = precedence.mirrored(&core.durations);
        let ends = heads.iter().zip(&core.durations);
        let ends: Vec<Tick> = ends.map(|(head, work)| head + work).collect();
        Self {
            durations: core.durations.clone(),
            ways: [
                Way::new(core, precedence, &core.earliest, &tails),
                Way::new(core, back, &vec![0; count], &ends),
            ],
            profile: Profile::new(&core.capacities, ticks + 1),
            sorter: Sorter::default(),
            straightener: Straightener::new(count),
            list: vec![0; count],
            mirrored: vec![0; count],
            placed: 0,
            passes: 0,
        }
    }

    /// The waits as they are.
    #[must_use]
    pub fn precedence(&self) -> &Precedence {
        &self.ways[0].precedence
    }

    /// The schedule of a list, justified: its starts and its last finish. `None` if a pass was given up.
    pub fn justified(&mut self, list: &[u32], starts: &mut [Tick], cuts: Cuts) -> Option<Tick> {
        let finish = self.schedule(list, starts, cuts.first)?;
        self.justify(starts, finish, cuts)
    }

    /// The schedule of a list: its starts and its last finish. `None` if it would be beyond the cut.
    pub fn schedule(&mut self, list: &[u32], starts: &mut [Tick], cut: Tick) -> Option<Tick> {
        self.profile.clear();
        self.passes += 1;
        let direction = &self.ways[0].direction;
        direction.place(list, &mut self.profile, starts, cut, &mut self.placed)
    }

    /// Pushes a schedule against its end and back: its new starts and its new last finish, which is no
    /// later. `None` if a pass was given up.
    pub fn justify(&mut self, starts: &mut [Tick], finish: Tick, cuts: Cuts) -> Option<Tick> {
        let durations = &self.durations;
        let [forward, backward] = &self.ways;
        let late_first = |i: usize| finish - starts[i] - durations[i];
        let order = &backward.direction.order;
        self.sorter.sort(order, &mut self.list, finish, late_first);
        if !backward.straight {
            let precedence = &backward.precedence;
            self.straightener.straighten(precedence, &mut self.list);
        }
        self.profile.clear();
        let back = backward.direction.place(
            &self.list,
            &mut self.profile,
            &mut self.mirrored,
            cuts.back,
            &mut self.placed,
        );
        self.passes += 1;
        let back = back?;
        let mirrored = &self.mirrored;
        let early_first = |i: usize| back - mirrored[i] - durations[i];
        let order = &forward.direction.order;
        self.sorter.sort(order, &mut self.list, back, early_first);
        if !forward.straight {
            let precedence = &forward.precedence;
            self.straightener.straighten(precedence, &mut self.list);
        }
        self.profile.clear();
        self.passes += 1;
        forward.direction.place(
            &self.list,
            &mut self.profile,
            starts,
            cuts.last,
            &mut self.placed,
        )
    }

    /// Writes the list of a schedule: its activities in the order of their starts.
    pub fn list_of(&mut self, starts: &[Tick], finish: Tick, list: &mut [u32]) {
        let way = &self.ways[0];
        let order = &way.direction.order;
        self.sorter.sort(order, list, finish, |i| starts[i]);
        if !way.straight {
            self.straightener.straighten(&way.precedence, list);
        }
    }
}
