//! Building many plans and keeping the best.

use super::compiled::Compiled;
use super::construct::Broken;
use super::justify::Justifier;
use super::lists::{Rule, by_rule, by_starts, completed, varied};
use crate::chance::Chance;
use crate::cost::Cost;
use crate::plan::Plan;
use crate::planner::Planner;
use crate::problem::{ActivityId, DAY, Problem, Tick};
use crate::solve::{Faulty, Solved};
use crate::verify::verify;

/// Where a search begins.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Start {
    /// Where chance begins: the same seed gives the same search.
    pub seed: u64,
    /// The list that made the plan people know ([`Solved::order`]): the search starts from it. New
    /// activities are slipped in by urgency.
    pub first_order: Option<Vec<ActivityId>>,
}

impl Default for Start {
    fn default() -> Self {
        Self {
            seed: 1,
            first_order: None,
        }
    }
}

/// A plan with what it was built from and what it is worth.
#[derive(Clone, Debug)]
pub(crate) struct Candidate {
    pub(crate) broken: Broken,
    pub(crate) cost: Cost,
    /// The last finish of open work.
    pub(crate) finish: Tick,
    pub(crate) plan: Plan,
    pub(crate) order: Vec<ActivityId>,
}

impl Candidate {
    /// What is compared: breaches first, then money, then time.
    fn worth(&self) -> (Broken, i64, Tick) {
        (self.broken, self.cost.total(), self.finish)
    }

    /// Whether it is so much better that a plan people already know should give way to it: it
    /// breaks less, saves a day, or saves more than one part in two hundred of the money.
    fn is_well_worth_leaving(&self, known: &Self) -> bool {
        if self.broken != known.broken {
            return self.broken < known.broken;
        }
        let saved = known.cost.total().saturating_sub(self.cost.total());
        let day = known.finish.saturating_sub(self.finish) >= DAY && saved >= 0;
        day || saved > known.cost.total() / 200
    }
}

/// What is tried next.
#[derive(Clone, Copy, Debug)]
enum Next {
    /// The list of a rule.
    Rule(usize),
    /// The last plan pushed late and early again.
    Push,
    /// The best list, varied.
    Vary,
}

/// A search for a good plan that can be stopped and taken up again.
///
/// What it finds depends on the problem, where it started, and how many plans it has tried; not on
/// how they were cut into slices. It has no clock: whoever runs it decides when to stop. Two searches
/// with different seeds may run side by side and [`Search::offer`] each other what they find.
///
/// ```
/// use grounds_schedule::{Search, Start, random};
///
/// let house = random::house(1, 100);
/// let mut search = Search::new(&house, &Start::default())?;
/// let first = search.best().cost.total();
/// while search.tried() < 50 {
///     search.run(10);
/// }
/// assert!(search.best().breaches.is_empty());
/// assert!(search.best().cost.total() <= first);
/// # Ok::<(), grounds_schedule::Faulty>(())
/// ```
pub struct Search<'a> {
    planner: Planner<'a>,
    justifier: Justifier,
    chance: Chance,
    /// Latest starts by time alone.
    late: Vec<Tick>,
    known: Option<Candidate>,
    best: Candidate,
    /// The best plan, proved.
    solved: Solved,
    /// The plan that is being pushed back and forth.
    pushed: Candidate,
    next: Next,
    /// The rule that comes after the present chain.
    rule: usize,
    round: usize,
    tried: u64,
}

impl<'a> Search<'a> {
    /// Makes a problem ready and builds the first plan: that of the first order, if there is one, or
    /// by urgency.
    ///
    /// # Errors
    ///
    /// [`Faulty`] with everything that is wrong with the statement of the problem.
    pub fn new(problem: &'a Problem, start: &Start) -> Result<Self, Faulty> {
        let mut planner = Planner::new(problem)?;
        let late = planner.latest();
        let by_urgency = planner.urgent_list();
        let order = match &start.first_order {
            Some(order) => completed(&planner.c, order, &by_urgency),
            None => by_urgency,
        };
        let best = candidate(&mut planner, order);
        Ok(Self {
            justifier: Justifier::new(&planner.c),
            chance: Chance::new(start.seed),
            late,
            known: start.first_order.is_some().then(|| best.clone()),
            solved: proved(problem, &best),
            pushed: best.clone(),
            next: match start.first_order {
                Some(_) => Next::Rule(0),
                None => Next::Push,
            },
            rule: usize::from(start.first_order.is_none()),
            best,
            planner,
            round: 0,
            tried: 1,
        })
    }

    /// Tries so many more plans. Whether the best plan became better.
    pub fn run(&mut self, schedules: u32) -> bool {
        let before = self.best.worth();
        for _ in 0..schedules {
            self.step();
        }
        self.settle(before)
    }

    /// The best plan so far, proved: what it breaks, by [`verify`](crate::verify()), and what it costs.
    #[must_use]
    pub fn best(&self) -> &Solved {
        &self.solved
    }

    /// Plans tried so far, the first one and those on offer included.
    #[must_use]
    pub fn tried(&self) -> u64 {
        self.tried
    }

    /// Tries a list that somebody else found, as one more plan. Whether the best plan became better.
    pub fn offer(&mut self, order: &[ActivityId]) -> bool {
        let before = self.best.worth();
        let order = completed(&self.planner.c, order, &self.best.order);
        self.attempt(order);
        self.settle(before)
    }

