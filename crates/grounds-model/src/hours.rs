//! Stretches of a working day.

use std::{fmt, str::FromStr};

use jiff::civil::Time;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::{moment::read_clock, text::TextError};

/// What good hours look like.
const EXAMPLE: &str = "08:00-12:00";

/// A stretch of a working day, `08:00-12:00`, in the job's time zone. It never runs past midnight.
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

impl HoursEnd {
    /// Minutes from the start of the day, 1440 for midnight.
    #[must_use]
    pub fn minutes(self) -> u32 {
        match self {
            Self::At(time) => minutes(time),
            Self::Midnight => 24 * 60,
        }
    }
}

impl Hours {
    /// Minutes from the start of the day to the first of these hours.
    #[must_use]
    pub fn from_minutes(self) -> u32 {
        minutes(self.from)
    }

    /// Minutes from the start of the day to the end of these hours.
    #[must_use]
    pub fn until_minutes(self) -> u32 {
        self.until.minutes()
    }

    /// How long the stretch is, in minutes; never zero.
    #[must_use]
    pub fn length_minutes(self) -> u32 {
        self.until_minutes().saturating_sub(self.from_minutes())
    }

    /// Whether the two stretches share more than a moment.
    #[must_use]
    pub fn overlaps(self, other: Self) -> bool {
        self.from_minutes() < other.until_minutes() && other.from_minutes() < self.until_minutes()
    }
}

fn minutes(time: Time) -> u32 {
    u32::try_from(i32::from(time.hour()) * 60 + i32::from(time.minute())).unwrap_or(0)
}

impl fmt::Display for HoursEnd {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:02}:{:02}", self.minutes() / 60, self.minutes() % 60)
    }
}

impl fmt::Display for Hours {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{:02}:{:02}-{}",
            self.from.hour(),
            self.from.minute(),
            self.until
        )
    }
}

impl FromStr for Hours {
    type Err = TextError;

    fn from_str(text: &str) -> Result<Self, TextError> {
        let error = |at, expected| TextError::new("hours", text, at, expected, EXAMPLE);
        let (from, until) = text
            .split_once('-')
            .ok_or_else(|| error(0, "two times of day with a hyphen"))?;
        let second = from.len() + 1;
        let from =
            read_clock(from.trim()).ok_or_else(|| error(0, "a time of day from 00:00 to 23:59"))?;
        let until = match until.trim() {
            "24:00" => HoursEnd::Midnight,
            clock => HoursEnd::At(
                read_clock(clock)
                    .ok_or_else(|| error(second, "a time of day from 00:00 to 24:00"))?,
            ),
        };
        let hours = Self { from, until };
        if hours.length_minutes() == 0 {
            return Err(error(
                second,
                "an end later than the start; split hours at midnight",
            ));
        }
        Ok(hours)
    }
}

impl Serialize for Hours {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Hours {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        text.parse().map_err(serde::de::Error::custom)
    }
}

impl JsonSchema for Hours {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Hours".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A stretch of a working day, in the job's time zone. It never runs past midnight.",
            "type": "string",
            "format": "hours",
            "examples": ["08:00-12:00", "22:00-24:00"],
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hours(text: &str) -> Hours {
        text.parse().unwrap()
    }

    #[test]
    fn hours_print_as_they_are_read() {
        for text in ["08:00-12:00", "00:00-24:00", "22:15-23:59"] {
            assert_eq!(hours(text).to_string(), text);
        }
        assert_eq!(hours("08:00 - 12:00").length_minutes(), 240);
    }

    #[test]
    fn a_night_shift_is_split_at_midnight() {
        let error = "22:00-06:00".parse::<Hours>().unwrap_err();
        assert!(
            error.to_string().contains("split hours at midnight"),
            "{error}"
        );
        assert_eq!(hours("22:00-24:00").length_minutes(), 120);
    }

    #[test]
    fn bad_hours_say_where_they_go_wrong() {
        for (text, at) in [
            ("8-12", 0),
            ("08:00-25:00", 6),
            ("08:00", 0),
            ("08:00-08:00", 6),
        ] {
            assert_eq!(text.parse::<Hours>().unwrap_err().at(), at, "{text}");
        }
    }

    #[test]
    fn a_morning_and_an_afternoon_that_touch_do_not_overlap() {
        assert!(!hours("08:00-12:00").overlaps(hours("12:00-16:00")));
        assert!(hours("08:00-12:00").overlaps(hours("11:45-16:00")));
    }
}
