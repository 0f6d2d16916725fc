//! Numbers that look random and come again with the same seed: the one generator of all tests.
//!
//! The algorithm is never changed: seeds that once showed a fault are kept, and must go on showing the same story.

use std::hash::{BuildHasher as _, Hasher as _};

/// SplitMix64 (Steele, Lea, Flood 2014).
#[derive(Debug, Clone)]
pub struct Dice(u64);

impl Dice {
    /// The numbers of a seed.
    pub const fn of(seed: u64) -> Dice {
        Dice(seed)
    }

    /// The numbers of a fresh seed, which is printed; `FARSIDING_SEED` plays one again.
    pub fn thrown() -> Dice {
        let given = std::env::var("FARSIDING_SEED").ok();
        let seed = given.map_or_else(fresh_seed, |text| text.parse().expect("FARSIDING_SEED is a number"));
        println!("seed {seed} (FARSIDING_SEED={seed} plays it again)");
        Dice::of(seed)
    }

    /// The next number.
    #[expect(
        clippy::should_implement_trait,
        reason = "the numbers have no end, and nobody wants an iterator of them"
    )]
    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A number below `limit` (at least one is taken).
    pub fn below(&mut self, limit: usize) -> usize {
        usize::try_from(self.next() % limit.max(1) as u64).unwrap()
    }

    /// True once in `of`.
    pub fn once_in(&mut self, of: usize) -> bool {
        self.below(of) == 0
    }

    /// One of some.
    pub fn one_of<T: Copy>(&mut self, some: &[T]) -> T {
        some[self.below(some.len())]
    }

    /// Fills `bytes`.
    pub fn fill(&mut self, bytes: &mut [u8]) {
        for piece in bytes.chunks_mut(8) {
            let number = self.next().to_le_bytes();
            piece.copy_from_slice(&number[..piece.len()]);
        }
    }

    /// So many bytes, which no compression makes smaller.
    pub fn bytes(&mut self, length: usize) -> Vec<u8> {
        let mut bytes = vec![0; length];
        self.fill(&mut bytes);
        bytes
    }
}

#[cfg(feature = "core")]
impl farsiding_core::ids::Randomness for Dice {
    fn fill(&mut self, bytes: &mut [u8]) {
        Dice::fill(self, bytes);
    }
}

/// The standard library keys its hashing from the operating system's randomness.
fn fresh_seed() -> u64 {
    std::collections::hash_map::RandomState::new().build_hasher().finish()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Seeds that were kept stand for these numbers.
    #[test]
    fn a_seed_stands_for_the_same_numbers_for_ever() {
        let mut dice = Dice::of(1_234_567);
        let numbers = [dice.next(), dice.next(), dice.next()];
        assert_eq!(
            numbers,
            [6_457_827_717_110_365_317, 3_203_168_211_198_807_973, 9_817_491_932_198_370_423]
        );
        let mut dice = Dice::of(1_234_567);
        let bytes = dice.bytes(12);
        assert_eq!(bytes[..8], numbers[0].to_le_bytes());
        assert_eq!(bytes[8..], numbers[1].to_le_bytes()[..4]);
    }

    #[test]
    fn every_number_below_a_limit_comes_up() {
        let mut dice = Dice::of(1);
        let mut seen = [0u32; 7];
        for _ in 0..7000 {
            seen[dice.below(7)] += 1;
        }
        assert!(seen.iter().all(|times| (800..1200).contains(times)), "{seen:?}");
        assert_eq!(dice.below(0), 0);
    }
}
