//! Houses in their finish phase: rooms with ceilings, walls and floors in layers, pieces that are
//! delivered, trades with few crews, floors that shut halls, dates and promises.

use crate::calendar::{Calendar, Shift};
use crate::chance::Chance;
use crate::planner::Planner;
use crate::problem::{
    Activity, ActivityId, CalendarId, Clock, Closure, DAY, Date, Due, End, Fact, GroupId, HOUR,
    Lag, Moment, NodeId, Problem, Promise, Resource, ResourceId, Side, Still, Tick, Tread, Use,
    ZoneId,
};

/// A trade: crews for each thousand activities beyond the first, cents for a return.
struct Trade {
    more: u32,
    return_cents: i64,
}

/// One step of a stack: who, quarter-hours of work at least and at most, drying afterwards.
struct Step {
    trade: usize,
    work: (Tick, Tick),
    dry: Tick,
    what: What,
}

/// What is particular about a step.
#[derive(Clone, Copy, PartialEq, Eq)]
enum What {
    Plain,
    /// Drying counts only while the air is within limits.
    Counted,
    /// Must follow within some days of the step before.
    SoonAfter,
    Dusty,
    /// Shuts its floor, needs still air.
    Floor,
    /// Dear to pass by.
    Fragile,
}

const TRADES: [Trade; 10] = [
    trade(1, 12_000), // 0: first fix, wires and pipes
    trade(1, 9_000),  // 1: boards
    trade(1, 14_000), // 2: plaster
    trade(0, 22_000), // 3: screed
    trade(1, 15_000), // 4: tiles
    trade(1, 11_000), // 5: paint
    trade(0, 18_000), // 6: floors
    trade(1, 16_000), // 7: joinery
    trade(0, 26_000), // 8: glass
    trade(1, 10_000), // 9: second fix
];

const fn trade(more: u32, return_cents: i64) -> Trade {
    Trade { more, return_cents }
}

const fn step(trade: usize, least: Tick, most: Tick, dry: Tick, what: What) -> Step {
    Step {
        trade,
        work: (least, most),
        dry,
        what,
    }
}

const CEILING: [Step; 6] = [
    step(0, 4, 16, 0, What::Plain),
    step(1, 6, 20, 0, What::Plain),
    step(2, 4, 14, DAY, What::Plain),
    step(2, 3, 8, DAY, What::Dusty),
    step(5, 2, 8, 16 * HOUR, What::Plain),
    step(5, 2, 8, 16 * HOUR, What::SoonAfter),
];

const WALLS: [Step; 7] = [
    step(0, 6, 24, 0, What::Plain),
    step(2, 6, 20, 3 * DAY, What::Counted),
    step(2, 6, 16, 7 * DAY, What::Counted),
    step(5, 4, 12, 16 * HOUR, What::Dusty),
    step(5, 4, 12, 16 * HOUR, What::SoonAfter),
    step(9, 2, 8, 0, What::Plain),
    step(5, 2, 6, 8 * HOUR, What::Plain),
];

const TILED: [Step; 6] = [
    step(0, 6, 20, 0, What::Plain),
    step(1, 6, 16, 0, What::Plain),
    step(4, 4, 8, DAY, What::Plain),
    step(4, 16, 48, DAY, What::SoonAfter),
    step(4, 4, 12, DAY, What::SoonAfter),
    step(9, 2, 8, 0, What::Fragile),
];

const FLOOR: [Step; 4] = [
    step(3, 8, 24, 12 * DAY, What::Counted),
    step(6, 8, 32, DAY, What::Plain),
    step(6, 4, 12, DAY, What::Dusty),
    step(6, 3, 8, 2 * DAY, What::Floor),
];

/// A house of about `activities` activities with ten trades and a place for each forty of them. One in
/// three is half built; all can be built. Dates, promises and facts follow a plan by urgency.
#[must_use]
pub fn finish_phase(seed: u64, activities: usize) -> Problem {
    let mut maker = Maker::new(seed, activities);
    let mut place = 0;
    while maker.problem.activities.len() < activities {
        maker.fit_out(place % maker.places);
        place += 1;
    }
    maker.dates();
    maker.problem
}

struct Maker {
    chance: Chance,
    problem: Problem,
    places: usize,
    halls: usize,
    groups: u32,
    /// For each place, what comes last in it so far.
    last: Vec<Vec<ActivityId>>,
}

impl Maker {
    fn new(seed: u64, activities: usize) -> Self {
        let places = (activities / 40).clamp(6, 60);
        let problem = Problem {
            horizon: 1000 * DAY,
            day_cents: 64_000,
            ..Problem::default()
        };
        let mut maker = Self {
            chance: Chance::new(seed),
            problem,
            places,
            halls: (places / 6).max(1),
            groups: 0,
            last: vec![Vec::new(); places],
        };
        maker.weeks();
        maker.crews(activities);
        maker.ways();
        maker
    }

