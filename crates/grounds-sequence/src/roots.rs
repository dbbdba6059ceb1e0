//! Roots: the few causes that everything else waits for, and the days each costs.

use std::collections::{BTreeMap, BTreeSet};

use grounds_model::Id;
use grounds_schedule::{ActivityId, Clock as On, DateId, End, Fact, Plan, Problem, Reason, Tick};

use crate::{
    network::Network,
    task::{DateWhy, ResourceWhy, TaskState, Work},
};

/// A cause that no other work explains.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cause {
    /// A piece is not on site.
    Arrival(ActivityId),
    /// A hold failed, is not booked, or is booked for later.
    Hold(ActivityId),
    /// A decision is not made.
    Decision(ActivityId),
    /// Something stands in the way.
    Problem(DateId),
    /// Something must be settled first, by its position in [`Network::held`].
    HeldUp(usize),
    /// A trade has no more crews.
    Crews(Id),
    /// A place has no room for one more crew.
    Room(Id),
    /// Finished work is drying, curing or standing.
    Drying(ActivityId),
    /// Work in hand must be finished.
    InHand(ActivityId),
    /// A floor or a way is shut by work that is done or in hand, or by a noted problem.
    Shut(ActivityId),
    /// The air in a place is outside the limits.
    Air(Id),
    /// A booking of the job document.
    Booking(DateId),
}

/// A cause with all that it holds up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Root {
    /// The cause.
    pub cause: Cause,
    /// Everything that waits for it, in order of planned start.
    pub holds: Vec<ActivityId>,
    /// Whole days by which the job would finish sooner without it; measured by planning again.
    pub days: i32,
    /// The work that ends last waits for it too, so that it may cost days.
    pub drives: bool,
}

impl Root {
    /// Whether somebody should hear of it first: it costs days, or something has gone wrong.
    #[must_use]
    pub fn weighs(&self) -> bool {
        self.days > 0 || self.cause.is_trouble()
    }
}

impl Cause {
    /// Something has gone wrong or is left undone, as against work that takes its turn or dries.
    #[must_use]
    pub fn is_trouble(&self) -> bool {
        matches!(
            self,
            Self::Hold(_) | Self::Decision(_) | Self::Problem(_) | Self::HeldUp(_) | Self::Air(_)
        )
    }
}

/// Finds the roots of everything that is open and cannot start now.
///
/// Reasons chain from work to work; each chain ends in causes, and every task on the way is held
/// up by them.
pub(crate) fn find(
    network: &Network,
    plan: &Plan,
    reasons: &[Vec<Reason>],
    startable: &[Option<Tick>],
) -> Vec<Root> {
    let (starts, finishes) = (&plan.starts, &plan.finishes);
    let mut graph = Graph::of(network, reasons);
    let mut order: Vec<ActivityId> = network.open().collect();
    order.sort_by_key(|id| (starts[id.index()], *id));
    graph.spread(&order);
    let drives = graph.causes_of_the_end(network, finishes);
    let mut holds: BTreeMap<usize, Vec<ActivityId>> = BTreeMap::new();
    for &id in &order {
        let task = &network.tasks[id.index()];
        let waits = startable[id.index()].is_none() && task.state == TaskState::ToCome;
        if !waits || matches!(task.work, Work::Reach(_)) {
            continue;
        }
        for &cause in &graph.held_by[id.index()] {
            holds.entry(cause).or_default().push(id);
        }
    }
    let mut roots: Vec<Root> = holds
        .into_iter()
        .map(|(cause, holds)| Root {
            cause: graph.causes[cause].clone(),
            holds,
            days: 0,
            drives: drives.contains(&cause),
        })
        .collect();
    roots.sort_by(|a, b| {
        b.holds
            .len()
            .cmp(&a.holds.len())
            .then_with(|| a.cause.cmp(&b.cause))
    });
    roots
}

/// What each task is held up by, directly and through others.
struct Graph {
    causes: Vec<Cause>,
    held_by: Vec<BTreeSet<usize>>,
    /// Tasks that each task waits for.
    before: Vec<Vec<ActivityId>>,
}

impl Graph {
    fn of(network: &Network, reasons: &[Vec<Reason>]) -> Self {
        let count = network.tasks.len();
        let mut graph = Self {
            causes: Vec::new(),
            held_by: vec![BTreeSet::new(); count],
            before: vec![Vec::new(); count],
        };
        let mut index: BTreeMap<Cause, usize> = BTreeMap::new();
        for id in network.open() {
            for step in steps(network, id, &reasons[id.index()]) {
                match step {
                    Step::Task(before) => graph.before[id.index()].push(before),
                    Step::Cause(cause) => {
                        let next = index.len();
                        let at = *index.entry(cause.clone()).or_insert(next);
                        if at == graph.causes.len() {
                            graph.causes.push(cause);
                        }
                        graph.held_by[id.index()].insert(at);
                    }
                }
            }
        }
        graph
    }

