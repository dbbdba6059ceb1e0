//! The days on which a trade could work longer than usual.

use grounds_model::{Calendar, Hours, HoursEnd, Id, Weekday};
use grounds_schedule::{DAY, Tick};
use jiff::{Span, civil::Date, civil::Time};

use super::{
    chain::Chain,
    means::{ExtraDay, ExtraHours, ExtraKind},
};
use crate::hours;

/// Hours that a longer day has beyond a usual one (common practice: ten hours instead of eight).
const HOURS_LONGER: i64 = 2;

/// Nobody is asked to work later than this (common practice of site hours).
const LATEST: Time = Time::constant(19, 0, 0, 0);

/// A Saturday ends at one o'clock (common practice: site hours that neighbours are used to).
const SATURDAY_ENDS: Time = Time::constant(13, 0, 0, 0);

/// Weeks in which one means asks for extra hours: longer days tire people, Saturdays wear on.
const WEEKS_OF_LONGER_DAYS: i32 = 3;
const WEEKS_OF_SATURDAYS: i32 = 6;
const WEEKS_OF_VISITS: i32 = 6;

/// A trade that is here on at most so many days a week is asked for other days, not for Saturdays.
const PART_WEEK: usize = 3;

/// All that a trade could be asked to work beyond its usual hours for the work on a chain.
pub(crate) fn extra_hours(chain: &Chain<'_>, trade: &Id, week: &Calendar) -> Vec<ExtraHours> {
    let kinds = if week.days.len() <= PART_WEEK {
        vec![(ExtraKind::Visits, WEEKS_OF_VISITS)]
    } else {
        vec![
            (ExtraKind::LongerDays, WEEKS_OF_LONGER_DAYS),
            (ExtraKind::Saturdays, WEEKS_OF_SATURDAYS),
        ]
    };
    kinds
        .into_iter()
        .filter_map(|(kind, weeks)| {
            let days: Vec<ExtraDay> = stretch(chain, trade, weeks)?
                .filter_map(|on| day(kind, week, on))
                .collect();
            (!days.is_empty()).then(|| ExtraHours {
                trade: trade.clone(),
                kind,
                days,
            })
        })
        .collect()
}

/// The weeks that hold most of a trade's work on the chain, with a week before them: what comes
/// sooner can also begin sooner.
fn stretch(
    chain: &Chain<'_>,
    trade: &Id,
    weeks: i32,
) -> Option<impl Iterator<Item = Date> + use<>> {
    let plan = chain.plan;
    let work = chain.of_trade(trade);
    let length = weeks * 7 * DAY;
    let load = |from: Tick| -> Tick {
        work.iter()
            .map(|id| {
                let (start, finish) = (plan.starts[id.index()], plan.finishes[id.index()]);
                (finish.min(from + length) - start.max(from)).max(0)
            })
            .sum()
    };
    let from = work
        .iter()
        .map(|id| plan.starts[id.index()])
        .max_by_key(|&from| (load(from), std::cmp::Reverse(from)))?;
    let now = chain.network.now_tick();
    let clock = &chain.network.clock;
    let first = clock.day((from - 7 * DAY).max(now));
    let last = clock.day(from + length);
    Some(
        std::iter::successors(Some(first), |day| day.tomorrow().ok())
            .take_while(move |day| *day <= last),
    )
}

/// The hours of one day, if it can be longer in that way.
fn day(kind: ExtraKind, week: &Calendar, on: Date) -> Option<ExtraDay> {
    let usual = hours::hours_of(week, on);
    let weekday = hours::weekday(on);
    let hours = match kind {
        ExtraKind::LongerDays => longer(usual)?,
        ExtraKind::Saturdays if weekday == Weekday::Sat && is_free(week, on, &usual) => {
            morning(week)?
        }
        ExtraKind::Visits
            if !matches!(weekday, Weekday::Sat | Weekday::Sun) && is_free(week, on, &usual) =>
        {
            week.hours.clone()
        }
        ExtraKind::Saturdays | ExtraKind::Visits => return None,
    };
    Some(ExtraDay { on, hours })
}

/// Not worked, and not because everything is closed.
fn is_free(week: &Calendar, on: Date, usual: &[Hours]) -> bool {
    let closed = |c: &grounds_model::Closed| c.from <= on && on <= c.to.unwrap_or(c.from);
    usual.is_empty() && !week.closed.iter().any(closed)
}

fn longer(mut hours: Vec<Hours>) -> Option<Vec<Hours>> {
    let last = hours.iter_mut().max_by_key(|hours| hours.until_minutes())?;
    let HoursEnd::At(until) = last.until else {
        return None;
    };
    let later = until
        .checked_add(Span::new().hours(HOURS_LONGER))
        .ok()?
        .min(LATEST);
    if later <= until {
        return None;
    }
    last.until = HoursEnd::At(later);
    Some(hours)
}

fn morning(week: &Calendar) -> Option<Vec<Hours>> {
    let from = week.hours.iter().map(|hours| hours.from).min()?;
    (from < SATURDAY_ENDS).then(|| {
        vec![Hours {
            from,
            until: HoursEnd::At(SATURDAY_ENDS),
        }]
    })
}
