//! Repairs damaged entries from the second copy in the ledger: the changes of their documents hold the same
//! signed bytes. If that copy is damaged too, the entry is left unchanged.

use farsiding_core::document::CheckedChange;
use farsiding_core::ids::EntryId;
use farsiding_core::store::{Store, StoreError, Write};

/// The result of a repair.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Mended {
    /// The entries that are intact again.
    pub whole: Vec<EntryId>,
    /// The entries that are still damaged.
    pub still: Vec<String>,
}

/// Repairs damaged entries.
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
