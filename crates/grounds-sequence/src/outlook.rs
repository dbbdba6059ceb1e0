//! The outlook: a plan, proved, with its reasons, what can start, what waits, and the roots.

use std::collections::BTreeMap;

use grounds_model::Id;
use grounds_schedule::{
    ActivityId, Breach, Clash, Clock, Cost, DAY, End, EndWhy, Faulty, Plan, Planner, Problem,
    PutLater, Reason, Search, Solved, Spared, Start, Tick, bound_why, clashes, explain_all, spare,
    steady,
};

use jiff::Timestamp;

use crate::{
    network::Network,
    ready,
    roots::{self, Cause, Root},
    side_by_side::side_by_side,
    task::{Task, TaskState, Work},
};

/// How hard to look for a plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Effort {
    /// How many schedules to try.
    pub schedules: u32,
    /// Seed of the search.
    pub seed: u64,
}

impl Effort {
    /// For a plan that is wanted at once after a change: better ones can be looked for once it is shown.
    pub const AFTER_A_CHANGE: Self = Self {
        schedules: 4,
        seed: 1,
    };
}

impl Default for Effort {
    fn default() -> Self {
        Self {
            schedules: 16,
            seed: 1,
        }
    }
}

/// At most this many roots are priced in days, those that hold up most first: each costs one more
/// plan.
const PRICED: usize = 16;

/// A plan of a network, proved and explained.
#[derive(Clone, Debug)]
pub struct Outlook {
    /// What was planned.
    pub network: Network,
    /// When everything happens.
    pub plan: Plan,
    /// Every way in which the plan breaks the problem, from the independent check; empty when
    /// all can be met.
    pub breaches: Vec<Breach>,
    /// The facts that clash behind those breaches, each as small a set as was found.
    pub clashes: Vec<Clash>,
    /// What the plan costs.
    pub cost: Cost,
    /// No order of work can finish before this.
    pub bound: Tick,
    /// Why no order of work can.
    pub bound_why: EndWhy,
    /// Why each activity does not begin one working tick earlier. Work that waits on purpose
    /// ([`Outlook::put_later`]) has what holds it as soon as it could start, then that choice.
    pub reasons: Vec<Vec<Reason>>,
    /// What waits on purpose, to save money or since people go by it, by its position.
    pub put_later: Vec<PutLater>,
    /// The causes that hold up the rest, the one that holds most first.
    pub roots: Vec<Root>,
    /// For each activity, when it could start today if facts alone decide.
    pub startable: Vec<Option<Tick>>,
    order: Vec<ActivityId>,
}

/// What people know of a plan: give it to the next one, so that a small note does not reshuffle next
/// week.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Known {
    /// The order of work behind the plan, as task keys.
    pub order: Vec<String>,
    /// When work that is to come starts, by task key. What is not here may start at any time.
    pub starts: BTreeMap<String, Timestamp>,
}

impl Known {
    /// An order of work, whenever it makes things start.
    #[must_use]
    pub fn order(order: Vec<String>) -> Self {
        Self {
            order,
            starts: BTreeMap::new(),
        }
    }

    /// The order of work in a network, as far as the network has it.
    fn order_in(&self, network: &Network) -> Vec<ActivityId> {
        let keys = self.order.iter();
        keys.filter_map(|key| network.find(key)).collect()
    }

    /// When work starts in a network, by position.
    fn starts_in(&self, network: &Network) -> Vec<Option<Tick>> {
        let at = |task: &Task| self.starts.get(&task.key).copied();
        let floor = |at: Timestamp| network.clock.floor(at);
        network
            .tasks
            .iter()
            .map(|task| at(task).map(floor))
            .collect()
    }
}

/// Something that can start today or is in hand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StartRow {
    /// The work.
    pub id: ActivityId,
    /// In hand already.
    pub in_hand: bool,
    /// When it can start.
    pub from: Tick,
    /// When the plan starts it.
    pub planned: Tick,
    /// Open work that waits for it directly, the first to start first.
    pub opens: Vec<ActivityId>,
}

