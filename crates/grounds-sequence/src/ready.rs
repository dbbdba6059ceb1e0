//! What can start now: judged by facts alone, whatever the plan chose.

use grounds_schedule::{
    Activity, ActivityId, Clock as On, Date, End, Fact, Moment, NodeId, Problem, Side, Tick, Tread,
};

use crate::{
    network::Network,
    task::{TaskState, Work},
};

/// For each task, the moment at which it could start on the day that is worked next, if facts
/// allow: what it waits for is done and dry, its crew is free, there is room, a way in and still
/// air.
pub(crate) fn startable(network: &Network) -> Vec<Option<Tick>> {
    let facts = Facts::of(network);
    (0..network.tasks.len())
        .map(|index| facts.start_of(ActivityId::from(index)))
        .collect()
}

/// What is known to be going on.
struct Facts<'a> {
    network: &'a Network,
    problem: &'a Problem,
    /// The end of the day that is worked next.
    day_end: Tick,
    /// What work in hand uses of each resource.
    in_use: Vec<u32>,
    lags_to: Vec<Vec<usize>>,
    dates_of: Vec<Vec<Date>>,
    /// Stretches in which a node is shut, for whom, and on which surface's account.
    shut: Vec<(NodeId, Tick, Tick, Tread, ActivityId)>,
}

impl<'a> Facts<'a> {
    fn of(network: &'a Network) -> Self {
        let problem = &network.problem;
        let mut in_use = vec![0; problem.resources.len()];
        let mut shut = Vec::new();
        for (index, activity) in problem.activities.iter().enumerate() {
            if matches!(activity.fact, Fact::Begun { .. }) {
                for used in &activity.uses {
                    in_use[used.resource.index()] += used.amount;
                }
            }
            for closure in &activity.closes {
                let Some((start, finish)) = known_ends(problem, activity) else {
                    continue;
                };
                let from = moment(problem, closure.from, start, finish);
                let until = moment(problem, closure.until, start, finish);
                shut.push((
                    closure.node,
                    from,
                    until,
                    closure.bars,
                    ActivityId::from(index),
                ));
            }
        }
        let mut lags_to = vec![Vec::new(); problem.activities.len()];
        for (index, lag) in problem.lags.iter().enumerate() {
            lags_to[lag.to.index()].push(index);
        }
        let mut dates_of = vec![Vec::new(); problem.activities.len()];
        for date in &problem.dates {
            dates_of[date.activity.index()].push(*date);
        }
        Self {
            network,
            problem,
            day_end: end_of_next_day(network),
            in_use,
            lags_to,
            dates_of,
            shut,
        }
    }

    fn start_of(&self, id: ActivityId) -> Option<Tick> {
        let task = &self.network.tasks[id.index()];
        let startable = !matches!(task.work, Work::Arrive(_) | Work::Reach(_) | Work::Shut(_));
        if task.state != TaskState::ToCome || !startable {
            return None;
        }
        let activity = &self.problem.activities[id.index()];
        let earliest = self
            .after_lags(id)?
            .max(self.after_dates(id))
            .max(self.problem.now);
        let start = match activity.calendar {
            Some(calendar) => {
                let calendar = &self.problem.calendars[calendar.index()];
                let start = calendar.next_working(earliest)?;
                if activity.unbroken && !calendar.fits_shift(start, activity.work) {
                    return None;
                }
                start
            }
            None => earliest,
        };
        let today = start < self.day_end;
        (today
            && self.crews_free(activity)
            && self.way_in(id, activity, start)
            && self.air_free(activity, start))
        .then_some(start)
    }

    /// The latest of the waiting times; `None` while something it waits for is not done.
    fn after_lags(&self, id: ActivityId) -> Option<Tick> {
        let mut earliest = Tick::MIN;
        for &index in &self.lags_to[id.index()] {
            let lag = &self.problem.lags[index];
            let Some(min) = lag.min else { continue };
            let from = &self.problem.activities[lag.from.index()];
            let base = match (from.fact, lag.from_end) {
                (Fact::Done { until, .. }, End::Finish) => until,
                (Fact::Done { from, .. }, End::Start)
                | (Fact::Begun { at: from, .. }, End::Start) => from,
                _ => return None,
            };
            let bound = add(self.problem, lag.clock, base, min)?;
            let work = self.problem.activities[id.index()].work;
            earliest = earliest.max(match lag.to_end {
                End::Start => bound,
                End::Finish => bound - work,
            });
        }
        Some(earliest)
    }

