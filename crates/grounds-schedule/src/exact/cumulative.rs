//! A resource of which only so much is there: what certainly runs at a moment leaves so much less to
//! the others.
//!
//! This is time-table reasoning with explanations at one moment, as in Schutt, Feydy, Stuckey and
//! Wallace, "Explaining the cumulative propagator", Constraints 16 (2011). An activity certainly runs
//! from its latest start to its earliest finish. The explanations are made when they are asked for.

use super::atom::{Atom, high, low};
use super::trail::{Conflict, Reason, Trail};
use crate::problem::Tick;

/// One activity on a resource.
#[derive(Clone, Copy, Debug)]
pub(super) struct Task {
    pub(super) number: u32,
    pub(super) ticks: Tick,
    pub(super) amount: i64,
}

impl Task {
    /// That it runs at a moment.
    fn runs(&self, at: Tick) -> [Atom; 2] {
        let number = self.number as usize;
        [
            Atom::at_least(number, at - self.ticks + 1),
            Atom::at_most(number, at),
        ]
    }
}

/// So much is certainly used from `from` up to `until`.
#[derive(Clone, Copy, Debug)]
struct Block {
    from: Tick,
    until: Tick,
    amount: i64,
}

/// One resource.
#[derive(Clone, Debug)]
pub(super) struct Cumulative {
    resource: u32,
    capacity: i64,
    tasks: Vec<Task>,
    /// Tasks in the order of their latest starts, and of their earliest finishes, as they were last.
    by_latest: Vec<u32>,
    by_finish: Vec<u32>,
    blocks: Vec<Block>,
    /// For each task the bounds that the blocks were made with.
    seen: Vec<(Tick, Tick)>,
    moved: Vec<bool>,
    /// The most that is used in any block, if they are good.
    most: Option<i64>,
}

impl Cumulative {
    /// A resource and all that use it.
    pub(super) fn new(resource: u32, capacity: i64, tasks: Vec<Task>) -> Self {
        let order: Vec<u32> = (0..tasks.len() as u32).collect();
        Self {
            resource,
            capacity,
            by_latest: order.clone(),
            by_finish: order,
            blocks: Vec::with_capacity(2 * tasks.len()),
            seen: vec![(0, 0); tasks.len()],
            moved: vec![false; tasks.len()],
            most: None,
            tasks,
        }
    }

    /// Raises what cannot run at its earliest or latest.
    pub(super) fn propagate(&mut self, trail: &mut Trail) -> Result<usize, Conflict> {
        let anew = self.look(trail);
        let mut work = self.tasks.len();
        if anew {
            // Should it fail, the next look must not find it done.
            self.most = None;
            self.most = Some(self.stack(trail)?);
            work *= 3;
        }
        let most = self.most.unwrap_or(0);
        for t in 0..self.tasks.len() {
            let task = self.tasks[t];
            let (low, high) = self.seen[t];
            let known = !anew && !self.moved[t];
            if known || low == high || most + task.amount <= self.capacity {
                continue;
            }
            work += self.push_up(task, (low, high), trail)?;
            work += self.push_down(task, (low, high), trail)?;
        }
        Ok(work)
    }

    /// Looks which tasks have moved; whether that changes what certainly runs.
    fn look(&mut self, trail: &Trail) -> bool {
        let mut anew = self.most.is_none();
        for (t, task) in self.tasks.iter().enumerate() {
            let number = task.number as usize;
            let now = (trail.low(number), trail.high(number));
            let seen = &mut self.seen[t];
            self.moved[t] = now != *seen;
            if now != *seen {
                let certain = |(low, high): (Tick, Tick)| high < low + task.ticks;
                anew |= certain(now) || certain(*seen);
                *seen = now;
            }
        }
        anew
    }

    /// Makes the blocks; the most that is used in any.
    fn stack(&mut self, trail: &mut Trail) -> Result<i64, Conflict> {
        let (seen, tasks) = (&self.seen, &self.tasks);
        let latest = |t: u32| seen[t as usize].1;
        let finish = |t: u32| seen[t as usize].0 + tasks[t as usize].ticks;
        settle(&mut self.by_latest, latest);
        settle(&mut self.by_finish, finish);
        self.blocks.clear();
        let certain = |&t: &u32| latest(t) < finish(t);
        let mut starts = self.by_latest.iter().copied().filter(certain).peekable();
        let mut amount = 0;
        let mut most = 0;
        let mut from = 0;
        for t in self.by_finish.iter().copied().filter(certain) {
            let end = finish(t);
            while let Some(&next) = starts.peek() {
                let at = latest(next);
                if at >= end {
                    break;
                }
                starts.next();
                block(&mut self.blocks, from, at, amount);
                amount += tasks[next as usize].amount;
                most = most.max(amount);
                from = at;
            }
            block(&mut self.blocks, from, end, amount);
            amount -= tasks[t as usize].amount;
            from = end;
        }
        if most <= self.capacity {
            return Ok(most);
        }
        let full = self.blocks.iter().find(|b| b.amount > self.capacity);
        let at = full.map_or(0, |b| b.from + (b.until - b.from) / 2);
        let mut clash = std::mem::take(&mut trail.clash);
        clash.clear();
        let free = |atom: Atom| atom.least <= trail.root(atom.view);
        self.full_at(at, None, 0, u32::MAX, trail, &free, &mut clash);
        trail.clash = clash;
        Err(Conflict::Clash)
    }

