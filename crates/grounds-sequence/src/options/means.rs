//! What can be done to win time, and what it changes in the network.

use grounds_model::{FaceKind, Hours, Id, Job};
use grounds_schedule::{Calendar, CalendarId, Fact, Problem, Shift, Side, Tick, Tread};
use grounds_site::Site;
use jiff::civil::Date;

use crate::{
    hours,
    network::{Network, NetworkError},
    task::{DateWhy, LagWhy, ResourceWhy},
};

/// One thing that can be done to win time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Means {
    /// A trade works longer days, Saturdays, or days on which it is not usually here.
    Hours(ExtraHours),
    /// A trade sends one more crew.
    Crew(Id),
    /// Something that is waited for comes sooner.
    Sooner(Sooner),
    /// Boards over a coated floor, so that boots cross it as soon as it bears socks.
    Boards(Boards),
    /// Faces of one place that are worked on in one go are worked on one after another.
    Split(Split),
    /// The same work in another order.
    Order,
}

/// Days on which a trade works longer than usual, or at all.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ExtraHours {
    /// Whose hours.
    pub trade: Id,
    /// In which way they are extra.
    pub kind: ExtraKind,
    /// The days, in order.
    pub days: Vec<ExtraDay>,
}

/// In which way hours are extra.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ExtraKind {
    /// Two hours more at the end of a usual day.
    LongerDays,
    /// The morning of a Saturday.
    Saturdays,
    /// Usual hours on days on which the trade is not usually here.
    Visits,
}

/// One day with all its hours.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ExtraDay {
    /// The day.
    pub on: Date,
    /// All hours of that day, the usual ones among them.
    pub hours: Vec<Hours>,
}

/// Something that is waited for, and comes sooner.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sooner {
    /// What is waited for.
    pub what: Awaited,
    /// The key of its task; of the first one for a booking.
    pub key: String,
    /// When it comes as things stand.
    pub was: Tick,
    /// When it would come.
    pub by: Tick,
    /// The time from order to site that this needs, where the order is still to be placed.
    pub lead: Option<Tick>,
}

/// What is waited for.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Awaited {
    /// A piece.
    Delivery(Id),
    /// A test or an inspection: an earlier day, never none.
    Slot(Id),
    /// A decision.
    Answer(Id),
    /// A booking of the job document, by position.
    Booking(usize),
}

/// Boards over the floor of a place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Boards {
    /// Whose floor.
    pub place: Id,
    /// The keys of the layers that shut it.
    pub layers: Vec<String>,
}

/// Faces worked on one after another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Split {
    /// The place.
    pub place: Id,
    /// The faces that are split off.
    pub faces: Vec<Id>,
    /// What they are.
    pub kind: FaceKind,
}

/// The network of a job in which some means are taken. Nothing else is changed: the job, its notes
/// and any plan stay as they are.
///
/// # Errors
/// As for [`Network::build`].
pub fn network_with(
    job: &Job,
    site: &Site,
    network: &Network,
    means: &[Means],
) -> Result<Network, NetworkError> {
    let mut changed = split(job, site, network, means)?.unwrap_or_else(|| network.clone());
    let mut problem = std::mem::take(&mut changed.problem);
    for one in means {
        one.change(job, &changed, &mut problem);
    }
    changed.problem = problem;
    Ok(changed)
}

/// The network of a job with some faces split off; `None` where nothing is split.
pub(crate) fn split(
    job: &Job,
    site: &Site,
    network: &Network,
    means: &[Means],
) -> Result<Option<Network>, NetworkError> {
    let splits: Vec<&Split> = means
        .iter()
        .filter_map(|one| match one {
            Means::Split(split) => Some(split),
            _ => None,
        })
        .collect();
    if splits.is_empty() {
        return Ok(None);
    }
    let mut job = job.clone();
    for split in splits {
        for face in &split.faces {
            let design = job
                .places
                .get_mut(&split.place)
                .and_then(|place| place.faces.get_mut(face));
            if let Some(design) = design {
                design.split = true;
            }
        }
    }
    Network::build(&job, site, &network.held).map(Some)
}

impl Means {
    /// Changes a problem of `network`, which has the splits already.
    pub(crate) fn change(&self, job: &Job, network: &Network, problem: &mut Problem) {
        match self {
            Self::Hours(extra) => extra.change(job, network, problem),
            Self::Crew(trade) => one_more_crew(network, problem, trade),
            Self::Sooner(sooner) => sooner.change(network, problem),
            Self::Boards(boards) => boards.change(network, problem),
            Self::Split(_) | Self::Order => {}
        }
    }

    /// Whether the same is asked for, be it for other days or to another extent.
    pub(crate) fn is_like(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Hours(a), Self::Hours(b)) => a.trade == b.trade && a.kind == b.kind,
            (Self::Sooner(a), Self::Sooner(b)) => a.what == b.what,
            (Self::Boards(a), Self::Boards(b)) => a.place == b.place,
            _ => self == other,
        }
    }

    /// The trade that does what is asked for: works more, brings and sets a piece, makes a visit.
    pub(crate) fn concerns<'a>(&'a self, job: &'a Job) -> Option<&'a Id> {
        match self {
            Self::Sooner(sooner) => match &sooner.what {
                Awaited::Delivery(piece) => job.pieces.get(piece).map(|piece| &piece.trade),
                Awaited::Slot(hold) => job.holds.get(hold)?.by.as_ref(),
                Awaited::Answer(_) | Awaited::Booking(_) => None,
            },
            _ => self.trade(),
        }
    }

    /// The trade that is asked to do more, if it is one.
    #[must_use]
    pub fn trade(&self) -> Option<&Id> {
        match self {
            Self::Hours(extra) => Some(&extra.trade),
            Self::Crew(trade) => Some(trade),
            _ => None,
        }
    }
}

