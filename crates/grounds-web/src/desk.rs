//! A job in memory: its picture, and how notes come to it.

use std::{
    collections::{BTreeMap, BTreeSet},
    sync::{
        Arc, PoisonError, RwLock,
        atomic::{AtomicU64, Ordering},
    },
    thread,
};

use grounds_model::Job;
use grounds_sequence::options::Progress;
use grounds_site::Note;
use grounds_store::{Photo, Store, StoredJob, WalkAnswer};
use jiff::Timestamp;
use tokio::{
    sync::{Mutex, watch},
    task::spawn_blocking,
};
use uuid::Uuid;

use crate::{
    clock::SiteClock,
    fault::Fault,
    picture::{Picture, Since},
    study::Study,
    talk::Reading,
    ways::Ways,
};

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
    /// Counts the changes of the job and of the time: a study of an earlier turn no longer counts.
    change: AtomicU64,
    /// Tells the study of each change that is planned for.
    changes: watch::Sender<u64>,
    /// What is known beside the picture.
    study: RwLock<Study>,
    /// Ways to win time back, by the date that they are for.
    ways: RwLock<BTreeMap<String, Ways>>,
    /// Walks that were read since the job was opened, by their ids.
    readings: RwLock<BTreeMap<Uuid, Arc<Reading>>>,
    /// The photos that are here, by key.
    photos: RwLock<Arc<BTreeMap<String, Photo>>>,
}

