//! Building many plans and keeping the best.

use super::compiled::Compiled;
use super::construct::{Broken, Builder};
use super::justify::Justifier;
use super::lists::{Rule, by_rule, by_starts, completed, varied};
use super::passes::{backward, forward};
use crate::chance::Chance;
use crate::cost::{Cost, Costing};
use crate::plan::Plan;
use crate::problem::{ActivityId, DAY, Problem, Tick};
use crate::solve::Effort;

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

/// Searches within the effort; the best plan found.
pub(crate) fn search(problem: &Problem, effort: &Effort) -> Candidate {
    let (c, ways) = Compiled::new(problem);
    let early = forward(&c);
    let finishes = early
        .starts
        .iter()
        .zip(&c.work)
        .map(|(&start, work)| work.finish(start));
    let end = finishes
        .filter(|&f| f <= problem.horizon)
        .max()
        .unwrap_or(problem.now);
    let late = backward(&c, end, &problem.dues, &early.hopeless);
    let mut search = Search {
        c: &c,
        builder: Builder::new(&c, ways, &early),
        costing: Costing::new(problem),
        justifier: Justifier::new(&c),
        early: early.starts.clone(),
        best: None,
        left: effort.schedules.max(1),
    };
    let first = by_rule(&c, Rule::LatestStart, &early.starts, &late);
    let known = effort
        .first_order
        .as_ref()
        .map(|order| search.try_list(completed(&c, order, &first)));
    search.try_rules(&early.starts, &late);
    search.by_chance(effort.seed);
    let best = search.best.take();
    match (best, known) {
        (Some(best), Some(known)) if !best.is_well_worth_leaving(&known) => known,
        (Some(best), _) => best,
        (None, _) => search.try_list(first),
    }
}

struct Search<'c, 'a> {
    c: &'c Compiled<'a>,
    builder: Builder<'c, 'a>,
    costing: Costing<'a>,
    justifier: Justifier,
    /// Earliest starts by time alone.
    early: Vec<Tick>,
    best: Option<Candidate>,
    left: u32,
}

impl Search<'_, '_> {
    /// Builds the plan of a list, and remembers it if it is the best so far.
    fn try_list(&mut self, order: Vec<ActivityId>) -> Candidate {
        self.left = self.left.saturating_sub(1);
        let broken = self.builder.build(&order);
        let state = &self.builder.state;
        let open = self
            .c
            .open
            .iter()
            .zip(&state.finishes)
            .filter(|(open, _)| **open);
        let candidate = Candidate {
            broken,
            cost: self.costing.of(&state.starts, &state.finishes),
            finish: open
                .map(|(_, &finish)| finish)
                .max()
                .unwrap_or(self.c.problem.now),
            plan: state.plan(),
            order,
        };
        if self
            .best
            .as_ref()
            .is_none_or(|best| candidate.worth() < best.worth())
        {
            self.best = Some(candidate.clone());
        }
        candidate
    }

    /// The priority rules, each followed by pushing everything late and early again.
    fn try_rules(&mut self, early: &[Tick], late: &[Tick]) {
        for rule in Rule::ALL {
            if self.left == 0 {
                return;
            }
            let candidate = self.try_list(by_rule(self.c, rule, early, late));
            self.back_and_forth(candidate);
        }
    }

    /// Pushes a plan late and early again as long as that helps.
    fn back_and_forth(&mut self, mut candidate: Candidate) {
        while self.left > 0 {
            let plan = &candidate.plan;
            let list = self
                .justifier
                .late_list(self.c, &plan.starts, &plan.finishes);
            let next = self.try_list(list);
            if next.worth() >= candidate.worth() {
                return;
            }
            candidate = next;
        }
    }

    /// Varies the best plan's list, now boldly, now a little, and pushes each plan back and forth.
    fn by_chance(&mut self, seed: u64) {
        let mut chance = Chance::new(seed);
        // How many in a hundred are moved, and by up to which part of the time ahead.
        let boldness = [(30, 20), (15, 10), (8, 5), (4, 3), (50, 50)];
        let mut round = 0;
        while self.left > 0 {
            let Some(best) = &self.best else { return };
            let (percent, part) = boldness[round % boldness.len()];
            let span = best
                .finish
                .min(self.c.problem.horizon)
                .saturating_sub(self.c.problem.now);
            let list = if best.broken.count > 0 && round.is_multiple_of(2) {
                self.mended(best, &mut chance)
            } else {
                varied(self.c, &best.plan.starts, &mut chance, percent, span / part)
            };
            let candidate = self.try_list(list);
            self.back_and_forth(candidate);
            round += 1;
        }
    }

    /// The best plan's list, a little varied, with something that came too late moved earlier, up to
    /// the very front, and all that it waits for with it.
    fn mended(&self, best: &Candidate, chance: &mut Chance) -> Vec<ActivityId> {
        let c = self.c;
        let to_front = chance.happens(50);
        let one_of = chance.below(2) + 1;
        let noise = if chance.happens(70) { 4 * DAY } else { 0 };
        let mut keys = best.plan.starts.clone();
        for block in c.blocks.members.iter().rev() {
            for &i in block {
                let late = best.plan.starts[i] > c.latest[i] && self.early[i] <= c.latest[i];
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
}
