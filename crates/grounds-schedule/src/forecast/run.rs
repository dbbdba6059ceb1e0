//! One run: every activity as early as the policy allows, in one pass, in memory used again.

use super::draw::Draws;
use super::game::Game;
use super::keep::is_worked;
use super::policy::{
    Around, Back, Bound, EACH, FINISHES, LEAVES, NONE, Policy, RELEASES, STARTS, Shift,
};
use super::turns::Turns;
use crate::calendar::Calendar;
use crate::plan::Plan;
use crate::problem::{DAY, End, Fact, Moment, Tick};
use crate::search::clock::{NEVER, Work, at_least_after, at_most_before};

/// Times that a missed longest wait puts the earlier work off before it is given up.
const TRIES: u16 = 6;
/// Times that a missed least wait between two that hold each other puts the earlier one off.
const FIRM_TRIES: u16 = 200;
/// Stands for a wait that was given up.
const GIVEN_UP: u16 = u16::MAX;
/// Times that a run goes back in all.
const PATIENCE: u32 = 4_000;
/// Times that one activity is moved on for what lies around it.
const MOVES: u32 = 200;

/// What was tried to keep one longest wait.
#[derive(Clone, Copy, Debug, Default)]
struct Tries {
    /// How often the earlier work was put off; [`GIVEN_UP`] once that was given up.
    count: u16,
    /// How much was put off, for whichever wait, before the first time.
    began: usize,
    /// The start beyond which it is not put off: the later work runs away as fast as it is followed.
    until: Tick,
}

/// Where an activity lies, and who holds it back last.
#[derive(Clone, Copy, Debug)]
pub(super) struct Found {
    pub(super) ends: (Tick, Tick),
    pub(super) driver: u32,
}

/// The memory of one run.
#[derive(Clone, Debug)]
pub(super) struct Run {
    draws: Draws,
    pub(super) moments: Vec<Tick>,
    pub(super) work: Vec<Tick>,
    pub(super) amounts: Vec<Tick>,
    /// Who holds each position back last; [`NONE`] for now, a date or the plan's own choice.
    pub(super) drivers: Vec<u32>,
    /// Starts put off for a longest wait, and by whom.
    raised: Vec<(Tick, u32)>,
    /// For each resource, when its units are free and who has them until then, soonest first.
    pub(super) units: Vec<(Tick, u32)>,
    /// Who comes next.
    pub(super) turns: Turns,
    /// For each back bound, what was tried for it.
    tries: Vec<Tries>,
    /// Everything that was put off, in turn: the position, what it was put off to before, and the
    /// number of the back bound that asked for it.
    put_off: Vec<(u32, (Tick, u32), u32)>,
    has_backs: bool,
    patience: u32,
}

impl Run {
    pub(super) fn new(policy: &Policy, game: &Game) -> Self {
        let count = policy.order.ids.len();
        let backs = policy.backs.len();
        Self {
            draws: Draws::new(game.seed, 0),
            moments: policy.moments.clone(),
            work: nominal_work(policy),
            amounts: policy.amounts.clone(),
            drivers: vec![NONE; count],
            raised: vec![(-NEVER, NONE); count],
            units: vec![(-NEVER, NONE); policy.units],
            turns: Turns::new(policy),
            tries: vec![Tries::default(); backs],
            put_off: Vec::new(),
            has_backs: backs > 0,
            patience: 0,
        }
    }

    /// Draws what is uncertain in a run.
    pub(super) fn draw(&mut self, game: &Game, run: u32) {
        self.draws = Draws::new(game.seed, run);
        game.draw(
            self.draws,
            &mut self.work,
            &mut self.amounts,
            &mut self.moments,
        );
    }

    pub(super) fn draws(&self) -> Draws {
        self.draws
    }

    pub(super) fn start(&self, p: usize) -> Tick {
        self.moments[EACH * p + STARTS]
    }

    pub(super) fn finish(&self, p: usize) -> Tick {
        self.moments[EACH * p + FINISHES]
    }

