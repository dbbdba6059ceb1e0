//! When people work, and what the air is like.

use std::collections::BTreeMap;

use grounds_measure::{Humidity, Temperature};
use jiff::civil::{Date, Time};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{id::Id, promise::Moment};

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

/// A stretch of a working day, `08:00-12:00`, in the job's time zone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Hours {
    /// Work begins.
    pub from: Time,
    /// Work ends; midnight at the end of the day is 24:00.
    pub until: HoursEnd,
}

/// The end of a stretch of work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum HoursEnd {
    /// At a time of the same day.
    At(Time),
    /// At midnight that ends the day.
    Midnight,
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
    #[schemars(with = "Vec<String>", inner(extend("format" = "hours")))]
    pub hours: Vec<Hours>,
    /// Other hours on some weekdays: a short Friday.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    #[schemars(with = "BTreeMap<Weekday, Vec<String>>")]
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
    pub from: Date,
    /// The last day; the same as the first where it is missing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
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
    pub on: Date,
    /// Its hours, where they are not the usual ones.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(with = "Vec<String>", inner(extend("format" = "hours")))]
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
    #[schemars(with = "String", extend("format" = "moment"))]
    pub from: Moment,
    /// Until this moment; without one, from then on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<String>", extend("format" = "moment"))]
    pub until: Option<Moment>,
    /// Only between these hours of each day.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<String>", extend("format" = "hours"))]
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
    #[serde(default, skip_serializing_if = "crate::place::is_false")]
    pub forecast: bool,
}
