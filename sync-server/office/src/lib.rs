//! The office server: its data folder, ledger and database, enrolment, photographs, HTTP interface and pages.
//!
//! This crate holds everything that `farsiding serve`, `enrol` and `revoke` do. The meaning of a sync request
//! is in `farsiding_core::sync`.

pub mod accounts;
pub mod audit_anchor;
pub mod audit_chain;
pub mod backup;
pub mod backup_archive;
pub mod backup_schedule;
pub mod check;
mod checkpoints;
pub mod clock_watch;
pub mod data_folder;
pub mod database_error;
pub mod defects;
pub mod enrolment;
pub mod expected_papers;
pub mod grants;
pub mod health;
pub mod held_papers;
pub mod hidden;
pub mod http;
pub mod index;
pub mod key_files;
pub mod keys;
pub mod language;
pub mod late;
pub mod ledger;
pub mod ledger_copy;
pub mod ledger_move;
pub mod month;
pub mod name_removal;
pub mod names;
pub mod office_database;
pub mod office_signer;
pub mod open_log;
pub mod pages;
pub mod photo_removal;
pub mod photo_store;
pub mod photo_uploads;
pub mod procedure_drafts;
pub mod quotas;
pub mod reading;
pub mod retention;
pub mod seals;
pub mod serve;
pub mod state;
pub mod stored_photographs;
pub mod third_parties;

use farsiding_core::store::StoreError;

/// The error of an operation of the office.
#[derive(Debug, thiserror::Error)]
pub enum OfficeError {
    /// The data folder cannot be used.
    #[error("the data folder {folder} cannot be used: {why}")]
    Folder {
        /// The path of the folder.
        folder: String,
        /// The cause, and what to do.
        why: String,
    },
    /// The ledger failed.
    #[error(transparent)]
    Ledger(#[from] StoreError),
    /// The office database failed.
    #[error(transparent)]
    OfficeDatabase(#[from] database_error::DatabaseError),
    /// An account could not be created, changed or found.
    #[error(transparent)]
    Account(#[from] accounts::AccountError),
    /// Enrolling or revoking was refused.
    #[error(transparent)]
    Enrolment(#[from] enrolment::EnrolmentError),
    /// A backup or a restore failed.
    #[error(transparent)]
    Backup(#[from] backup::BackupError),
    /// The server's address cannot be used.
    #[error("{0}")]
    Address(String),
    /// The TLS certificate or its key cannot be used.
    #[error("the certificate cannot be used: {0}")]
    Tls(String),
    /// The clock, the random numbers or another part of the environment cannot be used.
    #[error("{0}")]
    Surroundings(String),
    /// The server stopped by itself.
    #[error("the server stopped: {0}")]
    Stopped(String),
}
