//! Roots in words: what it is, what is known of it, what it holds up.

use grounds_schedule::{ActivityId, DateId};
use grounds_site::Subject;

use super::{Words, count, held, lower_first, reasons::sentence_part, upper_first};
use crate::{
    roots::{Cause, Root},
    task::{DateWhy, Work},
};

/// A root in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RootWords {
    /// What it is: `Stair glass is not on site`.
    pub title: String,
    /// What is known of it, and what to do next.
    pub detail: String,
    /// What it holds up: `Holds 23 activities and 6 days of the finish.`
    pub holds: String,
}

impl Words<'_> {
    /// A root in words.
    #[must_use]
    pub fn root(&self, root: &Root) -> RootWords {
        RootWords {
            title: self.cause_title(&root.cause),
            detail: self.cause_detail(&root.cause),
            holds: self.holds(root),
        }
    }

    fn holds(&self, root: &Root) -> String {
        format!("Holds {}: {}.", held(root), self.list(&root.holds, 3))
    }

    /// What a cause is.
    #[must_use]
    pub fn cause_title(&self, cause: &Cause) -> String {
        match cause {
            Cause::Arrival(id) => format!("{} not on site", self.at(*id).name),
            Cause::Hold(id) => self.hold_title(*id),
            Cause::Decision(id) => format!("{} not decided", self.at(*id).name),
            Cause::Problem(date) => self.problem_title(*date),
            Cause::HeldUp(held) => self.matter(*held).to_owned(),
            Cause::Crews(trade) => {
                let crews = self.job.trades.get(trade).map_or(1, |trade| trade.crews);
                let noun = if crews == 1 { "crew" } else { "crews" };
                let number = upper_first(&count(crews as usize));
                format!("{number} {} {noun}", lower_first(&self.trade(trade)))
            }
            Cause::Room(place) => format!("Room in the {}", lower_first(&self.place(place))),
            Cause::Drying(id) => format!("{}: drying", self.task(*id)),
            Cause::InHand(id) => format!("{}: in hand", self.task(*id)),
            Cause::Shut(id) => match &self.at(*id).work {
                Work::Shut(_) => self.task(*id),
                _ => format!("{}: floor shut", self.task(*id)),
            },
            Cause::Air(place) => format!("Air in the {}", lower_first(&self.place(place))),
            Cause::Booking(date) => self.booking_title(*date),
        }
    }

    /// What a cause is, as the subject of a sentence: `Stair glass not on site`, `That the grille sits
    /// 3 mm shy of the plaster`.
    #[must_use]
    pub fn cause_subject(&self, cause: &Cause) -> String {
        match cause {
            Cause::HeldUp(held) => format!("That {}", lower_first(self.matter(*held))),
            _ => self.cause_title(cause),
        }
    }

    /// What must be settled, without a stop.
    pub(super) fn matter(&self, held: usize) -> &str {
        let held = self.outlook.network.held.get(held);
        held.map_or("Something must be settled first", |held| &held.matter)
    }

    /// What is known of what must be settled, and both ways to do so.
    fn held_detail(&self, held: usize) -> String {
        let Some(held) = self.outlook.network.held.get(held) else {
            return String::new();
        };
        format!(
            "{} Settle it, or decide that it goes on as it is.",
            held.said
        )
    }

    fn hold_title(&self, id: ActivityId) -> String {
        let name = self.task(id);
        match self.hold_dates(id) {
            Some(DateWhy::Notice) => format!("{name}: not booked"),
            Some(DateWhy::Booked) => format!("{name}: booked"),
            _ => format!("{name}: failed"),
        }
    }

    fn hold_dates(&self, id: ActivityId) -> Option<DateWhy> {
        let network = &self.outlook.network;
        let failed = match &self.at(id).work {
            Work::Pass(hold) => network
                .find(&format!("{hold}:put-right"))
                .is_some_and(|mend| self.is_to_come(mend)),
            _ => false,
        };
        if failed {
            return None;
        }
        let index = network
            .problem
            .dates
            .iter()
            .position(|date| date.activity == id)?;
        network.date_why.get(index).cloned()
    }

    fn problem_title(&self, date: DateId) -> String {
        match self.outlook.network.date_why(date) {
            Some(DateWhy::Problem { words, subject, .. }) => self.trouble(words, subject),
            _ => "Something stands in the way".to_owned(),
        }
    }

    /// What stands in the way, by the words of its note; a note without words is named by its
    /// subject.
    pub(super) fn trouble(&self, words: &str, subject: &Subject) -> String {
        match sentence_part(words) {
            said if said.is_empty() => {
                format!("A problem with {}", lower_first(&self.subject(subject)))
            }
            said => said,
        }
    }

    fn booking_title(&self, date: DateId) -> String {
        let Some(DateWhy::Booking(index)) = self.outlook.network.date_why(date) else {
            return "A booking".to_owned();
        };
        let why = self
            .job
            .bookings
            .get(*index)
            .and_then(|booking| booking.why.as_deref());
        why.map_or_else(|| "A booking".to_owned(), sentence_part)
    }

    fn cause_detail(&self, cause: &Cause) -> String {
        let plan = &self.outlook.plan;
        match cause {
            Cause::Arrival(id) | Cause::Decision(id) => self.dates_detail(*id),
            Cause::Hold(id) => self.hold_detail(*id),
            Cause::Problem(date) => self.problem_detail(*date),
            Cause::HeldUp(held) => self.held_detail(*held),
            Cause::Crews(trade) => self.crews_detail(trade),
            Cause::Room(_) => "Crews take turns there.".to_owned(),
            Cause::Drying(id) => {
                format!("Done {}.", self.when(plan.finishes[id.index()]))
            }
            Cause::InHand(id) => {
                format!("Should end {}.", self.when(plan.finishes[id.index()]))
            }
            Cause::Shut(id) => match &self.at(*id).work {
                Work::Shut(_) => sentence_part(&self.at(*id).where_) + ".",
                _ => format!("Worked on until {}.", self.when(plan.finishes[id.index()])),
            },
            Cause::Air(_) => "Too cold or too damp for the work by its limits; hours outside \
                              them do not count. Heat, dry and ventilate."
                .to_owned(),
            Cause::Booking(date) => {
                let date = self.outlook.network.problem.dates.get(date.index());
                date.map_or_else(String::new, |date| {
                    format!("{}.", upper_first(&self.when(date.at)))
                })
            }
        }
    }

    /// Why a hold failed, by its note, and when it can be tried again.
    fn hold_detail(&self, id: ActivityId) -> String {
        let dates = self.dates_detail(id);
        match self.at(id).said.as_deref().map(sentence_part) {
            Some(said) if !said.is_empty() => format!("{said}. {dates}"),
            _ => dates,
        }
    }

    fn dates_detail(&self, id: ActivityId) -> String {
        let network = &self.outlook.network;
        let dates = network.problem.dates.iter().enumerate();
        let sentences: Vec<String> = dates
            .filter(|(_, date)| date.activity == id)
            .map(|(index, _)| self.date_sentence(id, index))
            .collect();
        if sentences.is_empty() {
            return format!(
                "Planned for {}.",
                self.when(self.outlook.plan.starts[id.index()])
            );
        }
        sentences.join(" ")
    }

    fn date_sentence(&self, id: ActivityId, index: usize) -> String {
        self.reason(id, &grounds_schedule::Reason::Date(DateId::from(index)))
    }

    fn problem_detail(&self, date: DateId) -> String {
        let network = &self.outlook.network;
        let Some(DateWhy::Problem {
            subject, assumed, ..
        }) = network.date_why(date)
        else {
            return String::new();
        };
        let at = network
            .problem
            .dates
            .get(date.index())
            .map_or(0, |date| date.at);
        let about = self.subject(subject);
        if *assumed {
            format!(
                "{about}. Nobody said until when; the plan takes {}.",
                self.when(at)
            )
        } else {
            format!("{about}, until {}.", self.when(at))
        }
    }

    fn crews_detail(&self, trade: &grounds_model::Id) -> String {
        let work: Vec<ActivityId> = self
            .outlook
            .of_trade(trade)
            .into_iter()
            .filter(|&id| !self.is_to_come(id))
            .collect();
        if work.is_empty() {
            return "More work could go on at the same time than there are crews.".to_owned();
        }
        format!("Now on {}.", self.list(&work, 2))
    }

    /// What a note is about, in words.
    #[must_use]
    pub fn subject(&self, subject: &Subject) -> String {
        let job = self.job;
        let named = match subject {
            Subject::Layer(key) => self
                .outlook
                .network
                .find(&key.to_string())
                .map(|id| self.task(id)),
            Subject::Piece(id) => job.pieces.get(id).map(|piece| piece.name.clone()),
            Subject::Hold(id) => job.holds.get(id).map(|hold| hold.name.clone()),
            Subject::Opening(id) => job.openings.get(id).map(|opening| opening.name.clone()),
            Subject::Place(id) | Subject::Passage(id) => Some(self.place(id)),
            Subject::Trade(id) => Some(self.trade(id)),
            Subject::Decision(id) => job.decisions.get(id).map(|decision| decision.name.clone()),
            Subject::Milestone(id) => job.milestones.get(id).map(|m| m.name.clone()),
            Subject::Control(id) => job.controls.get(id).map(|control| control.name.clone()),
            Subject::Line(id) => job.lines.get(id).map(|line| line.name.clone()),
            Subject::Job => Some(job.job.name.clone()),
        };
        named.unwrap_or_else(|| format!("{subject:?}"))
    }
}
