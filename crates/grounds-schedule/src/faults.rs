//! Statements of a problem that make no sense, whatever the plan.

use thiserror::Error;

use crate::calendar::FARTHEST;
use crate::problem::{
    Activity, ActivityId, CalendarId, Clock, DateId, Fact, LagId, Moment, NodeId, Problem,
    ResourceId, Tick,
};

/// Largest tick, length or date that a problem may name, either side of the origin: 1,900 years.
pub const MOST: Tick = FARTHEST;

/// Something in a problem that no plan can make sense of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum ProblemFault {
    /// A list is too long for its ids, or a time lies beyond [`MOST`].
    #[error("a number is too large: times must lie within {MOST} quarter-hours of the origin")]
    TooLarge,
    /// The horizon lies before now.
    #[error("the horizon lies before now")]
    HorizonBeforeNow,
    /// An activity's work is negative.
    #[error("activity {} has negative work", .0.0)]
    NegativeWork(ActivityId),
    /// An activity names a calendar that does not exist.
    #[error("activity {} names calendar {}, which does not exist", .0.0, .1.0)]
    NoCalendar(ActivityId, CalendarId),
    /// An activity names a resource that does not exist.
    #[error("activity {} uses resource {}, which does not exist", .0.0, .1.0)]
    NoResource(ActivityId, ResourceId),
    /// An activity uses none of a resource that it names.
    #[error("activity {} uses 0 of resource {}", .0.0, .1.0)]
    UsesNothing(ActivityId, ResourceId),
    /// An activity names the same resource twice.
    #[error("activity {} names resource {} twice", .0.0, .1.0)]
    UsesTwice(ActivityId, ResourceId),
    /// An open activity needs more of a resource than there is.
    #[error("activity {} needs more of resource {} than there is", .0.0, .1.0)]
    UsesTooMuch(ActivityId, ResourceId),
    /// An activity is at, or shuts, a node that does not exist.
    #[error("activity {} names node {}, which does not exist", .0.0, .1.0)]
    NoNode(ActivityId, NodeId),
    /// A closure or a still-air time of an activity has a negative wait or a calendar that does not
    /// exist.
    #[error("activity {} has a moment with a negative wait or an unknown calendar", .0.0)]
    BadMoment(ActivityId),
    /// Unbroken work is longer than every shift of its calendar.
    #[error("activity {} must not be interrupted but is longer than every shift", .0.0)]
    LongerThanShift(ActivityId),
    /// Something done ended before it began, or begun work has less than nothing left.
    #[error("activity {} ended before it began, or has negative work left", .0.0)]
    BadFact(ActivityId),
    /// A lag names an activity that does not exist.
    #[error("lag {} names an activity that does not exist", .0.0)]
    LagToNothing(LagId),
    /// A lag is counted on a calendar that does not exist.
    #[error("lag {} is counted on a calendar that does not exist", .0.0)]
    LagOnNothing(LagId),
    /// A lag on a calendar is negative.
    #[error("lag {} is negative; only elapsed time may be", .0.0)]
    NegativeLag(LagId),
    /// A lag's longest wait is shorter than its least.
    #[error("lag {} allows at most less than it asks at least", .0.0)]
    MaxBelowMin(LagId),
    /// A date, a due date or a promise names an activity that does not exist.
    #[error("date {} names an activity that does not exist", .0.0)]
    DateOfNothing(DateId),
    /// A due date names an activity that does not exist.
    #[error("due date number {0} names an activity that does not exist")]
    DueOfNothing(usize),
    /// A promise names an activity that does not exist.
    #[error("promise number {0} names an activity that does not exist")]
    PromiseOfNothing(usize),
    /// An entrance or a neighbour is a node that does not exist.
    #[error("the ways through the house name node {}, which does not exist", .0.0)]
    WayToNothing(NodeId),
    /// One node leads to another that does not lead back.
    #[error("node {} leads to node {}, but not back", .0.0, .1.0)]
    OneWay(NodeId, NodeId),
}

impl Problem {
    /// Everything in the statement that makes no sense; empty for a problem that can be solved or
    /// shown to clash.
    #[must_use]
    pub fn faults(&self) -> Vec<ProblemFault> {
        let mut faults = Vec::new();
        self.check_sizes(&mut faults);
        for (i, activity) in self.activities.iter().enumerate() {
            self.check_activity(ActivityId::from(i), activity, &mut faults);
        }
        self.check_lags(&mut faults);
        self.check_dates(&mut faults);
        self.check_ways(&mut faults);
        faults
    }

    fn knows(&self, id: ActivityId) -> bool {
        id.index() < self.activities.len()
    }

    fn knows_clock(&self, clock: Clock) -> bool {
        match clock {
            Clock::Elapsed => true,
            Clock::On(id) => id.index() < self.calendars.len(),
        }
    }

    fn check_sizes(&self, faults: &mut Vec<ProblemFault>) {
        let large = |t: &Tick| *t < -MOST || *t > MOST;
        let most = usize::try_from(MOST).unwrap_or(usize::MAX);
        let lists = [
            self.activities.len(),
            self.lags.len(),
            self.access.neighbours.len(),
        ];
        let lags = self
            .lags
            .iter()
            .flat_map(|lag| [lag.min, lag.max])
            .flatten();
        let dates = self.dates.iter().map(|date| date.at);
        let dues = self.dues.iter().map(|due| due.at);
        let promises = self.promises.iter().map(|promise| promise.at);
        let gaps = self.resources.iter().map(|resource| resource.visit_gap);
        let times = [self.now, self.horizon]
            .into_iter()
            .chain(lags)
            .chain(dates)
            .chain(dues);
        let times = times
            .chain(promises)
            .chain(gaps)
            .chain(self.activities.iter().flat_map(times_of));
        if lists.iter().any(|&length| length > most) || { times }.any(|t| large(&t)) {
            faults.push(ProblemFault::TooLarge);
        }
        if self.horizon < self.now {
            faults.push(ProblemFault::HorizonBeforeNow);
        }
    }

