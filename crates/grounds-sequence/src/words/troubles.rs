//! What cannot be met, in words.

use grounds_schedule::{ActivityId, Bound, Breach, Clash, ClashPart, Side};

use super::{Words, elapsed_words, lower_first};
use crate::task::{DateWhy, LagWhy, ResourceWhy};

impl Words<'_> {
    /// Everything that the plan could not meet, one sentence each.
    #[must_use]
    pub fn breaches(&self) -> Vec<String> {
        self.outlook
            .breaches
            .iter()
            .map(|breach| self.breach(breach))
            .collect()
    }

    /// What clashes behind the breaches: for each clash, the facts that do not go together.
    #[must_use]
    pub fn clashes(&self) -> Vec<Vec<String>> {
        self.outlook
            .clashes
            .iter()
            .map(|clash| self.clash(clash))
            .collect()
    }

    fn clash(&self, clash: &Clash) -> Vec<String> {
        clash
            .parts
            .iter()
            .map(|part| self.clash_part(part))
            .collect()
    }

    fn clash_part(&self, part: &ClashPart) -> String {
        let network = &self.outlook.network;
        match part {
            ClashPart::Lag(lag, bound) => {
                let lag = &network.problem.lags[lag.index()];
                let (from, to) = (self.task(lag.from), self.mid(lag.to));
                match (bound, lag.min, lag.max) {
                    (Bound::Min, Some(0) | None, _) => format!("{from} comes before {to}."),
                    (Bound::Min, Some(min), _) => {
                        format!(
                            "From {} to {to}: at least {}.",
                            lower_first(&from),
                            elapsed_words(min)
                        )
                    }
                    (Bound::Max, _, max) => format!(
                        "From {} to {to}: at most {}.",
                        lower_first(&from),
                        elapsed_words(max.unwrap_or(0))
                    ),
                }
            }
            ClashPart::Date(date) => {
                let at = &network.problem.dates[date.index()];
                match at.side {
                    Side::NotAfter => {
                        format!(
                            "{} must be done by {}.",
                            self.task(at.activity),
                            self.when(at.at)
                        )
                    }
                    Side::NotBefore => {
                        self.reason(at.activity, &grounds_schedule::Reason::Date(*date))
                    }
                }
            }
            ClashPart::Work(id) => format!("{} takes {}.", self.task(*id), self.takes(*id)),
            ClashPart::Fact(id) => format!(
                "{}: {}.",
                self.task(*id),
                match self.is_done(*id) {
                    true => format!("done {}", self.when(self.outlook.plan.finishes[id.index()])),
                    false => format!("begun {}", self.when(self.outlook.plan.starts[id.index()])),
                }
            ),
            ClashPart::NoWayIn(id) => {
                format!(
                    "No way leads to {}: join its place to one that has a way in.",
                    self.mid(*id)
                )
            }
            ClashPart::Resource(resource) => match network.resource_why(*resource) {
                Some(ResourceWhy::Crews(trade)) => {
                    let crews = self.job.trades.get(trade).map_or(1, |trade| trade.crews);
                    format!(
                        "{} has {} at a time.",
                        self.trade(trade),
                        crews_words(crews)
                    )
                }
                Some(ResourceWhy::Room(place)) => {
                    let crews = self.job.places.get(place).map_or(1, |place| place.crews);
                    format!("{} has room for {}.", self.place(place), crews_words(crews))
                }
                None => String::new(),
            },
            ClashPart::Closes(id) => format!("{} shuts its floor.", self.task(*id)),
            ClashPart::Air(id) => format!("{} shares its air with other work.", self.task(*id)),
        }
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
            Breach::Overused {
                resource,
                at,
                users,
            } => {
                let what = match network.resource_why(*resource) {
                    Some(ResourceWhy::Crews(trade)) => {
                        format!(
                            "{} is wanted by more work than it has crews",
                            self.trade(trade)
                        )
                    }
                    Some(ResourceWhy::Room(place)) => {
                        format!("Too many crews in the {}", lower_first(&self.place(place)))
                    }
                    None => "Something is used twice".to_owned(),
                };
                format!("{what}, {}: {}.", self.when(*at), self.list(users, 3))
            }
            Breach::CutOff {
                activity, at, by, ..
            } => {
                let by = if by.is_empty() {
                    "nothing leads there".to_owned()
                } else {
                    format!("the way is shut by {}", self.list(by, 2))
                };
                format!(
                    "No way in to {}, {}: {by}.",
                    self.mid(*activity),
                    self.when(*at)
                )
            }
            Breach::Dust {
                dusty, still, at, ..
            } => format!(
                "{} makes dust, {}, while {} needs still air.",
                self.task(*dusty),
                self.when(*at),
                self.mid(*still)
            ),
            Breach::Date(date) => self.late(*date),
            Breach::Hours(id) => format!("{} is not within working hours.", self.task(*id)),
            Breach::Broken(id) => self.stops_overnight(*id),
            Breach::Fact(id) => format!(
                "{}: the plan changes what already happened.",
                self.task(*id)
            ),
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
                format!(
                    "{name} must be done by {}; the plan gets there {got}.",
                    self.when(date.at)
                )
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

fn crews_words(crews: u32) -> String {
    if crews == 1 {
        "one crew".to_owned()
    } else {
        format!("{crews} crews")
    }
}
