//! Nogoods: what can never hold together, learnt from conflicts and kept while it is of use.
//!
//! A nogood is kept as its clause: at least one of these atoms holds. Two atoms of each are watched, as
//! in Moskewicz, Madigan, Zhao, Zhang and Malik, "Chaff: engineering an efficient SAT solver", DAC 2001;
//! a watch is woken when the view of its negation passes the value at which the atom fails. Those to be
//! forgotten are picked by the number of levels they join: Audemard and Simon, "Predicting learnt
//! clauses quality in modern SAT solvers", IJCAI 2009.

use super::atom::Atom;
use super::trail::{Conflict, Entry, Reason, Trail};
use crate::problem::Tick;

/// Nogoods that join at most so many levels are never forgotten.
const PRECIOUS: u32 = 2;

#[derive(Clone, Copy, Debug)]
struct Nogood {
    from: u32,
    count: u32,
    /// How many levels it joins.
    levels: u32,
    /// How often and how lately it was part of a conflict.
    interest: f32,
}

#[derive(Clone, Copy, Debug)]
struct Watch {
    nogood: u32,
    /// Another atom of the nogood: if it holds there is nothing to do.
    other: Atom,
}

/// The watches that one view wakes.
#[derive(Clone, Debug, Default)]
struct Watches {
    /// Values at which a watched atom fails, rising.
    values: Vec<Tick>,
    /// For each value, the watches that it wakes.
    at: Vec<Vec<Watch>>,
}

impl Watches {
    fn add(&mut self, value: Tick, watch: Watch) {
        let place = self.values.partition_point(|&v| v < value);
        if self.values.get(place) != Some(&value) {
            self.values.insert(place, value);
            self.at.insert(place, Vec::new());
        }
        self.at[place].push(watch);
    }
}

/// All nogoods.
#[derive(Clone, Debug)]
pub(super) struct Nogoods {
    all: Vec<Nogood>,
    atoms: Vec<Atom>,
    watches: Vec<Watches>,
    step: f32,
    /// How many may be kept.
    room: usize,
}

impl Nogoods {
    /// None yet, over so many views.
    pub(super) fn new(views: usize, room: usize) -> Self {
        Self {
            all: Vec::new(),
            atoms: Vec::new(),
            watches: vec![Watches::default(); views],
            step: 1.0,
            room,
        }
    }

    /// Learns a clause of at least two atoms. The first is about to be raised, the second failed last
    /// of all others.
    pub(super) fn learn(&mut self, clause: &[Atom], levels: u32) -> Reason {
        let nogood = self.all.len() as u32;
        self.all.push(Nogood {
            from: self.atoms.len() as u32,
            count: clause.len() as u32,
            levels,
            interest: self.step,
        });
        self.atoms.extend_from_slice(clause);
        self.watch(clause[0], nogood, clause[1]);
        self.watch(clause[1], nogood, clause[0]);
        Reason::Nogood(nogood)
    }

    fn watch(&mut self, atom: Atom, nogood: u32, other: Atom) {
        let not = atom.not();
        self.watches[not.view as usize].add(not.least, Watch { nogood, other });
    }

    /// The clause of a nogood.
    pub(super) fn clause(&self, nogood: u32) -> &[Atom] {
        let nogood = &self.all[nogood as usize];
        &self.atoms[nogood.from as usize..(nogood.from + nogood.count) as usize]
    }

    /// Draws the conclusions from a view that was raised.
    pub(super) fn follow(&mut self, entry: &Entry, trail: &mut Trail) -> Result<usize, Conflict> {
        let values = &self.watches[entry.view as usize].values;
        let begin = values.partition_point(|&value| value <= entry.before);
        let mut work = 0;
        for place in begin..values.len() {
            let watches = &self.watches[entry.view as usize];
            let value = watches.values[place];
            if value > entry.value {
                break;
            }
            work += watches.at[place].len();
            let reached = Atom {
                view: entry.view,
                least: value,
            };
            self.wake_all(reached, place, trail)?;
        }
        Ok(work)
    }

