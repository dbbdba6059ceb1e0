//! Search with learning: choose, draw conclusions, learn from conflicts, begin again.
//!
//! Lazy clause generation: Ohrimenko, Stuckey and Codish, "Propagation via lazy clause generation",
//! Constraints 14 (2009). No atom is made before it is needed, and none is kept but in nogoods.

use super::atom::Atom;
use super::conflict::Tracing;
use super::cumulative::{Cumulative, Task};
use super::interest::Interest;
use super::nogoods::Nogoods;
use super::pairs::Pairs;
use super::prepare::Prepared;
use super::trail::{Conflict, Entry, Reason, Trail};
use super::waits::Waits;
use crate::plain::Wait;
use crate::problem::Tick;

/// How fast interest fades.
const FADE: f64 = 0.95;

/// How many nogoods are kept at first.
const ROOM: usize = 4000;

/// What one unit of work is in steps of the propagators.
const STEPS_A_UNIT: u64 = 12;

/// How choices are made.
#[derive(Clone, Copy, Debug)]
pub(super) struct Style {
    /// So many conflicts in the order of time, before interest leads.
    pub(super) in_time: u64,
    /// Every so many beginnings one goes in the order of time; 0 for never.
    pub(super) every: u64,
    /// Questions are answered as the best plan does; else as they were last.
    pub(super) guided: bool,
    /// Conflicts between two fresh beginnings are so many times a term of Luby's sequence.
    pub(super) restart: u64,
}

/// What a run has come to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Step {
    /// The units are used up.
    Paused,
    /// A plan.
    Plan(Vec<Tick>),
    /// No plan meets the target: the bound has risen.
    Refuted,
    /// No plan is left at all.
    Nothing,
}

/// The state of the search, kept from run to run.
#[derive(Clone, Debug)]
pub(super) struct Engine {
    /// The number of the makespan; numbers before it are starts, numbers after it are pairs.
    pub(super) end: usize,
    pub(super) trail: Trail,
    pub(super) pairs: Pairs,
    pub(super) nogoods: Nogoods,
    pub(super) cumulatives: Vec<Cumulative>,
    pub(super) interest: Interest,
    pub(super) tracing: Tracing,
    waits: Waits,
    /// The resources that each start uses.
    uses: Vec<Vec<u32>>,
    stale: Vec<bool>,
    pub(super) style: Style,
    target: Option<Tick>,
    answers: Vec<Tick>,
    /// The conflict at which each number was last answered.
    answered: Vec<u64>,
    /// Nothing can be found any more.
    over: bool,
    pub(super) work: u64,
    conflicts: u64,
    beginnings: u64,
    next_beginning: u64,
    #[cfg(test)]
    pub(super) clauses: Vec<Vec<Atom>>,
}

impl Engine {
    /// An engine for a problem.
    pub(super) fn new(prepared: &Prepared, style: Style) -> Self {
        Self::within(prepared, &[], style, |_| true)
    }

    /// An engine for a problem with more waits than its own, that asks for the order of some pairs
    /// only; the others must follow.
    pub(super) fn within(
        prepared: &Prepared,
        more: &[Wait],
        style: Style,
        asked: impl Fn(&(u32, u32)) -> bool,
    ) -> Self {
        let core = &prepared.core;
        let end = core.count();
        let mut trail = Trail::default();
        for i in 0..end {
            trail.number(core.earliest[i], core.latest[i].max(core.earliest[i]));
        }
        let finish = |starts: &[Tick]| core.finish(starts);
        trail.number(
            finish(&core.earliest),
            finish(&core.latest).max(finish(&core.earliest)),
        );
        let mut waits = Waits::default();
        for wait in core.waits.iter().chain(more) {
            waits.add(wait.from as usize, wait.to as usize, wait.ticks);
        }
        for i in (0..end).filter(|&i| prepared.last[i]) {
            waits.add(i, end, core.durations[i]);
        }
        let mut pairs = Pairs::new(end + 1);
        for &(i, j) in prepared.pairs.iter().filter(|pair| asked(pair)) {
            let with = |k: u32| (k as usize, core.durations[k as usize]);
            pairs.add(trail.number(0, 1), with(i), with(j));
        }
        let (cumulatives, uses) = cumulatives(prepared);
        let views = 2 * trail.count();
        let mut engine = Self {
            end,
            pairs,
            nogoods: Nogoods::new(views, ROOM),
            stale: vec![true; cumulatives.len()],
            cumulatives,
            interest: Interest::new(FADE),
            tracing: Tracing::new(views),
            waits,
            uses,
            style,
            target: None,
            answers: core.earliest.clone(),
            answered: vec![0; views / 2],
            over: prepared.impossible,
            work: 0,
            conflicts: 0,
            beginnings: 0,
            next_beginning: style.restart,
            trail,
            #[cfg(test)]
            clauses: Vec::new(),
        };
        engine.answers.resize(engine.trail.count(), 0);
        if !engine.over && engine.begin().is_err() {
            engine.over = true;
        }
        engine
    }

