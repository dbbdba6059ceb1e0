//! Several searches side by side that tell each other what they find.

use std::num::NonZeroUsize;
use std::sync::{Mutex, PoisonError};
use std::thread;

use super::improve::{Search, Start, Worth};
use crate::problem::{ActivityId, Problem};
use crate::solve::Faulty;

/// Activities times plans that are tried between two looks at what the others found.
const SLICE: usize = 8_000;

/// Searches in several lanes for as long as `go_on` says, which is asked every few plans from any
/// lane; gives the search of the first lane, which knows the best plan of all.
///
/// Each lane draws its own luck. A better plan of one is offered to the others at once, so what is
/// found depends on the machine.
///
/// # Errors
///
/// [`Faulty`] with everything that is wrong with the statement of the problem.
///
/// ```
/// use std::{num::NonZeroUsize, sync::atomic::{AtomicU32, Ordering}};
/// use grounds_schedule::{Search, Start, random, search_together};
///
/// let house = random::house(1, 100);
/// let start = Start::default();
/// let left = AtomicU32::new(40);
/// let go_on = || left.fetch_update(Ordering::Relaxed, Ordering::Relaxed, |n| n.checked_sub(1)).is_ok();
/// let lanes = NonZeroUsize::new(2).unwrap_or(NonZeroUsize::MIN);
/// let found = search_together(&house, &start, lanes, &go_on)?;
/// let first = Search::new(&house, &start)?;
/// assert!(found.best().cost.total() <= first.best().cost.total());
/// # Ok::<(), grounds_schedule::Faulty>(())
/// ```
pub fn search_together<'a>(
    problem: &'a Problem,
    start: &Start,
    lanes: NonZeroUsize,
    go_on: &(dyn Fn() -> bool + Sync),
) -> Result<Search<'a>, Faulty> {
    let mut first = Search::new(problem, start)?;
    let slice = u32::try_from(SLICE / problem.activities.len().max(1)).unwrap_or(u32::MAX);
    let table = Table {
        slice: slice.max(1),
        go_on,
        best: Mutex::new(None),
    };
    thread::scope(|scope| {
        for lane in 1..lanes.get() {
            let table = &table;
            scope.spawn(move || {
                let other = Start {
                    seed: start.seed.wrapping_add(lane as u64),
                    ..start.clone()
                };
                if let Ok(mut search) = Search::new(problem, &other) {
                    table.seek(&mut search);
                }
            });
        }
        table.seek(&mut first);
    });
    table.exchange(&mut first);
    Ok(first)
}

/// What the lanes know together.
struct Table<'a> {
    slice: u32,
    go_on: &'a (dyn Fn() -> bool + Sync),
    best: Mutex<Option<(Worth, Vec<ActivityId>)>>,
}

impl Table<'_> {
    fn seek(&self, search: &mut Search) {
        while (self.go_on)() {
            search.run(self.slice);
            self.exchange(search);
        }
    }

    /// Tells the others of a better plan, or hears of one.
    fn exchange(&self, search: &mut Search) {
        let mine = search.worth();
        let mut heard = None;
        {
            let mut best = self.best.lock().unwrap_or_else(PoisonError::into_inner);
            match best.as_ref() {
                Some((worth, order)) if *worth < mine => heard = Some(order.clone()),
                Some((worth, _)) if *worth == mine => {}
                _ => *best = Some((mine, search.best().order.clone())),
            }
        }
        if let Some(order) = heard {
            search.offer(&order);
        }
    }
}
