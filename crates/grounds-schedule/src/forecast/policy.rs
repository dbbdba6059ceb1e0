//! The policy of a plan: not its dates, but the order in which it uses crews, rooms, floors and air.

use super::compile::Compiler;
use super::game::Game;
use super::order::Order;
use super::run::Run;
use crate::calendar::Calendar;
use crate::plan::Plan;
use crate::problem::{ActivityId, End, Fact, Moment, Problem, Tick};
use crate::search::clock::Work;

/// No such thing.
pub(super) const NONE: u32 = u32::MAX;

/// Moments of an activity in a run, four for each position: its start.
pub(super) const STARTS: usize = 0;
/// Its finish.
pub(super) const FINISHES: usize = 1;
/// When what waits for its finish may count from: the finish, or when a failed test has passed.
pub(super) const RELEASES: usize = 2;
/// When it is out of the place.
pub(super) const LEAVES: usize = 3;
/// How many there are of each activity.
pub(super) const EACH: usize = 4;

/// How a length of time is reckoned from a moment.
#[derive(Clone, Copy, Debug)]
pub(super) enum Shift<'a> {
    /// So many ticks later (or earlier).
    By,
    /// At least so much counted on a calendar.
    Least(&'a Calendar),
    /// The earliest moment from which at most so much is counted.
    Most(&'a Calendar),
    /// The earliest moment from which so much, counted on, reaches it.
    Reach(&'a Calendar),
}

/// A lower bound on one end of an activity.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bound<'a> {
    /// The moment it is reckoned from.
    pub(super) moment: u32,
    /// Where the length stands among the amounts.
    pub(super) amount: u32,
    pub(super) shift: Shift<'a>,
    /// Which end is bounded.
    pub(super) end: End,
    /// The position it comes from; [`NONE`] for a date.
    pub(super) source: u32,
}

/// A bound on somebody earlier in the order from somebody later: longest waits.
#[derive(Clone, Copy, Debug)]
pub(super) struct Back<'a> {
    pub(super) target: u32,
    pub(super) bound: Bound<'a>,
    /// The lag that it comes from; [`NONE`] for shut floors and air.
    pub(super) lag: u32,
    /// The shut floor or the air that it comes from, or [`NONE`].
    pub(super) span: u32,
    /// Whether it is a least wait, which nobody can give up.
    pub(super) is_firm: bool,
    pub(super) number: u32,
}

/// Two that work on both sides of a span. Looked at when the later of the two is placed.
#[derive(Clone, Copy, Debug)]
pub(super) struct Around {
    pub(super) span: u32,
    /// The other one.
    pub(super) other: u32,
    /// Whether the one who is placed now makes the span.
    pub(super) owns: bool,
}

/// Units of one resource that are taken.
#[derive(Clone, Copy, Debug)]
pub(super) struct Take {
    pub(super) first: u32,
    pub(super) units: u32,
    pub(super) amount: u32,
    /// The queue of those who take it, and the place in it.
    pub(super) queue: u32,
    pub(super) rank: u32,
}

/// A span as its owner makes it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Making<'a> {
    pub(super) number: u32,
    pub(super) from: (Moment, Option<&'a Calendar>),
    pub(super) until: (Moment, Option<&'a Calendar>),
}

/// Lists by position, packed.
#[derive(Clone, Debug)]
pub(super) struct Packed<T> {
    offsets: Vec<u32>,
    items: Vec<T>,
}

impl<T> Packed<T> {
    pub(super) fn new(lists: Vec<Vec<T>>) -> Self {
        let mut offsets = Vec::with_capacity(lists.len() + 1);
        let mut items = Vec::new();
        offsets.push(0);
        for list in lists {
            items.extend(list);
            offsets.push(u32::try_from(items.len()).unwrap_or(u32::MAX));
        }
        Self { offsets, items }
    }

    pub(super) fn of(&self, owner: usize) -> &[T] {
        &self.items[self.offsets[owner] as usize..self.offsets[owner + 1] as usize]
    }

    pub(super) fn all(&self) -> &[T] {
        &self.items
    }

    pub(super) fn len(&self) -> usize {
        self.items.len()
    }

    /// How many lists there are.
    pub(super) fn lists(&self) -> usize {
        self.offsets.len() - 1
    }
}

/// How a plan is kept when things take longer or shorter than planned.
///
/// - Whoever uses a crew or a room does so in the order of the plan; where there are several
///   crews, the next in order gets the one that is free first.
/// - Work whose planned start has come goes ahead of others in the queue that are held up, if by all
///   that is known then it is done before they want the crew or the room (see `told`), or if a
///   longest wait closes on it: what dries out of its window goes first. So nothing is called earlier
///   than people were told.
/// - What the plan has before a floor is shut, or before air must be still, stays before; what it
///   has after stays after (two ways round count: see `keep`).
/// - Waits, dates, working hours and facts are the problem's. A longest wait that would be missed
///   puts the earlier work off until it is met, as the plan does; one that cannot be met is given
///   up in that run, and counted.
/// - What the plan starts later than all of this asks for is not started earlier than planned: it
///   was put off on purpose, for a promise or to spare a return, and people were told so.
///
/// Every run starts each activity as early as this allows, and decides nothing before its time. With
/// nothing uncertain that is the plan.
#[derive(Clone)]
pub struct Policy<'a> {
    pub(super) problem: &'a Problem,
    pub(super) order: Order,
    pub(super) works: Vec<Work<'a>>,
    /// Begun work by position: when it began.
    pub(super) began: Vec<Tick>,
    /// Earliest starts, by position.
    pub(super) base: Vec<Tick>,
    pub(super) bounds: Packed<Bound<'a>>,
    /// Bounds between the two ends of one activity.
    pub(super) own: Packed<Back<'a>>,
    pub(super) backs: Packed<Back<'a>>,
    /// Longest waits from facts: nothing can be put off for them.
    pub(super) onto_facts: Vec<Back<'a>>,
    pub(super) arounds: Packed<Around>,
    pub(super) takes: Packed<Take>,
    pub(super) makes: Packed<Making<'a>>,
    /// Latest dates, by position.
    pub(super) latest: Packed<(End, Tick, u32)>,
    /// Who takes each resource that can run short: positions, in order, with how much.
    pub(super) queues: Packed<(u32, u32)>,
    /// By position, from when on it may go ahead of others in its queues: its start in the plan.
    pub(super) appointed: Vec<Tick>,
    /// By position, whether a longest wait closes on it: its window does not wait for others.
    pub(super) has_window: Vec<bool>,
    /// By position, who can be placed only once it is.
    pub(super) followers: Packed<u32>,
    /// By position, how many it follows.
    pub(super) needs: Vec<u32>,
    /// Lengths of waits: the least waits of all lags first.
    pub(super) amounts: Vec<Tick>,
    /// Units of all resources.
    pub(super) units: usize,
    /// Moments as they stand before a run: ends of what is done, and dates.
    pub(super) moments: Vec<Tick>,
    /// Where the moments of spans begin: two for each, its beginning and its end.
    pub(super) first_span: usize,
    /// Where the moments of dates begin.
    pub(super) first_date: usize,
    /// Activities that keep the plan's start because nothing else explains it.
    pub(super) pins: Vec<ActivityId>,
}

