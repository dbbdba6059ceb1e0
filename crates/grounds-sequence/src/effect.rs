//! What a change does to a plan: to each milestone, to the money, and to the next ten working days.

use grounds_model::{Id, Job};
use grounds_schedule::{Cost, Plan, Tick};

use crate::{
    hours,
    network::Network,
    outlook::Outlook,
    task::{TaskState, Work},
};

/// Working days ahead in which a start that moves is news to somebody.
const DAYS_AHEAD: u32 = 10;

/// A plan with the network it is of.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Side<'a> {
    pub(crate) network: &'a Network,
    pub(crate) plan: &'a Plan,
    pub(crate) cost: Cost,
}

impl<'a> Side<'a> {
    /// The plan of an outlook.
    pub(crate) fn of(outlook: &'a Outlook) -> Self {
        Self {
            network: &outlook.network,
            plan: &outlook.plan,
            cost: outlook.cost,
        }
    }
}

/// What one plan does that another does not.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Effect {
    /// The last finish first, then every milestone that is not reached yet, by key.
    pub reached: Vec<Reached>,
    /// What the plan costs as it stands.
    pub cost_before: Cost,
    /// What it would cost.
    pub cost_after: Cost,
    /// Work of the next ten working days that begins on another day, by its first start.
    pub moves: Vec<Moved>,
}

/// When something is reached, before and after.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reached {
    /// The milestone; without one, the last finish of the job.
    pub milestone: Option<Id>,
    /// When the plan as it stands reaches it.
    pub before: Tick,
    /// When the changed plan reaches it.
    pub after: Tick,
    /// Calendar days won; negative where days are lost.
    pub days: i32,
}

/// Work that begins on another day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Moved {
    /// The key of its task.
    pub key: String,
    /// Whose work it is.
    pub trade: Option<Id>,
    /// When it begins as things stand; nothing for work that is new.
    pub before: Option<Tick>,
    /// When it would begin; nothing for work that is no longer needed.
    pub after: Option<Tick>,
}

impl Effect {
    /// What the money of the plan itself does, in cents: what `after` costs more than `before`.
    #[must_use]
    pub fn cents(&self) -> i64 {
        self.cost_after
            .total()
            .saturating_sub(self.cost_before.total())
    }

    /// Days won for a milestone, or for the last finish.
    #[must_use]
    pub fn days(&self, milestone: Option<&Id>) -> i32 {
        self.reached
            .iter()
            .find(|reached| reached.milestone.as_ref() == milestone)
            .map_or(0, |reached| reached.days)
    }

    /// The trades whose starts move, by key, each once.
    #[must_use]
    pub fn trades(&self) -> Vec<&Id> {
        let mut trades: Vec<&Id> = self
            .moves
            .iter()
            .filter_map(|moved| moved.trade.as_ref())
            .collect();
        trades.sort_unstable();
        trades.dedup();
        trades
    }

    pub(crate) fn between(job: &Job, before: Side<'_>, after: Side<'_>) -> Self {
        Self {
            reached: reached(before, after),
            cost_before: before.cost,
            cost_after: after.cost,
            moves: moves(job, before, after),
        }
    }
}

/// The calendar days from one moment to another on the job's wall clock.
pub(crate) fn days_between(network: &Network, from: Tick, to: Tick) -> i32 {
    let (from, to) = (network.clock.day(from), network.clock.day(to));
    from.until(to).map_or(0, |span| span.get_days())
}

/// The last finish of a plan.
pub(crate) fn last_finish(plan: &Plan) -> Tick {
    plan.finishes.iter().copied().max().unwrap_or(0)
}

fn reached(before: Side<'_>, after: Side<'_>) -> Vec<Reached> {
    let end = (last_finish(before.plan), last_finish(after.plan));
    let mut all = vec![(None, end)];
    for id in before.network.open() {
        let task = &before.network.tasks[id.index()];
        let Work::Reach(milestone) = &task.work else {
            continue;
        };
        if let Some(other) = after.network.find(&task.key) {
            let ends = (
                before.plan.finishes[id.index()],
                after.plan.finishes[other.index()],
            );
            all.push((Some(milestone.clone()), ends));
        }
    }
    all.into_iter()
        .map(|(milestone, (was, is))| Reached {
            milestone,
            before: was,
            after: is,
            days: days_between(before.network, is, was),
        })
        .collect()
}

fn moves(job: &Job, before: Side<'_>, after: Side<'_>) -> Vec<Moved> {
    let soon = before.network.now_tick()..end_of_days_ahead(job, before.network);
    let mut moves: Vec<Moved> = Vec::new();
    for (here, there, is_new) in [(before, after, false), (after, before, true)] {
        for id in here.network.open() {
            let task = &here.network.tasks[id.index()];
            if task.state != TaskState::ToCome || !is_somebodys(&task.work) {
                continue;
            }
            let other = there.network.find(&task.key);
            if is_new && other.is_some() {
                continue;
            }
            let start = Some(here.plan.starts[id.index()]);
            let other = other.map(|id| there.plan.starts[id.index()]);
            let (was, is) = if is_new {
                (other, start)
            } else {
                (start, other)
            };
            let day = |at: Option<Tick>| at.map(|at| before.network.clock.day(at));
            let near = [was, is].into_iter().flatten().any(|at| soon.contains(&at));
            if near && day(was) != day(is) {
                moves.push(Moved {
                    key: task.key.clone(),
                    trade: task.trade.clone(),
                    before: was,
                    after: is,
                });
            }
        }
    }
    let first = |moved: &Moved| moved.before.into_iter().chain(moved.after).min();
    moves.sort_by(|a, b| (first(a), &a.key).cmp(&(first(b), &b.key)));
    moves
}

/// Deliveries, decisions and milestones are nobody's work.
fn is_somebodys(work: &Work) -> bool {
    !matches!(
        work,
        Work::Arrive(_) | Work::Decide(_) | Work::Reach(_) | Work::Shut(_)
    )
}

/// The end of the tenth working day of the job after today.
fn end_of_days_ahead(job: &Job, network: &Network) -> Tick {
    let today = network.clock.day(network.now_tick());
    let last = job.calendars.get(&job.job.calendar).map_or(today, |week| {
        hours::after_working_days(week, today, DAYS_AHEAD)
    });
    network.clock.midnight(last.tomorrow().unwrap_or(last))
}
