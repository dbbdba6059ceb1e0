//! What is free of every resource at every tick, packed so that one subtraction asks for all of them.
//!
//! Four resources share a word of 64 bits, with 15 bits of amount and a guard bit each. If a demand is
//! subtracted and a guard is gone, there was too little of that resource.

/// Resources in one word.
pub const LANES: usize = 4;

/// The most of a resource that can be counted.
pub const MOST: u32 = (1 << 15) - 1;

const BITS: usize = 16;
const GUARDS: u64 = 0x8000_8000_8000_8000;

/// Amounts of up to `4 × W` resources.
pub type Amounts<const W: usize> = [u64; W];

/// Packs one amount a resource; amounts beyond [`MOST`] count as that.
#[must_use]
pub fn packed<const W: usize>(amounts: &[u32]) -> Amounts<W> {
    let mut words = [0; W];
    for (k, &amount) in amounts.iter().enumerate().take(W * LANES) {
        words[k / LANES] |= u64::from(amount.min(MOST)) << (BITS * (k % LANES));
    }
    words
}

/// What is free at each tick from 0 on.
#[derive(Clone, Debug)]
pub struct Profile<const W: usize> {
    full: Amounts<W>,
    free: Vec<Amounts<W>>,
    /// Nothing was taken at or after this.
    used: usize,
}

impl<const W: usize> Profile<W> {
    /// Everything free for `ticks`.
    #[must_use]
    pub fn new(capacities: &[u32], ticks: usize) -> Self {
        let full = packed::<W>(capacities).map(|word| word | GUARDS);
        Self {
            full,
            free: vec![full; ticks],
            used: 0,
        }
    }

    /// Everything free again.
    #[inline]
    pub fn clear(&mut self) {
        self.free[..self.used].fill(self.full);
        self.used = 0;
    }

    /// The first moment at or after `from` when the amounts are free for so long. The caller sees to
    /// it that there is one.
    ///
    /// A window is looked at from its end: where it falls short, no window can begin at or before.
    #[inline]
    #[must_use]
    pub fn earliest(&self, from: usize, duration: usize, amounts: &Amounts<W>) -> usize {
        let (mut start, mut unseen) = (from, from);
        loop {
            let end = start + duration;
            let window = &self.free[unseen..end];
            let Some(short) = window.iter().rposition(|free| lacks(free, amounts)) else {
                return start;
            };
            start = unseen + short + 1;
            unseen = end;
        }
    }

    /// Takes the amounts out.
    #[inline]
    pub fn take(&mut self, start: usize, duration: usize, amounts: &Amounts<W>) {
        self.used = self.used.max(start + duration);
        for free in &mut self.free[start..start + duration] {
            for (free, amount) in free.iter_mut().zip(amounts) {
                *free -= amount;
            }
        }
    }
}

#[inline]
fn lacks<const W: usize>(free: &Amounts<W>, amounts: &Amounts<W>) -> bool {
    let mut guards = GUARDS;
    for (free, amount) in free.iter().zip(amounts) {
        guards &= free.wrapping_sub(*amount);
    }
    guards & GUARDS != GUARDS
}

#[cfg(test)]
mod tests {
    use super::{Profile, packed};

    #[test]
    fn two_crews_of_three_leave_one_until_the_first_is_done() {
        let mut profile = Profile::<2>::new(&[3, 1, 5, 2, 7], 20);
        profile.take(0, 4, &packed(&[1, 0, 0, 0, 3]));
        profile.take(2, 6, &packed(&[1, 0, 0, 0, 4]));
        assert_eq!(profile.earliest(0, 2, &packed(&[2])), 0);
        assert_eq!(profile.earliest(0, 3, &packed(&[2])), 4);
        assert_eq!(profile.earliest(0, 1, &packed(&[3])), 8);
        // Both take all there is of the fifth resource for a while.
        assert_eq!(profile.earliest(1, 2, &packed(&[0, 0, 0, 0, 1])), 4);
        profile.clear();
        assert_eq!(profile.earliest(0, 9, &packed(&[3, 1, 5, 2, 7])), 0);
    }
}
