//! Identifiers: one newtype per kind of thing, so that they cannot be mixed up.
//!
//! An entry's id is the SHA-256 of its signed bytes and a device's id is its Ed25519 public key, so anybody
//! who holds the bytes can check both. A car's id is computed from its number and a visit's from its site and
//! a nonce. All other ids are random and come from the injected [`Randomness`] (invariant 5).

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use crate::text;
use std::fmt;

/// A source of random bytes: the operating system in a shell, a seed in a simulation.
pub trait Randomness: Send {
    /// Fills `bytes` with random bytes.
    fn fill(&mut self, bytes: &mut [u8]);
}

#[cfg(test)]
impl Randomness for farsiding_testkit::Dice {
    fn fill(&mut self, bytes: &mut [u8]) {
        farsiding_testkit::Dice::fill(self, bytes);
    }
}

/// The error for a text that is not an id: its length or alphabet is wrong.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("\"{text}\" is not a {what}: {expected} hexadecimal digits are expected")]
pub struct IdError {
    /// The given text.
    pub text: String,
    /// The kind of id that was expected.
    pub what: &'static str,
    /// The number of hexadecimal digits that such an id has.
    pub expected: usize,
}

pub(crate) fn to_hex(bytes: &[u8]) -> String {
    const DIGITS: &[u8; 16] = b"0123456789abcdef";
    bytes
        .iter()
        .flat_map(|b| [DIGITS[usize::from(b >> 4)], DIGITS[usize::from(b & 15)]])
        .map(char::from)
        .collect()
}

pub(crate) fn from_hex<const N: usize>(text: &str) -> Option<[u8; N]> {
    let digits = text.as_bytes();
    if digits.len() != 2 * N {
        return None;
    }
    let mut bytes = [0u8; N];
    for (byte, pair) in bytes.iter_mut().zip(digits.chunks_exact(2)) {
        let high = char::from(pair[0]).to_digit(16)?;
        let low = char::from(pair[1]).to_digit(16)?;
        *byte = u8::try_from(high * 16 + low).ok()?;
    }
    Some(bytes)
}

/// Reads fixed-length bytes from a byte string or, in human-readable formats, from a hexadecimal text. CBOR
/// text is refused, because every verifier must accept the same single form of an id.
pub(crate) fn deserialize_bytes<'de, D: Deserializer<'de>, const N: usize>(
    deserializer: D,
    what: &'static str,
) -> Result<[u8; N], D::Error> {
    struct Visitor<const N: usize>(&'static str, bool);
    impl<const N: usize> de::Visitor<'_> for Visitor<N> {
        type Value = [u8; N];
        fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            write!(f, "a {} of {N} bytes", self.0)
        }
        fn visit_bytes<E: de::Error>(self, bytes: &[u8]) -> Result<[u8; N], E> {
            bytes.try_into().map_err(|_| E::invalid_length(bytes.len(), &self))
        }
        fn visit_str<E: de::Error>(self, text: &str) -> Result<[u8; N], E> {
            from_hex(text)
                .filter(|_| self.1)
                .ok_or_else(|| E::invalid_value(de::Unexpected::Str(text), &self))
        }
    }
    let for_people = deserializer.is_human_readable();
    deserializer.deserialize_any(Visitor::<N>(what, for_people))
}

