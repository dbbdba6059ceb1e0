//! What could win time for an aim: only what its own chain of reasons asks for.

use std::collections::{BTreeMap, BTreeSet};

use grounds_model::{FaceKind, Id, Job};
use grounds_schedule::{ActivityId, DAY, DateId, Reason, Side, Tick, Tread};
use grounds_site::{Site, Subject};

use super::{
    chain::Chain,
    days::extra_hours,
    means::{Awaited, Boards, Means, Sooner, Split},
};
use crate::{
    hours,
    network::Network,
    task::{DateWhy, LagWhy, ResourceWhy, TaskState, Work},
};

/// Boards are worth laying where they open a floor at least this much sooner.
const WORTH_BOARDING: Tick = DAY / 2;

/// Work of at least so many ticks is worth doing in parts: half a working day.
const WORTH_SPLITTING: Tick = 16;

/// Everything that could be tried for the work on a chain, each in its strongest form.
pub(crate) fn candidates(job: &Job, site: &Site, chain: &Chain<'_>) -> Vec<Means> {
    let finder = Finder { job, site, chain };
    let mut all = finder.sooner();
    all.extend(finder.hours());
    all.extend(finder.crews());
    all.extend(finder.boards());
    all.extend(finder.splits());
    all.push(Means::Order);
    all
}

struct Finder<'a> {
    job: &'a Job,
    site: &'a Site,
    chain: &'a Chain<'a>,
}