impl ExtraHours {
    fn change(&self, job: &Job, network: &Network, problem: &mut Problem) {
        let (Some(base), Some(design)) = (
            usual_calendar(network, &self.trade),
            job.calendar_of(self.trade.as_str()),
        ) else {
            return;
        };
        let mut shifts = problem.calendars[base.index()].shifts().to_vec();
        for day in &self.days {
            let begin = network.clock.midnight(day.on);
            let end = network
                .clock
                .midnight(day.on.tomorrow().unwrap_or(Date::MAX));
            shifts.retain(|shift| {
                let first = shift.stretches.first().map_or(Tick::MIN, |(from, _)| *from);
                !(begin <= first && first < end)
            });
            shifts.push(Shift {
                stretches: day
                    .hours
                    .iter()
                    .map(|hours| hours::stretch(hours, day.on, &network.clock))
                    .collect(),
            });
        }
        debug_assert!(!design.hours.is_empty());
        problem.calendars.push(Calendar::new(shifts));
        let longer = CalendarId::from(problem.calendars.len() - 1);
        for (task, activity) in network.tasks.iter().zip(&mut problem.activities) {
            let its = task.trade.as_ref() == Some(&self.trade);
            let done = matches!(activity.fact, Fact::Done { .. });
            if its && !done && activity.calendar == Some(base) {
                activity.calendar = Some(longer);
            }
        }
    }

    /// The stretches that are worked beyond the usual hours, in ticks, in order.
    #[must_use]
    pub(crate) fn beyond(&self, job: &Job, network: &Network) -> Vec<(Date, Vec<(Tick, Tick)>)> {
        let Some(design) = job.calendar_of(self.trade.as_str()) else {
            return Vec::new();
        };
        self.days
            .iter()
            .map(|day| {
                let lay = |hours: &[Hours]| -> Vec<(Tick, Tick)> {
                    hours
                        .iter()
                        .map(|h| hours::stretch(h, day.on, &network.clock))
                        .collect()
                };
                let usual = lay(&hours::hours_of(design, day.on));
                (day.on, without(&lay(&day.hours), &usual))
            })
            .collect()
    }
}

/// The parts of stretches that lie in none of the others.
fn without(stretches: &[(Tick, Tick)], others: &[(Tick, Tick)]) -> Vec<(Tick, Tick)> {
    let mut left = stretches.to_vec();
    for &(a, b) in others {
        left = left
            .into_iter()
            .flat_map(|(from, until)| [(from, until.min(a)), (from.max(b), until)])
            .filter(|(from, until)| from < until)
            .collect();
    }
    left
}

/// The calendar that a trade works by in a network, before any air limits cut it.
pub(crate) fn usual_calendar(network: &Network, trade: &Id) -> Option<CalendarId> {
    let tasks = network.tasks.iter().zip(&network.plain_calendar);
    tasks
        .filter(|(task, _)| task.trade.as_ref() == Some(trade))
        .find_map(|(_, calendar)| *calendar)
}

fn one_more_crew(network: &Network, problem: &mut Problem, trade: &Id) {
    for (resource, why) in problem.resources.iter_mut().zip(&network.resource_why) {
        if matches!(why, ResourceWhy::Crews(whose) if whose == trade) {
            resource.capacity += 1;
        }
    }
}

impl Sooner {
    fn change(&self, network: &Network, problem: &mut Problem) {
        let Some(id) = network.find(&self.key) else {
            return;
        };
        for (date, why) in problem.dates.iter_mut().zip(&network.date_why) {
            let meant = match (&self.what, why) {
                (Awaited::Booking(index), DateWhy::Booking(other)) => index == other,
                (Awaited::Booking(_), _) | (_, DateWhy::Problem { .. } | DateWhy::Booking(_)) => {
                    false
                }
                // An order that waits comes sooner like any other; work that waits does not.
                (_, DateWhy::HeldUp(_)) if !matches!(self.what, Awaited::Delivery(_)) => false,
                _ => date.activity == id,
            };
            if meant && date.side == Side::NotBefore {
                date.at = date.at.min(self.by);
            }
        }
        let Some(lead) = self.lead else { return };
        for (lag, why) in problem.lags.iter_mut().zip(&network.lag_why) {
            let made = matches!(why, LagWhy::MadeAfterMeasure | LagWhy::OrderedAfterDecision);
            if made && lag.to == id {
                lag.min = lag.min.map(|min| min.min(lead));
            }
        }
    }
}

impl Boards {
    /// Boots cross as soon as socks would: the boards keep tools and grit off the coat.
    fn change(&self, network: &Network, problem: &mut Problem) {
        let Some(node) = network.node(&self.place) else {
            return;
        };
        for id in self.layers.iter().filter_map(|key| network.find(key)) {
            let closes = &mut problem.activities[id.index()].closes;
            let bears = closes
                .iter()
                .find(|closure| closure.node == node && closure.bars == Tread::Light)
                .map(|closure| closure.until);
            let Some(bears) = bears else { continue };
            for closure in closes.iter_mut() {
                if closure.node == node && closure.bars == Tread::Boots {
                    closure.until = bears;
                }
            }
        }
    }
}
