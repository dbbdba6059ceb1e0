//! What follows so far, in the order in which it was found, each with the reason.

use super::atom::Atom;
use crate::problem::Tick;

/// Nothing: the value of a view that has no entry above the root.
pub(super) const NONE: u32 = u32::MAX;

/// Why a view is at least what it is. Small, and spelt out only when asked for.
#[derive(Clone, Copy, Debug)]
pub(super) enum Reason {
    /// A choice of the search, or something that holds always.
    Choice,
    /// Another view is at least so much less.
    Wait {
        /// The other view.
        from: u32,
        /// So much.
        ticks: Tick,
    },
    /// One side of a decided pair.
    Pair(u32),
    /// A pair could not be in this order.
    Unordered(u32),
    /// All other parts of a nogood hold.
    Nogood(u32),
    /// A resource is used up at a moment.
    Full {
        /// The resource.
        resource: u32,
        /// The moment.
        at: Tick,
    },
}

/// Something that cannot be.
#[derive(Clone, Copy, Debug)]
pub(super) enum Conflict {
    /// This would follow, but the other view of the number does not allow it.
    Empty(Atom, Reason),
    /// Atoms that cannot hold together were written to [`Trail::clash`].
    Clash,
}

/// A step of a view.
#[derive(Clone, Copy, Debug)]
pub(super) struct Entry {
    pub(super) view: u32,
    pub(super) value: Tick,
    pub(super) before: Tick,
    /// The entry of the same view before this.
    pub(super) last: u32,
    pub(super) level: u32,
    pub(super) reason: Reason,
}

/// Least values of all views, with their history.
#[derive(Clone, Debug, Default)]
pub(super) struct Trail {
    bounds: Vec<Tick>,
    roots: Vec<Tick>,
    latest: Vec<u32>,
    entries: Vec<Entry>,
    levels: Vec<u32>,
    read: usize,
    /// The atoms of [`Conflict::Clash`].
    pub(super) clash: Vec<Atom>,
}

impl Trail {
    /// Adds a number from `least` to `most`, and returns it.
    pub(super) fn number(&mut self, least: Tick, most: Tick) -> usize {
        for value in [least, -most] {
            self.bounds.push(value);
            self.roots.push(value);
            self.latest.push(NONE);
        }
        self.bounds.len() / 2 - 1
    }

    /// How many numbers there are.
    pub(super) fn count(&self) -> usize {
        self.bounds.len() / 2
    }

    /// The least value of a view.
    pub(super) fn least(&self, view: u32) -> Tick {
        self.bounds[view as usize]
    }

    /// The least value of a number.
    pub(super) fn low(&self, number: usize) -> Tick {
        self.bounds[2 * number]
    }

    /// The greatest value of a number.
    pub(super) fn high(&self, number: usize) -> Tick {
        -self.bounds[2 * number + 1]
    }

    /// What a view is at least, whatever is chosen.
    pub(super) fn root(&self, view: u32) -> Tick {
        self.roots[view as usize]
    }

    /// Whether an atom holds.
    pub(super) fn holds(&self, atom: Atom) -> bool {
        self.least(atom.view) >= atom.least
    }

    /// Whether an atom cannot hold.
    pub(super) fn fails(&self, atom: Atom) -> bool {
        atom.least + self.least(atom.view ^ 1) > 0
    }

    /// How many choices are open.
    pub(super) fn level(&self) -> usize {
        self.levels.len()
    }

    /// How many entries there are.
    pub(super) fn len(&self) -> usize {
        self.entries.len()
    }

    /// Where the present level begins.
    pub(super) fn floor(&self) -> u32 {
        self.levels.last().copied().unwrap_or(0)
    }

    /// One entry.
    pub(super) fn entry(&self, at: u32) -> &Entry {
        &self.entries[at as usize]
    }

    /// The next entry that nobody has drawn conclusions from yet.
    pub(super) fn unread(&mut self) -> Option<Entry> {
        let entry = self.entries.get(self.read).copied();
        self.read += usize::from(entry.is_some());
        entry
    }

    /// Raises a view, if that is news.
    pub(super) fn raise(&mut self, atom: Atom, reason: Reason) -> Result<bool, Conflict> {
        let before = self.least(atom.view);
        if atom.least <= before {
            return Ok(false);
        }
        if self.fails(atom) {
            return Err(Conflict::Empty(atom, reason));
        }
        let view = atom.view as usize;
        let at = self.entries.len() as u32;
        self.entries.push(Entry {
            view: atom.view,
            value: atom.least,
            before,
            last: self.latest[view],
            level: self.levels.len() as u32,
            reason,
        });
        self.latest[view] = at;
        self.bounds[view] = atom.least;
        Ok(true)
    }

    /// Begins a level; what is chosen must be raised next.
    pub(super) fn open(&mut self) {
        self.levels.push(self.entries.len() as u32);
    }

    /// Takes back the last entry.
    pub(super) fn pop(&mut self) -> Option<Entry> {
        let entry = self.entries.pop()?;
        let view = entry.view as usize;
        self.latest[view] = entry.last;
        self.bounds[view] = entry.before;
        Some(entry)
    }

    /// Closes all levels above `level`, whose entries must have been taken back.
    pub(super) fn close(&mut self, level: usize) {
        self.levels.truncate(level);
        self.read = self.read.min(self.entries.len());
    }

    /// Where a level begins: the entries of all levels below it are before that.
    pub(super) fn begin_of(&self, level: usize) -> usize {
        let begin = self.levels.get(level).copied();
        begin.map_or(self.entries.len(), |begin| begin as usize)
    }

    /// Makes what holds now, with no choice open, hold always.
    pub(super) fn settle(&mut self) {
        for entry in self.entries.drain(..) {
            let view = entry.view as usize;
            self.roots[view] = self.bounds[view];
            self.latest[view] = NONE;
        }
        self.read = 0;
    }

    /// The entry that first made an atom hold, which must hold and not hold always.
    pub(super) fn place(&self, atom: Atom) -> u32 {
        let mut at = self.latest[atom.view as usize];
        while self.entries[at as usize].before >= atom.least {
            at = self.entries[at as usize].last;
        }
        at
    }

    /// What a view was at least before an entry.
    pub(super) fn least_before(&self, view: u32, at: u32) -> Tick {
        let mut entry = self.latest[view as usize];
        if entry == NONE || entry < at {
            return self.bounds[view as usize];
        }
        loop {
            let found = &self.entries[entry as usize];
            if found.last == NONE || found.last < at {
                return found.before;
            }
            entry = found.last;
        }
    }
}
