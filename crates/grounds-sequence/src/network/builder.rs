//! Building a network, step by step: calendars, crews, work, order, dates.

use std::collections::{BTreeMap, BTreeSet};

use grounds_measure::Span;
use grounds_model::{Id, Job, LayerKey};
use grounds_schedule::{
    Activity, ActivityId, Calendar, CalendarId, Clock as On, Date, DateId, End, Fact, GroupId, Lag,
    LagId, Problem, Resource, ResourceId, Side, Tick, Use, ZoneId,
};
use grounds_site::Site;
use jiff::{civil::Date as Day, tz::TimeZone};

use super::{Network, NetworkError, drying::Drying};
use crate::{
    air::{self, Air, Limits, Waiting},
    clock::Clock,
    held::HeldUp,
    hours,
    task::{DateWhy, LagWhy, ResourceWhy, Task, TaskState},
    ways::Ways,
};

/// Days beyond the present that calendars are laid out for.
const DAYS_AHEAD: i64 = 900;

/// A pause longer than this many elapsed days makes a trade's next visit a return.
const VISIT_GAP_DAYS: Tick = 4;

/// A network in the making.
pub(super) struct Builder<'a> {
    pub(super) job: &'a Job,
    pub(super) site: &'a Site,
    pub(super) held: &'a [HeldUp],
    pub(super) clock: Clock,
    pub(super) problem: Problem,
    pub(super) tasks: Vec<Task>,
    pub(super) lag_why: Vec<LagWhy>,
    date_why: Vec<DateWhy>,
    resource_why: Vec<ResourceWhy>,
    pub(super) ways: Ways,
    pub(super) job_calendar: CalendarId,
    /// Laid-out calendars by key, with the ticks of one usual working day.
    calendars: BTreeMap<Id, (CalendarId, Tick)>,
    crews: BTreeMap<Id, ResourceId>,
    rooms: BTreeMap<Id, ResourceId>,
    zones: BTreeMap<Id, ZoneId>,
    counted: Vec<((Id, Waiting), Option<CalendarId>)>,
    airs: BTreeMap<Id, Vec<(Tick, Tick, Air)>>,
    drying: BTreeMap<CalendarId, Drying>,
    cut: Vec<((CalendarId, CalendarId), CalendarId)>,
    plain_calendar: Vec<Option<CalendarId>>,
    groups: u32,
    links: BTreeSet<(u32, u32)>,
    pub(super) successors: Vec<Vec<ActivityId>>,
    pub(super) stack_group: BTreeMap<(Id, Id), GroupId>,
    pub(super) layer_task: BTreeMap<LayerKey, ActivityId>,
    pub(super) measure: BTreeMap<Id, ActivityId>,
    pub(super) arrive: BTreeMap<Id, ActivityId>,
    pub(super) set: BTreeMap<Id, ActivityId>,
    pub(super) hold_first: BTreeMap<Id, ActivityId>,
    pub(super) hold_pass: BTreeMap<Id, ActivityId>,
    pub(super) decide: BTreeMap<Id, ActivityId>,
    pub(super) reach: BTreeMap<Id, ActivityId>,
    /// Looks at a stack, with its layer and the position from which on layers wait.
    pub(super) looks: Vec<(ActivityId, LayerKey, usize)>,
    /// Looks for a piece.
    pub(super) piece_looks: Vec<(ActivityId, Id)>,
}

impl<'a> Builder<'a> {
    pub(super) fn new(
        job: &'a Job,
        site: &'a Site,
        held: &'a [HeldUp],
    ) -> Result<Self, NetworkError> {
        let zone =
            TimeZone::get(&job.job.zone).map_err(|_| NetworkError::Zone(job.job.zone.clone()))?;
        let begins = first_day(job, site, &zone);
        let clock = Clock::new(begins, zone);
        let now = clock.ceil(site.at).max(0);
        let last = clock
            .day(now)
            .saturating_add(jiff::Span::new().days(DAYS_AHEAD));
        let mut builder = Self {
            job,
            site,
            held,
            problem: Problem {
                now,
                horizon: clock.midnight(last),
                day_cents: job.job.cost_per_day.map_or(0, |money| money.cents()),
                ..Problem::default()
            },
            clock,
            tasks: Vec::new(),
            lag_why: Vec::new(),
            date_why: Vec::new(),
            resource_why: Vec::new(),
            ways: Ways::of(job),
            job_calendar: CalendarId(0),
            calendars: BTreeMap::new(),
            crews: BTreeMap::new(),
            rooms: BTreeMap::new(),
            zones: BTreeMap::new(),
            counted: Vec::new(),
            airs: BTreeMap::new(),
            drying: BTreeMap::new(),
            cut: Vec::new(),
            plain_calendar: Vec::new(),
            groups: 0,
            links: BTreeSet::new(),
            successors: Vec::new(),
            stack_group: BTreeMap::new(),
            layer_task: BTreeMap::new(),
            measure: BTreeMap::new(),
            arrive: BTreeMap::new(),
            set: BTreeMap::new(),
            hold_first: BTreeMap::new(),
            hold_pass: BTreeMap::new(),
            decide: BTreeMap::new(),
            reach: BTreeMap::new(),
            looks: Vec::new(),
            piece_looks: Vec::new(),
        };
        builder.lay_out_calendars(begins, last);
        builder.job_calendar = builder
            .calendars
            .get(&job.job.calendar)
            .map(|&(id, _)| id)
            .ok_or_else(|| NetworkError::Calendar(job.job.calendar.0.clone()))?;
        builder.problem.access = builder.ways.access.clone();
        builder.count_crews_and_rooms();
        Ok(builder)
    }

