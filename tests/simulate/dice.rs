//! Numbers that look random and come again with the same seed. Nothing in a simulation is random but these.

use farsiding_core::ids::Randomness;

/// SplitMix64 (Steele, Lea, Flood 2014).
#[derive(Debug, Clone)]
pub struct Dice(u64);

impl Dice {
    /// The numbers of a seed.
    pub fn of(seed: u64) -> Dice {
        Dice(seed)
    }

    /// The next number.
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
}

impl Randomness for Dice {
    fn fill(&mut self, bytes: &mut [u8]) {
        for piece in bytes.chunks_mut(8) {
            let number = self.next().to_le_bytes();
            piece.copy_from_slice(&number[..piece.len()]);
        }
    }
}
