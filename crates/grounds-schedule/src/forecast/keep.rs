//! What a plan decides about shut floors and still air: who goes before a closure, who after it.
//!
//! A closure and somebody it would bar can lie to each other in three ways: he is out before it
//! begins, he comes in after it ends, or he works on both sides of it and not while it lasts (a
//! floor that dries overnight). A run keeps whichever the plan has.
//!
//! Two ways round count. Somebody who could come in another way is not bound to a closure at all,
//! as long as everything that is let go for him together leaves him a way in. Closures that overlap
//! his work in the plan are let go first, then those nearest in time, so that what stays bound lies
//! as far away as can be. This is safe, and a little too careful: with two ways in, of which each
//! is shut once, only one of them is let go.

use crate::calendar::Calendar;
use crate::plan::Plan;
use crate::problem::{ActivityId, Fact, GroupId, Moment, NodeId, Problem, Tick, Tread, ZoneId};
use crate::search::clock::{Work, moment};

/// A stretch of time in which others must keep away.
#[derive(Clone, Copy, Debug)]
pub(super) struct Span {
    pub(super) owner: usize,
    pub(super) from: Moment,
    pub(super) until: Moment,
    /// As it lies in the plan.
    plan: (Tick, Tick),
    bars: Bars,
}

#[derive(Clone, Copy, Debug)]
enum Bars {
    Node(NodeId, Tread, Option<GroupId>),
    Air(ZoneId),
}

/// How somebody and a span lie to each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Side {
    /// He is out before it begins.
    Before,
    /// He comes after it ends.
    After,
    /// He works on both sides of it.
    Around,
    /// He works while it lasts.
    During,
}

/// A relation that runs keep.
#[derive(Clone, Copy, Debug)]
pub(super) struct Kept {
    pub(super) who: usize,
    pub(super) span: usize,
    pub(super) side: Side,
}

/// Everything the plan decides.
pub(super) struct Keeping {
    pub(super) spans: Vec<Span>,
    pub(super) kept: Vec<Kept>,
}

/// Presence of an activity in the plan.
#[derive(Clone, Copy)]
struct Stay<'a> {
    work: Work<'a>,
    from: Tick,
    until: Tick,
}

impl Keeping {
    pub(super) fn of(problem: &Problem, plan: &Plan) -> Self {
        let spans = spans(problem, plan);
        let mut house = House::new(problem);
        let mut kept = Vec::new();
        for (who, activity) in problem.activities.iter().enumerate() {
            if matches!(activity.fact, Fact::Done { .. }) {
                continue;
            }
            let stay = stay(problem, plan, who);
            house.ways_in(&spans, who, &stay, &mut kept);
            if let Some(zone) = activity.dusty {
                let near = spans.iter().enumerate().filter(|(_, span)| {
                    matches!(span.bars, Bars::Air(air) if air == zone) && span.owner != who
                });
                kept.extend(near.map(|(span, s)| Kept {
                    who,
                    span,
                    side: side(s, &stay),
                }));
            }
        }
        kept.retain(|k| k.side != Side::During && is_movable(problem, &spans, k));
        Self { spans, kept }
    }
}

/// A relation between two facts is past praying for.
fn is_movable(problem: &Problem, spans: &[Span], kept: &Kept) -> bool {
    let open = |i: usize| problem.activities[i].fact == Fact::Open;
    match kept.side {
        Side::After => open(kept.who),
        Side::Before => open(spans[kept.span].owner),
        Side::Around | Side::During => open(kept.who) || open(spans[kept.span].owner),
    }
}

fn spans(problem: &Problem, plan: &Plan) -> Vec<Span> {
    let mut spans = Vec::new();
    for (owner, activity) in problem.activities.iter().enumerate() {
        let (start, finish) = (plan.starts[owner], plan.finishes[owner]);
        let done = matches!(activity.fact, Fact::Done { .. });
        let mut push = |from: Moment, until: Moment, bars| {
            let ends = (
                moment(problem, from, start, finish),
                moment(problem, until, start, finish),
            );
            let over = done && ends.1 <= problem.now;
            if !over && !is_never(from, until) {
                spans.push(Span {
                    owner,
                    from,
                    until,
                    plan: ends,
                    bars,
                });
            }
        };
        if !problem.access.entrances.is_empty() {
            for closure in &activity.closes {
                let bars = Bars::Node(closure.node, closure.bars, activity.group);
                push(closure.from, closure.until, bars);
            }
        }
        for still in &activity.still {
            push(still.from, still.until, Bars::Air(still.zone));
        }
    }
    spans
}

/// Whether a span surely has no length. One that has none in the plan may have some in a run.
fn is_never(from: Moment, until: Moment) -> bool {
    from.end == until.end && from.clock == until.clock && from.after >= until.after
}

fn stay<'a>(problem: &'a Problem, plan: &Plan, who: usize) -> Stay<'a> {
    let activity = &problem.activities[who];
    let work = Work::of(problem, activity);
    let (start, finish) = (plan.starts[who], plan.finishes[who]);
    let open = activity.fact == Fact::Open;
    let from = if open { start } else { start.max(problem.now) };
    let moment = open && work.work <= 0;
    Stay {
        work,
        from,
        until: if moment { from + 1 } else { finish },
    }
}

