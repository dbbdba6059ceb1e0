//! What must hold: the statement of a scheduling problem.

use crate::calendar::Calendar;

/// A moment or a length of elapsed time in quarter-hours, counted from the problem's origin.
pub type Tick = i32;

/// Ticks in an elapsed day of 24 hours.
pub const DAY: Tick = 96;

/// Ticks in an elapsed hour.
pub const HOUR: Tick = 4;

macro_rules! id {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(pub u32);

        impl $name {
            /// The position in the vector that this id points into.
            #[must_use]
            pub fn index(self) -> usize {
                self.0 as usize
            }
        }

        impl From<usize> for $name {
            fn from(index: usize) -> Self {
                Self(u32::try_from(index).unwrap_or(u32::MAX))
            }
        }
    };
}

id!(/// Position in [`Problem::activities`].
    ActivityId);
id!(/// Position in [`Problem::calendars`].
    CalendarId);
id!(/// Position in [`Problem::resources`].
    ResourceId);
id!(/// Position in [`Problem::lags`].
    LagId);
id!(/// Position in [`Problem::dates`].
    DateId);
id!(/// A place or a passage: a node of [`Access`].
    NodeId);
id!(/// A volume of air shared by places.
    ZoneId);
id!(/// Activities that belong together on one surface: a closure made by one never bars another.
    GroupId);

/// Everything that a plan must obey, and what the plan is judged by.
#[derive(Clone, Debug, Default)]
pub struct Problem {
    /// The present: nothing that is still open may start before it.
    pub now: Tick,
    /// The end of time: every activity must finish at or before it.
    pub horizon: Tick,
    /// Calendars that work and lags run on.
    pub calendars: Vec<Calendar>,
    /// Crews of trades, room in places, equipment: whatever is limited at one time.
    pub resources: Vec<Resource>,
    /// The ways through the house.
    pub access: Access,
    /// The work.
    pub activities: Vec<Activity>,
    /// Waiting times between two activities.
    pub lags: Vec<Lag>,
    /// Fixed dates on activities.
    pub dates: Vec<Date>,
    /// Soft due dates: late days cost money.
    pub dues: Vec<Due>,
    /// Starts already promised to somebody: moving them costs money.
    pub promises: Vec<Promise>,
    /// What one calendar day of the whole job costs, in cents.
    pub day_cents: i64,
}

/// Something of which only so much is there at one time: the crews of a trade, the room in a place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Resource {
    /// How much of it there is at any time.
    pub capacity: u32,
    /// What each return to site costs, in cents; 0 where returns cost nothing.
    pub return_cents: i64,
    /// A pause longer than this many elapsed ticks between two uses makes the later one a return.
    pub visit_gap: Tick,
}

/// How an activity uses a resource, from its start to its finish (nights included).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Use {
    /// What is used.
    pub resource: ResourceId,
    /// How much of it, at least 1.
    pub amount: u32,
}

/// Which end of an activity is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum End {
    /// The moment work begins.
    Start,
    /// The moment work ends.
    Finish,
}

/// What a length of time is counted on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Clock {
    /// Every tick counts, nights and weekends too.
    Elapsed,
    /// Only ticks that the calendar has count: working hours, or the hours in which a place was
    /// within a layer's limits.
    On(CalendarId),
}

/// A moment given relative to an activity: `after` ticks on `clock` past one of its ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Moment {
    /// The end that is counted from.
    pub end: End,
    /// Ticks past that end; never negative.
    pub after: Tick,
    /// What those ticks are counted on.
    pub clock: Clock,
}

/// How heavily somebody treads: a closure bars its own tread and all heavier ones.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tread {
    /// Socks or soft overshoes, no tools.
    Light,
    /// Boots and tools: an ordinary crew.
    Boots,
    /// Trolleys, appliances, stone.
    Heavy,
}

/// A place or passage that nobody of the given tread may cross for a while.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Closure {
    /// What is shut.
    pub node: NodeId,
    /// From when.
    pub from: Moment,
    /// Until when (that moment itself is open again).
    pub until: Moment,
    /// The lightest tread that is barred.
    pub bars: Tread,
}

/// A time in which a volume of air must be free of dust.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Still {
    /// The air.
    pub zone: ZoneId,
    /// From when.
    pub from: Moment,
    /// Until when.
    pub until: Moment,
}

