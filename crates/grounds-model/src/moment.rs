//! Dates with or without a time of day.

use std::{fmt, str::FromStr};

use jiff::civil::{Date, Time};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::text::TextError;

/// What a good moment looks like.
const EXAMPLE: &str = "2027-06-07 or 2027-06-07 14:00";

/// A date with or without a time of day, in the job's time zone: `2027-06-07` or
/// `2027-06-07 14:00` (`2027-06-07T14:00` is read as well).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Moment {
    /// The day.
    pub date: Date,
    /// The time of day, if one is given.
    pub time: Option<Time>,
}

impl Moment {
    /// The time of day that is meant where none is written and the moment opens a stretch:
    /// midnight at the start of the day.
    #[must_use]
    pub fn time_or_midnight(self) -> Time {
        self.time.unwrap_or(Time::midnight())
    }
}

impl fmt::Display for Moment {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.date)?;
        match self.time {
            Some(time) => write!(f, " {:02}:{:02}", time.hour(), time.minute()),
            None => Ok(()),
        }
    }
}

impl FromStr for Moment {
    type Err = TextError;

    fn from_str(text: &str) -> Result<Self, TextError> {
        let (day, rest) = text.split_at_checked(10).unwrap_or((text, ""));
        let date = read_date(day).map_err(|expected| moment_error(text, 0, expected))?;
        if rest.is_empty() {
            return Ok(Self { date, time: None });
        }
        let clock = rest
            .strip_prefix([' ', 'T'])
            .ok_or_else(|| moment_error(text, 10, "a space before the time of day"))?;
        // Seconds are accepted where they are zero, as a machine may write them.
        let clock = clock
            .strip_suffix(":00")
            .filter(|cut| cut.len() == 5)
            .unwrap_or(clock);
        let time = read_clock(clock)
            .ok_or_else(|| moment_error(text, 11, "a time of day from 00:00 to 23:59"))?;
        Ok(Self {
            date,
            time: Some(time),
        })
    }
}

fn moment_error(text: &str, at: usize, expected: &str) -> TextError {
    TextError::new("moment", text, at, expected, EXAMPLE)
}

/// Reads `2027-06-07`; else says what was expected.
pub(crate) fn read_date(text: &str) -> Result<Date, &'static str> {
    let shaped = text.len() == 10
        && text.bytes().enumerate().all(|(at, byte)| match at {
            4 | 7 => byte == b'-',
            _ => byte.is_ascii_digit(),
        });
    if !shaped {
        return Err("a date as year-month-day");
    }
    text.parse().map_err(|_| "a day that is in the calendar")
}

/// Reads a day for a document's `date` format.
pub(crate) fn read_day(text: &str) -> Result<Date, TextError> {
    read_date(text).map_err(|expected| TextError::new("date", text, 0, expected, "2027-06-07"))
}

/// Reads `08:00`.
pub(crate) fn read_clock(text: &str) -> Option<Time> {
    let (hour, minute) = text.split_once(':')?;
    let two = |part: &str| -> Option<i8> {
        let digits = part.len() == 2 && part.bytes().all(|byte| byte.is_ascii_digit());
        digits.then(|| part.parse().ok()).flatten()
    };
    Time::new(two(hour)?, two(minute)?, 0, 0).ok()
}

impl Serialize for Moment {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Moment {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        text.parse().map_err(serde::de::Error::custom)
    }
}

impl JsonSchema for Moment {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Moment".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A date with or without a time of day, in the job's time zone.",
            "type": "string",
            "format": "moment",
            "examples": ["2027-06-07", "2027-06-07 14:00"],
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_moment_prints_as_it_is_read() {
        for text in ["2027-06-07", "2027-06-07 14:00", "2028-02-29 00:15"] {
            assert_eq!(text.parse::<Moment>().unwrap().to_string(), text);
        }
        let spaced: Moment = "2027-06-07 14:00".parse().unwrap();
        assert_eq!("2027-06-07T14:00".parse::<Moment>().unwrap(), spaced);
        assert_eq!("2027-06-07T14:00:00".parse::<Moment>().unwrap(), spaced);
    }

    #[test]
    fn a_bad_moment_says_what_was_expected() {
        for (text, expected) in [
            ("7 June 2027", "a date as year-month-day"),
            ("2027-02-29", "a day that is in the calendar"),
            ("2027-06-07 2pm", "a time of day from 00:00 to 23:59"),
            ("2027-06-07 24:00", "a time of day from 00:00 to 23:59"),
            ("2027-06-07x14:00", "a space before the time of day"),
            ("2027-06-0é", "a date as year-month-day"),
            ("", "a date as year-month-day"),
        ] {
            assert_eq!(
                text.parse::<Moment>().unwrap_err().expected(),
                expected,
                "{text}"
            );
        }
    }
}
