//! Why an activity begins when it does: what would break if it began one working tick earlier.

use super::ends::{is_missed, is_overtaken, is_too_late, is_too_soon, pick};
use super::site::{Calm, Site, Stay, Taken};
use super::ways::{Shut, Ways};
use crate::plan::Plan;
use crate::problem::{ActivityId, DateId, Lag, LagId, Problem, ResourceId, Tick};

/// Something that would break if an activity began one working tick earlier.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Reason {
    /// It is known: done or begun.
    Fact,
    /// It would begin in the past.
    Now,
    /// A waiting time.
    Lag(LagId),
    /// A date.
    Date(DateId),
    /// A crew, a room or a piece of equipment is taken.
    Crew {
        /// What is taken.
        resource: ResourceId,
        /// By whom, at the first moment at which there is not enough.
        held_by: Vec<ActivityId>,
    },
    /// There is no way in.
    ShutOff {
        /// Whose closures bar the ways; empty where there is never a way in.
        by: Vec<ActivityId>,
    },
    /// What it shuts would leave others without a way in.
    WouldShutOff {
        /// Those others.
        others: Vec<ActivityId>,
    },
    /// It would make dust in still air, or need still air where there is dust.
    Dust {
        /// The other side.
        with: Vec<ActivityId>,
    },
    /// Its calendar has no earlier working time.
    Hours,
    /// It must not stop overnight and would not fit what is left of the shift before. With other
    /// reasons: those hold it at the latest earlier start that would fit.
    Shift,
    /// It found no place before the horizon, so that there is nothing to explain.
    Unplanned,
    /// Nothing would break: the plan chose it.
    Choice,
}

/// Why an activity begins when it does; empty for an activity that does not exist, or a plan of the
/// wrong shape.
///
/// For work that must not stop overnight, "one working tick earlier" is the latest earlier start
/// from which it fits one shift. Only what holds now and would not hold then counts.
#[must_use]
pub fn explain(problem: &Problem, plan: &Plan, activity: ActivityId) -> Vec<Reason> {
    let count = problem.activities.len();
    let shaped = plan.starts.len() == count && plan.finishes.len() == count;
    if !shaped || activity.index() >= count {
        return Vec::new();
    }
    Explainer::new(problem, plan).explain(activity)
}

/// [`explain`] for every activity, in order; the whole house is surveyed only once.
#[must_use]
pub fn explain_all(problem: &Problem, plan: &Plan) -> Vec<Vec<Reason>> {
    let count = problem.activities.len();
    if plan.starts.len() != count || plan.finishes.len() != count {
        return Vec::new();
    }
    let mut explainer = Explainer::new(problem, plan);
    (0..count)
        .map(|i| explainer.explain(ActivityId::from(i)))
        .collect()
}

/// An activity with its present and its earlier ends.
#[derive(Clone, Copy)]
struct Shift {
    who: ActivityId,
    start: Tick,
    finish: Tick,
    earlier_start: Tick,
    earlier_finish: Tick,
}

struct Explainer<'a> {
    site: Site<'a>,
    lags: Vec<Vec<LagId>>,
    dates: Vec<Vec<DateId>>,
    taken: Vec<Vec<Taken>>,
    longest: Vec<Tick>,
    shuts: Vec<Shut>,
    calms: Vec<Calm>,
    stays: Vec<Stay>,
    ways: Ways<'a>,
}

impl<'a> Explainer<'a> {
    fn new(problem: &'a Problem, plan: &'a Plan) -> Self {
        let site = Site::new(problem, plan);
        let mut lags = vec![Vec::new(); problem.activities.len()];
        for (i, lag) in problem.lags.iter().enumerate() {
            for id in [lag.from, lag.to] {
                if let Some(list) = lags
                    .get_mut(id.index())
                    .filter(|l| l.last() != Some(&LagId::from(i)))
                {
                    list.push(LagId::from(i));
                }
            }
        }
        let mut dates = vec![Vec::new(); problem.activities.len()];
        for (i, date) in problem.dates.iter().enumerate() {
            if let Some(list) = dates.get_mut(date.activity.index()) {
                list.push(DateId::from(i));
            }
        }
        let mut taken = site.all_taken();
        taken
            .iter_mut()
            .for_each(|list| list.sort_by_key(|t| (t.from, t.who)));
        let length = |list: &Vec<Taken>| list.iter().map(|t| t.until.saturating_sub(t.from)).max();
        let longest = taken.iter().map(|list| length(list).unwrap_or(0)).collect();
        let (shuts, calms, stays) = (site.all_shuts(), site.all_calms(), site.all_stays());
        let ways = Ways::new(&problem.access);
        Self {
            site,
            lags,
            dates,
            taken,
            longest,
            shuts,
            calms,
            stays,
            ways,
        }
    }

