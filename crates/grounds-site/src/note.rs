//! Notes: one line of the log each.

use grounds_measure::{Humidity, Length, Percent, Temperature, Units};
use grounds_model::{Moment, Ref};
use jiff::Timestamp;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::words::plain;

/// One thing that somebody saw, did or was told. Immutable.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Note {
    /// UUID version 7, made where the note is written.
    #[schemars(with = "String", extend("format" = "uuid"))]
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
    #[schemars(with = "Option<String>", extend("format" = "uuid"))]
    pub replaces: Option<Uuid>,
    /// The kept walk that it was said in.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<String>", extend("format" = "uuid"))]
    pub walk: Option<Uuid>,
    /// Time code in the walk that it was said in, in milliseconds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub walk_ms: Option<u64>,
    /// Nobody saw it. On `done`: it is taken to be there because what covers it is. On `decided`: the
    /// decision is about not having seen it ([`Look`](crate::Look), or letting it go). On `remark`:
    /// nobody could look. On other kinds it says nothing.
    #[serde(default, skip_serializing_if = "is_false")]
    pub presumed: bool,
}

fn is_false(value: &bool) -> bool {
    !value
}

impl Note {
    /// A note that says no more than this. The id is made by the caller, where the note is written.
    ///
    /// ```
    /// use grounds_site::{Kind, Note, Value};
    ///
    /// let id = "01974f0c-86a0-7000-8000-000000000001".parse()?;
    /// let at = "2027-06-08T14:30:00Z".parse()?;
    /// let note = Note::new(id, at, "Ana", "stair-hall.walls/base", Kind::Progress)
    ///     .with_value(Value::Share("60 %".parse()?))
    ///     .with_words("north side only");
    /// assert_eq!(note.about.as_str(), "stair-hall.walls/base");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn new(
        id: Uuid,
        at: Timestamp,
        by: impl Into<String>,
        about: impl Into<Ref>,
        kind: Kind,
    ) -> Self {
        Self {
            id,
            at,
            by: by.into(),
            about: about.into(),
            kind,
            value: None,
            words: None,
            photos: Vec::new(),
            replaces: None,
            walk: None,
            walk_ms: None,
            presumed: false,
        }
    }

    /// The same note about what nobody saw.
    #[must_use]
    pub fn unseen(mut self) -> Self {
        self.presumed = true;
        self
    }

    /// The same note with the figure or date that goes with it.
    #[must_use]
    pub fn with_value(mut self, value: Value) -> Self {
        self.value = Some(value);
        self
    }

    /// The same note with words.
    #[must_use]
    pub fn with_words(mut self, words: impl Into<String>) -> Self {
        self.words = Some(words.into());
        self
    }

    /// The same note with one more photo, by its key in the photo store.
    #[must_use]
    pub fn with_photo(mut self, key: impl Into<String>) -> Self {
        self.photos.push(key.into());
        self
    }

    /// The same note as the correction of another.
    #[must_use]
    pub fn correcting(mut self, other: Uuid) -> Self {
        self.replaces = Some(other);
        self
    }

    /// The same note as one that was said in a kept walk.
    #[must_use]
    pub fn in_walk(mut self, walk: Uuid) -> Self {
        self.walk = Some(walk);
        self
    }

    /// The same note with the time code of the walk that it was said in, in milliseconds.
    #[must_use]
    pub fn at_walk_time(mut self, ms: u64) -> Self {
        self.walk_ms = Some(ms);
        self
    }
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

impl Kind {
    /// Every kind, in the order of a piece's life.
    pub const ALL: [Self; 16] = [
        Self::Started,
        Self::Progress,
        Self::Done,
        Self::Undone,
        Self::Passed,
        Self::Failed,
        Self::Measured,
        Self::Ordered,
        Self::Promised,
        Self::Shipped,
        Self::Arrived,
        Self::Damaged,
        Self::Decided,
        Self::Problem,
        Self::Cleared,
        Self::Remark,
    ];

    /// The word for it, as a note is written: `done`.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Started => "started",
            Self::Progress => "progress",
            Self::Done => "done",
            Self::Undone => "undone",
            Self::Passed => "passed",
            Self::Failed => "failed",
            Self::Measured => "measured",
            Self::Ordered => "ordered",
            Self::Promised => "promised",
            Self::Shipped => "shipped",
            Self::Arrived => "arrived",
            Self::Damaged => "damaged",
            Self::Decided => "decided",
            Self::Problem => "problem",
            Self::Cleared => "cleared",
            Self::Remark => "remark",
        }
    }
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

impl Value {
    /// The figure for the middle of a sentence, in the job's units: `1104 mm`, `8 °C`, `74 %`. Dates stand
    /// as they are written: a sentence about a day says it by itself.
    ///
    /// ```
    /// use grounds_measure::Units;
    /// use grounds_site::Value;
    ///
    /// let read = Value::Temperature("8 C".parse()?);
    /// assert_eq!(read.in_words(Units::Metric), "8 °C");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn in_words(&self, units: Units) -> String {
        match self {
            Self::Share(share) => share.to_string(),
            Self::When(moment) => moment.to_string(),
            Self::Length(length) => length.display(units).to_string(),
            Self::Temperature(read) => read.display(units).to_string(),
            Self::Humidity(read) => read.to_string(),
            Self::Reading { what, figure } => format!("{} {}", plain(what), plain(figure)),
        }
    }
}