    /// Wakes all watches of one value that was reached.
    fn wake_all(&mut self, reached: Atom, place: usize, trail: &mut Trail) -> Result<(), Conflict> {
        let view = reached.view as usize;
        let mut watches = std::mem::take(&mut self.watches[view].at[place]);
        let mut result = Ok(());
        watches.retain_mut(|watch| {
            if result.is_err() || trail.holds(watch.other) {
                return true;
            }
            self.wake(watch, reached.not(), trail)
                .unwrap_or_else(|conflict| {
                    result = Err(conflict);
                    true
                })
        });
        self.watches[view].at[place] = watches;
        result
    }

    /// Looks for another atom to watch; whether the watch stays because there is none.
    fn wake(
        &mut self,
        watch: &mut Watch,
        failed: Atom,
        trail: &mut Trail,
    ) -> Result<bool, Conflict> {
        let nogood = &self.all[watch.nogood as usize];
        let range = nogood.from as usize..(nogood.from + nogood.count) as usize;
        let clause = &mut self.atoms[range];
        if clause[0] == failed {
            clause.swap(0, 1);
        }
        let first = clause[0];
        watch.other = first;
        if trail.holds(first) {
            return Ok(true);
        }
        if let Some(found) = (2..clause.len()).find(|&k| !trail.fails(clause[k])) {
            clause.swap(1, found);
            let atom = clause[1];
            self.watch(atom, watch.nogood, first);
            return Ok(false);
        }
        trail.raise(first, Reason::Nogood(watch.nogood))?;
        Ok(true)
    }

    /// Notes that a nogood was part of a conflict.
    pub(super) fn used(&mut self, nogood: u32) {
        let nogood = &mut self.all[nogood as usize];
        nogood.interest += self.step;
        if nogood.interest > 1e20 {
            self.all.iter_mut().for_each(|n| n.interest *= 1e-20);
            self.step *= 1e-20;
        }
    }

    /// Lets older interest count for less.
    pub(super) fn age(&mut self) {
        self.step *= 1.0 / 0.999;
    }

    /// Whether there are more than may be kept.
    pub(super) fn crowded(&self) -> bool {
        self.all.len() > self.room
    }

    /// Forgets what holds always, what is left out of every clause because it never holds, and, when
    /// there are too many, the less useful half. No choice may be open.
    pub(super) fn tidy(&mut self, trail: &Trail) {
        let worth = |n: &Nogood| (n.levels > PRECIOUS, n.levels.min(8), -n.interest);
        let mut order: Vec<u32> = (0..self.all.len() as u32).collect();
        if self.crowded() {
            order.sort_by(|&a, &b| {
                let (a, b) = (worth(&self.all[a as usize]), worth(&self.all[b as usize]));
                a.partial_cmp(&b).unwrap_or(std::cmp::Ordering::Equal)
            });
            let precious = order.partition_point(|&n| self.all[n as usize].levels <= PRECIOUS);
            order.truncate(precious.max(self.room / 2));
            order.sort_unstable();
            self.room += self.room / 20;
        }
        let old = std::mem::take(&mut self.all);
        let atoms = std::mem::take(&mut self.atoms);
        self.watches.fill(Watches::default());
        for n in order {
            let nogood = old[n as usize];
            let range = nogood.from as usize..(nogood.from + nogood.count) as usize;
            let clause = &atoms[range];
            if clause.iter().any(|&atom| trail.holds(atom)) {
                continue;
            }
            let from = self.atoms.len() as u32;
            let open = clause.iter().filter(|atom| !trail.fails(**atom));
            self.atoms.extend(open);
            let count = self.atoms.len() as u32 - from;
            let index = self.all.len() as u32;
            self.all.push(Nogood {
                from,
                count,
                ..nogood
            });
            let (a, b) = (self.atoms[from as usize], self.atoms[from as usize + 1]);
            self.watch(a, index, b);
            self.watch(b, index, a);
        }
    }
}
