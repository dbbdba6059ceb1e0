//! What cannot be met, in words.

use grounds_schedule::{ActivityId, Breach};

use super::{Words, elapsed_words, lower_first};
use crate::task::{DateWhy, LagWhy, ResourceWhy};

impl Words<'_> {
    /// Everything that the plan could not meet, one sentence each.
    #[must_use]
    pub fn breaches(&self) -> Vec<String> {
        self.outlook.breaches.iter().map(|breach| self.breach(breach)).collect()
    }

    /// One thing that the plan could not meet.
    #[must_use]
    pub fn breach(&self, breach: &Breach) -> String {
        let network = &self.outlook.network;
        match breach {
            Breach::Shape => "The plan does not fit this job: it has other work in it.".to_owned(),
            Breach::TooSoon(lag) => {
                let lag = &network.problem.lags[lag.index()];
                format!(
                    "{} comes too soon after {}: {} at least.",
                    self.task(lag.to),
                    self.mid(lag.from),
                    elapsed_words(lag.min.unwrap_or(0))
                )
            }
            Breach::TooLate(lag) => self.too_late(*lag),
            Breach::Overused { resource, at, users } => {
                let what = match network.resource_why(*resource) {
                    Some(ResourceWhy::Crews(trade)) => {
                        format!("{} is wanted by more work than it has crews", self.trade(trade))
                    }
                    Some(ResourceWhy::Room(place)) => {
                        format!("Too many crews in the {}", lower_first(&self.place(place)))
                    }
                    None => "Something is used twice".to_owned(),
                };
                format!("{what}, {}: {}.", self.when(*at), self.list(users, 3))
            }
            Breach::CutOff { activity, at, by, .. } => {
                let by = if by.is_empty() {
                    "nothing leads there".to_owned()
                } else {
                    format!("the way is shut by {}", self.list(by, 2))
                };
                format!("No way in to {}, {}: {by}.", self.mid(*activity), self.when(*at))
            }
            Breach::Dust { dusty, still, at, .. } => format!(
                "{} makes dust, {}, while {} needs still air.",
                self.task(*dusty),
                self.when(*at),
                self.mid(*still)
            ),
            Breach::Date(date) => self.late(*date),
            Breach::Hours(id) => format!("{} is not within working hours.", self.task(*id)),
            Breach::Broken(id) => self.stops_overnight(*id),
            Breach::Fact(id) => format!("{}: the plan changes what already happened.", self.task(*id)),
            Breach::Past(id) => format!("{} would start in the past.", self.task(*id)),
            Breach::Horizon(id) => format!(
                "{} finds no time at all: what it waits for never comes, or its crew never works.",
                self.task(*id)
            ),
        }
    }

    fn too_late(&self, lag: grounds_schedule::LagId) -> String {
        let network = &self.outlook.network;
        let why = network.lag_why(lag);
        let lag = &network.problem.lags[lag.index()];
        let within = elapsed_words(lag.max.unwrap_or(0));
        let (over, under) = (self.task(lag.to), self.mid(lag.from));
        match why {
            Some(LagWhy::Window) => format!(
                "{over} cannot follow {under} within {within}: abrade or clean and start the coat \
                 anew, or move what is in between."
            ),
            _ => format!("{over} cannot follow {under} within {within}."),
        }
    }

    fn late(&self, date: grounds_schedule::DateId) -> String {
        let network = &self.outlook.network;
        let why = network.date_why(date);
        let date = &network.problem.dates[date.index()];
        let name = self.task(date.activity);
        let got = self.when(self.outlook.plan.finishes[date.activity.index()]);
        match why {
            Some(DateWhy::Firm | DateWhy::Booking(_)) => {
                format!("{name} must be done by {}; the plan gets there {got}.", self.when(date.at))
            }
            _ => format!("{name} does not keep to {}.", self.when(date.at)),
        }
    }

    fn stops_overnight(&self, id: ActivityId) -> String {
        format!(
            "{} must not stop overnight, and is longer than any shift: split it, or work longer \
             that day.",
            self.task(id)
        )
    }
}
