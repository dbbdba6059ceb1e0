//! Pairs that cannot run together: one or the other comes first.
//!
//! Each has a number of its own, 1 if the first activity of the pair comes first and 0 if the second
//! does, so that an order of two can be chosen, learnt and used as a reason. (Half-reified precedence;
//! used for projects with longest waits by Schutt, Feydy, Stuckey and Wallace, "Solving RCPSP/max by
//! lazy clause generation", Journal of Scheduling 16 (2013).)

use super::atom::{Atom, high, low};
use super::trail::{Conflict, Entry, Reason, Trail};
use crate::problem::Tick;

/// "If `when` holds, then `to` is at least `ticks` more than `from`."
#[derive(Clone, Copy, Debug)]
pub(super) struct Half {
    when: Atom,
    from: u32,
    to: u32,
    ticks: Tick,
}

#[derive(Clone, Copy, Debug)]
struct Link {
    half: u32,
    when: Atom,
    to: u32,
    ticks: Tick,
}

/// All pairs.
#[derive(Clone, Debug, Default)]
pub(super) struct Pairs {
    halves: Vec<Half>,
    /// By the view that they are counted from.
    links: Vec<Vec<Link>>,
    /// The numbers from this on are pairs.
    first: usize,
}

impl Pairs {
    /// No pairs yet; numbers from `first` on will be pairs.
    pub(super) fn new(first: usize) -> Self {
        Self {
            halves: Vec::new(),
            links: vec![Vec::new(); 2 * first],
            first,
        }
    }

    /// Adds the next pair: its number, and both activities with how long each takes.
    pub(super) fn add(&mut self, number: usize, a: (usize, Tick), b: (usize, Tick)) {
        self.order(Atom::at_least(number, 1), a.0, b.0, a.1);
        self.order(Atom::at_most(number, 0), b.0, a.0, b.1);
    }

    fn order(&mut self, when: Atom, first: usize, then: usize, ticks: Tick) {
        for (from, to) in [(low(first), low(then)), (high(then), high(first))] {
            let half = self.halves.len() as u32;
            self.halves.push(Half {
                when,
                from,
                to,
                ticks,
            });
            self.links[from as usize].push(Link {
                half,
                when,
                to,
                ticks,
            });
        }
    }

    /// Draws the conclusions from a view that was raised.
    pub(super) fn follow(&self, entry: &Entry, trail: &mut Trail) -> Result<usize, Conflict> {
        let number = entry.view as usize / 2;
        if number >= self.first {
            return self.decided(number, entry.view % 2 == 1, trail);
        }
        let links = &self.links[entry.view as usize];
        for link in links {
            let atom = Atom {
                view: link.to,
                least: entry.value + link.ticks,
            };
            if trail.holds(link.when) {
                trail.raise(atom, Reason::Pair(link.half))?;
            } else if trail.fails(atom) {
                trail.raise(link.when.not(), Reason::Unordered(link.half))?;
            }
        }
        Ok(links.len())
    }

    /// Both sides of the order that a pair has got.
    fn decided(&self, number: usize, second: bool, trail: &mut Trail) -> Result<usize, Conflict> {
        let half = 4 * (number - self.first) + 2 * usize::from(second);
        for half in half..half + 2 {
            let Half {
                from, to, ticks, ..
            } = self.halves[half];
            let atom = Atom {
                view: to,
                least: trail.least(from) + ticks,
            };
            trail.raise(atom, Reason::Pair(half as u32))?;
        }
        Ok(2)
    }

    /// Why a side of a decided pair has raised a view to `least`.
    pub(super) fn why_raised(&self, half: u32, least: Tick) -> [Atom; 2] {
        let half = &self.halves[half as usize];
        let from = Atom {
            view: half.from,
            least: least - half.ticks,
        };
        [half.when, from]
    }

    /// Why a pair could not be in this order before entry `at`: how early the one and how late the
    /// other is, each no more than is needed, so that it is as far down the trail as may be.
    pub(super) fn why_unordered(&self, half: u32, at: u32, trail: &Trail) -> [Atom; 2] {
        let half = &self.halves[half as usize];
        let (a, b) = (half.from, half.to ^ 1);
        let (low, high) = (trail.least_before(a, at), trail.least_before(b, at));
        let slack = low + high + half.ticks - 1;
        let atoms = |of_a: Tick| {
            [
                Atom {
                    view: a,
                    least: low - of_a,
                },
                Atom {
                    view: b,
                    least: high - (slack - of_a),
                },
            ]
        };
        let height = |atoms: [Atom; 2]| atoms.map(|atom| depth(atom, trail)).into_iter().max();
        let (first, second) = (atoms(slack), atoms(0));
        if height(first) <= height(second) {
            first
        } else {
            second
        }
    }
}

/// How far up the trail an atom became true; 0 for what holds always.
fn depth(atom: Atom, trail: &Trail) -> u32 {
    if atom.least <= trail.root(atom.view) {
        0
    } else {
        trail.place(atom) + 1
    }
}