    fn explain(&mut self, who: ActivityId) -> Vec<Reason> {
        if !self.site.is_open(who) {
            return vec![Reason::Fact];
        }
        if !self.site.is_planned(who) {
            return vec![Reason::Unplanned];
        }
        let (start, finish) = self.site.ends(who);
        let activity = &self.site.problem.activities[who.index()];
        let hours = self.site.hours(who);
        let Some(tick_before) = hours.last_worked_before(start) else {
            return vec![Reason::Hours];
        };
        let unbroken = activity.unbroken && activity.work > 0;
        let fit = if unbroken {
            hours.last_fit_before(start, activity.work)
        } else {
            Some(tick_before)
        };
        let Some(earlier_start) = fit else {
            return vec![Reason::Shift];
        };
        let Some(earlier_finish) = hours.count_on(earlier_start, activity.work) else {
            return vec![Reason::Hours];
        };
        let shift = Shift {
            who,
            start,
            finish,
            earlier_start,
            earlier_finish,
        };
        let mut reasons = self.what_breaks(&shift);
        if reasons.is_empty() {
            return vec![Reason::Choice];
        }
        if earlier_start != tick_before {
            reasons.push(Reason::Shift);
        }
        reasons
    }

    fn what_breaks(&mut self, shift: &Shift) -> Vec<Reason> {
        let mut reasons = Vec::new();
        if shift.earlier_start < self.site.problem.now {
            reasons.push(Reason::Now);
        }
        self.lags_that_break(shift, &mut reasons);
        self.dates_that_break(shift, &mut reasons);
        self.crews_taken(shift, &mut reasons);
        if !self.site.problem.access.entrances.is_empty() {
            self.ways_shut(shift, &mut reasons);
            self.ways_it_would_shut(shift, &mut reasons);
        }
        self.dust(shift, &mut reasons);
        reasons
    }

    fn lags_that_break(&self, shift: &Shift, reasons: &mut Vec<Reason>) {
        for &id in &self.lags[shift.who.index()] {
            let lag = &self.site.problem.lags[id.index()];
            if !self.site.knows(lag.from) || !self.site.knows(lag.to) {
                continue;
            }
            let planned = self.site.is_planned(lag.from) && self.site.is_planned(lag.to);
            if planned && self.breaks(lag, Some(shift)) && !self.breaks(lag, None) {
                reasons.push(Reason::Lag(id));
            }
        }
    }

    fn breaks(&self, lag: &Lag, shift: Option<&Shift>) -> bool {
        let end = |id, end| match shift {
            Some(s) if s.who == id => pick(end, s.earlier_start, s.earlier_finish),
            _ => self.site.end(id, end),
        };
        let (from, to) = (end(lag.from, lag.from_end), end(lag.to, lag.to_end));
        let problem = self.site.problem;
        is_too_late(problem, lag, from, to)
            || is_too_soon(problem, lag, from, to) && !is_overtaken(problem, lag, to)
    }

    fn dates_that_break(&self, shift: &Shift, reasons: &mut Vec<Reason>) {
        for &id in &self.dates[shift.who.index()] {
            let date = &self.site.problem.dates[id.index()];
            let earlier = pick(date.end, shift.earlier_start, shift.earlier_finish);
            let present = pick(date.end, shift.start, shift.finish);
            if is_missed(date, earlier) && !is_missed(date, present) {
                reasons.push(Reason::Date(id));
            }
        }
    }

