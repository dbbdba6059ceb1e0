//! Random houses, for tests and for measuring. The same seed always gives the same house.

mod finish_phase;

pub use finish_phase::finish_phase;

use crate::calendar::{Calendar, Shift};
use crate::chance::Chance;
use crate::plan::Plan;
use crate::problem::{
    Access, Activity, ActivityId, CalendarId, Clock, Closure, DAY, Date, Due, End, Fact, GroupId,
    HOUR, Lag, Moment, NodeId, Problem, Promise, Resource, ResourceId, Side, Still, Tick, Tread,
    Use, ZoneId,
};

/// A small house of up to a dozen activities with a bit of everything in it. Some of these cannot be
/// built at all.
#[must_use]
pub fn small(seed: u64) -> Problem {
    let mut maker = Maker::new(seed, 60 * DAY);
    maker.calendars(3);
    maker.resources(3);
    maker.small_ways();
    let count = maker.chance.between(3, 12);
    for _ in 0..count {
        maker.any_activity();
    }
    maker.any_lags();
    maker.any_dates();
    maker.any_facts();
    maker.problem
}

/// A small house with the plan that proves that it can be built: `plan` makes a plan for the house
/// without latest dates and longest waits, which are then set no tighter than the plan has them.
pub fn buildable(seed: u64, plan: impl Fn(&Problem) -> Option<Plan>) -> Option<(Problem, Plan)> {
    let mut maker = Maker::new(seed, 200 * DAY);
    maker.calendars(3);
    maker.resources(3);
    maker.small_ways();
    let count = maker.chance.between(4, 14);
    for _ in 0..count {
        maker.any_activity();
    }
    maker.any_lags();
    for lag in &mut maker.problem.lags {
        lag.max = None;
    }
    let witness = plan(&maker.problem)?;
    maker.tighten(&witness);
    Some((maker.problem, witness))
}

/// A whole house of about `activities` activities: rooms off halls on up to four levels with two
/// stairs, each room with its stacks of work; ten trades; floors that shut, still air, recoat windows.
#[must_use]
pub fn house(seed: u64, activities: usize) -> Problem {
    let mut maker = Maker::new(seed, 1000 * DAY);
    maker.calendars(4);
    maker.trades(10, activities);
    let places = (activities / 30).clamp(4, 60);
    maker.house_ways(places);
    while maker.problem.activities.len() < activities {
        let place = maker.chance.below(places);
        maker.stack(place, activities);
    }
    maker.milestones();
    maker.problem
}

struct Maker {
    chance: Chance,
    problem: Problem,
    /// Nodes that are places, not passages.
    places: Vec<NodeId>,
    /// For each place, its halls count first.
    halls: usize,
    /// For each place, the last activity of its latest stack.
    last: Vec<Option<ActivityId>>,
    groups: u32,
}

impl Maker {
    fn new(seed: u64, horizon: Tick) -> Self {
        let problem = Problem {
            horizon,
            day_cents: 60_000,
            ..Problem::default()
        };
        let (places, last) = (Vec::new(), Vec::new());
        Self {
            chance: Chance::new(seed),
            problem,
            places,
            halls: 0,
            last,
            groups: 0,
        }
    }

    /// Weeks with a break, some closed days; the last one a counted clock with odd hours.
    fn calendars(&mut self, count: usize) {
        let days = self.problem.horizon / DAY + 30;
        for number in 0..count {
            let from = self.chance.between(6, 9) * HOUR;
            let until = from + self.chance.between(6, 10) * HOUR;
            let noon = from + (until - from) / 2;
            let rest = self.chance.between(0, 4);
            let only = self.chance.happens(15).then(|| self.chance.between(0, 4));
            let odd = number + 1 == count;
            let mut shifts = Vec::new();
            for day in 0..days {
                let weekend = day % 7 >= 5;
                let closed = self.chance.happens(4) || only.is_some_and(|d| day % 7 != d);
                if (odd && self.chance.happens(10)) || (!odd && (weekend || closed)) {
                    continue;
                }
                let base = day * DAY;
                let stretches = if odd {
                    vec![(
                        base + self.chance.between(0, 30),
                        base + self.chance.between(40, 96),
                    )]
                } else {
                    vec![
                        (base + from, base + noon),
                        (base + noon + rest, base + until),
                    ]
                };
                shifts.push(Shift { stretches });
            }
            self.problem.calendars.push(Calendar::new(shifts));
        }
    }