/// Walks that are remembered as they were read.
const MOST_READINGS: usize = 50;

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
        let photos = store.photos(&key).await?;
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
        let study = Study::of(&picture.outlook);
        reckon_ahead(&picture);
        Ok(Self {
            key,
            clock,
            store,
            picture: RwLock::new(Arc::new(picture)),
            known: RwLock::new(changed),
            turn: Mutex::new(()),
            change: AtomicU64::new(0),
            changes: watch::Sender::new(0),
            study: RwLock::new(study),
            ways: RwLock::default(),
            readings: RwLock::default(),
            photos: RwLock::new(Arc::new(photos)),
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
        self.follow(picture, new).await
    }

    /// Answers what a walk proposes, writes the notes that come of it, and plans for them. Answers
    /// and notes that are here already change nothing.
    ///
    /// When this returns without an error both are on the disk.
    pub(crate) async fn answer(
        &self,
        walk: Uuid,
        answers: &[WalkAnswer],
        notes: Vec<Note>,
    ) -> Result<usize, Fault> {
        let _turn = self.turn.lock().await;
        let picture = self.picture();
        let here: BTreeSet<Uuid> = picture.notes.iter().map(|note| note.id).collect();
        let is_new = |note: &Note| !here.contains(&note.id);
        let new: Vec<Note> = notes.into_iter().filter(is_new).collect();
        self.store
            .answer_walk(&self.key, walk, answers, &new)
            .await?;
        if new.is_empty() {
            return Ok(0);
        }
        self.follow(&picture, new).await
    }

    /// A walk that was read before.
    pub(crate) fn reading(&self, walk: Uuid) -> Option<Arc<Reading>> {
        let readings = self.readings.read();
        let readings = readings.unwrap_or_else(PoisonError::into_inner);
        readings.get(&walk).cloned()
    }

    /// Remembers a walk that was read: neither what was said nor the job's document changes.
    pub(crate) fn keep_reading(&self, walk: Uuid, read: Arc<Reading>) {
        let readings = self.readings.write();
        let mut readings = readings.unwrap_or_else(PoisonError::into_inner);
        if readings.len() >= MOST_READINGS {
            readings.clear();
        }
        readings.insert(walk, read);
    }

    /// The store that the job is kept in, for its walks.
    pub(crate) fn store(&self) -> &Store {
        &self.store
    }

    /// Plans for notes that are on the disk.
    async fn follow(&self, picture: &Arc<Picture>, new: Vec<Note>) -> Result<usize, Fault> {
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

    /// The photos that are here, by key. A note may name others, which are still on a phone.
    pub(crate) fn photos(&self) -> Arc<BTreeMap<String, Photo>> {
        self.photos
            .read()
            .unwrap_or_else(PoisonError::into_inner)
            .clone()
    }

    /// Knows of one more photo, once it is kept.
    pub(crate) fn show_photo(&self, photo: Photo) {
        let mut place = self.photos.write().unwrap_or_else(PoisonError::into_inner);
        Arc::make_mut(&mut place).insert(photo.key.clone(), photo);
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

    /// Plans for a change, and shows it. Whatever was being studied no longer counts.
    async fn plan(
        &self,
        before: &Arc<Picture>,
        notes: Arc<Vec<Note>>,
        saved: Timestamp,
    ) -> Result<(), Fault> {
        let change = self.change.fetch_add(1, Ordering::SeqCst) + 1;
        let now = self.now();
        let (job, known) = (before.job.clone(), self.picture().outlook.known());
        let since = Since::between(before, &notes);
        let made = spawn_blocking(move || Picture::make(job, notes, now, Some(&known)));
        let made = made
            .await
            .map_err(Fault::broke_off)
            .and_then(|made| made.map_err(Fault::Plan))
            .map(|picture| {
                self.show(Picture {
                    saved,
                    since,
                    ..picture
                });
            });
        // Where there is no plan, the study goes on with the one before.
        self.changes.send_replace(change);
        made
    }

    /// Shows a plan that a change made necessary.
    fn show(&self, mut picture: Picture) {
        if let Some(fit) = Arc::get_mut(&mut picture.fit) {
            fit.keep(&self.picture().fit);
        }
        reckon_ahead(&picture);
        let mut study = self.study.write().unwrap_or_else(PoisonError::into_inner);
        *study = Study::after(&study, &picture.outlook);
        let mut place = self.picture.write().unwrap_or_else(PoisonError::into_inner);
        let edition = place.edition + 1;
        *place = Arc::new(Picture { edition, ..picture });
    }

    /// Plans in the order of work that somebody chose, unless the plan has changed since.
    pub(crate) async fn keep_to(
        &self,
        chosen_on: &Arc<Picture>,
        order: Vec<String>,
    ) -> Result<(), Fault> {
        let _turn = self.turn.lock().await;
        if self.picture().edition != chosen_on.edition {
            let why = "The plan has changed since that order was found; look again.";
            return Err(Fault::Input(why.to_owned()));
        }
        let change = self.change.fetch_add(1, Ordering::SeqCst) + 1;
        let chosen_on = chosen_on.clone();
        let made = spawn_blocking(move || chosen_on.in_order(&order)).await;
        let made = made
            .map_err(Fault::broke_off)
            .and_then(|made| made.map_err(Fault::Plan))
            .map(|picture| self.show(picture));
        self.changes.send_replace(change);
        made
    }

    /// Tells of every change that was planned for.
    pub(crate) fn changes(&self) -> watch::Receiver<u64> {
        self.changes.subscribe()
    }

    /// Whether nothing has changed since a turn.
    pub(crate) fn is_turn(&self, turn: u64) -> bool {
        self.change.load(Ordering::SeqCst) == turn
    }

    /// Whether the plan is still the first since the job was opened: nobody has gone by it yet.
    pub(crate) fn is_first(&self) -> bool {
        self.is_turn(0)
    }

    /// What is known beside the picture.
    pub(crate) fn study(&self) -> Study {
        self.study
            .read()
            .unwrap_or_else(PoisonError::into_inner)
            .clone()
    }

    /// Notes what a study found, unless its turn has passed.
    pub(crate) fn note_study(&self, turn: u64, what: impl FnOnce(&mut Study)) {
        let mut study = self.study.write().unwrap_or_else(PoisonError::into_inner);
        if self.is_turn(turn) {
            what(&mut study);
        }
    }

    /// Ways to win time back, as far as they are known.
    pub(crate) fn ways(&self) -> BTreeMap<String, Ways> {
        self.ways
            .read()
            .unwrap_or_else(PoisonError::into_inner)
            .clone()
    }

    /// Whether looking for ways may begin for a date: it is not under way already.
    pub(crate) fn begin_ways(&self, date: &str) -> bool {
        let mut ways = self.ways.write().unwrap_or_else(PoisonError::into_inner);
        if matches!(ways.get(date), Some(Ways::Trying(_))) {
            return false;
        }
        let begun = Progress { done: 0, of: 0 };
        ways.insert(date.to_owned(), Ways::Trying(begun));
        true
    }

    /// How far looking for ways has got.
    pub(crate) fn tell_ways(&self, date: &str, how_far: Ways) {
        self.ways
            .write()
            .unwrap_or_else(PoisonError::into_inner)
            .insert(date.to_owned(), how_far);
    }

    /// Shows a better plan of the same job at the same moment, unless its turn has passed.
    pub(crate) fn show_better(&self, turn: u64, better: Picture) {
        let mut place = self.picture.write().unwrap_or_else(PoisonError::into_inner);
        if self.is_turn(turn) {
            let edition = place.edition + 1;
            *place = Arc::new(Picture { edition, ..better });
        }
    }
}

/// Begins, on a thread of its own, what pages of fit would have to wait for. Whoever is quicker to
/// ask waits for it all the same.
fn reckon_ahead(picture: &Picture) {
    let fit = picture.fit.clone();
    // Without a thread for it, the first page that asks does it.
    let _ = thread::Builder::new().spawn(move || fit.reckon_ahead());
}
