//! Evidence packets: one PDF/A-3 file of a stay that a lawyer can read and a machine can check.
//!
//! [`of_stay`] makes one from an office's ledger; [`read::take_apart`] and [`check_file`] check one with
//! nothing but the file and the organisation's public key. What is attached and how it is checked stands in
//! `farsiding_core::evidence::packet` and its `FORMAT.md`; here are reading the ledger (`gather`), the pages
//! (`pages`, `figures`, `sheet`, `typeface`, `ink`), sealing (`build`), and the PDF taken apart (`read`).

mod build;
pub mod command;
mod figures;
mod gather;
mod ink;
mod objects;
mod pages;
mod picture_size;
mod read;
mod sheet;
mod typeface;

use farsiding_core::entry::{EntryError, OrganisationKey, OrganisationKeys, PublicKey};
use farsiding_core::evidence::packet::{Code, OtherNote, PartsError, Report, check_with};
use farsiding_core::ids::{Digest, EntryId, VisitId};
use farsiding_core::procedure::{ProcedureError, Procedures};
use farsiding_core::store::{Store, StoreError};

pub use gather::stay_of;
pub use read::{Apart, ReadError, take_apart};

/// Why no packet could be made.
#[derive(Debug, thiserror::Error)]
pub enum PacketError {
    /// There is no such visit.
    #[error("there is no record of visit {0} at this office")]
    NoSuchVisit(VisitId),
    /// Rows of the ledger no longer fit their digests.
    #[error("the ledger is damaged; put it back from its copy first: {0}")]
    Damaged(String),
    /// An entry has no place in the log.
    #[error("entry {0} has no place in the office's log yet; start the server once on this data folder")]
    NotInLog(EntryId),
    /// No signed checkpoint covers the stay.
    #[error("no checkpoint of the log covers this stay yet; start the server once on this data folder")]
    NoCheckpoint,
    /// The ledger failed.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// An entry in the ledger cannot be read.
    #[error(transparent)]
    Entry(#[from] EntryError),
    /// An attachment cannot be written.
    #[error(transparent)]
    Parts(#[from] PartsError),
    /// The built-in procedures cannot be read.
    #[error(transparent)]
    Procedure(#[from] ProcedureError),
    /// A photograph cannot be read from where it is kept.
    #[error("photograph {sha256} cannot be read: {why}")]
    Photo {
        /// Which.
        sha256: Digest,
        /// Why.
        why: String,
    },
    /// The pages cannot be set.
    #[error("the pages cannot be set: {0}")]
    Layout(String),
}

/// Where photographs come from.
pub trait Photographs {
    /// The bytes of one; nothing when the office does not hold it.
    ///
    /// # Errors
    /// [`PacketError::Photo`] when it is there and cannot be read.
    fn bytes(&self, sha256: Digest) -> Result<Option<Vec<u8>>, PacketError>;
}

/// What a packet is made from. Reads only.
pub struct PacketSource<'a> {
    /// The office's ledger.
    pub store: &'a dyn Store,
    /// The organisation's key, to seal with.
    pub key: &'a OrganisationKey,
    /// The photographs.
    pub photographs: &'a dyn Photographs,
}

/// Makes the packet of a stay: `stay` is its visit, or all its visits where records were joined (see
/// [`stay_of`]; an index of stays serves as well). The same record gives the same bytes, whatever else
/// came to the ledger since. Takes a few tenths of a second; call it from a blocking thread.
///
/// # Errors
/// [`PacketError`].
pub fn of_stay(source: &PacketSource<'_>, stay: &[VisitId]) -> Result<Vec<u8>, PacketError> {
    let procedures = Procedures::built_in()?;
    let parts = gather::parts(source, stay)?;
    build::build(source, &parts, &procedures)
}

/// Checks a packet's file. Needs nothing but the file and the organisation's public key; `against` is a
/// checkpoint from elsewhere to compare the packet's log with.
///
/// # Errors
/// [`PacketError::Procedure`] should the built-in procedures not read.
pub fn check_file(file: &[u8], key: &PublicKey, against: Option<&OtherNote>) -> Result<Report, PacketError> {
    check_file_with(file, &OrganisationKeys::of_root(*key), against)
}

/// As [`check_file`], with what is known from elsewhere of the organisation's keys.
///
/// # Errors
/// As [`check_file`].
pub fn check_file_with(
    file: &[u8],
    keys: &OrganisationKeys,
    against: Option<&OtherNote>,
) -> Result<Report, PacketError> {
    let procedures = Procedures::built_in()?;
    match take_apart(file) {
        Ok(apart) => Ok(check_with(&apart.files, keys, against, &procedures)),
        Err(why) => {
            let mut report = Report::default();
            let code = match &why {
                ReadError::Truncated => Code::TruncatedFile,
                _ => Code::UnreadableFile,
            };
            report.broken(code, why.to_string());
            Ok(report)
        }
    }
}