/// What one piece of work waits for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Waiting {
    /// The work.
    pub id: ActivityId,
    /// Positions in [`Outlook::roots`].
    pub roots: Vec<usize>,
}

impl Outlook {
    /// Plans a network. `known` is what people know of an earlier plan ([`Outlook::known`]).
    ///
    /// # Errors
    /// When the network is no valid problem; one built from a job that was read without fault is.
    pub fn plan(network: Network, effort: Effort, known: Option<&Known>) -> Result<Self, Faulty> {
        let start = Start {
            seed: effort.seed,
            first_order: known.map(|known| known.order_in(&network)),
        };
        let mut search = Search::new(&network.problem, &start)?;
        search.run(effort.schedules.saturating_sub(1));
        let solved = search.calm();
        drop(search);
        Self::of(network, solved, known)
    }

    /// What is to be said of an order of work that was found already: by a [`Search`] that goes on
    /// while people look. What has time waits where that saves money; what people know stays where it
    /// was unless going over is well worth it.
    ///
    /// # Errors
    /// When the network is no valid problem.
    pub fn of(network: Network, found: Solved, known: Option<&Known>) -> Result<Self, Faulty> {
        let mut spared = spare(&network.problem, &found)?;
        if let Some(known) = known.filter(|known| !known.starts.is_empty()) {
            spared = steady(&network.problem, spared, &known.starts_in(&network))?;
        }
        let held = explain_all(&network.problem, &spared.solved.plan);
        let put_later = waiting_on_purpose(&spared, &held);
        let Spared {
            solved, as_listed, ..
        } = spared;
        let reasons = reasons(&network, &as_listed, held, &put_later);
        let startable = ready::startable(&network);
        let roots = roots::find(&network, &solved.plan, &reasons, &startable);
        let bound = bound_why(&network.problem)?;
        let clashes = match solved.breaches.is_empty() {
            true => Vec::new(),
            false => clashes(&network.problem, &solved)?,
        };
        let mut outlook = Self {
            network,
            plan: solved.plan,
            breaches: solved.breaches,
            clashes,
            cost: solved.cost,
            bound: bound.at,
            bound_why: bound.why,
            reasons,
            put_later,
            roots,
            startable,
            order: solved.order,
        };
        outlook.price_roots();
        Ok(outlook)
    }

    /// Why a piece of work waits though it could start, if it does.
    #[must_use]
    pub fn waits_on_purpose(&self, id: ActivityId) -> Option<PutLater> {
        let at = self.put_later.binary_search_by_key(&id, |l| l.activity);
        at.ok().and_then(|at| self.put_later.get(at)).copied()
    }

    /// What people know once they have seen the plan: give it to the next [`Outlook::plan`].
    #[must_use]
    pub fn known(&self) -> Known {
        let tasks = self.network.tasks.iter().zip(&self.plan.starts);
        let to_come = tasks.filter(|(task, _)| {
            task.state == TaskState::ToCome && !matches!(task.work, Work::Reach(_))
        });
        let starts =
            to_come.map(|(task, &start)| (task.key.clone(), self.network.clock.timestamp(start)));
        Known {
            starts: starts.collect(),
            order: self.order(),
        }
    }

    /// The order of work behind the plan, as task keys.
    #[must_use]
    pub fn order(&self) -> Vec<String> {
        self.order
            .iter()
            .map(|id| self.network.tasks[id.index()].key.clone())
            .collect()
    }

    /// When the last piece of work ends.
    #[must_use]
    pub fn finish(&self) -> Tick {
        finish_of(&self.plan)
    }