    /// What follows from the problem alone.
    fn begin(&mut self) -> Result<(), Conflict> {
        for view in 0..2 * self.trail.count() as u32 {
            let value = self.trail.least(view);
            let entry = Entry {
                view,
                value,
                before: value,
                last: super::trail::NONE,
                level: 0,
                reason: Reason::Choice,
            };
            self.waits.follow(&entry, &mut self.trail)?;
            if (view as usize) < 2 * (self.end + 1) {
                self.pairs.follow(&entry, &mut self.trail)?;
            }
        }
        self.propagate()?;
        self.trail.settle();
        Ok(())
    }

    /// No plan ends before this, unless a cutoff says so.
    pub(super) fn bound(&self) -> Tick {
        self.trail.root(2 * self.end as u32)
    }

    /// How much work was done, in units.
    pub(super) fn units(&self) -> u64 {
        self.work / STEPS_A_UNIT
    }

    /// Only plans that end before `finish` are of interest from now on.
    pub(super) fn cut(&mut self, finish: Tick) {
        if self.trail.high(self.end) < finish && self.trail.level() == 0 {
            return;
        }
        self.go_back(0);
        let atom = Atom::at_most(self.end, finish - 1);
        self.over |= self.trail.raise(atom, Reason::Choice).is_err();
    }

    /// Nothing ends before `bound`, as somebody else has proved.
    pub(super) fn know_bound(&mut self, bound: Tick) {
        if self.bound() >= bound {
            return;
        }
        self.go_back(0);
        let atom = Atom::at_least(self.end, bound);
        self.over |= self.trail.raise(atom, Reason::Choice).is_err();
    }

    /// Looks for plans that end by `target` only, until that is found or refuted.
    pub(super) fn aim(&mut self, target: Option<Tick>) {
        if self.target != target {
            self.go_back(0);
            self.target = target;
        }
    }

    /// The answers that a guided search gives first.
    pub(super) fn guide(&mut self, starts: &[Tick]) {
        self.answers[..self.end].copy_from_slice(starts);
    }

    /// Searches on for about so many units.
    pub(super) fn run(&mut self, units: u64) -> Step {
        let stop = self.work.saturating_add(units.saturating_mul(STEPS_A_UNIT));
        loop {
            if self.over {
                return Step::Nothing;
            }
            if let Err(conflict) = self.propagate() {
                self.conflicts += 1;
                if !self.learn(conflict) {
                    self.over = true;
                } else if self.conflicts >= self.next_beginning {
                    self.begin_again();
                }
                continue;
            }
            if self.trail.level() == 0 {
                self.trail.settle();
                if self.nogoods.crowded() {
                    self.nogoods.tidy(&self.trail);
                    self.interest.tidy(&self.trail);
                }
            }
            if self.work >= stop {
                return Step::Paused;
            }
            if let Some(step) = self.choose() {
                return step;
            }
        }
    }

    /// Draws all conclusions.
    fn propagate(&mut self) -> Result<(), Conflict> {
        loop {
            while let Some(entry) = self.trail.unread() {
                self.follow(&entry)?;
            }
            let Some(resource) = self.stale.iter().position(|&stale| stale) else {
                return Ok(());
            };
            self.stale[resource] = false;
            self.work += self.cumulatives[resource].propagate(&mut self.trail)? as u64;
        }
    }

    fn follow(&mut self, entry: &Entry) -> Result<(), Conflict> {
        self.work += 4;
        let number = entry.view as usize / 2;
        if self.trail.least(entry.view) == entry.value {
            self.work += self.waits.follow(entry, &mut self.trail)? as u64;
            self.work += self.pairs.follow(entry, &mut self.trail)? as u64;
        }
        for &resource in self.uses.get(number).into_iter().flatten() {
            self.stale[resource as usize] = true;
        }
        self.work += 2 * self.nogoods.follow(entry, &mut self.trail)? as u64;
        Ok(())
    }