    /// The causes that the work which ends last waits for.
    fn causes_of_the_end(&self, network: &Network, finishes: &[Tick]) -> BTreeSet<usize> {
        let end = network.open().map(|id| finishes[id.index()]).max();
        network
            .open()
            .filter(|id| Some(finishes[id.index()]) == end)
            .flat_map(|id| self.held_by[id.index()].iter().copied())
            .collect()
    }

    /// Passes causes on to what waits, until nothing changes; reasons may run in circles (a coat
    /// that starts late so that the next can follow), so one pass is not enough.
    fn spread(&mut self, order: &[ActivityId]) {
        loop {
            let mut changed = false;
            for id in order {
                for before in self.before[id.index()].clone() {
                    let passed: Vec<usize> = self.held_by[before.index()]
                        .difference(&self.held_by[id.index()])
                        .copied()
                        .collect();
                    changed |= !passed.is_empty();
                    self.held_by[id.index()].extend(passed);
                }
            }
            if !changed {
                return;
            }
        }
    }
}

enum Step {
    Task(ActivityId),
    Cause(Cause),
}

fn steps(network: &Network, id: ActivityId, reasons: &[Reason]) -> Vec<Step> {
    let mut steps: Vec<Step> = reasons.iter().flat_map(|r| step(network, id, r)).collect();
    match &network.tasks[id.index()].work {
        Work::PutRight(hold) => {
            let pass = network.find(hold.as_str()).unwrap_or(id);
            steps.push(Step::Cause(Cause::Hold(pass)));
        }
        Work::Decide(_) => steps.push(Step::Cause(Cause::Decision(id))),
        _ => {}
    }
    if let Some(place) = cut_by_air(network, id) {
        steps.push(Step::Cause(Cause::Air(place)));
    }
    steps
}

fn step(network: &Network, id: ActivityId, reason: &Reason) -> Vec<Step> {
    match reason {
        Reason::Lag(lag) => {
            let lag = &network.problem.lags[lag.index()];
            let other = if lag.to == id { lag.from } else { lag.to };
            vec![through(network, other, Cause::Drying)]
        }
        Reason::Crew { resource, .. } => match network.resource_why(*resource) {
            Some(ResourceWhy::Crews(trade)) => vec![Step::Cause(Cause::Crews(trade.clone()))],
            Some(ResourceWhy::Room(place)) => vec![Step::Cause(Cause::Room(place.clone()))],
            None => Vec::new(),
        },
        Reason::ShutOff { by } => by
            .iter()
            .map(|&other| through(network, other, Cause::Shut))
            .collect(),
        Reason::WouldShutOff { others } => others
            .iter()
            .map(|&other| through(network, other, Cause::InHand))
            .collect(),
        Reason::Dust { with } => with
            .iter()
            .map(|&other| through(network, other, Cause::Drying))
            .collect(),
        Reason::Date(date) => dated(network, id, *date)
            .into_iter()
            .map(Step::Cause)
            .collect(),
        Reason::Now
        | Reason::Hours
        | Reason::Shift
        | Reason::Fact
        | Reason::Unplanned
        | Reason::Choice => Vec::new(),
    }
}

/// Work that is still to come passes its own causes on; work in hand and done work are causes.
fn through(network: &Network, other: ActivityId, done: fn(ActivityId) -> Cause) -> Step {
    match network.tasks[other.index()].state {
        TaskState::ToCome => Step::Task(other),
        TaskState::InHand => Step::Cause(Cause::InHand(other)),
        TaskState::Done => Step::Cause(done(other)),
    }
}

fn dated(network: &Network, id: ActivityId, date: DateId) -> Vec<Cause> {
    let Some(why) = network.date_why(date) else {
        return Vec::new();
    };
    vec![match why {
        DateWhy::Promised | DateWhy::FromOrder | DateWhy::IfOrderedToday | DateWhy::Overdue => {
            Cause::Arrival(id)
        }
        DateWhy::Notice | DateWhy::Booked => Cause::Hold(id),
        DateWhy::Expected { .. } => Cause::Decision(id),
        DateWhy::Problem { .. } => Cause::Problem(date),
        // An order that is held up is late for two reasons: what holds it, and the time it takes.
        DateWhy::HeldUp(held) if matches!(network.tasks[id.index()].work, Work::Arrive(_)) => {
            return vec![Cause::HeldUp(*held), Cause::Arrival(id)];
        }
        DateWhy::HeldUp(held) => Cause::HeldUp(*held),
        DateWhy::Booking(_) => Cause::Booking(date),
        DateWhy::Firm => return Vec::new(),
    }]
}

