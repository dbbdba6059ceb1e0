//! Whose turn it is: who can begin first comes first, so that a run decides nothing before its time.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::game::Game;
use super::policy::{NONE, Policy, Take};
use super::run::{Found, Run};
use crate::problem::{DAY, Tick};
use crate::search::clock::NEVER;

/// Who was placed, in turn, and who can be next.
#[derive(Clone, Debug)]
pub(super) struct Turns {
    /// Positions in the order in which they were placed.
    taken: Vec<u32>,
    /// By position, its turn; [`NONE`] before that.
    turns: Vec<u32>,
    /// By position, how many it still waits for.
    waits: Vec<u32>,
    /// For each queue, its first place that is not placed yet.
    heads: Vec<u32>,
    /// Where everybody who waits for nobody would lie.
    found: Vec<Found>,
    /// When to look at whom: a moment and a position.
    next: BinaryHeap<Reverse<(Tick, u32)>>,
    /// By position, the one of these moments that counts.
    due: Vec<Tick>,
    /// Units as they were before each turn.
    before: Vec<(Tick, u32)>,
    /// When each turn was decided: never before an earlier one, since what was seen by then would be
    /// known too soon.
    decided: Vec<Tick>,
}

impl Turns {
    pub(super) fn new(policy: &Policy) -> Self {
        let nowhere = Found {
            ends: (NEVER, NEVER),
            driver: NONE,
        };
        Self {
            taken: Vec::with_capacity(policy.order.played),
            turns: vec![NONE; policy.order.ids.len()],
            waits: policy.needs.clone(),
            heads: vec![0; policy.queues.lists()],
            found: vec![nowhere; policy.order.ids.len()],
            next: BinaryHeap::new(),
            due: vec![NEVER; policy.order.ids.len()],
            before: Vec::new(),
            decided: Vec::with_capacity(policy.order.played),
        }
    }

    /// The turn of a position; the last of all if it has not had it.
    pub(super) fn turn_of(&self, p: usize) -> usize {
        self.turns[p] as usize
    }

    pub(super) fn is_placed(&self, p: usize) -> bool {
        self.turns[p] != NONE
    }

    /// The first place of a queue that is not placed yet.
    pub(super) fn head(&self, queue: u32) -> u32 {
        self.heads[queue as usize]
    }

    /// Looks at somebody at a moment, and at no other.
    fn call(&mut self, p: usize, at: Tick) {
        self.due[p] = at;
        self.next.push(Reverse((at, p as u32)));
    }

    /// The moment up to which everything is decided.
    fn now(&self) -> Tick {
        self.decided.last().map_or(-NEVER, |now| *now)
    }
}

impl Run {
    /// Nobody is placed.
    pub(super) fn begin(&mut self, policy: &Policy, game: &Game) {
        let turns = &mut self.turns;
        turns.taken.clear();
        turns.before.clear();
        turns.decided.clear();
        turns.turns.fill(NONE);
        turns.waits.copy_from_slice(&policy.needs);
        turns.heads.fill(0);
        self.look_at_all(policy, game);
    }

    /// Looks anew at everybody who waits for nobody.
    fn look_at_all(&mut self, policy: &Policy, game: &Game) {
        self.turns.next.clear();
        for p in 0..policy.order.played {
            if self.turns.waits[p] == 0 && !self.turns.is_placed(p) {
                self.look_at(policy, game, p);
            }
        }
    }

    fn look_at(&mut self, policy: &Policy, game: &Game, p: usize) {
        let found = self.find(policy, game, p, -NEVER);
        self.turns.found[p] = found;
        self.turns.call(p, found.ends.0);
    }

    /// Who is placed next: the first who can begin, in the order of the plan where two could.
    pub(super) fn next(&mut self, policy: &Policy, game: &Game) -> Option<usize> {
        while let Some(Reverse((at, p))) = self.turns.next.pop() {
            let p = p as usize;
            if self.turns.is_placed(p) || self.turns.due[p] != at {
                continue;
            }
            let at = at.max(self.turns.now());
            if !self.is_still_free(policy, p) {
                self.turns.found[p] = self.find(policy, game, p, -NEVER);
            }
            let start = self.turns.found[p].ends.0;
            let goes = start <= at
                && (self.takes_from_nobody(policy, p, at)
                    || policy.appointed[p] <= at && self.may_go_ahead(policy, p, at));
            if goes {
                if start < at {
                    self.turns.found[p] = self.find(policy, game, p, at);
                }
                if self.turns.found[p].ends.0 <= at {
                    self.turns.decided.push(at);
                    return Some(p);
                }
            }
            let start = self.turns.found[p].ends.0;
            let again = if start > at {
                start
            } else if policy.appointed[p] > at && self.is_one_of_a_kind(policy, p) {
                policy.appointed[p]
            } else {
                // Looked at again every day, and when it is next in a queue.
                at.saturating_add(DAY)
            };
            if again < NEVER {
                self.turns.call(p, again);
            }
        }
        // Whoever found no working time at all comes last.
        let left = |&p: &usize| self.turns.waits[p] == 0 && !self.turns.is_placed(p);
        let last = (0..policy.order.played).find(left)?;
        self.turns.decided.push(NEVER);
        Some(last)
    }

