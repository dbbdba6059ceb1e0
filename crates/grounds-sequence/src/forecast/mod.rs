//! When it will be done, and how sure that is: a plan's policy run over what is uncertain in the job.
//!
//! What is drawn, where from, and what is taken where the job says nothing:
//!
//! | of | from the job | else (common practice) |
//! |---|---|---|
//! | work | a layer's `spread`, its trade's `spread` | 80 % to 150 % of the reckoned time |
//! | a delivery not yet ordered | `lead`, low / likely / high | as certain as the job says |
//! | a delivery promised | up to the share that `lead` may run over, of what is left | 25 %, at least two days; never early |
//! | a delivery overdue | | up to two weeks after the next working day |
//! | a decision | its `expected` day, or its `usual` time | up to a week later; up to twice as long |
//! | a hold that fails | `fails`; `put_right`, `notice`, `stands` again | own check 5 %, test and inspection 10 %; a day to put right |
//! | weather on decks | `weather` | none |
//!
//! Drying times are taken as certain. Works of one trade share their luck (see
//! [`ForecastEffort::alike`]), and so do deliveries of one `supplier`.

mod chances;
mod usual;

use std::num::NonZeroUsize;

use grounds_model::Job;
use grounds_schedule::forecast::{Cause, NoPolicy, Policy, Runs, Seen, Uncertainty, forecast};
use grounds_schedule::{ActivityId, DAY, DateId, LagId, Tick};

use crate::{
    outlook::Outlook,
    task::{TaskState, Work},
};
use chances::Chances;

pub use chances::Doubt;
pub use usual::ALIKE;

/// Points of a curve.
const POINTS: usize = 101;
/// Pieces of work that drive a date, and causes of its spread, as many as are worth reading.
const DRIVERS: usize = 12;
const CAUSES: usize = 5;

/// How many runs to make, and how.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ForecastEffort {
    /// How many runs.
    pub runs: u32,
    /// Where chance begins: the same seed gives the same forecast.
    pub seed: u64,
    /// How many threads share the runs; the result does not depend on it.
    pub threads: NonZeroUsize,
    /// How far works of one trade, and deliveries of one supplier, share their luck: the
    /// correlation of any two, 0 to 1. Where nobody has measured it, 0.3 is an assumption.
    pub alike: f64,
}

impl Default for ForecastEffort {
    fn default() -> Self {
        Self {
            runs: 10_000,
            seed: 1,
            threads: NonZeroUsize::MIN,
            alike: ALIKE,
        }
    }
}

/// What the runs say of the finish and of each milestone to come.
#[derive(Clone, Debug, PartialEq)]
pub struct Forecast {
    /// How many runs were made.
    pub runs: u32,
    /// The last piece of work.
    pub finish: Prospect,
    /// The milestones to come, the first planned first.
    pub milestones: Vec<Prospect>,
    /// Dates that must not be passed, with the share of the runs that pass them.
    pub late: Vec<(DateId, f64)>,
    /// Windows that close before the next work can begin, with the share of the runs.
    pub closed: Vec<(LagId, f64)>,
}

/// What the runs say of one date.
#[derive(Clone, Debug, PartialEq)]
pub struct Prospect {
    /// The milestone; `None` for the last piece of work.
    pub milestone: Option<ActivityId>,
    /// The date in the plan.
    pub planned: Tick,
    /// When it is due, if it is.
    pub due: Option<Tick>,
    /// The date that is kept with even chance.
    pub even: Tick,
    /// The date that is kept four times in five.
    pub four_in_five: Tick,
    /// The date that is kept one time in ten.
    pub one_in_ten: Tick,
    /// The date that is kept nine times in ten.
    pub nine_in_ten: Tick,
    /// The mean date.
    pub mean: f64,
    /// The chance of the planned date or an earlier one, 0 to 1.
    pub on_plan: f64,
    /// The chance of keeping the due date.
    pub by_due: Option<f64>,
    /// How far the four-in-five date moved from the first half of the runs to all of them.
    pub settled: Tick,
    /// The chance of each date or an earlier one, rising; at most 101 points.
    pub curve: Vec<(Tick, f64)>,
    /// Work on the chain that sets the date, with the share of the runs in which it is, the most
    /// frequent first.
    pub drivers: Vec<(ActivityId, f64)>,
    /// The few causes that explain the spread, the heaviest first.
    pub causes: Vec<Spreading>,
}

/// A cause of the spread of a date.
#[derive(Clone, Debug, PartialEq)]
pub struct Spreading {
    /// What it is.
    pub doubt: Doubt,
    /// About the share of the variance that goes with it, 0 to 1.
    pub share: f64,
    /// Days between the fifth of the runs in which it went worst and the fifth in which it went
    /// best; for what seldom happens, between the runs with it and those without.
    pub days: f64,
}

