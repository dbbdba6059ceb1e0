//! The job: everything that is designed, in one document.

use std::collections::BTreeMap;

use grounds_measure::{Money, Units};
use jiff::civil::Date;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{
    build_up::BuildUp,
    calendar::{Calendar, Climate, Weather},
    figure::RulesOfJob,
    id::Id,
    line::{Control, Line},
    piece::{Opening, Piece},
    place::{Level, Passage, Place},
    promise::{Booking, Decision, Hold, Milestone, Wait},
    trade::Trade,
};

/// The version of the document format that this code writes and reads.
pub const FORMAT: u32 = 1;

/// A job document (`job.toml`).
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Job {
    /// Version of the document format: 1.
    pub format: u32,
    /// The house and its terms.
    pub job: About,
    /// Working days and hours.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub calendars: BTreeMap<Id, Calendar>,
    /// Trades and inspectors.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub trades: BTreeMap<Id, Trade>,
    /// Storeys.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub levels: BTreeMap<Id, Level>,
    /// Rooms, halls, stairs and decks.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub places: BTreeMap<Id, Place>,
    /// Ways between places and from outside.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub passages: BTreeMap<Id, Passage>,
    /// Build-ups of this job; they beat those of the starter library with the same key.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub build_ups: BTreeMap<Id, BuildUp>,
    /// Pieces.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub pieces: BTreeMap<Id, Piece>,
    /// Openings.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub openings: BTreeMap<Id, Opening>,
    /// Control lines: planes and levels that several places are set out from.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub controls: BTreeMap<Id, Control>,
    /// Lines by hand, for what the build-ups do not say.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub lines: BTreeMap<Id, Line>,
    /// Tests and inspections.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub holds: BTreeMap<Id, Hold>,
    /// Decisions.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub decisions: BTreeMap<Id, Decision>,
    /// Milestones.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub milestones: BTreeMap<Id, Milestone>,
    /// Waiting times that no build-up states.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub waits: Vec<Wait>,
    /// Dates that work must keep to.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub bookings: Vec<Booking>,
    /// The building code that rules go by, and figures for the whole house.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rules: Option<RulesOfJob>,
    /// What the air was and is expected to be.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub climate: Vec<Climate>,
    /// How often weather takes a day from work outside, for the forecast.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub weather: Vec<Weather>,
}

/// The house and its terms.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct About {
    /// What the job is called.
    pub name: String,
    /// A line about it, for the top of sheets.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub about: Option<String>,
    /// Whether lengths are shown in millimetres or in feet and inches.
    pub units: Units,
    /// The time zone the house stands in, an IANA name: `Europe/London`.
    pub zone: String,
    /// The first day the log or the plan speaks of.
    #[schemars(with = "String", extend("format" = "date"))]
    pub begins: Date,
    /// The calendar that trades work by unless they name another.
    pub calendar: Id,
    /// What the job costs for each calendar day that it runs.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cost_per_day: Option<Money>,
    /// The currency of all prices, an ISO 4217 code.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub currency: Option<String>,
}
