//! The speed of the slowest network connection that a device and the office still wait for.

/// The slowest connection that is waited for, in bytes per second: a quarter of 9.6 kbit/s. Devices and the
/// office use the same value.
pub const SLOWEST_LINE: u64 = 300;
