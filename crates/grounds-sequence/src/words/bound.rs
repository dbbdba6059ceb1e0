//! What no order of work can beat, and why, in words.

use grounds_schedule::{
    ActivityId, Clock, DAY, DateId, EndWhy, LagId, Link, Reason, ResourceId, Side, Tick,
};

use super::{Words, chain::span_words, count, lower_first, upper_first, work_words};
use crate::task::{LagWhy, ResourceWhy};

impl Words<'_> {
    /// Why no order of work can end before [`Outlook::bound`](crate::Outlook::bound), as a sentence:
    /// `After the screed, Thu 1 July, the one tiling crew has 38 days of work on 41 things.` Nothing
    /// when all is done.
    #[must_use]
    pub fn why_no_sooner(&self) -> Option<String> {
        let end = self.outlook.bound;
        let why = match &self.outlook.bound_why {
            EndWhy::Nothing => None,
            EndWhy::Chain(links) => self.chain_of(links, end),
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
                let after = self.comes_first(before, activities, *head);
                let rest = if self.day(*done_by) == self.day(end) {
                    String::new()
                } else {
                    format!(
                        "; that takes until {}, and more follows",
                        self.day(*done_by)
                    )
                };
                Some(format!(
                    "{after} {who} {} of work on {} things{rest}",
                    work_words(each),
                    count(activities.len())
                ))
            }
        };
        why.map(|why| format!("{}.", upper_first(&why)))
    }

    /// What must be before any of a crew's work can begin: `once the screed has dried, Thu 1 July,`
    fn comes_first(&self, before: &[Link], activities: &[ActivityId], head: Tick) -> String {
        let at = self.when(head);
        let other = |link: &Link| !activities.contains(&link.activity);
        let Some(index) = before.iter().rposition(other) else {
            let first = before.first().map(|link| self.begins(link.activity).1);
            return match first.flatten() {
                Some(held) => format!("{held}, and then"),
                None => format!("from {at} on"),
            };
        };
        let name = self.mid(before[index].activity);
        let dries = before.get(index + 1).and_then(|link| link.lag);
        match dries.is_some_and(|lag| self.is_drying(lag)) {
            true => format!("once {name} has dried, {at},"),
            false => format!("after {name}, {at},"),
        }
    }

    /// Whether a wait is one for something to dry.
    fn is_drying(&self, lag: LagId) -> bool {
        let network = &self.outlook.network;
        let waits = network.problem.lags.get(lag.index());
        waits.is_some_and(|lag| lag.min.unwrap_or(0) > 0)
            && matches!(
                network.lag_why(lag),
                Some(LagWhy::Under | LagWhy::OrderHere | LagWhy::SitsOn | LagWhy::MeasureAfter)
            )
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