    fn resources(&mut self, count: usize) {
        for _ in 0..count {
            self.problem.resources.push(Resource {
                capacity: u32::from(self.chance.happens(40)) + 1,
                return_cents: i64::from(self.chance.between(0, 2)) * 10_000,
                visit_gap: 4 * DAY,
            });
        }
    }

    fn trades(&mut self, count: usize, activities: usize) {
        let more = u32::try_from(activities / 500).unwrap_or(0);
        for _ in 0..count {
            self.problem.resources.push(Resource {
                capacity: 1 + more + u32::from(self.chance.happens(40)),
                return_cents: i64::from(self.chance.between(1, 4)) * 5_000,
                visit_gap: 4 * DAY,
            });
        }
    }

    /// Two halls with a door to outside each, now and then joined, and a few rooms; some rooms have
    /// two ways in.
    fn small_ways(&mut self) {
        let access = &mut self.problem.access;
        *access = Access::default();
        if self.chance.happens(10) {
            self.places = (0..3).map(|_| access.add()).collect();
            return;
        }
        let halls = [access.add(), access.add()];
        let rooms: Vec<NodeId> = (0..4).map(|_| access.add()).collect();
        access.entrances.push(halls[0]);
        if self.chance.happens(60) {
            access.entrances.push(halls[1]);
        }
        if self.chance.happens(70) {
            access.join(halls[0], halls[1]);
        }
        for &room in &rooms {
            access.join(room, halls[self.chance.below(2)]);
            if self.chance.happens(30) {
                access.join(room, rooms[self.chance.below(4)]);
            }
        }
        self.places = halls.into_iter().chain(rooms).collect();
    }

    /// A hall for every six rooms, halls joined by two stairs, passages between hall and room.
    fn house_ways(&mut self, places: usize) {
        let access = &mut self.problem.access;
        self.halls = (places / 7).max(1);
        self.places = (0..places).map(|_| access.add()).collect();
        self.last = vec![None; places];
        for hall in 1..self.halls {
            for _ in 0..2 {
                let stair = access.add();
                access.join(self.places[hall - 1], stair);
                access.join(self.places[hall], stair);
            }
        }
        for room in self.halls..places {
            let door = access.add();
            access.join(self.places[room % self.halls], door);
            access.join(door, self.places[room]);
            if self.chance.happens(25) {
                let other = self.halls + self.chance.below(places - self.halls);
                access.join(self.places[room], self.places[other]);
            }
        }
        access.entrances.push(self.places[0]);
        access.entrances.push(self.places[self.halls - 1]);
        for _ in 0..places {
            let capacity = 1 + u32::from(self.chance.happens(50));
            let room = Resource {
                capacity,
                return_cents: 0,
                visit_gap: 0,
            };
            self.problem.resources.push(room);
        }
    }

    fn clock(&mut self) -> Clock {
        match self.chance.below(10) {
            0..6 => Clock::Elapsed,
            _ => Clock::On(CalendarId::from(
                self.chance.below(self.problem.calendars.len()),
            )),
        }
    }

    fn moment(&mut self, end: End, most: Tick) -> Moment {
        let clock = self.clock();
        let most = if clock == Clock::Elapsed {
            most
        } else {
            most / 3
        };
        Moment {
            end,
            after: self.chance.between(0, most),
            clock,
        }
    }