    pub(super) fn build(mut self) -> Network {
        self.add_layers();
        self.add_decisions();
        self.add_pieces();
        self.add_holds();
        self.add_looks();
        self.add_shut_ways();
        self.link_stacks();
        self.link_pieces();
        self.link_holds();
        self.link_decisions();
        self.link_waits();
        self.link_looks();
        self.order_within_places();
        self.clear_kept_pieces();
        self.cross_before_last();
        self.add_milestones();
        self.add_problem_dates();
        self.add_held_dates();
        self.add_bookings();
        self.finish()
    }

    fn finish(self) -> Network {
        let by_key = self
            .tasks
            .iter()
            .enumerate()
            .map(|(index, task)| (task.key.clone(), ActivityId::from(index)))
            .collect();
        Network {
            problem: self.problem,
            tasks: self.tasks,
            lag_why: self.lag_why,
            date_why: self.date_why,
            resource_why: self.resource_why,
            clock: self.clock,
            now: self.site.at,
            held: self.held.to_vec(),
            ways: self.ways,
            plain_calendar: self.plain_calendar,
            drying: self.drying,
            job_calendar: self.job_calendar,
            by_key,
        }
    }

    fn lay_out_calendars(&mut self, from: Day, to: Day) {
        for (id, design) in &self.job.calendars {
            let calendar = hours::lay_out(design, &self.clock, from, to);
            let laid = self.push_calendar(calendar);
            self.calendars
                .insert(id.clone(), (laid, hours::usual_day(design)));
        }
    }

    fn push_calendar(&mut self, calendar: Calendar) -> CalendarId {
        self.problem.calendars.push(calendar);
        CalendarId::from(self.problem.calendars.len() - 1)
    }

    fn count_crews_and_rooms(&mut self) {
        for (id, trade) in &self.job.trades {
            let resource = Resource {
                capacity: trade.crews.max(1),
                return_cents: trade.return_cost.map_or(0, |money| money.cents()),
                visit_gap: VISIT_GAP_DAYS * grounds_schedule::DAY,
            };
            let crew = self.push_resource(resource, ResourceWhy::Crews(id.clone()));
            self.crews.insert(id.clone(), crew);
        }
        for (id, place) in &self.job.places {
            let resource = Resource {
                capacity: place.crews.max(1),
                return_cents: 0,
                visit_gap: 0,
            };
            let room = self.push_resource(resource, ResourceWhy::Room(id.clone()));
            self.rooms.insert(id.clone(), room);
            let air = place.air.as_ref().unwrap_or(id);
            let next = ZoneId::from(self.zones.len());
            self.zones.entry(air.clone()).or_insert(next);
        }
    }

    fn push_resource(&mut self, resource: Resource, why: ResourceWhy) -> ResourceId {
        self.problem.resources.push(resource);
        self.resource_why.push(why);
        ResourceId::from(self.problem.resources.len() - 1)
    }

    /// The calendar of a trade; the job's where it has none of its own.
    pub(super) fn calendar_of(&self, trade: Option<&Id>) -> CalendarId {
        trade
            .and_then(|id| self.job.trades.get(id))
            .and_then(|trade| trade.calendar.as_ref())
            .and_then(|id| self.calendars.get(id))
            .map_or(self.job_calendar, |&(id, _)| id)
    }

    /// Ticks of one usual working day of a trade.
    pub(super) fn usual_day_of(&self, trade: Option<&Id>) -> Tick {
        let key = trade
            .and_then(|id| self.job.trades.get(id))
            .and_then(|trade| trade.calendar.as_ref())
            .unwrap_or(&self.job.job.calendar);
        self.calendars.get(key).map_or(32, |&(_, day)| day)
    }

