//! The network: a job and its site as a scheduling problem, with the meaning of every part kept.

mod builder;
mod dates;
mod drying;
mod facts;
mod holds;
mod layers;
mod links;
mod looks;
mod order;
mod pieces;

use std::collections::BTreeMap;

use grounds_model::{Id, Job};
use grounds_schedule::{
    Activity, ActivityId, CalendarId, DateId, LagId, NodeId, Problem, ResourceId, Tick,
};
use grounds_site::Site;
use jiff::Timestamp;

use crate::{
    clock::Clock,
    held::HeldUp,
    task::{DateWhy, LagWhy, ResourceWhy, Task, TaskState},
    ways::Ways,
};
use builder::Builder;
pub(crate) use drying::Drying;
pub use looks::{LookPart, look_for_piece, look_parts};

/// Why no network can be made of a job.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NetworkError {
    /// The time zone is not known.
    #[error("the time zone {0:?} is not known: write an IANA name such as Europe/London")]
    Zone(String),
    /// A calendar is named that the job does not describe.
    #[error("no calendar {0:?} is described: add [calendars.{0}]")]
    Calendar(String),
}

/// A scheduling problem whose every activity, lag, date and resource still knows what it stands
/// for in the house.
#[derive(Clone, Debug)]
pub struct Network {
    /// The problem to solve.
    pub problem: Problem,
    /// What each activity is, in the order of `problem.activities`.
    pub tasks: Vec<Task>,
    /// Why each lag is there, in the order of `problem.lags`.
    pub lag_why: Vec<LagWhy>,
    /// Why each date is there, in the order of `problem.dates`.
    pub date_why: Vec<DateWhy>,
    /// What each resource is, in the order of `problem.resources`.
    pub resource_why: Vec<ResourceWhy>,
    /// Between ticks and wall-clock time.
    pub clock: Clock,
    /// The moment that the network speaks of.
    pub now: Timestamp,
    /// What must be settled before some of the work goes on.
    pub held: Vec<HeldUp>,
    pub(crate) ways: Ways,
    /// The plain calendar of each task's trade, before air limits cut it.
    pub(crate) plain_calendar: Vec<Option<CalendarId>>,
    pub(crate) job_calendar: CalendarId,
    /// What calendars stand for on which drying is counted.
    drying: BTreeMap<CalendarId, Drying>,
    by_key: BTreeMap<String, ActivityId>,
}

impl Network {
    /// Makes the network of a job as it stands.
    ///
    /// `site` is the fold of the job's notes; its moment is the network's *now*. `held` is what must be
    /// settled before some of the work goes on, each under a key of its own.
    ///
    /// # Errors
    /// When the time zone or the job's calendar is not known; a job that was read without fault
    /// has both.
    pub fn build(job: &Job, site: &Site, held: &[HeldUp]) -> Result<Self, NetworkError> {
        Ok(Builder::new(job, site, held)?.build())
    }

    /// The task of an activity.
    #[must_use]
    pub fn task(&self, id: ActivityId) -> Option<&Task> {
        self.tasks.get(id.index())
    }

    /// The activity of a task's key.
    #[must_use]
    pub fn find(&self, key: &str) -> Option<ActivityId> {
        self.by_key.get(key).copied()
    }

    /// What a calendar stands for, if drying is counted on it.
    pub(crate) fn drying(&self, id: CalendarId) -> Option<&Drying> {
        self.drying.get(&id)
    }

    /// Why a lag is there.
    #[must_use]
    pub fn lag_why(&self, id: LagId) -> Option<&LagWhy> {
        self.lag_why.get(id.index())
    }

    /// Why a date is there.
    #[must_use]
    pub fn date_why(&self, id: DateId) -> Option<&DateWhy> {
        self.date_why.get(id.index())
    }

    /// What a resource is.
    #[must_use]
    pub fn resource_why(&self, id: ResourceId) -> Option<&ResourceWhy> {
        self.resource_why.get(id.index())
    }

    /// The place or passage of a node.
    #[must_use]
    pub fn node_name(&self, node: NodeId) -> Option<&Id> {
        self.ways.name(node)
    }

    /// The node of a place or passage.
    #[must_use]
    pub fn node(&self, id: &Id) -> Option<NodeId> {
        self.ways.node(id)
    }

    /// Places and passages that nobody can reach while `shut` is closed, `shut` itself among them.
    #[must_use]
    pub fn cut_off_by(&self, shut: NodeId) -> Vec<&Id> {
        self.ways
            .cut_off_by(shut)
            .into_iter()
            .filter_map(|node| self.ways.name(node))
            .collect()
    }

    /// Adds work that the job and its notes do not speak of, under a key of its own. `plain` is the
    /// trade's calendar.
    pub(crate) fn add(
        &mut self,
        activity: Activity,
        task: Task,
        plain: Option<CalendarId>,
    ) -> ActivityId {
        let id = ActivityId::from(self.tasks.len());
        self.by_key.insert(task.key.clone(), id);
        self.problem.activities.push(activity);
        self.tasks.push(task);
        self.plain_calendar.push(plain);
        id
    }

    /// The present, in ticks.
    #[must_use]
    pub fn now_tick(&self) -> Tick {
        self.problem.now
    }

    /// Activities that are not over yet, in order.
    pub fn open(&self) -> impl Iterator<Item = ActivityId> + '_ {
        (0..self.tasks.len())
            .filter(|&i| self.tasks[i].state != TaskState::Done)
            .map(ActivityId::from)
    }
}
