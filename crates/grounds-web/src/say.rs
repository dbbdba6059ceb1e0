//! Dates, times of day, counts and heights as people say them.

use grounds_measure::{Length, Units};
use jiff::{Timestamp, tz::TimeZone};

/// `Thursday 10 June, 7:10`.
pub(crate) fn long(at: Timestamp, zone: &TimeZone) -> String {
    at.to_zoned_datetime(zone.clone())
        .strftime("%A %-d %B, %-H:%M")
        .to_string()
}

/// `Thu 10 June, 7:10`.
pub(crate) fn short(at: Timestamp, zone: &TimeZone) -> String {
    at.to_zoned_datetime(zone.clone())
        .strftime("%a %-d %B, %-H:%M")
        .to_string()
}

/// `7:10` if it is of the same day as `today`, else `Thu 10 June, 7:10`.
pub(crate) fn recent(at: Timestamp, today: Timestamp, zone: &TimeZone) -> String {
    let day = |at: Timestamp| at.to_zoned_datetime(zone.clone()).date();
    if day(at) == day(today) {
        return at
            .to_zoned_datetime(zone.clone())
            .strftime("%-H:%M")
            .to_string();
    }
    short(at, zone)
}

/// `1 thing`, `12 things`.
pub(crate) fn counted(n: usize, one: &str, many: &str) -> String {
    format!("{n} {}", if n == 1 { one } else { many })
}

/// A level's height over the datum as drawings give it: `+8.95`, `±0.00`, or `+29' 4\"`.
pub(crate) fn height(height: Length, units: Units) -> String {
    let mm = height.mm();
    let sign = if mm > 0.0 {
        "+"
    } else if mm < 0.0 {
        "−"
    } else {
        "±"
    };
    match units {
        Units::Metric => format!("{sign}{:.2}", mm.abs() / 1000.0),
        Units::Imperial => format!(
            "{sign}{}",
            height.display_inches().to_string().trim_start_matches('-')
        ),
    }
}

/// Text that somebody else wrote, cut to a length that a page can carry.
pub(crate) fn cut(text: &str, most: usize) -> String {
    match text.char_indices().nth(most) {
        Some((at, _)) => format!("{}…", text.get(..at).unwrap_or_default().trim_end()),
        None => text.to_owned(),
    }
}