macro_rules! byte_id {
    ($(#[$doc:meta])* $name:ident, $length:literal, $what:literal) => {
        $(#[$doc])*
        #[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[cfg_attr(test, derive(ts_rs::TS), ts(type = "string"))]
        pub struct $name(pub [u8; $length]);

        impl $name {
            /// Returns the raw bytes.
            pub fn as_bytes(&self) -> &[u8; $length] { &self.0 }
            /// Parses the hexadecimal text form.
            ///
            /// # Errors
            /// [`IdError`] if the text has the wrong length or alphabet.
            pub fn read(text: &str) -> Result<Self, IdError> {
                from_hex(text.trim()).map(Self).ok_or_else(|| IdError {
                    text: text.to_owned(), what: $what, expected: 2 * $length,
                })
            }
            /// Returns the first eight hexadecimal digits, enough for people to tell two ids apart.
            pub fn short(&self) -> String { to_hex(&self.0[..4]) }
        }
        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result { f.write_str(&to_hex(&self.0)) }
        }
        impl fmt::Debug for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "{}({})", stringify!($name), self.short())
            }
        }
        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                if serializer.is_human_readable() {
                    serializer.serialize_str(&to_hex(&self.0))
                } else {
                    serializer.serialize_bytes(&self.0)
                }
            }
        }
        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                deserialize_bytes(deserializer, $what).map($name)
            }
        }
    };
}

macro_rules! random_id {
    ($($name:ident),*) => { $(
        impl $name {
            /// Creates a new random id.
            pub fn random(randomness: &mut dyn Randomness) -> Self {
                let mut bytes = [0u8; 16];
                randomness.fill(&mut bytes);
                Self(bytes)
            }
        }
    )* };
}

byte_id!(
    /// One car's stay, from placement to release.
    VisitId, 16, "visit id");
byte_id!(
    /// The random bytes from which, together with the site, a visit's id is computed.
    VisitNonce, 16, "visit nonce");
byte_id!(
    /// One siding with its tanks, instruments and people.
    SiteId, 16, "site id");
byte_id!(
    /// A car, identified by its normalised number, so that independently created documents about a car are
    /// the same document.
    CarId, 16, "car id");
byte_id!(
    /// The organisation that runs the sites and the server.
    OrganisationId, 16, "organisation id");
byte_id!(
    /// A defect noted on a car.
    DefectId, 16, "defect id");
byte_id!(
    /// A hold: somebody has said that work must stop.
    HoldId, 16, "hold id");
byte_id!(
    /// An incident of a visit.
    IncidentId, 16, "incident id");
byte_id!(
    /// A leak found during a visit.
    LeakId, 16, "leak id");
byte_id!(
    /// A note for the next visit of a car.
    NoteId, 16, "note id");
byte_id!(
    /// SHA-256 of an entry's signed bytes.
    EntryId, 32, "entry id");
byte_id!(
    /// A device, identified by its Ed25519 public key.
    DeviceId, 32, "device id");
byte_id!(
    /// A SHA-256 digest: of a photograph, a procedure or a change, for example.
    Digest, 32, "digest");

impl DeviceId {
    /// Returns the fingerprint of the key for reading aloud: its first sixteen hexadecimal digits in groups
    /// of four.
    pub fn fingerprint(&self) -> String {
        let digits = self.to_string();
        [&digits[0..4], &digits[4..8], &digits[8..12], &digits[12..16]].join(" ")
    }
}

impl OrganisationId {
    /// Returns the id of the organisation with this root key: the first sixteen bytes of the key's SHA-256.
    pub fn of_key(key: &DeviceId) -> OrganisationId {
        let mut id = [0u8; 16];
        id.copy_from_slice(&Digest::of(&key.0).0[..16]);
        OrganisationId(id)
    }
}

random_id!(VisitId, VisitNonce, SiteId, OrganisationId, DefectId, HoldId, IncidentId, LeakId, NoteId);

impl VisitId {
    /// Returns the id of a visit that begins at a site: the first sixteen bytes of the SHA-256 of a fixed
    /// text, the site and the nonce.
    ///
    /// Anybody who knows the nonce can check at which site the visit began, and nobody can later claim the
    /// visit for another site.
    ///
    /// ```
    /// use farsiding_core::ids::{SiteId, VisitId, VisitNonce};
    ///
    /// let (site, nonce) = (SiteId([1; 16]), VisitNonce([2; 16]));
    /// let visit = VisitId::at_site(site, nonce);
    /// assert_eq!(visit, VisitId::at_site(site, nonce));
    /// assert_ne!(visit, VisitId::at_site(SiteId([3; 16]), nonce));
    /// ```
    pub fn at_site(site: SiteId, nonce: VisitNonce) -> VisitId {
        let mut made_from = b"farsiding visit 2".to_vec();
        made_from.extend_from_slice(&site.0);
        made_from.extend_from_slice(&nonce.0);
        let mut id = [0u8; 16];
        id.copy_from_slice(&Digest::of(&made_from).0[..16]);
        VisitId(id)
    }
}

