//! A test that fails when it is tried: it is put right, booked and tried again.

use grounds_measure::Span;
use grounds_model::{Hold, Id, Job};
use grounds_schedule::{Activity, ActivityId, Clock as On, End, Fact, Lag, ResourceId, Tick, Use};

use crate::{
    hours,
    network::Network,
    options::usual_calendar,
    task::{LagWhy, ResourceWhy, Task, Work},
};

/// Minutes from which putting right is waiting by the clock, not somebody's work: a day.
const BY_THE_CLOCK: u32 = 24 * 60;

/// The network in which a hold is tried twice, the first time for nothing.
pub(super) fn tried_twice(
    job: &Job,
    network: &Network,
    hold: &Id,
    design: &Hold,
    pass: ActivityId,
) -> Network {
    let mut twice = Twice {
        job,
        network: network.clone(),
        hold,
        design,
    };
    twice.add(pass);
    twice.network
}

struct Twice<'a> {
    job: &'a Job,
    network: Network,
    hold: &'a Id,
    design: &'a Hold,
}

impl Twice<'_> {
    fn add(&mut self, pass: ActivityId) {
        let waiting: Vec<usize> = (0..self.network.problem.lags.len())
            .filter(|&lag| self.network.problem.lags[lag].from == pass)
            .collect();
        let mend = self.mend(pass);
        let set_up = self.network.find(&format!("{}:set-up", self.hold));
        let again = self.once_more(pass, "again");
        let first = match set_up {
            Some(set_up) => {
                let second = self.once_more(set_up, "set-up-again");
                self.stand(set_up, pass, second, again);
                second
            }
            None => again,
        };
        self.after(
            mend.unwrap_or(pass),
            first,
            (0, On::Elapsed),
            LagWhy::PutRight,
        );
        if mend.is_some() {
            self.after(
                pass,
                mend.unwrap_or(pass),
                (0, On::Elapsed),
                LagWhy::PutRight,
            );
        }
        if let Some(notice) = self.design.notice {
            let wait = self.wait(notice);
            self.after(pass, again, wait, LagWhy::PutRight);
        }
        for lag in waiting {
            self.network.problem.lags[lag].from = again;
        }
    }

    /// Putting right what failed, where the hold says how long that takes.
    fn mend(&mut self, pass: ActivityId) -> Option<ActivityId> {
        let span = self.design.put_right?;
        let base = &self.network.problem.activities[pass.index()];
        let (at, group) = (base.at, base.group);
        let mender = self.design.mender().cloned();
        let by_itself = matches!(span, Span::Elapsed(BY_THE_CLOCK..));
        let calendar = match by_itself {
            true => None,
            false => mender
                .as_ref()
                .and_then(|trade| usual_calendar(&self.network, trade))
                .or(Some(self.network.job_calendar)),
        };
        let crew = mender.as_ref().filter(|_| !by_itself);
        let activity = Activity {
            work: self.work(span, crew).max(1),
            calendar,
            uses: crew
                .and_then(|trade| self.crew(trade))
                .into_iter()
                .collect(),
            at: at.filter(|_| !by_itself),
            group,
            ..Activity::default()
        };
        let task = Task {
            key: format!("{}:put-right-again", self.hold),
            work: Work::PutRight(self.hold.clone()),
            trade: crew.cloned(),
            ..self.network.tasks[pass.index()].clone()
        };
        Some(self.network.add(activity, task, calendar))
    }

    /// The same piece of work a second time.
    fn once_more(&mut self, id: ActivityId, suffix: &str) -> ActivityId {
        let activity = Activity {
            fact: Fact::Open,
            ..self.network.problem.activities[id.index()].clone()
        };
        let task = Task {
            key: format!("{}:{suffix}", self.hold),
            ..self.network.tasks[id.index()].clone()
        };
        let plain = self.network.plain_calendar[id.index()];
        self.network.add(activity, task, plain)
    }

    /// The second test stands as long as the first.
    fn stand(&mut self, from: ActivityId, to: ActivityId, second: ActivityId, again: ActivityId) {
        let lags = &self.network.problem.lags;
        let stands = lags.iter().find(|lag| lag.from == from && lag.to == to);
        if let Some(lag) = stands.copied() {
            self.lag(
                Lag {
                    from: second,
                    to: again,
                    ..lag
                },
                LagWhy::Stands,
            );
        }
    }

    fn after(&mut self, from: ActivityId, to: ActivityId, wait: (Tick, On), why: LagWhy) {
        let (min, clock) = wait;
        self.lag(
            Lag {
                from,
                from_end: End::Finish,
                to,
                to_end: End::Start,
                min: Some(min),
                max: None,
                clock,
            },
            why,
        );
    }

    fn lag(&mut self, lag: Lag, why: LagWhy) {
        self.network.problem.lags.push(lag);
        self.network.lag_why.push(why);
    }

    fn crew(&self, trade: &Id) -> Option<Use> {
        let crews = self
            .network
            .resource_why
            .iter()
            .position(|why| matches!(why, ResourceWhy::Crews(whose) if whose == trade))?;
        Some(Use {
            resource: ResourceId::from(crews),
            amount: 1,
        })
    }

    /// Work in ticks of a trade's calendar.
    fn work(&self, span: Span, trade: Option<&Id>) -> Tick {
        match span {
            Span::WorkingDays(days) => {
                let week = trade.and_then(|trade| self.job.calendar_of(trade.as_str()));
                let week = week.or_else(|| self.job.calendars.get(&self.job.job.calendar));
                week.map_or(32, hours::usual_day)
                    .saturating_mul(Tick::try_from(days).unwrap_or(Tick::MAX))
            }
            other => other
                .quarter_hours_up()
                .and_then(|quarters| Tick::try_from(quarters).ok())
                .unwrap_or(Tick::MAX / 8),
        }
    }

    /// The notice that a second visit wants, from the first on.
    fn wait(&self, span: Span) -> (Tick, On) {
        let clock = match span {
            Span::WorkingDays(_) | Span::Working(_) => On::On(self.network.job_calendar),
            Span::Elapsed(_) | Span::Counted(_) => On::Elapsed,
        };
        (self.work(span, None), clock)
    }
}
