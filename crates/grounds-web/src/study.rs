//! What goes on behind the pages: once a plan is shown, a better one is looked for.
//!
//! Nothing here holds up a note. A study is told by its *turn* whether it still counts: as soon as a
//! note comes in, the turn has passed and what the study finds is dropped.

use std::{
    collections::BTreeMap,
    num::NonZeroUsize,
    sync::{Arc, Weak},
    thread::available_parallelism,
    time::{Duration, Instant},
};

use grounds_schedule::{
    ActivityId, Solved, Start, Tick, careful_list, construct, cost, forecast::Latest,
    search_together,
};
use grounds_sequence::{Effort, Forecast, ForecastEffort, Outlook, words::upper_first};
use tokio::{sync::watch, task::spawn_blocking};

use crate::{desk::Desk, picture::Picture};

/// How long a better order of work is looked for after each change.
const LOOKING: Duration = Duration::from_millis(1000);

/// Work whose time to spare is worked out before it is asked again whether that still counts.
const SOME: usize = 100;

/// What is known beside the plan itself.
#[derive(Clone, Debug, Default)]
pub(crate) struct Study {
    /// A better order of work is being looked for.
    pub(crate) looking: bool,
    /// The plan that was made at once, before anything better was looked for.
    pub(crate) first: Option<Worth>,
    /// The plan of the list that a careful person would write.
    pub(crate) straight: Option<Worth>,
    /// What has time to spare.
    pub(crate) spare: Option<Arc<Spare>>,
    /// How sure the dates are; of an earlier plan until it is reckoned anew.
    pub(crate) forecast: Option<Arc<Reckoned>>,
    /// The forecast is of this plan, or there is none to be had.
    pub(crate) reckoned: bool,
    /// Why there is no telling how sure the dates are.
    pub(crate) no_forecast: Option<String>,
}

/// How sure the dates of a plan are.
#[derive(Debug)]
pub(crate) struct Reckoned {
    /// The plan.
    pub(crate) picture: Arc<Picture>,
    /// Its dates with their chances.
    pub(crate) forecast: Forecast,
}

/// What has time to spare in a plan.
#[derive(Debug)]
pub(crate) struct Spare {
    /// Of which picture.
    edition: u64,
    /// The latest that each open work may lie, by position.
    latest: BTreeMap<ActivityId, Latest>,
}

impl Study {
    /// A plan was made; nothing better was looked for yet, but will be.
    pub(crate) fn of(outlook: &Outlook) -> Self {
        Self {
            looking: true,
            first: Some(Worth::of(outlook)),
            straight: None,
            spare: None,
            forecast: None,
            reckoned: false,
            no_forecast: None,
        }
    }

    /// The same after a change: what is known of how sure the dates are stays until it is reckoned
    /// anew.
    pub(crate) fn after(before: &Self, outlook: &Outlook) -> Self {
        Self {
            forecast: before.forecast.clone(),
            ..Self::of(outlook)
        }
    }

    /// Whether the forecast is of a picture.
    pub(crate) fn is_forecast_of(&self, picture: &Picture) -> bool {
        let forecast = self.forecast.as_ref();
        forecast.is_some_and(|reckoned| reckoned.picture.edition == picture.edition)
    }

    /// The latest that a piece of work may lie, where that is known of a picture.
    pub(crate) fn latest(&self, picture: &Picture, id: ActivityId) -> Option<Latest> {
        let spare = self.spare.as_ref()?;
        let same = spare.edition == picture.edition;
        spare.latest.get(&id).filter(|_| same).copied()
    }

    /// Whether something is still being worked out.
    pub(crate) fn busy(&self) -> bool {
        self.looking || self.spare.is_none() || !self.reckoned
    }

    /// Whether it is known what has time to spare in a picture.
    pub(crate) fn knows_spare(&self, picture: &Picture) -> bool {
        let spare = self.spare.as_ref();
        spare.is_some_and(|spare| spare.edition == picture.edition)
    }
}

/// What plans are compared by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Worth {
    /// When the last work ends.
    pub(crate) finish: Tick,
    /// All of its cost, in cents.
    pub(crate) cents: i64,
}

impl Worth {
    /// What a plan is worth.
    pub(crate) fn of(outlook: &Outlook) -> Self {
        Self {
            finish: outlook.finish(),
            cents: outlook.cost.total(),
        }
    }
}