fn side(span: &Span, stay: &Stay) -> Side {
    let (from, until) = span.plan;
    if stay.until <= from {
        Side::Before
    } else if stay.from >= until {
        Side::After
    } else if is_worked(
        stay.work.calendar,
        from.max(stay.from),
        until.min(stay.until),
    ) {
        Side::During
    } else {
        Side::Around
    }
}

/// Whether any tick of `[from, until)` is worked.
pub(super) fn is_worked(calendar: Option<&Calendar>, from: Tick, until: Tick) -> bool {
    let first = calendar.map_or(Some(from), |calendar| calendar.next_working(from));
    first.is_some_and(|first| first < until)
}

/// Walks through the house, in the same memory.
struct House<'a> {
    problem: &'a Problem,
    shut: Vec<bool>,
    seen: Vec<bool>,
    next: Vec<NodeId>,
    near: Vec<(Tick, usize, Side)>,
    bound: Vec<bool>,
}

impl<'a> House<'a> {
    fn new(problem: &'a Problem) -> Self {
        let nodes = problem.access.neighbours.len();
        Self {
            problem,
            shut: vec![false; nodes],
            seen: vec![false; nodes],
            next: Vec::new(),
            near: Vec::new(),
            bound: vec![false; nodes],
        }
    }

    /// Which closures somebody is bound to.
    fn ways_in(&mut self, spans: &[Span], who: usize, stay: &Stay, kept: &mut Vec<Kept>) {
        let Some(at) = self.problem.activities[who].at else {
            return;
        };
        self.gather(spans, who, stay);
        self.shut.fill(false);
        if self.near.is_empty() || !self.leads_to(at) {
            return;
        }
        self.bound.fill(false);
        let near = std::mem::take(&mut self.near);
        for &(_, span, side) in &near {
            let Bars::Node(node, ..) = spans[span].bars else {
                continue;
            };
            let node = node.index();
            if !self.shut[node] && !self.bound[node] {
                self.shut[node] = true;
                if !self.leads_to(at) {
                    self.shut[node] = false;
                    self.bound[node] = true;
                }
            }
            if self.bound[node] {
                kept.push(Kept { who, span, side });
            }
        }
        self.near = near;
    }

    /// The closures that bar somebody, those during his work first, then the nearest in time.
    fn gather(&mut self, spans: &[Span], who: usize, stay: &Stay) {
        let activity = &self.problem.activities[who];
        self.near.clear();
        for (number, span) in spans.iter().enumerate() {
            let Bars::Node(_, tread, group) = span.bars else {
                continue;
            };
            let own = span.owner == who || group.is_some() && group == activity.group;
            if own || tread > activity.tread || is_outlasted(spans, number, activity.tread) {
                continue;
            }
            let side = side(span, stay);
            let gap = match side {
                Side::During => -2,
                Side::Around => -1,
                Side::Before => span.plan.0.saturating_sub(stay.until),
                Side::After => stay.from.saturating_sub(span.plan.1),
            };
            self.near.push((gap, number, side));
        }
        self.near
            .sort_unstable_by_key(|(gap, number, _)| (*gap, *number));
    }

    fn leads_to(&mut self, node: NodeId) -> bool {
        self.seen.fill(false);
        self.next.clear();
        self.next.extend(&self.problem.access.entrances);
        while let Some(at) = self.next.pop() {
            let i = at.index();
            if self.shut[i] || self.seen[i] {
                continue;
            }
            if at == node {
                return true;
            }
            self.seen[i] = true;
            self.next.extend(&self.problem.access.neighbours[i]);
        }
        false
    }
}

/// Whether another closure of the same floor by the same work, that bars the same tread, surely
/// lasts longer and begins no later.
fn is_outlasted(spans: &[Span], number: usize, tread: Tread) -> bool {
    let span = &spans[number];
    let Bars::Node(node, ..) = span.bars else {
        return false;
    };
    // The closures of one activity stand together.
    let before = spans[..number]
        .iter()
        .rev()
        .take_while(|s| s.owner == span.owner);
    let after = spans[number + 1..]
        .iter()
        .take_while(|s| s.owner == span.owner);
    let longer = |s: &&Span| {
        let same = s.from == span.from && s.until.end == span.until.end;
        same && s.until.clock == span.until.clock && s.until.after > span.until.after
    };
    let bars = |s: &&Span| matches!(s.bars, Bars::Node(n, t, _) if n == node && t <= tread);
    before.chain(after).any(|s| longer(&s) && bars(&s))
}

/// The activity that a relation binds, and the one it is bound to, where that can be said at once.
impl Kept {
    pub(super) fn ends(&self, spans: &[Span]) -> (usize, usize) {
        let owner = spans[self.span].owner;
        match self.side {
            Side::Before => (self.who, owner),
            _ => (owner, self.who),
        }
    }

    pub(super) fn id(&self) -> ActivityId {
        ActivityId::from(self.who)
    }
}
