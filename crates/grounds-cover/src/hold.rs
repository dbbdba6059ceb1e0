//! How a test or an inspection stands.

use grounds_model::{Hold, Id, Job, Moment};
use grounds_schedule::{ActivityId, Tick};
use grounds_sequence::{Network, Outlook, TaskState, notice};
use grounds_site::{Kind, Note, Site, State, Subject, Value};
use jiff::civil::Date;

use crate::{
    evidence::Said,
    hides::{covers_named, looks_at},
};

/// An inspector who comes at a time can be kept waiting this long: an hour.
const SOME_SLACK: Tick = grounds_schedule::HOUR;

/// How a hold stands.
#[derive(Clone, Debug, PartialEq)]
pub enum HoldState {
    /// It passed.
    Passed(Said),
    /// It failed; it was put right since where somebody says so.
    Failed {
        /// The last fail.
        said: Said,
        /// What says that it was put right.
        mended: Option<Said>,
        /// The last day to book it again, where it has to be booked.
        book_by: Option<Date>,
    },
    /// It is booked for a day that is to come.
    Booked {
        /// For when.
        on: Moment,
        /// Who says so, and when.
        said: Said,
    },
    /// The day it was booked for went by without a word of it.
    NothingHeard {
        /// The day.
        on: Moment,
        /// The last day to book it again, where it has to be booked.
        book_by: Option<Date>,
    },
    /// It has to be booked.
    ToBook {
        /// The last day to book it for what waits for it.
        by: Date,
    },
    /// A test was set up and stands.
    Stands {
        /// Since when.
        since: Said,
        /// When it can be read, by the plan.
        until: Tick,
    },
    /// What it looks at is not there yet.
    Waiting,
    /// It can be had now.
    Due,
}

/// How a hold stands, and what is to be said of its booking.
#[derive(Clone, Debug, PartialEq)]
pub struct HoldLook {
    /// The hold.
    pub id: Id,
    /// How it stands.
    pub state: HoldState,
    /// How often it failed.
    pub fails: usize,
    /// When it is planned.
    pub planned: Option<Tick>,
    /// The first day that can be had where the day it is booked for is too soon for the notice that
    /// was given.
    pub too_soon: Option<Date>,
    /// The day it was booked for before that.
    pub moved_from: Option<Moment>,
    /// When the plan has it ready, where that is after the day it is booked for.
    pub not_ready_until: Option<Tick>,
    /// What it looks at that is not there yet.
    pub waits_for: Vec<Subject>,
    /// The work that waits for it and starts first.
    pub first_waiting: Option<ActivityId>,
}

/// How a hold of a job stands; nothing where there is none of that key.
#[must_use]
pub fn look_at(job: &Job, site: &Site, outlook: &Outlook, id: &Id) -> Option<HoldLook> {
    let hold = job.holds.get(id)?;
    let look = Look {
        job,
        site,
        network: &outlook.network,
        outlook,
        hold,
        state: site.state(&Subject::Hold(id.clone())),
    };
    Some(look.at(id))
}

struct Look<'a> {
    job: &'a Job,
    site: &'a Site,
    network: &'a Network,
    outlook: &'a Outlook,
    hold: &'a Hold,
    state: State,
}