/// What is already true of an activity.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fact {
    /// Not begun.
    Open,
    /// Begun at a moment in the past; `left` working ticks remain, counted from now.
    Begun {
        /// When it began.
        at: Tick,
        /// Working ticks still to do, counted on its calendar from now.
        left: Tick,
    },
    /// Over: both ends are known.
    Done {
        /// When it began.
        from: Tick,
        /// When it ended.
        until: Tick,
    },
}

/// One piece of work, without interruption other than its calendar's breaks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Activity {
    /// Ticks of work on its calendar; 0 for a moment (a delivery, a milestone), which must still
    /// fall on a working tick.
    pub work: Tick,
    /// The calendar the work runs on; `None` runs through without a break (24 hours a day).
    pub calendar: Option<CalendarId>,
    /// Must start and finish within one shift of its calendar.
    pub unbroken: bool,
    /// What it uses, from start to finish.
    pub uses: Vec<Use>,
    /// Where it happens: whoever does it must be able to walk there in every working tick.
    pub at: Option<NodeId>,
    /// How heavily its crew treads.
    pub tread: Tread,
    /// The surface it belongs to, if any.
    pub group: Option<GroupId>,
    /// What it shuts, and for how long.
    pub closes: Vec<Closure>,
    /// The air that it fills with dust in its working ticks.
    pub dusty: Option<ZoneId>,
    /// The air that it needs still, and for how long.
    pub still: Vec<Still>,
    /// What is known of it.
    pub fact: Fact,
    /// What it costs, in cents, each time another crew starts work in its place once it is done.
    pub fragile_cents: i64,
}

impl Default for Activity {
    fn default() -> Self {
        Self {
            work: 0,
            calendar: None,
            unbroken: false,
            uses: Vec::new(),
            at: None,
            tread: Tread::Boots,
            group: None,
            closes: Vec::new(),
            dusty: None,
            still: Vec::new(),
            fact: Fact::Open,
            fragile_cents: 0,
        }
    }
}

/// A waiting time between two ends of two activities.
///
/// At least `min` and at most `max` ticks of `clock` lie between the end of `from` and the end of
/// `to`. Negative lengths are allowed on [`Clock::Elapsed`] only.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lag {
    /// The activity that is counted from.
    pub from: ActivityId,
    /// Which end of it.
    pub from_end: End,
    /// The activity that waits.
    pub to: ActivityId,
    /// Which end of it.
    pub to_end: End,
    /// The least that must pass.
    pub min: Option<Tick>,
    /// The most that may pass.
    pub max: Option<Tick>,
    /// What is counted.
    pub clock: Clock,
}

/// Which side of a date an end must lie on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Side {
    /// At the date or later: a delivery, a notice, a decision.
    NotBefore,
    /// At the date or earlier: must be done by.
    NotAfter,
}

/// A fixed date that one end of an activity must respect.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Date {
    /// Whose date.
    pub activity: ActivityId,
    /// Which end.
    pub end: End,
    /// Which side of the date.
    pub side: Side,
    /// The date.
    pub at: Tick,
}

/// A soft due date: each elapsed day (or part) that the finish is later costs money.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Due {
    /// Whose finish.
    pub activity: ActivityId,
    /// When it is due.
    pub at: Tick,
    /// Cents for each day late.
    pub day_cents: i64,
}

/// A start that somebody was already told: each day it moves, either way, costs money.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Promise {
    /// Whose start.
    pub activity: ActivityId,
    /// The start that was promised.
    pub at: Tick,
    /// Cents for each day that it moves.
    pub day_cents: i64,
}

/// The ways through a house: nodes are places and passages, edges join a passage to what it opens
/// to. Whoever works at a node must be able to walk there from an entrance over open nodes.
///
/// A problem without entrances has no access constraint at all.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Access {
    /// For each node, its neighbours (kept symmetric by [`Access::join`]).
    pub neighbours: Vec<Vec<NodeId>>,
    /// Where one comes in from outside.
    pub entrances: Vec<NodeId>,
}

impl Access {
    /// Adds a node that nothing leads to yet.
    pub fn add(&mut self) -> NodeId {
        self.neighbours.push(Vec::new());
        NodeId::from(self.neighbours.len() - 1)
    }

    /// Makes two nodes neighbours of each other; does nothing for nodes that do not exist.
    pub fn join(&mut self, a: NodeId, b: NodeId) {
        if a == b || a.index() >= self.neighbours.len() || b.index() >= self.neighbours.len() {
            return;
        }
        for (from, to) in [(a, b), (b, a)] {
            if !self.neighbours[from.index()].contains(&to) {
                self.neighbours[from.index()].push(to);
            }
        }
    }
}
