//! Seeded chance for the invented month: the same seed, the same month. Not fit for keys of anything real.

use std::sync::{Arc, Mutex, PoisonError};

use farsiding_core::ids::Randomness;

/// Chance from a seed (SplitMix64, public domain, from memory). Copies share one stream.
#[derive(Clone, Debug)]
pub struct Dice(Arc<Mutex<u64>>);

impl Dice {
    /// A stream of its own for each seed.
    pub fn new(seed: u64) -> Dice {
        Dice(Arc::new(Mutex::new(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ 0x5DEE_CE66_D1CE_4E5B)))
    }

    fn next(&self) -> u64 {
        let mut state = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        *state = state.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut word = *state;
        word = (word ^ (word >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        word = (word ^ (word >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        word ^ (word >> 31)
    }

    /// A number in [0, 1).
    pub fn part(&self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// A number within ± `half_width`, every place equally likely.
    pub fn within(&self, half_width: f64) -> f64 {
        (2.0 * self.part() - 1.0) * half_width
    }

    /// A number between two.
    pub fn between(&self, low: f64, high: f64) -> f64 {
        low + self.part() * (high - low)
    }

    /// A normal deviate (sum of twelve, less six: bounded at ±6, good enough for scatter).
    pub fn normal(&self) -> f64 {
        (0..12).map(|_| self.part()).sum::<f64>() - 6.0
    }

    /// A whole number below `below`, which is at least 1.
    pub fn below(&self, below: usize) -> usize {
        ((self.part() * below as f64) as usize).min(below.saturating_sub(1))
    }
}

impl Randomness for Dice {
    fn fill(&mut self, bytes: &mut [u8]) {
        for chunk in bytes.chunks_mut(8) {
            let word = self.next().to_le_bytes();
            chunk.copy_from_slice(&word[..chunk.len()]);
        }
    }
}
