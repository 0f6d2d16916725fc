//! The entry itself: its fields, how it is signed, how it is checked and read again.

use serde::{Deserialize, Serialize};

use super::cbor;
use super::error::EntryError;
use super::hand::{Hand, holds_over};
use super::key::{DeviceKey, PersonSigner, open_envelope, slice_envelope};
use super::seen::{SeenLog, is_of_the_form};
use super::slot::SlotParts;
use super::statement::Statement;
use super::vocabulary::Position;
use crate::clock::Stamp;
use crate::ids::{DeviceId, Digest, EntryId, OperatorId, Subject, VisitId};

/// The largest entry accepted, in bytes. An outage table of a thousand rows fits.
pub const LARGEST_ENTRY: usize = 32 * 1024;

const PURPOSE: &str = "farsiding entry 1";

/// What is signed. Field names are wire format; times and chain are the device's own claims.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Body {
    /// Which document it is about.
    pub about: Subject,
    /// What it speaks about within the document.
    pub slot: String,
    /// The statement.
    pub says: Statement,
    /// Entries of the slot that this one comes after: the state moved on, nobody was wrong.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub follows: Vec<EntryId>,
    /// Entries this one stands in place of: they were wrong, and `why` says how.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub replaces: Vec<EntryId>,
    /// The reason; required when something is replaced, passed over, or released over.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub why: String,
    /// The person.
    pub by: OperatorId,
    /// 1, 2, 3, … over all entries of the device.
    pub seq: u64,
    /// The device's entry before this one, across all documents; absent for its first.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub prev: Option<EntryId>,
    /// When, by the device.
    pub when: Stamp,
    /// Where, if the device was allowed to say.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<Position>,
    /// The newest checkpoint of the office's log the device had been shown, in the first entry after that.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seen: Option<SeenLog>,
    /// The person's own signature over all of the above, where the act binds the person.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hand: Option<Hand>,
}

impl Body {
    /// The slot it stands in. What it says decides; only where the statement does not tell (an agreement, a
    /// withdrawal, a kind unknown here) its own word is taken.
    pub fn speaks_of(&self) -> String {
        match &self.says {
            Statement::Agreement { .. } | Statement::Withdrawn {} | Statement::Unrecognised { .. } => {
                self.slot.clone()
            }
            says => says.slot(),
        }
    }

    /// The other visit, where this says or settles whether two visits are one stay. Such an entry stands
    /// in both their documents, so that whoever has one of them knows of the other.
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

/// A checked entry: its body, who signed it, and the exact bytes.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// SHA-256 of the bytes.
    pub id: EntryId,
    /// Who signed.
    pub device: DeviceId,
    /// What was signed.
    pub body: Body,
    bytes: Vec<u8>,
}

impl Entry {
    /// Signs a body.
    ///
    /// # Errors
    /// [`EntryError::NoReason`], [`EntryError::TooLarge`], or an encoding error.
    pub fn seal(body: Body, key: &DeviceKey) -> Result<Entry, EntryError> {
        if !body.replaces.is_empty() && body.why.trim().is_empty() {
            return Err(EntryError::NoReason);
        }
        let payload = cbor::encode(&body)?;
        // What is held here is what anybody reads in the bytes, whatever numbers the statement was made with.
        let body = minicbor_serde::from_slice::<Body>(&payload).unwrap_or(body);
        let bytes = key.seal(payload, PURPOSE);
        if bytes.len() > LARGEST_ENTRY {
            return Err(EntryError::TooLarge(bytes.len()));
        }
        Ok(Entry { id: EntryId(Digest::of(&bytes).0), device: key.public(), body, bytes })
    }

    /// Signs a body with a person's own key and then with the device's.
    ///
    /// # Errors
    /// As [`Entry::seal`].
    pub fn seal_by_hand(body: Body, person: &PersonSigner, key: &DeviceKey) -> Result<Entry, EntryError> {
        let plain = Body { hand: None, ..body };
        let hand = Hand::over(cbor::encode(&plain)?, key.public(), person);
        Entry::seal(Body { hand: Some(hand), ..plain }, key)
    }

