//! What would be different: the note that says it, or the days that the job would close.

use grounds_model::{Closed, Id, Job, Moment, Ref, Target};
use grounds_schedule::Tick;
use grounds_site::{Kind, Note, Subject, Value, fold};
use jiff::{Span, civil::Date};
use uuid::Builder;

use super::{Different, WhatIf, WhatIfError, fails};
use crate::{
    outlook::Outlook,
    task::{TaskState, Work},
};

/// Who is given as the writer of a note that nobody wrote.
const NOBODY: &str = "What if";

/// What is said of a trade that does not come.
const AWAY: &str = "Away";

/// What would be different if it happened.
pub(super) fn different(
    job: &Job,
    notes: &[Note],
    outlook: &Outlook,
    what: &WhatIf,
) -> Result<Different, WhatIfError> {
    let supposing = Supposing {
        job,
        notes,
        outlook,
    };
    match what {
        WhatIf::Arrives { piece, on } => supposing.arrives(piece, *on),
        WhatIf::Decided { decision, on } => supposing.decided(decision, *on),
        WhatIf::Later { about, days } => supposing.later(about, *days),
        WhatIf::Away { trade, from, to } => supposing.away(trade, *from, *to),
        WhatIf::Fails { hold } => supposing.fails(hold),
        WhatIf::Damaged { about } => supposing.damaged(about),
    }
}

struct Supposing<'a> {
    job: &'a Job,
    notes: &'a [Note],
    outlook: &'a Outlook,
}

