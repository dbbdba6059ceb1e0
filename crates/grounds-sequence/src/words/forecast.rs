//! The forecast in words: dates by chance, causes with days, and how far to trust it.

use grounds_schedule::{ActivityId, Clock, End, Lag, Tick};

use super::{Words, count, elapsed_words, lower_first};
use crate::forecast::{Doubt, Forecast, Prospect, Spreading};

/// A window that is missed in fewer runs is left to the order of work.
const OFTEN: f64 = 0.25;
/// Windows that are worth reading.
const WINDOWS: usize = 3;

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

    /// What to time with care, the likeliest to be missed first, one for each place: `Wall
    /// tile, steam room ceiling must begin by Wed 7 July …`. What is seldom missed is left out: in
    /// most runs keeping the order is enough.
    #[must_use]
    pub fn closing_windows(&self, forecast: &Forecast) -> Vec<String> {
        let often = forecast.closed.iter().filter(|(_, share)| *share >= OFTEN);
        let mut closed: Vec<_> = often.collect();
        closed.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
        let mut places = Vec::new();
        let mut lines = Vec::new();
        for (lag, share) in closed {
            let Some(lag) = self.outlook.network.problem.lags.get(lag.index()) else {
                continue;
            };
            let place = &self.at(lag.to).place;
            if place.is_some() && places.contains(&place) {
                continue;
            }
            places.push(place);
            lines.push(self.closing_window(lag, *share));
            if lines.len() == WINDOWS {
                break;
            }
        }
        lines
    }

    /// What to do about one window: where it is open already, whom to book by when; else what to keep
    /// back.
    fn closing_window(&self, lag: &Lag, share: f64) -> String {
        let (often, next) = (in_runs(share), self.mid(lag.to));
        let max = lag.max.filter(|_| lag.clock == Clock::Elapsed);
        let within = max.map_or_else(
            || "in time".to_owned(),
            |max| format!("within {}", elapsed_words(max)),
        );
        if !self.is_done(lag.from) {
            return format!(
                "{}: keep it back until the day of {next} is sure. That must follow {within}, and comes \
                 too late {often}.",
                self.task(lag.from)
            );
        }
        let closes =
            max.map(|max| self.ends_on(self.end(lag.from, lag.from_end).saturating_add(max)));
        let by = closes.map_or(within, |day| format!("by {day}"));
        let planned = self.ends_on(self.end(lag.to, lag.to_end));
        let planned = if by == format!("by {planned}") {
            "that very day".to_owned()
        } else {
            planned
        };
        let ends = match lag.to_end {
            End::Start => "begin",
            End::Finish => "be done",
        };
        let trade = self.at(lag.to).trade.as_ref();
        let who = trade.map_or_else(|| "somebody".to_owned(), |id| lower_first(&self.trade(id)));
        format!(
            "{} must {ends} {by}, before what is under it is too old. The plan says {planned}, and it \
             comes too late {often}: keep {who} free for it.",
            self.task(lag.to)
        )
    }

    /// An end of a piece of work in the plan.
    fn end(&self, id: ActivityId, end: End) -> Tick {
        let plan = &self.outlook.plan;
        let ends = match end {
            End::Start => &plan.starts,
            End::Finish => &plan.finishes,
        };
        ends.get(id.index()).copied().unwrap_or_default()
    }

    /// How far to trust it.
    #[must_use]
    pub fn forecast_caution(&self, forecast: &Forecast) -> String {
        format!(
            "This is a judgement, not a promise: {} runs of this plan in its order of work, each with \
             other luck drawn from the job's low, likely and high figures, and from usual ones where \
             the job gives none. Low and high are taken as the very least and most, drying as certain. \
             Work whose planned day has come goes ahead of work that is held up, if it is done before \
             that wants the crew or the room; floors are shut in the order of the plan, and a site \
             that changes that too may be earlier.",
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
