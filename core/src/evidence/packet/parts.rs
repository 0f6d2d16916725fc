//! The forms of the CBOR attachments. The field names are wire format, and all attachments are deterministic
//! CBOR.

use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use serde_bytes::ByteBuf;

use super::names::NamesFile;
use super::{FORMAT, LARGEST_RECORD};
use crate::clock::UtcMillis;
use crate::entry::{EntryError, PersonName, cbor};
use crate::ids::{DeviceId, Digest, EntryId, Subject, VisitId};
use crate::tree::LogLeaf;

/// The reason why an attachment cannot be read or written.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PartsError {
    /// The bytes do not have the attachment's form.
    #[error("{name} cannot be read: {why}")]
    Unreadable {
        /// The name of the file.
        name: &'static str,
        /// The reason.
        why: String,
    },
    /// The attachment could not be encoded.
    #[error("the packet cannot be written: {0}")]
    Unwritable(#[from] EntryError),
}

/// The content of `entries.cbor`: the exact signed bytes of all entries. Each list is in the order of the
/// log.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Entries {
    /// Always [`FORMAT`].
    pub format: String,
    /// The visits of the stay in ascending order.
    pub stay: Vec<VisitId>,
    /// The entries recorded during the stay.
    pub visit: Vec<ByteBuf>,
    /// Further entries about the car, up to the stay's last entry.
    pub car: Vec<ByteBuf>,
    /// The entries about the site: its name, zone, instruments, hoses and tanks.
    pub site: Vec<ByteBuf>,
    /// The entries about the people.
    pub roster: Vec<ByteBuf>,
}

impl Entries {
    /// Returns all entries, list after list.
    pub fn all(&self) -> impl Iterator<Item = &ByteBuf> {
        self.lists().into_iter().flat_map(|(_, list)| list)
    }

    /// Returns the four lists with their names.
    pub fn lists(&self) -> [(&'static str, &Vec<ByteBuf>); 4] {
        [("visit", &self.visit), ("car", &self.car), ("site", &self.site), ("roster", &self.roster)]
    }
}

/// The content of `certificates.cbor`: the newest certificate of every device that signed an entry here,
/// ordered by device.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Certificates {
    /// The exact signed bytes.
    pub certificates: Vec<ByteBuf>,
}

/// The content of `receipts.cbor`: the office's receipts for entries here, in ascending order of their bytes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Receipts {
    /// The receipts, each a [`crate::log::Receipt`] in its stored form.
    pub receipts: Vec<ByteBuf>,
}

/// An entry's place in the log.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Leaf {
    /// The entry.
    pub entry: EntryId,
    /// The leaf number, counted from 0.
    pub number: u64,
    /// The time when the entry arrived at the office, by the office's clock.
    pub received_at: UtcMillis,
    /// The audit path to the root of the last checkpoint, from the leaf upwards.
    pub path: Vec<Digest>,
    /// The subject in the leaf; `None` in a leaf of version one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub about: Option<Subject>,
}

impl Leaf {
    /// Returns the leaf's hash in the log's tree.
    pub fn hash(&self) -> Digest {
        LogLeaf { entry: self.entry, received_at: self.received_at, about: self.about }.hash()
    }
}

/// What the last checkpoint commits to about one visit.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct VisitHead {
    /// The subject, which is the visit.
    pub about: Subject,
    /// The number of entries about the visit in the log.
    pub count: u64,
    /// The tree hash over their ids, in the order of the log.
    pub root: Digest,
    /// The path from the visit's place in the map of heads to the root.
    pub path: Vec<Digest>,
}

/// A checkpoint that an entry here names as seen by its device, and its place in the log.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SeenBefore {
    /// The size of the checkpoint, at least 1.
    pub size: u64,
    /// The root of the checkpoint.
    pub root: Digest,
    /// The consistency proof from it to the last checkpoint here.
    pub path: Vec<Digest>,
    /// The last leaf that the checkpoint covers. The checkpoint was signed no earlier than that leaf arrived.
    pub last: Leaf,
}

/// An entry of a device's chain that belongs to another record and is given by its id alone.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Numbered {
    /// The entry's number in the device's chain.
    pub seq: u64,
    /// The entry's id.
    pub entry: EntryId,
}

/// The part of a device's chain that lies between its entries here.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ElsewhereInChain {
    /// The device.
    pub device: DeviceId,
    /// The device's entries in other records between its first and its last entry here, in ascending order.
    pub elsewhere: Vec<Numbered>,
    /// The numbers that the office does not hold either, as first and last number of each run.
    pub missing: Vec<(u64, u64)>,
}

/// An RFC 3161 time stamp over a checkpoint.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Token {
    /// The size of the stamped checkpoint.
    pub size: u64,
    /// The token (DER).
    pub token: ByteBuf,
}

/// The content of `log.cbor`: the proofs from the log.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Log {
    /// The signed checkpoints in ascending order of size. The last one covers every entry here.
    pub checkpoints: Vec<String>,
    /// The consistency proof from each checkpoint to the next.
    pub consistency: Vec<Vec<Digest>>,
    /// The place of every entry here, ordered by number.
    pub leaves: Vec<Leaf>,
    /// The chains of the devices, ordered by device.
    pub chains: Vec<ElsewhereInChain>,
    /// The time stamps on checkpoints.
    pub tokens: Vec<Token>,
    /// The heads of the stay's visits, ordered by visit; absent if the last checkpoint contains no heads.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub heads: Vec<VisitHead>,
    /// The checkpoints that entries here name as seen, ordered by size and root.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub seen: Vec<SeenBefore>,
    /// Photographs of the stay that entries of other visits name too, in ascending order, each with the
    /// number of those visits.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub photos_elsewhere: Vec<(Digest, u64)>,
}

