//! Working hours of the job's calendars, laid out in ticks.

use grounds_model::{Calendar as Design, Hours, HoursEnd, Weekday};
use grounds_schedule::{Calendar, Shift, Tick};
use jiff::civil::{Date, Weekday as CivilWeekday};

use crate::clock::Clock;

/// Lays a calendar out from `from` to `to`, one shift a worked day.
pub(crate) fn lay_out(design: &Design, clock: &Clock, from: Date, to: Date) -> Calendar {
    let mut shifts = Vec::new();
    let mut day = from;
    while day < to {
        let stretches: Vec<(Tick, Tick)> = hours_of(design, day)
            .iter()
            .map(|hours| stretch(hours, day, clock))
            .filter(|(start, end)| start < end)
            .collect();
        if !stretches.is_empty() {
            shifts.push(Shift { stretches });
        }
        match day.tomorrow() {
            Ok(next) => day = next,
            Err(_) => break,
        }
    }
    Calendar::new(shifts)
}

/// The stretches of work on one day; none on a day off.
pub(crate) fn hours_of(design: &Design, day: Date) -> Vec<Hours> {
    if let Some(extra) = design.extra.iter().find(|extra| extra.on == day) {
        return if extra.hours.is_empty() {
            usual_hours(design, day)
        } else {
            extra.hours.clone()
        };
    }
    let off = design
        .closed
        .iter()
        .any(|c| c.from <= day && day <= c.to.unwrap_or(c.from));
    if off || !design.days.contains(&weekday(day)) {
        return Vec::new();
    }
    usual_hours(design, day)
}

fn usual_hours(design: &Design, day: Date) -> Vec<Hours> {
    design
        .hours_on
        .get(&weekday(day))
        .unwrap_or(&design.hours)
        .clone()
}

/// One stretch of a day in ticks.
pub(crate) fn stretch(hours: &Hours, day: Date, clock: &Clock) -> (Tick, Tick) {
    let until = match hours.until {
        HoursEnd::At(time) => clock.at(day, time),
        HoursEnd::Midnight => clock.midnight(day.tomorrow().unwrap_or(Date::MAX)),
    };
    (clock.at(day, hours.from), until)
}

/// Ticks of work on a usual day of the calendar: what "one working day" of work means.
pub(crate) fn usual_day(design: &Design) -> Tick {
    let minutes: i64 = design
        .hours
        .iter()
        .map(|hours| {
            let from = minute_of(hours.from);
            let until = match hours.until {
                HoursEnd::At(time) => minute_of(time),
                HoursEnd::Midnight => 24 * 60,
            };
            (until - from).max(0)
        })
        .sum();
    Tick::try_from(minutes / 15).unwrap_or(Tick::MAX).max(1)
}

fn minute_of(time: jiff::civil::Time) -> i64 {
    i64::from(time.hour()) * 60 + i64::from(time.minute())
}

/// The model's weekday of a day.
pub(crate) fn weekday(day: Date) -> Weekday {
    match day.weekday() {
        CivilWeekday::Monday => Weekday::Mon,
        CivilWeekday::Tuesday => Weekday::Tue,
        CivilWeekday::Wednesday => Weekday::Wed,
        CivilWeekday::Thursday => Weekday::Thu,
        CivilWeekday::Friday => Weekday::Fri,
        CivilWeekday::Saturday => Weekday::Sat,
        CivilWeekday::Sunday => Weekday::Sun,
    }
}

/// The first day on which notice given on `told` has run: the `days`-th working day after it.
pub(crate) fn after_working_days(design: &Design, told: Date, days: u32) -> Date {
    let mut day = told;
    let mut left = days;
    for _ in 0..2_000 {
        if left == 0 {
            break;
        }
        day = day.tomorrow().unwrap_or(Date::MAX);
        if !hours_of(design, day).is_empty() {
            left -= 1;
        }
    }
    day
}