    /// When what waits for its finish may count from.
    pub(super) fn release(&self, p: usize) -> Tick {
        self.moments[EACH * p + RELEASES]
    }

    /// Places everything: whoever can begin first, in the order of the plan where they wait for each
    /// other.
    pub(super) fn play(&mut self, policy: &Policy, game: &Game) {
        self.units.fill((-NEVER, NONE));
        if self.has_backs {
            self.raised.fill((-NEVER, NONE));
            self.tries.fill(Tries::default());
            self.put_off.clear();
            self.patience = PATIENCE;
        }
        self.begin(policy, game);
        while let Some(p) = self.next(policy, game) {
            self.settle(policy, game, p);
            if let Some(earlier) = self.missed(policy, p) {
                self.go_back(policy, game, earlier);
            }
        }
    }

    /// A longest wait that ends at `p` and is missed: the turn to go back to, from which on what was
    /// put off for it is placed anew.
    fn missed(&mut self, policy: &Policy, p: usize) -> Option<usize> {
        for back in policy.backs.of(p) {
            let tries = self.tries[back.number as usize];
            if tries.count == GIVEN_UP || self.patience == 0 {
                continue;
            }
            let target = back.target as usize;
            let start = self.bounded_start(policy, &back.bound, target);
            if start <= self.start(target) || start >= NEVER {
                continue;
            }
            self.patience -= 1;
            let number = back.number as usize;
            if tries.count == 0 {
                let missing = start - self.start(target);
                self.tries[number] = Tries {
                    count: 0,
                    began: self.put_off.len(),
                    until: start.saturating_add(missing).saturating_add(DAY),
                };
            }
            let in_vain = if back.is_firm {
                tries.count >= FIRM_TRIES
            } else {
                tries.count >= TRIES || start > self.tries[number].until
            };
            if !in_vain {
                self.tries[number].count += 1;
                let before = self.raised[target];
                self.put_off.push((back.target, before, back.number));
                self.raised[target] = (start, back.bound.source);
                return Some(self.turns.turn_of(target));
            }
            self.tries[number].count = GIVEN_UP;
            let earliest = self.take_back(self.tries[number].began);
            return Some(earliest.min(self.turns.turn_of(target)));
        }
        None
    }

    /// Takes back what was put off since `from`, for whichever bound: what others asked for while one
    /// was put off in vain was asked for in vain too, and would stay for good. The first turn that
    /// this concerns.
    fn take_back(&mut self, from: usize) -> usize {
        let mut earliest = usize::MAX;
        while self.put_off.len() > from {
            let Some((target, before, number)) = self.put_off.pop() else {
                break;
            };
            self.raised[target as usize] = before;
            earliest = earliest.min(self.turns.turn_of(target as usize));
            let tries = &mut self.tries[number as usize];
            if tries.count != GIVEN_UP {
                tries.count = if tries.began >= from {
                    0
                } else {
                    tries.count - 1
                };
            }
        }
        earliest
    }

    /// What a longest wait put a start off to.
    pub(super) fn put_off_to(&self, p: usize) -> Tick {
        self.raised[p].0
    }

    /// Lags whose longest wait was missed for good in this run.
    pub(super) fn given_up<'p>(&'p self, policy: &'p Policy) -> impl Iterator<Item = u32> + 'p {
        let all = (0..policy.order.played).flat_map(|p| policy.backs.of(p));
        let all = all.chain(policy.own.all()).chain(&policy.onto_facts);
        all.filter(|back| back.lag != NONE && self.is_missed(back))
            .map(|back| back.lag)
    }

    fn is_missed(&self, back: &Back) -> bool {
        let end = match back.bound.end {
            End::Start => STARTS,
            End::Finish => FINISHES,
        };
        self.value(&back.bound) > self.moments[EACH * back.target as usize + end]
    }

    /// The start of `target` that a bound asks for.
    fn bounded_start(&self, policy: &Policy, bound: &Bound, target: usize) -> Tick {
        let value = self.value(bound);
        if value >= NEVER {
            return NEVER;
        }
        self.hours(policy, target).first_start_for(bound.end, value)
    }

