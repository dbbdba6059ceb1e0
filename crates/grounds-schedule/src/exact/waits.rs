//! Waits: a start follows another by at least so much.

use super::atom::{Atom, high, low};
use super::trail::{Conflict, Entry, Reason, Trail};
use crate::problem::Tick;

/// All waits, by the view that they are counted from.
#[derive(Clone, Debug, Default)]
pub(super) struct Waits {
    from: Vec<Vec<(u32, Tick)>>,
}

impl Waits {
    /// Number `to` is at least `ticks` more than number `from`.
    pub(super) fn add(&mut self, from: usize, to: usize, ticks: Tick) {
        self.add_view(low(from), low(to), ticks);
        self.add_view(high(to), high(from), ticks);
    }

    fn add_view(&mut self, from: u32, to: u32, ticks: Tick) {
        let views = 1 + from.max(to) as usize;
        if self.from.len() < views {
            self.from.resize(views, Vec::new());
        }
        self.from[from as usize].push((to, ticks));
    }

    /// Raises what waits for a view that was raised.
    pub(super) fn follow(&self, entry: &Entry, trail: &mut Trail) -> Result<usize, Conflict> {
        let Some(waits) = self.from.get(entry.view as usize) else {
            return Ok(0);
        };
        for &(view, ticks) in waits {
            let atom = Atom {
                view,
                least: entry.value + ticks,
            };
            let from = entry.view;
            trail.raise(atom, Reason::Wait { from, ticks })?;
        }
        Ok(waits.len())
    }
}