    /// Takes back all above a level.
    pub(super) fn go_back(&mut self, level: usize) {
        if self.trail.level() <= level {
            return;
        }
        let length = self.trail.begin_of(level);
        while self.trail.len() > length {
            self.take_back();
        }
        self.trail.close(level);
        self.stale.fill(false);
        self.interest.reopen(length);
    }

    /// Takes back the last entry, and remembers how it had answered.
    pub(super) fn take_back(&mut self) {
        let Some(entry) = self.trail.pop() else {
            return;
        };
        let number = entry.view as usize / 2;
        if entry.view % 2 == 0 && !self.style.guided && self.answered[number] != self.conflicts {
            self.answered[number] = self.conflicts;
            self.answers[number] = entry.value;
        }
    }

    fn begin_again(&mut self) {
        self.go_back(0);
        self.beginnings += 1;
        self.next_beginning = self.conflicts + self.style.restart * luby(self.beginnings);
    }

    /// Opens the next level, or says what has come of this one.
    fn choose(&mut self) -> Option<Step> {
        if self.trail.level() == 0
            && let Some(target) = self.target
        {
            if self.trail.low(self.end) > target {
                return Some(Step::Refuted);
            }
            if self.trail.high(self.end) > target {
                self.take(Atom::at_most(self.end, target));
                return None;
            }
        }
        let atom = match self.by_interest().or_else(|| self.by_time()) {
            Some(atom) => atom,
            None => return Some(Step::Plan(self.starts())),
        };
        self.take(atom);
        None
    }

    fn take(&mut self, atom: Atom) {
        self.trail.open();
        // It cannot fail, or it would not have been open.
        let raised = self.trail.raise(atom, Reason::Choice);
        debug_assert!(matches!(raised, Ok(true)), "a choice that is none");
    }

    fn by_interest(&mut self) -> Option<Atom> {
        let in_time = self.conflicts < self.style.in_time
            || self.style.every > 0 && self.beginnings % self.style.every == self.style.every - 1;
        if in_time {
            return None;
        }
        let question = self.interest.ask(&self.trail)?;
        let number = question.number as usize;
        Some(if self.answers[number] <= question.most {
            Atom::at_most(number, question.most)
        } else {
            Atom::at_least(number, question.most + 1)
        })
    }

    /// What can start first does.
    fn by_time(&mut self) -> Option<Atom> {
        let open = (0..self.end).filter(|&i| self.trail.low(i) < self.trail.high(i));
        let first = open.min_by_key(|&i| (self.trail.low(i), self.trail.high(i)));
        self.work += self.end as u64 / 4;
        first.map(|i| Atom::at_most(i, self.trail.low(i)))
    }

    fn starts(&self) -> Vec<Tick> {
        (0..self.end).map(|i| self.trail.low(i)).collect()
    }

    /// Keeps what was learnt, for tests.
    pub(super) fn learnt(&mut self, clause: &[Atom]) {
        #[cfg(test)]
        self.clauses.push(clause.to_vec());
        self.work += 4 * clause.len() as u64 + 50;
    }
}

/// The resources that are used, and which of them each start uses.
fn cumulatives(prepared: &Prepared) -> (Vec<Cumulative>, Vec<Vec<u32>>) {
    let core = &prepared.core;
    let mut uses = vec![Vec::new(); core.count()];
    let mut all = Vec::new();
    for resource in 0..core.resources() {
        let capacity = i64::from(core.capacities[resource]);
        let tasks: Vec<Task> = (0..core.count())
            .map(|i| Task {
                number: i as u32,
                ticks: core.durations[i],
                amount: i64::from(core.demand(i)[resource]),
            })
            .filter(|task| task.amount > 0 && task.ticks > 0)
            .collect();
        if tasks.iter().map(|task| task.amount).sum::<i64>() <= capacity {
            continue;
        }
        let index = all.len() as u32;
        for task in &tasks {
            uses[task.number as usize].push(index);
        }
        all.push(Cumulative::new(index, capacity, tasks));
    }
    (all, uses)
}

/// Luby, Sinclair and Zuckerman, "Optimal speedup of Las Vegas algorithms", 1993: 1 1 2 1 1 2 4 …
fn luby(mut term: u64) -> u64 {
    loop {
        let above = (term + 2).next_power_of_two();
        if above == term + 2 {
            return above / 2;
        }
        term -= above / 2 - 1;
    }
}
