//! Changes to the list of a plan, each meant to take away one of the things that cost.
//!
//! A plan's list is its activities by start. A change moves the times that the list is sorted by; work that
//! is pulled forward takes along what it waits for.

use super::compiled::Compiled;
use super::incumbent::Incumbent;
use crate::chance::Chance;
use crate::problem::{ActivityId, DAY, Tick};

/// The kinds of changes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Move {
    /// Work that a crew or a room held up, and that what ends too late waits for, comes sooner.
    PullDriver,
    /// A visit of a trade moves up to the one before.
    JoinVisits,
    /// Other work in a place comes before something fragile there.
    ClearRoom,
    /// One piece of work goes elsewhere, a little or far.
    Insert,
    /// Work within a few days is shuffled.
    Shuffle,
    /// The work of one trade is shuffled.
    ShuffleTrade,
    /// Some of all work moves by chance.
    Shake,
}

impl Move {
    pub(crate) const ALL: [Self; 7] = [
        Self::PullDriver,
        Self::JoinVisits,
        Self::ClearRoom,
        Self::Insert,
        Self::Shuffle,
        Self::ShuffleTrade,
        Self::Shake,
    ];
}

/// Makes changed lists, again and again in the same memory.
pub(crate) struct Mover {
    keys: Vec<Tick>,
    open: Vec<usize>,
    /// For each resource, the open work that uses it.
    users: Vec<Vec<usize>>,
    /// Resources that cost something to call back.
    costly: Vec<usize>,
    /// Fragile work with the other open work in its place.
    fragile: Vec<(usize, Vec<usize>)>,
    stack: Vec<usize>,
    picked: Vec<usize>,
}

impl Mover {
    pub(crate) fn new(c: &Compiled) -> Self {
        let activities = &c.problem.activities;
        let open: Vec<usize> = (0..c.count()).filter(|&i| c.open[i]).collect();
        let mut users = vec![Vec::new(); c.problem.resources.len()];
        for &i in &open {
            for wanted in activities[i].uses.iter().filter(|_| c.work[i].work > 0) {
                users[wanted.resource.index()].push(i);
            }
        }
        let resources = c.problem.resources.iter().zip(&users).enumerate();
        let costly = resources
            .filter(|(_, (r, users))| r.return_cents > 0 && users.len() > 1)
            .map(|(r, _)| r)
            .collect();
        let fragile = open
            .iter()
            .filter(|&&i| activities[i].fragile_cents > 0 && activities[i].at.is_some())
            .map(|&f| {
                let passes = |&i: &usize| i != f && activities[i].at == activities[f].at;
                (f, open.iter().copied().filter(passes).collect::<Vec<_>>())
            })
            .filter(|(_, others)| !others.is_empty())
            .collect();
        Self {
            keys: vec![0; c.count()],
            open,
            users,
            costly,
            fragile,
            stack: Vec::new(),
            picked: Vec::new(),
        }
    }

    /// The list of a plan, changed; `None` where this kind of change finds nothing to do.
    pub(crate) fn list(
        &mut self,
        c: &Compiled,
        plan: &Incumbent,
        kind: Move,
        chance: &mut Chance,
    ) -> Option<Vec<ActivityId>> {
        if self.open.is_empty() {
            return None;
        }
        self.keys.copy_from_slice(&plan.starts);
        let changed = match kind {
            Move::PullDriver => self.pull_driver(c, plan, chance),
            Move::JoinVisits => self.join_visits(c, plan, chance),
            Move::ClearRoom => self.clear_room(c, plan, chance),
            Move::Insert => self.insert(c, plan, chance),
            Move::Shuffle => self.shuffle(plan, chance),
            Move::ShuffleTrade => self.shuffle_trade(plan, chance),
            Move::Shake => self.shake(chance),
        };
        changed.then(|| self.sorted(plan))
    }

    fn sorted(&mut self, plan: &Incumbent) -> Vec<ActivityId> {
        let keys = &self.keys;
        self.open
            .sort_unstable_by_key(|&i| (keys[i], plan.starts[i], i));
        self.open.iter().map(|&i| ActivityId::from(i)).collect()
    }

    /// Walks back from something that ends too late or last to work that was held up by a crew or a
    /// room, and pulls that forward.
    fn pull_driver(&mut self, c: &Compiled, plan: &Incumbent, chance: &mut Chance) -> bool {
        let Some(mut at) = plan.driver(c, &self.open, chance) else {
            return false;
        };
        self.picked.clear();
        for _ in 0..200 {
            if plan.starts[at] > c.work[at].first_start(plan.low[at]) {
                self.picked.push(at);
            }
            match plan.waits_for(c, &self.users, at, chance) {
                Some(before) => at = before,
                None => break,
            }
        }
        if self.picked.is_empty() {
            return false;
        }
        for _ in 0..1 + chance.below(3) {
            let held = self.picked[chance.below(self.picked.len())];
            let most = (plan.starts[held] - plan.low[held]).max(DAY) + 2 * DAY;
            let to = plan.starts[held] - chance.between(1, most);
            self.pull(c, held, to);
        }
        true
    }

