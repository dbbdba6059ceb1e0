//! Why a piece of work does not begin sooner.

use grounds_schedule::{
    ActivityId, Clock as On, Cost, DateId, End, Lag, LagId, Reason, ResourceId, Tick,
};

use super::{Words, chain::span_words, count, elapsed_words, join, lower_first, upper_first};
use crate::{
    air::Air,
    hours,
    network::Drying,
    ready::add,
    task::{DateWhy, LagWhy, ResourceWhy, Work, ticks_in_words},
};

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

    /// What must be settled before a piece of work begins or an order goes out, beside what decides its
    /// start: there is time for it yet, but it will not go on without.
    #[must_use]
    pub fn to_settle(&self, id: ActivityId) -> Vec<String> {
        let network = &self.outlook.network;
        let reasons = self.outlook.reasons.get(id.index());
        let decides =
            |date: DateId| reasons.is_some_and(|reasons| reasons.contains(&Reason::Date(date)));
        let begins = if matches!(self.at(id).work, Work::Arrive(_)) {
            "it is ordered"
        } else {
            "it begins"
        };
        let dates = network.problem.dates.iter().enumerate();
        let mut said: Vec<String> = dates
            .filter(|(at, date)| date.activity == id && !decides(DateId::from(*at)))
            .filter_map(|(at, _)| match network.date_why.get(at) {
                Some(DateWhy::HeldUp(held)) => Some(self.matter(*held)),
                _ => None,
            })
            .map(|matter| {
                format!(
                    "Before {begins} this must be settled: {}.",
                    lower_first(matter)
                )
            })
            .collect();
        said.sort();
        said.dedup();
        said
    }

    /// One reason as a sentence.
    #[must_use]
    pub fn reason(&self, id: ActivityId, reason: &Reason) -> String {
        match reason {
            Reason::Lag(lag) => self.lag_reason(id, *lag),
            Reason::Crew { resource, held_by } => self.crew_reason(*resource, held_by),
            Reason::ShutOff { by } => {
                let by = self.last_in_each_place(by);
                format!(
                    "There is no way in: {} {} it shut until then.",
                    self.list(&by, 2),
                    keeps(&by)
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
            Reason::Now => self.now_reason(id),
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
            Reason::Choice => self.choice_reason(id),
        }
    }

    /// Why work waits that could start.
    fn choice_reason(&self, id: ActivityId) -> String {
        let Some(later) = self.outlook.waits_on_purpose(id) else {
            return "Nothing forces it; the order of work has it here.".to_owned();
        };
        let mut why: Vec<String> = Vec::new();
        if later.saves.promises > 0 {
            why.push("it was promised for then".to_owned());
        }
        if later.saves.exposure > 0 {
            why.push("fewer pass it once it is in".to_owned());
        }
        if later.saves.returns > 0 {
            let trade = self.at(id).trade.as_ref();
            let who = trade.map_or_else(|| "its trade".to_owned(), |t| lower_first(&self.trade(t)));
            why.push(format!("{who} need not come once more for it"));
        }
        let could = format!("It could start {}", self.when(later.could));
        if later.saves == Cost::default() {
            return format!("{could}, but stays where it was planned: nothing hurries it.");
        }
        match join(&why).as_str() {
            "" => format!("{could}, but waits: that costs less."),
            why => format!("{could}, but waits on purpose: {why}."),
        }
    }

    /// Work that nothing holds starts when its crew is next here.
    fn now_reason(&self, id: ActivityId) -> String {
        let network = &self.outlook.network;
        let start = self.outlook.plan.starts[id.index()];
        let today = network.clock.day(network.now_tick());
        match &self.at(id).trade {
            Some(trade) if network.clock.day(start) > today => format!(
                "Nothing stands in its way; {} is here next {}.",
                lower_first(&self.trade(trade)),
                self.when(start)
            ),
            _ => "Nothing stands in its way.".to_owned(),
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
        let ready = self.ready(id, lag);
        let wait = lag.min.or(lag.max).unwrap_or(0);
        let long = self.wait_words(lag);
        match why {
            LagWhy::Under => {
                self.under_reason(other, (wait > 0).then_some(&long), &name, &ends, &ready)
            }
            LagWhy::Window => format!(
                "{name} must follow within {}, and that cannot start before {}.",
                long,
                self.when(self.outlook.plan.starts[other.index()])
            ),
            LagWhy::SitsOn => format!("It sits on {}, ready {ready}.", lower_first(&name)),
            LagWhy::Covers => format!("It covers {}, in by {ends}.", lower_first(&name)),
            LagWhy::OrderHere => {
                self.under_reason(other, (wait > 0).then_some(&long), &name, &ends, &ready)
            }
            LagWhy::HoldAfter if wait > 0 => {
                self.under_reason(other, (wait > 0).then_some(&long), &name, &ends, &ready)
            }
            LagWhy::MeasureAfter if wait > 0 => format!(
                "It is measured once {} has dried {}, {ready}.",
                lower_first(&name),
                long
            ),
            LagWhy::HoldAfter => format!("It looks at {}, done {ends}.", lower_first(&name)),
            LagWhy::Hold => format!("{name} must pass first, {ends} at the earliest."),
            LagWhy::Look => format!("{name}, before this goes over it: {ends} at the earliest."),
            LagWhy::Stands => format!("The test stands {}, until {ready}.", long),
            LagWhy::PutRight => "What failed must be put right first.".to_owned(),
            LagWhy::MeasureAfter => {
                format!(
                    "It is measured once {} is finished, {ends}.",
                    lower_first(&name)
                )
            }
            LagWhy::MadeAfterMeasure => {
                format!("It takes {} to make once it is measured, {ends}.", long)
            }
            LagWhy::OrderedAfterDecision => {
                format!("It takes {} to come once it is decided, {ends}.", long)
            }
            LagWhy::OnSite => format!("{name}: {ends} at the earliest."),
            LagWhy::Decision => format!("{name}, expected {ends}."),
            LagWhy::CrossFirst => {
                format!("{name} comes first: that crew still crosses this floor, until {ends}.")
            }
            LagWhy::KeptHere => format!("{name}: it is kept here until it is set, {ends}."),
            LagWhy::Wait(index) => self.wait_reason(*index, &name, &ends, &ready),
            LagWhy::Milestone => format!("{name} is done {ends}."),
        }
    }

    fn under_reason(
        &self,
        other: ActivityId,
        wait: Option<&String>,
        name: &str,
        ends: &str,
        ready: &str,
    ) -> String {
        let Some(wait) = wait else {
            return format!("{name} comes first; it ends {ends}.");
        };
        let dries = if self.is_to_come(other) {
            "must dry"
        } else {
            "is drying"
        };
        format!("{name} {dries} {wait}, until {ready}.")
    }

    /// How long a wait is: by the clock, in days of the job's calendar, or in hours of the right air.
    pub(super) fn wait_words(&self, lag: &Lag) -> String {
        let network = &self.outlook.network;
        let wait = lag.min.or(lag.max).unwrap_or(0);
        match lag.clock {
            On::Elapsed => elapsed_words(wait),
            On::On(calendar) if calendar == network.job_calendar => {
                let design = self.job.calendars.get(&self.job.job.calendar);
                working_words(wait, design.map_or(wait, hours::usual_day))
            }
            On::On(calendar) => match network.drying(calendar) {
                Some(drying) => self.drying_words(lag, drying),
                None => format!("{} within its limits of air", elapsed_words(wait)),
            },
        }
    }

    /// How long a coat dries by its sheet, and how long that is in the air there is:
    /// `3 days; at 12 °C and 75 % that is 4 days 6 h`.
    fn drying_words(&self, lag: &Lag, drying: &Drying) -> String {
        let wait = lag.min.or(lag.max).unwrap_or(0);
        let given = drying.given(wait);
        let plan = &self.outlook.plan;
        let base = match lag.from_end {
            End::Start => plan.starts[lag.from.index()],
            End::Finish => plan.finishes[lag.from.index()],
        };
        let up = add(&self.outlook.network.problem, lag.clock, base, wait);
        let Some(up) = up.filter(|up| *up != base.saturating_add(given)) else {
            return elapsed_words(given);
        };
        let airs: Vec<String> = drying
            .between(base, up)
            .iter()
            .enumerate()
            .map(|(at, (from, air))| match at {
                0 => format!("at {}", self.air(air)),
                _ => format!("from {} at {}", self.day(*from), self.air(air)),
            })
            .collect();
        let airs = match airs.as_slice() {
            [] => "within its limits of air".to_owned(),
            [one] => one.clone(),
            [first, second] => format!("{first}, {second},"),
            [..] => "in the air of those days".to_owned(),
        };
        format!(
            "{}; {airs} that is {}",
            elapsed_words(given),
            span_words(up - base)
        )
    }

    /// `12 °C and 75 %`
    fn air(&self, air: &Air) -> String {
        let units = self.job.job.units;
        let warm = air.temperature.map(|warm| warm.display(units).to_string());
        let damp = air.humidity.map(|damp| damp.to_string());
        let both: Vec<String> = warm.into_iter().chain(damp).collect();
        join(&both)
    }

    /// When the waiting time before some work is up; its crew may come later than that.
    fn ready(&self, id: ActivityId, lag: &Lag) -> String {
        let plan = &self.outlook.plan;
        let own = plan.starts[id.index()];
        let base = match lag.from_end {
            End::Start => plan.starts[lag.from.index()],
            End::Finish => plan.finishes[lag.from.index()],
        };
        let waited = lag.min.filter(|_| lag.to == id && lag.to_end == End::Start);
        let problem = &self.outlook.network.problem;
        let up = waited.and_then(|wait| add(problem, lag.clock, base, wait));
        self.when(up.map_or(own, |up| up.min(own)))
    }

    /// Of work in one place only what ends last: coat after coat shuts the same floor.
    fn last_in_each_place(&self, ids: &[ActivityId]) -> Vec<ActivityId> {
        let ends = |id: &ActivityId| (self.outlook.plan.finishes[id.index()], *id);
        let place = |id: &ActivityId| self.at(*id).place.as_ref();
        let outlasted = |id: &ActivityId| {
            place(id).is_some()
                && ids
                    .iter()
                    .any(|other| place(other) == place(id) && ends(other) > ends(id))
        };
        ids.iter().filter(|id| !outlasted(id)).copied().collect()
    }

    fn wait_reason(&self, index: usize, name: &str, ends: &str, ready: &str) -> String {
        let why = self
            .job
            .waits
            .get(index)
            .and_then(|wait| wait.why.as_deref());
        let until = if ready == ends {
            String::new()
        } else {
            format!(", until {ready}")
        };
        let name = lower_first(name);
        match why {
            Some(why) => format!("{}{until} ({name}, done {ends}).", sentence_part(why)),
            None => format!("It waits for {name}, done {ends}{until}."),
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
            DateWhy::FromOrder
            | DateWhy::IfOrderedToday
            | DateWhy::Overdue
            | DateWhy::HeldUp(_) => self.day(date.at),
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
            DateWhy::Problem {
                words,
                subject,
                assumed,
                ..
            } => {
                let tail = if *assumed {
                    "nobody said until when"
                } else {
                    "until then"
                };
                let trouble = self.trouble(words, subject);
                format!("In the way: {trouble} ({at}, {tail}).")
            }
            DateWhy::HeldUp(held) if matches!(self.at(id).work, Work::Arrive(_)) => format!(
                "Its order waits: {}. Ordered on the next working day it would come {at}.",
                lower_first(self.matter(*held))
            ),
            DateWhy::HeldUp(held) => format!(
                "It waits until this is settled: {} ({at}, nobody said until when).",
                lower_first(self.matter(*held))
            ),
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

/// Working time on a calendar whose usual day has so many ticks.
fn working_words(wait: Tick, day: Tick) -> String {
    match wait.checked_div(day).filter(|days| days * day == wait) {
        Some(1) => "one working day".to_owned(),
        Some(days) if days > 0 => format!("{days} working days"),
        _ => format!("{} of working time", ticks_in_words(wait)),
    }
}

fn keeps(by: &[ActivityId]) -> &'static str {
    if by.len() == 1 { "keeps" } else { "keep" }
}

/// A phrase that a sentence can go on from: trimmed, without its full stop.
pub(super) fn sentence_part(text: &str) -> String {
    upper_first(text.trim().trim_end_matches('.'))
}
