//! Building many plans and keeping the best.

use super::compiled::Compiled;
use super::construct::Broken;
use super::incumbent::Incumbent;
use super::justify::Justifier;
use super::lists::{Rule, by_rule, by_starts, completed};
use super::moves::{Move, Mover};
use crate::chance::Chance;
use crate::cost::Costing;
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

/// What plans are compared by: breaches first, then money, then the last finish of open work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Worth {
    pub(crate) broken: Broken,
    pub(crate) cents: i64,
    pub(crate) finish: Tick,
}

impl Worth {
    /// Whether it is so much better that a plan people already know should give way to it: it
    /// breaks less, saves a day, or saves more than one part in two hundred of the money.
    pub(crate) fn is_well_worth_leaving(&self, known: &Self) -> bool {
        if self.broken != known.broken {
            return self.broken < known.broken;
        }
        let saved = known.cents.saturating_sub(self.cents);
        let day = known.finish.saturating_sub(self.finish) >= DAY && saved >= 0;
        day || saved > known.cents / 200
    }
}

/// What is tried next.
#[derive(Clone, Copy, Debug)]
enum Next {
    /// The list of a rule.
    Rule(usize),
    /// The plan pushed late and early again.
    Push,
    /// The list of the plan, changed.
    Change,
}

/// Rounds after which a search that has wandered off forgets what it put up with.
const SEASON: u64 = 300;

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
    /// The plan of the first order, proved.
    known: Option<(Worth, Solved)>,
    best: Incumbent,
    /// The best plan, proved.
    solved: Solved,
    /// The plan that is being changed.
    stand: Incumbent,
    mover: Mover,
    /// How often each kind of change is chosen.
    weights: [u32; Move::ALL.len()],
    next: Next,
    /// The rule that comes after the present chain.
    rule: usize,
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
        let best = built(&mut planner, order);
        let solved = proved(problem, &best);
        Ok(Self {
            justifier: Justifier::new(&planner.c),
            mover: Mover::new(&planner.c),
            chance: Chance::new(start.seed),
            late,
            known: start
                .first_order
                .is_some()
                .then(|| (best.worth, solved.clone())),
            solved,
            stand: best.clone(),
            weights: [FIRST_WEIGHT; Move::ALL.len()],
            next: match start.first_order {
                Some(_) => Next::Change,
                None => Next::Push,
            },
            rule: 1,
            best,
            planner,
            tried: 1,
        })
    }

    /// Tries so many more plans. Whether the best plan became better.
    pub fn run(&mut self, schedules: u32) -> bool {
        let before = self.best.worth;
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

    /// What plans are compared by, of the best plan so far.
    pub(crate) fn worth(&self) -> Worth {
        self.best.worth
    }

    /// Plans tried so far, the first one and those on offer included.
    #[must_use]
    pub fn tried(&self) -> u64 {
        self.tried
    }

    /// Tries a list that somebody else found, as one more plan. Whether the best plan became better.
    pub fn offer(&mut self, order: &[ActivityId]) -> bool {
        let before = self.best.worth;
        let order = completed(&self.planner.c, order, &self.best.order);
        let offered = self.attempt(order);
        if offered.worth < self.stand.worth {
            self.stand = offered;
        }
        self.settle(before)
    }

    /// The plan to show to people who know the plan of the first order: that one, unless the best plan
    /// breaks less, ends a day earlier at no more cost, or costs more than half a percent less.
    /// Where it does, the first order still stands for as long into the work as keeps most of what
    /// is won. Without a first order, the best plan.
    #[must_use]
    pub fn calm(&mut self) -> Solved {
        let Some((worth, known)) = self.known.clone() else {
            return self.solved.clone();
        };
        if !self.best.worth.is_well_worth_leaving(&worth) {
            return known;
        }
        self.calmed(worth, &known)
            .unwrap_or_else(|| self.solved.clone())
    }

    /// The known order up to some moment, the best from there on, with that moment as late as keeps
    /// most of what the best plan wins.
    fn calmed(&mut self, worth: Worth, known: &Solved) -> Option<Solved> {
        let best = self.best.clone();
        let now = self.planner.problem().now;
        let length = worth.finish.saturating_sub(now);
        let enough = |part: &Worth| {
            let (most, won) = (
                worth.cents.saturating_sub(best.worth.cents),
                worth.cents.saturating_sub(part.cents),
            );
            part.broken == best.worth.broken
                && part.is_well_worth_leaving(&worth)
                && won.saturating_mul(CALM_PARTS) >= most.saturating_mul(CALM_KEPT)
        };
        for part in (1..CALM_PARTS_OF_TIME).rev() {
            let until = now + length / CALM_PARTS_OF_TIME * part;
            let stays = |id: &&ActivityId| known.plan.starts[id.index()] < until;
            let first = known.order.iter().filter(stays);
            let then = best.order.iter().filter(|id| !stays(id));
            let calm = self.attempt(first.chain(then).copied().collect());
            if enough(&calm.worth) {
                return Some(proved(self.planner.problem(), &calm));
            }
        }
        None
    }

    fn settle(&mut self, before: Worth) -> bool {
        let better = self.best.worth < before;
        if better {
            self.solved = proved(self.planner.problem(), &self.best);
        }
        better
    }

    /// Builds the plan of a list, and remembers it if it is the best so far.
    fn attempt(&mut self, order: Vec<ActivityId>) -> Incumbent {
        self.tried += 1;
        let plan = built(&mut self.planner, order);
        if plan.worth < self.best.worth {
            self.best = plan.clone();
        }
        plan
    }

    /// Tries one more plan.
    fn step(&mut self) {
        match self.next {
            Next::Rule(rule) => {
                let c = &self.planner.c;
                let list = by_rule(c, Rule::ALL[rule], &self.planner.early.starts, &self.late);
                self.rule = rule + 1;
                self.stand = self.attempt(list);
                self.next = Next::Push;
            }
            Next::Push => {
                let stand = &self.stand;
                let list =
                    self.justifier
                        .late_list(&self.planner.c, &stand.starts, &stand.finishes);
                let next = self.attempt(list);
                if next.worth < self.stand.worth {
                    self.stand = next;
                } else if self.rule < Rule::ALL.len() {
                    self.next = Next::Rule(self.rule);
                } else {
                    self.stand = self.best.clone();
                    self.next = Next::Change;
                }
            }
            Next::Change => self.change(),
        }
    }

    /// Changes the plan the search stands on, and stands on the new one if it is not much worse.
    fn change(&mut self) {
        let broken = self.stand.worth.broken.count > 0;
        if broken && self.chance.happens(50) {
            let early = &self.planner.early.starts;
            let list = mended(&self.planner.c, early, &self.stand, &mut self.chance);
            let next = self.attempt(list);
            if next.worth <= self.stand.worth {
                self.stand = next;
            }
            return;
        }
        let kind = self.kind();
        let c = &self.planner.c;
        let made = self
            .mover
            .list(c, &self.stand, Move::ALL[kind], &mut self.chance);
        let Some(list) = made else {
            self.weights[kind] = self.weights[kind].saturating_sub(1).max(1);
            self.tried += 1;
            return;
        };
        let best = self.best.worth;
        let next = self.attempt(list);
        let weight = &mut self.weights[kind];
        *weight = match next.worth {
            worth if worth < best => *weight + 24,
            worth if worth < self.stand.worth => *weight + 8,
            _ => weight.saturating_sub(1),
        }
        .clamp(4, 120);
        if self.is_borne(&next.worth) {
            self.stand = next;
        }
        if self.tried.is_multiple_of(SEASON) {
            self.stand = self.best.clone();
        }
    }

    /// A kind of change, by weight.
    fn kind(&mut self) -> usize {
        let all: u32 = self.weights.iter().sum();
        let mut drawn = self.chance.below(all as usize) as u32;
        for (kind, &weight) in self.weights.iter().enumerate() {
            if drawn < weight {
                return kind;
            }
            drawn -= weight;
        }
        0
    }

    /// Whether a plan is good enough to go on from: a little worse is borne, less and less within a
    /// season (threshold accepting: Dueck and Scheuer 1990).
    fn is_borne(&self, worth: &Worth) -> bool {
        if worth.broken != self.stand.worth.broken {
            return worth.broken < self.stand.worth.broken;
        }
        let left = SEASON - self.tried % SEASON;
        let share = i64::try_from(left * BORNE / SEASON).unwrap_or(0);
        let borne = self.best.worth.cents / 1_000_000 * share;
        worth.cents <= self.stand.worth.cents.saturating_add(borne)
    }
}

