//! Putting damaged entries right from where the ledger holds them a second time: the changes of their documents carry
//! the same signed bytes. What is damaged there too is left as it is.

use farsiding_core::document::CheckedChange;
use farsiding_core::ids::EntryId;
use farsiding_core::store::{Store, StoreError, Write};

/// What was put right.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Mended {
    /// Entries that are whole again.
    pub whole: Vec<EntryId>,
    /// Entries that are still damaged.
    pub still: Vec<String>,
}

/// Puts damaged entries right.
///
/// # Errors
/// Returns a [`StoreError`] when the ledger's store fails.
pub fn mend(store: &mut dyn Store) -> Result<Mended, StoreError> {
    let mut mended = Mended::default();
    for subject in store.subjects()? {
        let damaged = store.entries_of(subject)?.damaged;
        if damaged.is_empty() {
            continue;
        }
        for change in store.changes_of(subject)?.rows {
            let Ok(checked) = CheckedChange::check(&change.bytes, subject) else { continue };
            for entry in checked.entries().iter().filter(|entry| damaged.contains(&entry.id.to_string())) {
                store.commit(&[Write::Entry { subject, entry }])?;
            }
        }
        let still = store.entries_of(subject)?.damaged;
        for id in damaged.iter().filter(|id| !still.contains(id)).filter_map(|id| EntryId::read(id).ok()) {
            if !mended.whole.contains(&id) {
                mended.whole.push(id);
            }
        }
        mended.still.extend(still);
    }
    mended.still.sort();
    mended.still.dedup();
    Ok(mended)
}
