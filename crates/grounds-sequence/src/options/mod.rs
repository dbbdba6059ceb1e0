//! Winning back time: what could be done for a date, what it wins and what it costs.
//!
//! [`win_back`] looks at what drives a milestone, thinks of what a site lead would think of (longer
//! days, Saturdays, one more crew, a delivery or an answer asked for sooner, boards over a floor,
//! faces in turn, another order), plans each anew, proves the plan, and cuts the means down to what
//! wins as much. Nothing is applied: jobs, notes and plans stay as they are.
//!
//! Never offered: to pass over a test or an inspection, and to wait less for anything to dry than
//! its layer says. What dries faster with heat or dry air is a question to its maker.

mod candidates;
mod chain;
mod days;
mod means;
mod money;
mod pairs;
mod rank;
mod trial;
mod trim;

use std::sync::atomic::{AtomicUsize, Ordering};

use grounds_model::{Id, Job};
use grounds_schedule::{ActivityId, Faulty, Plan, Tick, earliest_starts, explain_all};
use grounds_site::Site;

use crate::{
    effect::{Effect, Side},
    network::{Network, NetworkError},
    outlook::Outlook,
    side_by_side::side_by_side,
    task::TaskState,
};
use candidates::candidates;
use chain::Chain;
use trial::{Ground, Trial};

pub(crate) use means::usual_calendar;
pub use means::{
    Awaited, Boards, ExtraDay, ExtraHours, ExtraKind, Means, Sooner, Split, network_with,
};
pub use money::{CostKind, CostPart};

/// For what time is to be won.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Aim {
    /// The day on which the last work ends.
    LastFinish,
    /// A milestone.
    Milestone(Id),
}

impl Aim {
    /// The milestone, if it is one.
    #[must_use]
    pub fn milestone(&self) -> Option<&Id> {
        match self {
            Self::LastFinish => None,
            Self::Milestone(id) => Some(id),
        }
    }
}

/// What extra hours cost where the job says nothing of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Terms {
    /// What an hour beyond the usual ones costs, in percent of a usual one: 150 is time and a half
    /// (common practice). A trade's own `overtime` beats it.
    pub premium_percent: u32,
    /// The least that is paid to who is called in on a day off, in ticks: four hours (common
    /// practice).
    pub called_in: Tick,
}

impl Default for Terms {
    fn default() -> Self {
        Self {
            premium_percent: 150,
            called_in: trial::CALLED_IN,
        }
    }
}

/// How far the search for options has got.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Progress {
    /// Tried so far.
    pub done: usize,
    /// To be tried in all.
    pub of: usize,
}

/// Why there are no options.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum OptionsError {
    /// The job has no such milestone.
    #[error("the job has no milestone {0:?}; its milestones are {1}")]
    NoMilestone(String, String),
    /// The milestone is reached, or nothing is left to do.
    #[error("{0} is reached already; there is no time to win")]
    Reached(String),
    /// The network is no valid problem.
    #[error(transparent)]
    Faulty(#[from] Faulty),
    /// No network can be made of the job.
    #[error(transparent)]
    Network(#[from] NetworkError),
}

/// What could be done for a date.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WinBack {
    /// For what.
    pub aim: Aim,
    /// When the plan as it stands reaches it.
    pub before: Tick,
    /// No order of work reaches it before this, as things stand.
    pub bound: Tick,
    /// One thing done, the cheapest day first.
    pub singles: Vec<Offer>,
    /// Two things done together that win more than either alone, the cheapest day first.
    pub pairs: Vec<Offer>,
    /// How many means and pairs of means were planned.
    pub tried: usize,
    /// The work that the date hangs on and that is not over, by start.
    pub chain: Vec<ActivityId>,
}

/// What is won when something comes by some day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Step {
    /// The latest day that wins as much, as its beginning.
    pub by: Tick,
    /// Calendar days won for the aim.
    pub won: i32,
}