/// Parts in a million of the cost by which a plan may be worse to go on from, at most.
const BORNE: u64 = 400;

/// A plan that stays with the known order for longer must keep so many parts, of so many, of what the
/// best plan wins.
const CALM_KEPT: i64 = 3;
const CALM_PARTS: i64 = 4;

/// Parts of the time that is left, at whose ends the known order may be left.
const CALM_PARTS_OF_TIME: Tick = 12;

/// How often each kind of change is chosen at first.
const FIRST_WEIGHT: u32 = 20;

fn built(planner: &mut Planner, order: Vec<ActivityId>) -> Incumbent {
    let broken = planner.build(&order);
    let cents = planner.price().total();
    let (starts, finishes) = planner.ends();
    let open = planner.c.open.iter().zip(finishes);
    let open = open.filter(|(open, _)| **open).map(|(_, &finish)| finish);
    let finish = open.max().unwrap_or(planner.c.problem.now);
    Incumbent {
        worth: Worth {
            broken,
            cents,
            finish,
        },
        starts: starts.to_vec(),
        finishes: finishes.to_vec(),
        low: planner.low().to_vec(),
        order,
    }
}

fn proved(problem: &Problem, plan: &Incumbent) -> Solved {
    let Incumbent {
        starts, finishes, ..
    } = plan;
    let cost = Costing::new(problem).of(starts, finishes);
    let (starts, finishes, order) = (starts.clone(), finishes.clone(), plan.order.clone());
    let worth = plan.worth;
    let plan = Plan { starts, finishes };
    let breaches = verify(problem, &plan);
    debug_assert_eq!(
        worth.broken.count == 0,
        breaches.is_empty(),
        "the search is mistaken about what it breaks: {breaches:?}"
    );
    Solved {
        plan,
        breaches,
        cost,
        order,
    }
}

/// The best plan's list, a little varied, with something that came too late moved earlier, up to
/// the very front, and all that it waits for with it.
fn mended(c: &Compiled, early: &[Tick], best: &Incumbent, chance: &mut Chance) -> Vec<ActivityId> {
    let to_front = chance.happens(50);
    let one_of = chance.below(2) + 1;
    let noise = if chance.happens(70) { 4 * DAY } else { 0 };
    let mut keys = best.starts.clone();
    for block in c.blocks.members.iter().rev() {
        for &i in block {
            let late = best.starts[i] > c.latest[i] && early[i] <= c.latest[i];
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
