//! Seeded chance: the same seed gives the same world on every machine.
//!
//! In: a seed. Out: numbers. Integer arithmetic only, so no platform differs.
//! Method: SplitMix64 (Steele, Lea, Flood 2014, public domain constants): one addition and three mixing steps
//! per number, full period, good enough for noise; not for secrets.

/// A stream of numbers that looks like chance and is not.
#[derive(Debug, Clone, PartialEq)]
pub struct Dice(u64);

impl Dice {
    /// The stream of `seed`.
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// A stream of its own for one part of the world, so that a part that draws more often moves no other.
    #[must_use]
    pub const fn part(seed: u64, part: u64) -> Self {
        let mut dice = Self(seed ^ part.wrapping_mul(0xD6E8_FEB8_6659_FD93));
        let _ = dice.roll();
        dice
    }

    /// The next number, 64 bits.
    pub const fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// From 0 up to, not including, 1.
    pub fn unit(&mut self) -> f64 {
        (self.roll() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Evenly between `low` and `high`.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    /// Evenly within `half` on either side of nothing.
    pub fn within(&mut self, half: f64) -> f64 {
        self.between(-half, half)
    }

    /// True in a share `probability` of cases.
    pub fn chance(&mut self, probability: f64) -> bool {
        self.unit() < probability
    }

    /// A number below `count`; 0 where `count` is 0.
    pub fn below(&mut self, count: usize) -> usize {
        if count == 0 { 0 } else { (self.roll() % count as u64) as usize }
    }

    /// One of `all`; nothing where there is nothing.
    pub fn pick<'a, T>(&mut self, all: &'a [T]) -> Option<&'a T> {
        all.get(self.below(all.len()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_stream_is_the_published_one() {
        // First numbers of SplitMix64 for seed 1234567, as its authors' reference program prints them.
        let mut dice = Dice::new(1_234_567);
        let first = [dice.roll(), dice.roll(), dice.roll()];
        assert_eq!(first, [6_457_827_717_110_365_317, 3_203_168_211_198_807_973, 9_817_491_932_198_370_423]);
    }

    #[test]
    fn numbers_stay_where_they_were_asked_for() {
        let mut dice = Dice::part(7, 3);
        for _ in 0..10_000 {
            assert!((2.0..5.0).contains(&dice.between(2.0, 5.0)));
            assert!(dice.below(3) < 3);
        }
        assert_eq!(dice.below(0), 0);
        assert_eq!(dice.pick::<u8>(&[]), None);
    }
}
