//! A problem in its own steps of time, without resources that can never be short.

use super::core::{Core, Wait};
use super::profile::MOST;
use crate::problem::Tick;

/// A problem that is the same as another but smaller. Any of its plans is good for the other; where
/// amounts are so large that they must be counted in coarser parts, the other may have more.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Condensed {
    /// The problem, from 0 on and in steps.
    pub core: Core,
    /// The tick at which its time 0 is.
    origin: Tick,
    /// Ticks in one of its steps.
    step: Tick,
}

impl Condensed {
    /// Counts time from the first moment at which anything may start, in the largest steps that all
    /// lengths are multiples of, and leaves out resources of which there is enough for everybody at
    /// once. Amounts beyond [`MOST`] are counted in parts: what is there rounded down, what is used up.
    #[must_use]
    pub fn of(core: &Core) -> Self {
        let origin = core.earliest.iter().min().copied().unwrap_or(0);
        let from_origin = core.earliest.iter().map(|start| start - origin);
        let step = (core.durations.iter().copied())
            .chain(core.waits.iter().map(|wait| wait.ticks))
            .chain(from_origin.clone())
            .fold(0, common_divisor)
            .max(1);
        let scarce: Vec<usize> = (0..core.resources())
            .filter(|&resource| is_scarce(core, resource))
            .collect();
        let part = |k: usize| core.capacities[k].div_ceil(MOST).max(1);
        let capacity = |k: usize| core.capacities[k] / part(k);
        let demand = |i: usize| {
            let amount = move |&k: &usize| match core.demand(i)[k] {
                some if some <= core.capacities[k] => some.div_ceil(part(k)).min(capacity(k)),
                too_much => too_much,
            };
            scarce.iter().map(amount).collect::<Vec<_>>()
        };
        let wait = |wait: &Wait| Wait {
            ticks: wait.ticks / step,
            ..*wait
        };
        let small = Core {
            durations: core.durations.iter().map(|work| work / step).collect(),
            waits: core.waits.iter().map(wait).collect(),
            demands: (0..core.count()).flat_map(demand).collect(),
            capacities: scarce.iter().map(|&k| capacity(k)).collect(),
            earliest: from_origin.map(|start| start / step).collect(),
            latest: (core.latest.iter())
                .map(|start| (start - origin).div_euclid(step))
                .collect(),
        };
        Self {
            core: small,
            origin,
            step,
        }
    }

    /// A moment of the smaller problem in ticks of the other.
    #[must_use]
    pub fn ticks(&self, moment: Tick) -> Tick {
        self.origin + self.step * moment
    }

    /// The first moment of the smaller problem that is at or after a tick of the other.
    #[must_use]
    pub fn moment(&self, tick: Tick) -> Tick {
        let past = tick.saturating_sub(self.origin);
        past.div_euclid(self.step) + Tick::from(past.rem_euclid(self.step) > 0)
    }
}

/// Whether all who use a resource could ever ask for more than there is.
fn is_scarce(core: &Core, resource: usize) -> bool {
    let all: u64 = (0..core.count())
        .map(|i| u64::from(core.demand(i)[resource]))
        .sum();
    all > u64::from(core.capacities[resource])
}

/// Euclid's greatest common divisor.
fn common_divisor(a: Tick, b: Tick) -> Tick {
    let (mut a, mut b) = (a.abs(), b.abs());
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

#[cfg(test)]
mod tests {
    use super::Condensed;
    use crate::plain::{Core, Wait};

    #[test]
    fn time_is_counted_in_half_days_from_the_first_start() {
        let core = Core {
            durations: vec![16, 32],
            waits: vec![Wait {
                from: 0,
                to: 1,
                ticks: 48,
            }],
            demands: vec![1, 0, 1, 1],
            capacities: vec![1, 3],
            earliest: vec![100, 132],
            latest: vec![500, 490],
        };
        let small = Condensed::of(&core);
        assert_eq!(small.core.durations, [1, 2]);
        assert_eq!(small.core.waits[0].ticks, 3);
        assert_eq!(small.core.earliest, [0, 2]);
        assert_eq!(small.core.latest, [25, 24]);
        // There is enough of the second resource for both at once.
        assert_eq!(small.core.capacities, [1]);
        assert_eq!(small.core.demands, [1, 1]);
        assert_eq!((small.ticks(3), small.moment(148)), (148, 3));
        assert_eq!(small.moment(149), 4);
    }
}
