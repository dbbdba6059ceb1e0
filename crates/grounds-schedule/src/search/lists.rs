//! Lists by which plans are built: by urgency, from another plan, and varied by chance.

use super::compiled::Compiled;
use crate::problem::{ActivityId, Tick};

/// What a first list is sorted by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Rule {
    /// Latest start first.
    LatestStart,
    /// Latest finish first.
    LatestFinish,
    /// Sum of earliest and latest start.
    Middle,
}

impl Rule {
    /// The rules, the best first.
    pub(crate) const ALL: [Self; 3] = [Self::LatestStart, Self::LatestFinish, Self::Middle];
}

/// The list of open activities by a rule; scarcer crews' work goes first among equals.
pub(crate) fn by_rule(c: &Compiled, rule: Rule, early: &[Tick], late: &[Tick]) -> Vec<ActivityId> {
    let load = loads(c);
    let key = |i: usize| {
        let main = match rule {
            Rule::LatestStart => i64::from(late[i]),
            Rule::LatestFinish => i64::from(c.work[i].finish(late[i])),
            Rule::Middle => i64::from(early[i]) + i64::from(late[i]),
        };
        let uses = &c.problem.activities[i].uses;
        let scarce = uses
            .iter()
            .map(|wanted| load[wanted.resource.index()])
            .max()
            .unwrap_or(0);
        (main, std::cmp::Reverse(scarce), early[i], i)
    };
    sorted(c, key)
}

/// For each resource, the work asked of it for each unit there is.
fn loads(c: &Compiled) -> Vec<i64> {
    let mut load = vec![0i64; c.problem.resources.len()];
    for (i, activity) in c
        .problem
        .activities
        .iter()
        .enumerate()
        .filter(|(i, _)| c.open[*i])
    {
        for wanted in &activity.uses {
            let capacity = c.problem.resources[wanted.resource.index()].capacity.max(1);
            let asked = i64::from(wanted.amount) * i64::from(c.work[i].work);
            load[wanted.resource.index()] += asked * 16 / i64::from(capacity);
        }
    }
    load
}

/// The list of open activities as a plan starts them.
pub(crate) fn by_starts(c: &Compiled, starts: &[Tick]) -> Vec<ActivityId> {
    sorted(c, |i| (starts[i], i))
}

fn sorted<K: Ord>(c: &Compiled, key: impl Fn(usize) -> K) -> Vec<ActivityId> {
    let mut open: Vec<usize> = (0..c.count()).filter(|&i| c.open[i]).collect();
    open.sort_by_cached_key(|&i| key(i));
    open.into_iter().map(ActivityId::from).collect()
}

/// A list that names every open activity: the given one, with those it does not name put where the
/// list by rule has them, before the first named one that the rule places later.
pub(crate) fn completed(
    c: &Compiled,
    list: &[ActivityId],
    by_rule: &[ActivityId],
) -> Vec<ActivityId> {
    let mut named = vec![false; c.count()];
    let mut full = Vec::with_capacity(by_rule.len());
    for &id in list {
        if id.index() < c.count() && c.open[id.index()] && !named[id.index()] {
            named[id.index()] = true;
            full.push(id);
        }
    }
    let mut place = vec![usize::MAX; c.count()];
    for (k, id) in full.iter().enumerate() {
        place[id.index()] = k;
    }
    let mut before = full.len();
    let mut keys: Vec<(usize, usize, ActivityId)> = Vec::with_capacity(by_rule.len());
    for (k, &id) in by_rule.iter().enumerate().rev() {
        if named[id.index()] {
            before = place[id.index()];
            keys.push((before, usize::MAX, id));
        } else {
            keys.push((before, k, id));
        }
    }
    keys.sort_unstable();
    keys.into_iter().map(|(_, _, id)| id).collect()
}