impl std::fmt::Debug for Policy<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Policy")
            .field("activities", &self.order.played)
            .field("bounds", &self.bounds())
            .field("put_off", &self.pins)
            .finish_non_exhaustive()
    }
}

/// Why a plan has no policy.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoPolicy {
    /// It is not a plan of this problem.
    #[error("the plan does not have one start and one finish for each activity")]
    Shape,
    /// Something found no place in it.
    #[error("the plan ends beyond its horizon, so that there is no order of work to keep")]
    Unfinished(ActivityId),
}

impl<'a> Policy<'a> {
    /// The policy of a plan.
    ///
    /// Where the plan breaks the problem, the policy keeps what can be kept: a wait that the plan
    /// does not respect is respected in the runs, which then end later than the plan.
    ///
    /// # Errors
    ///
    /// [`NoPolicy`] where the plan is not one, or does not place everything.
    pub fn of(problem: &'a Problem, plan: &Plan) -> Result<Self, NoPolicy> {
        let count = problem.activities.len();
        if plan.starts.len() != count || plan.finishes.len() != count {
            return Err(NoPolicy::Shape);
        }
        let done = |i: usize| matches!(problem.activities[i].fact, Fact::Done { .. });
        let unfinished = |&i: &usize| !done(i) && plan.finishes[i] > problem.horizon;
        if let Some(i) = (0..count).find(unfinished) {
            return Err(NoPolicy::Unfinished(ActivityId::from(i)));
        }
        let mut policy = Compiler::new(problem, plan).policy();
        policy.pin(plan);
        Ok(policy)
    }

    /// The problem whose plan it keeps.
    #[must_use]
    pub fn problem(&self) -> &'a Problem {
        self.problem
    }

    /// The activities that keep their planned start because nothing else holds them that late.
    #[must_use]
    pub fn put_off(&self) -> &[ActivityId] {
        &self.pins
    }

    /// How many bounds a run looks at.
    #[must_use]
    pub fn bounds(&self) -> usize {
        self.bounds.len() + self.backs.len() + self.arounds.len() + self.takes.len()
    }

    /// What happens when everything takes exactly as long as the problem says.
    #[must_use]
    pub fn as_planned(&self) -> Plan {
        let game = Game::certain(self);
        let mut run = Run::new(self, &game);
        run.play(self, &game);
        run.plan(self)
    }

    /// Keeps the planned start of whatever would begin earlier without a reason.
    fn pin(&mut self, plan: &Plan) {
        self.pin_seen_from(plan);
        // Circles that hold each other late: pinned one by one, the earliest first.
        for _ in 0..self.order.played {
            let replay = self.as_planned();
            let is_early = |&p: &usize| {
                let id = self.order.ids[p];
                replay.starts[id] < plan.starts[id]
            };
            let Some(p) = (self.order.begun..self.order.played).find(is_early) else {
                return;
            };
            self.pin_at(p, plan);
        }
    }

    /// Pins what starts later than all that bounds it asks for, everything else being as planned.
    fn pin_seen_from(&mut self, plan: &Plan) {
        let game = Game::certain(self);
        let mut run = Run::new(self, &game);
        run.take_over(self, plan);
        let mut onto: Vec<Vec<Back>> = vec![Vec::new(); self.order.played];
        for back in (0..self.order.played).flat_map(|p| self.backs.of(p)) {
            onto[back.target as usize].push(*back);
        }
        for (p, onto) in onto.iter().enumerate() {
            for back in onto {
                run.raise(self, back);
            }
            run.place(self, &game, p);
            let id = self.order.ids[p];
            if p >= self.order.begun && run.start(p) < plan.starts[id] {
                self.pin_at(p, plan);
                run.put(self, &game, p, (plan.starts[id], plan.finishes[id]));
            }
        }
    }

    fn pin_at(&mut self, p: usize, plan: &Plan) {
        let id = self.order.ids[p];
        self.base[p] = self.base[p].max(plan.starts[id]);
        self.pins.push(ActivityId::from(id));
    }
}
