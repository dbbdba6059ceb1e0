//! What is uncertain about a job: from spreads, lead times, holds and weather to what is drawn.

use std::collections::BTreeMap;

use grounds_measure::Span;
use grounds_model::{Hold, Id, Job, Month, Piece, PlaceKind};
use grounds_schedule::forecast::{Amount, Repeat, Source, Spell, ThreePoint, Uncertainty, Weather};
use grounds_schedule::{ActivityId, CalendarId, Clock as On, DAY, DateId, Fact, LagId, Tick};

use super::usual;
use crate::{
    hours,
    network::Network,
    task::{DateWhy, LagWhy, Task, TaskState, Work},
};

/// Something that makes dates uncertain.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Doubt {
    /// How fast a trade is, everywhere at once.
    Trade(Id),
    /// Whether a supplier is late with all that he brings.
    Supplier(String),
    /// How long one piece of work takes.
    Work(ActivityId),
    /// When a piece arrives.
    Delivery(ActivityId),
    /// When a decision is made.
    Decision(ActivityId),
    /// Whether a hold fails.
    Fail(ActivityId),
    /// Days lost outside.
    Weather,
}

/// All that is uncertain, with what each part stands for.
pub(super) struct Chances {
    pub(super) uncertainty: Uncertainty,
    /// What each common factor is.
    pub(super) factors: Vec<Doubt>,
    /// What each source is.
    pub(super) sources: Vec<Doubt>,
    /// What each repeat is.
    pub(super) repeats: Vec<Doubt>,
}

impl Chances {
    pub(super) fn of(network: &Network, job: &Job, alike: f64) -> Self {
        let mut gatherer = Gatherer {
            network,
            job,
            alike,
            waits: by_target(network),
            dates: by_activity(network),
            numbers: BTreeMap::new(),
            chances: Self {
                uncertainty: Uncertainty::default(),
                factors: Vec::new(),
                sources: Vec::new(),
                repeats: Vec::new(),
            },
        };
        for id in network.open() {
            gatherer.add(id, &network.tasks[id.index()]);
        }
        gatherer.add_weather();
        gatherer.chances
    }
}

/// Waits for something to be made, by what they end at.
fn by_target(network: &Network) -> BTreeMap<ActivityId, Vec<LagId>> {
    let mut waits: BTreeMap<ActivityId, Vec<LagId>> = BTreeMap::new();
    for (index, why) in network.lag_why.iter().enumerate() {
        if matches!(why, LagWhy::MadeAfterMeasure | LagWhy::OrderedAfterDecision) {
            let to = network.problem.lags[index].to;
            waits.entry(to).or_default().push(LagId::from(index));
        }
    }
    waits
}

fn by_activity(network: &Network) -> BTreeMap<ActivityId, Vec<DateId>> {
    let mut dates: BTreeMap<ActivityId, Vec<DateId>> = BTreeMap::new();
    for (index, date) in network.problem.dates.iter().enumerate() {
        dates
            .entry(date.activity)
            .or_default()
            .push(DateId::from(index));
    }
    dates
}

struct Gatherer<'g> {
    network: &'g Network,
    job: &'g Job,
    alike: f64,
    waits: BTreeMap<ActivityId, Vec<LagId>>,
    dates: BTreeMap<ActivityId, Vec<DateId>>,
    numbers: BTreeMap<(bool, String), u32>,
    chances: Chances,
}