    /// Measures what each root costs by removing it and planning again in the same order.
    fn price_roots(&mut self) {
        let base = self.finish();
        let drives = |root: &&Root| root.drives;
        let causes: Vec<Cause> = self
            .roots
            .iter()
            .filter(drives)
            .take(PRICED)
            .map(|root| root.cause.clone())
            .collect();
        let days = side_by_side(&causes, |cause| {
            let problem = roots::without(&self.network, cause);
            let finish = finish_by(&problem, &self.order).unwrap_or(base);
            whole_days(base - finish)
        });
        let driving = self.roots.iter_mut().filter(|root| root.drives);
        driving.zip(days).for_each(|(root, days)| root.days = days);
        self.roots.sort_by(|a, b| {
            (b.days, b.holds.len())
                .cmp(&(a.days, a.holds.len()))
                .then_with(|| a.cause.cmp(&b.cause))
        });
    }

    /// Everything in hand and everything that can start today, by planned start.
    #[must_use]
    pub fn starts(&self) -> Vec<StartRow> {
        let mut rows: Vec<StartRow> = self
            .network
            .open()
            .filter_map(|id| {
                let task = &self.network.tasks[id.index()];
                let in_hand = task.state == TaskState::InHand;
                let from = match self.startable[id.index()] {
                    Some(from) => from,
                    None if in_hand => self.plan.starts[id.index()],
                    None => return None,
                };
                let planned = self.plan.starts[id.index()];
                Some(StartRow {
                    id,
                    in_hand,
                    from,
                    planned,
                    opens: self.opened_by(id),
                })
            })
            .collect();
        rows.sort_by_key(|row| (!row.in_hand, row.planned, row.id));
        rows
    }

    /// The last moment at which a piece of work may start, where something done sets one: a primer
    /// that must be covered, a wetted floor that must be stained. `None` where nothing does.
    #[must_use]
    pub fn must_start_by(&self, id: ActivityId) -> Option<Tick> {
        let problem = &self.network.problem;
        let windows = problem
            .lags
            .iter()
            .filter(|lag| lag.to == id && lag.to_end == End::Start);
        windows
            .filter_map(|lag| {
                let from = self.network.tasks.get(lag.from.index())?;
                let max = lag.max.filter(|_| from.state == TaskState::Done)?;
                let base = match lag.from_end {
                    End::Start => self.plan.starts[lag.from.index()],
                    End::Finish => self.plan.finishes[lag.from.index()],
                };
                match lag.clock {
                    Clock::Elapsed => Some(base.saturating_add(max)),
                    Clock::On(calendar) => problem.calendars[calendar.index()].add(base, max),
                }
            })
            .min()
    }

    /// Open work that directly waits for a piece of work.
    #[must_use]
    pub fn opened_by(&self, id: ActivityId) -> Vec<ActivityId> {
        let mut opened: Vec<ActivityId> = self
            .network
            .problem
            .lags
            .iter()
            .filter(|lag| lag.from == id && lag.min.is_some())
            .map(|lag| lag.to)
            .filter(|to| {
                let task = &self.network.tasks[to.index()];
                task.state == TaskState::ToCome && !matches!(task.work, Work::Reach(_))
            })
            .collect();
        opened.sort_by_key(|to| (self.plan.starts[to.index()], *to));
        opened.dedup();
        opened
    }

    /// Everything that is to come and cannot start today, with its roots, by planned start.
    #[must_use]
    pub fn waiting(&self) -> Vec<Waiting> {
        let mut waiting: Vec<Waiting> = self
            .network
            .open()
            .filter(|id| {
                let task = &self.network.tasks[id.index()];
                task.state == TaskState::ToCome
                    && self.startable[id.index()].is_none()
                    && !matches!(task.work, Work::Reach(_))
            })
            .map(|id| Waiting {
                id,
                roots: self.roots_of(id),
            })
            .collect();
        waiting.sort_by_key(|row| (self.plan.starts[row.id.index()], row.id));
        waiting
    }

    /// Positions of the roots that hold up a piece of work.
    #[must_use]
    pub fn roots_of(&self, id: ActivityId) -> Vec<usize> {
        (0..self.roots.len())
            .filter(|&root| self.roots[root].holds.contains(&id))
            .collect()
    }

