//! Dates that come from notes of trouble, from what must be settled and from bookings, and ways that
//! trouble shuts.

use grounds_model::{Id, Ref};
use grounds_schedule::{
    Activity, ActivityId, Clock as On, Closure, End, Fact, Moment, Promise, Side, Tick, Tread,
};
use grounds_site::{Problem as Trouble, Subject};

use super::builder::Builder;
use crate::{
    held::Holds,
    task::{DateWhy, Task, TaskState, Work},
};

/// Cents that a day's move of a promised start is reckoned at.
const PROMISE_CENTS: i64 = 5_000;

impl Builder<'_> {
    /// Places and passages that a problem shuts, from when it was seen until it is cleared.
    pub(super) fn add_shut_ways(&mut self) {
        let troubled: Vec<(Id, String, Trouble)> = self
            .site
            .states
            .iter()
            .filter_map(|(subject, state)| match subject {
                Subject::Passage(id) | Subject::Place(id) => Some((id, state)),
                _ => None,
            })
            .flat_map(|(id, state)| {
                let name = self.way_name(id);
                state
                    .problems
                    .iter()
                    .map(move |trouble| (id.clone(), name.clone(), trouble.clone()))
            })
            .collect();
        for (index, (id, name, trouble)) in troubled.into_iter().enumerate() {
            self.shut_way(index, &id, name, &trouble);
        }
    }

    fn shut_way(&mut self, index: usize, id: &Id, name: String, trouble: &Trouble) {
        let Some(node) = self.ways.node(id) else {
            return;
        };
        let from = self.seen(trouble.seen);
        let until = self.end_of(trouble).max(from);
        let moment = |after: Tick| Moment {
            end: End::Start,
            after,
            clock: On::Elapsed,
        };
        let closure = Closure {
            node,
            from: moment(0),
            until: moment(until - from),
            bars: Tread::Light,
        };
        let activity = Activity {
            closes: vec![closure],
            fact: Fact::Done { from, until: from },
            ..Activity::default()
        };
        let task = Task {
            key: format!("{id}:shut-{index}"),
            work: Work::Shut(id.clone()),
            place: self.job.places.contains_key(id).then(|| id.clone()),
            face: None,
            trade: None,
            name,
            where_: trouble.words.clone(),
            material: None,
            state: TaskState::Done,
            share: 100,
            limited_by_air: false,
            said: None,
        };
        self.add(activity, task, None);
    }

    fn way_name(&self, id: &Id) -> String {
        if let Some(place) = self.job.places.get(id) {
            return place.name.clone();
        }
        let passage = self.job.passages.get(id);
        passage
            .and_then(|passage| passage.name.clone())
            .unwrap_or_else(|| id.to_string())
    }

    /// When a problem ends: as said, or on the next working day if nobody said.
    fn end_of(&self, trouble: &Trouble) -> Tick {
        let said = trouble.until.map(|until| self.clock.beginning(until));
        said.filter(|&at| at > self.problem.now)
            .unwrap_or_else(|| self.next_working_day())
    }

    pub(super) fn add_problem_dates(&mut self) {
        let site = self.site;
        for (subject, state) in &site.states {
            for trouble in &state.problems {
                for id in self.troubled_by(subject) {
                    let why = DateWhy::Problem {
                        words: trouble.words.clone(),
                        subject: subject.clone(),
                        assumed: trouble.until.is_none(),
                        note: trouble.seen.note,
                    };
                    let at = self.end_of(trouble);
                    self.date(id, End::Start, Side::NotBefore, at, why);
                }
            }
        }
    }

    fn troubled_by(&self, subject: &Subject) -> Vec<ActivityId> {
        let one = |task: Option<&ActivityId>| task.copied().into_iter().collect();
        match subject {
            Subject::Layer(key) => one(self.layer_task.get(key)),
            Subject::Piece(id) => one(self.set.get(id)),
            Subject::Hold(id) => one(self.hold_first.get(id)),
            Subject::Decision(id) => one(self.decide.get(id)),
            Subject::Trade(id) => self.tasks_of(&Ref(id.0.clone())),
            _ => Vec::new(),
        }
    }

    /// What must be settled keeps back what it holds: orders go out, and work starts, on the next
    /// working day at the earliest.
    pub(super) fn add_held_dates(&mut self) {
        let all = self.held;
        for (index, held) in all.iter().enumerate() {
            let mut dates: Vec<(ActivityId, Tick)> = Vec::new();
            for holds in &held.holds {
                match holds {
                    Holds::Order(piece) => dates.extend(self.ordered_later(piece)),
                    Holds::Work(work) => {
                        let at = self.next_working_day();
                        dates.extend(self.tasks_of(work).into_iter().map(|id| (id, at)));
                    }
                }
            }
            dates.sort_unstable();
            dates.dedup();
            for (id, at) in dates {
                self.date(id, End::Start, Side::NotBefore, at, DateWhy::HeldUp(index));
            }
        }
    }

    pub(super) fn add_bookings(&mut self) {
        let job = self.job;
        for (index, booking) in job.bookings.iter().enumerate() {
            for id in self.tasks_of(&booking.work) {
                if let Some(moment) = booking.not_before {
                    let at = self.clock.beginning(moment);
                    self.date(id, End::Start, Side::NotBefore, at, DateWhy::Booking(index));
                }
                if let Some(moment) = booking.not_after {
                    let at = self.clock.ending(moment);
                    self.date(id, End::Finish, Side::NotAfter, at, DateWhy::Booking(index));
                }
                if let Some(moment) = booking.promised {
                    self.promise(id, self.clock.beginning(moment));
                }
            }
        }
    }

    fn promise(&mut self, activity: ActivityId, at: Tick) {
        if self.is_open(activity) && at >= self.problem.now {
            self.problem.promises.push(Promise {
                activity,
                at,
                day_cents: PROMISE_CENTS,
            });
        }
    }
}
