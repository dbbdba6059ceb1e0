//! A plain problem as arrays.

use crate::problem::{Activity, Clock, End, Fact, Lag, Problem, Side, Tick};

/// A wait from start to start: `to` begins at least `ticks` after `from` does. A negative length is a
/// longest wait the other way.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Wait {
    /// The activity that is counted from.
    pub from: u32,
    /// The activity that waits.
    pub to: u32,
    /// Ticks from start to start.
    pub ticks: Tick,
}

/// A problem in which every hour is a working hour, nothing is shut and no air needs to be still. Its
/// cost is its last finish alone.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Core {
    /// Ticks that each activity takes.
    pub durations: Vec<Tick>,
    /// All waits, from start to start; of two alike from and to, the longer alone.
    pub waits: Vec<Wait>,
    /// How much each activity uses of each resource: one row of [`Core::resources`] an activity. What
    /// takes no time uses nothing.
    pub demands: Vec<u32>,
    /// How much there is of each resource.
    pub capacities: Vec<u32>,
    /// No activity may start before this.
    pub earliest: Vec<Tick>,
    /// No activity may start after this.
    pub latest: Vec<Tick>,
}

impl Core {
    /// The arrays of a problem that has no fault, if it is a plain one; `None` for any other. Starts
    /// that are good for the one are good for the other.
    #[must_use]
    pub fn of(problem: &Problem) -> Option<Self> {
        let free = problem.dues.is_empty()
            && problem.promises.is_empty()
            && problem.resources.iter().all(|r| r.return_cents == 0);
        if !free || !problem.activities.iter().all(is_plain) {
            return None;
        }
        let durations: Vec<Tick> = problem.activities.iter().map(|a| a.work).collect();
        let mut waits = Vec::with_capacity(problem.lags.len());
        for lag in &problem.lags {
            if lag.clock != Clock::Elapsed {
                return None;
            }
            waits.extend(waits_of(lag, &durations));
        }
        let resources = problem.resources.len();
        let mut demands = vec![0; problem.activities.len() * resources];
        for (i, activity) in problem
            .activities
            .iter()
            .enumerate()
            .filter(|(_, a)| a.work > 0)
        {
            for wanted in &activity.uses {
                demands[i * resources + wanted.resource.index()] = wanted.amount;
            }
        }
        let (earliest, latest) = windows(problem);
        Some(Self {
            waits: longest_of_each(waits),
            durations,
            demands,
            capacities: problem.resources.iter().map(|r| r.capacity).collect(),
            earliest,
            latest,
        })
    }

    /// Number of activities.
    #[must_use]
    pub fn count(&self) -> usize {
        self.durations.len()
    }

    /// Number of resources.
    #[must_use]
    pub fn resources(&self) -> usize {
        self.capacities.len()
    }

    /// What an activity uses: one amount a resource.
    #[must_use]
    pub fn demand(&self, activity: usize) -> &[u32] {
        let resources = self.resources();
        &self.demands[activity * resources..(activity + 1) * resources]
    }

    /// The last finish of a plan.
    #[must_use]
    pub fn finish(&self, starts: &[Tick]) -> Tick {
        let ends = starts
            .iter()
            .zip(&self.durations)
            .map(|(start, work)| start + work);
        ends.max().unwrap_or(0)
    }
}

fn is_plain(activity: &Activity) -> bool {
    activity.calendar.is_none()
        && activity.at.is_none()
        && activity.closes.is_empty()
        && activity.still.is_empty()
        && activity.dusty.is_none()
        && activity.fragile_cents == 0
        && activity.fact == Fact::Open
}

fn waits_of(lag: &Lag, durations: &[Tick]) -> impl Iterator<Item = Wait> {
    let (from, to) = (lag.from.0, lag.to.0);
    let past_start = |activity: u32, end| match end {
        End::Start => 0,
        End::Finish => durations[activity as usize],
    };
    let shift = past_start(from, lag.from_end) - past_start(to, lag.to_end);
    let least = lag.min.map(|min| Wait {
        from,
        to,
        ticks: shift + min,
    });
    let longest = lag.max.map(|max| Wait {
        from: to,
        to: from,
        ticks: -(shift + max),
    });
    least.into_iter().chain(longest)
}

fn longest_of_each(mut waits: Vec<Wait>) -> Vec<Wait> {
    waits.sort_unstable_by_key(|wait| (wait.from, wait.to, -wait.ticks));
    waits.dedup_by_key(|wait| (wait.from, wait.to));
    waits
}

/// First and last starts by now, the horizon and the dates.
fn windows(problem: &Problem) -> (Vec<Tick>, Vec<Tick>) {
    let mut earliest = vec![problem.now; problem.activities.len()];
    let works = problem.activities.iter().map(|a| a.work);
    let mut latest: Vec<Tick> = works.map(|work| problem.horizon - work).collect();
    for date in &problem.dates {
        let i = date.activity.index();
        let start = match date.end {
            End::Start => date.at,
            End::Finish => date.at - problem.activities[i].work,
        };
        match date.side {
            Side::NotBefore => earliest[i] = earliest[i].max(start),
            Side::NotAfter => latest[i] = latest[i].min(start),
        }
    }
    (earliest, latest)
}

#[cfg(test)]
mod tests {
    use super::{Core, Wait};
    use crate::problem::{Activity, ActivityId, Clock, End, Lag, Problem};

    #[test]
    fn waits_between_any_two_ends_become_waits_from_start_to_start() {
        // The usual table of generalised precedence: FS l is d + l, FF l is d − d' + l; a longest wait
        // is the negative the other way.
        let job = |work| Activity {
            work,
            ..Activity::default()
        };
        let lag = |from_end, to_end, min, max| Lag {
            from: ActivityId(0),
            from_end,
            to: ActivityId(1),
            to_end,
            min,
            max,
            clock: Clock::Elapsed,
        };
        let with = |lag| Problem {
            horizon: 100,
            activities: vec![job(4), job(6)],
            lags: vec![lag],
            ..Problem::default()
        };
        let waits = |lag| Core::of(&with(lag)).map(|core| core.waits);
        let wait = |from, to, ticks| Wait { from, to, ticks };
        assert_eq!(
            waits(lag(End::Finish, End::Start, Some(3), Some(5))),
            Some(vec![wait(0, 1, 7), wait(1, 0, -9)])
        );
        assert_eq!(
            waits(lag(End::Finish, End::Finish, Some(1), None)),
            Some(vec![wait(0, 1, -1)])
        );
    }
}
