//! Learning from a conflict: which few atoms, one of them of the present level, made it certain.
//!
//! The first unique implication point, as in Marques-Silva and Sakallah, "GRASP", 1996, and Zhang,
//! Madigan, Moskewicz and Malik, ICCAD 2001. Atoms of one view are one atom, the stronger; and a step
//! is explained only as far as it is needed, which makes the nogood say more (lazy explanation:
//! Feydy and Stuckey, "Lazy clause generation reengineered", CP 2009). Atoms that others of the nogood
//! imply are left out: Sörensson and Biere, "Minimizing learned clauses", SAT 2009.

use super::atom::Atom;
use super::engine::Engine;
use super::interest::Question;
use super::trail::{Conflict, Reason};
use crate::problem::Tick;

/// A view of which nothing is needed.
const NOTHING: Tick = Tick::MIN;

/// How far reasons of reasons are followed to leave an atom out.
const DEEPEST: usize = 12;

/// What a conflict needs, while it is traced back.
#[derive(Clone, Debug, Default)]
pub(super) struct Tracing {
    need: Vec<Tick>,
    listed: Vec<bool>,
    views: Vec<u32>,
    /// How many views need something of the present level.
    open: usize,
    /// For each entry, what is known of leaving it out.
    memo: Vec<Memo>,
    stamp: u32,
    level_stamps: Vec<u32>,
    buffers: Vec<Vec<Atom>>,
    pub(super) clause: Vec<Atom>,
}

#[derive(Clone, Copy, Debug, Default)]
struct Memo {
    stamp: u32,
    least: Tick,
    implied: bool,
}

impl Tracing {
    /// Nothing is needed of so many views.
    pub(super) fn new(views: usize) -> Self {
        Self {
            need: vec![NOTHING; views],
            listed: vec![false; views],
            ..Self::default()
        }
    }
}

impl Engine {
    /// Learns from a conflict and goes back to where what was learnt says something new. False if
    /// there is no plan at all.
    pub(super) fn learn(&mut self, conflict: Conflict) -> bool {
        let mut reasons = self.buffer();
        self.why_conflict(conflict, &mut reasons);
        for &atom in &reasons {
            self.need(atom);
        }
        self.give_back(reasons);
        if self.tracing.open == 0 && !self.descend() {
            self.forget_needs();
            return false;
        }
        let Some(found) = self.trace() else {
            self.forget_needs();
            return false;
        };
        self.collect(found);
        self.forget_needs();
        self.assert_clause();
        true
    }

    fn buffer(&mut self) -> Vec<Atom> {
        let mut buffer = self.tracing.buffers.pop().unwrap_or_default();
        buffer.clear();
        buffer
    }

    fn give_back(&mut self, buffer: Vec<Atom>) {
        self.tracing.buffers.push(buffer);
    }

    fn why_conflict(&mut self, conflict: Conflict, out: &mut Vec<Atom>) {
        match conflict {
            Conflict::Clash => out.extend_from_slice(&self.trail.clash),
            Conflict::Empty(atom, reason) => {
                let other = self.trail.least(atom.view ^ 1);
                let enough = Atom {
                    view: atom.view,
                    least: 1 - other,
                };
                out.push(Atom {
                    view: atom.view ^ 1,
                    least: other,
                });
                self.why(enough, reason, self.trail.len() as u32, out);
                self.note_use(reason);
            }
        }
    }

    fn note_use(&mut self, reason: Reason) {
        if let Reason::Nogood(nogood) = reason {
            self.nogoods.used(nogood);
        }
    }