    pub(super) fn value(&self, bound: &Bound) -> Tick {
        let from = self.moments[bound.moment as usize];
        if from >= NEVER {
            return NEVER;
        }
        reckon(bound.shift, from, self.amounts[bound.amount as usize])
    }

    pub(super) fn hours<'a>(&self, policy: &Policy<'a>, p: usize) -> Work<'a> {
        Work {
            work: self.work[p],
            ..policy.works[p]
        }
    }

    /// Places one activity as early as what is placed already allows.
    pub(super) fn place(&mut self, policy: &Policy, game: &Game, p: usize) {
        let found = self.find(policy, game, p, -NEVER);
        self.drivers[p] = found.driver;
        self.put(policy, game, p, found.ends);
    }

    /// Where an activity lies that starts at `floor` or later, and as early as what is placed already
    /// allows.
    pub(super) fn find(&self, policy: &Policy, game: &Game, p: usize, floor: Tick) -> Found {
        if p < policy.order.begun {
            let start = policy.began[p];
            let finish = self.hours(policy, p).finish(start.max(policy.problem.now));
            return Found {
                ends: (start, finish),
                driver: NONE,
            };
        }
        let (mut start, mut driver) = (policy.base[p].max(floor), NONE);
        let (mut end, mut end_driver) = (-NEVER, NONE);
        if self.has_backs && self.raised[p].0 > start {
            (start, driver) = self.raised[p];
        }
        if let Some(after) = self.after_what_he_cannot_leave(policy, p)
            && after.0 > start
        {
            (start, driver) = after;
        }
        for bound in policy.bounds.of(p) {
            let value = self.value(bound);
            match bound.end {
                End::Start if value > start => (start, driver) = (value, bound.source),
                End::Finish if value > end => (end, end_driver) = (value, bound.source),
                _ => {}
            }
        }
        for take in policy.takes.of(p) {
            let (free, who) = self.units[(take.first + take.amount - 1) as usize];
            if free > start {
                (start, driver) = (free, who);
            }
        }
        let mut hours = Hours {
            work: self.hours(policy, p),
            weather: (!game.outdoors.is_empty() && game.outdoors[p]).then_some((game, self.draws)),
        };
        if hours.work.unbroken && hours.work.work <= 0 {
            hours.work.unbroken = false;
        }
        let mut ends = hours.from(start);
        if ends.1 < end {
            driver = end_driver;
            ends = hours.from(hours.work.first_start_to_finish(end).max(start));
        }
        ends = self.past_what_lies_around(policy, p, &hours, ends, &mut driver);
        Found { ends, driver }
    }

    /// The last end of what is shut while an activity cannot get out in time however long that is put
    /// off, and who shuts it: he comes in afterwards.
    fn after_what_he_cannot_leave(&self, policy: &Policy, p: usize) -> Option<(Tick, u32)> {
        let given_up =
            policy.backs.of(p).iter().filter(|back| {
                back.span != NONE && self.tries[back.number as usize].count == GIVEN_UP
            });
        let ends = given_up.map(|back| {
            let until = policy.first_span + 2 * back.span as usize + 1;
            (self.moments[until], back.target)
        });
        ends.max()
    }

    /// Moves an activity on until its own waits hold and nothing lies in its working time.
    fn past_what_lies_around(
        &self,
        policy: &Policy,
        p: usize,
        hours: &Hours,
        mut ends: (Tick, Tick),
        driver: &mut u32,
    ) -> (Tick, Tick) {
        let (own, arounds) = (policy.own.of(p), policy.arounds.of(p));
        if own.is_empty() && arounds.is_empty() {
            return ends;
        }
        for _ in 0..MOVES {
            let mut next = ends.0;
            for Back { bound, .. } in own {
                let from = match bound.moment as usize % EACH {
                    STARTS => ends.0,
                    _ => ends.1,
                };
                let value = reckon(bound.shift, from, self.amounts[bound.amount as usize]);
                next = next.max(hours.work.first_start_for(bound.end, value));
            }
            for around in arounds {
                if let Some(start) = self.in_the_way(policy, p, around, hours, ends) {
                    *driver = around.other;
                    next = next.max(start);
                }
            }
            if next <= ends.0 || ends.1 >= NEVER {
                break;
            }
            ends = hours.from(next);
        }
        ends
    }

    /// The start at which the other is past, if a span falls into somebody's working time.
    fn in_the_way(
        &self,
        policy: &Policy,
        p: usize,
        around: &Around,
        hours: &Hours,
        ends: (Tick, Tick),
    ) -> Option<Tick> {
        let other = around.other as usize;
        if around.owns {
            let make = policy
                .makes
                .of(p)
                .iter()
                .find(|m| m.number == around.span)?;
            let from = moment(make.from, ends.0, ends.1);
            let until = moment(make.until, ends.0, ends.1);
            let came = from.max(self.start(other).max(policy.problem.now));
            let left = until.min(self.moments[EACH * other + LEAVES]);
            let calendar = policy.works[other].calendar;
            if !is_worked(calendar, came, left) {
                return None;
            }
            // It may fit into the other's next break, or else once he has left.
            let rests = calendar
                .and_then(|calendar| calendar.stretch_end(calendar.next_working(came)?))
                .unwrap_or(self.moments[EACH * other + LEAVES]);
            let (Moment { after, end, .. }, calendar) = make.from;
            let back = calendar
                .filter(|_| after > 0)
                .map_or(rests.saturating_sub(after), |calendar| {
                    reckon(Shift::Reach(calendar), rests, after)
                });
            return Some(hours.work.first_start_for(end, back).max(ends.0 + 1));
        }
        let span = policy.first_span + 2 * around.span as usize;
        let (from, until) = (self.moments[span], self.moments[span + 1]);
        let leaves = leaving(hours.work.work, ends);
        is_worked(hours.work.calendar, from.max(ends.0), until.min(leaves)).then_some(until)
    }

    /// Writes down where an activity lies, what it takes and what it shuts.
    pub(super) fn put(&mut self, policy: &Policy, game: &Game, p: usize, ends: (Tick, Tick)) {
        let (start, finish) = ends;
        let release = if game.fails_as[p] == NONE {
            finish
        } else {
            game.passed(self.draws, p, finish)
        };
        let open = p >= policy.order.begun;
        let leaves = if open {
            leaving(self.work[p], ends)
        } else {
            finish
        };
        let moments = [start, finish, release, leaves];
        self.moments[EACH * p..EACH * (p + 1)].copy_from_slice(&moments);
        for take in policy.takes.of(p) {
            let first = take.first as usize;
            let units = &mut self.units[first..first + take.units as usize];
            if open {
                hand_over(units, take.amount as usize, (finish, p as u32));
            } else {
                hold_on(units, take.amount, (finish, p as u32));
            }
        }
        for make in policy.makes.of(p) {
            let at = policy.first_span + 2 * make.number as usize;
            self.moments[at] = moment(make.from, start, finish);
            self.moments[at + 1] = moment(make.until, start, finish);
        }
    }

    /// Takes every start and finish over from a plan.
    pub(super) fn take_over(&mut self, policy: &Policy, plan: &Plan) {
        let game = Game::certain(policy);
        for p in 0..policy.order.played {
            let id = policy.order.ids[p];
            self.put(policy, &game, p, (plan.starts[id], plan.finishes[id]));
        }
        self.units.fill((-NEVER, NONE));
    }

    /// Puts the target of a back bound off as the bound asks.
    pub(super) fn raise(&mut self, policy: &Policy, back: &Back) {
        let start = self.bounded_start(policy, &back.bound, back.target as usize);
        let raised = &mut self.raised[back.target as usize];
        if start > raised.0 {
            *raised = (start, back.bound.source);
        }
    }

    /// Everything as a plan of the problem.
    pub(super) fn plan(&self, policy: &Policy) -> Plan {
        let count = policy.order.ids.len();
        let mut plan = Plan {
            starts: vec![0; count],
            finishes: vec![0; count],
        };
        for (p, &id) in policy.order.ids.iter().enumerate() {
            plan.starts[id] = self.start(p);
            plan.finishes[id] = self.finish(p);
        }
        plan
    }
}

