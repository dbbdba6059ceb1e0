//! What goes on in the house at every moment of a plan: crews, shut floors, dust and still air.

use super::ends::pick;
use super::hours::Hours;
use super::ways::{Shut, Ways};
use crate::plan::{Breach, Plan};
use crate::problem::{
    ActivityId, End, Fact, Moment, NodeId, Problem, ResourceId, Tick, Use, ZoneId,
};

/// A plan laid over its problem.
pub(super) struct Site<'a> {
    pub(super) problem: &'a Problem,
    pub(super) plan: &'a Plan,
}

/// A stay of one activity in the house.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stay {
    pub(super) who: ActivityId,
    pub(super) from: Tick,
    pub(super) until: Tick,
}

/// Air that must be still.
#[derive(Clone, Copy, Debug)]
pub(super) struct Calm {
    pub(super) who: ActivityId,
    pub(super) zone: ZoneId,
    pub(super) from: Tick,
    pub(super) until: Tick,
}

/// A resource taken for a while.
#[derive(Clone, Copy, Debug)]
pub(super) struct Taken {
    pub(super) who: ActivityId,
    pub(super) amount: u32,
    pub(super) from: Tick,
    pub(super) until: Tick,
}

impl<'a> Site<'a> {
    pub(super) fn new(problem: &'a Problem, plan: &'a Plan) -> Self {
        Self { problem, plan }
    }

    pub(super) fn knows(&self, id: ActivityId) -> bool {
        id.index() < self.problem.activities.len()
    }

    pub(super) fn is_open(&self, id: ActivityId) -> bool {
        self.problem.activities[id.index()].fact == Fact::Open
    }

    pub(super) fn is_done(&self, id: ActivityId) -> bool {
        matches!(self.problem.activities[id.index()].fact, Fact::Done { .. })
    }

    pub(super) fn is_planned(&self, id: ActivityId) -> bool {
        self.is_done(id) || self.plan.finishes[id.index()] <= self.problem.horizon
    }

    pub(super) fn ends(&self, id: ActivityId) -> (Tick, Tick) {
        (self.plan.starts[id.index()], self.plan.finishes[id.index()])
    }

    pub(super) fn end(&self, id: ActivityId, end: End) -> Tick {
        let (start, finish) = self.ends(id);
        pick(end, start, finish)
    }

