//! The entry: its fields, how it is signed, and how it is checked and read.

use serde::{Deserialize, Serialize};

use super::cbor;
use super::error::EntryError;
use super::hand::{Hand, holds_over};
use super::key::{DeviceKey, PersonSigner, open_envelope, slice_envelope};
use super::rests_on::{self, RestsOn};
use super::seen::{SeenLog, is_of_the_form};
use super::site_facts::LARGEST_PROCEDURE;
use super::slot::SlotParts;
use super::statement::Statement;
use super::value_reader::from_cbor;
use super::value_writer::to_value;
use super::vocabulary::Position;
use crate::clock::{Stamp, UtcMillis};
use crate::ids::{DeviceId, Digest, EntryId, OperatorId, Subject, VisitId};

/// The largest entry accepted, in bytes. An outage table of a thousand rows fits. An entry that publishes a
/// procedure may be larger by the text of one.
pub const LARGEST_ENTRY: usize = 32 * 1024;

const PURPOSE: &str = "farsiding entry 1";

/// The signed content of an entry. The field names are wire format. Times and the chain are claims of the
/// device.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Body {
    /// The subject of the entry, which determines the document it belongs to.
    pub about: Subject,
    /// The slot that the entry concerns within the document.
    pub slot: String,
    /// The statement.
    pub says: Statement,
    /// The entries of the slot after which this one comes: the state changed, and none of them was wrong.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub follows: Vec<EntryId>,
    /// The entries that this one replaces because they were wrong; `why` states the reason.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub replaces: Vec<EntryId>,
    /// The reason. It is required when an entry is replaced, a blocker is passed over, or a car is released
    /// despite one.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub why: String,
    /// The person who makes the entry.
    pub by: OperatorId,
    /// The number of the entry: 1, 2, 3, … over all entries of the device.
    pub seq: u64,
    /// The device's previous entry in any document; absent for its first one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub prev: Option<EntryId>,
    /// The time of the entry by the device.
    pub when: Stamp,
    /// The time at which the thing was done, by the device's clock, if the person states that it was earlier than
    /// the entry. It is a claim, beside the time of the entry; the order of the record keeps to the entry's time.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub done: Option<UtcMillis>,
    /// The entry of another car on the same track that this one rests on: what it says was seen there, and whoever
    /// made this entry says that it is still so. It counts as long as that entry does.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rests_on: Option<RestsOn>,
    /// The position, if the device was permitted to record it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<Position>,
    /// The newest checkpoint of the office's log that the device had seen; present only in the first entry
    /// after that.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seen: Option<SeenLog>,
    /// The person's own signature over all other fields, for acts that bind the person.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hand: Option<Hand>,
}

impl Body {
    /// Returns the slot that the entry concerns. The statement determines it; the `slot` field counts only
    /// for statements that do not (an agreement, a withdrawal, an unknown kind).
    pub fn speaks_of(&self) -> String {
        match &self.says {
            Statement::Agreement { .. } | Statement::Withdrawn {} | Statement::Unrecognised { .. } => {
                self.slot.clone()
            }
            says => says.slot(),
        }
    }

    /// Returns the other visit if the entry states or settles whether two visits are one stay. Such an entry
    /// stands in the documents of both, so that a reader of either one learns of the other.
    pub fn joins(&self) -> Option<VisitId> {
        let SlotParts::Joined { other: named } = SlotParts::of(&self.slot) else { return None };
        let speaks_of_it = match &self.says {
            Statement::Joined { other } | Statement::NotJoined { other } => other.to_string() == named,
            Statement::Agreement { .. } | Statement::Withdrawn {} => true,
            _ => false,
        };
        VisitId::read(named).ok().filter(|_| speaks_of_it)
    }
}

/// A checked entry: its content, its signer, and the exact bytes.
///
/// ```
/// use farsiding_core::clock::{Stamp, UtcMillis};
/// use farsiding_core::entry::{Body, DeviceKey, Entry, Slot, Statement};
/// use farsiding_core::ids::{Digest, OperatorId, Subject, VisitId};
///
/// let body = Body {
///     about: Subject::Visit(VisitId([1; 16])),
///     slot: Slot::REMARKS.to_string(),
///     says: Statement::Remark { text: "light rain".into() },
///     follows: vec![],
///     replaces: vec![],
///     why: String::new(),
///     by: OperatorId("ada".into()),
///     seq: 1,
///     prev: None,
///     when: Stamp { at: UtcMillis(1_795_528_800_000), offset_minutes: -360, ahead_millis: None },
///     place: None,
///     seen: None,
///     hand: None,
///     done: None,
///     rests_on: None,
/// };
/// let key = DeviceKey::from_secret([7; 32]);
/// let entry = Entry::seal(body, &key)?;
/// assert_eq!(entry.id.0, Digest::of(entry.bytes()).0);
/// assert_eq!(Entry::open(entry.bytes())?.device, key.public());
///
/// let mut altered = entry.bytes().to_vec();
/// if let Some(last) = altered.last_mut() {
///     *last ^= 1;
/// }
/// assert!(Entry::open(&altered).is_err());
/// # Ok::<(), farsiding_core::entry::EntryError>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// The SHA-256 of the bytes.
    pub id: EntryId,
    /// The device that signed the entry.
    pub device: DeviceId,
    /// The signed content.
    pub body: Body,
    bytes: Vec<u8>,
}