impl Digest {
    /// Returns the SHA-256 of `bytes`.
    ///
    /// ```
    /// use farsiding_core::ids::{Digest, EntryId};
    ///
    /// // An entry's id is the digest of its signed bytes.
    /// let bytes = b"signed bytes";
    /// let id = EntryId(Digest::of(bytes).0);
    /// assert_eq!(id.short().len(), 8);
    /// assert_ne!(id, EntryId(Digest::of(b"other bytes").0));
    /// ```
    pub fn of(bytes: &[u8]) -> Digest {
        use sha2::Digest as _;
        Digest(sha2::Sha256::digest(bytes).into())
    }
}

/// The person who makes an entry, by the short code that the organisation uses for the person: 1 to 64
/// characters.
#[derive(Clone, PartialEq, Eq, Hash, PartialOrd, Ord, Debug, Serialize, Deserialize)]
#[serde(transparent)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct OperatorId(pub String);

/// The most characters in a person's code.
pub const LONGEST_CODE: usize = 64;

impl OperatorId {
    /// Returns true if the code is permitted: 1 to 64 printable characters, with no blank at either end.
    pub fn is_in_bounds(&self) -> bool {
        let count = self.0.chars().take(LONGEST_CODE + 1).count();
        (1..=LONGEST_CODE).contains(&count)
            && self.0.trim() == self.0
            && self.0.chars().all(text::is_printable)
    }

    /// Returns the code as it is shown. A code outside the limits is shortened and stripped of unprintable
    /// characters; if nothing remains, the result is "(no code)". The entry itself keeps the code as signed.
    pub fn in_bounds(&self) -> OperatorId {
        if self.is_in_bounds() {
            return self.clone();
        }
        let printable = self.0.chars().filter(|c| text::is_printable(*c)).take(LONGEST_CODE);
        let shown: String = printable.collect();
        let shown = shown.trim();
        OperatorId(if shown.is_empty() { "(no code)".to_owned() } else { shown.to_owned() })
    }
}

impl fmt::Display for OperatorId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// The subject of a document. Its text form is `visit:…`, `car:…`, `site:…` or `roster:…`.
///
/// ```
/// use farsiding_core::ids::{Subject, VisitId};
///
/// let subject = Subject::Visit(VisitId([0xab; 16]));
/// assert_eq!(subject.to_string(), format!("visit:{}", "ab".repeat(16)));
/// assert_eq!(Subject::from_bytes(&subject.to_bytes()), Some(subject));
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Debug)]
pub enum Subject {
    /// One stay of one car.
    Visit(VisitId),
    /// What is known about a car, independent of a single stay.
    Car(CarId),
    /// One siding.
    Site(SiteId),
    /// The people of an organisation.
    Roster(OrganisationId),
}

impl Subject {
    /// Returns kind and id as 17 bytes, the form used in CBOR and as a database key.
    pub fn to_bytes(self) -> [u8; 17] {
        let (kind, id) = match self {
            Subject::Visit(id) => (b'v', id.0),
            Subject::Car(id) => (b'c', id.0),
            Subject::Site(id) => (b's', id.0),
            Subject::Roster(id) => (b'r', id.0),
        };
        let mut bytes = [kind; 17];
        bytes[1..].copy_from_slice(&id);
        bytes
    }