    /// Work of the plan that begins in `[from, until)`, by start.
    #[must_use]
    pub fn between(&self, from: Tick, until: Tick) -> Vec<ActivityId> {
        let mut ids: Vec<ActivityId> = self
            .network
            .open()
            .filter(|id| (from..until).contains(&self.plan.starts[id.index()]))
            .collect();
        ids.sort_by_key(|id| (self.plan.starts[id.index()], *id));
        ids
    }

    /// Planned work of a trade, by start.
    #[must_use]
    pub fn of_trade(&self, trade: &Id) -> Vec<ActivityId> {
        let mut ids: Vec<ActivityId> = self
            .network
            .open()
            .filter(|id| self.network.tasks[id.index()].trade.as_ref() == Some(trade))
            .collect();
        ids.sort_by_key(|id| (self.plan.starts[id.index()], *id));
        ids
    }
}

/// What waits on purpose, by its position: to save money, or for those who go by the plan they know.
fn waiting_on_purpose(spared: &Spared, reasons: &[Vec<Reason>]) -> Vec<PutLater> {
    let (sooner, starts) = (&spared.as_listed.starts, &spared.solved.plan.starts);
    let free = (0..starts.len()).filter(|&i| {
        let known = |later: &PutLater| later.activity.index() == i;
        reasons[i] == [Reason::Choice]
            && sooner[i] < starts[i]
            && !spared.put_later.iter().any(known)
    });
    let kept = free.map(|i| PutLater {
        activity: ActivityId::from(i),
        could: sooner[i],
        saves: Cost::default(),
    });
    let mut all: Vec<PutLater> = spared.put_later.iter().copied().chain(kept).collect();
    all.sort_by_key(|later| later.activity);
    all
}

/// The reasons of a plan. What waits on purpose has what holds it in the plan before it was put later,
/// and then that it was: what happens to hold it where it stands now says nothing.
fn reasons(
    network: &Network,
    before: &Plan,
    mut reasons: Vec<Vec<Reason>>,
    put_later: &[PutLater],
) -> Vec<Vec<Reason>> {
    if !put_later.is_empty() {
        let mut sooner = explain_all(&network.problem, before);
        for later in put_later.iter().map(|later| later.activity.index()) {
            reasons[later] = std::mem::take(&mut sooner[later]);
            reasons[later].retain(|reason| *reason != Reason::Choice);
            reasons[later].push(Reason::Choice);
        }
    }
    tidy(network, reasons)
}

/// Drops reasons that only say again what a lag says: a crew, a room or a shut floor that is held by
/// the very work that comes before anyway.
fn tidy(network: &Network, mut reasons: Vec<Vec<Reason>>) -> Vec<Vec<Reason>> {
    for (index, reasons) in reasons.iter_mut().enumerate() {
        let before: Vec<ActivityId> = reasons
            .iter()
            .filter_map(|reason| match reason {
                Reason::Lag(lag) => network.problem.lags.get(lag.index()),
                _ => None,
            })
            .map(|lag| {
                if lag.to.index() == index {
                    lag.from
                } else {
                    lag.to
                }
            })
            .collect();
        let known =
            |ids: &[ActivityId]| !ids.is_empty() && ids.iter().all(|id| before.contains(id));
        reasons.retain(|reason| match reason {
            Reason::Crew { held_by: ids, .. }
            | Reason::ShutOff { by: ids }
            | Reason::WouldShutOff { others: ids }
            | Reason::Dust { with: ids } => !known(ids),
            _ => true,
        });
    }
    reasons
}

/// The finish of the plan that an order of work makes.
fn finish_by(problem: &Problem, order: &[ActivityId]) -> Option<Tick> {
    Planner::new(problem)
        .ok()
        .map(|mut planner| planner.finish(order))
}

/// Days to the nearest whole one; never negative.
fn whole_days(ticks: Tick) -> i32 {
    (ticks.max(0) + DAY / 2) / DAY
}

fn finish_of(plan: &Plan) -> Tick {
    plan.finishes.iter().copied().max().unwrap_or(0)
}