impl Entry {
    /// Signs a body with the device's key.
    ///
    /// # Errors
    /// [`EntryError::NoReason`], [`EntryError::TooLarge`], or an encoding error.
    pub fn seal(body: Body, key: &DeviceKey) -> Result<Entry, EntryError> {
        if !body.replaces.is_empty() && body.why.trim().is_empty() {
            return Err(EntryError::NoReason);
        }
        let payload = cbor::encode(&body)?;
        // The body is read back from its encoding, so that the entry equals what every reader of its bytes
        // gets, whatever numbers the statement was made with.
        let body = read_quickly(&payload).unwrap_or(body);
        let bytes = key.seal(payload, PURPOSE);
        check_size(bytes.len(), Some(&body))?;
        Ok(Entry { id: EntryId(Digest::of(&bytes).0), device: key.public(), body, bytes })
    }

    /// Signs a body with a person's own key and then with the device's key.
    ///
    /// # Errors
    /// As for [`Entry::seal`].
    pub fn seal_by_hand(body: Body, person: &PersonSigner, key: &DeviceKey) -> Result<Entry, EntryError> {
        let plain = Body { hand: None, ..body };
        let hand = Hand::over(cbor::encode(&plain)?, key.public(), person);
        Entry::seal(Body { hand: Some(hand), ..plain }, key)
    }

    /// Checks bytes from any source: the envelope, the signature, the deterministic encoding, the shape, and
    /// the person's signature if there is one.
    ///
    /// A statement of an unknown kind is accepted and kept; everything else in the entry is checked.
    ///
    /// # Errors
    /// [`EntryError`]. The method does not panic on any bytes.
    pub fn open(bytes: &[u8]) -> Result<Entry, EntryError> {
        check_size(bytes.len(), None)?;
        let (device, payload) = open_envelope(bytes, PURPOSE)?;
        let value = cbor::decode_value(&payload)?;
        // A person's signature is over the value as it was read.
        let signed =
            value.as_map().is_some_and(|fields| fields.iter().any(|(key, _)| key.as_text() == Some("hand")));
        let signed = signed.then(|| value.clone());
        let body = read_body(value)?;
        check_size(bytes.len(), Some(&body))?;
        if let Some(hand) = &body.hand
            && !holds_over(hand, signed.unwrap_or(ciborium::Value::Null), device)?
        {
            return Err(EntryError::BadHand);
        }
        if !body.replaces.is_empty() && body.why.trim().is_empty() {
            return Err(EntryError::NoReason);
        }
        Ok(Entry { id: EntryId(Digest::of(bytes).0), device, body, bytes: bytes.to_vec() })
    }

    /// Does the same as [`Entry::open`] by the rules of version one, which did not know the field `hand` and
    /// therefore did not check it.
    ///
    /// # Errors
    /// As for [`Entry::open`].
    pub fn open_of_version_one(bytes: &[u8]) -> Result<Entry, EntryError> {
        check_size(bytes.len(), None)?;
        let (device, payload) = open_envelope(bytes, PURPOSE)?;
        let mut value = cbor::decode_value(&payload)?;
        if let Some(fields) = value.as_map_mut() {
            fields.retain(|(key, _)| key.as_text() != Some("hand"));
        }
        let body = read_body(value)?;
        check_size(bytes.len(), Some(&body))?;
        if !body.replaces.is_empty() && body.why.trim().is_empty() {
            return Err(EntryError::NoReason);
        }
        Ok(Entry { id: EntryId(Digest::of(bytes).0), device, body, bytes: bytes.to_vec() })
    }