impl Gatherer<'_> {
    fn add(&mut self, id: ActivityId, task: &Task) {
        match &task.work {
            Work::Layer(keys) => {
                let layer = keys.first().and_then(|key| self.job.layer(key));
                self.add_work(id, task, layer.and_then(|layer| layer.spread));
            }
            Work::Measure(_) | Work::Set(_) | Work::PutRight(_) | Work::Look(_) => {
                self.add_work(id, task, None);
            }
            Work::Pass(hold) => {
                self.add_work(id, task, None);
                if let Some(design) = self.job.holds.get(hold) {
                    self.add_fails(id, task, design);
                }
            }
            Work::Arrive(piece) => {
                if let Some(design) = self.job.pieces.get(piece) {
                    self.add_delivery(id, design);
                }
            }
            Work::Decide(_) => self.add_decision(id),
            Work::SetUp(_) | Work::Reach(_) | Work::Shut(_) => {}
        }
    }

    fn push(&mut self, doubt: Doubt, effects: Vec<(Amount, ThreePoint)>, common: Option<u32>) {
        if effects.is_empty() {
            return;
        }
        self.chances.uncertainty.sources.push(Source {
            effects,
            common,
            share: self.alike,
        });
        self.chances.sources.push(doubt);
    }

    /// The number of a common factor.
    fn factor(&mut self, doubt: Doubt) -> Option<u32> {
        let key = match &doubt {
            Doubt::Trade(id) => (false, id.to_string()),
            Doubt::Supplier(name) => (true, name.trim().to_lowercase()),
            _ => return None,
        };
        if let Some(&number) = self.numbers.get(&key) {
            return Some(number);
        }
        let number = u32::try_from(self.chances.factors.len()).ok()?;
        self.chances.factors.push(doubt);
        self.numbers.insert(key, number);
        Some(number)
    }

    /// Work, by its own spread, its trade's, or what is usual. What dries by itself is certain.
    fn add_work(&mut self, id: ActivityId, task: &Task, own: Option<[u32; 2]>) {
        let activity = &self.network.problem.activities[id.index()];
        let likely = match activity.fact {
            Fact::Begun { left, .. } => left,
            _ => activity.work,
        };
        let Some(trade) = task.trade.clone().filter(|_| likely > 0) else {
            return;
        };
        let of_trade = self.job.trades.get(&trade).and_then(|trade| trade.spread);
        let [low, high] = own.or(of_trade).unwrap_or(usual::WORK);
        let share = |percent: u32| times(likely, f64::from(percent) / 100.0);
        let spread = ThreePoint {
            low: share(low),
            likely,
            high: share(high),
        };
        let common = self.factor(Doubt::Trade(trade));
        self.push(Doubt::Work(id), vec![(Amount::Work(id), spread)], common);
    }

    /// A delivery: one luck for the time to make it, wherever the network counts that from.
    fn add_delivery(&mut self, id: ActivityId, piece: &Piece) {
        let mut effects = Vec::new();
        for &wait in self.waits.get(&id).into_iter().flatten() {
            let likely = self.network.problem.lags[wait.index()].min.unwrap_or(0);
            let (low, high) = lead_shares(piece);
            let spread = ThreePoint {
                low: times(likely, low),
                likely,
                high: times(likely, high),
            };
            effects.push((Amount::Wait(wait), spread));
        }
        for &date in self.dates.get(&id).into_iter().flatten() {
            if let Some(spread) = self.delivery_date(date, piece) {
                effects.push((Amount::Date(date), spread));
            }
        }
        effects.retain(|(_, spread)| spread.low < spread.high);
        let supplier = piece.supplier.clone();
        let common = supplier.and_then(|name| self.factor(Doubt::Supplier(name)));
        self.push(Doubt::Delivery(id), effects, common);
    }

    fn delivery_date(&self, date: DateId, piece: &Piece) -> Option<ThreePoint> {
        let at = self.network.problem.dates[date.index()].at;
        let left = at.saturating_sub(self.network.problem.now).max(0);
        let (low, high) = lead_shares(piece);
        let spread = |early: Tick, late: Tick| ThreePoint {
            low: at.saturating_sub(early),
            likely: at,
            high: at.saturating_add(late),
        };
        match self.network.date_why(date)? {
            DateWhy::IfOrderedToday => {
                Some(spread(times(left, 1.0 - low), times(left, high - 1.0)))
            }
            // An order that is held up takes as long as any other once it is placed.
            DateWhy::FromOrder | DateWhy::HeldUp(_) => {
                let whole = piece.lead.map_or(0, |lead| elapsed(lead.likely()));
                Some(spread(times(whole, 1.0 - low), times(whole, high - 1.0)))
            }
            DateWhy::Promised => {
                let slip = if high > 1.0 {
                    high - 1.0
                } else {
                    usual::PROMISE_SLIP
                };
                Some(spread(0, times(left, slip).max(usual::LEAST_SLIP)))
            }
            DateWhy::Overdue => Some(spread(0, usual::OVERDUE)),
            _ => None,
        }
    }

    fn add_decision(&mut self, id: ActivityId) {
        let mut effects = Vec::new();
        for &date in self.dates.get(&id).into_iter().flatten() {
            let at = self.network.problem.dates[date.index()].at;
            let left = at.saturating_sub(self.network.problem.now).max(0);
            let late = match self.network.date_why(date) {
                Some(DateWhy::Expected { assumed: true }) => {
                    times(left, usual::DECISION_TIMES - 1.0)
                }
                Some(DateWhy::Expected { assumed: false }) => usual::DECISION,
                _ => continue,
            };
            let spread = ThreePoint {
                low: at,
                likely: at,
                high: at.saturating_add(late),
            };
            effects.push((Amount::Date(date), spread));
        }
        self.push(Doubt::Decision(id), effects, None);
    }

    /// A hold that fails is put right, booked, set up and tried again.
    fn add_fails(&mut self, id: ActivityId, task: &Task, hold: &Hold) {
        let chance = hold
            .fails
            .map_or_else(|| usual::fails(hold.kind), |share| share.share());
        if task.state != TaskState::ToCome || chance <= 0.0 {
            return;
        }
        let activity = &self.network.problem.activities[id.index()];
        let mender = self.calendar_of(hold.mender());
        let put_right = match hold.put_right {
            Some(span) => self.on(span, mender, hold.mender()),
            None => {
                let day = self.usual_day(hold.mender());
                (usual::PUT_RIGHT_DAYS * day, On::On(mender))
            }
        };
        let mut steps = vec![put_right];
        if let Some(notice) = hold.notice {
            steps.push(self.on(notice, self.network.job_calendar, None));
        }
        if let Some(stands) = hold.stands {
            steps.push(self.on(stands, self.network.job_calendar, None));
        }
        let own = activity.calendar.map_or(On::Elapsed, On::On);
        steps.push((activity.work.max(1), own));
        self.chances.uncertainty.repeats.push(Repeat {
            activity: id,
            chance,
            steps,
        });
        self.chances.repeats.push(Doubt::Fail(id));
    }

    /// A span in ticks and what they are counted on. A day or more by the clock runs by itself.
    fn on(&self, span: Span, calendar: CalendarId, trade: Option<&Id>) -> (Tick, On) {
        match span {
            Span::WorkingDays(days) => {
                let days = Tick::try_from(days).unwrap_or(Tick::MAX);
                let ticks = self.usual_day(trade).saturating_mul(days);
                (ticks, On::On(calendar))
            }
            Span::Elapsed(minutes) if minutes >= 24 * 60 => (elapsed(span), On::Elapsed),
            _ => (elapsed(span), On::On(calendar)),
        }
    }

    fn usual_day(&self, trade: Option<&Id>) -> Tick {
        let own = trade
            .and_then(|id| self.job.trades.get(id))
            .and_then(|trade| trade.calendar.as_ref());
        let calendar = self
            .job
            .calendars
            .get(own.unwrap_or(&self.job.job.calendar));
        calendar.map_or(32, hours::usual_day)
    }

    /// The calendar that a trade works by: that of any of its work.
    fn calendar_of(&self, trade: Option<&Id>) -> CalendarId {
        let works = self.network.tasks.iter().zip(&self.network.plain_calendar);
        works
            .filter(|(task, _)| trade.is_some() && task.trade.as_ref() == trade)
            .find_map(|(_, calendar)| *calendar)
            .unwrap_or(self.network.job_calendar)
    }

    /// Days that weather may take from work on decks.
    fn add_weather(&mut self) {
        let (network, job) = (self.network, self.job);
        if job.weather.is_empty() {
            return;
        }
        let outside = |task: &Task| {
            let place = task.place.as_ref().and_then(|id| job.places.get(id));
            place.is_some_and(|place| place.kind == PlaceKind::Deck)
                && matches!(task.work, Work::Layer(_) | Work::Set(_))
        };
        let activities = network
            .open()
            .filter(|id| outside(&network.tasks[id.index()]))
            .collect();
        let mut spells = Vec::new();
        let mut day = network.clock.day(network.problem.now);
        let mut from = network.clock.midnight(day);
        while from < network.problem.horizon {
            let Ok(next) = day.tomorrow() else { break };
            let until = network.clock.midnight(next);
            let chance = lost_in(job, day.month().unsigned_abs());
            if chance > 0.0 && until > from {
                spells.push(Spell {
                    from,
                    until,
                    chance,
                });
            }
            (day, from) = (next, until);
        }
        self.chances.uncertainty.weather = Weather { activities, spells };
    }
}