impl Finder<'_> {
    fn network(&self) -> &Network {
        self.chain.network
    }

    fn hours(&self) -> Vec<Means> {
        let trades: BTreeSet<&Id> = self
            .chain
            .work
            .iter()
            .filter_map(|id| self.network().tasks[id.index()].trade.as_ref())
            .filter(|trade| self.is_hired(trade))
            .collect();
        trades
            .into_iter()
            .filter_map(|trade| Some((trade, self.job.calendar_of(trade.as_str())?)))
            .flat_map(|(trade, week)| extra_hours(self.chain, trade, week))
            .map(Means::Hours)
            .collect()
    }

    /// An inspector's hours are the authority's, and so is the number of inspectors.
    fn is_hired(&self, trade: &Id) -> bool {
        self.job
            .trades
            .get(trade)
            .is_some_and(|trade| !trade.authority)
    }

    fn crews(&self) -> Vec<Means> {
        let mut short: BTreeSet<Id> = BTreeSet::new();
        for (_, reason) in self.chain.reasons() {
            let Reason::Crew { resource, .. } = reason else {
                continue;
            };
            if let Some(ResourceWhy::Crews(trade)) = self.network().resource_why(*resource) {
                short.insert(trade.clone());
            }
        }
        short
            .into_iter()
            .filter(|trade| self.is_hired(trade))
            .map(Means::Crew)
            .collect()
    }

    fn boards(&self) -> Vec<Means> {
        let mut shut: BTreeMap<Id, BTreeSet<String>> = BTreeMap::new();
        for (_, reason) in self.chain.reasons() {
            let Reason::ShutOff { by } = reason else {
                continue;
            };
            for &id in by.iter().filter(|id| self.takes_boards(**id)) {
                let task = &self.network().tasks[id.index()];
                if let Some(place) = &task.place {
                    shut.entry(place.clone())
                        .or_default()
                        .insert(task.key.clone());
                }
            }
        }
        shut.into_iter()
            .map(|(place, layers)| {
                Means::Boards(Boards {
                    place,
                    layers: layers.into_iter().collect(),
                })
            })
            .collect()
    }

    /// A last coat that bears socks well before boots. Between coats boards would be in the way.
    fn takes_boards(&self, id: ActivityId) -> bool {
        let Work::Layer(keys) = &self.network().tasks[id.index()].work else {
            return false;
        };
        let Some(key) = keys.first() else {
            return false;
        };
        let last = self.job.layers_of(&key.place, &key.face).last() == Some(key);
        let closes = &self.network().problem.activities[id.index()].closes;
        let until = |bars: Tread| {
            let closure = closes.iter().find(|closure| closure.bars == bars);
            closure.map(|closure| (closure.until.after, closure.until.clock))
        };
        let worth = match (until(Tread::Light), until(Tread::Boots)) {
            (Some((socks, a)), Some((boots, b))) => a == b && boots - socks >= WORTH_BOARDING,
            _ => false,
        };
        last && worth
    }

    /// Stacks of several faces on the chain: the next layer begins on one while the other is done.
    fn splits(&self) -> Vec<Means> {
        let mut stacks: BTreeSet<(Id, Vec<Id>)> = BTreeSet::new();
        for &id in &self.chain.work {
            let task = &self.network().tasks[id.index()];
            let activity = &self.network().problem.activities[id.index()];
            let Work::Layer(keys) = &task.work else {
                continue;
            };
            let long = activity.work >= WORTH_SPLITTING && !activity.unbroken;
            if task.state == TaskState::ToCome && long && keys.len() > 1 {
                let faces = keys.iter().skip(1).map(|key| key.face.clone()).collect();
                stacks.insert((keys[0].place.clone(), faces));
            }
        }
        stacks
            .into_iter()
            .map(|(place, faces)| {
                let kind = self
                    .job
                    .places
                    .get(&place)
                    .and_then(|place| place.faces.get(&faces[0]))
                    .map_or(FaceKind::Wall, |face| face.kind);
                Means::Split(Split { place, faces, kind })
            })
            .collect()
    }

    /// Whatever on the chain waits for a date that somebody could be asked to better.
    fn sooner(&self) -> Vec<Means> {
        let mut found: BTreeMap<Awaited, Sooner> = BTreeMap::new();
        for (id, reason) in self.chain.reasons() {
            let sooner = match reason {
                Reason::Date(date) => self.by_date(id, *date),
                Reason::Lag(lag) => self.by_lead(id, self.network().lag_why(*lag)),
                _ => None,
            };
            if let Some(sooner) = sooner {
                found.entry(sooner.what.clone()).or_insert(sooner);
            }
        }
        found.into_values().map(Means::Sooner).collect()
    }

    fn by_date(&self, id: ActivityId, date: DateId) -> Option<Sooner> {
        let network = self.network();
        let at = network.problem.dates.get(date.index())?;
        if at.side != Side::NotBefore {
            return None;
        }
        let task = &network.tasks[id.index()];
        let what = match (network.date_why(date)?, &task.work) {
            (
                DateWhy::Promised
                | DateWhy::FromOrder
                | DateWhy::IfOrderedToday
                | DateWhy::HeldUp(_),
                Work::Arrive(piece),
            ) => Awaited::Delivery(piece.clone()),
            (DateWhy::Notice | DateWhy::Booked, Work::Pass(hold)) => Awaited::Slot(hold.clone()),
            (DateWhy::Expected { .. }, Work::Decide(decision)) => Awaited::Answer(decision.clone()),
            (DateWhy::Booking(index), _) => Awaited::Booking(*index),
            _ => return None,
        };
        let by = match &what {
            Awaited::Delivery(piece) => self.earliest_delivery(piece, at.at),
            _ => self.next_working_day(),
        };
        (by < at.at).then(|| Sooner {
            what,
            key: task.key.clone(),
            was: at.at,
            by,
            lead: None,
        })
    }

    /// A piece that is not ordered yet and is made once it is measured or decided.
    fn by_lead(&self, id: ActivityId, why: Option<&LagWhy>) -> Option<Sooner> {
        let made = matches!(
            why,
            Some(LagWhy::MadeAfterMeasure | LagWhy::OrderedAfterDecision)
        );
        let Work::Arrive(piece) = &self.network().tasks[id.index()].work else {
            return None;
        };
        let (low, likely) = self.leads(piece).filter(|_| made)?;
        let was = self.chain.plan.starts[id.index()];
        (low < likely).then(|| Sooner {
            what: Awaited::Delivery(piece.clone()),
            key: self.network().tasks[id.index()].key.clone(),
            was,
            by: was - (likely - low),
            lead: Some(low),
        })
    }

    /// Low and likely time from order to site, in ticks, where it is told by the clock.
    fn leads(&self, piece: &Id) -> Option<(Tick, Tick)> {
        let lead = self.job.pieces.get(piece)?.lead?;
        let ticks = |span: grounds_measure::Span| {
            span.quarter_hours_up()
                .and_then(|quarters| Tick::try_from(quarters).ok())
        };
        Some((ticks(lead.low())?, ticks(lead.likely())?))
    }

    /// The soonest that a maker could be asked for: the low estimate counted from the word that
    /// gave the date, and never less than half of the time that is left.
    fn earliest_delivery(&self, piece: &Id, at: Tick) -> Tick {
        let network = self.network();
        let now = network.now_tick();
        let state = self.site.state(&Subject::Piece(piece.clone()));
        let told = state
            .promised
            .map(|(_, seen)| seen)
            .or(state.ordered)
            .map_or(now, |seen| network.clock.floor(seen.at));
        let half = now + (at - now) / 2;
        let soonest = self
            .leads(piece)
            .map_or(half, |(low, _)| (told + low).max(half));
        let day = network.clock.midnight(network.clock.day(soonest));
        day.max(self.next_working_day())
    }

    /// The beginning of the next day that the job works.
    fn next_working_day(&self) -> Tick {
        let network = self.network();
        let today = network.clock.day(network.now_tick());
        let week = self.job.calendars.get(&self.job.job.calendar);
        let next = week.map_or(today, |week| hours::after_working_days(week, today, 1));
        network.clock.midnight(next)
    }
}