/// The four CBOR attachments in decoded form, and the names beside them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Parts {
    /// The entries.
    pub entries: Entries,
    /// The certificates.
    pub certificates: Certificates,
    /// The receipts.
    pub receipts: Receipts,
    /// The proofs from the log.
    pub log: Log,
    /// The names of the people in the entries, in ascending order of their commitments.
    pub names: Vec<PersonName>,
}

/// The size in bytes up to which the number of data items in a record is not limited.
const FEW_BYTES: usize = 40_000;

/// Counts the CBOR data items in `bytes` without decoding their content, as far as they can be told apart.
fn items_of(bytes: &[u8]) -> usize {
    let (mut at, mut items) = (0usize, 0usize);
    while let Some(head) = bytes.get(at) {
        let (kind, size) = (head >> 5, head & 31);
        let following = match size {
            0..=23 => 0,
            24 => 1,
            25 => 2,
            26 => 4,
            27 => 8,
            _ => break,
        };
        let Some(argument) = bytes.get(at + 1..at + 1 + following) else { break };
        let argument = argument.iter().fold(0u64, |sum, byte| (sum << 8) | u64::from(*byte));
        let value = if following == 0 { u64::from(size) } else { argument };
        let held = if matches!(kind, 2 | 3) { usize::try_from(value).unwrap_or(usize::MAX) } else { 0 };
        items += 1;
        at = at.saturating_add(1 + following).saturating_add(held);
    }
    items
}

/// Reads one attachment and accepts only its deterministic encoding. Decoding goes directly into the target
/// form, so hostile bytes take at most about thirty times their length in memory.
///
/// # Errors
/// [`PartsError::Unreadable`] if the bytes do not have this form.
pub fn read<T: Serialize + DeserializeOwned>(name: &'static str, bytes: &[u8]) -> Result<T, PartsError> {
    let refuse = |why: String| PartsError::Unreadable { name, why };
    if bytes.len() > LARGEST_RECORD {
        return Err(refuse(format!("it has {} bytes, {LARGEST_RECORD} is the most", bytes.len())));
    }
    if bytes.len() > FEW_BYTES && items_of(bytes) > bytes.len() / 4 {
        return Err(refuse("it has more data items than a quarter of its bytes".to_owned()));
    }
    let part: T =
        ciborium::de::from_reader_with_recursion_limit(bytes, 16).map_err(|e| refuse(e.to_string()))?;
    match cbor::encode(&part) {
        Ok(again) if again == bytes => Ok(part),
        _ => Err(refuse("it is not in deterministic encoding".to_owned())),
    }
}

impl Entries {
    /// Reads `entries.cbor`.
    ///
    /// # Errors
    /// [`PartsError::Unreadable`] if the bytes do not have this form.
    pub fn from_bytes(bytes: &[u8]) -> Result<Entries, PartsError> {
        let entries: Entries = read(super::ENTRIES, bytes)?;
        if entries.format == FORMAT {
            Ok(entries)
        } else {
            let why = format!("its format is \"{}\", this version knows \"{FORMAT}\"", entries.format);
            Err(PartsError::Unreadable { name: super::ENTRIES, why })
        }
    }
}

/// Returns the encoding of an attachment.
///
/// # Errors
/// [`PartsError::Unwritable`] if encoding fails.
pub fn write<T: Serialize>(part: &T) -> Result<Vec<u8>, PartsError> {
    cbor::encode(part).map_err(|e| PartsError::Unwritable(e.into()))
}

/// The most checkpoints in a packet.
pub(super) const MOST_CHECKPOINTS: usize = 16;
/// The most time stamps in a packet.
pub(super) const MOST_TOKENS: usize = 64;

impl Log {
    /// Reads `log.cbor`.
    ///
    /// # Errors
    /// [`PartsError::Unreadable`] if the bytes do not have this form.
    pub(super) fn from_bytes(bytes: &[u8]) -> Result<Log, PartsError> {
        let log: Log = read(super::LOG, bytes)?;
        if log.checkpoints.len() > MOST_CHECKPOINTS || log.tokens.len() > MOST_TOKENS {
            let why = format!("it has more than {MOST_CHECKPOINTS} checkpoints or {MOST_TOKENS} time stamps");
            return Err(PartsError::Unreadable { name: super::LOG, why });
        }
        Ok(log)
    }
}

impl Parts {
    /// Returns the encodings with their file names.
    ///
    /// # Errors
    /// [`PartsError::Unwritable`] if encoding fails.
    pub fn files(&self) -> Result<Vec<(&'static str, Vec<u8>)>, PartsError> {
        let mut files = vec![
            (super::ENTRIES, write(&self.entries)?),
            (super::CERTIFICATES, write(&self.certificates)?),
            (super::RECEIPTS, write(&self.receipts)?),
            (super::LOG, write(&self.log)?),
        ];
        if !self.names.is_empty() {
            files.push((super::NAMES, write(&NamesFile { names: self.names.clone() })?));
        }
        Ok(files)
    }
}