    pub(super) fn hours(&self, id: ActivityId) -> Hours<'a> {
        Hours::of(self.problem, self.problem.activities[id.index()].calendar)
    }

    /// All activities that are planned and not over.
    fn going_on(&self) -> impl Iterator<Item = ActivityId> + '_ {
        let all = (0..self.problem.activities.len()).map(ActivityId::from);
        all.filter(|&id| !self.is_done(id) && self.is_planned(id))
    }

    /// When an activity that begins and ends so is on site; begun work counts from now on.
    pub(super) fn stay(&self, who: ActivityId, start: Tick, finish: Tick) -> Stay {
        let from = if self.is_open(who) {
            start
        } else {
            start.max(self.problem.now)
        };
        let moment = self.problem.activities[who.index()].work <= 0 && self.is_open(who);
        Stay {
            who,
            from,
            until: if moment {
                from.saturating_add(1)
            } else {
                finish
            },
        }
    }

    /// What an activity that begins and ends so takes of its resources.
    pub(super) fn takes(&self, who: ActivityId, wanted: Use, start: Tick, finish: Tick) -> Taken {
        let from = if self.is_open(who) {
            start
        } else {
            start.max(self.problem.now)
        };
        Taken {
            who,
            amount: wanted.amount,
            from,
            until: finish,
        }
    }

    /// What an activity that begins and ends so shuts.
    pub(super) fn shuts(&self, who: ActivityId, start: Tick, finish: Tick) -> Vec<Shut> {
        let activity = &self.problem.activities[who.index()];
        let mut shuts = Vec::with_capacity(activity.closes.len());
        for closure in &activity.closes {
            let Some(from) = self.moment(closure.from, start, finish) else {
                continue;
            };
            let until = self
                .moment(closure.until, start, finish)
                .unwrap_or(Tick::MAX);
            if from < until {
                let (node, bars, group) = (closure.node, closure.bars, activity.group);
                shuts.push(Shut {
                    node,
                    from,
                    until,
                    bars,
                    by: who,
                    group,
                });
            }
        }
        shuts
    }

    /// The still air that an activity that begins and ends so needs.
    pub(super) fn calms(&self, who: ActivityId, start: Tick, finish: Tick) -> Vec<Calm> {
        let mut calms = Vec::new();
        for still in &self.problem.activities[who.index()].still {
            let Some(from) = self.moment(still.from, start, finish) else {
                continue;
            };
            let until = self.moment(still.until, start, finish).unwrap_or(Tick::MAX);
            if from < until {
                calms.push(Calm {
                    who,
                    zone: still.zone,
                    from,
                    until,
                });
            }
        }
        calms
    }

    fn moment(&self, moment: Moment, start: Tick, finish: Tick) -> Option<Tick> {
        let end = pick(moment.end, start, finish);
        Hours::on(self.problem, moment.clock).count_on(end, moment.after)
    }

    /// Every closure of the plan, those of done and begun work included.
    pub(super) fn all_shuts(&self) -> Vec<Shut> {
        self.all_with_traces()
            .flat_map(|id| {
                let (start, finish) = self.ends(id);
                self.shuts(id, start, finish)
            })
            .collect()
    }

    /// All still air of the plan, that of done and begun work included.
    pub(super) fn all_calms(&self) -> Vec<Calm> {
        self.all_with_traces()
            .flat_map(|id| {
                let (start, finish) = self.ends(id);
                self.calms(id, start, finish)
            })
            .collect()
    }

    fn all_with_traces(&self) -> impl Iterator<Item = ActivityId> + '_ {
        let all = (0..self.problem.activities.len()).map(ActivityId::from);
        all.filter(|&id| self.is_planned(id))
    }

    /// Everybody who is in the house at some time.
    pub(super) fn all_stays(&self) -> Vec<Stay> {
        self.going_on()
            .map(|id| {
                let (start, finish) = self.ends(id);
                self.stay(id, start, finish)
            })
            .collect()
    }

    /// For each resource, everything that takes it.
    pub(super) fn all_taken(&self) -> Vec<Vec<Taken>> {
        let mut taken = vec![Vec::new(); self.problem.resources.len()];
        for id in self.going_on() {
            let (start, finish) = self.ends(id);
            for &wanted in &self.problem.activities[id.index()].uses {
                let use_ = self.takes(id, wanted, start, finish);
                if let Some(list) = taken.get_mut(wanted.resource.index())
                    && use_.from < use_.until
                {
                    list.push(use_);
                }
            }
        }
        taken
    }

    /// No resource overused, judged at each moment at which somebody comes on top.
    pub(super) fn check_resources(&self, breaches: &mut Vec<Breach>) {
        for (index, mut list) in self.all_taken().into_iter().enumerate() {
            list.sort_by_key(|taken| (taken.from, taken.who));
            let capacity = u64::from(self.problem.resources[index].capacity);
            let mut present: Vec<Taken> = Vec::new();
            for (position, taken) in list.iter().enumerate() {
                present.retain(|other| other.until > taken.from);
                present.push(*taken);
                let at = taken.from;
                if list.get(position + 1).is_some_and(|next| next.from == at) {
                    continue;
                }
                let used: u64 = present.iter().map(|t| u64::from(t.amount)).sum();
                let open = present.iter().any(|t| self.is_open(t.who));
                if used > capacity && open {
                    let mut users: Vec<_> = present.iter().map(|t| t.who).collect();
                    users.sort_unstable();
                    users.dedup();
                    breaches.push(Breach::Overused {
                        resource: ResourceId::from(index),
                        at,
                        users,
                    });
                }
            }
        }
    }

    /// Everybody has a way in, all the time.
    pub(super) fn check_access(&self, breaches: &mut Vec<Breach>) {
        if self.problem.access.entrances.is_empty() {
            return;
        }
        let shuts = self.all_shuts();
        let mut ways = Ways::new(&self.problem.access);
        for stay in self.all_stays() {
            let Some((node, at, by)) = self.cut_off(&stay, &shuts, &mut ways) else {
                continue;
            };
            if self.is_open(stay.who) || by.iter().any(|&id| self.is_open(id)) {
                breaches.push(Breach::CutOff {
                    activity: stay.who,
                    node,
                    at,
                    by,
                });
            }
        }
    }

    /// The first worked moment of a stay without a way in, and whose closures bar the way then.
    pub(super) fn cut_off(
        &self,
        stay: &Stay,
        shuts: &[Shut],
        ways: &mut Ways,
    ) -> Option<(NodeId, Tick, Vec<ActivityId>)> {
        let node = self.problem.activities[stay.who.index()].at?;
        let hours = self.hours(stay.who);
        let bars = |s: &&Shut| {
            s.from < stay.until && s.until > stay.from && s.bars(self.problem, stay.who)
        };
        let shuts: Vec<&Shut> = shuts.iter().filter(bars).collect();
        let mut changes: Vec<Tick> = shuts.iter().flat_map(|s| [s.from, s.until]).collect();
        changes.push(stay.from);
        changes.retain(|&t| stay.from <= t && t < stay.until);
        changes.sort_unstable();
        changes.dedup();
        changes.push(stay.until);
        for pair in changes.windows(2) {
            let Some(at) = hours.first_worked(pair[0]).filter(|&at| at < pair[1]) else {
                continue;
            };
            let active = || shuts.iter().filter(|s| s.from <= at && at < s.until);
            let mut shut: Vec<NodeId> = active().map(|s| s.node).collect();
            shut.sort_unstable();
            shut.dedup();
            if !ways.lead_to(node, &shut) {
                let barriers = ways.barriers(node, &shut);
                let mut by: Vec<_> = active()
                    .filter(|s| barriers.contains(&s.node))
                    .map(|s| s.by)
                    .collect();
                by.sort_unstable();
                by.dedup();
                return Some((node, at, by));
            }
        }
        None
    }

    /// No dust while a finish needs still air.
    pub(super) fn check_dust(&self, breaches: &mut Vec<Breach>) {
        let calms = self.all_calms();
        for stay in self.all_stays() {
            let Some(zone) = self.problem.activities[stay.who.index()].dusty else {
                continue;
            };
            let mut found: Vec<ActivityId> = Vec::new();
            for calm in calms.iter().filter(|calm| calm.zone == zone) {
                let open = self.is_open(stay.who) || self.is_open(calm.who);
                let Some(at) = self.dust_in(&stay, calm) else {
                    continue;
                };
                if open && !found.contains(&calm.who) {
                    found.push(calm.who);
                    let (dusty, still) = (stay.who, calm.who);
                    breaches.push(Breach::Dust {
                        dusty,
                        still,
                        zone,
                        at,
                    });
                }
            }
        }
    }

    /// The first worked moment of a dusty stay that falls into still air, if it is not its own.
    pub(super) fn dust_in(&self, stay: &Stay, calm: &Calm) -> Option<Tick> {
        if stay.who == calm.who {
            return None;
        }
        let until = stay.until.min(calm.until);
        self.hours(stay.who)
            .first_worked(stay.from.max(calm.from))
            .filter(|&at| at < until)
    }
}