    fn any_activity(&mut self) {
        let calendars = self.problem.calendars.len();
        let mut activity = Activity {
            work: if self.chance.happens(12) {
                0
            } else {
                self.chance.between(1, 60)
            },
            calendar: self
                .chance
                .happens(85)
                .then(|| CalendarId::from(self.chance.below(calendars))),
            tread: [Tread::Light, Tread::Boots, Tread::Heavy][self.chance.below(3)],
            group: self
                .chance
                .happens(40)
                .then(|| GroupId::from(self.chance.below(3))),
            fragile_cents: i64::from(self.chance.between(0, 3)) * 1_000,
            ..Activity::default()
        };
        if let Some(id) = activity.calendar {
            let longest = self.problem.calendars[id.index()].longest_shift();
            activity.unbroken = activity.work <= longest && self.chance.happens(25);
        }
        for resource in 0..self.problem.resources.len() {
            if self.chance.happens(35) {
                let capacity = self.problem.resources[resource].capacity;
                let amount = if self.chance.happens(20) { capacity } else { 1 };
                activity.uses.push(Use {
                    resource: ResourceId::from(resource),
                    amount,
                });
            }
        }
        let place = self.places[self.chance.below(self.places.len())];
        activity.at = self.chance.happens(75).then_some(place);
        if self.chance.happens(25) {
            let node = self.places[self.chance.below(self.places.len())];
            let from = if self.chance.happens(50) {
                End::Start
            } else {
                End::Finish
            };
            let closure = Closure {
                node: activity.at.unwrap_or(node),
                from: self.moment(from, 4),
                until: self.moment(End::Finish, 2 * DAY),
                bars: [Tread::Light, Tread::Boots][self.chance.below(2)],
            };
            activity.closes.push(closure);
        }
        if self.chance.happens(15) {
            activity.dusty = Some(ZoneId::from(self.chance.below(2)));
        }
        if self.chance.happens(15) {
            activity.still.push(Still {
                zone: ZoneId::from(self.chance.below(2)),
                from: self.moment(End::Start, 2),
                until: self.moment(End::Finish, DAY),
            });
        }
        self.problem.activities.push(activity);
    }

    fn any_lags(&mut self) {
        let count = self.problem.activities.len();
        for to in 1..count {
            for _ in 0..self.chance.below(3) {
                let from = self.chance.below(to);
                let clock = self.clock();
                let most = if clock == Clock::Elapsed { DAY } else { 30 };
                let min = self.chance.between(0, most);
                let slack = self.chance.between(0, 3 * most);
                let ends = [End::Start, End::Finish];
                self.problem.lags.push(Lag {
                    from: ActivityId::from(from),
                    from_end: ends[usize::from(self.chance.happens(80))],
                    to: ActivityId::from(to),
                    to_end: ends[usize::from(self.chance.happens(10))],
                    min: self.chance.happens(95).then_some(min),
                    max: self.chance.happens(25).then_some(min + slack),
                    clock,
                });
            }
        }
    }

    fn any_dates(&mut self) {
        let count = self.problem.activities.len();
        for i in 0..count {
            let activity = ActivityId::from(i);
            if self.chance.happens(15) {
                let at = self.chance.between(-DAY, 10 * DAY);
                self.problem.dates.push(Date {
                    activity,
                    end: End::Start,
                    side: Side::NotBefore,
                    at,
                });
            }
            if self.chance.happens(8) {
                let at = self.chance.between(2 * DAY, 40 * DAY);
                self.problem.dates.push(Date {
                    activity,
                    end: End::Finish,
                    side: Side::NotAfter,
                    at,
                });
            }
            if self.chance.happens(15) {
                let at = self.chance.between(0, 20 * DAY);
                self.problem.dues.push(Due {
                    activity,
                    at,
                    day_cents: 20_000,
                });
            }
            if self.chance.happens(15) {
                let at = self.chance.between(0, 20 * DAY);
                self.problem.promises.push(Promise {
                    activity,
                    at,
                    day_cents: 5_000,
                });
            }
        }
    }

    /// Some of the first activities are done, one or two are going on.
    fn any_facts(&mut self) {
        let now = self.chance.between(0, 8 * DAY);
        self.problem.now = now;
        if self.chance.happens(50) {
            return;
        }
        let known = self.chance.below(self.problem.activities.len() / 2 + 1);
        for i in 0..known {
            let from = now - self.chance.between(1, 6 * DAY);
            let work = self.problem.activities[i].work;
            self.problem.activities[i].fact = if self.chance.happens(70) {
                Fact::Done {
                    from,
                    until: self.chance.between(from, now),
                }
            } else {
                Fact::Begun {
                    at: from,
                    left: self.chance.between(0, work),
                }
            };
        }
    }

    /// Latest dates and longest waits no tighter than a plan has them.
    fn tighten(&mut self, plan: &Plan) {
        let end = |id: ActivityId, end: End| match end {
            End::Start => plan.starts[id.index()],
            End::Finish => plan.finishes[id.index()],
        };
        for lag in &mut self.problem.lags {
            if self.chance.happens(35) {
                let passed = end(lag.to, lag.to_end) - end(lag.from, lag.from_end);
                let slack = self.chance.between(0, DAY);
                lag.max = Some(passed.max(lag.min.unwrap_or(0)) + slack);
            }
        }
        for i in 0..self.problem.activities.len() {
            if self.chance.happens(10) {
                let activity = ActivityId::from(i);
                let at = plan.finishes[i] + self.chance.between(0, 2 * DAY);
                let date = Date {
                    activity,
                    end: End::Finish,
                    side: Side::NotAfter,
                    at,
                };
                self.problem.dates.push(date);
            }
        }
    }

