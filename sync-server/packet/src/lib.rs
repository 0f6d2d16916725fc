//! Evidence packets: one PDF/A-3 file of a stay that a lawyer can read and a machine can check.
//!
//! [`of_stay`] makes one from an office's ledger; [`read::take_apart`] and [`check_file`] check one with
//! nothing but the file and the organisation's public key. What is attached and how it is checked stands in
//! `farsiding_core::evidence::packet` and its `FORMAT.md`; here are reading the ledger (`gather`), the pages
//! (`pages`, `figures`, `sheet`, `marks`, `structure`, `typeface`, `ink`), sealing (`build`), the PDF taken apart (`read`),
//! and its pages drawn again (`redraw`).

mod build;
pub mod drawing;
mod figures;
mod gather;
mod ink;
mod marks;
mod objects;
mod outside;
mod pages;
mod picture_size;
mod read;
mod redraw;
mod sheet;
mod structure;
mod typeface;
mod witnessed;
pub mod zone;

use farsiding_core::entry::{AnyTime, EntryError, OrganisationKey, OrganisationKeys, PublicKey, Trusts as _};
use farsiding_core::evidence::packet::{
    CheckReport, Code, OtherNote, Outcome, PartsError, check_with as check_records, keys_of,
};
use farsiding_core::ids::{Digest, EntryId, VisitId};
use farsiding_core::procedure::{ProcedureError, Procedures};
use farsiding_core::store::{Store, StoreError};

pub use gather::stay_of;
pub use outside::{NotAfter, Outside, Trusted};
pub use read::{Apart, LARGEST_FILE, ReadError, take_apart};
pub use witnessed::{know_witness, known_witnesses};

/// The version of the pages' layout: what is drawn, in which words and bytes, for the same attachments. A seal names
/// it; a program of the same version draws the pages again and compares. It is raised with the first change after
/// a release by which any packet's file would come out otherwise.
pub const LAYOUT_VERSION: u64 = 2;

/// Why no packet could be made.
#[derive(Debug, thiserror::Error)]
pub enum PacketError {
    /// There is no such visit.
    #[error("there is no record of visit {0} at this office")]
    NoSuchVisit(VisitId),
    /// Rows of the ledger no longer fit their digests.
    #[error(
        "entries of this record cannot be read here, and a packet without them would show as not done what people \
         did: {0}. Run farsiding check --data DIR --mend, which takes what is whole elsewhere in the ledger; where that \
         does not help, restore the newest backup into a new folder: devices bring back what it lacks"
    )]
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
    /// What was made does not hold by its own verifier, so it is not handed out.
    #[error("the packet was not handed out, because it does not hold by its own checks: {0}")]
    DoesNotHold(String),
    /// A record is larger than a packet can carry.
    #[error("the stay is too large for one packet: {name} would have {length} bytes, {most} is the most")]
    TooLarge {
        /// Which attachment.
        name: &'static str,
        /// Its length, bytes.
        length: usize,
        /// The most it may have, bytes.
        most: usize,
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
/// came to the ledger since. It is checked as whoever receives it will check it, and not handed out where it
/// would not hold. Takes some tenths of a second; call it from a blocking thread.
///
/// # Errors
/// [`PacketError`].
pub fn of_stay(source: &PacketSource<'_>, stay: &[VisitId]) -> Result<Vec<u8>, PacketError> {
    let file = unchecked(source, stay)?;
    let report = check_file(&file, &source.key.public(), None)?;
    if report.all_holds() {
        return Ok(file);
    }
    let broken = report.lines.iter().filter(|line| line.outcome == Outcome::Broken);
    let told: Vec<String> =
        broken.take(3).map(|line| format!("{}: {}", line.code.word(), line.message)).collect();
    Err(PacketError::DoesNotHold(told.join("; ")))
}

/// Makes the file without looking whether it holds: for showing what a verifier says of one that does not.
///
/// # Errors
/// [`PacketError`].
pub fn unchecked(source: &PacketSource<'_>, stay: &[VisitId]) -> Result<Vec<u8>, PacketError> {
    let procedures = Procedures::built_in()?;
    let parts = gather::parts(source, stay)?;
    build::build(source, &parts, &procedures)
}

/// Checks a packet's file. Needs nothing but the file and the organisation's public key; `against` is a
/// checkpoint from elsewhere to compare the packet's log with.
///
/// # Errors
/// [`PacketError::Procedure`] should the built-in procedures not read.
pub fn check_file(
    file: &[u8],
    key: &PublicKey,
    against: Option<&OtherNote>,
) -> Result<CheckReport, PacketError> {
    Ok(check_with(file, &OrganisationKeys::of_root(*key), against, &Trusted::default(), false)?.0)
}

/// Checks a packet's file as [`check_file`] does, with what is known from elsewhere of the organisation's keys, and its time stamps and witnesses by those whom the reader trusts;
/// `strict`: a packet without a time stamp and a witness that hold is broken.
///
/// # Errors
/// [`PacketError::Procedure`] should the built-in procedures not read.
pub fn check_with(
    file: &[u8],
    keys: &OrganisationKeys,
    against: Option<&OtherNote>,
    trusted: &Trusted,
    strict: bool,
) -> Result<(CheckReport, Outside), PacketError> {
    let procedures = Procedures::built_in()?;
    match take_apart(file) {
        Ok(apart) => {
            let mut report = check_records(&apart.files, keys, against, &procedures);
            // Another organisation's packet is not looked into any further.
            if report.found(Code::WrongKey) {
                return Ok((report, Outside::default()));
            }
            // The pages are drawn by what the packet itself brings of the keys.
            let own = keys_of(&apart.files, &OrganisationKeys::of_root(keys.root()));
            redraw::compare(file, &apart.files, &own, &procedures, &mut report);
            let found = outside::outside(
                &apart.files,
                &AnyTime(&keys_of(&apart.files, keys)),
                trusted,
                strict,
                &mut report,
            );
            Ok((report, found))
        }
        Err(why) => {
            let mut report = CheckReport::default();
            let code = match &why {
                ReadError::Truncated => Code::TruncatedFile,
                _ => Code::UnreadableFile,
            };
            report.broken(code, why.to_string());
            Ok((report, Outside::default()))
        }
    }
}
