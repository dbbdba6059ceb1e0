//! What means cost by themselves, beside what the changed plan costs.

use grounds_measure::Money;
use grounds_model::{Id, Job, LayerKey};
use grounds_schedule::{HOUR, Plan, Tick};

use super::{
    Terms,
    means::{Awaited, ExtraHours, ExtraKind, Means},
};
use crate::{
    network::Network,
    task::{Task, Work},
};

/// The whole, in hundredths of a percent.
const WHOLE: i64 = 10_000;

/// One part of what means cost, beside the plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CostPart {
    /// What it is for.
    pub what: CostKind,
    /// In cents; nothing where the job has no price for it and somebody must be asked.
    pub cents: Option<i64>,
}

/// What a part of the cost is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum CostKind {
    /// What extra hours cost beyond the usual rate.
    Premium,
    /// One more crew coming to site.
    Mobilising,
    /// Coming on days on which the trade is not usually here.
    Visits,
    /// Setting up once more.
    SettingUp,
    /// Having it sooner from its maker.
    Expediting,
    /// Boards over a floor.
    Boarding,
}

/// The parts of what one means costs in a plan of a network in which it is taken.
pub(crate) fn own_cost(
    job: &Job,
    before: &Network,
    after: &Network,
    plan: &Plan,
    means: &Means,
    terms: &Terms,
) -> Option<CostPart> {
    let part = |what, cents| Some(CostPart { what, cents });
    match means {
        Means::Hours(extra) if extra.kind == ExtraKind::Visits => {
            let visits = worked(job, after, plan, extra)
                .iter()
                .filter(|day| !day.is_empty())
                .count();
            let each = return_cents(job, &extra.trade);
            part(
                CostKind::Visits,
                each.map(|each| each.saturating_mul(i64::try_from(visits).unwrap_or(i64::MAX))),
            )
        }
        Means::Hours(extra) => part(CostKind::Premium, premium(job, after, plan, extra, terms)),
        Means::Crew(trade) => part(CostKind::Mobilising, return_cents(job, trade)),
        Means::Split(_) => part(
            CostKind::SettingUp,
            Some(labour(job, after) - labour(job, before)),
        ),
        Means::Boards(_) => part(CostKind::Boarding, None),
        Means::Sooner(sooner) => match &sooner.what {
            Awaited::Delivery(piece) => {
                let asked = job.pieces.get(piece).and_then(|piece| piece.expedite);
                part(CostKind::Expediting, asked.map(Money::cents))
            }
            Awaited::Slot(_) | Awaited::Answer(_) | Awaited::Booking(_) => None,
        },
        Means::Order => None,
    }
}

fn return_cents(job: &Job, trade: &Id) -> Option<i64> {
    job.trades.get(trade)?.return_cost.map(Money::cents)
}

/// What a crew costs in an hour, for one piece of work: its people at the trade's rate.
fn crew_cents(job: &Job, task: &Task) -> Option<i64> {
    let trade = job.trades.get(task.trade.as_ref()?)?;
    let people = match &task.work {
        Work::Layer(keys) => keys.first().and_then(|key| layer_people(job, key)),
        Work::Set(piece) => job.pieces.get(piece).and_then(|piece| piece.people),
        _ => None,
    };
    let people = i64::from(people.unwrap_or(trade.people));
    Some(trade.rate?.cents().saturating_mul(people))
}

fn layer_people(job: &Job, key: &LayerKey) -> Option<u32> {
    job.layer(key)?.people
}

/// For each extra day, the work that uses its extra hours, with the ticks.
fn worked(
    job: &Job,
    network: &Network,
    plan: &Plan,
    extra: &ExtraHours,
) -> Vec<Vec<(usize, Tick)>> {
    let its: Vec<usize> = network
        .open()
        .map(grounds_schedule::ActivityId::index)
        .filter(|&i| network.tasks[i].trade.as_ref() == Some(&extra.trade))
        .filter(|&i| network.problem.activities[i].work > 0)
        .collect();
    let shared = |i: usize, from: Tick, until: Tick| {
        (plan.finishes[i].min(until) - plan.starts[i].max(from)).max(0)
    };
    extra
        .beyond(job, network)
        .iter()
        .map(|(_, stretches)| {
            let ticks = |i: usize| -> Tick {
                stretches
                    .iter()
                    .map(|&(from, until)| shared(i, from, until))
                    .sum()
            };
            its.iter()
                .map(|&i| (i, ticks(i)))
                .filter(|(_, ticks)| *ticks > 0)
                .collect()
        })
        .collect()
}

/// Extra hours are work that is done anyway, so they cost what is paid above the usual rate. Who is
/// called in for a Saturday is paid for a few hours at least; those beyond the work cost all of it.
fn premium(
    job: &Job,
    network: &Network,
    plan: &Plan,
    extra: &ExtraHours,
    terms: &Terms,
) -> Option<i64> {
    let trade = job.trades.get(&extra.trade)?;
    let whole = trade
        .overtime
        .map_or(i64::from(terms.premium_percent) * 100, |share| {
            i64::from(share.hundredths())
        });
    let mut sum = 0i64;
    for day in worked(job, network, plan, extra) {
        for &(i, ticks) in &day {
            let hour = crew_cents(job, &network.tasks[i])?;
            sum = sum.saturating_add(share(hour, ticks, whole - WHOLE));
        }
        let ticks: Tick = day.iter().map(|(_, ticks)| ticks).sum();
        let idle = (terms.called_in - ticks).max(0);
        if extra.kind == ExtraKind::Saturdays && ticks > 0 && idle > 0 {
            let hour = trade.rate?.cents().saturating_mul(i64::from(trade.people));
            sum = sum.saturating_add(share(hour, idle, whole));
        }
    }
    Some(sum)
}

/// So many ticks at so many cents an hour, of which a share in hundredths of a percent counts;
/// rounded up to the cent.
fn share(hour: i64, ticks: Tick, hundredths: i64) -> i64 {
    let all = i128::from(hour) * i128::from(ticks) * i128::from(hundredths);
    let unit = i128::from(HOUR) * i128::from(WHOLE);
    let up = all.div_euclid(unit) + i128::from(all.rem_euclid(unit) != 0);
    i64::try_from(up).unwrap_or(i64::MAX)
}

/// The labour of all open work, in cents; trades without a rate count nothing.
fn labour(job: &Job, network: &Network) -> i64 {
    network
        .open()
        .filter_map(|id| {
            let hour = crew_cents(job, &network.tasks[id.index()])?;
            Some(share(
                hour,
                network.problem.activities[id.index()].work,
                WHOLE,
            ))
        })
        .fold(0, i64::saturating_add)
}
