//! A job as it stands at a moment: what pages show.

use std::{
    collections::{BTreeMap, BTreeSet},
    sync::Arc,
};

use grounds_model::{Id, Job, LayerKey};
use grounds_schedule::{ActivityId, Solved, Tick};
use grounds_sequence::{Effort, Known, Network, Outlook, Words, Work};
use grounds_site::{Note, Site, fold};
use jiff::{Timestamp, tz::TimeZone};
use uuid::Uuid;

use crate::{broken::broken, fit::Fit, rules::Rules, study::AGAIN};

/// A job as it stands at a moment, with its plan. Never changed: the next one takes its place.
#[derive(Clone, Debug)]
pub(crate) struct Picture {
    /// What is designed.
    pub(crate) job: Arc<Job>,
    /// What was seen, in the order of arrival.
    pub(crate) notes: Arc<Vec<Note>>,
    /// What is true.
    pub(crate) site: Site,
    /// What is planned.
    pub(crate) outlook: Outlook,
    /// The work that each layer of each face belongs to.
    pub(crate) layer_tasks: BTreeMap<LayerKey, ActivityId>,
    /// The work that drives the finish.
    pub(crate) drives: BTreeSet<ActivityId>,
    /// The work that could not be placed without breaking a rule.
    pub(crate) broken: BTreeSet<ActivityId>,
    /// How it fits.
    pub(crate) fit: Arc<Fit>,
    /// What rules say of it.
    pub(crate) rules: Arc<Rules>,
    /// What the latest notes changed.
    pub(crate) since: Option<Arc<Since>>,
    /// The time on site when the last note was safe on the disk.
    pub(crate) saved: Timestamp,
    /// Counts the pictures of a desk, so that a page can tell that it is no longer the latest.
    pub(crate) edition: u64,
}

/// What stood before the latest notes.
#[derive(Debug)]
pub(crate) struct Since {
    /// The notes.
    pub(crate) notes: BTreeSet<Uuid>,
    /// How it fitted before them.
    pub(crate) fit: Arc<Fit>,
    /// When the last finish and each milestone were reached before them.
    pub(crate) dates: BTreeMap<Option<Id>, Tick>,
}

impl Since {
    /// What lies between a picture and later notes; what lay before it where there are none.
    pub(crate) fn between(before: &Picture, notes: &[Note]) -> Option<Arc<Self>> {
        let known: BTreeSet<Uuid> = before.notes.iter().map(|note| note.id).collect();
        let ids = notes.iter().map(|note| note.id);
        let new: BTreeSet<Uuid> = ids.filter(|id| !known.contains(id)).collect();
        if new.is_empty() {
            return before.since.clone();
        }
        Some(Arc::new(Self {
            notes: new,
            fit: before.fit.clone(),
            dates: before.dates(),
        }))
    }
}

impl Picture {
    /// Plans a job as it stands. `known` is what people know of the plan before.
    ///
    /// # Errors
    /// A sentence that says why there can be no plan.
    pub(crate) fn make(
        job: Arc<Job>,
        notes: Arc<Vec<Note>>,
        now: Timestamp,
        known: Option<&Known>,
    ) -> Result<Self, String> {
        let site = fold(&job, &notes, now);
        let held = grounds_settle::held_up(&job, &site);
        let network = Network::build(&job, &site, &held).map_err(|error| error.to_string())?;
        let effort = match known {
            Some(_) => Effort::AFTER_A_CHANGE,
            None => Effort::default(),
        };
        let outlook = Outlook::plan(network, effort, known)
            .map_err(|fault| format!("The job cannot be planned: {fault}"))?;
        let layer_tasks = layer_tasks(&outlook.network);
        let fit = Arc::new(Fit::of(&job, &site));
        let rules = Arc::new(Rules::of(&job, &site, &outlook, &fit));
        let (drives, broken) = (outlook.driving(), broken(&outlook));
        Ok(Self {
            job,
            notes,
            site,
            outlook,
            layer_tasks,
            drives,
            broken,
            fit,
            rules,
            since: None,
            saved: now,
            edition: 0,
        })
    }

    /// The same job at the same moment, with a plan that was found since, for people who know some plan.
    ///
    /// # Errors
    /// A sentence that says why there can be no plan.
    pub(crate) fn with(&self, solved: Solved, known: Option<&Known>) -> Result<Self, String> {
        Outlook::of(self.outlook.network.clone(), solved, known)
            .map(|outlook| self.showing(outlook))
            .map_err(|fault| format!("The job cannot be planned: {fault}"))
    }

    fn showing(&self, outlook: Outlook) -> Self {
        let (drives, broken) = (outlook.driving(), broken(&outlook));
        let rules = Rules::of(&self.job, &self.site, &outlook, &self.fit);
        Self {
            outlook,
            drives,
            broken,
            rules: Arc::new(rules),
            ..self.clone()
        }
    }

    /// The same job at the same moment, planned in another order of work.
    ///
    /// # Errors
    /// A sentence that says why there can be no plan.
    pub(crate) fn in_order(&self, order: &[String]) -> Result<Self, String> {
        let network = self.outlook.network.clone();
        let outlook = Outlook::plan(network, AGAIN, Some(&Known::order(order.to_vec())))
            .map_err(|fault| format!("The job cannot be planned: {fault}"))?;
        Ok(self.showing(outlook))
    }

    /// When the last finish (under no key) and each milestone that is still to come are reached.
    pub(crate) fn dates(&self) -> BTreeMap<Option<Id>, Tick> {
        let outlook = &self.outlook;
        let milestones = outlook.network.open().filter_map(|id| {
            let task = outlook.network.task(id)?;
            match &task.work {
                Work::Reach(milestone) => {
                    let at = outlook.plan.finishes.get(id.index())?;
                    Some((Some(milestone.clone()), *at))
                }
                _ => None,
            }
        });
        std::iter::once((None, outlook.finish()))
            .chain(milestones)
            .collect()
    }

    /// The plan in words.
    pub(crate) fn words(&self) -> Words<'_> {
        Words::new(&self.outlook, &self.job)
    }

    /// The job's time zone.
    pub(crate) fn zone(&self) -> &TimeZone {
        self.outlook.network.clock.zone()
    }

    /// The moment that it shows.
    pub(crate) fn at(&self) -> Timestamp {
        self.outlook.network.now
    }
}

fn layer_tasks(network: &Network) -> BTreeMap<LayerKey, ActivityId> {
    let mut tasks = BTreeMap::new();
    for (index, task) in network.tasks.iter().enumerate() {
        if let Work::Layer(keys) = &task.work {
            tasks.extend(
                keys.iter()
                    .map(|key| (key.clone(), ActivityId::from(index))),
            );
        }
    }
    tasks
}
