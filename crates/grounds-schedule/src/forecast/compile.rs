//! From a problem and its plan to the bounds that runs look at, each list as thin as can be.

use super::keep::{Keeping, Kept, Side};
use super::order::{Certain, Order};
use super::policy::{
    Around, Back, Bound, EACH, FINISHES, LEAVES, Making, NONE, Packed, Policy, RELEASES, STARTS,
    Shift, Take,
};
use crate::plan::Plan;
use crate::problem::{Activity, Clock, End, Fact, Lag, Moment, Problem, Side as DateSide, Tick};
use crate::search::clock::{NEVER, Work, moment, of_clock};

/// Puts a policy together.
pub(super) struct Compiler<'a> {
    problem: &'a Problem,
    order: Order,
    keeping: Keeping,
    amounts: Vec<Tick>,
    bounds: Vec<Vec<Bound<'a>>>,
    own: Vec<Vec<Back<'a>>>,
    backs: Vec<Vec<Back<'a>>>,
    onto_facts: Vec<Back<'a>>,
    arounds: Vec<Vec<Around>>,
    takes: Vec<Vec<Take>>,
    queues: Vec<Vec<(u32, u32)>>,
    appointed: Vec<Tick>,
    units: usize,
    back_count: u32,
    first_span: usize,
    first_date: usize,
}