    /// The plan to show to people who know the plan of the first order: that one, unless the best plan
    /// breaks less, ends a day earlier at no more cost, or costs more than half a percent less.
    /// Without a first order, the best plan.
    #[must_use]
    pub fn calm(&self) -> Solved {
        match &self.known {
            Some(known) if !self.best.is_well_worth_leaving(known) => {
                proved(self.planner.problem(), known)
            }
            _ => self.solved.clone(),
        }
    }

    fn settle(&mut self, before: (Broken, i64, Tick)) -> bool {
        let better = self.best.worth() < before;
        if better {
            self.solved = proved(self.planner.problem(), &self.best);
        }
        better
    }

    /// Builds the plan of a list, and remembers it if it is the best so far.
    fn attempt(&mut self, order: Vec<ActivityId>) -> Candidate {
        self.tried += 1;
        let candidate = candidate(&mut self.planner, order);
        if candidate.worth() < self.best.worth() {
            self.best = candidate.clone();
        }
        candidate
    }

    /// Tries one more plan.
    fn step(&mut self) {
        match self.next {
            Next::Rule(rule) => {
                let c = &self.planner.c;
                let list = by_rule(c, Rule::ALL[rule], &self.planner.early.starts, &self.late);
                self.rule = rule + 1;
                self.pushed = self.attempt(list);
                self.next = Next::Push;
            }
            Next::Push => {
                let plan = &self.pushed.plan;
                let list = self
                    .justifier
                    .late_list(&self.planner.c, &plan.starts, &plan.finishes);
                let next = self.attempt(list);
                if next.worth() < self.pushed.worth() {
                    self.pushed = next;
                } else if self.rule < Rule::ALL.len() {
                    self.next = Next::Rule(self.rule);
                } else {
                    self.next = Next::Vary;
                }
            }
            Next::Vary => {
                let list = self.varied();
                self.pushed = self.attempt(list);
                self.next = Next::Push;
            }
        }
    }

    /// The best plan's list, now boldly changed, now a little.
    fn varied(&mut self) -> Vec<ActivityId> {
        // How many in a hundred are moved, and by up to which part of the time ahead.
        let boldness = [(30, 20), (15, 10), (8, 5), (4, 3), (50, 50)];
        let (percent, part) = boldness[self.round % boldness.len()];
        let c = &self.planner.c;
        let best = &self.best;
        let end = best.finish.min(c.problem.horizon);
        let reach = end.saturating_sub(c.problem.now) / part;
        self.round += 1;
        if best.broken.count > 0 && self.round % 2 == 1 {
            mended(c, &self.planner.early.starts, best, &mut self.chance)
        } else {
            varied(c, &best.plan.starts, &mut self.chance, percent, reach)
        }
    }
}

fn candidate(planner: &mut Planner, order: Vec<ActivityId>) -> Candidate {
    let broken = planner.build(&order);
    let cost = planner.price();
    let (starts, finishes) = planner.ends();
    let open = planner
        .c
        .open
        .iter()
        .zip(finishes)
        .filter(|(open, _)| **open);
    Candidate {
        broken,
        cost,
        finish: open
            .map(|(_, &finish)| finish)
            .max()
            .unwrap_or(planner.c.problem.now),
        plan: Plan {
            starts: starts.to_vec(),
            finishes: finishes.to_vec(),
        },
        order,
    }
}

fn proved(problem: &Problem, candidate: &Candidate) -> Solved {
    let breaches = verify(problem, &candidate.plan);
    debug_assert_eq!(
        candidate.broken.count == 0,
        breaches.is_empty(),
        "the search is mistaken about what it breaks: {breaches:?}"
    );
    Solved {
        plan: candidate.plan.clone(),
        breaches,
        cost: candidate.cost,
        order: candidate.order.clone(),
    }
}

/// The best plan's list, a little varied, with something that came too late moved earlier, up to
/// the very front, and all that it waits for with it.
fn mended(c: &Compiled, early: &[Tick], best: &Candidate, chance: &mut Chance) -> Vec<ActivityId> {
    let to_front = chance.happens(50);
    let one_of = chance.below(2) + 1;
    let noise = if chance.happens(70) { 4 * DAY } else { 0 };
    let mut keys = best.plan.starts.clone();
    for block in c.blocks.members.iter().rev() {
        for &i in block {
            let late = best.plan.starts[i] > c.latest[i] && early[i] <= c.latest[i];
            if late && chance.below(one_of) == 0 {
                let latest = if to_front { c.problem.now } else { c.latest[i] };
                keys[i] = keys[i].min(latest.saturating_sub(DAY));
            } else if !late && chance.happens(30) {
                keys[i] = keys[i].saturating_add(chance.between(-noise, noise));
            }
            for arc in c.out.of(i).map(|arc| &c.arcs[arc]) {
                keys[i] = keys[i].min(keys[arc.to]);
            }
        }
        let first = block.iter().map(|&i| keys[i]).min().unwrap_or(0);
        block
            .iter()
            .for_each(|&i| keys[i] = keys[i].min(first.saturating_add(DAY)));
    }
    by_starts(c, &keys)
}