fn leaving(work: Tick, ends: (Tick, Tick)) -> Tick {
    if work <= 0 {
        ends.0.saturating_add(1)
    } else {
        ends.1
    }
}

/// Work of everything as the problem has it.
fn nominal_work(policy: &Policy) -> Vec<Tick> {
    let of = |&id: &usize| {
        let activity = &policy.problem.activities[id];
        match activity.fact {
            Fact::Begun { left, .. } => left.max(0),
            _ => activity.work,
        }
    };
    policy.order.ids.iter().map(of).collect()
}

/// The first units, as many as are taken, are free again at `until`; the rest keep their order.
fn hand_over(units: &mut [(Tick, u32)], amount: usize, until: (Tick, u32)) {
    let mut to = 0;
    while to + amount < units.len() && units[to + amount].0 <= until.0 {
        units[to] = units[to + amount];
        to += 1;
    }
    units[to..to + amount].fill(until);
}

/// Begun work holds what it has. Where facts hold more than there is, the last to end count.
fn hold_on(units: &mut [(Tick, u32)], amount: u32, until: (Tick, u32)) {
    for _ in 0..amount {
        if units[0].0 < until.0 {
            hand_over(units, 1, until);
        }
    }
}

pub(super) fn reckon(shift: Shift, from: Tick, amount: Tick) -> Tick {
    match shift {
        Shift::By => from.saturating_add(amount),
        Shift::Least(calendar) => at_least_after(Some(calendar), from, amount),
        Shift::Most(calendar) => at_most_before(Some(calendar), from, amount),
        Shift::Reach(calendar) => {
            let count = calendar.worked_by(from - 1) - (amount - 1);
            calendar.end_of(count).unwrap_or(-NEVER)
        }
    }
}