fn number(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

impl<'a> Compiler<'a> {
    pub(super) fn new(problem: &'a Problem, plan: &Plan) -> Self {
        let count = problem.activities.len();
        let keeping = Keeping::of(problem, plan);
        let order = Order::of(problem, plan);
        let first_span = EACH * count;
        let first_date = first_span + 2 * keeping.spans.len();
        let mut amounts: Vec<Tick> = problem
            .lags
            .iter()
            .map(|lag| lag.min.unwrap_or(0))
            .collect();
        amounts.push(0);
        Self {
            problem,
            keeping,
            amounts,
            bounds: vec![Vec::new(); count],
            own: vec![Vec::new(); count],
            backs: vec![Vec::new(); count],
            onto_facts: Vec::new(),
            arounds: vec![Vec::new(); count],
            takes: vec![Vec::new(); count],
            queues: Vec::new(),
            appointed: order.ids.iter().map(|&id| plan.starts[id]).collect(),
            order,
            units: 0,
            back_count: 0,
            first_span,
            first_date,
        }
    }

    pub(super) fn policy(mut self) -> Policy<'a> {
        let latest = self.add_dates();
        self.add_lags();
        self.add_takes();
        self.add_kept();
        let (followers, needs) = self.followers();
        let has_window = self.has_window();
        let problem = self.problem;
        let by_position = |p: &usize| &problem.activities[*p];
        let works: Vec<Work> = self
            .order
            .ids
            .iter()
            .map(|id| what_is_left(problem, by_position(id)))
            .collect();
        let began = self.order.ids.iter().map(|&id| began(problem, id));
        let base = vec![problem.now; works.len()];
        let mut policy = Policy {
            problem,
            began: began.collect(),
            base,
            bounds: Packed::new(self.bounds),
            own: Packed::new(self.own),
            backs: Packed::new(self.backs),
            onto_facts: self.onto_facts,
            arounds: Packed::new(self.arounds),
            takes: Packed::new(self.takes),
            makes: makes(problem, &self.order, &self.keeping),
            latest,
            queues: Packed::new(self.queues),
            appointed: self.appointed,
            has_window,
            followers,
            needs,
            amounts: self.amounts,
            units: self.units,
            moments: vec![NEVER; self.first_date + problem.dates.len()],
            first_span: self.first_span,
            first_date: self.first_date,
            pins: Vec::new(),
            order: self.order,
            works,
        };
        for (i, date) in problem.dates.iter().enumerate() {
            policy.moments[self.first_date + i] = date.at;
        }
        know_what_is_done(&mut policy);
        policy
    }

    fn add_dates(&mut self) -> Packed<(End, Tick, u32)> {
        let mut latest = vec![Vec::new(); self.order.ids.len()];
        for (i, date) in self.problem.dates.iter().enumerate() {
            let id = date.activity.index();
            if self.problem.activities[id].fact != Fact::Open {
                continue;
            }
            let position = self.order.position[id];
            match date.side {
                DateSide::NotAfter => latest[position].push((date.end, date.at, number(i))),
                DateSide::NotBefore => {
                    let bound = Bound {
                        moment: number(self.first_date + i),
                        amount: self.zero(),
                        shift: Shift::By,
                        end: date.end,
                        source: NONE,
                    };
                    self.bounds[position].push(bound);
                }
            }
        }
        Packed::new(latest)
    }

    /// The amount that is nothing.
    fn zero(&self) -> u32 {
        number(self.problem.lags.len())
    }

    fn amount(&mut self, ticks: Tick) -> u32 {
        if ticks == 0 {
            return self.zero();
        }
        self.amounts.push(ticks);
        number(self.amounts.len() - 1)
    }

    fn add_lags(&mut self) {
        let problem = self.problem;
        for (i, lag) in problem.lags.iter().enumerate() {
            let (from, to) = (
                self.order.position[lag.from.index()],
                self.order.position[lag.to.index()],
            );
            let calendar = of_clock(problem, lag.clock);
            if lag.min.is_some() && problem.activities[lag.to.index()].fact == Fact::Open {
                let bound = Bound {
                    moment: number(EACH * from + of_end(lag.from_end, RELEASES)),
                    amount: number(i),
                    shift: calendar.map_or(Shift::By, Shift::Least),
                    end: lag.to_end,
                    source: number(from),
                };
                self.add(bound, to, (number(i), NONE), true);
            }
            if let Some(max) = lag.max {
                let amount = self.amount(if calendar.is_some() { max } else { -max });
                let bound = Bound {
                    moment: number(EACH * to + of_end(lag.to_end, FINISHES)),
                    amount,
                    shift: calendar.map_or(Shift::By, Shift::Most),
                    end: lag.from_end,
                    source: number(to),
                };
                self.add(bound, from, (number(i), NONE), false);
            }
        }
    }

    /// Puts a bound where a run looks at it; facts cannot be bounded.
    fn add(&mut self, bound: Bound<'a>, target: usize, (lag, span): (u32, u32), is_firm: bool) {
        let source = bound.source as usize;
        let is_open = |p: usize| self.problem.activities[self.order.ids[p]].fact == Fact::Open;
        let back = Back {
            target: number(target),
            bound,
            lag,
            span,
            is_firm,
            number: self.back_count,
        };
        if !is_open(target) {
            if is_open(source) && lag != NONE {
                self.onto_facts.push(back);
            }
        } else if source == target {
            self.own[target].push(back);
        } else if source < target || source >= self.order.played {
            self.bounds[target].push(back.bound);
        } else {
            self.backs[source].push(back);
            self.back_count += 1;
        }
    }

    /// Units of resources: only of those that could ever run short.
    fn add_takes(&mut self) {
        for (r, resource) in self.problem.resources.iter().enumerate() {
            let users: Vec<(usize, u32)> = (0..self.order.played)
                .map(|p| (p, self.amount_taken(p, r)))
                .filter(|(_, amount)| *amount > 0)
                .collect();
            let all: u64 = users.iter().map(|(_, amount)| u64::from(*amount)).sum();
            if all <= u64::from(resource.capacity) || resource.capacity == 0 {
                continue;
            }
            let mut queue = Vec::with_capacity(users.len());
            for (p, amount) in users {
                let amount = amount.min(resource.capacity);
                self.takes[p].push(Take {
                    first: number(self.units),
                    units: resource.capacity,
                    amount,
                    queue: number(self.queues.len()),
                    rank: number(queue.len()),
                });
                queue.push((number(p), amount));
            }
            self.queues.push(queue);
            self.units += resource.capacity as usize;
        }
    }

    /// Whether a longest wait closes on somebody.
    fn has_window(&self) -> Vec<bool> {
        let is_window = |back: &Back| back.lag != NONE && !back.is_firm;
        let mut has_window: Vec<bool> = self
            .backs
            .iter()
            .map(|backs| backs.iter().any(is_window))
            .collect();
        for back in self.onto_facts.iter().filter(|back| is_window(back)) {
            has_window[back.bound.source as usize] = true;
        }
        has_window
    }

    /// Who can be placed only once somebody is, and how many everybody follows: whatever bounds him
    /// or lies around him comes first, and so does whom he could put off.
    fn followers(&self) -> (Packed<u32>, Vec<u32>) {
        let played = self.order.played;
        let mut before: Vec<Vec<u32>> = vec![Vec::new(); self.order.ids.len()];
        for (p, before) in before.iter_mut().enumerate().take(played) {
            let bounds = self.bounds[p].iter().map(|bound| bound.source);
            let arounds = self.arounds[p].iter().map(|around| around.other);
            let backs = self.backs[p].iter().map(|back| back.target);
            before.extend(bounds.chain(arounds).chain(backs));
            before.retain(|&other| (other as usize) < played && other as usize != p);
            before.sort_unstable();
            before.dedup();
        }
        let mut followers = vec![Vec::new(); self.order.ids.len()];
        for (p, before) in before.iter().enumerate() {
            for &other in before {
                followers[other as usize].push(number(p));
            }
        }
        let needs = before.iter().map(|before| number(before.len())).collect();
        (Packed::new(followers), needs)
    }

    fn amount_taken(&self, p: usize, resource: usize) -> u32 {
        let activity = &self.problem.activities[self.order.ids[p]];
        let has_work = match activity.fact {
            Fact::Begun { left, .. } => left > 0,
            _ => activity.work > 0,
        };
        let uses = activity
            .uses
            .iter()
            .filter(|u| u.resource.index() == resource);
        if has_work {
            uses.map(|u| u.amount).sum()
        } else {
            0
        }
    }

    /// Adds what the plan decides about floors and air, without what follows from the rest.
    fn add_kept(&mut self) {
        let played = self.order.played;
        let mut certain = Certain::new(played, self.keeping.spans.len());
        let mut onto: Vec<Vec<Kept>> = vec![Vec::new(); played];
        for kept in std::mem::take(&mut self.keeping.kept) {
            let (from, to) = kept.ends(&self.keeping.spans);
            let (from, to) = (self.order.position[from], self.order.position[to]);
            match kept.side {
                Side::Around => self.add_around(&kept),
                _ if from < to && to < played => onto[to].push(kept),
                _ => self.keep(&kept),
            }
        }
        let mut lags: Vec<Vec<usize>> = vec![Vec::new(); played];
        for (i, lag) in self.problem.lags.iter().enumerate() {
            let to = self.order.position[lag.to.index()];
            if to < played {
                lags[to].push(i);
            }
        }
        for p in self.order.begun..played {
            for &i in &lags[p] {
                self.learn_lag(&mut certain, i, p);
            }
            let mut kept = std::mem::take(&mut onto[p]);
            let spans = &self.keeping.spans;
            kept.sort_by_key(|k| std::cmp::Reverse((self.order.position[k.ends(spans).0], k.span)));
            for k in kept {
                self.keep_unless_certain(&mut certain, &k, p);
            }
        }
    }

    fn has_work(&self, p: usize) -> bool {
        p < self.order.begun || self.problem.activities[self.order.ids[p]].work > 0
    }

    fn learn_lag(&self, certain: &mut Certain, lag: usize, to: usize) {
        let lag: &Lag = &self.problem.lags[lag];
        let from = self.order.position[lag.from.index()];
        if from < to {
            certain.learn(lag, (from, to), self.has_work(from));
        }
    }

    fn keep_unless_certain(&mut self, certain: &mut Certain, kept: &Kept, p: usize) {
        let span = self.keeping.spans[kept.span];
        let source = self.order.position[kept.ends(&self.keeping.spans).0];
        if kept.side == Side::After {
            if certain.does_follow_span(p, kept.span) {
                return;
            }
            self.keep(kept);
            if source < self.order.played {
                if span.until.end == End::Finish && self.has_work(source) {
                    certain.follows(p, source);
                } else {
                    certain.starts_after(p, source);
                }
                certain.follows_span(p, kept.span);
            }
        } else {
            if certain.does_follow(p, source) {
                return;
            }
            self.keep(kept);
            if span.from.end == End::Start && span.from.after <= 0 {
                certain.follows(p, source);
            }
        }
    }

    fn keep(&mut self, kept: &Kept) {
        let span = self.keeping.spans[kept.span];
        let (source, target) = kept.ends(&self.keeping.spans);
        let (source, target) = (self.order.position[source], self.order.position[target]);
        let zero = self.zero();
        let bound = if kept.side == Side::After {
            Bound {
                moment: number(self.first_span + 2 * kept.span + 1),
                amount: zero,
                shift: Shift::By,
                end: End::Start,
                source: number(source),
            }
        } else {
            let (amount, shift) = self.up_to(span.from);
            Bound {
                moment: number(EACH * source + LEAVES),
                amount,
                shift,
                end: span.from.end,
                source: number(source),
            }
        };
        self.add(bound, target, (NONE, number(kept.span)), false);
    }

    /// How to get from a moment back to the end that it is reckoned from.
    fn up_to(&mut self, from: Moment) -> (u32, Shift<'a>) {
        match (from.clock, of_clock(self.problem, from.clock)) {
            (Clock::On(_), Some(calendar)) if from.after > 0 => {
                (self.amount(from.after), Shift::Reach(calendar))
            }
            (Clock::Elapsed, _) => (self.amount(-from.after), Shift::By),
            _ => (self.zero(), Shift::By),
        }
    }

    fn add_around(&mut self, kept: &Kept) {
        let owner = self.order.position[self.keeping.spans[kept.span].owner];
        let who = self.order.position[kept.id().index()];
        let is_open = |p: usize| p >= self.order.begun && p < self.order.played;
        let (placed, other, owns) = match owner > who && is_open(owner) {
            true => (owner, who, true),
            false => (who, owner, false),
        };
        if is_open(placed) {
            self.arounds[placed].push(Around {
                span: number(kept.span),
                other: number(other),
                owns,
            });
        }
    }
}