impl Supposing<'_> {
    fn today(&self) -> Date {
        let network = &self.outlook.network;
        network.clock.day(network.now_tick())
    }

    /// A note of this moment, under an id that stands in for a real one.
    fn note(&self, about: impl Into<Ref>, kind: Kind) -> Note {
        let now = self.outlook.network.now;
        let millis = u64::try_from(now.as_millisecond()).unwrap_or(0);
        let id = Builder::from_unix_timestamp_millis(millis, &[0; 10]).into_uuid();
        Note::new(id, now, NOBODY, about, kind)
    }

    fn promised(&self, about: &Id, on: Moment) -> Different {
        let note = self.note(about.as_str(), Kind::Promised);
        Different::Notes(vec![note.with_value(Value::When(on))])
    }

    fn arrives(&self, piece: &Id, on: Moment) -> Result<Different, WhatIfError> {
        let Some(design) = self.job.pieces.get(piece) else {
            return Err(unknown("piece", piece));
        };
        self.not_past(on.date)?;
        let state = self
            .outlook
            .network
            .find(&format!("{piece}:arrive"))
            .map(|id| self.outlook.network.tasks[id.index()].state);
        if state == Some(TaskState::Done) || self.is_over(piece) {
            return Err(WhatIfError::new(
                format!("{} is on site already", design.name),
                "name a piece that is still to come",
            ));
        }
        Ok(self.promised(piece, on))
    }

    fn decided(&self, decision: &Id, on: Moment) -> Result<Different, WhatIfError> {
        let Some(design) = self.job.decisions.get(decision) else {
            return Err(unknown("decision", decision));
        };
        self.not_past(on.date)?;
        if self.is_over(decision) {
            return Err(WhatIfError::new(
                format!("{} is decided already", design.name),
                "name a decision that is still open",
            ));
        }
        Ok(self.promised(decision, on))
    }

    /// So many days after the day that the plan has for it.
    fn later(&self, about: &Id, days: u32) -> Result<Different, WhatIfError> {
        let network = &self.outlook.network;
        let key = if self.job.pieces.contains_key(about) {
            format!("{about}:arrive")
        } else {
            about.to_string()
        };
        let planned = network
            .find(&key)
            .filter(|id| network.tasks[id.index()].state == TaskState::ToCome)
            .filter(|id| {
                let work = &network.tasks[id.index()].work;
                matches!(work, Work::Arrive(_) | Work::Decide(_) | Work::Pass(_))
            });
        let Some(id) = planned else {
            return Err(WhatIfError::new(
                format!("{about} is nothing that is still to come, to be decided or to be tested"),
                "name a piece, a decision or a hold of the job",
            ));
        };
        let day = network.clock.day(self.outlook.plan.starts[id.index()]);
        let date = day
            .checked_add(Span::new().days(i64::from(days)))
            .map_err(|_| {
                WhatIfError::new(
                    format!("{days} days is too long"),
                    "write a few days or weeks",
                )
            })?;
        Ok(self.promised(about, Moment { date, time: None }))
    }

    /// From today a note can say it; from a later day on the job closes those days for the trade.
    fn away(&self, trade: &Id, from: Date, to: Date) -> Result<Different, WhatIfError> {
        if !self.job.trades.contains_key(trade) {
            return Err(unknown("trade", trade));
        }
        if to < from {
            return Err(WhatIfError::new(
                format!("{to} is before {from}"),
                "write the first day first",
            ));
        }
        self.not_past(to)?;
        if from <= self.today() {
            let back = to.tomorrow().unwrap_or(to);
            let until = Value::When(Moment {
                date: back,
                time: None,
            });
            let note = self
                .note(trade.as_str(), Kind::Problem)
                .with_value(until)
                .with_words(AWAY);
            return Ok(Different::Notes(vec![note]));
        }
        self.closed(trade, from, to)
    }

    fn closed(&self, trade: &Id, from: Date, to: Date) -> Result<Different, WhatIfError> {
        let mut job = self.job.clone();
        let own = job
            .trades
            .get(trade)
            .and_then(|trade| trade.calendar.clone());
        let usual = own.unwrap_or_else(|| job.job.calendar.clone());
        let Some(mut week) = job.calendars.get(&usual).cloned() else {
            return Err(unknown("calendar", &usual));
        };
        week.closed.push(Closed {
            from,
            to: Some(to),
            why: Some(AWAY.to_owned()),
        });
        let key = Id(format!("{trade}-days"));
        let line = format!("{{ from = \"{from}\", to = \"{to}\", why = \"{AWAY}\" }}");
        let lines = vec![format!(
            "give {trade} a calendar of its own, a copy of [calendars.{usual}], and add to its \
             closed days: {line}"
        )];
        job.calendars.insert(key.clone(), week);
        if let Some(trade) = job.trades.get_mut(trade) {
            trade.calendar = Some(key);
        }
        Ok(Different::Job(Box::new(job), lines))
    }

    fn fails(&self, hold: &Id) -> Result<Different, WhatIfError> {
        let Some(design) = self.job.holds.get(hold) else {
            return Err(unknown("hold", hold));
        };
        let network = &self.outlook.network;
        let pass = network
            .find(hold.as_str())
            .filter(|id| network.tasks[id.index()].state != TaskState::Done);
        let Some(pass) = pass else {
            return Err(WhatIfError::new(
                format!("{} has passed already", design.name),
                "name a test or an inspection that is still to come",
            ));
        };
        if self.is_tried(hold) {
            return Ok(Different::Notes(vec![
                self.note(hold.as_str(), Kind::Failed),
            ]));
        }
        Ok(Different::Network(Box::new(fails::tried_twice(
            self.job, network, hold, design, pass,
        ))))
    }

    /// Whether it is being tried, or could be tried on the day that is worked next.
    fn is_tried(&self, hold: &Id) -> bool {
        let network = &self.outlook.network;
        let set_up = network.find(&format!("{hold}:set-up"));
        let standing = set_up.is_some_and(|id| network.tasks[id.index()].state == TaskState::Done);
        let startable = |id: grounds_schedule::ActivityId| {
            let start: Option<Tick> = self.outlook.startable[id.index()];
            start.is_some()
        };
        standing || network.find(hold.as_str()).is_some_and(startable)
    }

    fn damaged(&self, about: &Ref) -> Result<Different, WhatIfError> {
        let fold = || fold(self.job, self.notes, self.outlook.network.now);
        let (here, name) = match self.job.resolve(about) {
            Some(Target::Piece(id)) => {
                let state = fold().state(&Subject::Piece(id));
                let known = [
                    state.ordered,
                    state.promised.map(|(_, seen)| seen),
                    state.shipped,
                    state.arrived,
                    state.done,
                ];
                (known.iter().any(Option::is_some), "ordered")
            }
            Some(Target::Layer(key)) => {
                let state = fold().state(&Subject::Layer(key));
                (state.done.is_some() || state.started.is_some(), "begun")
            }
            _ => {
                return Err(WhatIfError::new(
                    format!("{about} is neither a piece nor a layer"),
                    "write a piece like stair-glass or a layer like hall.walls/finish",
                ));
            }
        };
        if !here {
            return Err(WhatIfError::new(
                format!("{about} is not {name} yet, so nothing of it can be damaged"),
                "name what is there",
            ));
        }
        let note = self.note(about.as_str(), Kind::Damaged);
        Ok(Different::Notes(vec![note]))
    }

    fn is_over(&self, key: &Id) -> bool {
        let network = &self.outlook.network;
        network
            .find(key.as_str())
            .is_some_and(|id| network.tasks[id.index()].state == TaskState::Done)
    }

    fn not_past(&self, day: Date) -> Result<(), WhatIfError> {
        let today = self.today();
        if day < today {
            return Err(WhatIfError::new(
                format!("{day} is past"),
                format!("write today, {today}, or a later day"),
            ));
        }
        Ok(())
    }
}

fn unknown(kind: &str, id: &Id) -> WhatIfError {
    WhatIfError::new(
        format!("the job has no {kind} {id}"),
        "write its key as the job document has it",
    )
}