impl Look<'_> {
    fn at(&self, id: &Id) -> HoldLook {
        let waits_for: Vec<Subject> = looks_at(self.job, self.hold)
            .into_iter()
            .filter(|subject| !self.is_done(subject))
            .collect();
        let pass = self.network.find(id.as_str());
        let planned = pass.and_then(|pass| self.outlook.plan.starts.get(pass.index()).copied());
        let first_waiting = self.first_waiting();
        let state = self.stands(&waits_for, planned, first_waiting);
        let booked = match &state {
            HoldState::Booked { on, said } => Some((*on, said)),
            _ => None,
        };
        let too_soon = booked.and_then(|(on, said)| {
            let told = self.day(said.at);
            let first = notice::first_day(self.job, self.hold, told);
            (self.hold.notice.is_some() && on.date < first).then_some(first)
        });
        let clock = &self.network.clock;
        let not_ready_until = booked
            .zip(planned)
            .filter(|((on, _), planned)| *planned >= clock.ending(*on).saturating_add(SOME_SLACK))
            .map(|(_, planned)| planned);
        HoldLook {
            id: id.clone(),
            fails: self
                .notes()
                .filter(|note| note.kind == Kind::Failed)
                .count(),
            planned,
            too_soon,
            moved_from: booked.and_then(|(on, _)| self.booked_before(on)),
            not_ready_until,
            waits_for,
            first_waiting,
            state,
        }
    }

    fn stands(
        &self,
        waits_for: &[Subject],
        planned: Option<Tick>,
        first_waiting: Option<ActivityId>,
    ) -> HoldState {
        let said = |seen: grounds_site::Seen| Said::by_id(self.site, seen.note);
        let since_fail =
            |seen: &grounds_site::Seen| self.state.failed.is_none_or(|fail| seen.at > fail.at);
        if let Some(passed) = self.state.done.and_then(said) {
            return HoldState::Passed(passed);
        }
        let started = self.state.started.filter(since_fail).and_then(said);
        if let (Some(since), Some(_)) = (started, self.hold.stands) {
            let until = planned.unwrap_or_else(|| self.network.now_tick());
            return HoldState::Stands { since, until };
        }
        let booked = self.state.promised.filter(|(_, seen)| since_fail(seen));
        if let Some((on, seen)) = booked {
            if on.date < self.day(self.network.now) {
                let book_by = self.book_by(planned, first_waiting);
                return HoldState::NothingHeard { on, book_by };
            }
            if let Some(said) = said(seen) {
                return HoldState::Booked { on, said };
            }
        }
        let told = self.state.ordered.is_some_and(|seen| since_fail(&seen));
        let book_by = self.book_by(planned, first_waiting).filter(|_| !told);
        if let Some(failed) = self.state.failed.and_then(said) {
            let mended = self.state.mended.and_then(said);
            return HoldState::Failed {
                said: failed,
                mended,
                book_by,
            };
        }
        match book_by {
            Some(by) => HoldState::ToBook { by },
            None if waits_for.is_empty() => HoldState::Due,
            None => HoldState::Waiting,
        }
    }

    /// The last day to book it: before what waits for it starts, or at least before it is planned.
    fn book_by(&self, planned: Option<Tick>, waiting: Option<ActivityId>) -> Option<Date> {
        self.hold.notice?;
        let start = waiting.and_then(|id| self.outlook.plan.starts.get(id.index()).copied());
        let at = planned.or(start)?;
        let clock = &self.network.clock;
        let day = notice::last_day_to_book(self.job, self.hold, clock.day(at));
        Some(day.max(self.day(self.network.now)))
    }

    /// The work that waits for it, the first to start.
    fn first_waiting(&self) -> Option<ActivityId> {
        let covers = self
            .hold
            .before
            .iter()
            .flat_map(|about| covers_named(self.job, about));
        let keys: Vec<String> = covers.map(|cover| cover.subject().to_string()).collect();
        let is_it = |work: &grounds_sequence::Work| match work {
            grounds_sequence::Work::Layer(layers) => {
                layers.iter().any(|key| keys.contains(&key.to_string()))
            }
            grounds_sequence::Work::Set(id) => keys.iter().any(|key| key == id.as_str()),
            _ => false,
        };
        let tasks = self.network.tasks.iter().enumerate();
        tasks
            .filter(|(_, task)| task.state != TaskState::Done && is_it(&task.work))
            .map(|(index, _)| ActivityId::from(index))
            .min_by_key(|id| self.outlook.plan.starts.get(id.index()).copied())
    }

    fn is_done(&self, subject: &Subject) -> bool {
        let key = subject.to_string();
        let is_it = |work: &grounds_sequence::Work| match work {
            grounds_sequence::Work::Layer(layers) => {
                layers.iter().any(|layer| layer.to_string() == key)
            }
            grounds_sequence::Work::Set(id) => id.as_str() == key,
            _ => false,
        };
        let noted = self
            .site
            .states
            .get(subject)
            .is_some_and(|s| s.done.is_some());
        let mut tasks = self.network.tasks.iter();
        noted || tasks.any(|task| task.state == TaskState::Done && is_it(&task.work))
    }

    fn notes(&self) -> impl Iterator<Item = &Note> {
        let ids = self.state.notes.iter();
        ids.filter_map(|id| self.site.notes.get(id))
    }

    /// The day it was booked for before the one that stands, since it last failed.
    fn booked_before(&self, on: Moment) -> Option<Moment> {
        let mut days: Vec<Moment> = Vec::new();
        for note in self.notes() {
            match (&note.kind, &note.value) {
                (Kind::Failed, _) => days.clear(),
                (Kind::Ordered | Kind::Promised, Some(Value::When(day))) => days.push(*day),
                _ => {}
            }
        }
        days.into_iter().rev().find(|day| *day != on)
    }

    fn day(&self, at: jiff::Timestamp) -> Date {
        let clock = &self.network.clock;
        clock.day(clock.floor(at))
    }
}