/// Something that could be done, with all that it does.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Offer {
    /// What is done: one means, or two.
    pub means: Vec<Means>,
    /// Calendar days won for the aim.
    pub won: i32,
    /// What the means cost by themselves.
    pub costs: Vec<CostPart>,
    /// Where one thing is asked for sooner: what the days between as things stand and as asked for
    /// win, the latest first; the last step is what is asked for.
    pub steps: Vec<Step>,
    /// What they do to the plan.
    pub effect: Effect,
    /// The trades that must hear of it, by key: those asked, and those whose work of the next ten
    /// working days begins on another day.
    pub affected: Vec<Id>,
    /// When everything happens then, in the order of the network that [`network_with`] gives.
    pub plan: Plan,
    /// The order of work behind that plan, as task keys.
    pub order: Vec<String>,
}

impl Offer {
    /// What the means cost by themselves where that is known, in cents.
    #[must_use]
    pub fn own_cents(&self) -> i64 {
        let known = self.costs.iter().filter_map(|part| part.cents);
        known.fold(0, i64::saturating_add)
    }

    /// Everything taken together, in cents: what the means cost where that is known, and what the
    /// plan costs more; negative where money is saved.
    #[must_use]
    pub fn net_cents(&self) -> i64 {
        self.own_cents().saturating_add(self.effect.cents())
    }

    /// [`Offer::net_cents`] for each day won, rounded towards nothing.
    #[must_use]
    pub fn cents_per_day(&self) -> i64 {
        self.net_cents() / i64::from(self.won.max(1))
    }

    /// Some part has no price in the job: somebody must be asked.
    #[must_use]
    pub fn needs_price(&self) -> bool {
        self.costs.iter().any(|part| part.cents.is_none())
    }

    /// What may be paid for the parts without a price before it costs more than it saves, in cents.
    #[must_use]
    pub fn worth_cents(&self) -> i64 {
        self.net_cents().saturating_neg().max(0)
    }
}

/// Looks for what could win time.
///
/// `progress` hears of every trial, from any thread. The result does not depend on the threads.
///
/// # Errors
/// See [`OptionsError`].
pub fn win_back(
    job: &Job,
    site: &Site,
    outlook: &Outlook,
    aim: &Aim,
    terms: &Terms,
    progress: &(dyn Fn(Progress) + Sync),
) -> Result<WinBack, OptionsError> {
    check(job, outlook, aim)?;
    let network = &outlook.network;
    let order = outlook.order();
    let order: Vec<ActivityId> = order.iter().filter_map(|key| network.find(key)).collect();
    let ground = Ground {
        job,
        site,
        outlook,
        aim,
        terms,
        order: &order,
    };
    let chain = Chain::of(network, &outlook.plan, &outlook.reasons, aim);
    let means: Vec<Vec<Means>> = candidates(job, site, &chain)
        .into_iter()
        .map(|one| vec![one])
        .collect();
    let counter = Counter {
        done: AtomicUsize::new(0),
        of: means.len() + pairs::MOST_TRIED,
        progress,
    };
    let strong = attempts(&ground, &means, &counter);
    let strong = more_than_order_alone(&ground, strong);
    let together = pairs::to_try(&ground, &strong);
    counter.skip(pairs::MOST_TRIED.saturating_sub(together.len()));
    let pairs = attempts(&ground, &together, &counter);
    let pairs = pairs::worth_both(pairs, &strong);
    let singles = rank::singles(offers(&ground, strong));
    let pairs = rank::pairs(offers(&ground, pairs), &singles);
    Ok(WinBack {
        aim: aim.clone(),
        before: ground.before(),
        bound: bound(network, &outlook.plan, aim)?,
        singles,
        pairs,
        tried: means.len() + together.len(),
        chain: chain
            .work
            .iter()
            .copied()
            .filter(|id| network.tasks[id.index()].state != TaskState::Done)
            .collect(),
    })
}

fn check(job: &Job, outlook: &Outlook, aim: &Aim) -> Result<(), OptionsError> {
    let Aim::Milestone(id) = aim else {
        return match outlook.network.open().next() {
            Some(_) => Ok(()),
            None => Err(OptionsError::Reached("The job".to_owned())),
        };
    };
    let Some(milestone) = job.milestones.get(id) else {
        let known: Vec<String> = job.milestones.keys().map(ToString::to_string).collect();
        return Err(OptionsError::NoMilestone(
            id.to_string(),
            crate::words::join(&known),
        ));
    };
    let network = &outlook.network;
    let task = network
        .find(id.as_str())
        .map(|id| &network.tasks[id.index()]);
    match task {
        Some(task) if task.state != TaskState::Done => Ok(()),
        _ => Err(OptionsError::Reached(milestone.name.clone())),
    }
}

