//! How far ahead an inspection is booked, counted in the working days of whoever comes.

use grounds_measure::Span;
use grounds_model::{Calendar, Hold, Job};
use jiff::{ToSpan, civil::Date};

use crate::hours;

/// Days beyond which no notice is looked back for.
const FARTHEST: usize = 2_000;

/// The first day on which a hold can be had if notice of it is given on `told`; that day itself where
/// it needs no booking. Working days are those of the trade that does it, else the job's.
#[must_use]
pub fn first_day(job: &Job, hold: &Hold, told: Date) -> Date {
    match hold.notice {
        None => told,
        Some(Span::WorkingDays(days)) => match days_of(job, hold) {
            Some(calendar) => hours::after_working_days(calendar, told, days),
            None => told,
        },
        Some(other) => told.saturating_add(whole_days(other).days()),
    }
}

/// The last day on which notice can be given for a hold that is to be had on `on`: one on which
/// somebody is there to take it. That day itself where it needs no booking.
#[must_use]
pub fn last_day_to_book(job: &Job, hold: &Hold, on: Date) -> Date {
    match hold.notice {
        None => on,
        Some(Span::WorkingDays(_)) => {
            let calendar = days_of(job, hold);
            let is_worked = |day| calendar.is_none_or(|c| !hours::hours_of(c, day).is_empty());
            let mut told = on;
            for _ in 0..FARTHEST {
                if is_worked(told) && first_day(job, hold, told) <= on {
                    break;
                }
                told = told.yesterday().unwrap_or(told);
            }
            told
        }
        Some(other) => on.saturating_sub(whole_days(other).days()),
    }
}

/// The calendar that the days of a notice are counted on.
fn days_of<'j>(job: &'j Job, hold: &Hold) -> Option<&'j Calendar> {
    job.calendar_of(hold.by.as_ref().map_or("", |by| by.as_str()))
}

fn whole_days(span: Span) -> i64 {
    const A_DAY: u64 = 4 * 24;
    let quarters = span.quarter_hours_up().map_or(0, u64::from);
    i64::try_from(quarters.div_ceil(A_DAY))
        .unwrap_or(0)
        .min(36_500)
}