impl Forecast {
    /// Runs the policy of an outlook's plan.
    ///
    /// # Errors
    ///
    /// [`NoPolicy`] where something found no place in the plan.
    pub fn of(outlook: &Outlook, job: &Job, effort: &ForecastEffort) -> Result<Self, NoPolicy> {
        let network = &outlook.network;
        let policy = Policy::of(&network.problem, &outlook.plan)?;
        let chances = Chances::of(network, job, effort.alike);
        let mut milestones: Vec<ActivityId> = network
            .open()
            .filter(|id| {
                let task = &network.tasks[id.index()];
                matches!(task.work, Work::Reach(_)) && task.state == TaskState::ToCome
            })
            .collect();
        milestones.sort_by_key(|id| (outlook.plan.finishes[id.index()], *id));
        let runs = Runs {
            count: effort.runs,
            seed: effort.seed,
            threads: effort.threads,
        };
        let seen = forecast(&policy, &chances.uncertainty, &milestones, &runs);
        let reader = Reader {
            outlook,
            job,
            chances: &chances,
        };
        let share = |count: u32| f64::from(count) / f64::from(seen.runs.max(1));
        let dates = seen.missed_dates.iter();
        let waits = seen.missed_waits.iter();
        Ok(Self {
            runs: seen.runs,
            finish: reader.prospect(None, &seen.finish),
            milestones: milestones
                .iter()
                .zip(&seen.watched)
                .map(|(&id, seen)| reader.prospect(Some(id), seen))
                .collect(),
            late: dates.map(|&(id, count)| (id, share(count))).collect(),
            closed: waits.map(|&(id, count)| (id, share(count))).collect(),
        })
    }
}

/// All that is uncertain about an outlook of a job, as [`Forecast::of`] draws it.
#[must_use]
pub fn uncertainty(outlook: &Outlook, job: &Job, alike: f64) -> Uncertainty {
    Chances::of(&outlook.network, job, alike).uncertainty
}

/// Reads what was seen.
struct Reader<'r> {
    outlook: &'r Outlook,
    job: &'r Job,
    chances: &'r Chances,
}

impl Reader<'_> {
    fn prospect(&self, milestone: Option<ActivityId>, seen: &Seen) -> Prospect {
        let planned = milestone.map_or_else(
            || self.outlook.finish(),
            |id| self.outlook.plan.finishes[id.index()],
        );
        let due = milestone.and_then(|id| self.due(id));
        Prospect {
            milestone,
            planned,
            due,
            even: seen.by(0.5),
            four_in_five: seen.by(0.8),
            one_in_ten: seen.by(0.1),
            nine_in_ten: seen.by(0.9),
            mean: seen.mean(),
            on_plan: seen.chance_by(planned),
            by_due: due.map(|due| seen.chance_by(due)),
            settled: (seen.by(0.8) - seen.by_first_half(0.8)).abs(),
            curve: seen.curve(POINTS),
            drivers: self.drivers(seen),
            causes: self.causes(seen),
        }
    }

    /// The end of the day on which a milestone is due.
    fn due(&self, id: ActivityId) -> Option<Tick> {
        let Work::Reach(key) = &self.outlook.network.tasks[id.index()].work else {
            return None;
        };
        let due = self.job.milestones.get(key)?.due?;
        let clock = &self.outlook.network.clock;
        Some(clock.midnight(due.tomorrow().unwrap_or(due)))
    }

    fn drivers(&self, seen: &Seen) -> Vec<(ActivityId, f64)> {
        let tasks = self.outlook.network.tasks.iter().zip(&seen.drives);
        let mut drivers: Vec<(ActivityId, f64)> = tasks
            .enumerate()
            .filter(|(_, (task, share))| **share > 0.0 && !matches!(task.work, Work::Reach(_)))
            .map(|(i, (_, &share))| (ActivityId::from(i), share))
            .collect();
        drivers.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
        drivers.truncate(DRIVERS);
        drivers
    }

    fn causes(&self, seen: &Seen) -> Vec<Spreading> {
        let doubt = |cause: Cause| match cause {
            Cause::Common(factor) => self.chances.factors.get(factor as usize).cloned(),
            Cause::Source(source) => self.chances.sources.get(source).cloned(),
            Cause::Repeat(repeat) => self.chances.repeats.get(repeat).cloned(),
            Cause::Weather => Some(Doubt::Weather),
        };
        seen.causes
            .iter()
            .filter_map(|weight| {
                Some(Spreading {
                    doubt: doubt(weight.cause)?,
                    share: weight.share,
                    days: weight.swing / f64::from(DAY),
                })
            })
            .take(CAUSES)
            .collect()
    }
}
