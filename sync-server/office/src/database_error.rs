//! The errors of the office database.

/// The error of an operation on the office database.
#[derive(Debug, thiserror::Error)]
pub enum DatabaseError {
    /// The database refused the operation or failed.
    #[error("the server's register failed: {0}")]
    Database(String),
    /// The database was written by a later version of the program.
    #[error("the register was written by a later version (schema {found}, this one knows {known})")]
    TooNew {
        /// The schema version found in the file.
        found: i64,
        /// The newest schema version that this program knows.
        known: i64,
    },
}

impl From<rusqlite::Error> for DatabaseError {
    fn from(error: rusqlite::Error) -> Self {
        DatabaseError::Database(error.to_string())
    }
}
