//! Why a store could not do as asked.
//!
//! Every store says it in these words; how SQLite's own errors become them stands in `sqlite`.

/// Why the store could not do as asked. What was asked in one [`super::Store::commit`] then did not happen.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    /// The database refused or failed.
    #[error("the record store failed: {0}")]
    Database(String),
    /// No room left where the store lives.
    #[error("there is no room left to record; free some space, nothing was lost")]
    Full,
    /// Another program holds the file.
    #[error("another program is using the record store; close it and try again")]
    Busy,
    /// Nothing can be kept there: no such folder, no permission, or what is there is no record store.
    #[error("records cannot be kept there: {0}")]
    NoPlace(String),
    /// The file was written by a later version.
    #[error("this record was written by a later version (schema {found}, this one knows {known})")]
    TooNew {
        /// Schema found in the file.
        found: i64,
        /// Newest schema known here.
        known: i64,
    },
}
