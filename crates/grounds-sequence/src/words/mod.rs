//! A plan in words that a site lead would say to a trade on the phone.

mod better;
mod bound;
mod causes;
mod chain;
mod effect;
mod forecast;
mod money;
mod options;
mod promises;
mod reasons;
mod spare;
mod troubles;
mod what_if;

use grounds_model::{Id, Job};
use grounds_schedule::{ActivityId, Tick};
use jiff::ZonedDateTime;

use crate::{
    outlook::Outlook,
    roots::Root,
    task::{Task, TaskState, Work},
};

pub use causes::RootWords;
pub use chain::{ChainStep, span_words};
pub use options::{OfferWords, WinBackWords};
pub use what_if::WhatIfWords;

/// Says an outlook in words. Names of things come from the job.
#[derive(Clone, Copy, Debug)]
pub struct Words<'a> {
    /// What is said.
    pub outlook: &'a Outlook,
    /// Whose names are used.
    pub job: &'a Job,
}

impl<'a> Words<'a> {
    /// Words for an outlook of a job.
    #[must_use]
    pub fn new(outlook: &'a Outlook, job: &'a Job) -> Self {
        Self { outlook, job }
    }

    pub(crate) fn at(&self, id: ActivityId) -> &'a Task {
        &self.outlook.network.tasks[id.index()]
    }

    /// A piece of work with its place: `Finish coat, stair hall walls`.
    #[must_use]
    pub fn task(&self, id: ActivityId) -> String {
        let task = self.at(id);
        let name = lower_first(&task.name);
        let place = self.place_part(task);
        match &task.work {
            Work::Measure(_) => format!("Measure {name}{place}"),
            Work::Arrive(_) => format!("{} on site", task.name),
            Work::SetUp(_) => format!("Set up {name}{place}"),
            Work::PutRight(_) => format!("Put right what failed: {name}{place}"),
            Work::Decide(_) => format!("Decision: {name}"),
            Work::Shut(_) => format!("{} shut", task.name),
            Work::Layer(_) | Work::Set(_) | Work::Pass(_) | Work::Look(_) | Work::Reach(_) => {
                format!("{}{place}", task.name)
            }
        }
    }

    /// The place after the name, unless the name has it already.
    fn place_part(&self, task: &Task) -> String {
        let said = task.name.to_lowercase();
        let place = task
            .place
            .as_ref()
            .map(|place| self.place(place).to_lowercase());
        let layer = matches!(task.work, Work::Layer(_) | Work::Look(_));
        if task.where_.is_empty() || !layer && place.is_some_and(|place| said.contains(&place)) {
            return String::new();
        }
        format!(", {}", lower_first(&task.where_))
    }

    /// The same in the middle of a sentence.
    #[must_use]
    pub fn mid(&self, id: ActivityId) -> String {
        lower_first(&self.task(id))
    }

    /// A list of work in the middle of a sentence, at most `most` by name.
    #[must_use]
    pub fn list(&self, ids: &[ActivityId], most: usize) -> String {
        let mut words: Vec<String> = ids.iter().take(most).map(|&id| self.mid(id)).collect();
        if ids.len() > most {
            words.push(format!("{} more", ids.len() - most));
        }
        match words.as_slice() {
            [] => String::new(),
            [one] => one.clone(),
            // Names have commas in them, so the list is told apart by semicolons.
            [most @ .., last] => format!("{}; and {last}", most.join("; ")),
        }
    }

    /// A trade's name.
    #[must_use]
    pub fn trade(&self, id: &Id) -> String {
        self.job
            .trades
            .get(id)
            .map_or_else(|| id.to_string(), |trade| trade.name.clone())
    }

    /// The name of a place or passage.
    #[must_use]
    pub fn place(&self, id: &Id) -> String {
        if let Some(place) = self.job.places.get(id) {
            return place.name.clone();
        }
        let named = self
            .job
            .passages
            .get(id)
            .and_then(|passage| passage.name.clone());
        named.unwrap_or_else(|| match self.job.passages.get(id) {
            Some(passage) => {
                let [a, b] = &passage.between;
                format!("the way from {} to {}", self.end_word(a), self.end_word(b))
            }
            None => id.to_string(),
        })
    }

    fn end_word(&self, id: &Id) -> String {
        let place = self.job.places.get(id);
        place.map_or_else(|| id.to_string(), |place| lower_first(&place.name))
    }

    /// A moment: `now`, `today 14:00`, `tomorrow 8:00`, `Thu 17 June`, `Thu 17 June 14:00`.
    ///
    /// Midnight is said as the day alone.
    #[must_use]
    pub fn when(&self, tick: Tick) -> String {
        let network = &self.outlook.network;
        if tick == network.now_tick() {
            return "now".to_owned();
        }
        let zoned = network.clock.zoned(tick);
        let today = network.clock.zoned(network.now_tick()).date();
        let time = (zoned.hour(), zoned.minute()) != (0, 0);
        let hour = if time {
            format!(" {}", hour(&zoned))
        } else {
            String::new()
        };
        if zoned.date() == today {
            return format!("today{hour}");
        }
        if today.tomorrow().ok() == Some(zoned.date()) {
            return format!("tomorrow{hour}");
        }
        format!("{}{hour}", self.day(tick))
    }

    /// The day of a moment: `Thu 17 June`, with the year where it is not this one.
    #[must_use]
    pub fn day(&self, tick: Tick) -> String {
        let clock = &self.outlook.network.clock;
        let this_year = clock.zoned(self.outlook.network.now_tick()).year();
        day_words(&clock.zoned(tick), this_year)
    }

    /// How long a piece of work takes, in the hours or days of its crew.
    #[must_use]
    pub fn takes(&self, id: ActivityId) -> String {
        let activity = &self.outlook.network.problem.activities[id.index()];
        work_words(activity.work)
    }

    /// That a window is about to close, if it closes within two days: `Must start by today 14:45.`
    #[must_use]
    pub fn must_start_by(&self, id: ActivityId) -> Option<String> {
        let by = self.outlook.must_start_by(id)?;
        let soon = by <= self.outlook.network.now_tick() + 2 * grounds_schedule::DAY;
        soon.then(|| {
            format!(
                "Must start by {}, or what is under it is lost.",
                self.when(by)
            )
        })
    }

    /// The day's opening sentences: how much can start, and how many causes hold up the rest.
    #[must_use]
    pub fn today(&self) -> String {
        let starts = self.outlook.starts();
        let ready = starts.iter().filter(|row| !row.in_hand).count();
        let in_hand = starts.len() - ready;
        let first = match (ready, in_hand) {
            (0, 0) => "Nothing can start.".to_owned(),
            (0, n) => format!("{} in hand; nothing new can start.", things(n)),
            (n, _) => format!("{} can start.", things(n)),
        };
        let weighty = self
            .outlook
            .roots
            .iter()
            .filter(|root| root.weighs())
            .count();
        let second = match weighty {
            0 => "Nothing holds up the finish but the work itself.".to_owned(),
            1 => "One cause holds up the rest.".to_owned(),
            n => format!("{} causes hold up the rest.", upper_first(&count(n))),
        };
        format!("{first} {second}")
    }

    /// The cause that weighs most: `Stair glass not on site holds the most: 15 activities and eight
    /// days of the finish.`
    #[must_use]
    pub fn heaviest(&self) -> Option<String> {
        let most = self.outlook.roots.iter().find(|root| root.weighs())?;
        Some(format!(
            "{} holds the most: {}.",
            self.cause_subject(&most.cause),
            held(most)
        ))
    }

    /// When the plan ends, and what no order of work can beat.
    #[must_use]
    pub fn forecast(&self) -> String {
        let finish = self.day(self.outlook.finish());
        let bound = self.day(self.outlook.bound);
        if finish == bound {
            return format!("The plan ends {finish}; no order of work can beat that.");
        }
        format!("The plan ends {finish}. No order of work can end before {bound}.")
    }

    pub(crate) fn is_done(&self, id: ActivityId) -> bool {
        self.at(id).state == TaskState::Done
    }

    /// Whether a task is to come.
    pub(crate) fn is_to_come(&self, id: ActivityId) -> bool {
        self.at(id).state == TaskState::ToCome
    }
}

