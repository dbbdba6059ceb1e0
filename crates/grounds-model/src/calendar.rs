//! When people work, and what the air is like.

use std::collections::BTreeMap;

use grounds_measure::{Humidity, Percent, Temperature};
use jiff::civil::Date;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{hours::Hours, id::Id, moment::Moment, place::is_false};

/// A day of the week.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "lowercase")]
#[allow(missing_docs)]
pub enum Weekday {
    Mon,
    Tue,
    Wed,
    Thu,
    Fri,
    Sat,
    Sun,
}

/// Working days and hours. All stretches of one day are one shift.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Calendar {
    /// What everyone calls it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// Days worked.
    pub days: Vec<Weekday>,
    /// Stretches of work on such a day.
    pub hours: Vec<Hours>,
    /// Other hours on some weekdays: a short Friday.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub hours_on: BTreeMap<Weekday, Vec<Hours>>,
    /// Days on which nobody works.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub closed: Vec<Closed>,
    /// Single days that are worked all the same.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub extra: Vec<Extra>,
}

/// Days on which nobody works, both ends included.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Closed {
    /// The first day.
    #[schemars(with = "String", extend("format" = "date"))]
    pub from: Date,
    /// The last day; the same as the first where it is missing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<String>", extend("format" = "date"))]
    pub to: Option<Date>,
    /// Why.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub why: Option<String>,
}

/// One day worked outside the usual days.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Extra {
    /// The day.
    #[schemars(with = "String", extend("format" = "date"))]
    pub on: Date,
    /// Its hours, where they are not the usual ones.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub hours: Vec<Hours>,
}

/// What the air in some places was, or is expected to be, for a while. Later entries beat earlier
/// ones; where nothing is said, the air is taken to be within every limit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Climate {
    /// The places it speaks of; none means the whole house.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub places: Vec<Id>,
    /// From this moment.
    pub from: Moment,
    /// Until this moment; without one, from then on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub until: Option<Moment>,
    /// Only between these hours of each day.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub daily: Option<Hours>,
    /// Only on these days of the week.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub days: Vec<Weekday>,
    /// Air temperature.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature: Option<Temperature>,
    /// Relative humidity.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub humidity: Option<Humidity>,
    /// Expected, not read.
    #[serde(default, skip_serializing_if = "is_false")]
    pub forecast: bool,
}

/// A month of the year.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "lowercase")]
#[allow(missing_docs)]
pub enum Month {
    Jan,
    Feb,
    Mar,
    Apr,
    May,
    Jun,
    Jul,
    Aug,
    Sep,
    Oct,
    Nov,
    Dec,
}

/// How often weather takes a whole working day from work outside: on terraces, balconies and decks.
/// Later entries beat earlier ones; a month that none speaks of loses no day.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Weather {
    /// The months it speaks of; none means the whole year.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub months: Vec<Month>,
    /// The share of days lost: `25 %`.
    pub lost: Percent,
}

impl Month {
    /// All months, January first.
    pub const ALL: [Self; 12] = [
        Self::Jan,
        Self::Feb,
        Self::Mar,
        Self::Apr,
        Self::May,
        Self::Jun,
        Self::Jul,
        Self::Aug,
        Self::Sep,
        Self::Oct,
        Self::Nov,
        Self::Dec,
    ];
}

impl Weather {
    /// Whether it speaks of a month.
    #[must_use]
    pub fn speaks_of(&self, month: Month) -> bool {
        self.months.is_empty() || self.months.contains(&month)
    }
}

impl Weekday {
    /// All days, Monday first.
    pub const ALL: [Self; 7] = [
        Self::Mon,
        Self::Tue,
        Self::Wed,
        Self::Thu,
        Self::Fri,
        Self::Sat,
        Self::Sun,
    ];

    /// Its name in documents: `mon`, `tue` …
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Mon => "mon",
            Self::Tue => "tue",
            Self::Wed => "wed",
            Self::Thu => "thu",
            Self::Fri => "fri",
            Self::Sat => "sat",
            Self::Sun => "sun",
        }
    }
}

impl Calendar {
    /// The hours usually worked on a day of the week; none if it is not worked.
    #[must_use]
    pub fn usual_hours(&self, day: Weekday) -> &[Hours] {
        if !self.days.contains(&day) {
            return &[];
        }
        self.hours_on
            .get(&day)
            .map_or(self.hours.as_slice(), Vec::as_slice)
    }

    /// Minutes worked on the longest day that the calendar knows.
    #[must_use]
    pub fn longest_shift_minutes(&self) -> u32 {
        let usual = Weekday::ALL.into_iter().map(|day| self.usual_hours(day));
        let extra = self.extra.iter().map(|extra| {
            if extra.hours.is_empty() {
                self.hours.as_slice()
            } else {
                extra.hours.as_slice()
            }
        });
        let minutes = |hours: &[Hours]| hours.iter().map(|stretch| stretch.length_minutes()).sum();
        usual.chain(extra).map(minutes).max().unwrap_or(0)
    }
}
