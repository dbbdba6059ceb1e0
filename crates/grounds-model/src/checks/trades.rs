//! Trades: with crews, people and a calendar that exists.

use grounds_measure::Percent;

use super::{Notes, calendars, chances};
use crate::{
    job::Job,
    nearest::{listed, mend_by_name},
};

pub(super) fn check(job: &Job, notes: &mut Notes<'_, '_>) {
    for (key, trade) in &job.trades {
        if notes.full() {
            return;
        }
        let key = key.as_str();
        if trade.crews == 0 {
            let mend = "write crews = 1 or more; a trade that is not wanted is left out";
            notes.error(
                &["trades", key, "crews"],
                "a trade without a crew does no work",
                mend,
            );
        }
        if trade.people == 0 {
            notes.error(
                &["trades", key, "people"],
                "a crew without people does no work",
                "write people = 1 or more",
            );
        }
        if trade.overtime.is_some_and(|share| share < Percent::WHOLE) {
            notes.error(
                &["trades", key, "overtime"],
                "an hour of overtime that costs less than a usual one",
                "write the whole of it: overtime = \"150 %\" is time and a half",
            );
        }
        chances::check_spread(trade.spread, &["trades", key, "spread"], notes);
        if let Some(calendar) = &trade.calendar {
            calendars::known(job, calendar.as_str(), &["trades", key, "calendar"], notes);
        }
    }
}

/// Notes a trade that the job does not have.
pub(super) fn known(job: &Job, trade: &str, path: &[&str], notes: &mut Notes<'_, '_>) {
    if job.trades.contains_key(trade) {
        return;
    }
    notes.error(
        path,
        format!("there is no trade `{trade}`"),
        mend(job, trade),
    );
}

/// How to mend a trade that is missing.
pub(super) fn mend(job: &Job, trade: &str) -> String {
    let known = || job.trades.keys().map(|key| key.as_str());
    let otherwise = if job.trades.is_empty() {
        format!("add [trades.{trade}] with a name")
    } else {
        format!("add [trades.{trade}]; known are {}", listed(known()))
    };
    mend_by_name(trade, known(), &otherwise)
}
