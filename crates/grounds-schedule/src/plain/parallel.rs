//! Schedules that go through time: at each moment whatever is ready and fits is begun, in the order of
//! a list (parallel schedule generation: Kelley 1963, Kolisch 1996; from memory).
//!
//! Such schedules leave nothing idle that could work, which is most often good where much is short, and
//! sometimes misses the best. So they are where a search may begin, not what it is made of.

use super::profile::Profile;
use super::serial::Direction;
use crate::problem::Tick;

const NOT_YET: Tick = Tick::MIN;

/// Begins everything as soon as it is ready and fits; of several, the first in the list, in which each
/// comes after all that it waits for. Whether all could begin by `last`. `waiting` is only space to
/// work in.
pub fn begin_what_fits<const W: usize>(
    direction: &Direction<W>,
    list: &[u32],
    profile: &mut Profile<W>,
    starts: &mut [Tick],
    (waiting, last): (&mut Vec<u32>, Tick),
) -> bool {
    starts.fill(NOT_YET);
    waiting.clear();
    waiting.extend_from_slice(list);
    let mut now = 0;
    while !waiting.is_empty() && now <= last {
        let mut next = Tick::MAX;
        waiting.retain(|&activity| {
            let i = activity as usize;
            let Some(ready) = direction.ready(i, starts) else {
                return true;
            };
            if ready > now {
                next = next.min(ready);
                return true;
            }
            let begins = profile.begin(now as usize, direction.duration(i), direction.amounts(i));
            if begins {
                starts[i] = now;
            }
            !begins
        });
        // Only what ends makes room for more.
        let ends = (0..starts.len())
            .filter(|&i| starts[i] != NOT_YET)
            .map(|i| starts[i] + direction.duration(i) as Tick);
        now = ends.filter(|&end| end > now).fold(next, Tick::min);
    }
    waiting.is_empty()
}
