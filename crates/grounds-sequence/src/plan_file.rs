//! A plan as a file: what every piece of work is, when it starts and ends, and why.

use grounds_model::Job;
use grounds_schedule::{Breach, Plan, Tick, verify};
use jiff::{Timestamp, ZonedDateTime};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{network::Network, outlook::Outlook, task::TaskState, words::Words};

/// A plan of a job as it stood at a moment.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PlanFile {
    /// The job's name.
    pub job: String,
    /// The moment that the plan was made for.
    #[schemars(with = "String", extend("format" = "date-time"))]
    pub at: Timestamp,
    /// When the last work ends, RFC 3339 with the job's offset.
    pub finish: String,
    /// The work, by start.
    pub work: Vec<PlannedWork>,
}

/// One piece of work in a plan file.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PlannedWork {
    /// Its key.
    pub id: String,
    /// `layer`, `measure`, `arrive`, `set`, `set-up`, `put-right`, `hold`, `decision`,
    /// `milestone` or `shut`.
    pub kind: String,
    /// What it is, in words.
    pub name: String,
    /// The place's key.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<String>,
    /// The face's key in its place.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub face: Option<String>,
    /// The layer's key in its build-up.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub layer: Option<String>,
    /// The piece's key.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub piece: Option<String>,
    /// The trade's key.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub trade: Option<String>,
    /// `to-come`, `in-hand` or `done`.
    pub state: String,
    /// Start, RFC 3339 with the job's offset.
    pub start: String,
    /// Finish, RFC 3339 with the job's offset.
    pub finish: String,
    /// Why it does not start sooner.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub reasons: Vec<String>,
}

/// Why a plan file cannot be checked.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PlanFileError {
    /// A time cannot be read, or is not on a quarter of an hour.
    #[error(
        "{id}: {text:?} is no time on a quarter of an hour; write one like 2027-06-14T08:00:00+01:00"
    )]
    Time {
        /// Whose time.
        id: String,
        /// The text.
        text: String,
    },
    /// The plan has the same work twice.
    #[error("the plan has {0} twice; keep one of the two")]
    Twice(String),
    /// The plan leaves out work that the job has.
    #[error("the plan leaves out {0}; was it made for this job as it stood then?")]
    Missing(String),
    /// The plan has work that the job does not.
    #[error("the plan has {0}, which the job does not; was it made for this job as it stood then?")]
    Unknown(String),
}

impl PlanFile {
    /// The plan of an outlook, as a file.
    #[must_use]
    pub fn of(outlook: &Outlook, job: &Job) -> Self {
        let network = &outlook.network;
        let words = Words::new(outlook, job);
        let mut ids: Vec<_> = (0..network.tasks.len())
            .map(grounds_schedule::ActivityId::from)
            .collect();
        ids.sort_by_key(|id| (outlook.plan.starts[id.index()], *id));
        let work = ids
            .into_iter()
            .map(|id| {
                let task = &network.tasks[id.index()];
                PlannedWork {
                    id: task.key.clone(),
                    kind: task.work.kind().to_owned(),
                    name: words.task(id),
                    place: task.place.as_ref().map(ToString::to_string),
                    face: task.face.as_ref().map(ToString::to_string),
                    layer: task.work.layer().map(ToString::to_string),
                    piece: task.work.piece().map(ToString::to_string),
                    trade: task.trade.as_ref().map(ToString::to_string),
                    state: state_word(task.state).to_owned(),
                    start: written(&network.clock.zoned(outlook.plan.starts[id.index()])),
                    finish: written(&network.clock.zoned(outlook.plan.finishes[id.index()])),
                    reasons: match task.state {
                        TaskState::Done => Vec::new(),
                        _ => words.reasons(id),
                    },
                }
            })
            .collect();
        Self {
            job: job.job.name.clone(),
            at: network.now,
            finish: written(&network.clock.zoned(outlook.finish())),
            work,
        }
    }

    /// Proves that the plan obeys a network, or lists every way in which it does not.
    ///
    /// # Errors
    /// When the plan speaks of other work than the network, or a time cannot be read.
    pub fn verify(&self, network: &Network) -> Result<Vec<Breach>, PlanFileError> {
        Ok(verify(&network.problem, &self.plan(network)?))
    }

    /// The starts and finishes in the order of a network, for words about this very plan.
    ///
    /// # Errors
    /// When the plan speaks of other work than the network, or a time cannot be read.
    pub fn plan(&self, network: &Network) -> Result<Plan, PlanFileError> {
        let count = network.tasks.len();
        let mut starts = vec![None; count];
        let mut finishes = vec![None; count];
        for work in &self.work {
            let id = network
                .find(&work.id)
                .ok_or_else(|| PlanFileError::Unknown(work.id.clone()))?;
            if starts[id.index()].is_some() {
                return Err(PlanFileError::Twice(work.id.clone()));
            }
            starts[id.index()] = Some(tick(network, &work.id, &work.start)?);
            finishes[id.index()] = Some(tick(network, &work.id, &work.finish)?);
        }
        let all = |ticks: Vec<Option<i32>>| {
            ticks
                .into_iter()
                .enumerate()
                .map(|(i, t)| t.ok_or_else(|| PlanFileError::Missing(network.tasks[i].key.clone())))
                .collect::<Result<Vec<_>, _>>()
        };
        Ok(Plan {
            starts: all(starts)?,
            finishes: all(finishes)?,
        })
    }
}

/// RFC 3339 with the offset in force: `2027-06-14T08:00:00+01:00`.
fn written(zoned: &ZonedDateTime) -> String {
    zoned.strftime("%Y-%m-%dT%H:%M:%S%:z").to_string()
}

/// The tick of a written time; a time off the quarter-hour is no time of a plan.
fn tick(network: &Network, id: &str, text: &str) -> Result<Tick, PlanFileError> {
    let wrong = || PlanFileError::Time {
        id: id.to_owned(),
        text: text.to_owned(),
    };
    let at: Timestamp = text.parse().map_err(|_| wrong())?;
    let tick = network.clock.floor(at);
    if network.clock.timestamp(tick) == at {
        Ok(tick)
    } else {
        Err(wrong())
    }
}

fn state_word(state: TaskState) -> &'static str {
    match state {
        TaskState::ToCome => "to-come",
        TaskState::InHand => "in-hand",
        TaskState::Done => "done",
    }
}