/// Studies a desk's plan whenever it changes, until the desk is gone.
pub(crate) async fn keep_studying(desk: Weak<Desk>, mut changes: watch::Receiver<u64>) {
    loop {
        let turn = *changes.borrow_and_update();
        let Some(open) = desk.upgrade() else {
            return;
        };
        // A study that breaks off leaves the plan as it is.
        let _ = spawn_blocking(move || study(&open, turn)).await;
        if changes.changed().await.is_err() {
            return;
        }
    }
}

/// Everything that is worked out after a change, what is soonest missed first.
fn study(desk: &Desk, turn: u64) {
    improve(desk, turn);
    straight(desk, turn);
    spare(desk, turn);
    reckon(desk, turn);
}

/// Reckons how sure the dates are.
fn reckon(desk: &Desk, turn: u64) {
    if !desk.is_turn(turn) {
        return;
    }
    let picture = desk.picture();
    let effort = ForecastEffort {
        threads: cores(),
        ..ForecastEffort::default()
    };
    let made = Forecast::of(&picture.outlook, &picture.job, &effort);
    desk.note_study(turn, |study| {
        study.reckoned = true;
        match made {
            Ok(forecast) => study.forecast = Some(Arc::new(Reckoned { picture, forecast })),
            Err(why) => {
                study.forecast = None;
                study.no_forecast = Some(format!("{}.", upper_first(&why.to_string())));
            }
        }
    });
}

/// Plans by the list that a careful person would write, to compare with.
fn straight(desk: &Desk, turn: u64) {
    let picture = desk.picture();
    let problem = &picture.outlook.network.problem;
    let list = careful_list(problem).and_then(|list| construct(problem, &list));
    if let Ok(plan) = list {
        let worth = Worth {
            finish: plan.finishes.iter().copied().max().unwrap_or(problem.now),
            cents: cost(problem, &plan).total(),
        };
        desk.note_study(turn, |study| study.straight = Some(worth));
    }
}

/// Works out what has time to spare.
fn spare(desk: &Desk, turn: u64) {
    let picture = desk.picture();
    let outlook = &picture.outlook;
    let wanted: Vec<ActivityId> = outlook.network.open().collect();
    let mut latest = BTreeMap::new();
    for some in wanted.chunks(SOME) {
        if !desk.is_turn(turn) {
            return;
        }
        let known = some.iter().copied().zip(outlook.latest(some));
        latest.extend(known.filter_map(|(id, latest)| Some((id, latest?))));
    }
    let edition = picture.edition;
    desk.note_study(turn, |study| {
        study.spare = Some(Arc::new(Spare { edition, latest }));
    });
}

/// Looks for a better order of work, and shows it.
fn improve(desk: &Desk, turn: u64) {
    let picture = desk.picture();
    let found = better(desk, turn, &picture);
    let known = (!desk.is_first()).then(|| picture.outlook.known());
    let better = found.and_then(|found| picture.with(found, known.as_ref()).ok());
    if let Some(better) = better.filter(|better| is_better(&better.outlook, &picture.outlook)) {
        desk.show_better(turn, better);
    }
    desk.note_study(turn, |study| study.looking = false);
}

/// Breaks less, or as much for less money.
fn is_better(this: &Outlook, that: &Outlook) -> bool {
    let key = |outlook: &Outlook| (outlook.breaches.len(), outlook.cost.total());
    key(this) < key(that)
}

/// An order of work that is worth showing instead of the present one. The first plan of all may give
/// way to any better one, since nobody has gone by it; a plan that people know only to one that is
/// well worth it.
fn better(desk: &Desk, turn: u64, picture: &Picture) -> Option<Solved> {
    let network = &picture.outlook.network;
    let order = picture.outlook.order();
    let order: Vec<ActivityId> = order.iter().filter_map(|key| network.find(key)).collect();
    let start = Start {
        first_order: Some(order.clone()),
        ..Start::default()
    };
    let began = Instant::now();
    let go_on = || began.elapsed() < LOOKING && desk.is_turn(turn);
    let mut search = search_together(&network.problem, &start, cores(), &go_on).ok()?;
    let found = match desk.is_first() {
        true => search.best().clone(),
        false => search.calm(),
    };
    (found.order != order).then_some(found)
}

fn cores() -> NonZeroUsize {
    available_parallelism().unwrap_or(NonZeroUsize::MIN)
}

/// The order of a plan that is only built again, not looked for.
pub(crate) const AGAIN: Effort = Effort {
    schedules: 1,
    seed: 1,
};

/// Begins to study a desk.
pub(crate) fn begin(desk: &Arc<Desk>) {
    tokio::spawn(keep_studying(Arc::downgrade(desk), desk.changes()));
}
