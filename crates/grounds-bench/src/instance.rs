//! A published instance as a problem of the scheduler.

use grounds_schedule::{
    Activity, ActivityId, Clock, DAY, End, Lag, MOST, Problem, Resource, ResourceId, Tick, Use,
};

use crate::rows::{ReadError, Row};

/// A problem whose makespan is asked for.
#[derive(Clone, Debug)]
pub struct Instance {
    /// The jobs in the order of the file, the source and the sink among them, and [`Self::end`].
    pub problem: Problem,
    /// A moment after the finish of every job. It is added to what the file has, because in files
    /// with time lags the sink need not be last; so the makespan is its start.
    pub end: ActivityId,
}

/// The jobs and waits of a file, as they are read.
#[derive(Debug, Default)]
pub(crate) struct Draft {
    pub(crate) activities: Vec<Activity>,
    pub(crate) lags: Vec<Lag>,
    /// The sum of all durations and least waits: some best plan ends by then if any plan does.
    horizon: Tick,
}

impl Draft {
    /// Adds a job: how long it takes and how much of each resource it needs.
    pub(crate) fn job(&mut self, duration: Tick, demands: &[u32]) {
        let needed = demands
            .iter()
            .enumerate()
            .filter(|(_, amount)| **amount > 0);
        let uses = needed.map(|(resource, &amount)| Use {
            resource: ResourceId::from(resource),
            amount,
        });
        self.horizon = self.horizon.saturating_add(duration);
        self.activities.push(Activity {
            work: duration,
            uses: uses.collect(),
            ..Activity::default()
        });
    }

    /// Adds a job that needs the whole of one resource, of which there is one; its place in the order
    /// of jobs.
    pub(crate) fn job_on(&mut self, machine: usize, duration: Tick) -> usize {
        self.horizon = self.horizon.saturating_add(duration);
        self.activities.push(Activity {
            work: duration,
            uses: vec![Use {
                resource: ResourceId::from(machine),
                amount: 1,
            }],
            ..Activity::default()
        });
        self.activities.len() - 1
    }

    /// `to` starts when `from` has finished, or later.
    pub(crate) fn after(&mut self, from: usize, to: usize) {
        let free = waits(from, to);
        self.lags.push(Lag {
            from_end: End::Finish,
            min: Some(0),
            ..free
        });
    }

    /// `to` starts at least `weight` periods after the start of `from`. A negative weight is a longest
    /// wait the other way: `from` starts at most so much after `to`.
    pub(crate) fn apart(&mut self, from: usize, to: usize, weight: Tick) {
        if weight < 0 {
            self.lags.push(Lag {
                max: Some(weight.saturating_neg()),
                ..waits(to, from)
            });
            return;
        }
        self.horizon = self.horizon.saturating_add(weight);
        self.lags.push(Lag {
            min: Some(weight),
            ..waits(from, to)
        });
    }

    /// Checks that the time asked for so far is time that the scheduler can count.
    pub(crate) fn fits(&self, row: Row) -> Result<(), ReadError> {
        if self.horizon <= MOST {
            return Ok(());
        }
        Err(row.error(format!("all times together exceed {MOST} periods")))
    }

    /// The whole problem. Its cost is its makespan: a day of [`DAY`] ticks costs as many cents.
    pub(crate) fn into_instance(mut self, capacities: &[u32]) -> Instance {
        let end = self.activities.len();
        self.activities.push(Activity::default());
        (0..end).for_each(|job| self.after(job, end));
        let resources = capacities.iter().map(|&capacity| Resource {
            capacity,
            return_cents: 0,
            visit_gap: 0,
        });
        Instance {
            problem: Problem {
                horizon: self.horizon,
                resources: resources.collect(),
                activities: self.activities,
                lags: self.lags,
                day_cents: i64::from(DAY),
                ..Problem::default()
            },
            end: ActivityId::from(end),
        }
    }
}

/// A wait from start to start that asks nothing yet.
fn waits(from: usize, to: usize) -> Lag {
    Lag {
        from: ActivityId::from(from),
        from_end: End::Start,
        to: ActivityId::from(to),
        to_end: End::Start,
        min: None,
        max: None,
        clock: Clock::Elapsed,
    }
}
