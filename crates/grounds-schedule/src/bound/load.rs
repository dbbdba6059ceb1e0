//! What a crew or a room cannot do faster: after the head of some work, all of that work on the hours
//! of those who do it, then the least that must follow.
//!
//! For every resource and every pair of a head and a tail, the work that begins no sooner and
//! ends no later than those must fit in between. With one crew and no calendars this is the bound of
//! the preemptive one-machine schedule (Jackson 1955; Carlier 1982); with more crews, the energy of task
//! intervals (Baptiste, Le Pape and Nuijten 2001). A night counts for nobody: only ticks that
//! some user of the resource works are counted, and each user holds the resource for at least as many of
//! those as it has work.

use crate::calendar::{Calendar, Shift};
use crate::problem::{Fact, Tick};
use crate::search::clock::NEVER;
use crate::search::compiled::Compiled;
use crate::search::passes::{Forward, backward_to};

/// Work that does not fit, if all is to end by some moment.
#[derive(Clone, Debug)]
pub(super) struct Overload {
    pub(super) resource: usize,
    /// The work, by earliest start.
    pub(super) who: Vec<usize>,
    /// Its earliest start.
    pub(super) head: Tick,
    /// Its ticks of work, times what it uses.
    pub(super) ticks: i64,
    /// No sooner is all of it done.
    pub(super) done_by: Tick,
}

/// Open work of a resource.
struct Task {
    who: usize,
    early: Tick,
    ticks: i64,
    /// Countable ticks before its earliest start.
    before: i64,
}

/// All that uses one resource.
struct Load {
    resource: usize,
    capacity: i64,
    /// When somebody works; `None` when somebody always does.
    hours: Option<Calendar>,
    /// By earliest start, the latest first.
    tasks: Vec<Task>,
}

/// All that is limited.
pub(super) struct Loads {
    loads: Vec<Load>,
}

impl Load {
    fn worked_by(&self, t: Tick) -> i64 {
        match &self.hours {
            None => i64::from(t),
            Some(hours) => i64::from(hours.worked_by(t)),
        }
    }

    /// The first moment by which so many countable ticks have passed.
    fn reaches(&self, count: i64) -> Tick {
        let count = Tick::try_from(count).unwrap_or(NEVER);
        match &self.hours {
            None => count,
            Some(hours) => hours.end_of(count).unwrap_or(NEVER),
        }
    }
}

impl Loads {
    /// Collects what uses each resource; hours are looked at until `until` only.
    pub(super) fn new(c: &Compiled, early: &Forward, until: Tick) -> Self {
        let mut users: Vec<Vec<(usize, u32)>> = vec![Vec::new(); c.problem.resources.len()];
        for (i, activity) in c.problem.activities.iter().enumerate() {
            let open = activity.fact == Fact::Open && c.work[i].work > 0;
            if open && early.starts[i] <= c.problem.horizon {
                for wanted in &activity.uses {
                    users[wanted.resource.index()].push((i, wanted.amount));
                }
            }
        }
        let loads = users
            .iter()
            .enumerate()
            .filter(|(_, users)| users.len() > 1);
        Self {
            loads: loads
                .map(|(resource, users)| load(c, early, resource, users, until))
                .collect(),
        }
    }

    /// Some work that does not fit if each activity must have ended by its `latest` moment: of
    /// all that, the one that misses by most.
    pub(super) fn overload(&self, early: &Forward, latest: &[Tick]) -> Option<Overload> {
        let mut worst: Option<(i64, Overload)> = None;
        for load in &self.loads {
            let Some((short, first, due)) = load.shortest(latest) else {
                continue;
            };
            if worst.as_ref().is_none_or(|(most, _)| short > *most) {
                worst = Some((short, load.named(early, latest, first, due)));
            }
        }
        worst.map(|(_, overload)| overload)
    }
}