    /// Each trade's hours, and last the hours in which things dry.
    fn weeks(&mut self) {
        for number in 0..=TRADES.len() {
            let begin = self.chance.between(6, 8) * HOUR;
            let end = begin + self.chance.between(8, 9) * HOUR;
            let noon = begin + 4 * HOUR;
            let free = self.chance.happens(25).then(|| self.chance.between(0, 4));
            let drying = number == TRADES.len();
            let mut shifts = Vec::new();
            for day in 0..self.problem.horizon / DAY + 30 {
                let closed = day % 7 >= 5 || free == Some(day % 7) || self.chance.happens(2);
                let at = day * DAY;
                if drying && !self.chance.happens(12) {
                    shifts.push(Shift::plain(at, at + DAY));
                } else if !drying && !closed {
                    let stretches = vec![(at + begin, at + noon), (at + noon + 2, at + end)];
                    shifts.push(Shift { stretches });
                }
            }
            self.problem.calendars.push(Calendar::new(shifts));
        }
    }

    /// The trades, then the room in each place.
    fn crews(&mut self, activities: usize) {
        let thousands = u32::try_from(activities / 1000).unwrap_or(0);
        for trade in &TRADES {
            self.problem.resources.push(Resource {
                capacity: 1 + trade.more * (u32::from(self.chance.happens(40)) + thousands),
                return_cents: trade.return_cents,
                visit_gap: 4 * DAY,
            });
        }
        for _ in 0..self.places {
            self.problem.resources.push(Resource {
                capacity: 1
                    + u32::from(self.chance.happens(50))
                    + u32::from(self.chance.happens(20)),
                return_cents: 0,
                visit_gap: 0,
            });
        }
    }

    /// Halls in a row with one or two stairs between them, rooms off halls.
    fn ways(&mut self) {
        let access = &mut self.problem.access;
        for _ in 0..self.places {
            access.add();
        }
        for hall in 1..self.halls {
            for _ in 0..1 + usize::from(self.chance.happens(60)) {
                let stair = access.add();
                access.join(NodeId::from(hall - 1), stair);
                access.join(stair, NodeId::from(hall));
            }
        }
        for room in self.halls..self.places {
            let door = access.add();
            access.join(NodeId::from(room % self.halls), door);
            access.join(door, NodeId::from(room));
        }
        access.entrances.push(NodeId(0));
        if self.halls > 1 {
            access.entrances.push(NodeId::from(self.halls - 1));
        }
    }

    /// Ceiling, then walls, then the floor of a place, then its pieces and the last touch.
    fn fit_out(&mut self, place: usize) {
        let before = std::mem::take(&mut self.last[place]);
        let ceiling = self.stack(place, &CEILING, &before);
        let walls = if self.chance.happens(30) {
            &TILED[..]
        } else {
            &WALLS[..]
        };
        let mut faces = Vec::new();
        for _ in 0..1 + self.chance.below(2) {
            faces.push(self.stack(place, walls, &before));
        }
        let behind: Vec<ActivityId> = ceiling.into_iter().chain(faces.concat()).collect();
        let mut under = behind.clone();
        if self.chance.happens(80) {
            let floor = self.stack(place, &FLOOR, &[]);
            for (&first, &wall) in floor.first().iter().zip(behind.get(3).iter()) {
                self.after(*wall, *first, 0, None, Clock::Elapsed);
            }
            under.extend(floor.last());
        }
        let mut pieces = Vec::new();
        for _ in 0..1 + self.chance.below(4) {
            pieces.extend(self.piece(place, &under));
        }
        let clean = self.work(place, &step(9, 2, 8, 0, What::Plain));
        for &piece in pieces.iter().chain(under.last()) {
            self.after(piece, clean, 0, None, Clock::Elapsed);
        }
        self.last[place] = vec![clean];
    }

    /// A stack of work, each step after the one before.
    fn stack(&mut self, place: usize, steps: &[Step], before: &[ActivityId]) -> Vec<ActivityId> {
        self.groups += 1;
        let mut stack: Vec<ActivityId> = Vec::new();
        let mut dry = (0, Clock::Elapsed);
        for step in steps {
            let id = self.work(place, step);
            match stack.last() {
                Some(&below) => {
                    let soon = step.what == What::SoonAfter;
                    let most = soon.then(|| dry.0 + self.chance.between(6, 20) * DAY);
                    self.after(below, id, dry.0, most, dry.1);
                }
                None => before
                    .iter()
                    .for_each(|&first| self.after(first, id, 0, None, Clock::Elapsed)),
            }
            let counted = Clock::On(CalendarId::from(TRADES.len()));
            dry = match step.what {
                What::Counted => (step.dry, counted),
                _ => (step.dry, Clock::Elapsed),
            };
            stack.push(id);
        }
        stack
    }