/// `Thu 17 June`; the year is added where it is not `this_year`.
#[must_use]
pub fn day_words(zoned: &ZonedDateTime, this_year: i16) -> String {
    const DAYS: [&str; 7] = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];
    const MONTHS: [&str; 12] = [
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ];
    let day = DAYS[usize::from(zoned.weekday().to_monday_zero_offset().unsigned_abs()) % 7];
    let month = MONTHS[usize::from(zoned.month().unsigned_abs().saturating_sub(1)) % 12];
    let year = if zoned.year() == this_year {
        String::new()
    } else {
        format!(" {}", zoned.year())
    };
    format!("{day} {} {month}{year}", zoned.day())
}

fn hour(zoned: &ZonedDateTime) -> String {
    format!("{}:{:02}", zoned.hour(), zoned.minute())
}

/// Working time in words: hours up to a day and a half, then days of eight hours.
#[must_use]
pub fn work_words(ticks: Tick) -> String {
    const DAY_TICKS: Tick = 32;
    if ticks == 0 {
        return "a moment".to_owned();
    }
    if ticks > DAY_TICKS + DAY_TICKS / 2 {
        let halves = (ticks * 2 + DAY_TICKS / 2) / DAY_TICKS;
        return match (halves / 2, halves % 2) {
            (days, 0) => format!("{days} days"),
            (days, _) => format!("{days}½ days"),
        };
    }
    crate::task::ticks_in_words(ticks)
}

