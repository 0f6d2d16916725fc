//! The entry of another car on the same track that an entry rests on.
//!
//! A derail, a sign, the wind belong to the track. Whoever looks after a second car there says that it is still so, and
//! names the entry that was made when somebody looked. Whether that entry still stands is decided in `view::track`.

use serde::{Deserialize, Serialize};

use crate::ids::{EntryId, VisitId};

/// An entry of another visit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct RestsOn {
    /// The visit.
    pub visit: VisitId,
    /// The entry.
    pub entry: EntryId,
}

/// Returns true if a value has this form. A value of another form is treated as absent.
pub(super) fn is_of_the_form(value: &ciborium::Value) -> bool {
    let Some(fields) = value.as_map() else { return false };
    let long = |name: &str, length: usize| {
        let field = fields.iter().find(|(key, _)| key.as_text() == Some(name));
        field.and_then(|(_, value)| value.as_bytes()).is_some_and(|bytes| bytes.len() == length)
    };
    long("visit", 16) && long("entry", 32)
}
