//! A small, fast, repeatable source of chance: splitmix64 (Steele, Lea and Flood 2014).

/// Numbers that follow from a seed.
#[derive(Clone, Debug)]
pub struct Chance(u64);

impl Chance {
    /// The same seed always gives the same numbers.
    #[must_use]
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next number, any of 2⁶⁴.
    pub fn number(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A number from 0 up to, not including, `count`; 0 if `count` is 0.
    pub fn below(&mut self, count: usize) -> usize {
        let wide = u128::from(self.number()) * count as u128;
        usize::try_from(wide >> 64).unwrap_or(0)
    }

    /// A number from `low` to `high`, both included.
    pub fn between(&mut self, low: i32, high: i32) -> i32 {
        let span = usize::try_from(i64::from(high) - i64::from(low) + 1).unwrap_or(0);
        let step = i32::try_from(self.below(span)).unwrap_or(0);
        low.saturating_add(step)
    }

    /// True about `percent` times in a hundred.
    pub fn happens(&mut self, percent: usize) -> bool {
        self.below(100) < percent
    }
}

#[cfg(test)]
mod tests {
    use super::Chance;

    #[test]
    fn the_first_numbers_of_seed_0_are_the_known_ones() {
        // Known test values of splitmix64 [from memory], computed again in a second language.
        let mut chance = Chance::new(0);
        assert_eq!(chance.number(), 0xE220_A839_7B1D_CDAF);
        assert_eq!(chance.number(), 0x6E78_9E6A_A1B9_65F4);
        assert_eq!(chance.number(), 0x06C4_5D18_8009_454F);
    }

    #[test]
    fn numbers_stay_in_their_range() {
        let mut chance = Chance::new(7);
        let drawn: Vec<i32> = (0..1000).map(|_| chance.between(-2, 2)).collect();
        assert!((-2..=2).all(|n| drawn.contains(&n)));
        assert!(drawn.iter().all(|n| (-2..=2).contains(n)));
        assert_eq!(chance.below(0), 0);
    }
}
