//! Starts and finishes: facts, working hours, lags and dates.

use super::hours::Hours;
use super::site::Site;
use crate::plan::Breach;
use crate::problem::{ActivityId, Date, DateId, End, Fact, Lag, LagId, Problem, Side, Tick};

/// Facts kept, hours worked, nothing in the past, nothing beyond the horizon.
pub(super) fn check_activities(site: &Site, breaches: &mut Vec<Breach>) {
    for index in 0..site.problem.activities.len() {
        let id = ActivityId::from(index);
        match site.problem.activities[index].fact {
            Fact::Done { from, until } => {
                if site.ends(id) != (from, until) {
                    breaches.push(Breach::Fact(id));
                }
            }
            Fact::Begun { at, left } => check_begun(site, id, at, left, breaches),
            Fact::Open => check_open(site, id, breaches),
        }
    }
}

fn check_begun(site: &Site, id: ActivityId, at: Tick, left: Tick, breaches: &mut Vec<Breach>) {
    let (start, finish) = site.ends(id);
    if !site.is_planned(id) {
        breaches.push(Breach::Horizon(id));
    }
    let from = at.max(site.problem.now);
    let hours = site.hours(id);
    let expected = if left <= 0 {
        Some(from)
    } else {
        hours.count_on(from, left)
    };
    let beyond = |f: Tick| f > site.problem.horizon;
    let right = match expected {
        Some(expected) if !beyond(expected) => finish == expected,
        _ => beyond(finish),
    };
    if start != at || !right {
        breaches.push(Breach::Fact(id));
    }
}

fn check_open(site: &Site, id: ActivityId, breaches: &mut Vec<Breach>) {
    let activity = &site.problem.activities[id.index()];
    let (start, finish) = site.ends(id);
    if start < site.problem.now {
        breaches.push(Breach::Past(id));
    }
    if !site.is_planned(id) {
        breaches.push(Breach::Horizon(id));
        return;
    }
    let hours = site.hours(id);
    let follows = if activity.work <= 0 {
        finish == start
    } else {
        finish > start
            && hours.worked(start, finish) == i64::from(activity.work)
            && hours.is_worked(finish - 1)
    };
    if !hours.is_worked(start) || !follows {
        breaches.push(Breach::Hours(id));
    }
    if activity.unbroken && activity.work > 0 && !hours.one_shift_holds(start, finish) {
        breaches.push(Breach::Broken(id));
    }
}

/// Least and longest waits.
pub(super) fn check_lags(site: &Site, breaches: &mut Vec<Breach>) {
    for (index, lag) in site.problem.lags.iter().enumerate() {
        if !site.knows(lag.from) || !site.knows(lag.to) || !judged(site, lag) {
            continue;
        }
        let from = site.end(lag.from, lag.from_end);
        let to = site.end(lag.to, lag.to_end);
        if is_too_soon(site.problem, lag, from, to) && !is_overtaken(site.problem, lag, to) {
            breaches.push(Breach::TooSoon(LagId::from(index)));
        }
        if is_too_late(site.problem, lag, from, to) {
            breaches.push(Breach::TooLate(LagId::from(index)));
        }
    }
}

/// Both ends lie within the horizon, and one of them could still move.
fn judged(site: &Site, lag: &Lag) -> bool {
    let open = site.is_open(lag.from) || site.is_open(lag.to);
    open && site.is_planned(lag.from) && site.is_planned(lag.to)
}

/// A least wait into something that has already happened.
pub(super) fn is_overtaken(problem: &Problem, lag: &Lag, to: Tick) -> bool {
    let open = problem.activities[lag.to.index()].fact == Fact::Open;
    !open && to <= problem.now
}

pub(super) fn is_too_soon(problem: &Problem, lag: &Lag, from: Tick, to: Tick) -> bool {
    let Some(min) = lag.min else { return false };
    match lag.clock {
        crate::problem::Clock::Elapsed => i64::from(to) - i64::from(from) < i64::from(min),
        clock => to < from || Hours::on(problem, clock).worked(from, to) < i64::from(min),
    }
}

pub(super) fn is_too_late(problem: &Problem, lag: &Lag, from: Tick, to: Tick) -> bool {
    let Some(max) = lag.max else { return false };
    match lag.clock {
        crate::problem::Clock::Elapsed => i64::from(to) - i64::from(from) > i64::from(max),
        clock => Hours::on(problem, clock).worked(from, to) > i64::from(max),
    }
}

/// Fixed dates.
pub(super) fn check_dates(site: &Site, breaches: &mut Vec<Breach>) {
    for (index, date) in site.problem.dates.iter().enumerate() {
        let judged = site.knows(date.activity)
            && site.is_open(date.activity)
            && site.is_planned(date.activity);
        if judged && is_missed(date, site.end(date.activity, date.end)) {
            breaches.push(Breach::Date(DateId::from(index)));
        }
    }
}

pub(super) fn is_missed(date: &Date, at: Tick) -> bool {
    match date.side {
        Side::NotBefore => at < date.at,
        Side::NotAfter => at > date.at,
    }
}

/// One of two ends.
pub(super) fn pick(end: End, start: Tick, finish: Tick) -> Tick {
    match end {
        End::Start => start,
        End::Finish => finish,
    }
}
