//! Signed notes (C2SP signed-note v1.0.0): a text followed by signature lines, each by a named key.
//!
//! This module parses notes, computes key ids, reads verifier keys and adds signature lines. The meaning of
//! the text is in `checkpoint`, and the signatures of witnesses are in `cosignature`.

use std::fmt;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest as _, Sha256};

use crate::entry::{PublicKey, text_signature_holds};
use crate::ids::DeviceId;

/// The longest accepted note, in bytes. The standard requires readers to accept sixteen signatures; this
/// leaves room for more than that, of up to 5 kB each, and for the text.
pub const LARGEST_NOTE: usize = 128 * 1024;

/// The signature type of a plain Ed25519 signature over the text.
pub(super) const PLAIN: u8 = 0x01;
/// The signature type of a witness's dated Ed25519 signature (C2SP tlog-cosignature, cosignature/v1).
pub(super) const COSIGNATURE: u8 = 0x04;

/// The reason why a text is not a signed note or is not signed as required.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NoteError {
    /// The text does not have the form of a signed note.
    #[error("this is no signed note: {0}")]
    Form(&'static str),
    /// No signature line is by the key.
    #[error("the note carries no signature by {0}")]
    NotSigned(String),
    /// A signature line is by the key, but its signature is invalid.
    #[error("the signature by {0} does not hold: the note was altered after it was signed, or never signed")]
    BadSignature(String),
}

/// One signature line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoteSignature {
    /// The key's name.
    pub name: String,
    /// The first four bytes of the digest of name, type and key.
    pub key_id: [u8; 4],
    /// The signature in the form that the key's type defines; at least one byte.
    pub signature: Vec<u8>,
}

impl NoteSignature {
    fn read(line: &str) -> Result<NoteSignature, NoteError> {
        let form = NoteError::Form("a line under the text is not a signature line");
        let rest = line.strip_prefix("\u{2014} ").ok_or(form.clone())?;
        let (name, encoded) = rest.split_once(' ').filter(|(name, _)| is_name(name)).ok_or(form.clone())?;
        let bytes = STANDARD.decode(encoded).map_err(|_| form.clone())?;
        let (key_id, signature) = bytes.split_first_chunk::<4>().ok_or(form.clone())?;
        if signature.is_empty() {
            return Err(form);
        }
        Ok(NoteSignature { name: name.to_owned(), key_id: *key_id, signature: signature.to_vec() })
    }

    /// Returns the line, including its line feed.
    pub fn line(&self) -> String {
        let bytes = [self.key_id.as_slice(), &self.signature].concat();
        format!("\u{2014} {} {}\n", self.name, STANDARD.encode(bytes))
    }
}

/// A parsed note. Its signatures are not checked yet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SignedNote {
    /// The signed text, including its last line feed.
    pub text: String,
    /// The signature lines.
    pub signatures: Vec<NoteSignature>,
}

impl SignedNote {
    /// Parses a note.
    ///
    /// # Errors
    /// [`NoteError::Form`] if the text is not a signed note.
    pub fn read(note: &str) -> Result<SignedNote, NoteError> {
        if note.len() > LARGEST_NOTE {
            return Err(NoteError::Form("it is too long"));
        }
        if note.bytes().any(|byte| byte < 0x20 && byte != b'\n') {
            return Err(NoteError::Form("it holds control characters"));
        }
        let end = note.rfind("\n\n").ok_or(NoteError::Form("there is no blank line before signatures"))?;
        let (text, lines) = (&note[..=end], &note[end + 2..]);
        let lines = lines.strip_suffix('\n').ok_or(NoteError::Form("its last line does not end"))?;
        let signatures = lines.split('\n').map(NoteSignature::read).collect::<Result<Vec<_>, _>>()?;
        Ok(SignedNote { text: text.to_owned(), signatures })
    }

    /// Checks the plain signature of a key.
    ///
    /// # Errors
    /// [`NoteError::NotSigned`] without a line by the key, [`NoteError::BadSignature`] if that line is
    /// invalid.
    pub fn check(&self, key: &VerifierKey) -> Result<(), NoteError> {
        let mut lines = self.lines_of(key).peekable();
        if lines.peek().is_none() {
            return Err(NoteError::NotSigned(key.name.clone()));
        }
        if lines.all(|line| text_signature_holds(&key.key, &self.text, &line.signature)) {
            Ok(())
        } else {
            Err(NoteError::BadSignature(key.name.clone()))
        }
    }

    /// Returns the lines that name a key. Lines by unknown keys prove nothing.
    pub(super) fn lines_of(&self, key: &VerifierKey) -> impl Iterator<Item = &NoteSignature> {
        let (name, id) = (key.name.clone(), key.id());
        self.signatures.iter().filter(move |line| line.name == name && line.key_id == id)
    }
}

impl fmt::Display for SignedNote {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "{}", self.text)?;
        self.signatures.iter().try_for_each(|line| f.write_str(&line.line()))
    }
}

