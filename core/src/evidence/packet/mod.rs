//! The evidence packet without its PDF: what is attached to it, how a record is made again from that,
//! how everything is sealed, and what is checked.
//!
//! [`FORMAT.md`](../FORMAT.md) beside this folder describes all of it for somebody who has never seen this
//! program. Lives here: the attachments' forms (`parts`), the fold from them (`refold`), the seal
//! (`seal`), the checks and their code words (`check`, `devices`, `times`, `whole`, `report`). Does not live here: the PDF file and
//! its pages, or reading a ledger (`farsiding-server`'s `packet`).

mod check;
mod devices;
mod keys_check;
mod parts;
mod refold;
mod report;
mod seal;
mod times;
mod whole;

pub use check::{Files, OtherNote, PhotoFile, check, check_with};
pub use keys_check::KeyStatements;
pub use parts::{
    Certificates, ElsewhereInChain, Entries, Leaf, Log, Numbered, Parts, PartsError, Receipts, SeenBefore,
    Token, VisitHead,
};
pub use refold::{Refolded, people_named, refold};
pub use report::{Code, Line, Outcome, Report};
pub use seal::{Listed, Seal, SealedEntries, placeholder, seal};

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
/// Attached file: this format's description.
pub const HOW_TO_CHECK: &str = "FORMAT.txt";
/// Attached file: the organisation's seal on the whole file.
pub const SEAL: &str = "seal.cbor";
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
    (stem.len() == 64).then(|| crate::ids::Digest::read(stem).ok())?
}