    /// Checks bytes from anywhere: envelope, signature, deterministic encoding, shape, and the person's
    /// signature where there is one.
    ///
    /// A statement of an unknown kind is accepted and kept; everything else about it is checked.
    ///
    /// # Errors
    /// [`EntryError`]; never panics.
    pub fn open(bytes: &[u8]) -> Result<Entry, EntryError> {
        if bytes.len() > LARGEST_ENTRY {
            return Err(EntryError::TooLarge(bytes.len()));
        }
        let (device, payload) = open_envelope(bytes, PURPOSE)?;
        let value = cbor::decode_value(&payload)?;
        let body = read_body(value.clone())?;
        if let Some(hand) = &body.hand
            && !holds_over(hand, value, device)?
        {
            return Err(EntryError::BadHand);
        }
        if !body.replaces.is_empty() && body.why.trim().is_empty() {
            return Err(EntryError::NoReason);
        }
        Ok(Entry { id: EntryId(Digest::of(bytes).0), device, body, bytes: bytes.to_vec() })
    }

    /// As [`Entry::open`] for what version one read and sealed: `hand` was no field then and nobody looked at
    /// it, so it is not looked at here either.
    ///
    /// # Errors
    /// As [`Entry::open`].
    pub fn open_of_version_one(bytes: &[u8]) -> Result<Entry, EntryError> {
        if bytes.len() > LARGEST_ENTRY {
            return Err(EntryError::TooLarge(bytes.len()));
        }
        let (device, payload) = open_envelope(bytes, PURPOSE)?;
        let mut value = cbor::decode_value(&payload)?;
        if let Some(fields) = value.as_map_mut() {
            fields.retain(|(key, _)| key.as_text() != Some("hand"));
        }
        let body = read_body(value)?;
        if !body.replaces.is_empty() && body.why.trim().is_empty() {
            return Err(EntryError::NoReason);
        }
        Ok(Entry { id: EntryId(Digest::of(bytes).0), device, body, bytes: bytes.to_vec() })
    }

    /// Reads bytes that were checked by [`Entry::open`] when they came in and whose digest `id` was
    /// compared when they were read back; skips the signature.
    ///
    /// # Errors
    /// [`EntryError`] when the bytes are no entry at all.
    pub fn reopen(id: EntryId, bytes: Vec<u8>) -> Result<Entry, EntryError> {
        let (device, payload) = slice_envelope(&bytes).ok_or(EntryError::NotAnEnvelope)?;
        // Straight from the slice: a visit's hundreds of entries are read at once. What this reader does not
        // take (a statement of a later version, say) the careful one judges.
        let body = match minicbor_serde::from_slice::<Body>(payload) {
            Ok(body) => body,
            Err(_) => read_body(cbor::decode_value(payload)?)?,
        };
        Ok(Entry { id, device, body, bytes })
    }

    /// The exact signed bytes.
    pub fn bytes(&self) -> &[u8] {
        &self.bytes
    }
}

/// A body whose statement may be of a kind this version does not know.
fn read_body(mut value: ciborium::Value) -> Result<Body, EntryError> {
    if let Some(fields) = value.as_map_mut() {
        fields.retain(|(key, seen)| key.as_text() != Some("seen") || is_of_the_form(seen));
    }
    let shape = |m: &str| EntryError::Cbor(cbor::CborError::Unreadable(m.to_owned()));
    if value.as_map().is_some_and(|fields| fields.iter().any(|(key, place)| is_odd_place(key, place))) {
        return Err(shape("its place is not of the form"));
    }
    match value.deserialized::<Body>() {
        Ok(body) => Ok(body),
        Err(error) => {
            // Read again with the statement swapped for a known one, so that all else is checked.
            let mut value = value;
            let fields = value.as_map_mut().ok_or_else(|| shape("not a map"))?;
            let says = fields
                .iter_mut()
                .find(|(key, _)| key.as_text() == Some("says"))
                .map(|(_, says)| says)
                .ok_or_else(|| shape("no statement"))?;
            let kind = statement_kind(says).ok_or_else(|| shape("a statement without a kind"))?;
            let known = Statement::Withdrawn {};
            *says = ciborium::Value::serialized(&known).map_err(|e| shape(&e.to_string()))?;
            let mut body: Body = value.deserialized().map_err(|_| shape(&error.to_string()))?;
            body.says = Statement::Unrecognised { kind };
            Ok(body)
        }
    }
}

/// Whether this is a place that is not three finite numbers and nothing else.
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