fn of_end(end: End, finish: usize) -> usize {
    match end {
        End::Start => STARTS,
        End::Finish => finish,
    }
}

/// The work of an activity as reckoned; of begun work, what is left of it.
fn what_is_left<'a>(problem: &'a Problem, activity: &Activity) -> Work<'a> {
    let whole = Work::of(problem, activity);
    match activity.fact {
        Fact::Begun { left, .. } => Work {
            work: left.max(0),
            ..whole
        },
        _ => whole,
    }
}

fn began(problem: &Problem, id: usize) -> Tick {
    match problem.activities[id].fact {
        Fact::Begun { at, .. } => at,
        _ => 0,
    }
}

fn makes<'a>(problem: &'a Problem, order: &Order, keeping: &Keeping) -> Packed<Making<'a>> {
    let mut makes = vec![Vec::new(); order.ids.len()];
    for (i, span) in keeping.spans.iter().enumerate() {
        makes[order.position[span.owner]].push(Making {
            number: number(i),
            from: (span.from, of_clock(problem, span.from.clock)),
            until: (span.until, of_clock(problem, span.until.clock)),
        });
    }
    Packed::new(makes)
}

/// Moments of what is done, and of the floors that it still shuts.
fn know_what_is_done(policy: &mut Policy) {
    let problem = policy.problem;
    for p in policy.order.played..policy.order.ids.len() {
        let Fact::Done { from, until } = problem.activities[policy.order.ids[p]].fact else {
            continue;
        };
        let ends = [from, until, until, until];
        policy.moments[EACH * p..EACH * (p + 1)].copy_from_slice(&ends);
        for i in 0..policy.makes.of(p).len() {
            let making = policy.makes.of(p)[i];
            let at = policy.first_span + 2 * making.number as usize;
            policy.moments[at] = moment(problem, making.from.0, from, until);
            policy.moments[at + 1] = moment(problem, making.until.0, from, until);
        }
    }
}