    /// Atoms that held before an entry and from which, by its reason, `atom` followed.
    fn why(&self, atom: Atom, reason: Reason, at: u32, out: &mut Vec<Atom>) {
        match reason {
            Reason::Choice => {}
            Reason::Wait { from, ticks } => out.push(Atom {
                view: from,
                least: atom.least - ticks,
            }),
            Reason::Pair(half) => out.extend(self.pairs.why_raised(half, atom.least)),
            Reason::Unordered(half) => {
                out.extend(self.pairs.why_unordered(half, at, &self.trail));
            }
            Reason::Nogood(nogood) => {
                let others = self.nogoods.clause(nogood).iter();
                let others = others.filter(|other| other.view != atom.view);
                out.extend(others.map(|other| other.not()));
            }
            Reason::Full {
                resource,
                at: moment,
            } => {
                let free = |atom: Atom| {
                    atom.least <= self.trail.root(atom.view)
                        || atom.least <= self.tracing.need[atom.view as usize]
                };
                let cumulative = &self.cumulatives[resource as usize];
                cumulative.why(atom, moment, at, &self.trail, &free, out);
            }
        }
    }

    /// Adds an atom to what the conflict needs.
    fn need(&mut self, atom: Atom) {
        if atom.least <= self.trail.root(atom.view) {
            return;
        }
        let view = atom.view as usize;
        let old = self.tracing.need[view];
        if atom.least <= old {
            return;
        }
        debug_assert!(self.trail.holds(atom), "a reason that does not hold");
        let floor = self.trail.least_before(atom.view, self.trail.floor());
        if atom.least > floor && old <= floor {
            self.tracing.open += 1;
        }
        self.tracing.need[view] = atom.least;
        if !self.tracing.listed[view] {
            self.tracing.listed[view] = true;
            self.tracing.views.push(atom.view);
        }
    }

    /// When the conflict needs nothing of the present level: goes down to the last level of which it
    /// needs something. False if it needs nothing that was chosen.
    fn descend(&mut self) -> bool {
        let needed: Vec<Atom> = self.needed().collect();
        let highest = needed.iter().map(|&atom| {
            let place = self.trail.place(atom);
            self.trail.entry(place).level
        });
        let Some(level) = highest.max().filter(|&level| level > 0) else {
            return false;
        };
        self.go_back(level as usize);
        self.forget_needs();
        for atom in needed {
            self.need(atom);
        }
        true
    }

