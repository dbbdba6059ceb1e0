//! Work on several cores whose answer does not depend on them.

use std::sync::atomic::{AtomicUsize, Ordering};

/// Does work on as many threads as there are cores; the results come in the order of the items.
pub(crate) fn side_by_side<T: Sync, R: Send>(items: &[T], work: impl Fn(&T) -> R + Sync) -> Vec<R> {
    let cores = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    let next = AtomicUsize::new(0);
    let run = || {
        let mut made: Vec<(usize, R)> = Vec::new();
        loop {
            let at = next.fetch_add(1, Ordering::Relaxed);
            let Some(item) = items.get(at) else {
                return made;
            };
            made.push((at, work(item)));
        }
    };
    let mut all: Vec<(usize, R)> = std::thread::scope(|scope| {
        let others: Vec<_> = (1..cores.min(items.len()))
            .map(|_| scope.spawn(run))
            .collect();
        let mut all = run();
        for other in others {
            match other.join() {
                Ok(made) => all.extend(made),
                Err(panic) => std::panic::resume_unwind(panic),
            }
        }
        all
    });
    all.sort_by_key(|(at, _)| *at);
    all.into_iter().map(|(_, made)| made).collect()
}