    /// Resources without enough left in the time that would be gained.
    fn crews_taken(&self, shift: &Shift, reasons: &mut Vec<Reason>) {
        let (from, until) = (shift.earlier_start, shift.earlier_finish.min(shift.start));
        if from >= until {
            return;
        }
        for wanted in &self.site.problem.activities[shift.who.index()].uses {
            let Some(list) = self.taken.get(wanted.resource.index()) else {
                continue;
            };
            let earliest = from.saturating_sub(self.longest[wanted.resource.index()]);
            let first = list.partition_point(|t| t.from < earliest);
            let near: Vec<&Taken> = list[first..]
                .iter()
                .take_while(|t| t.from < until)
                .filter(|t| t.until > from && t.who != shift.who)
                .collect();
            let moments = near.iter().map(|t| t.from.max(from));
            let capacity = u64::from(self.site.problem.resources[wanted.resource.index()].capacity);
            for at in moments {
                let users = || near.iter().filter(|t| t.from <= at && at < t.until);
                let used: u64 = users().map(|t| u64::from(t.amount)).sum();
                if used + u64::from(wanted.amount) > capacity {
                    let held_by = sorted(users().map(|t| t.who).collect());
                    reasons.push(Reason::Crew {
                        resource: wanted.resource,
                        held_by,
                    });
                    break;
                }
            }
        }
    }

    /// No way in during the time that would be gained.
    fn ways_shut(&mut self, shift: &Shift, reasons: &mut Vec<Reason>) {
        let stay = self.gained_stay(shift);
        if let Some((_, _, by)) = self.site.cut_off(&stay, &self.shuts, &mut self.ways) {
            reasons.push(Reason::ShutOff { by });
        }
    }

    /// The part of the earlier stay that is not part of the present one.
    fn gained_stay(&self, shift: &Shift) -> Stay {
        let stay = self
            .site
            .stay(shift.who, shift.earlier_start, shift.earlier_finish);
        Stay {
            until: stay.until.min(shift.start),
            ..stay
        }
    }

    /// Others left without a way in by what would be shut earlier.
    fn ways_it_would_shut(&mut self, shift: &Shift, reasons: &mut Vec<Reason>) {
        let earlier = self
            .site
            .shuts(shift.who, shift.earlier_start, shift.earlier_finish);
        if earlier.is_empty() {
            return;
        }
        let present = self.site.shuts(shift.who, shift.start, shift.finish);
        let mut shuts: Vec<Shut> = self
            .shuts
            .iter()
            .filter(|s| s.by != shift.who)
            .copied()
            .collect();
        shuts.extend(&earlier);
        let mut others = Vec::new();
        for shut in &earlier {
            let already = present
                .iter()
                .filter(|p| p.node == shut.node && p.bars <= shut.bars);
            let until = already
                .map(|p| p.from)
                .min()
                .unwrap_or(shut.until)
                .min(shut.until);
            for stay in self.stays.iter().filter(|s| s.who != shift.who) {
                let part = Stay {
                    from: stay.from.max(shut.from),
                    until: stay.until.min(until),
                    ..*stay
                };
                if part.from >= part.until || !shut.bars(self.site.problem, stay.who) {
                    continue;
                }
                let cut = self.site.cut_off(&part, &shuts, &mut self.ways);
                if cut.is_some_and(|(_, _, by)| by.contains(&shift.who)) {
                    others.push(stay.who);
                }
            }
        }
        if !others.is_empty() {
            reasons.push(Reason::WouldShutOff {
                others: sorted(others),
            });
        }
    }

    fn dust(&self, shift: &Shift, reasons: &mut Vec<Reason>) {
        let problem = self.site.problem;
        let mut with = Vec::new();
        if let Some(zone) = problem.activities[shift.who.index()].dusty {
            let stay = self.gained_stay(shift);
            let calms = self.calms.iter().filter(|calm| calm.zone == zone);
            with.extend(
                calms
                    .filter(|c| self.site.dust_in(&stay, c).is_some())
                    .map(|c| c.who),
            );
        }
        let present = self.site.calms(shift.who, shift.start, shift.finish);
        for calm in self
            .site
            .calms(shift.who, shift.earlier_start, shift.earlier_finish)
        {
            let already = present
                .iter()
                .filter(|p| p.zone == calm.zone)
                .map(|p| p.from)
                .min();
            let gained = Calm {
                until: calm.until.min(already.unwrap_or(calm.until)),
                ..calm
            };
            let dusty = |s: &&Stay| problem.activities[s.who.index()].dusty == Some(calm.zone);
            let stays = self.stays.iter().filter(dusty);
            with.extend(
                stays
                    .filter(|s| self.site.dust_in(s, &gained).is_some())
                    .map(|s| s.who),
            );
        }
        if !with.is_empty() {
            reasons.push(Reason::Dust { with: sorted(with) });
        }
    }
}

fn sorted(mut list: Vec<ActivityId>) -> Vec<ActivityId> {
    list.sort_unstable();
    list.dedup();
    list
}
