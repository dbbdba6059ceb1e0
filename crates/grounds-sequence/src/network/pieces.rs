//! Pieces: measured, made, brought and set.

use grounds_measure::Span;
use grounds_model::{Id, Piece};
use grounds_schedule::{
    Activity, ActivityId, Clock as On, Closure, End, Fact, Moment, Side, Tick, Tread,
};
use grounds_site::{State, Subject};

use super::{builder::Builder, layers::FRAGILE_CENTS};
use crate::{
    hours,
    task::{DateWhy, LagWhy, Task, TaskState, Work},
};

/// Work to measure a piece where the job does not say, in ticks: one hour.
const MEASURING: Tick = grounds_schedule::HOUR;

impl Builder<'_> {
    pub(super) fn add_pieces(&mut self) {
        let job = self.job;
        for (id, piece) in &job.pieces {
            let state = self.site.state(&Subject::Piece(id.clone()));
            if piece.measuring.is_some() || !piece.measured_after.is_empty() {
                let measure = self.add_measure(id, piece, &state);
                self.measure.insert(id.clone(), measure);
            }
            if needs_arrival(piece, &state) {
                let arrive = self.add_arrival(id, piece, &state);
                self.arrive.insert(id.clone(), arrive);
            }
            let set = self.add_setting(id, piece, &state);
            self.set.insert(id.clone(), set);
            self.link_supply(id, piece, &state);
        }
    }

    fn add_measure(&mut self, id: &Id, piece: &Piece, state: &State) -> ActivityId {
        let trade = piece.measured_by.as_ref().unwrap_or(&piece.trade);
        let work = piece
            .measuring
            .map_or(MEASURING, |span| self.work_ticks(span, Some(trade)));
        let known = [
            state.measured,
            state.ordered,
            state.shipped,
            state.arrived,
            state.done,
        ];
        let fact = known
            .into_iter()
            .flatten()
            .next()
            .map_or(Fact::Open, |seen| {
                self.done_fact(&State::default(), seen, work)
            });
        let calendar = self.calendar_of(Some(trade));
        let activity = Activity {
            work: work.max(1),
            calendar: Some(calendar),
            uses: self.crew(Some(trade)).into_iter().collect(),
            at: self.ways.node(&piece.place),
            fact,
            ..Activity::default()
        };
        let task = self.piece_task(id, piece, Work::Measure(id.clone()), Some(trade));
        self.add(activity, task, Some(calendar))
    }

    fn add_arrival(&mut self, id: &Id, piece: &Piece, state: &State) -> ActivityId {
        let fact = state.arrived.or(state.done).map_or(Fact::Open, |seen| {
            self.done_fact(&State::default(), seen, 0)
        });
        let place = piece.kept_in.as_ref().unwrap_or(&piece.place);
        let activity = Activity {
            calendar: Some(self.job_calendar),
            at: self.ways.node(place),
            tread: tread(piece),
            fact,
            ..Activity::default()
        };
        let mut task = self.piece_task(id, piece, Work::Arrive(id.clone()), None);
        task.place = Some(place.clone());
        self.add(activity, task, Some(self.job_calendar))
    }

    fn add_setting(&mut self, id: &Id, piece: &Piece, state: &State) -> ActivityId {
        let work = self.work_ticks(piece.takes, Some(&piece.trade)).max(1);
        let calendar = self.calendar_of(Some(&piece.trade));
        let progress = state.progress.filter(|(share, _)| share.hundredths() > 0);
        let fact = match (state.done, state.started, progress) {
            (Some(done), _, _) => self.done_fact(state, done, work),
            (None, Some(started), None) => {
                let at = self.seen(started);
                self.begun_fact(at, 0.0, at, work, calendar)
            }
            (None, started, Some((share, told))) => {
                let at = self.seen(started.unwrap_or(told));
                let share = (f64::from(share.hundredths()) / 10_000.0).min(1.0);
                self.begun_fact(at, share, self.seen(told), work, calendar)
            }
            (None, None, None) => Fact::Open,
        };
        let zone = self.zone_of(&piece.place).filter(|_| piece.dusty);
        let activity = Activity {
            work,
            calendar: Some(calendar),
            uses: [self.crew(Some(&piece.trade)), self.room(&piece.place)]
                .into_iter()
                .flatten()
                .collect(),
            at: self.ways.node(&piece.place),
            tread: tread(piece),
            closes: self.shut_while_set(piece),
            dusty: zone,
            fact,
            fragile_cents: if piece.fragile { FRAGILE_CENTS } else { 0 },
            ..Activity::default()
        };
        let mut task = self.piece_task(id, piece, Work::Set(id.clone()), Some(&piece.trade));
        task.share = progress.map_or(0, |(share, _)| {
            u8::try_from(share.hundredths() / 100)
                .unwrap_or(100)
                .min(100)
        });
        self.add(activity, task, Some(calendar))
    }

    fn shut_while_set(&self, piece: &Piece) -> Vec<Closure> {
        let moment = |end| Moment {
            end,
            after: 0,
            clock: On::Elapsed,
        };
        piece
            .shuts
            .iter()
            .filter_map(|id| self.ways.node(id))
            .map(|node| Closure {
                node,
                from: moment(End::Start),
                until: moment(End::Finish),
                bars: Tread::Light,
            })
            .collect()
    }

    fn piece_task(&self, id: &Id, piece: &Piece, work: Work, trade: Option<&Id>) -> Task {
        let key = match &work {
            Work::Measure(_) => format!("{id}:measure"),
            Work::Arrive(_) => format!("{id}:arrive"),
            _ => id.to_string(),
        };
        let place = self.job.places.get(&piece.place);
        Task {
            key,
            work,
            place: Some(piece.place.clone()),
            face: piece.face.clone(),
            trade: trade.cloned(),
            name: piece.name.clone(),
            where_: place.map_or_else(String::new, |place| place.name.clone()),
            material: piece.material,
            state: TaskState::ToCome,
            share: 0,
            limited_by_air: false,
            said: None,
        }
    }

    /// Decision → measure → order → arrival → setting.
    fn link_supply(&mut self, id: &Id, piece: &Piece, state: &State) {
        let set = self.set[id];
        let arrive = self.arrive.get(id).copied();
        let measure = self.measure.get(id).copied();
        let decide = piece
            .decision
            .as_ref()
            .and_then(|decision| self.decide.get(decision).copied());
        if let Some(arrive) = arrive {
            self.after(arrive, set, (0, On::Elapsed), LagWhy::OnSite);
        }
        if !is_ordered(state) {
            let lead = piece
                .lead
                .map_or((0, On::Elapsed), |lead| self.wait(lead.likely(), None));
            let made = arrive.unwrap_or(set);
            if let Some(measure) = measure.filter(|&m| !self.is_done(m)) {
                self.after(measure, made, lead, LagWhy::MadeAfterMeasure);
            }
            if let Some(decide) = decide.filter(|&d| !self.is_done(d)) {
                self.after(decide, made, lead, LagWhy::OrderedAfterDecision);
            }
        } else if let Some(decide) = decide.filter(|_| arrive.is_none()) {
            self.after(decide, set, (0, On::Elapsed), LagWhy::Decision);
        }
        if let Some(arrive) = arrive.filter(|&arrive| self.is_open(arrive)) {
            self.date_arrival(arrive, piece, state);
        }
    }

    fn date_arrival(&mut self, arrive: ActivityId, piece: &Piece, state: &State) {
        let now = self.problem.now;
        let promised = state.promised.filter(|(_, seen)| counts(state, seen.at));
        let (at, why) = if let Some((moment, _)) = promised {
            (self.clock.beginning(moment), DateWhy::Promised)
        } else if is_ordered(state) {
            let ordered = state
                .ordered
                .or(state.shipped)
                .map_or(now, |seen| self.seen(seen));
            (self.lead_from(ordered, piece), DateWhy::FromOrder)
        } else {
            (self.lead_from(now, piece), DateWhy::IfOrderedToday)
        };
        let today = self.clock.midnight(self.clock.day(now));
        let (at, why) = if at < today {
            (self.next_working_day(), DateWhy::Overdue)
        } else {
            (at, why)
        };
        self.date(arrive, End::Start, Side::NotBefore, at, why);
    }

    /// The arrival of a piece that is still to be ordered, and when it would come if it were ordered on
    /// the next working day.
    pub(super) fn ordered_later(&self, id: &Id) -> Option<(ActivityId, Tick)> {
        let piece = self.job.pieces.get(id)?;
        let arrive = *self.arrive.get(id)?;
        let state = self.site.state(&Subject::Piece(id.clone()));
        let from = self.next_working_day();
        (!is_ordered(&state)).then(|| (arrive, self.lead_from(from, piece)))
    }

    fn lead_from(&self, from: Tick, piece: &Piece) -> Tick {
        let lead = piece.lead.map_or(Span::ZERO, |lead| lead.likely());
        match lead {
            Span::WorkingDays(days) => {
                let calendar = &self.job.calendars[&self.job.job.calendar];
                let day = hours::after_working_days(calendar, self.clock.day(from), days);
                self.clock.midnight(day)
            }
            other => from.saturating_add(super::builder::ticks(other)),
        }
    }

    /// The beginning of the next day that the job works.
    pub(super) fn next_working_day(&self) -> Tick {
        let calendar = &self.job.calendars[&self.job.job.calendar];
        let today = self.clock.day(self.problem.now);
        self.clock
            .midnight(hours::after_working_days(calendar, today, 1))
    }
}

fn needs_arrival(piece: &Piece, state: &State) -> bool {
    piece.lead.is_some()
        || state.ordered.is_some()
        || state.promised.is_some()
        || state.shipped.is_some()
        || state.arrived.is_some()
}

/// Whether an order stands: one placed before the piece was damaged does not count any more.
fn is_ordered(state: &State) -> bool {
    let known = [
        state.ordered,
        state.promised.map(|(_, seen)| seen),
        state.shipped,
        state.arrived,
    ];
    known
        .into_iter()
        .flatten()
        .any(|seen| counts(state, seen.at))
}

fn counts(state: &State, at: jiff::Timestamp) -> bool {
    state.damaged.is_none_or(|damaged| at >= damaged.at)
}

fn tread(piece: &Piece) -> Tread {
    if piece.heavy {
        Tread::Heavy
    } else {
        Tread::Boots
    }
}
