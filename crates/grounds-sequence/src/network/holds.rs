//! Holds, decisions and milestones.

use grounds_measure::Span;
use grounds_model::{Hold, Id, LayerKey, Target};
use grounds_schedule::{Activity, ActivityId, Clock as On, End, Fact, GroupId, Side, Tick};
use grounds_site::{Seen, State, Subject};

use super::builder::Builder;
use crate::{
    hours, notice,
    task::{DateWhy, LagWhy, Task, TaskState, Work},
};

/// Minutes from which time to put something right is time by the clock, not somebody's work: a day.
const BY_THE_CLOCK: u32 = 24 * 60;

impl Builder<'_> {
    pub(super) fn add_holds(&mut self) {
        let job = self.job;
        for (id, hold) in &job.holds {
            let state = self.site.state(&Subject::Hold(id.clone()));
            let mend = self.add_mending(id, hold, &state);
            let set_up = hold.stands.map(|_| self.add_set_up(id, hold, &state));
            let pass = self.add_pass(id, hold, &state);
            if let (Some(set_up), Some(stands)) = (set_up, hold.stands) {
                let stands = self.wait(stands, None);
                self.after(set_up, pass, stands, LagWhy::Stands);
            }
            let first = set_up.unwrap_or(pass);
            if let Some(mend) = mend {
                self.after(mend, first, (0, On::Elapsed), LagWhy::PutRight);
            }
            self.hold_first.insert(id.clone(), first);
            self.hold_pass.insert(id.clone(), pass);
            self.date_hold(pass, hold, &state);
        }
    }

    fn add_mending(&mut self, id: &Id, hold: &Hold, state: &State) -> Option<ActivityId> {
        let failed = state.failed?;
        let span = hold.put_right?;
        if let Span::Elapsed(BY_THE_CLOCK..) = span {
            return Some(self.add_drying_on(id, hold, state, failed));
        }
        let mender = hold.mender();
        let work = self.work_ticks(span, mender).max(1);
        let calendar = self.calendar_of(mender);
        let fact = match state.mended {
            Some(mended) if mended.at >= failed.at => self.done_fact(&State::default(), mended, 0),
            _ => Fact::Open,
        };
        let activity = Activity {
            work,
            calendar: Some(calendar),
            uses: [self.crew(mender), self.room(&hold.place)]
                .into_iter()
                .flatten()
                .collect(),
            at: self.ways.node(&hold.place),
            group: self.hold_group(hold),
            fact,
            ..Activity::default()
        };
        let task = self.hold_task(id, hold, Work::PutRight(id.clone()), mender);
        Some(self.add(activity, task, Some(calendar)))
    }

    /// What failed only needs time: it goes on by itself from the fail, and nobody is held by it.
    fn add_drying_on(&mut self, id: &Id, hold: &Hold, state: &State, failed: Seen) -> ActivityId {
        let now = self.problem.now;
        let from = self.seen(failed);
        let length = hold.put_right.map_or(0, super::builder::ticks);
        let mended = state.mended.filter(|mended| mended.at >= failed.at);
        let until = mended
            .map_or(from.saturating_add(length), |seen| self.seen(seen))
            .max(from);
        let fact = match until <= now {
            true => Fact::Done { from, until },
            false => Fact::Begun {
                at: from,
                left: until - now,
            },
        };
        let activity = Activity {
            work: length,
            fact,
            ..Activity::default()
        };
        let task = self.hold_task(id, hold, Work::PutRight(id.clone()), None);
        self.add(activity, task, None)
    }

    fn add_set_up(&mut self, id: &Id, hold: &Hold, state: &State) -> ActivityId {
        let calendar = self.calendar_of(hold.by.as_ref());
        let since_fail = state
            .started
            .filter(|started| state.failed.is_none_or(|failed| started.at > failed.at));
        let over = state.done.or(self.let_go_of(id, state));
        let fact = match (over, since_fail) {
            (_, Some(started)) => {
                let at = self.seen(started);
                Fact::Done {
                    from: at,
                    until: at,
                }
            }
            (Some(done), None) => self.done_fact(&State::default(), done, 0),
            (None, None) => Fact::Open,
        };
        let activity = Activity {
            calendar: Some(calendar),
            at: self.ways.node(&hold.place),
            group: self.hold_group(hold),
            fact,
            ..Activity::default()
        };
        let task = self.hold_task(id, hold, Work::SetUp(id.clone()), hold.by.as_ref());
        self.add(activity, task, Some(calendar))
    }

    fn add_pass(&mut self, id: &Id, hold: &Hold, state: &State) -> ActivityId {
        let calendar = self.calendar_of(hold.by.as_ref());
        let work = hold
            .takes
            .map_or(0, |span| self.work_ticks(span, hold.by.as_ref()));
        let fact = state
            .done
            .or(self.let_go_of(id, state))
            .map_or(Fact::Open, |done| self.done_fact(state, done, work));
        let uses = if work > 0 {
            self.crew(hold.by.as_ref())
        } else {
            None
        };
        let activity = Activity {
            work,
            calendar: Some(calendar),
            uses: uses.into_iter().collect(),
            at: self.ways.node(&hold.place),
            group: self.hold_group(hold),
            fact,
            ..Activity::default()
        };
        let task = self.hold_task(id, hold, Work::Pass(id.clone()), hold.by.as_ref());
        self.add(activity, task, Some(calendar))
    }

    /// A hold on one stack may walk on that stack's own drying floor, as its next layer may.
    fn hold_group(&self, hold: &Hold) -> Option<GroupId> {
        hold.after.iter().chain(&hold.before).find_map(|reference| {
            let (place, face) = match self.job.resolve(reference)? {
                Target::Layer(LayerKey { place, face, .. }) => (place, face),
                Target::Face { place, face } => (place, face),
                _ => return None,
            };
            (place == hold.place)
                .then(|| self.stack_group.get(&(place, face)).copied())
                .flatten()
        })
    }

    fn hold_task(&self, id: &Id, hold: &Hold, work: Work, trade: Option<&Id>) -> Task {
        let key = match &work {
            Work::SetUp(_) => format!("{id}:set-up"),
            Work::PutRight(_) => format!("{id}:put-right"),
            _ => id.to_string(),
        };
        let place = self.job.places.get(&hold.place);
        Task {
            key,
            work,
            place: Some(hold.place.clone()),
            face: None,
            trade: trade.cloned(),
            name: hold.name.clone(),
            where_: place.map_or_else(String::new, |place| place.name.clone()),
            material: None,
            state: TaskState::ToCome,
            share: 0,
            limited_by_air: false,
            said: self.fail_words(id),
        }
    }

    /// What was said when a hold failed, while it has not passed since.
    fn fail_words(&self, id: &Id) -> Option<String> {
        let failed = self.site.state(&Subject::Hold(id.clone())).failed?;
        self.site.notes.get(&failed.note)?.words.clone()
    }

    fn date_hold(&mut self, pass: ActivityId, hold: &Hold, state: &State) {
        let still_good = |at: jiff::Timestamp| state.failed.is_none_or(|failed| at > failed.at);
        let today = self.clock.day(self.problem.now);
        let booked_for = state.promised.filter(|(_, seen)| still_good(seen.at));
        let came = state.started.is_some_and(|seen| still_good(seen.at));
        // A booked day that went by without a word of it is taken for one on which nobody came.
        let stands = |moment: &grounds_model::Moment| came || moment.date >= today;
        if let Some((moment, _)) = booked_for.filter(|(moment, _)| stands(moment)) {
            let at = self.clock.beginning(moment);
            self.date(pass, End::Start, Side::NotBefore, at, DateWhy::Booked);
            return;
        }
        let booked = state.ordered.is_some_and(|seen| still_good(seen.at));
        if let Some(notice) = hold.notice.filter(|_| !booked || booked_for.is_some()) {
            let at = match notice {
                Span::WorkingDays(_) => self
                    .clock
                    .midnight(notice::first_day(self.job, hold, today)),
                other => self.notice_from_now(other),
            };
            self.date(pass, End::Start, Side::NotBefore, at, DateWhy::Notice);
        }
    }

    /// The first moment that can be had if notice is given now.
    fn notice_from_now(&self, notice: Span) -> Tick {
        let now = self.problem.now;
        match notice {
            Span::WorkingDays(days) => {
                let calendar = &self.job.calendars[&self.job.job.calendar];
                let day = hours::after_working_days(calendar, self.clock.day(now), days);
                self.clock.midnight(day)
            }
            other => now.saturating_add(super::builder::ticks(other)),
        }
    }

    pub(super) fn add_decisions(&mut self) {
        let job = self.job;
        for (id, decision) in &job.decisions {
            let state = self.site.state(&Subject::Decision(id.clone()));
            let fact = state
                .done
                .map_or(Fact::Open, |done| self.done_fact(&state, done, 0));
            let activity = Activity {
                calendar: Some(self.job_calendar),
                fact,
                ..Activity::default()
            };
            let task = Task {
                key: id.to_string(),
                work: Work::Decide(id.clone()),
                place: None,
                face: None,
                trade: None,
                name: decision.name.clone(),
                where_: decision.by.clone(),
                material: None,
                state: TaskState::ToCome,
                share: 0,
                limited_by_air: false,
                said: None,
            };
            let task = self.add(activity, task, Some(self.job_calendar));
            self.decide.insert(id.clone(), task);
            let now = self.problem.now;
            let promised = state
                .promised
                .map(|(moment, _)| self.clock.beginning(moment));
            let expected = decision.expected.map(|day| self.clock.midnight(day));
            let usual = decision
                .usual
                .map_or(now, |span| self.notice_from_now(span));
            let known = promised.or(expected).filter(|&at| at >= now);
            let why = DateWhy::Expected {
                assumed: known.is_none(),
            };
            self.date(
                task,
                End::Start,
                Side::NotBefore,
                known.unwrap_or(usual),
                why,
            );
        }
    }

    pub(super) fn add_milestones(&mut self) {
        let job = self.job;
        for (id, milestone) in &job.milestones {
            let state = self.site.state(&Subject::Milestone(id.clone()));
            let fact = state
                .done
                .map_or(Fact::Open, |done| self.done_fact(&state, done, 0));
            let task = Task {
                key: id.to_string(),
                work: Work::Reach(id.clone()),
                place: None,
                face: None,
                trade: None,
                name: milestone.name.clone(),
                where_: String::new(),
                material: None,
                state: TaskState::ToCome,
                share: 0,
                limited_by_air: false,
                said: None,
            };
            let needed = if milestone.after.is_empty() {
                self.everything()
            } else {
                milestone
                    .after
                    .iter()
                    .flat_map(|r| self.tasks_of(r))
                    .collect()
            };
            let reach = self.add(
                Activity {
                    fact,
                    ..Activity::default()
                },
                task,
                None,
            );
            self.reach.insert(id.clone(), reach);
            for from in needed {
                let wait = if milestone.cured {
                    self.fit_for_use(from)
                } else {
                    (0, On::Elapsed)
                };
                self.after(from, reach, wait, LagWhy::Milestone);
            }
            self.date_milestone(reach, milestone);
        }
    }

    fn date_milestone(&mut self, reach: ActivityId, milestone: &grounds_model::Milestone) {
        let Some(due) = milestone.due.filter(|_| self.is_open(reach)) else {
            return;
        };
        let at = self.clock.midnight(due.tomorrow().unwrap_or(due));
        if milestone.firm {
            self.date(reach, End::Finish, Side::NotAfter, at, DateWhy::Firm);
        }
        if let Some(cost) = milestone.cost_per_day_late {
            let due = grounds_schedule::Due {
                activity: reach,
                at,
                day_cents: cost.cents(),
            };
            self.problem.dues.push(due);
        }
    }

    fn everything(&self) -> Vec<ActivityId> {
        (0..self.tasks.len())
            .filter(|&i| !matches!(self.tasks[i].work, Work::Reach(_) | Work::Shut(_)))
            .map(ActivityId::from)
            .collect()
    }

    fn fit_for_use(&mut self, id: ActivityId) -> (Tick, On) {
        match self.tasks[id.index()].work.clone() {
            Work::Layer(keys) => keys
                .first()
                .map_or((0, On::Elapsed), |key| self.cure_wait(key)),
            Work::Set(piece) => self.set_wait(&piece),
            _ => (0, On::Elapsed),
        }
    }
}