    fn push_up(
        &self,
        task: Task,
        (low, high): (Tick, Tick),
        trail: &mut Trail,
    ) -> Result<usize, Conflict> {
        let finish = low + task.ticks;
        let mut start = low;
        let mut at = self.blocks.partition_point(|b| b.until <= start);
        let first = at;
        while let Some(block) = self.blocks.get(at) {
            if block.from >= start + task.ticks {
                break;
            }
            let own = block.from >= high && block.until <= finish;
            if own || block.amount + task.amount <= self.capacity {
                at += 1;
                continue;
            }
            start = block.until.min(start + task.ticks);
            let atom = Atom::at_least(task.number as usize, start);
            trail.raise(atom, self.full(start - 1))?;
            at += usize::from(start == block.until);
        }
        Ok(at - first + 1)
    }

    fn push_down(
        &self,
        task: Task,
        (low, high): (Tick, Tick),
        trail: &mut Trail,
    ) -> Result<usize, Conflict> {
        let finish = low + task.ticks;
        let mut end = high + task.ticks;
        let mut at = self.blocks.partition_point(|b| b.from < end);
        let first = at;
        while at > 0 {
            let block = self.blocks[at - 1];
            if block.until <= end - task.ticks {
                break;
            }
            let own = block.from >= high && block.until <= finish;
            if own || block.amount + task.amount <= self.capacity {
                at -= 1;
                continue;
            }
            end = block.from.max(end - task.ticks);
            let atom = Atom::at_most(task.number as usize, end - task.ticks);
            trail.raise(atom, self.full(end))?;
            at -= usize::from(end == block.from);
        }
        Ok(first - at + 1)
    }

    fn full(&self, at: Tick) -> Reason {
        Reason::Full {
            resource: self.resource,
            at,
        }
    }

    /// Why, before entry `before`, a task could not run at `at`, and so was raised to `atom`: how far it
    /// had come, and enough others that run then. Those that are `free` to use come first, then the
    /// greediest.
    pub(super) fn why(
        &self,
        atom: Atom,
        at: Tick,
        before: u32,
        trail: &Trail,
        free: &impl Fn(Atom) -> bool,
        out: &mut Vec<Atom>,
    ) {
        let number = atom.number() as u32;
        let Some(task) = self.tasks.iter().find(|task| task.number == number) else {
            return;
        };
        // A moment at which less needs to be known of the task itself, if the others fill that too.
        let (gentle, own) = if atom.is_low() {
            (atom.least - 1, 0)
        } else {
            (task.ticks - atom.least, 1)
        };
        for at in [gentle, at] {
            let begin = out.len();
            out.push(task.runs(at)[own]);
            if self.full_at(at, Some(number), task.amount, before, trail, free, out) {
                return;
            }
            out.truncate(begin);
        }
    }

    /// Adds atoms of tasks that run at a moment until they, with `amount` more, exceed the capacity;
    /// whether they do.
    #[expect(clippy::too_many_arguments)]
    fn full_at(
        &self,
        at: Tick,
        without: Option<u32>,
        amount: i64,
        before: u32,
        trail: &Trail,
        free: &impl Fn(Atom) -> bool,
        out: &mut Vec<Atom>,
    ) -> bool {
        let mut running: Vec<(bool, i64, u32)> = Vec::new();
        let mut total = amount;
        for (t, task) in self.tasks.iter().enumerate() {
            if Some(task.number) == without {
                continue;
            }
            let number = task.number as usize;
            let [a, b] = task.runs(at);
            if trail.least_before(low(number), before) < a.least
                || trail.least_before(high(number), before) < b.least
            {
                continue;
            }
            running.push((!(free(a) && free(b)), -task.amount, t as u32));
            total += task.amount;
        }
        if total <= self.capacity {
            return false;
        }
        running.sort_unstable();
        let mut total = amount;
        let mut taken = 0;
        while total <= self.capacity {
            total -= running[taken].1;
            taken += 1;
        }
        // What the last one made superfluous can go.
        let mut spare = total - self.capacity - 1;
        for &(costs, minus, t) in running[..taken].iter().rev() {
            if costs && -minus <= spare {
                spare += minus;
                continue;
            }
            out.extend(self.tasks[t as usize].runs(at));
        }
        true
    }
}

/// Adds a block, if it is one.
fn block(blocks: &mut Vec<Block>, from: Tick, until: Tick, amount: i64) {
    if amount > 0 && from < until {
        blocks.push(Block {
            from,
            until,
            amount,
        });
    }
}

/// Sorts what is nearly sorted.
fn settle(order: &mut [u32], key: impl Fn(u32) -> Tick) {
    for i in 1..order.len() {
        let moved = order[i];
        let value = key(moved);
        let mut at = i;
        while at > 0 && key(order[at - 1]) > value {
            order[at] = order[at - 1];
            at -= 1;
        }
        order[at] = moved;
    }
}