pub(super) fn moment(
    (moment, calendar): (Moment, Option<&Calendar>),
    start: Tick,
    finish: Tick,
) -> Tick {
    let end = match moment.end {
        End::Start => start,
        End::Finish => finish,
    };
    at_least_after(calendar, end, moment.after)
}

/// The hours of an activity, with the shifts that weather takes.
struct Hours<'r, 'a> {
    work: Work<'a>,
    weather: Option<(&'r Game<'a>, Draws)>,
}

impl Hours<'_, '_> {
    /// The first start at or after `t` and its finish.
    fn from(&self, t: Tick) -> (Tick, Tick) {
        if t >= NEVER {
            return (NEVER, NEVER);
        }
        if let (Some((game, draws)), Some(calendar)) = (self.weather, self.work.calendar) {
            return self.in_weather(game, draws, calendar, t);
        }
        let start = self.work.first_start(t);
        if start >= NEVER {
            return (NEVER, NEVER);
        }
        (start, self.work.finish(start))
    }

    /// Goes from shift to shift and leaves out those that are lost.
    fn in_weather(&self, game: &Game, draws: Draws, calendar: &Calendar, t: Tick) -> (Tick, Tick) {
        let (mut start, mut left, mut at) = (None, self.work.work, t);
        while let Some(from) = calendar.next_working(at) {
            let Some((begins, until)) = calendar.shift_of(from) else {
                break;
            };
            at = until;
            if game.is_lost(draws, begins) {
                continue;
            }
            let here = calendar.between(from, until);
            if self.work.unbroken && here < left {
                continue;
            }
            let start = *start.get_or_insert(from);
            if here >= left {
                return (start, calendar.add(from, left).unwrap_or(NEVER));
            }
            left -= here;
        }
        (NEVER, NEVER)
    }
}
