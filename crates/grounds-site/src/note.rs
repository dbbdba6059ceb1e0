//! Notes: one line of the log each.

use grounds_measure::{Humidity, Length, Percent, Temperature};
use grounds_model::{Moment, Ref};
use jiff::Timestamp;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

/// One thing that somebody saw, did or was told. Immutable.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Note {
    /// UUID version 7, made where the note is written.
    pub id: Uuid,
    /// When it was true: the moment something was seen, begun or finished.
    #[schemars(with = "String", extend("format" = "date-time"))]
    pub at: Timestamp,
    /// Who says so.
    pub by: String,
    /// What it is about.
    pub about: Ref,
    /// What kind of thing is said.
    pub kind: Kind,
    /// The figure or date that goes with it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub value: Option<Value>,
    /// In words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub words: Option<String>,
    /// Photos: keys in the photo store.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub photos: Vec<String>,
    /// The note that this one corrects; that one then no longer counts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub replaces: Option<Uuid>,
    /// Time code in the walk that it was said in, in milliseconds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub walk_ms: Option<u64>,
}

/// What kind of thing a note says.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// Work began.
    Started,
    /// Work has got so far ([`Value::Share`]).
    Progress,
    /// Work is finished.
    Done,
    /// Work has to be done again, or was taken out.
    Undone,
    /// A hold passed.
    Passed,
    /// A hold failed.
    Failed,
    /// Something was read: a length, a moisture, a temperature.
    Measured,
    /// A piece was ordered, or a hold booked (the date in [`Value::When`]).
    Ordered,
    /// A date was promised ([`Value::When`]).
    Promised,
    /// A piece has left its maker.
    Shipped,
    /// A piece is on site.
    Arrived,
    /// A piece or finished work was damaged.
    Damaged,
    /// A decision was made.
    Decided,
    /// Something stands in the way (until [`Value::When`], if known).
    Problem,
    /// What stood in the way is gone.
    Cleared,
    /// Something worth keeping, without effect on the plan.
    Remark,
}

/// The figure or date that goes with a note.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Value {
    /// How far work has got.
    Share(Percent),
    /// A date, or a date and time, in the job's time zone.
    When(#[schemars(with = "String", extend("format" = "moment"))] Moment),
    /// A length.
    Length(Length),
    /// An air or surface temperature.
    Temperature(Temperature),
    /// Relative humidity, of air or in a material.
    Humidity(Humidity),
    /// Any other reading, as a number with its unit in words.
    Reading {
        /// What was read: `moisture`, `level fell`.
        what: String,
        /// The number as written.
        figure: String,
    },
}
