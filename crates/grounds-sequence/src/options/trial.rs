//! Trying means out: a plan of the changed problem, proved, and how many days it wins.

use std::collections::BTreeSet;

use grounds_model::Job;
use grounds_schedule::{
    ActivityId, Due, HOUR, Plan, Planner, Problem, Search, Solved, Spared, Start, Tick, cost,
    explain_all, spare, verify,
};
use grounds_site::Site;

use super::{
    Aim, Step, Terms,
    chain::{Chain, ends, reached},
    means::{Means, split},
};
use crate::{effect::days_between, network::Network, outlook::Outlook};

/// How often the work that drives the aim is put first in the order of the plan before.
const ROUNDS: usize = 2;

/// How many plans are searched where no order tried that way wins anything.
const PLANS: u32 = 8;

/// How many plans are built for another order of the same work.
const PLANS_OF_ORDER: u32 = 120;

/// Cents for each day by which the aim comes later, while another order is looked for: more than
/// anything else in a plan costs.
const AIM_CENTS: i64 = 10_000_000;

/// Everything that a trial is made from. Nothing of it is changed.
#[derive(Clone, Copy)]
pub(crate) struct Ground<'a> {
    pub(crate) job: &'a Job,
    pub(crate) site: &'a Site,
    pub(crate) outlook: &'a Outlook,
    pub(crate) aim: &'a Aim,
    pub(crate) terms: &'a Terms,
    /// The order of the plan as it stands.
    pub(crate) order: &'a [ActivityId],
}

/// Means that were tried.
#[derive(Clone)]
pub(crate) struct Trial {
    pub(crate) means: Vec<Means>,
    /// The network where it is another one; else that of the outlook.
    pub(crate) network: Option<Network>,
    pub(crate) problem: Problem,
    pub(crate) solved: Solved,
    /// Calendar days won for the aim.
    pub(crate) won: i32,
    /// What is won when it comes later than asked for: the latest day for each gain.
    pub(crate) steps: Vec<Step>,
}

impl<'a> Ground<'a> {
    /// When the plan as it stands reaches the aim.
    pub(crate) fn before(&self) -> Tick {
        reached(&self.outlook.network, &self.outlook.plan, self.aim)
    }

    /// Plans with means taken; `None` where they make no problem that can be planned.
    ///
    /// The order of work stays as people know it, but for what drives the aim, which may come first.
    /// Only where that wins nothing is the order searched afresh.
    pub(crate) fn attempt(&self, means: &[Means]) -> Option<Trial> {
        let network = split(self.job, self.site, &self.outlook.network, means).ok()?;
        let problem = self.problem(network.as_ref(), means);
        let here = network.as_ref().unwrap_or(&self.outlook.network);
        let mut best = self.drivers_first(here, &problem, self.order_in(network.as_ref()))?;
        if means.contains(&Means::Order) {
            best = self.other_order(here, &problem, best)?;
        } else if self.won(here, &best.plan) <= 0 {
            best = self.searched(here, &problem, best)?;
        }
        if network.is_none() {
            best = self.calmed(&problem, best)?;
        }
        Some(self.trial(means.to_vec(), network, problem, best))
    }

    /// What an order of work wins without the means that it was found for.
    pub(crate) fn without_means(&self, trial: &Trial) -> Option<Trial> {
        if trial.network.is_some() {
            return None;
        }
        let problem = self.outlook.network.problem.clone();
        let solved = Planner::new(&problem)
            .ok()?
            .solved(trial.solved.order.clone());
        let free = self.trial(vec![Means::Order], None, problem, solved);
        self.is_sound(&free).then_some(free)
    }

    /// The plan with other means of the same kinds, in the orders that are known to be good for
    /// them.
    pub(crate) fn again(&self, trial: &Trial, means: &[Means]) -> Option<Trial> {
        let problem = self.problem(trial.network.as_ref(), means);
        let here = trial.network(self);
        let mut planner = Planner::new(&problem).ok()?;
        let mut best = planner.solved(trial.solved.order.clone());
        if self.won(here, &best.plan) < trial.won {
            let known = planner.solved(self.order_in(trial.network.as_ref()));
            if self.won(here, &known.plan) > self.won(here, &best.plan) {
                best = known;
            }
        }
        drop(planner);
        let again = self.trial(means.to_vec(), trial.network.clone(), problem, best);
        self.is_sound(&again).then_some(again)
    }

    /// Breaks no more than the plan as it stands does.
    pub(crate) fn is_sound(&self, trial: &Trial) -> bool {
        trial.solved.breaches.len() <= self.outlook.breaches.len()
    }