/// Returns true if a text may name a key: it is not empty and has no spaces or plus signs.
fn is_name(text: &str) -> bool {
    !text.is_empty() && !text.chars().any(|c| c.is_whitespace() || c == '+' || c.is_control())
}

/// A public key with its name and signature type.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct VerifierKey {
    /// The key's name.
    pub name: String,
    /// The signature type: 1 for a plain signature, 4 for a witness's.
    pub kind: u8,
    /// The Ed25519 public key.
    pub key: PublicKey,
}

impl VerifierKey {
    /// Creates the verifier of a key that signs texts plainly.
    pub fn plain(name: &str, key: PublicKey) -> VerifierKey {
        VerifierKey { name: name.to_owned(), kind: PLAIN, key }
    }

    /// Creates the verifier of a witness's key.
    pub fn witness(name: &str, key: PublicKey) -> VerifierKey {
        VerifierKey { name: name.to_owned(), kind: COSIGNATURE, key }
    }

    /// Returns true if the key is a witness's.
    pub fn is_witness(&self) -> bool {
        self.kind == COSIGNATURE
    }

    /// Returns the key id: the first four bytes of SHA-256(name || 0x0a || type || key).
    pub fn id(&self) -> [u8; 4] {
        let digest: [u8; 32] = Sha256::new()
            .chain_update(self.name.as_bytes())
            .chain_update([b'\n', self.kind])
            .chain_update(self.key.0)
            .finalize()
            .into();
        [digest[0], digest[1], digest[2], digest[3]]
    }

    /// Parses the usual text form `name+id+key`. Returns `None` if it is malformed, is not an Ed25519 key, or
    /// its id does not match.
    pub fn read(text: &str) -> Option<VerifierKey> {
        let (name, rest) = text.trim().split_once('+').filter(|(name, _)| is_name(name))?;
        let (id, encoded) = rest.split_once('+')?;
        let bytes = STANDARD.decode(encoded).ok()?;
        let (kind, key) = bytes.split_first()?;
        let key = DeviceId(key.try_into().ok()?);
        let read = VerifierKey { name: name.to_owned(), kind: *kind, key };
        let known = matches!(*kind, PLAIN | COSIGNATURE);
        (known && crate::ids::from_hex::<4>(id) == Some(read.id())).then_some(read)
    }
}

impl fmt::Display for VerifierKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let bytes = [&[self.kind], self.key.0.as_slice()].concat();
        write!(f, "{}+{}+{}", self.name, crate::ids::to_hex(&self.id()), STANDARD.encode(bytes))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;

    /// The example of C2SP signed-note v1.0.0, key and note as printed there.
    const KEY: &str = "example.com/foo+530d903a+AekyeRrm56hApGFkyQR4ZCbV54Id2LKaANYcrnKv3U2k";
    const NOTE: &str = "This is an example message.\n\n\u{2014} example.com/foo \
        Uw2QOkn8srV1yJGh2VYRlL1Tnagv1YEq6TfXppzi2ONncAlTgK7Ztg1ERYNZXsYjOBH3mFXmRKuwHjG1Yu72IneyaQM=\n";

    #[test]
    fn the_standards_own_example_holds() {
        let key = VerifierKey::read(KEY).unwrap();
        assert_eq!(key.to_string(), KEY);
        let note = SignedNote::read(NOTE).unwrap();
        assert_eq!(note.text, "This is an example message.\n");
        assert_eq!(note.check(&key), Ok(()));
        assert_eq!(note.to_string(), NOTE);
    }

    #[test]
    fn an_altered_text_does_not_hold_and_a_strangers_line_says_nothing() {
        let key = VerifierKey::read(KEY).unwrap();
        let altered = SignedNote::read(&NOTE.replace("example message", "altered message")).unwrap();
        assert_eq!(altered.check(&key), Err(NoteError::BadSignature("example.com/foo".into())));
        let renamed = SignedNote::read(&NOTE.replace("\u{2014} example.com/foo", "\u{2014} other")).unwrap();
        assert_eq!(renamed.check(&key), Err(NoteError::NotSigned("example.com/foo".into())));
        let more = SignedNote::read(&format!("{NOTE}\u{2014} stranger AAAAAAAA\n")).unwrap();
        assert_eq!(more.check(&key), Ok(()));
    }

    #[test]
    fn what_is_no_note_is_refused_whatever_it_is() {
        for text in ["", "\n", "a\n\n", "a\n\nb\n", "a\n\n\u{2014} k AAAA\n", "a\t\n\n\u{2014} k AAAAAAAA\n"]
        {
            assert!(matches!(SignedNote::read(text), Err(NoteError::Form(_))), "{text:?}");
        }
        for cut in 0..NOTE.len() {
            if let Some(part) = NOTE.get(..cut) {
                assert!(SignedNote::read(part).is_err(), "cut at {cut}");
            }
        }
        assert_eq!(VerifierKey::read(&KEY.replace("530d", "530e")), None, "an id of another key");
    }
}