    /// Pulls work to a time, and what it waits for with it.
    fn pull(&mut self, c: &Compiled, i: usize, to: Tick) {
        self.stack.clear();
        if self.keys[i] > to {
            self.keys[i] = to;
            self.stack.push(i);
        }
        while let Some(i) = self.stack.pop() {
            for arc in c.into.of(i).map(|arc| &c.arcs[arc]) {
                let lower = self.keys[i];
                if !arc.longest && arc.amount >= 0 && self.keys[arc.from] > lower {
                    self.keys[arc.from] = lower;
                    self.stack.push(arc.from);
                }
            }
        }
    }

    /// Pulls the first work of a later visit up to the visit before, or pushes the last of an earlier
    /// one back to it.
    fn join_visits(&mut self, c: &Compiled, plan: &Incumbent, chance: &mut Chance) -> bool {
        if self.costly.is_empty() {
            return false;
        }
        let resource = self.costly[chance.below(self.costly.len())];
        let gap = c.problem.resources[resource].visit_gap;
        let mut users = std::mem::take(&mut self.picked);
        users.clear();
        users.extend(&self.users[resource]);
        users.sort_unstable_by_key(|&i| (plan.starts[i], i));
        let mut left = plan.finishes[users[0]];
        let mut returns = 0;
        let mut chosen = None;
        for (k, &i) in users.iter().enumerate().skip(1) {
            if plan.starts[i] - left > gap {
                returns += 1;
                if chance.below(returns) == 0 {
                    chosen = Some((k, left));
                }
            }
            left = left.max(plan.finishes[i]);
        }
        if let Some((k, left)) = chosen {
            if chance.happens(60) {
                for &i in users[k..].iter().take(1 + chance.below(4)) {
                    let back = chance.between(0, gap);
                    self.pull(c, i, left - back);
                }
            } else {
                let to = plan.starts[users[k]];
                for &i in users[..k].iter().rev().take(1 + chance.below(4)) {
                    self.keys[i] = to + chance.between(-DAY, DAY);
                }
            }
        }
        self.picked = users;
        chosen.is_some()
    }

    /// Something fragile goes behind the other work in its place, or that goes before it.
    fn clear_room(&mut self, c: &Compiled, plan: &Incumbent, chance: &mut Chance) -> bool {
        if self.fragile.is_empty() {
            return false;
        }
        let (f, others) = &self.fragile[chance.below(self.fragile.len())];
        let f = *f;
        let finish = plan.finishes[f];
        let mut passing = std::mem::take(&mut self.picked);
        passing.clear();
        passing.extend(others.iter().filter(|&&i| plan.starts[i] >= finish));
        let found = !passing.is_empty();
        if found && chance.happens(50) {
            let last = passing[chance.below(passing.len())];
            self.keys[f] = plan.starts[last] + 1;
        } else if found {
            for _ in 0..1 + chance.below(3) {
                let i = passing[chance.below(passing.len())];
                let to = plan.starts[f] - 1;
                self.pull(c, i, to);
            }
        }
        self.picked = passing;
        found
    }

    fn insert(&mut self, c: &Compiled, plan: &Incumbent, chance: &mut Chance) -> bool {
        for _ in 0..1 + chance.below(3) {
            let i = self.open[chance.below(self.open.len())];
            let reach = [2, 5, 20][chance.below(3)] * DAY;
            let to = plan.starts[i] + chance.between(-reach, reach);
            if to < plan.starts[i] {
                self.pull(c, i, to);
            } else {
                self.keys[i] = to;
            }
        }
        true
    }

    fn shuffle(&mut self, plan: &Incumbent, chance: &mut Chance) -> bool {
        let around = plan.starts[self.open[chance.below(self.open.len())]];
        let reach = [2, 4, 10][chance.below(3)] * DAY;
        let percent = [30, 100][chance.below(2)];
        for &i in &self.open {
            if (plan.starts[i] - around).abs() <= reach && chance.happens(percent) {
                self.keys[i] += chance.between(-reach, reach);
            }
        }
        true
    }

    fn shuffle_trade(&mut self, plan: &Incumbent, chance: &mut Chance) -> bool {
        let one = self.open[chance.below(self.open.len())];
        let resource = chance.below(self.users.len().max(1));
        let Some(users) = self.users.get(resource).filter(|users| users.len() > 1) else {
            return false;
        };
        let around = plan.starts[one];
        let reach = [5, 15, 60][chance.below(3)] * DAY;
        for &i in users {
            if (plan.starts[i] - around).abs() <= reach {
                self.keys[i] += chance.between(-reach / 2, reach / 2);
            }
        }
        true
    }

    fn shake(&mut self, chance: &mut Chance) -> bool {
        let percent = [2, 5, 15][chance.below(3)];
        let reach = [2, 5, 15][chance.below(3)] * DAY;
        for &i in &self.open {
            if chance.happens(percent) {
                self.keys[i] += chance.between(-reach, reach);
            }
        }
        true
    }
}
