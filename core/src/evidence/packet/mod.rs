//! The evidence packet without its PDF: what is attached to it, how a record is made again from that,
//! how everything is sealed, and what is checked.
//!
//! [`FORMAT.md`](../FORMAT.md) beside this folder describes all of it for somebody who has never seen this
//! program. Lives here: the attachments' forms (`parts`), the fold from them (`refold`), the seal
//! (`seal`), the first page's facts (`front`), the checks and their code words (`check`, `log_check`, `devices`, `times`, `whole`,
//! `last_entry`, `witnesses`, `sealed`, `report`). Does not live here: the PDF file and
//! its pages, or reading a ledger (`farsiding-server`'s `packet`).

mod check;
mod devices;
mod front;
mod keys_check;
mod last_entry;
mod log_check;
mod parts;
mod refold;
mod report;
mod seal;
mod sealed;
mod times;
mod whole;
mod witnesses;

pub use check::{Files, OtherNote, PhotoFile, check, check_with};
pub use front::{Fact, Front, NOTICES, Standing, told_in_full};
pub use keys_check::{KeyStatements, keys_of};
pub use last_entry::last_entry_proof;
pub use parts::{
    Certificates, ElsewhereInChain, Entries, Leaf, Log, Numbered, Parts, PartsError, Receipts, SeenBefore,
    Token, VisitHead, read as read_part,
};
pub use refold::{Refolded, people_named, refold};
pub use report::{CheckLine, CheckReport, Code, Outcome};
pub use seal::{Listed, Seal, SealedEntries, placeholder, placeholder_of, seal};
pub use witnesses::{OutsideTime, Stamped, Witnessed, outside_time, stamped, witnesses};

/// The first field of everything: a later format says something else here.
pub const FORMAT: &str = "farsiding packet 1";
/// The description of the format, as attached to every packet.
pub const DESCRIPTION: &str = include_str!("../FORMAT.md");
/// Attached file: the signed entries.
pub const ENTRIES: &str = "entries.cbor";
/// Attached file: the certificates of the devices that signed them.
pub const CERTIFICATES: &str = "certificates.cbor";
/// Attached file: what the organisation's root said of its keys; absent while it said nothing.
pub const KEYS: &str = "keys.cbor";
/// Attached file: the office's receipts.
pub const RECEIPTS: &str = "receipts.cbor";
/// Attached file: what the log proves, and the chains of the devices.
pub const LOG: &str = "log.cbor";
/// Attached file: the folded record, for programs; made again and compared when checked.
pub const VIEW: &str = "view.json";
/// Attached file: the proof that the stay's last entry stands in the log, in the open form of C2SP tlog-proof.
pub const LAST_ENTRY: &str = "last-entry.tlog-proof";
/// Attached file: this format's description.
pub const HOW_TO_CHECK: &str = "FORMAT.txt";
/// Attached file: what the first page says, as facts that cite entries.
pub const FRONT: &str = "front.cbor";
/// Attached file: the text of every page.
pub const PAGES: &str = "pages.txt";
/// Attached file: the organisation's seal on the whole file.
pub const SEAL: &str = "seal.cbor";
/// The attachments that are records.
const RECORDS: [&str; 10] =
    [ENTRIES, CERTIFICATES, RECEIPTS, LOG, KEYS, VIEW, LAST_ENTRY, FRONT, PAGES, SEAL];
/// The largest of the CBOR attachments, bytes.
pub const LARGEST_RECORD: usize = 8 * 1024 * 1024;
/// The largest attachment, bytes.
pub const LARGEST_ATTACHMENT: usize = 64 * 1024 * 1024;

/// The name a photograph is attached under.
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

/// The digest in a photograph's name; nothing for any other file.
pub fn photo_named(name: &str) -> Option<crate::ids::Digest> {
    let (stem, _) = name.split_once('.')?;
    let lower = |byte: u8| byte.is_ascii_digit() || (b'a'..=b'f').contains(&byte);
    (stem.len() == 64 && stem.bytes().all(lower)).then(|| crate::ids::Digest::read(stem).ok())?
}