    /// The plan of the known order, or of that order with what drives the aim put first.
    fn drivers_first(
        &self,
        network: &Network,
        problem: &Problem,
        known: Vec<ActivityId>,
    ) -> Option<Solved> {
        let mut planner = Planner::new(problem).ok()?;
        let mut best = planner.solved(known.clone());
        for _ in 0..ROUNDS {
            let reasons = explain_all(problem, &best.plan);
            let mut order = Chain::of(network, &best.plan, &reasons, self.aim).work;
            let drivers: BTreeSet<ActivityId> = order.iter().copied().collect();
            order.extend(known.iter().filter(|id| !drivers.contains(id)));
            let other = planner.solved(order);
            let better = other.breaches.len() <= best.breaches.len()
                && self.won(network, &other.plan) > self.won(network, &best.plan);
            if !better {
                break;
            }
            best = other;
        }
        Some(best)
    }

    /// The same gain with the known order kept for as long as it can be: what is done for September
    /// need not move this week.
    fn calmed(&self, problem: &Problem, found: Solved) -> Option<Solved> {
        let network = &self.outlook.network;
        let wins = self.won(network, &found.plan);
        if wins <= 0 || found.order == self.order {
            return Some(found);
        }
        let mut planner = Planner::new(problem).ok()?;
        let now = network.now_tick();
        let length = self.before() - now;
        for tenth in (1..10).rev() {
            let until = now + length / 10 * tenth;
            let kept = |id: &&ActivityId| self.outlook.plan.starts[id.index()] < until;
            let first = self.order.iter().filter(kept);
            let then = found.order.iter().filter(|id| !kept(id));
            let calm = planner.solved(first.chain(then).copied().collect());
            let sound = calm.breaches.len() <= found.breaches.len();
            if sound && self.won(network, &calm.plan) >= wins {
                return Some(calm);
            }
        }
        Some(found)
    }

    /// The best plan of a short search, where it reaches the aim sooner.
    fn searched(&self, network: &Network, problem: &Problem, known: Solved) -> Option<Solved> {
        let start = Start {
            seed: 1,
            first_order: Some(known.order.clone()),
        };
        let mut search = Search::new(problem, &start).ok()?;
        search.run(PLANS);
        let found = search.best();
        let better = self.won(network, &found.plan) > self.won(network, &known.plan);
        Some(if better { found.clone() } else { known })
    }

    /// Calendar days that a plan wins for the aim.
    fn won(&self, network: &Network, plan: &Plan) -> i32 {
        let after = reached(network, plan, self.aim);
        days_between(&self.outlook.network, after, self.before())
    }

    fn trial(
        &self,
        means: Vec<Means>,
        network: Option<Network>,
        problem: Problem,
        solved: Solved,
    ) -> Trial {
        let here = network.as_ref().unwrap_or(&self.outlook.network);
        Trial {
            won: self.won(here, &solved.plan),
            means,
            network,
            problem,
            solved,
            steps: Vec::new(),
        }
    }

    fn problem(&self, network: Option<&Network>, means: &[Means]) -> Problem {
        let network = network.unwrap_or(&self.outlook.network);
        let mut problem = network.problem.clone();
        for one in means {
            one.change(self.job, network, &mut problem);
        }
        problem
    }

    /// The order of the plan as it stands, in a network that may name some work otherwise.
    fn order_in(&self, network: Option<&Network>) -> Vec<ActivityId> {
        match network {
            None => self.order.to_vec(),
            Some(network) => {
                let tasks = &self.outlook.network.tasks;
                let keys = self.order.iter().map(|id| &tasks[id.index()].key);
                keys.filter_map(|key| network.find(key)).collect()
            }
        }
    }

    /// Looks for an order that reaches the aim sooner, whatever else it costs; prices it as the job
    /// does.
    fn other_order(&self, network: &Network, problem: &Problem, known: Solved) -> Option<Solved> {
        if self.won(network, &known.plan) > 0 {
            return Some(known);
        }
        let mut urgent = problem.clone();
        for activity in ends(network, &known.plan, self.aim) {
            urgent.dues.push(Due {
                activity,
                at: urgent.now,
                day_cents: AIM_CENTS,
            });
        }
        if *self.aim == Aim::LastFinish {
            urgent.day_cents = urgent.day_cents.max(AIM_CENTS);
        }
        let start = Start {
            seed: 1,
            first_order: Some(known.order),
        };
        let mut search = Search::new(&urgent, &start).ok()?;
        search.run(PLANS_OF_ORDER);
        let best = search.best();
        Some(Solved {
            plan: best.plan.clone(),
            breaches: verify(problem, &best.plan),
            cost: cost(problem, &best.plan),
            order: best.order.clone(),
        })
    }
}

/// The plan of a trial with the network it is of.
impl Trial {
    pub(crate) fn network<'a>(&'a self, ground: &Ground<'a>) -> &'a Network {
        self.network.as_ref().unwrap_or(&ground.outlook.network)
    }

    pub(crate) fn plan(&self) -> &Plan {
        &self.solved.plan
    }

    /// The same with what has time put later where that saves money, as in the plan as it stands.
    pub(crate) fn spared(self) -> Self {
        match spare(&self.problem, &self.solved) {
            Ok(Spared { solved, .. }) => Self { solved, ..self },
            Err(_) => self,
        }
    }
}

/// Four hours: what somebody who is called in is paid at least (common practice).
pub(crate) const CALLED_IN: Tick = 4 * HOUR;