    /// A length of work in ticks of the trade's calendar: hours are hours of the crew.
    pub(super) fn work_ticks(&self, span: Span, trade: Option<&Id>) -> Tick {
        match span {
            Span::WorkingDays(days) => self
                .usual_day_of(trade)
                .saturating_mul(Tick::try_from(days).unwrap_or(Tick::MAX)),
            other => ticks(other),
        }
    }

    /// A waiting time, and what it is counted on: hours outside a layer's limits do not count, and of
    /// hours in which it dries slowly only a share. Counted time says itself which hours count.
    pub(super) fn wait(&mut self, span: Span, air: Option<(&Id, Waiting)>) -> (Tick, On) {
        match span {
            Span::WorkingDays(days) => {
                let day = self.usual_day_of(None);
                let days = Tick::try_from(days).unwrap_or(Tick::MAX);
                (day.saturating_mul(days), On::On(self.job_calendar))
            }
            Span::Working(_) => (ticks(span), On::On(self.job_calendar)),
            Span::Counted(_) => {
                let counted =
                    air.and_then(|(place, waiting)| self.counted_hours(place, waiting.limits));
                (ticks(span), counted.map_or(On::Elapsed, On::On))
            }
            Span::Elapsed(_) => self.dries(ticks(span), air),
        }
    }

    fn dries(&mut self, wait: Tick, air: Option<(&Id, Waiting)>) -> (Tick, On) {
        let Some((place, waiting)) = air else {
            return (wait, On::Elapsed);
        };
        match self.hours_for(place, waiting) {
            Some(calendar) => (Drying::least(wait, waiting.dries), On::On(calendar)),
            None => (wait, On::Elapsed),
        }
    }

    /// The calendar of hours within limits in a place; `None` where all hours are.
    pub(super) fn counted_hours(&mut self, place: &Id, limits: Limits) -> Option<CalendarId> {
        let waiting = Waiting {
            limits,
            dries: None,
        };
        self.hours_for(place, waiting)
    }

    /// The calendar of the hours in a place that count for some wait; `None` where all do.
    fn hours_for(&mut self, place: &Id, waiting: Waiting) -> Option<CalendarId> {
        let Limits {
            temperature,
            humidity,
        } = waiting.limits;
        if temperature.is_none() && humidity.is_none() && waiting.dries.is_none() {
            return None;
        }
        let known = self
            .counted
            .iter()
            .find(|((id, known), _)| id == place && *known == waiting);
        if let Some((_, calendar)) = known {
            return *calendar;
        }
        if !self.airs.contains_key(place) {
            let end = self.problem.horizon;
            let airs = air::of_place(self.job, self.site, &self.clock, place, end);
            self.airs.insert(place.clone(), airs);
        }
        let airs = self.airs.get(place).map_or(&[][..], Vec::as_slice);
        let made = air::counted_hours(airs, waiting, self.problem.now);
        let drying = waiting.dries.map(|dries| Drying {
            dries,
            airs: airs.to_vec(),
        });
        let made = made.map(|calendar| self.push_calendar(calendar));
        if let (Some(calendar), Some(drying)) = (made, drying) {
            self.drying.insert(calendar, drying);
        }
        self.counted.push(((place.clone(), waiting), made));
        made
    }

    /// A trade's calendar without the hours in which the air is outside the limits.
    pub(super) fn cut_to_air(&mut self, work: CalendarId, counted: CalendarId) -> CalendarId {
        if let Some((_, cut)) = self.cut.iter().find(|(pair, _)| *pair == (work, counted)) {
            return *cut;
        }
        let calendars = &self.problem.calendars;
        let both = air::both(
            calendars[work.index()].shifts(),
            calendars[counted.index()].shifts(),
        );
        let made = self.push_calendar(both);
        self.cut.push(((work, counted), made));
        made
    }

    pub(super) fn crew(&self, trade: Option<&Id>) -> Option<Use> {
        let resource = *self.crews.get(trade?)?;
        Some(Use {
            resource,
            amount: 1,
        })
    }

    pub(super) fn room(&self, place: &Id) -> Option<Use> {
        Some(Use {
            resource: *self.rooms.get(place)?,
            amount: 1,
        })
    }

    pub(super) fn zone_of(&self, place: &Id) -> Option<ZoneId> {
        let air = self.job.places.get(place)?.air.as_ref().unwrap_or(place);
        self.zones.get(air).copied()
    }

    pub(super) fn new_group(&mut self) -> GroupId {
        self.groups += 1;
        GroupId(self.groups - 1)
    }

