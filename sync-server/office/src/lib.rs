//! The office server: its data folder, its ledger and database, enrolment, photographs, HTTP, its own pages.
//!
//! Lives here: everything `farsiding serve`, `enrol` and `revoke` do. Does not live here: what a sync
//! request means (`farsiding_core::sync`).

pub mod accounts;
pub mod audit_anchor;
pub mod audit_chain;
pub mod backup;
pub mod backup_archive;
pub mod backup_schedule;
pub mod check;
pub mod clock_watch;
pub mod data_folder;
pub mod database_error;
pub mod defects;
pub mod enrolment;
pub mod grants;
pub mod health;
pub mod held_papers;
pub mod hidden;
pub mod http;
pub mod index;
pub mod key_files;
pub mod keys;
pub mod late;
pub mod ledger;
pub mod month;
pub mod names;
pub mod office_database;
pub mod office_signer;
pub mod open_log;
pub mod pages;
pub mod photo_removal;
pub mod photo_store;
pub mod photo_uploads;
pub mod quotas;
pub mod reading;
pub mod retention;
pub mod seals;
pub mod serve;
pub mod state;
pub mod stored_photographs;
pub mod third_parties;

use farsiding_core::store::StoreError;

/// Why the office could not do as asked.
#[derive(Debug, thiserror::Error)]
pub enum OfficeError {
    /// The data folder cannot be used.
    #[error("the data folder {folder} cannot be used: {why}")]
    Folder {
        /// Which folder.
        folder: String,
        /// What is in the way and what to do.
        why: String,
    },
    /// The ledger failed.
    #[error(transparent)]
    Ledger(#[from] StoreError),
    /// The database failed.
    #[error(transparent)]
    OfficeDatabase(#[from] database_error::DatabaseError),
    /// An account was not made or found.
    #[error(transparent)]
    Account(#[from] accounts::AccountError),
    /// Enrolling or revoking was refused.
    #[error(transparent)]
    Enrolment(#[from] enrolment::EnrolmentError),
    /// A backup was not made or not restored.
    #[error(transparent)]
    Backup(#[from] backup::BackupError),
    /// The address cannot be served.
    #[error("{0}")]
    Address(String),
    /// The certificate or its key cannot be used.
    #[error("the certificate cannot be used: {0}")]
    Tls(String),
    /// The surroundings are not as they must be.
    #[error("{0}")]
    Surroundings(String),
    /// The server stopped by itself.
    #[error("the server stopped: {0}")]
    Stopped(String),
}