/// Elapsed time in words.
pub(crate) fn elapsed_words(ticks: Tick) -> String {
    let day = grounds_schedule::DAY;
    if ticks >= 2 * day && ticks % day == 0 {
        let days = ticks / day;
        return if days % 7 == 0 && days >= 14 {
            format!("{} weeks", days / 7)
        } else {
            format!("{days} days")
        };
    }
    crate::task::ticks_in_words(ticks)
}

/// Numbers up to twelve as words.
#[must_use]
pub fn count(n: usize) -> String {
    const WORDS: [&str; 13] = [
        "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
        "eleven", "twelve",
    ];
    WORDS
        .get(n)
        .map_or_else(|| n.to_string(), |word| (*word).to_owned())
}

/// `23 activities and 6 days of the finish`.
pub(crate) fn held(root: &Root) -> String {
    let things = match root.holds.len() {
        1 => "one activity".to_owned(),
        n => format!("{} activities", count(n)),
    };
    let days = match root.days {
        0 => String::new(),
        1 => " and one day of the finish".to_owned(),
        n => format!(
            " and {} days of the finish",
            count(n.unsigned_abs() as usize)
        ),
    };
    things + &days
}

fn things(n: usize) -> String {
    let noun = if n == 1 { "thing" } else { "things" };
    format!("{} {noun}", upper_first(&count(n)))
}

/// The first letter in lower case, unless the word is written in capitals throughout.
#[must_use]
pub fn lower_first(text: &str) -> String {
    let capitals = text
        .chars()
        .take_while(|c| c.is_alphanumeric())
        .filter(|c| c.is_uppercase());
    if capitals.count() > 1 {
        return text.to_owned();
    }
    recase(text, |c| c.to_lowercase().collect())
}

/// The first letter in upper case.
#[must_use]
pub fn upper_first(text: &str) -> String {
    recase(text, |c| c.to_uppercase().collect())
}

fn recase(text: &str, case: impl Fn(char) -> String) -> String {
    let mut chars = text.chars();
    chars
        .next()
        .map_or_else(String::new, |first| case(first) + chars.as_str())
}

/// `a`, `a and b`, `a, b and c`.
#[must_use]
pub fn join(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}
