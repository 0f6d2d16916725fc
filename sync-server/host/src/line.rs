//! The slowest line a device and the office still reckon with.

/// Bytes a second of the slowest line that is waited for, on a device and at the office: a quarter of 9.6 kbit/s.
pub const SLOWEST_LINE: u64 = 300;
