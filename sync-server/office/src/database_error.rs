//! Why the office's database could not do as asked.

/// Why the database could not do as asked.
#[derive(Debug, thiserror::Error)]
pub enum DatabaseError {
    /// The database refused or failed.
    #[error("the server's register failed: {0}")]
    Database(String),
    /// Written by a later version.
    #[error("the register was written by a later version (schema {found}, this one knows {known})")]
    TooNew {
        /// Schema found in the file.
        found: i64,
        /// Newest schema known here.
        known: i64,
    },
}

impl From<rusqlite::Error> for DatabaseError {
    fn from(error: rusqlite::Error) -> Self {
        DatabaseError::Database(error.to_string())
    }
}