    fn needed(&self) -> impl Iterator<Item = Atom> + '_ {
        let views = self.tracing.views.iter();
        let atoms = views.map(|&view| Atom {
            view,
            least: self.tracing.need[view as usize],
        });
        atoms.filter(|atom| atom.least != NOTHING)
    }

    /// Replaces what is needed of the present level by its reasons, from the last on, until one is
    /// left: that one.
    fn trace(&mut self) -> Option<Atom> {
        if self.trail.level() == 0 {
            return None;
        }
        loop {
            let at = (self.trail.len() as u32).checked_sub(1)?;
            let entry = *self.trail.entry(at);
            let least = self.tracing.need[entry.view as usize];
            if least > entry.before {
                let atom = Atom {
                    view: entry.view,
                    least,
                };
                self.note(atom);
                if self.tracing.open == 1 {
                    return Some(atom);
                }
                self.tracing.open -= 1;
                self.tracing.need[entry.view as usize] = NOTHING;
                let mut reasons = self.buffer();
                self.why(atom, entry.reason, at, &mut reasons);
                self.note_use(entry.reason);
                self.take_back();
                for &reason in &reasons {
                    self.need(reason);
                }
                self.work += 30 + 2 * reasons.len() as u64;
                self.give_back(reasons);
            } else {
                self.take_back();
            }
        }
    }

    /// Makes the question behind an atom more interesting.
    fn note(&mut self, atom: Atom) {
        if atom.number() == self.end {
            return;
        }
        let most = if atom.is_low() {
            atom.least - 1
        } else {
            -atom.least
        };
        let number = atom.number() as u32;
        self.interest.raise(Question { number, most });
    }

    /// The clause of all that is needed: first the negation of what was found, then the rest without
    /// what the others imply, the one that failed last at its head.
    fn collect(&mut self, found: Atom) {
        self.tracing.stamp += 1;
        let stamp = self.tracing.stamp;
        let needed: Vec<Atom> = self.needed().filter(|atom| *atom != found).collect();
        let levels = self.trail.level() + 1;
        if self.tracing.level_stamps.len() < levels {
            self.tracing.level_stamps.resize(levels, 0);
        }
        for &atom in &needed {
            let level = self.trail.entry(self.trail.place(atom)).level;
            self.tracing.level_stamps[level as usize] = stamp;
        }
        let mut clause = std::mem::take(&mut self.tracing.clause);
        clause.clear();
        clause.push(found.not());
        for &atom in &needed {
            if !self.superfluous(atom) {
                self.note(atom);
                clause.push(atom.not());
            }
        }
        let last = (1..clause.len()).max_by_key(|&k| self.trail.place(clause[k].not()));
        if let Some(last) = last {
            clause.swap(1, last);
        }
        self.tracing.clause = clause;
    }

    /// Whether the rest of what is needed implies an atom of it.
    fn superfluous(&mut self, atom: Atom) -> bool {
        let place = self.trail.place(atom);
        let reason = self.trail.entry(place).reason;
        !matches!(reason, Reason::Choice) && self.reasons_follow(atom, place, DEEPEST)
    }

    fn reasons_follow(&mut self, atom: Atom, place: u32, depth: usize) -> bool {
        let reason = self.trail.entry(place).reason;
        if matches!(reason, Reason::Choice) {
            return false;
        }
        let mut reasons = self.buffer();
        self.why(atom, reason, place, &mut reasons);
        let follow = reasons.iter().all(|&r| self.follows(r, place, depth));
        self.work += 30 + reasons.len() as u64;
        self.give_back(reasons);
        follow
    }

    /// Whether what is needed implies an atom that held before an entry.
    fn follows(&mut self, atom: Atom, before: u32, depth: usize) -> bool {
        if atom.least <= self.trail.root(atom.view) {
            return true;
        }
        let need = self.tracing.need[atom.view as usize];
        // Only what was needed before the entry may be used, or two could leave out one another.
        if need >= atom.least && self.trail.least_before(atom.view, before) >= need {
            return true;
        }
        let place = self.trail.place(atom);
        let level = self.trail.entry(place).level as usize;
        if depth == 0 || self.tracing.level_stamps[level] != self.tracing.stamp {
            return false;
        }
        if self.tracing.memo.len() <= place as usize {
            self.tracing
                .memo
                .resize(place as usize + 1, Memo::default());
        }
        let memo = self.tracing.memo[place as usize];
        if memo.stamp == self.tracing.stamp {
            if memo.implied && memo.least >= atom.least {
                return true;
            }
            if !memo.implied && memo.least <= atom.least {
                return false;
            }
        }
        let implied = self.reasons_follow(atom, place, depth - 1);
        self.tracing.memo[place as usize] = Memo {
            stamp: self.tracing.stamp,
            least: atom.least,
            implied,
        };
        implied
    }

    fn forget_needs(&mut self) {
        for view in self.tracing.views.drain(..) {
            self.tracing.need[view as usize] = NOTHING;
            self.tracing.listed[view as usize] = false;
        }
        self.tracing.open = 0;
    }

    /// Goes back as far as the clause allows, and draws its conclusion.
    fn assert_clause(&mut self) {
        let clause = std::mem::take(&mut self.tracing.clause);
        self.tracing.stamp += 1;
        let stamp = self.tracing.stamp;
        let mut levels = 1;
        for atom in &clause[1..] {
            let level = self.trail.entry(self.trail.place(atom.not())).level as usize;
            if self.tracing.level_stamps[level] != stamp {
                self.tracing.level_stamps[level] = stamp;
                levels += 1;
            }
        }
        let back = clause.get(1).map_or(0, |atom| {
            self.trail.entry(self.trail.place(atom.not())).level
        });
        self.go_back(back as usize);
        let reason = if clause.len() > 1 {
            self.nogoods.learn(&clause, levels)
        } else {
            Reason::Choice
        };
        self.learnt(&clause);
        // It cannot fail: its negation was the one thing that had to go.
        let raised = self.trail.raise(clause[0], reason);
        debug_assert!(matches!(raised, Ok(true)), "a clause that says nothing");
        self.tracing.clause = clause;
        self.nogoods.age();
        self.interest.age();
    }
}
