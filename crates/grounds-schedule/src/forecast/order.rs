//! The order in which a run goes through the work, and what is certain about it in every run.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use crate::plan::Plan;
use crate::problem::{End, Fact, Lag, Problem};

/// Positions of activities: begun work first, then open work as the plan starts it, then what is
/// done.
#[derive(Clone, Debug)]
pub(super) struct Order {
    /// Activities by position.
    pub(super) ids: Vec<usize>,
    /// Positions by activity.
    pub(super) position: Vec<usize>,
    /// How many are begun.
    pub(super) begun: usize,
    /// How many are begun or open.
    pub(super) played: usize,
}

impl Order {
    pub(super) fn of(problem: &Problem, plan: &Plan) -> Self {
        let count = problem.activities.len();
        let with = |wanted: fn(&Fact) -> bool| {
            (0..count).filter(move |&i| wanted(&problem.activities[i].fact))
        };
        let mut ids: Vec<usize> = with(|fact| matches!(fact, Fact::Begun { .. })).collect();
        let begun = ids.len();
        ids.extend(by_start(problem, plan));
        let played = ids.len();
        ids.extend(with(|fact| matches!(fact, Fact::Done { .. })));
        let mut position = vec![0; count];
        for (p, &i) in ids.iter().enumerate() {
            position[i] = p;
        }
        Self {
            ids,
            position,
            begun,
            played,
        }
    }
}

/// Open activities by start in the plan; of those that start together, what others wait for first.
fn by_start(problem: &Problem, plan: &Plan) -> Vec<usize> {
    let count = problem.activities.len();
    let open = |i: usize| problem.activities[i].fact == Fact::Open;
    let together = |lag: &Lag| {
        let (from, to) = (lag.from.index(), lag.to.index());
        let same = plan.starts[from] == plan.starts[to];
        (from != to && same && open(from) && open(to) && lag.min.is_some()).then_some((from, to))
    };
    let mut needs = vec![0u32; count];
    let mut out = vec![Vec::new(); count];
    for (from, to) in problem.lags.iter().filter_map(together) {
        needs[to] += 1;
        out[from].push(to);
    }
    let mut starts: Vec<usize> = (0..count).filter(|&i| open(i)).collect();
    starts.sort_by_key(|&i| (plan.starts[i], plan.finishes[i], i));
    let mut placed = vec![false; count];
    let mut ordered = Vec::with_capacity(starts.len());
    let mut ready = BinaryHeap::new();
    let mut rest = starts.as_slice();
    while let Some(&first) = rest.first() {
        let at = plan.starts[first];
        let many = rest.partition_point(|&i| plan.starts[i] == at);
        let (group, later) = rest.split_at(many);
        rest = later;
        let key = |i: usize| Reverse((plan.finishes[i], i));
        ready.extend(group.iter().filter(|&&i| needs[i] == 0).map(|&i| key(i)));
        for &i in group {
            // A circle of waits among those that start together is entered at its first member.
            if ready.is_empty() && !placed[i] {
                ready.push(key(i));
            }
            while let Some(Reverse((_, next))) = ready.pop() {
                if std::mem::replace(&mut placed[next], true) {
                    continue;
                }
                ordered.push(next);
                for &to in &out[next] {
                    needs[to] = needs[to].saturating_sub(1);
                    if needs[to] == 0 {
                        ready.push(key(to));
                    }
                }
            }
        }
    }
    ordered
}

/// Rows of bits.
#[derive(Clone, Debug)]
struct Bits {
    words: usize,
    bits: Vec<u64>,
}

impl Bits {
    fn new(rows: usize, columns: usize) -> Self {
        let words = columns.div_ceil(64);
        Self {
            words,
            bits: vec![0; rows * words],
        }
    }

    fn has(&self, row: usize, column: usize) -> bool {
        self.bits[row * self.words + column / 64] >> (column % 64) & 1 == 1
    }

    fn set(&mut self, row: usize, column: usize) {
        self.bits[row * self.words + column / 64] |= 1 << (column % 64);
    }

    /// Adds all of row `from` to row `to`.
    fn join(&mut self, to: usize, from: usize) {
        for w in 0..self.words {
            let more = self.bits[from * self.words + w];
            self.bits[to * self.words + w] |= more;
        }
    }
}

/// What holds in every run, by position: who surely starts after whom, after whose leaving, and
/// after the end of which span. Filled from the first position on.
pub(super) struct Certain {
    after_start: Bits,
    after_leaving: Bits,
    after_span: Bits,
}

impl Certain {
    pub(super) fn new(positions: usize, spans: usize) -> Self {
        Self {
            after_start: Bits::new(positions, positions),
            after_leaving: Bits::new(positions, positions),
            after_span: Bits::new(positions, spans),
        }
    }

    /// `later` surely starts no earlier than `earlier` does.
    pub(super) fn starts_after(&mut self, later: usize, earlier: usize) {
        self.after_start.set(later, earlier);
        self.after_start.join(later, earlier);
        self.after_leaving.join(later, earlier);
        self.after_span.join(later, earlier);
    }

    /// `later` surely starts no earlier than `earlier` leaves.
    pub(super) fn follows(&mut self, later: usize, earlier: usize) {
        self.starts_after(later, earlier);
        self.after_leaving.set(later, earlier);
    }

    /// `later` surely starts no earlier than a span ends.
    pub(super) fn follows_span(&mut self, later: usize, span: usize) {
        self.after_span.set(later, span);
    }

    pub(super) fn does_follow(&self, later: usize, earlier: usize) -> bool {
        self.after_leaving.has(later, earlier)
    }

    pub(super) fn does_follow_span(&self, later: usize, span: usize) -> bool {
        self.after_span.has(later, span)
    }

    /// Takes over the certainties that an end-to-start lag brings.
    pub(super) fn learn(&mut self, lag: &Lag, positions: (usize, usize), has_work: bool) {
        if lag.min.is_none_or(|min| min < 0) || lag.to_end == End::Finish {
            return;
        }
        let (from, to) = positions;
        if lag.from_end == End::Finish && has_work {
            self.follows(to, from);
        } else {
            self.starts_after(to, from);
        }
    }
}