    fn after_dates(&self, id: ActivityId) -> Tick {
        self.dates_of[id.index()]
            .iter()
            .filter(|date| date.side == Side::NotBefore && date.end == End::Start)
            .map(|date| date.at)
            .max()
            .unwrap_or(Tick::MIN)
    }

    fn crews_free(&self, activity: &Activity) -> bool {
        activity.uses.iter().all(|used| {
            let capacity = self.problem.resources[used.resource.index()].capacity;
            self.in_use[used.resource.index()] + used.amount <= capacity
        })
    }

    /// Whether the place can be walked to when work starts.
    fn way_in(&self, id: ActivityId, activity: &Activity, start: Tick) -> bool {
        let access = &self.problem.access;
        let Some(at) = activity.at.filter(|_| !access.entrances.is_empty()) else {
            return true;
        };
        let shut: Vec<NodeId> = self
            .shut
            .iter()
            .filter(|&&(_, from, until, bars, by)| {
                let same = activity.group.is_some()
                    && self.problem.activities[by.index()].group == activity.group;
                from <= start && start < until && activity.tread >= bars && !same && by != id
            })
            .map(|&(node, ..)| node)
            .collect();
        let mut seen = vec![false; access.neighbours.len()];
        let mut open: Vec<NodeId> = access
            .entrances
            .iter()
            .copied()
            .filter(|node| !shut.contains(node))
            .collect();
        while let Some(node) = open.pop() {
            if node == at {
                return true;
            }
            if std::mem::replace(&mut seen[node.index()], true) {
                continue;
            }
            let ways = access.neighbours[node.index()].iter();
            open.extend(ways.copied().filter(|next| !shut.contains(next)));
        }
        false
    }

    /// Whether nobody's still air is disturbed, and nobody disturbs its own.
    fn air_free(&self, activity: &Activity, start: Tick) -> bool {
        self.problem.activities.iter().all(|other| {
            let Some((from, until)) = known_ends(self.problem, other) else {
                return true;
            };
            let disturbs = activity.dusty.is_some_and(|zone| {
                other.still.iter().any(|still| {
                    still.zone == zone
                        && moment(self.problem, still.from, from, until) <= start
                        && start < moment(self.problem, still.until, from, until)
                })
            });
            let in_hand = matches!(other.fact, Fact::Begun { .. });
            let disturbed = in_hand
                && other
                    .dusty
                    .is_some_and(|zone| activity.still.iter().any(|s| s.zone == zone));
            !disturbs && !disturbed
        })
    }
}

/// Start and finish of work that is begun or done; work in hand ends when what is left is done.
fn known_ends(problem: &Problem, activity: &Activity) -> Option<(Tick, Tick)> {
    match activity.fact {
        Fact::Open => None,
        Fact::Done { from, until } => Some((from, until)),
        Fact::Begun { at, left } => {
            let from = problem.now.max(at);
            let clock = activity.calendar.map_or(On::Elapsed, On::On);
            Some((
                at,
                add(problem, clock, from, left).unwrap_or(problem.horizon),
            ))
        }
    }
}

fn moment(problem: &Problem, moment: Moment, start: Tick, finish: Tick) -> Tick {
    let base = match moment.end {
        End::Start => start,
        End::Finish => finish,
    };
    add(problem, moment.clock, base, moment.after).unwrap_or(problem.horizon)
}

/// `length` on a clock after `from`; `None` when the clock never gets there.
pub(crate) fn add(problem: &Problem, clock: On, from: Tick, length: Tick) -> Option<Tick> {
    match clock {
        On::Elapsed => Some(from.saturating_add(length)),
        On::On(calendar) => problem.calendars.get(calendar.index())?.add(from, length),
    }
}

fn end_of_next_day(network: &Network) -> Tick {
    let calendar = &network.problem.calendars[network.job_calendar.index()];
    let next = calendar
        .next_working(network.problem.now)
        .unwrap_or(network.problem.now);
    let day = network.clock.day(next);
    network.clock.midnight(day.tomorrow().unwrap_or(day))
}
