//! The newest checkpoint of the office's log that a device had been shown when it made an entry.
//!
//! Nobody can name a checkpoint before it exists: whoever holds the log knows from it after what the entry
//! was made, whatever the device's clock said. Does not live here: checkpoints (`log`), what is made of
//! them in a packet (`evidence::packet`).

use serde::{Deserialize, Serialize};

use crate::ids::Digest;

/// A checkpoint by its size and root. Stands in the first entry that a device makes after it was shown it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SeenLog {
    /// How many leaves, 1 or more.
    pub size: u64,
    /// The root over them.
    pub root: Digest,
}

/// Whether a value is of the form; one that is not is taken as if it were absent.
pub(super) fn is_of_the_form(value: &ciborium::Value) -> bool {
    let Some(fields) = value.as_map() else { return false };
    let of = |name: &str| fields.iter().find(|(key, _)| key.as_text() == Some(name)).map(|(_, value)| value);
    let root = of("root").and_then(ciborium::Value::as_bytes).is_some_and(|root| root.len() == 32);
    let size = of("size").and_then(ciborium::Value::as_integer);
    root && size.and_then(|size| u64::try_from(size).ok()).is_some_and(|size| size > 0)
}
