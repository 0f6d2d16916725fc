//! The forms of the CBOR attachments. Field names are wire format; all are deterministic CBOR.

use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use serde_bytes::ByteBuf;

use super::{FORMAT, LARGEST_RECORD};
use crate::clock::UtcMillis;
use crate::entry::{EntryError, cbor};
use crate::ids::{DeviceId, Digest, EntryId, Subject, VisitId};
use crate::tree::LogLeaf;

/// Why an attachment cannot be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PartsError {
    /// Not of this form.
    #[error("{name} cannot be read: {why}")]
    Unreadable {
        /// Which file.
        name: &'static str,
        /// Why.
        why: String,
    },
    /// It could not be written.
    #[error("the packet cannot be written: {0}")]
    Unwritable(#[from] EntryError),
}

/// `entries.cbor`: the exact signed bytes. Each list is in the order of the log.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Entries {
    /// Always [`FORMAT`].
    pub format: String,
    /// The visits of the stay, ascending.
    pub stay: Vec<VisitId>,
    /// What was recorded during the stay.
    pub visit: Vec<ByteBuf>,
    /// What was known of the car besides, up to the stay's last entry.
    pub car: Vec<ByteBuf>,
    /// What was known of the site: its name, zone, instruments, hoses, tanks.
    pub site: Vec<ByteBuf>,
    /// Who the people are.
    pub roster: Vec<ByteBuf>,
}

impl Entries {
    /// All of them, list after list.
    pub fn all(&self) -> impl Iterator<Item = &ByteBuf> {
        self.lists().into_iter().flat_map(|(_, list)| list)
    }

    /// The four lists with their names.
    pub fn lists(&self) -> [(&'static str, &Vec<ByteBuf>); 4] {
        [("visit", &self.visit), ("car", &self.car), ("site", &self.site), ("roster", &self.roster)]
    }
}

/// `certificates.cbor`: the newest certificate of every device that signed an entry here, by device.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Certificates {
    /// The exact signed bytes.
    pub certificates: Vec<ByteBuf>,
}

/// `receipts.cbor`: the office's receipts that cover entries here, ascending by their bytes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Receipts {
    /// Each a [`crate::log::Receipt`] in its stored form.
    pub receipts: Vec<ByteBuf>,
}

/// An entry's place in the log.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Leaf {
    /// The entry.
    pub entry: EntryId,
    /// Its number in the log, from 0.
    pub number: u64,
    /// When the office first held it, by its clock.
    pub received_at: UtcMillis,
    /// Its audit path in the tree of the last checkpoint, from the leaf upwards.
    pub path: Vec<Digest>,
    /// What the leaf says the entry is about; nothing in a leaf of version one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub about: Option<Subject>,
}

impl Leaf {
    /// The leaf's hash in the log's tree.
    pub fn hash(&self) -> Digest {
        LogLeaf { entry: self.entry, received_at: self.received_at, about: self.about }.hash()
    }
}

/// What the last checkpoint says of one visit as a whole.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct VisitHead {
    /// The visit.
    pub about: Subject,
    /// How many entries the log held about it.
    pub count: u64,
    /// The tree hash over their ids, in the order of the log.
    pub root: Digest,
    /// The way from its place in the map of heads upwards.
    pub path: Vec<Digest>,
}

/// A checkpoint that an entry here says its device had been shown before it was made, and its place in the log.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SeenBefore {
    /// Its size, 1 or more.
    pub size: u64,
    /// Its root.
    pub root: Digest,
    /// The consistency proof from there to the last checkpoint here.
    pub path: Vec<Digest>,
    /// The last leaf it covers: it was signed no earlier than this came in.
    pub last: Leaf,
}

/// Another entry of a device's chain, of another record, given by its id alone.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Numbered {
    /// Its number on the device.
    pub seq: u64,
    /// Its id.
    pub entry: EntryId,
}

/// What lies between a device's entries here.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ElsewhereInChain {
    /// The device.
    pub device: DeviceId,
    /// Its entries between its first and its last here that belong to other records, ascending.
    pub elsewhere: Vec<Numbered>,
    /// Numbers the office does not hold either, as first and last of each run.
    pub missing: Vec<(u64, u64)>,
}

/// An RFC 3161 time stamp over a checkpoint.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Token {
    /// Size of the checkpoint it stamps.
    pub size: u64,
    /// The token, DER.
    pub token: ByteBuf,
}

/// `log.cbor`: what the log proves.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Log {
    /// Signed checkpoints, smallest first; the last covers every entry here.
    pub checkpoints: Vec<String>,
    /// Consistency proof from each checkpoint to the next.
    pub consistency: Vec<Vec<Digest>>,
    /// The place of every entry here, by number.
    pub leaves: Vec<Leaf>,
    /// The chains of the devices, by device.
    pub chains: Vec<ElsewhereInChain>,
    /// Time stamps over checkpoints.
    pub tokens: Vec<Token>,
    /// The heads of the stay's visits, by visit; absent where the last checkpoint says nothing of them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub heads: Vec<VisitHead>,
    /// The checkpoints that entries here had seen, by size and root.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub seen: Vec<SeenBefore>,
    /// Photographs of the stay that entries of other visits name as well, ascending, each with how many visits.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub photos_elsewhere: Vec<(Digest, u64)>,
}

/// The four CBOR attachments, read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Parts {
    /// The entries.
    pub entries: Entries,
    /// The certificates.
    pub certificates: Certificates,
    /// The receipts.
    pub receipts: Receipts,
    /// The log's word.
    pub log: Log,
}

/// Records up to this length may have any number of data items, bytes.
const FEW_BYTES: usize = 40_000;

/// How many CBOR data items stand in a row, without reading what they hold; counted as far as they can be told apart.
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

/// Reads one attachment; nothing but the one encoding is accepted. Read straight into its form, so that
/// hostile bytes cost no more memory than about thirty times their length.
///
/// # Errors
/// [`PartsError::Unreadable`].
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
    /// [`PartsError::Unreadable`], as for the others.
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

/// The encoding of an attachment.
///
/// # Errors
/// [`PartsError::Unwritable`].
pub fn write<T: Serialize>(part: &T) -> Result<Vec<u8>, PartsError> {
    cbor::encode(part).map_err(|e| PartsError::Unwritable(e.into()))
}

/// Checkpoints in a packet at most.
pub(super) const MOST_CHECKPOINTS: usize = 16;
/// Time stamps in a packet at most.
pub(super) const MOST_TOKENS: usize = 64;

impl Log {
    /// Reads `log.cbor`.
    ///
    /// # Errors
    /// [`PartsError::Unreadable`].
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
    /// The encodings by file name.
    ///
    /// # Errors
    /// [`PartsError::Unwritable`].
    pub fn files(&self) -> Result<[(&'static str, Vec<u8>); 4], PartsError> {
        Ok([
            (super::ENTRIES, write(&self.entries)?),
            (super::CERTIFICATES, write(&self.certificates)?),
            (super::RECEIPTS, write(&self.receipts)?),
            (super::LOG, write(&self.log)?),
        ])
    }
}