/// The place whose air keeps a task from its trade's usual hours today.
fn cut_by_air(network: &Network, id: ActivityId) -> Option<Id> {
    let task = &network.tasks[id.index()];
    if !task.limited_by_air || task.state != TaskState::ToCome {
        return None;
    }
    let activity = &network.problem.activities[id.index()];
    let plain = &network.problem.calendars[network.plain_calendar[id.index()]?.index()];
    let cut = &network.problem.calendars[activity.calendar?.index()];
    let usual = plain.next_working(network.problem.now)?;
    let within = cut.next_working(network.problem.now);
    (within != Some(usual))
        .then(|| task.place.clone())
        .flatten()
}

/// The problem as it would be without a cause.
pub(crate) fn without(network: &Network, cause: &Cause) -> Problem {
    let mut problem = network.problem.clone();
    match cause {
        Cause::Arrival(id) => {
            problem.dates.retain(|date| date.activity != *id);
            problem.lags.retain(|lag| lag.to != *id);
        }
        Cause::Hold(id) => pass_now(network, &mut problem, *id),
        Cause::Decision(id) => done_now(&mut problem, *id),
        Cause::Problem(date) | Cause::Booking(date) => {
            without_date(network, &mut problem, network.date_why(*date));
        }
        Cause::HeldUp(held) => {
            without_date(network, &mut problem, Some(&DateWhy::HeldUp(*held)));
        }
        Cause::Crews(trade) => one_more(network, &mut problem, &ResourceWhy::Crews(trade.clone())),
        Cause::Room(place) => one_more(network, &mut problem, &ResourceWhy::Room(place.clone())),
        Cause::Drying(id) => dry_now(&mut problem, *id),
        Cause::InHand(id) => {
            if let Fact::Begun { left, .. } = &mut problem.activities[id.index()].fact {
                *left = 0;
            }
        }
        Cause::Shut(id) => problem.activities[id.index()].closes.clear(),
        Cause::Air(place) => forget_air(network, &mut problem, place),
    }
    problem
}

/// Without every date that is there for one reason.
fn without_date(network: &Network, problem: &mut Problem, why: Option<&DateWhy>) {
    let mut whys = network.date_why.iter();
    problem.dates.retain(|_| whys.next() != why);
}

fn done_now(problem: &mut Problem, id: ActivityId) {
    let now = problem.now;
    problem.activities[id.index()].fact = Fact::Done {
        from: now,
        until: now,
    };
    problem.dates.retain(|date| date.activity != id);
    problem.lags.retain(|lag| lag.to != id);
}

/// As if the hold had passed: nothing to put right, set up or wait for.
fn pass_now(network: &Network, problem: &mut Problem, pass: ActivityId) {
    let Work::Pass(hold) = &network.tasks[pass.index()].work else {
        return;
    };
    let keys = [
        hold.to_string(),
        format!("{hold}:set-up"),
        format!("{hold}:put-right"),
    ];
    for id in keys.iter().filter_map(|key| network.find(key)) {
        if network.tasks[id.index()].state != TaskState::Done {
            done_now(problem, id);
        }
    }
}

fn one_more(network: &Network, problem: &mut Problem, wanted: &ResourceWhy) {
    for (resource, why) in problem.resources.iter_mut().zip(&network.resource_why) {
        if why == wanted {
            resource.capacity += 1;
        }
    }
}

fn dry_now(problem: &mut Problem, id: ActivityId) {
    for lag in problem
        .lags
        .iter_mut()
        .filter(|lag| lag.from == id && lag.from_end == End::Finish)
    {
        lag.min = lag.min.map(|min| min.min(0));
        lag.clock = if lag.max.is_none() {
            On::Elapsed
        } else {
            lag.clock
        };
    }
    let activity = &mut problem.activities[id.index()];
    activity.closes.clear();
    activity.still.clear();
}

fn forget_air(network: &Network, problem: &mut Problem, place: &Id) {
    for (index, task) in network.tasks.iter().enumerate() {
        if task.limited_by_air && task.place.as_ref() == Some(place) {
            problem.activities[index].calendar = network.plain_calendar[index];
        }
    }
    let trades: BTreeSet<u32> = network
        .plain_calendar
        .iter()
        .flatten()
        .map(|calendar| calendar.0)
        .collect();
    for lag in &mut problem.lags {
        let here = network.tasks[lag.from.index()].place.as_ref() == Some(place);
        if here && matches!(lag.clock, On::On(calendar) if !trades.contains(&calendar.0)) {
            lag.clock = On::Elapsed;
        }
    }
}