    /// Whether everybody ahead in all queues has enough left, whenever he comes.
    fn takes_from_nobody(&self, policy: &Policy, p: usize, at: Tick) -> bool {
        policy.takes.of(p).iter().all(|take| {
            let head = self.turns.head(take.queue);
            head == take.rank
                || take.units > 1 && {
                    let ahead =
                        &policy.queues.of(take.queue as usize)[head as usize..take.rank as usize];
                    let waiting = ahead
                        .iter()
                        .filter(|who| !self.turns.is_placed(who.0 as usize));
                    let wanted: u32 = waiting.map(|(_, amount)| amount).sum();
                    wanted.saturating_add(take.amount) <= self.free_at(take, at)
                }
        })
    }

    /// Units that are free at a moment.
    pub(super) fn free_at(&self, take: &Take, at: Tick) -> u32 {
        let (first, units) = (take.first as usize, take.units as usize);
        let units = &self.units[first..first + units];
        units.partition_point(|(free, _)| *free <= at) as u32
    }

    /// Whether there is but one of whatever it takes.
    fn is_one_of_a_kind(&self, policy: &Policy, p: usize) -> bool {
        policy.takes.of(p).iter().all(|take| take.units == 1)
    }

    /// Whether nobody has taken since what an activity was found to begin with.
    fn is_still_free(&self, policy: &Policy, p: usize) -> bool {
        let start = self.turns.found[p].ends.0;
        let mut takes = policy.takes.of(p).iter();
        p < policy.order.begun
            || takes.all(|take| self.units[(take.first + take.amount - 1) as usize].0 <= start)
    }

    /// Places whose turn it is.
    pub(super) fn settle(&mut self, policy: &Policy, game: &Game, p: usize) {
        let found = self.turns.found[p];
        self.drivers[p] = found.driver;
        self.turns.turns[p] = self.turns.taken.len() as u32;
        self.turns.taken.push(p as u32);
        for take in policy.takes.of(p) {
            let first = take.first as usize;
            let units = &self.units[first..first + take.units as usize];
            self.turns.before.extend_from_slice(units);
        }
        self.put(policy, game, p, found.ends);
        for &follower in policy.followers.of(p) {
            let waits = &mut self.turns.waits[follower as usize];
            *waits -= 1;
            if *waits == 0 {
                self.look_at(policy, game, follower as usize);
            }
        }
        for take in policy.takes.of(p) {
            self.move_up(policy, take.queue);
        }
    }

    /// Whoever is first in a queue now is looked at, for he may go before his appointed time.
    fn move_up(&mut self, policy: &Policy, queue: u32) {
        let turns = &mut self.turns;
        let places = policy.queues.of(queue as usize);
        let head = &mut turns.heads[queue as usize];
        let before = *head;
        while places
            .get(*head as usize)
            .is_some_and(|&(p, _)| turns.turns[p as usize] != NONE)
        {
            *head += 1;
        }
        if *head == before {
            return;
        }
        if let Some(&(p, _)) = places.get(*head as usize)
            && turns.waits[p as usize] == 0
        {
            let start = turns.found[p as usize].ends.0;
            turns.call(p as usize, start);
        }
    }

    /// Takes back every turn from `turn` on.
    pub(super) fn go_back(&mut self, policy: &Policy, game: &Game, turn: usize) {
        while self.turns.taken.len() > turn {
            let Some(p) = self.turns.taken.pop() else {
                break;
            };
            self.turns.turns[p as usize] = NONE;
            self.turns.decided.pop();
            for take in policy.takes.of(p as usize).iter().rev() {
                let (first, units) = (take.first as usize, take.units as usize);
                let from = self.turns.before.len() - units;
                self.units[first..first + units].copy_from_slice(&self.turns.before[from..]);
                self.turns.before.truncate(from);
                let head = &mut self.turns.heads[take.queue as usize];
                *head = take.rank.min(*head);
            }
            for &follower in policy.followers.of(p as usize) {
                self.turns.waits[follower as usize] += 1;
            }
        }
        self.look_at_all(policy, game);
    }
}