    fn check_activity(&self, id: ActivityId, activity: &Activity, faults: &mut Vec<ProblemFault>) {
        if activity.work < 0 {
            faults.push(ProblemFault::NegativeWork(id));
        }
        if let Some(calendar) = activity.calendar {
            match self.calendars.get(calendar.index()) {
                None => faults.push(ProblemFault::NoCalendar(id, calendar)),
                Some(hours) => {
                    let open = activity.fact == Fact::Open;
                    let long = activity.work > hours.longest_shift() && hours.longest_shift() > 0;
                    if open && activity.unbroken && long {
                        faults.push(ProblemFault::LongerThanShift(id));
                    }
                }
            }
        }
        self.check_uses(id, activity, faults);
        let nodes = activity
            .at
            .into_iter()
            .chain(activity.closes.iter().map(|c| c.node));
        for node in nodes.filter(|node| node.index() >= self.access.neighbours.len()) {
            faults.push(ProblemFault::NoNode(id, node));
        }
        let bad = |m: &Moment| m.after < 0 || !self.knows_clock(m.clock);
        if moments_of(activity).any(|m| bad(&m)) {
            faults.push(ProblemFault::BadMoment(id));
        }
        let bad = match activity.fact {
            Fact::Open => false,
            Fact::Begun { left, .. } => left < 0,
            Fact::Done { from, until } => until < from,
        };
        if bad {
            faults.push(ProblemFault::BadFact(id));
        }
    }

    fn check_uses(&self, id: ActivityId, activity: &Activity, faults: &mut Vec<ProblemFault>) {
        for (k, wanted) in activity.uses.iter().enumerate() {
            if wanted.amount == 0 {
                faults.push(ProblemFault::UsesNothing(id, wanted.resource));
            }
            if activity.uses[..k]
                .iter()
                .any(|other| other.resource == wanted.resource)
            {
                faults.push(ProblemFault::UsesTwice(id, wanted.resource));
            }
            match self.resources.get(wanted.resource.index()) {
                None => faults.push(ProblemFault::NoResource(id, wanted.resource)),
                Some(resource) => {
                    let needed = activity.fact == Fact::Open && activity.work > 0;
                    if needed && wanted.amount > resource.capacity {
                        faults.push(ProblemFault::UsesTooMuch(id, wanted.resource));
                    }
                }
            }
        }
    }

    fn check_lags(&self, faults: &mut Vec<ProblemFault>) {
        for (i, lag) in self.lags.iter().enumerate() {
            let id = LagId::from(i);
            if !self.knows(lag.from) || !self.knows(lag.to) {
                faults.push(ProblemFault::LagToNothing(id));
            }
            if !self.knows_clock(lag.clock) {
                faults.push(ProblemFault::LagOnNothing(id));
            }
            let negative = [lag.min, lag.max].into_iter().flatten().any(|t| t < 0);
            if negative && lag.clock != Clock::Elapsed {
                faults.push(ProblemFault::NegativeLag(id));
            }
            if let (Some(min), Some(max)) = (lag.min, lag.max)
                && max < min
            {
                faults.push(ProblemFault::MaxBelowMin(id));
            }
        }
    }

    fn check_dates(&self, faults: &mut Vec<ProblemFault>) {
        for (i, _) in self
            .dates
            .iter()
            .enumerate()
            .filter(|(_, d)| !self.knows(d.activity))
        {
            faults.push(ProblemFault::DateOfNothing(DateId::from(i)));
        }
        for (i, _) in self
            .dues
            .iter()
            .enumerate()
            .filter(|(_, d)| !self.knows(d.activity))
        {
            faults.push(ProblemFault::DueOfNothing(i));
        }
        for (i, _) in self
            .promises
            .iter()
            .enumerate()
            .filter(|(_, p)| !self.knows(p.activity))
        {
            faults.push(ProblemFault::PromiseOfNothing(i));
        }
    }

    fn check_ways(&self, faults: &mut Vec<ProblemFault>) {
        let count = self.access.neighbours.len();
        for &node in self
            .access
            .entrances
            .iter()
            .filter(|node| node.index() >= count)
        {
            faults.push(ProblemFault::WayToNothing(node));
        }
        for (i, near) in self.access.neighbours.iter().enumerate() {
            for &other in near {
                match self.access.neighbours.get(other.index()) {
                    None => faults.push(ProblemFault::WayToNothing(other)),
                    Some(back) if !back.contains(&NodeId::from(i)) => {
                        faults.push(ProblemFault::OneWay(NodeId::from(i), other));
                    }
                    Some(_) => {}
                }
            }
        }
    }
}

fn moments_of(activity: &Activity) -> impl Iterator<Item = Moment> + '_ {
    let closes = activity.closes.iter().flat_map(|c| [c.from, c.until]);
    closes.chain(activity.still.iter().flat_map(|s| [s.from, s.until]))
}

fn times_of(activity: &Activity) -> impl Iterator<Item = Tick> + '_ {
    let fact = match activity.fact {
        Fact::Open => [0, 0],
        Fact::Begun { at, left } => [at, left],
        Fact::Done { from, until } => [from, until],
    };
    fact.into_iter()
        .chain([activity.work])
        .chain(moments_of(activity).map(|m| m.after))
}
