//! Evidence packets: a PDF/A-3 file of a stay that a lawyer can read and a machine can verify.
//!
//! [`of_stay`] makes a packet from an office's ledger. [`read::take_apart`] and [`check_file`] check a packet
//! with only the file and the organisation's public key. The attachments and their checks are defined in
//! `farsiding_core::evidence::packet` and its `FORMAT.md`. The files of this crate read the ledger
//! (`gather`), write and draw the pages (`pages`, `figures`, `sheet`, `marks`, `structure`, `typeface`,
//! `ink`), seal the file (`build`), parse the PDF (`read`), and draw its pages again for comparison
//! (`redraw`). `strip` draws the steps on paper, which are no packet.

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
pub mod strip;
mod structure;
mod typeface;
mod witnessed;
pub mod zone;

use farsiding_core::Message;
use farsiding_core::entry::{AnyTime, EntryError, OrganisationKey, OrganisationKeys, PublicKey, Trusts as _};
use farsiding_core::evidence::packet::{
    CheckReport, Code, FRONT, Fact, Front, OtherNote, Outcome, PartsError, Said, check_with as check_records,
    keys_of,
};
use farsiding_core::ids::{Digest, EntryId, VisitId};
use farsiding_core::procedure::{ProcedureError, Procedures};
use farsiding_core::store::{Store, StoreError};

use farsiding_words::{Language, Words};

pub use gather::stay_of;
pub use outside::{NotAfter, Outside, Trusted};
pub use read::{Apart, LARGEST_FILE, ReadError, take_apart};
pub use witnessed::{know_witness, known_witnesses};

/// The version of the page layout, which determines what is drawn for given attachments, in words and bytes.
/// A seal names the version, and a program of the same version draws the pages again and compares them. The
/// version is raised with the first change after a release that changes any packet's file.
pub const LAYOUT_VERSION: u64 = 3;

/// Why a packet could not be made or checked.
#[derive(Debug, thiserror::Error)]
pub enum PacketError {
    /// There is no such visit.
    #[error("there is no record of visit {0} at this office")]
    NoSuchVisit(VisitId),
    /// Rows of the ledger do not match their digests.
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
    /// An entry in the ledger cannot be parsed.
    #[error(transparent)]
    Entry(#[from] EntryError),
    /// An attachment cannot be written.
    #[error(transparent)]
    Parts(#[from] PartsError),
    /// The built-in procedures cannot be parsed.
    #[error(transparent)]
    Procedure(#[from] ProcedureError),
    /// A photograph cannot be read from its store.
    #[error("photograph {sha256} cannot be read: {why}")]
    Photo {
        /// The digest of the photograph.
        sha256: Digest,
        /// The cause.
        why: String,
    },
    /// The new packet failed its own verification, so it is not handed out.
    #[error("the packet was not handed out, because it does not hold by its own checks: {0}")]
    DoesNotHold(String),
    /// An attachment is larger than a packet can carry.
    #[error("the stay is too large for one packet: {name} would have {length} bytes, {most} is the most")]
    TooLarge {
        /// The name of the attachment.
        name: &'static str,
        /// The length of the attachment, in bytes.
        length: usize,
        /// The largest allowed length, in bytes.
        most: usize,
    },
    /// The pages cannot be laid out.
    #[error("the pages cannot be set: {0}")]
    Layout(String),
}

/// The source of photographs.
pub trait Photographs {
    /// Returns the bytes of a photograph, or `None` when the office does not hold it.
    ///
    /// # Errors
    /// Returns [`PacketError::Photo`] when the photograph exists but cannot be read.
    fn bytes(&self, sha256: Digest) -> Result<Option<Vec<u8>>, PacketError>;
}

/// The sources of a packet. Nothing is written to them.
pub struct PacketSource<'a> {
    /// The office's ledger.
    pub store: &'a dyn Store,
    /// The organisation's key, which signs the seal.
    pub key: &'a OrganisationKey,
    /// The photographs.
    pub photographs: &'a dyn Photographs,
    /// The language of the pages.
    pub language: Language,
}

/// Makes the packet of a stay. `stay` is the stay's visit, or all its visits if records were joined (see
/// [`stay_of`]; an index of stays serves as well). The same record gives the same bytes, whatever else has
/// come into the ledger since. The packet is verified like a recipient would verify it, and is not returned
/// if the verification fails. The call takes some tenths of a second and should be made from a blocking
/// thread.
///
/// # Errors
/// Returns a [`PacketError`] when the ledger or a photograph cannot be read, or the packet cannot be built.
pub fn of_stay(source: &PacketSource<'_>, stay: &[VisitId]) -> Result<Vec<u8>, PacketError> {
    let file = unchecked(source, stay)?;
    let report = check_file(&file, &source.key.public(), None)?;
    if report.all_holds() {
        return Ok(file);
    }
    let broken = report.lines.iter().filter(|line| line.outcome == Outcome::Broken);
    let english = Words::english();
    let told: Vec<String> =
        broken.take(3).map(|line| format!("{}: {}", line.code.word(), english.text(&line.message))).collect();
    Err(PacketError::DoesNotHold(told.join("; ")))
}

/// Makes the packet of a stay without verifying it. This is for showing what a verifier says about an invalid
/// packet.
///
/// # Errors
/// Returns the errors of [`of_stay`], except for a failed verification.
pub fn unchecked(source: &PacketSource<'_>, stay: &[VisitId]) -> Result<Vec<u8>, PacketError> {
    let procedures = Procedures::built_in()?;
    let parts = gather::parts(source, stay)?;
    build::build(source, &parts, &procedures)
}

/// Checks a packet's file with only the file and the organisation's public key. `against` is a checkpoint
/// from elsewhere, to be compared with the packet's log.
///
/// # Errors
/// Returns [`PacketError::Procedure`] when the built-in procedures cannot be parsed.
pub fn check_file(
    file: &[u8],
    key: &PublicKey,
    against: Option<&OtherNote>,
) -> Result<CheckReport, PacketError> {
    Ok(check_with(file, &OrganisationKeys::of_root(*key), against, &Trusted::default(), false)?.0)
}

/// Checks a packet's file like [`check_file`], with additional statements about the organisation's keys and
/// with the witnesses and time stamp roots that the reader trusts. With `strict`, a packet without a valid
/// time stamp and a valid signature of a witness counts as broken.
///
/// # Errors
/// Returns [`PacketError::Procedure`] when the built-in procedures cannot be parsed.
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
            // A packet of another organisation is not examined any further.
            if report.found(Code::WrongKey) {
                return Ok((report, Outside::default()));
            }
            // The pages are drawn with the statements about keys that the packet itself contains.
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
            report.broken(code, Message::typed(why.to_string()));
            Ok((report, Outside::default()))
        }
    }
}

/// Returns what the first page of a packet says as messages, in the order of the page. It is empty where the
/// packet has none, as before layout 3, or cannot be read. Whether it is true is decided by [`check_with`].
pub fn first_page(file: &[u8]) -> Vec<Said> {
    let front = take_apart(file).ok().and_then(|apart| {
        let bytes = apart.files.records.get(FRONT)?;
        Front::from_bytes(bytes).ok()
    });
    front.map_or_else(Vec::new, |front| front.facts.iter().filter_map(Fact::messages).collect())
}
