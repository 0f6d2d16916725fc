//! The operating system's random numbers, which keys, codes and names are made from.

use farsiding_core::ids::Randomness;

/// The operating system's random number generator.
#[derive(Debug, Clone, Copy)]
pub struct SystemRandomness(());

/// The operating system returned no random numbers.
#[derive(Debug, thiserror::Error)]
#[error("the operating system gives no random numbers: {0}")]
pub struct NoRandomness(String);

impl SystemRandomness {
    /// Returns the generator, after one test call.
    ///
    /// # Errors
    /// Returns [`NoRandomness`] when the test call fails.
    pub fn new() -> Result<SystemRandomness, NoRandomness> {
        let mut bytes = [0u8; 16];
        getrandom::fill(&mut bytes).map_err(|e| NoRandomness(e.to_string()))?;
        Ok(SystemRandomness(()))
    }
}

impl Randomness for SystemRandomness {
    fn fill(&mut self, bytes: &mut [u8]) {
        if getrandom::fill(bytes).is_err() {
            // Continuing with bytes that anybody could guess would be worse than stopping.
            std::process::abort();
        }
    }
}
