//! Holds, decisions, milestones, waits and bookings.

use super::{Notes, chances, places, refs, step, trades};
use crate::{
    job::Job,
    moment::Moment,
    promise::{Booking, Hold, Wait},
};

pub(super) fn check(job: &Job, notes: &mut Notes<'_, '_>) {
    for (key, hold) in &job.holds {
        if notes.full() {
            return;
        }
        check_hold(job, hold, &["holds", key.as_str()], notes);
    }
    for (key, decision) in &job.decisions {
        if notes.full() {
            return;
        }
        refs::works(
            job,
            &decision.before,
            &["decisions", key.as_str(), "before"],
            notes,
        );
    }
    for (key, milestone) in &job.milestones {
        if notes.full() {
            return;
        }
        let path = ["milestones", key.as_str()];
        refs::works(job, &milestone.after, &step(&path, &["after"]), notes);
        if let Some(due) = milestone.due.filter(|due| *due < job.job.begins) {
            let what = format!(
                "the milestone is due on {due}, before the job begins on {}",
                job.job.begins
            );
            notes.error(
                &step(&path, &["due"]),
                what,
                "write a later day, or let the job begin earlier",
            );
        }
        if milestone.firm && milestone.due.is_none() {
            let what = "a firm milestone has no date";
            notes.error(
                &step(&path, &["firm"]),
                what,
                "add due = \"2027-06-07\", or leave `firm` out",
            );
        }
    }
    for (at, wait) in job.waits.iter().enumerate() {
        if notes.full() {
            return;
        }
        check_wait(job, wait, &["waits", &at.to_string()], notes);
    }
    for (at, booking) in job.bookings.iter().enumerate() {
        if notes.full() {
            return;
        }
        check_booking(job, booking, &["bookings", &at.to_string()], notes);
    }
}

fn check_hold(job: &Job, hold: &Hold, path: &[&str], notes: &mut Notes<'_, '_>) {
    places::known(job, hold.place.as_str(), &step(path, &["place"]), notes);
    for (name, trade) in [("by", &hold.by), ("put_right_by", &hold.put_right_by)] {
        if let Some(trade) = trade {
            trades::known(job, trade.as_str(), &step(path, &[name]), notes);
        }
    }
    refs::works(job, &hold.after, &step(path, &["after"]), notes);
    refs::works(job, &hold.before, &step(path, &["before"]), notes);
    if let Some(fails) = hold.fails {
        chances::check_share(fails, "fails", &step(path, &["fails"]), notes);
    }
    if hold.before.is_empty() {
        let what = "nothing waits for this hold, so it guards nothing";
        notes.advice(
            &step(path, &["before"]),
            what,
            "name the layer, piece or milestone that waits for it",
        );
    }
}

fn check_wait(job: &Job, wait: &Wait, path: &[&str], notes: &mut Notes<'_, '_>) {
    refs::work(job, &wait.from, &step(path, &["from"]), notes);
    refs::work(job, &wait.to, &step(path, &["to"]), notes);
    if wait.from == wait.to && wait.from_end == wait.to_end {
        notes.error(
            &step(path, &["to"]),
            "this wait is from a thing to itself",
            "name what waits",
        );
    }
    match (wait.least, wait.most) {
        (None, None) => {
            let what = "this wait has no length";
            notes.error(
                path,
                what,
                "add least = \"24 h\", most = \"3 days\" or both",
            );
        }
        (Some(least), Some(most)) if least > most => {
            let what = format!("at least {least} and at most {most} cannot both be kept");
            notes.error(
                &step(path, &["most"]),
                what,
                "exchange the two, or write a longer `most`",
            );
        }
        _ => {}
    }
}

fn check_booking(job: &Job, booking: &Booking, path: &[&str], notes: &mut Notes<'_, '_>) {
    refs::work(job, &booking.work, &step(path, &["work"]), notes);
    if booking.not_before.is_none() && booking.not_after.is_none() && booking.promised.is_none() {
        let what = "this booking has no date";
        notes.error(
            path,
            what,
            "add not_before, not_after or promised, like \"2027-06-07 08:00\"",
        );
    }
    if let (Some(not_before), Some(not_after)) = (booking.not_before, booking.not_after)
        && later(not_before, not_after)
    {
        let what = format!("it may not begin before {not_before}, yet must end by {not_after}");
        notes.error(
            &step(path, &["not_after"]),
            what,
            "exchange the two dates, or write a later one",
        );
    }
}

/// Whether one moment is surely later than another; a day without a time counts as all of it.
pub(super) fn later(first: Moment, second: Moment) -> bool {
    match (first.time, second.time) {
        (Some(first_time), Some(second_time)) => {
            (first.date, first_time) >= (second.date, second_time)
        }
        _ => first.date > second.date,
    }
}