impl Load {
    /// The largest shortfall of any task interval: how much, the position of the task that begins it, and
    /// its end.
    fn shortest(&self, latest: &[Tick]) -> Option<(i64, usize, Tick)> {
        let mut worst: Option<(i64, usize, Tick)> = None;
        let mut dues: Vec<Tick> = self.tasks.iter().map(|t| latest[t.who]).collect();
        let each = dues.clone();
        dues.sort_unstable();
        dues.dedup();
        for &due in &dues {
            let until = self.worked_by(due);
            let mut ticks = 0;
            for (k, task) in self.tasks.iter().enumerate() {
                if each[k] > due {
                    continue;
                }
                ticks += task.ticks;
                let short = ticks - self.capacity * (until - task.before).max(0);
                if short > 0 && worst.is_none_or(|(most, _, _)| short > most) {
                    worst = Some((short, k, due));
                }
            }
        }
        worst
    }

    fn named(&self, early: &Forward, latest: &[Tick], first: usize, due: Tick) -> Overload {
        let within = self.tasks[..=first].iter().filter(|t| latest[t.who] <= due);
        let ticks: i64 = within.clone().map(|t| t.ticks).sum();
        let needed = (ticks + self.capacity - 1) / self.capacity;
        let mut who: Vec<usize> = within.map(|t| t.who).collect();
        who.sort_by_key(|&i| (early.starts[i], i));
        Overload {
            resource: self.resource,
            who,
            head: self.tasks[first].early,
            ticks,
            done_by: self.reaches(self.tasks[first].before + needed),
        }
    }
}

fn load(
    c: &Compiled,
    early: &Forward,
    resource: usize,
    users: &[(usize, u32)],
    until: Tick,
) -> Load {
    let mut load = Load {
        resource,
        capacity: i64::from(c.problem.resources[resource].capacity.max(1)),
        hours: together(c, users, until),
        tasks: Vec::with_capacity(users.len()),
    };
    for &(who, amount) in users {
        let early = early.starts[who];
        let ticks = i64::from(c.work[who].work) * i64::from(amount);
        let before = load.worked_by(early);
        load.tasks.push(Task {
            who,
            early,
            ticks,
            before,
        });
    }
    load.tasks
        .sort_by_key(|t| (std::cmp::Reverse(t.early), t.who));
    load
}

/// The hours in which any of the users works; `None` when one of them works around the clock.
fn together(c: &Compiled, users: &[(usize, u32)], until: Tick) -> Option<Calendar> {
    let mut calendars = Vec::new();
    for &(who, _) in users {
        calendars.push(c.problem.activities[who].calendar?);
    }
    calendars.sort_unstable();
    calendars.dedup();
    if let [only] = calendars[..] {
        return Some(c.problem.calendars[only.index()].clone());
    }
    let calendars = calendars.iter().map(|id| &c.problem.calendars[id.index()]);
    let mut stretches: Vec<(Tick, Tick)> = calendars
        .flat_map(|hours| hours.stretches_within(c.problem.now, until))
        .collect();
    stretches.sort_unstable();
    let mut joined: Vec<(Tick, Tick)> = Vec::with_capacity(stretches.len());
    for (from, end) in stretches {
        match joined.last_mut() {
            Some(last) if from <= last.1 => last.1 = last.1.max(end),
            _ => joined.push((from, end)),
        }
    }
    let shift = |(from, end)| Shift::plain(from, end);
    Some(Calendar::new(joined.into_iter().map(shift).collect()))
}

/// The latest ends that still let all be done by `target`; [`NEVER`] for what is not open.
pub(super) fn latest_ends(c: &Compiled, early: &Forward, target: Tick) -> Vec<Tick> {
    let mut ends = backward_to(c, target, &early.hopeless);
    for (i, end) in ends.iter_mut().enumerate() {
        *end = match c.open[i] {
            true => c.work[i].finish(*end),
            false => NEVER,
        };
    }
    ends
}