    /// Adds an activity with its task. `plain` is the trade's calendar before the air cut it.
    pub(super) fn add(
        &mut self,
        activity: Activity,
        mut task: Task,
        plain: Option<CalendarId>,
    ) -> ActivityId {
        task.state = match activity.fact {
            Fact::Open => TaskState::ToCome,
            Fact::Begun { .. } => TaskState::InHand,
            Fact::Done { .. } => TaskState::Done,
        };
        if task.state == TaskState::Done {
            task.share = 100;
        }
        self.problem.activities.push(activity);
        self.tasks.push(task);
        self.plain_calendar.push(plain);
        self.successors.push(Vec::new());
        ActivityId::from(self.tasks.len() - 1)
    }

    pub(super) fn is_open(&self, id: ActivityId) -> bool {
        self.problem.activities[id.index()].fact == Fact::Open
    }

    pub(super) fn is_done(&self, id: ActivityId) -> bool {
        matches!(self.problem.activities[id.index()].fact, Fact::Done { .. })
    }

    /// Adds a lag, unless what waits has already begun: facts do not wait.
    pub(super) fn lag(&mut self, lag: Lag, why: LagWhy) {
        if lag.from == lag.to || !self.is_open(lag.to) {
            return;
        }
        if lag.min.is_some() {
            self.links.insert((lag.from.0, lag.to.0));
            self.successors[lag.from.index()].push(lag.to);
        }
        self.problem.lags.push(lag);
        self.lag_why.push(why);
        debug_assert_eq!(
            self.problem.lags.len(),
            LagId::from(self.lag_why.len()).index()
        );
    }

    /// Finish to start, at least `min` later.
    pub(super) fn after(
        &mut self,
        from: ActivityId,
        to: ActivityId,
        wait: (Tick, On),
        why: LagWhy,
    ) {
        let (min, clock) = wait;
        let lag = Lag {
            from,
            from_end: End::Finish,
            to,
            to_end: End::Start,
            min: Some(min),
            max: None,
            clock,
        };
        self.lag(lag, why);
    }

    /// Finish to start for an order that is only usual: left out where it would make a circle or
    /// where the two are linked already.
    pub(super) fn usually_after(
        &mut self,
        from: ActivityId,
        to: ActivityId,
        wait: (Tick, On),
        why: LagWhy,
    ) {
        if self.is_done(from) && wait.0 == 0 || self.links.contains(&(from.0, to.0)) {
            return;
        }
        if !self.leads_to(to, from) {
            self.after(from, to, wait, why);
        }
    }

    fn leads_to(&self, from: ActivityId, to: ActivityId) -> bool {
        let mut seen = vec![false; self.successors.len()];
        let mut open = vec![from];
        while let Some(at) = open.pop() {
            if at == to {
                return true;
            }
            if std::mem::replace(&mut seen[at.index()], true) {
                continue;
            }
            open.extend(
                self.successors[at.index()]
                    .iter()
                    .filter(|next| !seen[next.index()]),
            );
        }
        false
    }

    pub(super) fn date(
        &mut self,
        activity: ActivityId,
        end: End,
        side: Side,
        at: Tick,
        why: DateWhy,
    ) {
        let fixed = !self.is_open(activity);
        if fixed && (side == Side::NotBefore || self.is_done(activity)) {
            return;
        }
        self.problem.dates.push(Date {
            activity,
            end,
            side,
            at,
        });
        self.date_why.push(why);
        debug_assert_eq!(
            self.problem.dates.len(),
            DateId::from(self.date_why.len()).index()
        );
    }
}

/// A length of time in ticks, rounded up; working days have no length of their own.
pub(super) fn ticks(span: Span) -> Tick {
    span.quarter_hours_up()
        .and_then(|q| Tick::try_from(q).ok())
        .unwrap_or(Tick::MAX / 8)
}

/// The day before anything that the job or a note speaks of.
fn first_day(job: &Job, site: &Site, zone: &TimeZone) -> Day {
    let noted = site
        .notes
        .values()
        .map(|note| note.at.to_zoned_datetime(zone.clone()).date())
        .min();
    let climate = job.climate.iter().map(|climate| climate.from.date).min();
    let earliest = [Some(job.job.begins), noted, climate]
        .into_iter()
        .flatten()
        .min();
    let today = site.at.to_zoned_datetime(zone.clone()).date();
    // A slip of the pen in one old note must not lay out calendars for decades.
    let floor = today.saturating_sub(jiff::Span::new().days(1_500));
    let day = earliest.unwrap_or(today).min(today).max(floor);
    day.yesterday().unwrap_or(day)
}
