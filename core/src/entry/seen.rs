//! The newest checkpoint of the office's log that a device had seen when it made an entry.
//!
//! Nobody can name a checkpoint before it exists, so whoever holds the log knows that the entry was made
//! after the checkpoint, whatever the device's clock showed. Checkpoints are in `log`, and their use in a
//! packet in `evidence::packet`.

use serde::{Deserialize, Serialize};

use crate::ids::Digest;

/// A checkpoint by its size and root. It stands in the first entry that a device makes after seeing the
/// checkpoint.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SeenLog {
    /// The number of leaves, at least 1.
    pub size: u64,
    /// The root hash over the leaves.
    pub root: Digest,
}

/// Returns true if a value has this form. A value of another form is treated as absent.
pub(super) fn is_of_the_form(value: &ciborium::Value) -> bool {
    let Some(fields) = value.as_map() else { return false };
    let of = |name: &str| fields.iter().find(|(key, _)| key.as_text() == Some(name)).map(|(_, value)| value);
    let root = of("root").and_then(ciborium::Value::as_bytes).is_some_and(|root| root.len() == 32);
    let size = of("size").and_then(ciborium::Value::as_integer);
    root && size.and_then(|size| u64::try_from(size).ok()).is_some_and(|size| size > 0)
}
