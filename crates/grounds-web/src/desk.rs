//! A job in memory: its picture, and how notes come to it.

use std::{
    collections::{BTreeMap, BTreeSet},
    sync::{Arc, PoisonError, RwLock},
};

use grounds_model::Job;
use grounds_site::Note;
use grounds_store::{Store, StoredJob};
use jiff::Timestamp;
use tokio::{sync::Mutex, task::spawn_blocking};
use uuid::Uuid;

use crate::{clock::SiteClock, fault::Fault, picture::Picture};

/// A job that pages are served of.
#[derive(Debug)]
pub(crate) struct Desk {
    key: String,
    clock: SiteClock,
    store: Store,
    picture: RwLock<Arc<Picture>>,
    /// When the store last changed, as far as the picture knows.
    known: RwLock<Timestamp>,
    /// Held while a note is written and planned for: one after another.
    turn: Mutex<()>,
}

/// Seconds in a quarter of an hour.
const QUARTER: i64 = 900;

impl Desk {
    /// Reads and plans a job that is kept in a store. In a demo the clock starts on the given
    /// moment, or where its log ends.
    pub(crate) async fn open(
        store: Store,
        stored: StoredJob,
        starts: Option<fn(&Job) -> Timestamp>,
    ) -> Result<Self, Fault> {
        let StoredJob {
            key,
            document,
            notes,
            changed,
            ..
        } = stored;
        let made = spawn_blocking(move || -> Result<_, Fault> {
            let job = grounds_model::read("job.toml", &document).map_err(Fault::document)?;
            let last = notes.iter().map(|note| note.at).max();
            let clock = match starts {
                None => SiteClock::Real,
                Some(at) => SiteClock::from(at(&job).max(last.unwrap_or(Timestamp::MIN))),
            };
            let picture = Picture::make(Arc::new(job), Arc::new(notes), clock.now(), None)
                .map_err(Fault::Plan)?;
            let saved = if starts.is_some() {
                last.unwrap_or(picture.saved)
            } else {
                changed
            };
            Ok((clock, Picture { saved, ..picture }))
        });
        let (clock, picture) = made.await.map_err(Fault::broke_off)??;
        let picture = RwLock::new(Arc::new(picture));
        Ok(Self {
            key,
            clock,
            store,
            picture,
            known: RwLock::new(changed),
            turn: Mutex::new(()),
        })
    }

    /// The key of the job.
    pub(crate) fn key(&self) -> &str {
        &self.key
    }

    /// The time on site.
    pub(crate) fn now(&self) -> Timestamp {
        self.clock.now()
    }

    /// The job as it stands. Plans nothing.
    pub(crate) fn picture(&self) -> Arc<Picture> {
        self.picture
            .read()
            .unwrap_or_else(PoisonError::into_inner)
            .clone()
    }

    /// Writes notes, all or none, and plans for them. The same note again changes nothing. Gives
    /// how many were new.
    ///
    /// When this returns without an error the notes are on the disk.
    pub(crate) async fn write(&self, notes: Vec<Note>) -> Result<usize, Fault> {
        let _turn = self.turn.lock().await;
        let picture = self.picture();
        let here: BTreeMap<Uuid, &Note> = picture.notes.iter().map(|n| (n.id, n)).collect();
        let is_new = |note: &Note| here.get(&note.id).is_none_or(|known| *known != note);
        let new = notes.into_iter().filter(is_new).collect();
        self.write_new(&picture, new).await
    }

    /// Writes what a form says, and plans for it. A form that was sent twice bears the same ids
    /// twice, though the time has gone on: the first counts.
    ///
    /// When this returns without an error the notes are on the disk.
    pub(crate) async fn write_once(&self, notes: Vec<Note>) -> Result<usize, Fault> {
        let _turn = self.turn.lock().await;
        let picture = self.picture();
        let here: BTreeSet<Uuid> = picture.notes.iter().map(|note| note.id).collect();
        let new = notes
            .into_iter()
            .filter(|note| !here.contains(&note.id))
            .collect();
        self.write_new(&picture, new).await
    }

    async fn write_new(&self, picture: &Arc<Picture>, new: Vec<Note>) -> Result<usize, Fault> {
        if new.is_empty() {
            return Ok(0);
        }
        self.store.add_notes(&self.key, &new).await?;
        let (saved, changed) = (self.now(), self.store.saved_at(&self.key).await?);
        let mut all = picture.notes.as_ref().clone();
        let before = all.len();
        let mut here: BTreeSet<Uuid> = all.iter().map(|note| note.id).collect();
        all.extend(new.into_iter().filter(|note| here.insert(note.id)));
        let count = all.len() - before;
        self.plan(picture, Arc::new(all), saved).await?;
        *self.known.write().unwrap_or_else(PoisonError::into_inner) = changed;
        Ok(count)
    }

    /// Whether somebody else changed the job in the store since it was read.
    pub(crate) async fn is_behind(&self) -> bool {
        let _turn = self.turn.lock().await;
        let known = *self.known.read().unwrap_or_else(PoisonError::into_inner);
        self.store
            .saved_at(&self.key)
            .await
            .is_ok_and(|changed| changed != known)
    }

    /// Plans anew once a quarter of an hour has passed since the last plan.
    pub(crate) async fn keep_up(&self) -> Result<(), Fault> {
        let _turn = self.turn.lock().await;
        let picture = self.picture();
        let quarter = |at: Timestamp| at.as_second().div_euclid(QUARTER);
        if quarter(picture.at()) == quarter(self.now()) {
            return Ok(());
        }
        self.plan(&picture, picture.notes.clone(), picture.saved)
            .await
    }

    async fn plan(
        &self,
        before: &Arc<Picture>,
        notes: Arc<Vec<Note>>,
        saved: Timestamp,
    ) -> Result<(), Fault> {
        let (before, now) = (before.clone(), self.now());
        let made = spawn_blocking(move || {
            let order = before.outlook.order();
            Picture::make(before.job.clone(), notes, now, Some(&order))
        });
        let picture = made.await.map_err(Fault::broke_off)?.map_err(Fault::Plan)?;
        let mut place = self.picture.write().unwrap_or_else(PoisonError::into_inner);
        *place = Arc::new(Picture { saved, ..picture });
        Ok(())
    }
}