    /// Reads bytes that [`Entry::open`] checked on arrival and whose digest was compared with `id` on
    /// reading. The signature is not checked again.
    ///
    /// # Errors
    /// [`EntryError`] if the bytes are not an entry.
    pub fn reopen(id: EntryId, bytes: Vec<u8>) -> Result<Entry, EntryError> {
        let (device, payload) = slice_envelope(&bytes).ok_or(EntryError::NotAnEnvelope)?;
        // Entries that the quick reader does not accept, such as statements of a later version, are passed to
        // the general reader.
        let body = match read_quickly(payload) {
            Some(body) => body,
            None => read_body(cbor::decode_value(payload)?)?,
        };
        Ok(Entry { id, device, body, bytes })
    }

    /// Returns the exact signed bytes.
    pub fn bytes(&self) -> &[u8] {
        &self.bytes
    }
}

/// Checks the size of an entry, before its body is read and afterwards.
fn check_size(bytes: usize, body: Option<&Body>) -> Result<(), EntryError> {
    let publishes = body.is_none_or(|body| matches!(body.says, Statement::ProcedurePublished(_)));
    let most = if publishes { LARGEST_ENTRY + LARGEST_PROCEDURE } else { LARGEST_ENTRY };
    if bytes > most { Err(EntryError::TooLarge(bytes)) } else { Ok(()) }
}

/// Decodes a body directly from its bytes, because hundreds of entries of a visit are read at once.
#[cfg(not(target_arch = "wasm32"))]
fn read_quickly(payload: &[u8]) -> Option<Body> {
    minicbor_serde::from_slice(payload).ok()
}

/// A second reader of every statement would make the browser's module larger by 60 kB as it is sent.
#[cfg(target_arch = "wasm32")]
fn read_quickly(payload: &[u8]) -> Option<Body> {
    from_cbor(&cbor::parse(payload).ok()?).ok()
}

/// Reads a body whose statement may be of a kind that this version does not know.
fn read_body(mut value: ciborium::Value) -> Result<Body, EntryError> {
    if let Some(fields) = value.as_map_mut() {
        fields.retain(|(key, value)| match key.as_text() {
            Some("seen") => is_of_the_form(value),
            Some("done") => is_a_time(value),
            Some("rests_on") => rests_on::is_of_the_form(value),
            _ => true,
        });
    }
    let shape = |m: &str| EntryError::Cbor(cbor::CborError::Unreadable(m.to_owned()));
    if value.as_map().is_some_and(|fields| fields.iter().any(|(key, place)| is_odd_place(key, place))) {
        return Err(shape("its place is not of the form"));
    }
    match from_cbor::<Body>(&value) {
        Ok(body) => Ok(body),
        Err(error) => {
            // The body is decoded a second time with a known statement in place of the unknown one, so that
            // all other fields are checked.
            let mut value = value;
            let fields = value.as_map_mut().ok_or_else(|| shape("not a map"))?;
            let says = fields
                .iter_mut()
                .find(|(key, _)| key.as_text() == Some("says"))
                .map(|(_, says)| says)
                .ok_or_else(|| shape("no statement"))?;
            let kind = statement_kind(says).ok_or_else(|| shape("a statement without a kind"))?;
            let known = Statement::Withdrawn {};
            *says = to_value(&known).map_err(|e| shape(&e.to_string()))?;
            let mut body: Body = from_cbor(&value).map_err(|_| shape(&error.to_string()))?;
            body.says = Statement::Unrecognised { kind };
            Ok(body)
        }
    }
}

/// Returns true if a value is a whole number of milliseconds. Versions that did not know the field `done` accepted
/// whatever stood there, so another value is treated as absent.
fn is_a_time(value: &ciborium::Value) -> bool {
    value.as_integer().is_some_and(|millis| i64::try_from(millis).is_ok())
}

/// Returns true if the field is a position that does not consist of exactly three finite numbers.
fn is_odd_place(key: &ciborium::Value, place: &ciborium::Value) -> bool {
    if key.as_text() != Some("place") || place.is_null() {
        return false;
    }
    let names = ["latitude", "longitude", "accuracy_m"];
    let right = |(name, value): &(ciborium::Value, ciborium::Value)| {
        name.as_text().is_some_and(|name| names.contains(&name))
            && value.as_float().is_some_and(f64::is_finite)
    };
    !place.as_map().is_some_and(|fields| fields.len() == names.len() && fields.iter().all(right))
}

fn statement_kind(says: &ciborium::Value) -> Option<String> {
    match says {
        ciborium::Value::Text(kind) => Some(kind.clone()),
        ciborium::Value::Map(pairs) => match pairs.as_slice() {
            [(ciborium::Value::Text(kind), _)] => Some(kind.clone()),
            _ => None,
        },
        _ => None,
    }
}
