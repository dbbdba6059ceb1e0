//! The jobs that are served.

use std::{collections::BTreeMap, sync::Arc};

use grounds_model::Job;
use grounds_store::{Store, StoreError};
use jiff::Timestamp;
use tokio::sync::{Mutex, Semaphore};

use crate::{desk::Desk, fault::Fault, phones::Phones, study};

/// The jobs of a data folder, each read and planned when it is first asked for.
#[derive(Debug)]
pub(crate) struct Desks {
    store: Store,
    open: Mutex<BTreeMap<String, Arc<Desk>>>,
    /// The job that the start page shows, where there is one such.
    pub(crate) front: Option<String>,
    /// When a demo job begins; without it the real time counts.
    starts: Option<fn(&Job) -> Timestamp>,
    /// How many photos may be drawn at once: each takes memory.
    pub(crate) drawing: Semaphore,
    /// The door for phones, where there is one.
    pub(crate) phones: Option<Arc<Phones>>,
}

/// How many photos are drawn at once.
pub(crate) const DRAWN_AT_ONCE: u32 = 2;

impl Desks {
    /// The jobs of a store.
    pub(crate) fn new(
        store: Store,
        front: Option<String>,
        starts: Option<fn(&Job) -> Timestamp>,
        phones: Option<Arc<Phones>>,
    ) -> Self {
        Self {
            store,
            open: Mutex::default(),
            front,
            starts,
            drawing: Semaphore::new(DRAWN_AT_ONCE as usize),
            phones,
        }
    }

    /// A job by its key.
    pub(crate) async fn desk(&self, key: &str) -> Result<Arc<Desk>, Fault> {
        let mut open = self.open.lock().await;
        if let Some(desk) = open.get(key) {
            return Ok(desk.clone());
        }
        let stored = self.store.job(key).await.map_err(|error| match error {
            StoreError::NoJob { .. } | StoreError::BadKey { .. } => Fault::no_job(key),
            other => Fault::Store(other),
        })?;
        let desk = Arc::new(Desk::open(self.store.clone(), stored, self.starts).await?);
        study::begin(&desk);
        open.insert(key.to_owned(), desk.clone());
        Ok(desk)
    }

    /// All jobs: key, name, number of notes.
    pub(crate) async fn list(&self) -> Result<Vec<(String, String, usize)>, Fault> {
        let jobs = self.store.jobs().await?;
        let line = |job: grounds_store::JobLine| {
            (
                job.key,
                job.name,
                usize::try_from(job.notes).unwrap_or(usize::MAX),
            )
        };
        Ok(jobs.into_iter().map(line).collect())
    }

    /// The document of a job, as it was given.
    pub(crate) async fn document(&self, key: &str) -> Result<String, Fault> {
        Ok(self.store.job(key).await?.document)
    }

    /// Where everything is kept.
    pub(crate) fn store(&self) -> &Store {
        &self.store
    }

    /// Plans anew whatever has grown old, and lets go of what another program changed: it is read
    /// again when it is next asked for. A job that cannot be planned keeps its last plan.
    pub(crate) async fn keep_up(&self) {
        let desks: Vec<Arc<Desk>> = self.open.lock().await.values().cloned().collect();
        for desk in desks {
            if desk.is_behind().await {
                self.open.lock().await.remove(desk.key());
            } else {
                let _ = desk.keep_up().await;
            }
        }
    }
}
