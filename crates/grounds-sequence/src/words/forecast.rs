//! The forecast in words: dates by chance, causes with days, and how far to trust it.

use grounds_schedule::{ActivityId, Tick};

use super::{Words, count};
use crate::forecast::{Doubt, Forecast, Prospect, Spreading};

impl Words<'_> {
    /// Whose date it is: the milestone's name, or `Last piece of work`.
    #[must_use]
    pub fn prospect_title(&self, prospect: &Prospect) -> String {
        prospect
            .milestone
            .map_or_else(|| "Last piece of work".to_owned(), |id| self.task(id))
    }

    /// `Even chance by Fri 1 October; four in five by Tue 12 October.`
    #[must_use]
    pub fn chances(&self, prospect: &Prospect) -> String {
        let even = self.ends_on(prospect.even);
        let four = self.ends_on(prospect.four_in_five);
        if even == four {
            return format!("Even chance and four in five by {even}.");
        }
        format!("Even chance by {even}; four in five by {four}.")
    }

    /// How the plan's own date stands, and the date it is due: `The plan's date, Fri 24 September, is
    /// kept one time in twenty.`
    #[must_use]
    pub fn against_plan(&self, prospect: &Prospect) -> String {
        let plan = format!(
            "The plan's date, {}, is kept {}.",
            self.ends_on(prospect.planned),
            how_often(prospect.on_plan)
        );
        match (prospect.due, prospect.by_due) {
            (Some(due), Some(chance)) => format!(
                "{plan} It is due {}, and that is kept {}.",
                self.ends_on(due),
                how_often(chance)
            ),
            _ => plan,
        }
    }

    /// A cause of the spread, with days: `Stair glass: late or early delivery moves it by eight days.`
    #[must_use]
    pub fn cause_of_spread(&self, cause: &Spreading) -> String {
        let days = days_words(cause.days);
        match &cause.doubt {
            Doubt::Trade(trade) => format!(
                "{}: a slow or a quick crew, everywhere at once, moves it by {days}.",
                self.trade(trade)
            ),
            Doubt::Supplier(name) => {
                format!("{name}: late or early with everything, moves it by {days}.")
            }
            Doubt::Work(id) => {
                format!("{}: slow or quick, moves it by {days}.", self.task(*id))
            }
            Doubt::Delivery(id) => format!(
                "{}: late or early delivery moves it by {days}.",
                self.at(*id).name
            ),
            Doubt::Decision(id) => {
                format!("{}: a late answer moves it by {days}.", self.task(*id))
            }
            Doubt::Fail(id) => format!("{}: a fail costs {days}.", self.task(*id)),
            Doubt::Weather => format!("Weather outside moves it by {days}."),
        }
    }

    /// Work that drives a date: `Finish coat, stair hall walls: in nine runs of ten.`
    #[must_use]
    pub fn driver(&self, id: ActivityId, share: f64) -> String {
        format!("{}: {}.", self.task(id), in_runs(share))
    }

    /// Windows that may close too early, the likeliest first: `Tread finish, last coat, …: the recoat
    /// window is missed one time in three.`
    #[must_use]
    pub fn closing_windows(&self, forecast: &Forecast) -> Vec<String> {
        let mut closed = forecast.closed.clone();
        closed.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
        let lags = &self.outlook.network.problem.lags;
        closed
            .iter()
            .filter_map(|(lag, share)| {
                let to = lags.get(lag.index())?.to;
                Some(format!(
                    "{}: its window is missed {}.",
                    self.task(to),
                    how_often(*share)
                ))
            })
            .collect()
    }

    /// How far to trust it.
    #[must_use]
    pub fn forecast_caution(&self, forecast: &Forecast) -> String {
        format!(
            "This is a judgement, not a promise: {} runs of this plan in its order of work, each with \
             other luck drawn from the job's low, likely and high figures, and from usual ones where \
             the job gives none. Low and high are taken as the very least and most, drying as certain, \
             and nobody changes the order while it runs; a site that does may be earlier.",
            thousands(forecast.runs)
        )
    }

    /// A date that something ends on: an end at midnight belongs to the day before.
    fn ends_on(&self, tick: Tick) -> String {
        let clock = &self.outlook.network.clock;
        let midnight = clock.midnight(clock.day(tick)) == tick;
        self.day(if midnight {
            tick.saturating_sub(1)
        } else {
            tick
        })
    }

    /// The day of a date of the forecast, short, for drawings: `12 Oct`.
    #[must_use]
    pub fn short_end(&self, tick: Tick) -> String {
        let words = self.ends_on(tick);
        let mut parts = words.split(' ').skip(1);
        let day = parts.next().unwrap_or_default();
        let month: String = parts.next().unwrap_or_default().chars().take(3).collect();
        format!("{day} {month}")
    }

    /// The chance of a date in the middle of a sentence: `one time in five`.
    #[must_use]
    pub fn chance(&self, share: f64) -> String {
        how_often(share)
    }
}

/// A chance as people say it.
fn how_often(share: f64) -> String {
    let said = |words: &str| words.to_owned();
    match share {
        s if s < 0.005 => said("almost never"),
        s if s < 0.03 => said("one time in fifty"),
        s if s < 0.075 => said("one time in twenty"),
        s if s < 0.15 => said("one time in ten"),
        s if s < 0.225 => said("one time in five"),
        s if s < 0.29 => said("one time in four"),
        s if s < 0.42 => said("one time in three"),
        s if s < 0.58 => said("every other time"),
        s if s < 0.71 => said("two times in three"),
        s if s < 0.775 => said("three times in four"),
        s if s < 0.85 => said("four times in five"),
        s if s < 0.93 => said("nine times in ten"),
        s if s < 0.995 => said("nineteen times in twenty"),
        _ => said("almost always"),
    }
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn in_runs(share: f64) -> String {
    match (share * 10.0).round() as usize {
        0 => "in fewer than one run of twenty".to_owned(),
        10 if share >= 0.995 => "in every run".to_owned(),
        10 => "in nearly every run".to_owned(),
        1 => "in one run of ten".to_owned(),
        n => format!("in {} runs of ten", count(n)),
    }
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn days_words(days: f64) -> String {
    match days.max(0.0).round() as usize {
        0 => "less than a day".to_owned(),
        1 => "a day".to_owned(),
        n => format!("{} days", count(n)),
    }
}

fn thousands(number: u32) -> String {
    match (number / 1000, number % 1000) {
        (0, rest) => rest.to_string(),
        (thousands, rest) => format!("{thousands},{rest:03}"),
    }
}
