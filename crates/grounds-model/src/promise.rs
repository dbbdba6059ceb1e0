//! What must pass, be decided or be reached: holds, decisions, milestones and waits.

use grounds_measure::{Money, Percent, Span};
use jiff::civil::Date;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{
    id::{Id, Ref},
    moment::Moment,
    place::is_false,
};

/// Who says that work may go on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum HoldKind {
    /// The site lead looks and signs.
    OwnCheck,
    /// A test with a reading: flood, pressure, moisture.
    Test,
    /// An inspector of the authority.
    Authority,
}

/// A test or inspection that must pass before work goes on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Hold {
    /// What everyone calls it.
    pub name: String,
    /// Who says that it passed.
    pub kind: HoldKind,
    /// Where it happens.
    pub place: Id,
    /// The trade that does it; without one the site lead does.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by: Option<Id>,
    /// What must be done first.
    pub after: Vec<Ref>,
    /// What waits for it: layers that cover, pieces, milestones.
    pub before: Vec<Ref>,
    /// Time of somebody's work; nothing for a moment.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub takes: Option<Span>,
    /// Time it stands, day and night, between setting up and reading (a flood test's 24 h).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stands: Option<Span>,
    /// Time after it passed before work goes on (drain and dry).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub then: Option<Span>,
    /// How far ahead it must be booked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub notice: Option<Span>,
    /// What it wants to see: photos, readings, papers.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub evidence: Vec<String>,
    /// Time to put things right after a fail, before it can be tried again: hours are somebody's
    /// work, a day or more by the clock (`7 days`) is drying on, day and night, with nobody there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub put_right: Option<Span>,
    /// Who puts it right, where it is not who does the hold.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub put_right_by: Option<Id>,
    /// How often it fails, each time that it is tried, for the forecast; without one, what is usual
    /// for its kind.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fails: Option<Percent>,
    /// The rule or drawing that asks for it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rule: Option<String>,
}

/// Something that the owner or the designer must settle.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Decision {
    /// What everyone calls it.
    pub name: String,
    /// Who decides.
    pub by: String,
    /// When an answer is expected; without one, `usual` from today.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<String>", extend("format" = "date"))]
    pub expected: Option<Date>,
    /// How long an answer usually takes once asked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub usual: Option<Span>,
    /// What waits for it, beside the pieces that name it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub before: Vec<Ref>,
}

/// A date that matters to somebody: the house handed over, a floor free to move into.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Milestone {
    /// What everyone calls it.
    pub name: String,
    /// What must be done; nothing means everything.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub after: Vec<Ref>,
    /// Wait for finishes to be fit for use, in full cure time, beside the work being done.
    #[serde(default, skip_serializing_if = "is_false")]
    pub cured: bool,
    /// When it is due.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<String>", extend("format" = "date"))]
    pub due: Option<Date>,
    /// It must not be later than due, whatever it costs.
    #[serde(default, skip_serializing_if = "is_false")]
    pub firm: bool,
    /// What each day late costs.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cost_per_day_late: Option<Money>,
}

/// Which end of a piece of work is meant.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum WorkEnd {
    /// The moment it begins.
    Start,
    /// The moment it ends.
    #[default]
    Finish,
}

/// A waiting time that no build-up states: at least, at most, or both.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Wait {
    /// What is counted from.
    pub from: Ref,
    /// Which end of it.
    #[serde(default)]
    pub from_end: WorkEnd,
    /// What waits.
    pub to: Ref,
    /// Which end of it.
    #[serde(default = "start")]
    pub to_end: WorkEnd,
    /// At least this long.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub least: Option<Span>,
    /// At most this long.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub most: Option<Span>,
    /// Why, in the site lead's words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub why: Option<String>,
}

/// A date that some work must keep to: a crew booked, a delivery slot, a road closed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Booking {
    /// The work.
    pub work: Ref,
    /// Its start not before this moment: a date, or a date and a time.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub not_before: Option<Moment>,
    /// Its finish not after this moment.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub not_after: Option<Moment>,
    /// A start already promised to the trade; moving it costs goodwill.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub promised: Option<Moment>,
    /// Why, in the site lead's words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub why: Option<String>,
}

fn start() -> WorkEnd {
    WorkEnd::Start
}

/// Keys of things that a milestone or note may use for "the whole job".
pub const WHOLE_JOB: &str = "job";

impl Hold {
    /// The trade that puts a failed hold right, if the hold names one.
    #[must_use]
    pub fn mender(&self) -> Option<&Id> {
        self.put_right_by.as_ref().or(self.by.as_ref())
    }
}