    /// A stack of work on one face of a place: four to eight layers, each after the last.
    fn stack(&mut self, place: usize, most: usize) {
        self.groups += 1;
        let group = GroupId(self.groups);
        let floor = self.chance.happens(12);
        let layers = self.chance.between(4, 8);
        let mut below: Option<ActivityId> = None;
        for layer in 0..layers {
            if self.problem.activities.len() >= most {
                return;
            }
            let last = layer + 1 == layers;
            let id = self.layer(place, group, floor, last);
            match below {
                Some(from) => self.next_layer(from, id, floor && last),
                None => self.behind_last(place, id),
            }
            below = Some(id);
        }
        self.last[place] = below;
    }

    /// One layer: a trade, some hours, one room, dust or still air, a shut floor.
    fn layer(&mut self, place: usize, group: GroupId, floor: bool, last: bool) -> ActivityId {
        let trades = self.problem.resources.len() - self.places.len();
        let trade = self.chance.below(trades);
        let node = self.places[place];
        let zone = ZoneId::from(place % self.halls);
        let calendar = CalendarId::from(trade % (self.problem.calendars.len() - 1));
        let longest = self.problem.calendars[calendar.index()].longest_shift();
        let work = self.chance.between(2, 40);
        let one = |resource: usize| Use {
            resource: ResourceId::from(resource),
            amount: 1,
        };
        let mut activity = Activity {
            work,
            calendar: Some(calendar),
            unbroken: work <= longest && self.chance.happens(15),
            uses: vec![one(trade), one(trades + place)],
            at: Some(node),
            group: Some(group),
            fragile_cents: if last { 1_000 } else { 0 },
            ..Activity::default()
        };
        let after = |end: End, after: Tick| Moment {
            end,
            after,
            clock: Clock::Elapsed,
        };
        if floor && last {
            let (from, until) = (after(End::Start, 0), after(End::Finish, DAY));
            activity.closes.push(Closure {
                node,
                from,
                until,
                bars: Tread::Boots,
            });
            let until = after(End::Finish, 8 * HOUR);
            activity.still.push(Still {
                zone,
                from: after(End::Start, 0),
                until,
            });
        } else if self.chance.happens(8) {
            activity.dusty = Some(zone);
        }
        self.problem.activities.push(activity);
        ActivityId::from(self.problem.activities.len() - 1)
    }

    fn next_layer(&mut self, from: ActivityId, to: ActivityId, coat: bool) {
        let clock = match self.chance.below(10) {
            0 => Clock::On(CalendarId::from(self.problem.calendars.len() - 1)),
            _ => Clock::Elapsed,
        };
        let min = [0, 4 * HOUR, DAY, 3 * DAY][self.chance.below(4)];
        let max = coat.then_some(min + 10 * DAY);
        let (from_end, to_end) = (End::Finish, End::Start);
        self.problem.lags.push(Lag {
            from,
            from_end,
            to,
            to_end,
            min: Some(min),
            max,
            clock,
        });
    }

    /// Now and then a stack waits for the one before it in the same place; some wait for a delivery.
    fn behind_last(&mut self, place: usize, to: ActivityId) {
        if let Some(from) = self.last[place]
            && self.chance.happens(50)
        {
            let (from_end, to_end, clock) = (End::Finish, End::Start, Clock::Elapsed);
            self.problem.lags.push(Lag {
                from,
                from_end,
                to,
                to_end,
                min: Some(0),
                max: None,
                clock,
            });
        }
        if self.chance.happens(10) {
            let at = self.chance.between(0, 60) * DAY;
            self.problem.dates.push(Date {
                activity: to,
                end: End::Start,
                side: Side::NotBefore,
                at,
            });
        }
    }

    /// A due date on the last stack of some places.
    fn milestones(&mut self) {
        for activity in self.last.clone().into_iter().flatten() {
            if self.chance.happens(20) {
                let at = self.chance.between(60, 200) * DAY;
                self.problem.dues.push(Due {
                    activity,
                    at,
                    day_cents: 30_000,
                });
            }
        }
    }
}
