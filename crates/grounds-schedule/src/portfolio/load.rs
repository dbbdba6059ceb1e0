//! What the load of each resource takes, whatever the order.

use crate::plain::Core;
use crate::problem::Tick;

/// A time before which no plan ends: chains of waits alone, or for some resource work that cannot begin
/// before some moment, its load, and what must follow the last of it. `None` if the waits leave no plan.
///
/// For a resource of which there is one this is the bound of one machine with heads and tails (Carlier
/// 1982); for more of it, the same with work that may be spread over all of it.
pub(super) fn least(core: &Core) -> Option<Tick> {
    let heads = heads(core)?;
    let tails = tails(core)?;
    let chain = |i: usize| heads[i] + core.durations[i] + tails[i];
    let chains = (0..core.count()).map(chain).max().unwrap_or(0);
    let loads = (0..core.resources()).map(|resource| load(core, resource, &heads, &tails));
    Some(loads.max().unwrap_or(0).max(chains))
}

/// The load of one resource among work that starts late and is followed by much.
fn load(core: &Core, resource: usize, heads: &[Tick], tails: &[Tick]) -> Tick {
    let energy = |i: usize| i64::from(core.durations[i]) * i64::from(core.demand(i)[resource]);
    let mut late_first: Vec<usize> = (0..core.count()).filter(|&i| energy(i) > 0).collect();
    late_first.sort_by_key(|&i| (-heads[i], i));
    let mut lasts: Vec<Tick> = late_first.iter().map(|&i| tails[i]).collect();
    lasts.sort_unstable();
    lasts.dedup();
    let capacity = i64::from(core.capacities[resource].max(1));
    let mut most = 0;
    for tail in lasts {
        let mut sum = 0;
        for &i in late_first.iter().filter(|&&i| tails[i] >= tail) {
            sum += energy(i);
            let takes = sum.unsigned_abs().div_ceil(capacity.unsigned_abs());
            let takes = Tick::try_from(takes).unwrap_or(Tick::MAX);
            most = most.max(heads[i].saturating_add(takes).saturating_add(tail));
        }
    }
    most
}

/// The earliest starts by waits alone; `None` if they never end.
fn heads(core: &Core) -> Option<Vec<Tick>> {
    let mut heads = core.earliest.clone();
    settle(core, || {
        let mut moved = false;
        for wait in &core.waits {
            let start = heads[wait.from as usize] + wait.ticks;
            moved |= raise(&mut heads[wait.to as usize], start);
        }
        moved
    })?;
    Some(heads)
}

/// From each finish, the least time to the end of all; `None` if it never ends.
fn tails(core: &Core) -> Option<Vec<Tick>> {
    let mut tails = vec![0; core.count()];
    settle(core, || {
        let mut moved = false;
        for wait in core.waits.iter().rev() {
            let (from, to) = (wait.from as usize, wait.to as usize);
            let after = wait.ticks + core.durations[to] + tails[to] - core.durations[from];
            moved |= raise(&mut tails[from], after);
        }
        moved
    })?;
    Some(tails)
}

fn raise(value: &mut Tick, least: Tick) -> bool {
    let higher = least > *value;
    *value = least.max(*value);
    higher
}

/// Goes through all waits until nothing moves. What still moves after as many rounds as there are
/// activities goes round a circle (Bellman 1958, Ford 1956).
fn settle(core: &Core, mut round: impl FnMut() -> bool) -> Option<()> {
    (0..=core.count()).any(|_| !round()).then_some(())
}

#[cfg(test)]
mod tests {
    use super::least;
    use crate::plain::{Core, Wait};

    fn work(durations: &[i32], demands: &[u32], capacity: u32, waits: &[(u32, u32, i32)]) -> Core {
        let wait = |&(from, to, ticks): &(u32, u32, i32)| Wait { from, to, ticks };
        Core {
            durations: durations.to_vec(),
            waits: waits.iter().map(wait).collect(),
            demands: demands.to_vec(),
            capacities: vec![capacity],
            earliest: vec![0; durations.len()],
            latest: vec![1000; durations.len()],
        }
    }

    #[test]
    fn one_crew_takes_the_sum_after_the_first_head_and_before_the_last_tail() {
        // Jobs of 3, 4 and 5 for one crew, all after one of 2 and before one of 6 that need nobody.
        let waits: Vec<_> = (1..4)
            .flat_map(|i| [(0, i, 2), (i, 4, [3, 4, 5][i as usize - 1])])
            .collect();
        let core = work(&[2, 3, 4, 5, 6], &[0, 1, 1, 1, 0], 1, &waits);
        assert_eq!(least(&core), Some(2 + 12 + 6));
        // Two crews share it: 12 takes 6.
        let core = work(&[2, 3, 4, 5, 6], &[0, 1, 1, 1, 0], 2, &waits);
        assert_eq!(least(&core), Some(2 + 6 + 6));
    }

    #[test]
    fn waits_in_a_circle_leave_no_plan() {
        let core = work(&[1, 1], &[0, 0], 1, &[(0, 1, 3), (1, 0, -2)]);
        assert_eq!(least(&core), None);
        let core = work(&[1, 1], &[0, 0], 1, &[(0, 1, 3), (1, 0, -3)]);
        assert_eq!(least(&core), Some(4));
    }
}
