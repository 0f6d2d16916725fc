//! The evidence packet without its PDF: the attachments, the reconstruction of a record from them, the seal,
//! and the checks.
//!
//! [`FORMAT.md`](../FORMAT.md), in the folder above, describes all of it for readers who have never seen this
//! program. This module holds the forms of the attachments (`parts`), the fold from them (`refold`), the seal
//! (`seal`), the facts of the first page (`front`), and the checks with their codes (`check`, `log_check`,
//! `names`, `devices`, `times`, `whole`, `last_entry`, `witnesses`, `sealed`, `report`). The PDF file, its pages, and
//! the reading of a ledger are in `farsiding-server`'s `packet`.

mod check;
mod devices;
mod front;
mod keys_check;
mod last_entry;
mod log_check;
mod names;
mod parts;
mod refold;
mod report;
mod seal;
mod sealed;
mod times;
mod whole;
mod witnesses;

pub use check::{Files, OtherNote, PhotoFile, check, check_with};
pub use front::{ENGLISH, Fact, Front, OWN_WORDS, OwnWords, Said, Standing, quotes, told_in_full};
pub use keys_check::{KeyStatements, keys_of};
pub use last_entry::last_entry_proof;
pub use names::NamesFile;
pub use parts::{
    Certificates, ElsewhereInChain, Entries, Leaf, Log, Numbered, Parts, PartsError, Receipts, SeenBefore,
    Token, VisitHead, read as read_part,
};
pub use refold::{Refolded, people_known, people_named, refold};
pub use report::{CheckLine, CheckReport, Code, Outcome};
pub use seal::{Listed, Seal, SealedEntries, placeholder, placeholder_of, seal};
pub use witnesses::{OutsideTime, Stamped, Witnessed, outside_time, stamped, witnesses};

/// The first field of every attachment. A later format has another value.
pub const FORMAT: &str = "farsiding packet 1";
/// The description of the format, which is attached to every packet.
pub const DESCRIPTION: &str = include_str!("../FORMAT.md");
/// The attachment with the signed entries.
pub const ENTRIES: &str = "entries.cbor";
/// The attachment with the certificates of the devices that signed the entries.
pub const CERTIFICATES: &str = "certificates.cbor";
/// The attachment with the root key's statements about the organisation's keys; absent if there are none.
pub const KEYS: &str = "keys.cbor";
/// The attachment with the names of people that their entries commit to; absent if there are none.
pub const NAMES: &str = "names.cbor";
/// The attachment with the office's receipts.
pub const RECEIPTS: &str = "receipts.cbor";
/// The attachment with the proofs from the log and the chains of the devices.
pub const LOG: &str = "log.cbor";
/// The attachment with the folded record, for programs. A check folds the record again and compares the
/// result.
pub const VIEW: &str = "view.json";
/// The attachment with the proof that the stay's last entry stands in the log, in the open format of C2SP
/// tlog-proof.
pub const LAST_ENTRY: &str = "last-entry.tlog-proof";
/// The attachment with the description of the format.
pub const HOW_TO_CHECK: &str = "FORMAT.txt";
/// The attachment with the content of the first page, as facts that cite entries.
pub const FRONT: &str = "front.cbor";
/// The attachment with the text of every page.
pub const PAGES: &str = "pages.txt";
/// The attachment with the text of the procedure under which the stay was begun, as its digest in the entries
/// names it.
pub const PROCEDURE: &str = "procedure.toml";
/// The attachment with the procedure's sentences in the language of the pages; absent if its text has them.
pub const PROCEDURE_WORDS: &str = "procedure.ftl";
/// The attachment with the organisation's seal over the whole file.
pub const SEAL: &str = "seal.cbor";
/// The attachments that contain records.
const RECORDS: [&str; 13] = [
    ENTRIES,
    CERTIFICATES,
    RECEIPTS,
    LOG,
    KEYS,
    NAMES,
    VIEW,
    LAST_ENTRY,
    FRONT,
    PAGES,
    PROCEDURE,
    PROCEDURE_WORDS,
    SEAL,
];
/// The largest CBOR attachment accepted, in bytes.
pub const LARGEST_RECORD: usize = 8 * 1024 * 1024;
/// The largest attachment accepted, in bytes.
pub const LARGEST_ATTACHMENT: usize = 64 * 1024 * 1024;

/// Returns the file name under which a photograph is attached.
pub fn photo_name(sha256: crate::ids::Digest, media: &str) -> String {
    let ending = match media {
        "image/jpeg" => "jpg",
        "image/png" => "png",
        "image/webp" => "webp",
        "image/heic" => "heic",
        _ => "bin",
    };
    format!("{sha256}.{ending}")
}

/// Returns the digest in a photograph's file name, or `None` for any other file.
pub fn photo_named(name: &str) -> Option<crate::ids::Digest> {
    let (stem, _) = name.split_once('.')?;
    let lower = |byte: u8| byte.is_ascii_digit() || (b'a'..=b'f').contains(&byte);
    (stem.len() == 64 && stem.bytes().all(lower)).then(|| crate::ids::Digest::read(stem).ok())?
}
