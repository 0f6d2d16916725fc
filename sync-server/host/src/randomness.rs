//! The operating system's random numbers, from which keys, codes and names are made.

use farsiding_core::ids::Randomness;

/// The operating system's random numbers.
#[derive(Debug, Clone, Copy)]
pub struct SystemRandomness(());

/// The operating system gave no random numbers.
#[derive(Debug, thiserror::Error)]
#[error("the operating system gives no random numbers: {0}")]
pub struct NoRandomness(String);

impl SystemRandomness {
    /// Random numbers, after trying once that there are any.
    ///
    /// # Errors
    /// [`NoRandomness`].
    pub fn new() -> Result<SystemRandomness, NoRandomness> {
        let mut bytes = [0u8; 16];
        getrandom::fill(&mut bytes).map_err(|e| NoRandomness(e.to_string()))?;
        Ok(SystemRandomness(()))
    }
}

impl Randomness for SystemRandomness {
    fn fill(&mut self, bytes: &mut [u8]) {
        if getrandom::fill(bytes).is_err() {
            // Going on with bytes anybody could guess would be worse than stopping.
            std::process::abort();
        }
    }
}
