//! What no order of work can beat, and why, in words.

use grounds_schedule::{
    ActivityId, Clock, DAY, DateId, EarliestEnd, EndWhy, Link, Reason, ResourceId, Side, Tick,
};

use super::{Words, chain::span_words, count, lower_first, work_words};
use crate::task::ResourceWhy;

impl Words<'_> {
    /// `No order of work can end before Mon 9 August: after the screed the one tiling crew has 38 days
    /// of work.`
    #[must_use]
    pub fn no_sooner(&self, end: &EarliestEnd) -> String {
        let day = self.day(end.at);
        match self.why_no_sooner(end) {
            Some(why) => format!("No order of work can end before {day}: {why}."),
            None => format!("No order of work can end before {day}."),
        }
    }

    /// Why no order of work can end sooner, to follow a colon.
    #[must_use]
    pub fn why_no_sooner(&self, end: &EarliestEnd) -> Option<String> {
        match &end.why {
            EndWhy::Nothing => None,
            EndWhy::Chain(links) => self.chain_of(links, end.at),
            EndWhy::Load {
                resource,
                capacity,
                activities,
                head,
                before,
                ticks,
                done_by,
                ..
            } => {
                let who = self.limited(*resource, *capacity)?;
                let each = ticks / i64::from((*capacity).max(1));
                let each = Tick::try_from(each).unwrap_or(Tick::MAX);
                let after = before.last().map_or_else(
                    || format!("from {} on", self.when(*head)),
                    |link| format!("after {}, {},", self.mid(link.activity), self.when(*head)),
                );
                let rest = if self.day(*done_by) == self.day(end.at) {
                    String::new()
                } else {
                    format!(", until {}, and more follows", self.day(*done_by))
                };
                Some(format!(
                    "{after} {who} {} of work on {} things{rest}",
                    work_words(each),
                    count(activities.len())
                ))
            }
        }
    }

    /// `the one tiling crew has`
    fn limited(&self, resource: ResourceId, capacity: u32) -> Option<String> {
        Some(match self.outlook.network.resource_why(resource)? {
            ResourceWhy::Crews(trade) => {
                let name = lower_first(&self.trade(trade));
                match capacity {
                    1 => format!("the one {name} crew has"),
                    n => format!("each of the {} {name} crews has", count(n as usize)),
                }
            }
            ResourceWhy::Room(place) => {
                format!("the crews in the {} have", lower_first(&self.place(place)))
            }
        })
    }

    /// A chain of work and waits: what it begins with, what comes after, and how long that takes.
    fn chain_of(&self, links: &[Link], end: Tick) -> Option<String> {
        let (first, rest) = links.split_first()?;
        let (from, begins) = self.begins(first.activity);
        let named: Vec<ActivityId> = rest.iter().rev().map(|link| link.activity).collect();
        let dries = self.dries(links);
        let of_that = if dries >= DAY {
            format!(", of which {} only to dry or wait", span_words(dries))
        } else {
            String::new()
        };
        let whole = span_words((end - from) / DAY * DAY);
        Some(match (begins, named.as_slice()) {
            (Some(begins), []) => begins,
            (Some(begins), _) => format!(
                "{begins}, and from there the work up to {} takes {whole}{of_that}",
                self.last_named(&named)
            ),
            (None, []) => format!("{} takes that long", self.mid(first.activity)),
            (None, _) => format!(
                "from {} up to {} it takes {whole}{of_that}",
                self.mid(first.activity),
                self.last_named(&named)
            ),
        })
    }

    /// The last work of a chain that is more than a moment.
    fn last_named(&self, latest_first: &[ActivityId]) -> String {
        let work = |id: &&ActivityId| {
            let activity = self.outlook.network.problem.activities.get(id.index());
            activity.is_some_and(|activity| activity.work > 0)
        };
        let last = latest_first.iter().find(work).or(latest_first.first());
        last.map_or_else(String::new, |id| self.mid(*id))
    }

    /// From when the first work of a chain counts, with the date that holds it, if one does.
    fn begins(&self, id: ActivityId) -> (Tick, Option<String>) {
        let problem = &self.outlook.network.problem;
        let dates = problem.dates.iter().enumerate();
        let held = dates
            .filter(|(_, date)| date.activity == id && date.side == Side::NotBefore)
            .max_by_key(|(_, date)| date.at)
            .filter(|(_, date)| date.at > problem.now);
        match held {
            Some((index, date)) => {
                let said = self.reason(id, &Reason::Date(DateId::from(index)));
                let said = lower_first(said.trim_end_matches('.'));
                (date.at, Some(said).filter(|said| !said.is_empty()))
            }
            None => (problem.now, None),
        }
    }

    /// Elapsed time that a chain only waits.
    fn dries(&self, links: &[Link]) -> Tick {
        let lags = links.iter().filter_map(|link| link.lag);
        let lags = lags.filter_map(|lag| self.outlook.network.problem.lags.get(lag.index()));
        lags.filter(|lag| lag.clock == Clock::Elapsed)
            .map(|lag| lag.min.unwrap_or(0).max(0))
            .sum::<Tick>()
            / DAY
            * DAY
    }
}