    /// Reads the form written by [`Subject::to_bytes`]. Returns `None` for any other bytes.
    pub fn from_bytes(bytes: &[u8]) -> Option<Subject> {
        let (kind, id) = bytes.split_first()?;
        let id: [u8; 16] = id.try_into().ok()?;
        match kind {
            b'v' => Some(Subject::Visit(VisitId(id))),
            b'c' => Some(Subject::Car(CarId(id))),
            b's' => Some(Subject::Site(SiteId(id))),
            b'r' => Some(Subject::Roster(OrganisationId(id))),
            _ => None,
        }
    }

    /// Parses the text form. Returns `None` for any other text.
    pub fn read(text: &str) -> Option<Subject> {
        let (kind, id) = text.split_once(':')?;
        let id: [u8; 16] = from_hex(id)?;
        let mut bytes = vec![*kind.as_bytes().first()?];
        bytes.extend_from_slice(&id);
        let subject = Subject::from_bytes(&bytes)?;
        (subject.kind() == kind).then_some(subject)
    }

    /// Returns `visit`, `car`, `site` or `roster`.
    pub fn kind(self) -> &'static str {
        match self {
            Subject::Visit(_) => "visit",
            Subject::Car(_) => "car",
            Subject::Site(_) => "site",
            Subject::Roster(_) => "roster",
        }
    }
}

impl fmt::Display for Subject {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}", self.kind(), to_hex(&self.to_bytes()[1..]))
    }
}

impl Serialize for Subject {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        if serializer.is_human_readable() {
            serializer.collect_str(self)
        } else {
            serializer.serialize_bytes(&self.to_bytes())
        }
    }
}

impl<'de> Deserialize<'de> for Subject {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Visitor(bool);
        impl de::Visitor<'_> for Visitor {
            type Value = Subject;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a subject: its kind and a 16 byte id")
            }
            fn visit_bytes<E: de::Error>(self, bytes: &[u8]) -> Result<Subject, E> {
                Subject::from_bytes(bytes)
                    .ok_or_else(|| E::invalid_value(de::Unexpected::Bytes(bytes), &self))
            }
            fn visit_str<E: de::Error>(self, text: &str) -> Result<Subject, E> {
                Subject::read(text)
                    .filter(|_| self.0)
                    .ok_or_else(|| E::invalid_value(de::Unexpected::Str(text), &self))
            }
        }
        let for_people = deserializer.is_human_readable();
        deserializer.deserialize_any(Visitor(for_people))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_code_has_one_to_sixty_four_printable_characters() {
        for code in ["a", "op-a", "Ana María", "車", &"é".repeat(64)] {
            assert!(OperatorId(code.to_owned()).is_in_bounds(), "{code}");
            assert_eq!(OperatorId(code.to_owned()).in_bounds().0, code);
        }
        for (code, shown) in [
            ("", "(no code)"),
            ("  ", "(no code)"),
            ("\u{200b}", "(no code)"),
            ("op\u{202e}a", "opa"),
            ("op\na", "opa"),
            (" op", "op"),
        ] {
            assert!(!OperatorId(code.to_owned()).is_in_bounds(), "{code:?}");
            assert_eq!(OperatorId(code.to_owned()).in_bounds().0, shown);
        }
        assert_eq!(OperatorId("x".repeat(65)).in_bounds().0.len(), 64);
    }

    #[test]
    fn an_id_reads_back_from_its_text_and_refuses_others() {
        let id = VisitId([0xa5; 16]);
        assert_eq!(VisitId::read(&id.to_string()), Ok(id));
        assert!(VisitId::read("a5").is_err());
        assert!(VisitId::read(&"zz".repeat(16)).is_err());
    }

    #[test]
    fn a_subject_reads_back_from_text_and_bytes() {
        for subject in [Subject::Visit(VisitId([1; 16])), Subject::Roster(OrganisationId([2; 16]))] {
            assert_eq!(Subject::read(&subject.to_string()), Some(subject));
            assert_eq!(Subject::from_bytes(&subject.to_bytes()), Some(subject));
        }
        assert_eq!(Subject::read("vat:00"), None);
    }
}