/// The share of days that weather takes in a month, 1 to 12.
fn lost_in(job: &Job, month: u8) -> f64 {
    let month = Month::ALL.get(usize::from(month).saturating_sub(1));
    let speaking = job
        .weather
        .iter()
        .rfind(|weather| month.is_some_and(|month| weather.speaks_of(*month)));
    speaking.map_or(0.0, |weather| weather.lost.share())
}

/// Low and high lead time as shares of the likely one.
fn lead_shares(piece: &Piece) -> (f64, f64) {
    let Some(lead) = piece.lead else {
        return (1.0, 1.0);
    };
    let [low, likely, high] =
        [lead.low(), lead.likely(), lead.high()].map(|span| f64::from(elapsed(span)));
    if likely <= 0.0 {
        return (1.0, 1.0);
    }
    (low / likely, high / likely)
}

/// A span in ticks by the clock; of seven days five are working days.
fn elapsed(span: Span) -> Tick {
    match span {
        Span::WorkingDays(days) => {
            let days = Tick::try_from(days).unwrap_or(Tick::MAX / (2 * DAY));
            days.saturating_mul(DAY).saturating_mul(7) / 5
        }
        other => other
            .quarter_hours_up()
            .and_then(|quarters| Tick::try_from(quarters).ok())
            .unwrap_or(Tick::MAX / 8),
    }
}

#[allow(clippy::cast_possible_truncation)]
fn times(ticks: Tick, share: f64) -> Tick {
    (f64::from(ticks) * share).round() as Tick
}
