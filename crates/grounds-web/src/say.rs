//! Dates and times of day as people say them.

use jiff::{Timestamp, tz::TimeZone};

/// `Thursday 10 June, 7:10`.
pub(crate) fn long(at: Timestamp, zone: &TimeZone) -> String {
    at.to_zoned_datetime(zone.clone()).strftime("%A %-d %B, %-H:%M").to_string()
}

/// `Thu 10 June, 7:10`.
pub(crate) fn short(at: Timestamp, zone: &TimeZone) -> String {
    at.to_zoned_datetime(zone.clone()).strftime("%a %-d %B, %-H:%M").to_string()
}

/// `7:10` if it is of the same day as `today`, else `Thu 10 June, 7:10`.
pub(crate) fn recent(at: Timestamp, today: Timestamp, zone: &TimeZone) -> String {
    let day = |at: Timestamp| at.to_zoned_datetime(zone.clone()).date();
    if day(at) == day(today) {
        return at.to_zoned_datetime(zone.clone()).strftime("%-H:%M").to_string();
    }
    short(at, zone)
}

/// `1 thing`, `12 things`.
pub(crate) fn counted(n: usize, one: &str, many: &str) -> String {
    format!("{n} {}", if n == 1 { one } else { many })
}

/// Text that somebody else wrote, cut to a length that a page can carry.
pub(crate) fn cut(text: &str, most: usize) -> String {
    match text.char_indices().nth(most) {
        Some((at, _)) => format!("{}…", text.get(..at).unwrap_or_default().trim_end()),
        None => text.to_owned(),
    }
}