    /// A piece: ordered long ago or not, delivered, set by its trade, fragile more often than not.
    fn piece(&mut self, place: usize, under: &[ActivityId]) -> Vec<ActivityId> {
        let trade = [7, 7, 8, 9][self.chance.below(4)];
        let delivery = Activity {
            calendar: Some(CalendarId(0)),
            ..Activity::default()
        };
        self.problem.activities.push(delivery);
        let delivery = ActivityId::from(self.problem.activities.len() - 1);
        if self.chance.happens(60) {
            let at = self.chance.between(0, 120) * DAY;
            self.date(delivery, End::Start, Side::NotBefore, at);
        }
        let what = if self.chance.happens(60) {
            What::Fragile
        } else {
            What::Plain
        };
        self.groups += 1;
        let set = self.work(place, &step(trade, 3, 24, 0, what));
        self.after(delivery, set, 0, None, Clock::Elapsed);
        let on = under[self.chance.below(under.len())];
        self.after(on, set, DAY, None, Clock::Elapsed);
        vec![set]
    }

    fn work(&mut self, place: usize, step: &Step) -> ActivityId {
        let node = NodeId::from(place);
        let zone = ZoneId::from(place % self.halls);
        let one = |resource: usize| Use {
            resource: ResourceId::from(resource),
            amount: 1,
        };
        let mut activity = Activity {
            work: self.chance.between(step.work.0, step.work.1),
            calendar: Some(CalendarId::from(step.trade)),
            uses: vec![one(step.trade), one(TRADES.len() + place)],
            at: Some(node),
            group: Some(GroupId(self.groups)),
            fragile_cents: if step.what == What::Fragile { 1_500 } else { 0 },
            ..Activity::default()
        };
        let after = |end: End, after: Tick| Moment {
            end,
            after,
            clock: Clock::Elapsed,
        };
        if step.what == What::Floor {
            activity.unbroken = true;
            activity.closes.push(Closure {
                node,
                from: after(End::Start, 0),
                until: after(End::Finish, DAY),
                bars: Tread::Boots,
            });
            activity.still.push(Still {
                zone,
                from: after(End::Start, 0),
                until: after(End::Finish, 8 * HOUR),
            });
        }
        activity.dusty = (step.what == What::Dusty).then_some(zone);
        self.problem.activities.push(activity);
        ActivityId::from(self.problem.activities.len() - 1)
    }

    fn after(
        &mut self,
        from: ActivityId,
        to: ActivityId,
        min: Tick,
        max: Option<Tick>,
        clock: Clock,
    ) {
        self.problem.lags.push(Lag {
            from,
            from_end: End::Finish,
            to,
            to_end: End::Start,
            min: Some(min),
            max,
            clock,
        });
    }

    fn date(&mut self, activity: ActivityId, end: End, side: Side, at: Tick) {
        self.problem.dates.push(Date {
            activity,
            end,
            side,
            at,
        });
    }

    /// What people were told and want, from a plan by urgency: dues a little before or after it, some
    /// starts promised, a few last dates; in one house of three, what is done by now.
    fn dates(&mut self) {
        let plan = match Planner::new(&self.problem) {
            Ok(mut planner) => {
                let list = planner.urgent_list();
                planner.construct(&list)
            }
            Err(_) => return,
        };
        let end = plan.finishes.iter().copied().max().unwrap_or(0);
        let now = if self.chance.happens(33) {
            end / 100 * self.chance.between(15, 50)
        } else {
            0
        };
        for place in 0..self.places {
            let Some(&last) = self.last[place].first() else {
                continue;
            };
            let finish = plan.finishes[last.index()];
            if self.chance.happens(20) {
                let at = finish / 100 * self.chance.between(80, 110);
                let day_cents = i64::from(self.chance.between(2, 8)) * 5_000;
                self.problem.dues.push(Due {
                    activity: last,
                    at,
                    day_cents,
                });
            }
            if self.chance.happens(5) {
                self.date(last, End::Finish, Side::NotAfter, finish + 10 * DAY);
            }
        }
        for i in 0..plan.starts.len() {
            let (start, finish) = (plan.starts[i], plan.finishes[i]);
            if finish <= now {
                self.problem.activities[i].fact = Fact::Done {
                    from: start,
                    until: finish,
                };
            } else if start < now {
                let activity = &mut self.problem.activities[i];
                let hours = activity
                    .calendar
                    .map(|id| &self.problem.calendars[id.index()]);
                let left = hours.map_or(finish - now, |hours| hours.between(now, finish));
                activity.fact = Fact::Begun { at: start, left };
            } else if start < now + 20 * DAY && self.chance.happens(6) {
                let at = start + self.chance.between(-2, 3) * DAY;
                let promise = Promise {
                    activity: ActivityId::from(i),
                    at,
                    day_cents: 5_000,
                };
                self.problem.promises.push(promise);
            }
        }
        self.problem.now = now;
    }
}
