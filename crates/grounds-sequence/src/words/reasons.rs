//! Why a piece of work does not begin sooner.

use grounds_schedule::{ActivityId, DateId, LagId, Reason, ResourceId, Tick};

use super::{Words, count, elapsed_words, lower_first, upper_first};
use crate::task::{DateWhy, LagWhy, ResourceWhy};

impl Words<'_> {
    /// Why a piece of work does not begin sooner, one sentence for each reason.
    #[must_use]
    pub fn reasons(&self, id: ActivityId) -> Vec<String> {
        let reasons = self
            .outlook
            .reasons
            .get(id.index())
            .map_or(&[][..], Vec::as_slice);
        let mut sentences: Vec<String> = reasons
            .iter()
            .map(|reason| self.reason(id, reason))
            .collect();
        sentences.dedup();
        sentences
    }

    /// One reason as a sentence.
    #[must_use]
    pub fn reason(&self, id: ActivityId, reason: &Reason) -> String {
        match reason {
            Reason::Lag(lag) => self.lag_reason(id, *lag),
            Reason::Crew { resource, held_by } => self.crew_reason(*resource, held_by),
            Reason::ShutOff { by } => {
                format!(
                    "There is no way in: {} {} it shut until then.",
                    self.list(by, 2),
                    keeps(by)
                )
            }
            Reason::WouldShutOff { others } => {
                format!(
                    "It would cut off {} while they are worked on.",
                    self.list(others, 3)
                )
            }
            Reason::Dust { with } => {
                format!("Dust: it shares its air with {}.", self.list(with, 2))
            }
            Reason::Date(date) => self.date_reason(id, *date),
            Reason::Now => "Nothing stands in its way.".to_owned(),
            Reason::Shift => {
                "It must not stop overnight, and would not fit what is left of the day before."
                    .to_owned()
            }
            Reason::Hours => "Nobody of its trade works before that.".to_owned(),
            Reason::Fact => "It has begun.".to_owned(),
            Reason::Unplanned => {
                "It finds no time: what it waits for never comes, or its crew never works."
                    .to_owned()
            }
            Reason::Choice => {
                "Nothing forces it; the plan put it here to save a return or keep to a promise."
                    .to_owned()
            }
        }
    }

    fn lag_reason(&self, id: ActivityId, lag: LagId) -> String {
        let network = &self.outlook.network;
        let (Some(why), Some(lag)) = (network.lag_why(lag), network.problem.lags.get(lag.index()))
        else {
            return String::new();
        };
        let other = if lag.to == id { lag.from } else { lag.to };
        let name = upper_first(&self.task(other));
        let ends = self.when(self.outlook.plan.finishes[other.index()]);
        let own = self.when(self.outlook.plan.starts[id.index()]);
        let wait = lag.min.or(lag.max).unwrap_or(0);
        match why {
            LagWhy::Under => self.under_reason(other, wait, &name, &ends, &own),
            LagWhy::Window => format!(
                "{name} must follow within {}, and that cannot start before {}.",
                elapsed_words(wait),
                self.when(self.outlook.plan.starts[other.index()])
            ),
            LagWhy::SitsOn => format!("It sits on {}, ready {own}.", lower_first(&name)),
            LagWhy::Covers => format!("It covers {}, in by {ends}.", lower_first(&name)),
            LagWhy::OrderHere => self.under_reason(other, wait, &name, &ends, &own),
            LagWhy::HoldAfter => format!("It looks at {}, done {ends}.", lower_first(&name)),
            LagWhy::Hold => format!("{name} must pass first, {ends} at the earliest."),
            LagWhy::Stands => format!("The test stands {}, until {own}.", elapsed_words(wait)),
            LagWhy::PutRight => "What failed must be put right first.".to_owned(),
            LagWhy::MeasureAfter => {
                format!(
                    "It is measured once {} is finished, {ends}.",
                    lower_first(&name)
                )
            }
            LagWhy::MadeAfterMeasure => {
                format!(
                    "It takes {} to make once it is measured, {ends}.",
                    elapsed_words(wait)
                )
            }
            LagWhy::OrderedAfterDecision => {
                format!(
                    "It takes {} to come once it is decided, {ends}.",
                    elapsed_words(wait)
                )
            }
            LagWhy::OnSite => format!("{name}: {ends} at the earliest."),
            LagWhy::Decision => format!("{name}, expected {ends}."),
            LagWhy::CrossFirst => {
                format!("{name} comes first: that crew still crosses this floor, until {ends}.")
            }
            LagWhy::KeptHere => format!("{name}: it is kept here until it is set, {ends}."),
            LagWhy::Wait(index) => self.wait_reason(*index, &name, &ends),
            LagWhy::Milestone => format!("{name} is done {ends}."),
        }
    }

    fn under_reason(
        &self,
        other: ActivityId,
        wait: Tick,
        name: &str,
        ends: &str,
        own: &str,
    ) -> String {
        if wait == 0 {
            return format!("{name} comes first; it ends {ends}.");
        }
        let dries = if self.is_to_come(other) {
            "must dry"
        } else {
            "is drying"
        };
        format!("{name} {dries} {}, until {own}.", elapsed_words(wait))
    }

    fn wait_reason(&self, index: usize, name: &str, ends: &str) -> String {
        let why = self
            .job
            .waits
            .get(index)
            .and_then(|wait| wait.why.as_deref());
        match why {
            Some(why) => format!(
                "{} ({}, done {ends}).",
                sentence_part(why),
                lower_first(name)
            ),
            None => format!("It waits for {}, done {ends}.", lower_first(name)),
        }
    }

    fn crew_reason(&self, resource: ResourceId, held_by: &[ActivityId]) -> String {
        let until = held_by
            .iter()
            .map(|id| self.outlook.plan.finishes[id.index()])
            .min()
            .map_or_else(String::new, |at| format!(" until {}", self.when(at)));
        let busy = self.list(held_by, 2);
        match self.outlook.network.resource_why(resource) {
            Some(ResourceWhy::Crews(trade)) => {
                let crews = self.job.trades.get(trade).map_or(1, |trade| trade.crews);
                let name = lower_first(&self.trade(trade));
                match crews {
                    1 => format!("The one {name} crew is on {busy}{until}."),
                    2 => format!("Both {name} crews are busy: {busy}{until}."),
                    _ => format!(
                        "All {} {name} crews are busy: {busy}{until}.",
                        count(crews as usize)
                    ),
                }
            }
            Some(ResourceWhy::Room(place)) => format!(
                "No room for another crew in the {}: {busy}{until}.",
                lower_first(&self.place(place))
            ),
            None => String::new(),
        }
    }

    fn date_reason(&self, id: ActivityId, date: DateId) -> String {
        let network = &self.outlook.network;
        let (Some(why), Some(date)) = (
            network.date_why(date),
            network.problem.dates.get(date.index()),
        ) else {
            return String::new();
        };
        let at = match why {
            // A lead time is no appointment: the day is all that can be said.
            DateWhy::FromOrder | DateWhy::IfOrderedToday | DateWhy::Overdue => self.day(date.at),
            _ => self.when(date.at),
        };
        let name = &self.at(id).name;
        match why {
            DateWhy::Promised => format!("{name} is promised for {at}."),
            DateWhy::FromOrder => {
                format!(
                    "{name} is ordered; its usual time to make runs to {at}. No date was given."
                )
            }
            DateWhy::IfOrderedToday => {
                format!("{name} is not ordered; ordered today it would come {at}.")
            }
            DateWhy::Overdue => {
                format!("{name} should have come by now; taken to come {at}. Ask for a date.")
            }
            DateWhy::Notice => {
                format!("{name} is not booked; booked now it could be had {at}.")
            }
            DateWhy::Booked => format!("{name} is booked for {at}."),
            DateWhy::Expected { assumed: false } => format!("{name}: an answer is expected {at}."),
            DateWhy::Expected { assumed: true } => {
                format!("{name} is not decided; an answer usually takes until {at}.")
            }
            DateWhy::Problem { words, assumed, .. } => {
                let tail = if *assumed {
                    "nobody said until when"
                } else {
                    "until then"
                };
                format!("In the way: {} ({at}, {tail}).", sentence_part(words))
            }
            DateWhy::Booking(index) => {
                let why = self.job.bookings.get(*index).and_then(|b| b.why.as_deref());
                why.map_or_else(
                    || format!("It keeps to {at}."),
                    |why| format!("{} ({at}).", sentence_part(why)),
                )
            }
            DateWhy::Firm => format!("It must be done by {at}."),
        }
    }
}

fn keeps(by: &[ActivityId]) -> &'static str {
    if by.len() == 1 { "keeps" } else { "keep" }
}

/// A phrase that a sentence can go on from: trimmed, without its full stop.
pub(super) fn sentence_part(text: &str) -> String {
    upper_first(text.trim().trim_end_matches('.'))
}