/// When the aim could be reached at best, by work, waits and dates alone.
fn bound(network: &Network, plan: &Plan, aim: &Aim) -> Result<Tick, Faulty> {
    if *aim == Aim::LastFinish {
        return grounds_schedule::bound(&network.problem);
    }
    let early = earliest_starts(&network.problem)?;
    let ends = chain::ends(network, plan, aim);
    Ok(ends
        .iter()
        .map(|id| early[id.index()])
        .max()
        .unwrap_or(network.problem.now))
}

/// Counts trials for who waits for them.
struct Counter<'a> {
    done: AtomicUsize,
    of: usize,
    progress: &'a (dyn Fn(Progress) + Sync),
}

impl Counter<'_> {
    fn one(&self) {
        self.skip(1);
    }

    fn skip(&self, count: usize) {
        let done = self.done.fetch_add(count, Ordering::Relaxed) + count;
        (self.progress)(Progress {
            done: done.min(self.of),
            of: self.of,
        });
    }
}

/// Tries all of them, side by side; those that are sound and win something, in the order given.
fn attempts(ground: &Ground<'_>, all: &[Vec<Means>], counter: &Counter<'_>) -> Vec<Trial> {
    let made = side_by_side(all, |means| {
        let trial = ground.attempt(means);
        counter.one();
        trial.filter(|trial| trial.won > 0 && ground.is_sound(trial))
    });
    made.into_iter().flatten().collect()
}

/// Cuts trials down to what wins as much, and says all that they do.
fn offers(ground: &Ground<'_>, trials: Vec<Trial>) -> Vec<Offer> {
    side_by_side(&trials, |trial| {
        offer(ground, &trim::trim(ground, trial.clone()).spared())
    })
}

/// An order that was found for some means may win as much without them: then it is the order that
/// is offered. Means must win more than any order does alone.
fn more_than_order_alone(ground: &Ground<'_>, trials: Vec<Trial>) -> Vec<Trial> {
    let orders = side_by_side(&trials, |trial| ground.without_means(trial));
    let mut order: Option<Trial> = None;
    for free in orders.into_iter().flatten().filter(|free| free.won > 0) {
        if order.as_ref().is_none_or(|best| free.won > best.won) {
            order = Some(free);
        }
    }
    let alone = order.as_ref().map_or(0, |order| order.won);
    let mut kept: Vec<Trial> = trials
        .into_iter()
        .filter(|trial| trial.won > alone && trial.means != [Means::Order])
        .collect();
    kept.extend(order);
    kept
}

fn offer(ground: &Ground<'_>, trial: &Trial) -> Offer {
    let (before, after) = (&ground.outlook.network, trial.network(ground));
    let effect = Effect::between(
        ground.job,
        Side::of(ground.outlook),
        Side {
            network: after,
            plan: trial.plan(),
            cost: trial.solved.cost,
        },
    );
    let costs = trial
        .means
        .iter()
        .filter_map(|one| {
            money::own_cost(ground.job, before, after, trial.plan(), one, ground.terms)
        })
        .collect();
    let asked = trial
        .means
        .iter()
        .filter_map(|one| one.concerns(ground.job));
    let mut affected: Vec<Id> = effect.trades().into_iter().chain(asked).cloned().collect();
    affected.sort_unstable();
    affected.dedup();
    Offer {
        means: trial.means.clone(),
        won: trial.won,
        costs,
        steps: match trial.means.as_slice() {
            [_] => trial.steps.clone(),
            _ => Vec::new(),
        },
        effect,
        affected,
        plan: trial.plan().clone(),
        order: trial
            .solved
            .order
            .iter()
            .map(|id| after.tasks[id.index()].key.clone())
            .collect(),
    }
}

/// The reasons of a trial's plan, for what drives the aim then.
fn reasons_of(trial: &Trial) -> Vec<Vec<grounds_schedule::Reason>> {
    explain_all(&trial.problem, trial.plan())
}
