//! Checkpoints (C2SP tlog-checkpoint v1.0.0): the organisation's signed statement of its log's size and root
//! hash, in the form of a signed note.
//!
//! This module holds the three lines of the standard, the fourth line with the heads of documents, the check
//! of the signing key, and the names of logs. The note format is in `signed_note`, witnesses are in
//! `cosignature`, and the comparison of two checkpoints is in `merkle`.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;

use super::signed_note::{NoteError, NoteSignature, SignedNote, VerifierKey};
use crate::entry::{KeyFault, OrganisationKey, PublicKey, SignedUpTo, Trusts, Use};
use crate::ids::{Digest, OrganisationId};
use crate::tree::heads::HeadsRoot;

/// The reason why a checkpoint is not accepted.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum CheckpointError {
    /// The note is malformed or not signed as required.
    #[error("the checkpoint does not hold: {0}")]
    Note(#[from] NoteError),
    /// The note's text is not a checkpoint.
    #[error("the note is signed but is no checkpoint: {0}")]
    Form(&'static str),
    /// The signature is valid, but its key was not permitted to sign this checkpoint.
    #[error("the checkpoint is not believed: {0}")]
    Key(#[from] KeyFault),
    /// The checkpoint belongs to another organisation's log.
    #[error("this is a checkpoint of another organisation's log ({0})")]
    OtherLog(String),
}

/// The size and the root hash of a log.
///
/// Only the signed note proves a checkpoint; [`Checkpoint::open`] checks it.
///
/// ```
/// use farsiding_core::entry::OrganisationKey;
/// use farsiding_core::ids::{Digest, OrganisationId};
/// use farsiding_core::log::Checkpoint;
///
/// let key = OrganisationKey::from_secret([7; 32]);
/// let origin = format!("farsiding/{}", OrganisationId::of_key(&key.public()));
/// let checkpoint = Checkpoint { origin, size: 2, root: Digest([1; 32]), heads: None };
/// let note = checkpoint.sign(&key);
/// assert_eq!(Checkpoint::open(&note, &key.public()), Ok(checkpoint));
///
/// let stranger = OrganisationKey::from_secret([8; 32]);
/// assert!(Checkpoint::open(&note, &stranger.public()).is_err());
/// ```
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Checkpoint {
    /// The log's name: `farsiding/<organisation id>`, followed by `/<name>` for a log that was started after
    /// the ledger was restored from a backup.
    pub origin: String,
    /// The number of leaves.
    pub size: u64,
    /// The Merkle tree root over the leaves (RFC 9162).
    pub root: Digest,
    /// The root over the heads of all documents in the log; `None` in a checkpoint of version one.
    pub heads: Option<HeadsRoot>,
}

/// The word that starts the line about the heads of documents.
const HEADS: &str = "heads";
/// The most extension lines accepted. Unknown ones are skipped.
const MOST_EXTENSIONS: usize = 8;

/// Reads a decimal number without leading zeros or signs.
fn number(text: &str) -> Option<u64> {
    text.parse::<u64>().ok().filter(|n| n.to_string() == text)
}

fn hash(text: &str) -> Option<Digest> {
    Some(Digest(STANDARD.decode(text).ok()?.try_into().ok()?))
}

impl Checkpoint {
    /// Returns the name of an organisation's first log.
    pub fn first_origin(organisation_key: &PublicKey) -> String {
        format!("farsiding/{}", OrganisationId::of_key(organisation_key))
    }

    /// Returns true if the name is that of a log of the organisation.
    fn is_of(origin: &str, organisation_key: &PublicKey) -> bool {
        let first = Checkpoint::first_origin(organisation_key);
        origin.strip_prefix(&first).is_some_and(|rest| {
            rest.is_empty()
                || rest.strip_prefix('/').is_some_and(|name| crate::ids::from_hex::<8>(name).is_some())
        })
    }

    /// Returns the checkpoint in the form in which a key statement refers to it.
    pub fn signed_up_to(&self) -> SignedUpTo {
        let Checkpoint { origin, size, root, heads } = self.clone();
        SignedUpTo { origin, size, root, heads: heads.map(|heads| heads.root) }
    }

    /// Returns the text to be signed.
    pub fn text(&self) -> String {
        let mut text = format!("{}\n{}\n{}\n", self.origin, self.size, STANDARD.encode(self.root.0));
        if let Some(HeadsRoot { count, root }) = self.heads {
            text.push_str(&format!("{HEADS} {count} {}\n", STANDARD.encode(root.0)));
        }
        text
    }

    /// Parses the text without checking the signature.
    fn read_text(text: &str) -> Result<Checkpoint, CheckpointError> {
        let body = text.strip_suffix('\n').ok_or(CheckpointError::Form("its last line does not end"))?;
        let mut lines = body.split('\n');
        let origin =
            lines.next().filter(|o| !o.is_empty()).ok_or(CheckpointError::Form("it names no log"))?;
        let size =
            lines.next().and_then(number).ok_or(CheckpointError::Form("its second line is no size"))?;
        let root = lines.next().and_then(hash).ok_or(CheckpointError::Form("its third line is no root"))?;
        let extensions: Vec<&str> = lines.collect();
        if extensions.len() > MOST_EXTENSIONS || extensions.iter().any(|line| line.is_empty()) {
            return Err(CheckpointError::Form("its lines of extension are empty or too many"));
        }
        let mut heads = None;
        for line in extensions {
            // Unknown extension lines are left to readers that know them; the signature covers them too.
            let Some(rest) = line.strip_prefix(HEADS).and_then(|rest| rest.strip_prefix(' ')) else {
                continue;
            };
            let read = rest
                .split_once(' ')
                .and_then(|(count, root)| Some(HeadsRoot { count: number(count)?, root: hash(root)? }));
            let read = read.ok_or(CheckpointError::Form("its line about documents is none"))?;
            if heads.replace(read).is_some() {
                return Err(CheckpointError::Form("it has two lines about documents"));
            }
        }
        Ok(Checkpoint { origin: origin.to_owned(), size, root, heads })
    }

    /// Signs the checkpoint and returns the signed note.
    pub fn sign(&self, key: &OrganisationKey) -> String {
        let text = self.text();
        let verifier = VerifierKey::plain(&self.origin, key.signer());
        let signature = key.sign_text(&text).to_vec();
        let line = NoteSignature { name: verifier.name.clone(), key_id: verifier.id(), signature };
        SignedNote { text, signatures: vec![line] }.to_string()
    }

    /// Checks a note's signature with the organisation's keys and reads the checkpoint. Witness signatures
    /// may follow the organisation's, see [`super::cosignatures`].
    ///
    /// # Errors
    /// [`CheckpointError`]. The method does not panic on any text.
    pub fn open(note: &str, organisation: &dyn Trusts) -> Result<Checkpoint, CheckpointError> {
        Ok(Checkpoint::open_signed(note, organisation)?.1)
    }

    /// Does the same as [`Checkpoint::open`] and also returns the key that signed. If several keys signed,
    /// the first permitted one is returned.
    ///
    /// # Errors
    /// As for [`Checkpoint::open`].
    pub fn open_signed(
        note: &str,
        organisation: &dyn Trusts,
    ) -> Result<(PublicKey, Checkpoint), CheckpointError> {
        let note = SignedNote::read(note)?;
        let checkpoint = Checkpoint::read_text(&note.text)?;
        if !Checkpoint::is_of(&checkpoint.origin, &organisation.root()) {
            return Err(CheckpointError::OtherLog(checkpoint.origin));
        }
        let Checkpoint { origin, size, root, heads } = &checkpoint;
        let heads = heads.as_ref().map(|heads| &heads.root);
        let made = Use::Checkpoint { origin, size: *size, root, heads };
        let mut refused = None;
        for key in organisation.signers() {
            // A key without a signature line is no objection; a key whose line is invalid means that the note
            // was altered.
            match note.check(&VerifierKey::plain(origin, key)) {
                Ok(()) => match organisation.allows(&key, made) {
                    Ok(()) => return Ok((key, checkpoint)),
                    Err(fault) => refused = Some(fault.into()),
                },
                Err(NoteError::NotSigned(name)) => {
                    refused = refused.or(Some(NoteError::NotSigned(name).into()));
                }
                Err(error) => return Err(error.into()),
            }
        }
        Err(refused.unwrap_or(NoteError::NotSigned(checkpoint.origin).into()))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use serde::Deserialize;

    #[derive(Deserialize)]
    pub(in crate::log) struct Golden {
        pub vkey: String,
        pub note: String,
    }

    fn golden() -> Golden {
        serde_json::from_str(include_str!("../../../tests/golden/log/checkpoint.json")).unwrap()
    }

    #[test]
    fn a_checkpoint_is_signed_byte_for_byte_as_another_implementation_signs_it() {
        let (key, golden) = (OrganisationKey::from_secret([7; 32]), golden());
        let checkpoint = Checkpoint::open(&golden.note, &key.public()).unwrap();
        assert_eq!(checkpoint.origin, Checkpoint::first_origin(&key.public()));
        assert_eq!(checkpoint.size, 21);
        assert_eq!(checkpoint.sign(&key), golden.note);
        assert_eq!(VerifierKey::plain(&checkpoint.origin, key.public()).to_string(), golden.vkey);
    }

    #[test]
    fn no_altered_note_holds() {
        let (key, note) = (OrganisationKey::from_secret([7; 32]).public(), golden().note);
        for at in 0..note.len() {
            for bit in [1, 4] {
                let mut altered = note.clone().into_bytes();
                altered[at] ^= bit;
                if let Ok(text) = String::from_utf8(altered) {
                    assert!(Checkpoint::open(&text, &key).is_err(), "byte {at}");
                }
            }
        }
        let other = OrganisationKey::from_secret([8; 32]);
        assert!(matches!(Checkpoint::open(&note, &other.public()), Err(CheckpointError::OtherLog(_))));
    }

    #[test]
    fn a_signed_text_that_is_no_checkpoint_is_told_from_one() {
        let key = OrganisationKey::from_secret([7; 32]);
        let origin = Checkpoint::first_origin(&key.public());
        let root = STANDARD.encode([3; 32]);
        for text in [
            format!("{origin}\n07\n{root}\n"),
            format!("{origin}\n-7\n{root}\n"),
            format!("{origin}\n7\nAAAA\n"),
            format!("{origin}\n7\n{root}\nheads 7\n"),
            format!("{origin}\n7\n{root}\nheads 07 {root}\n"),
            format!("{origin}\n7\n{root}\nheads 1 {root}\nheads 1 {root}\n"),
            format!("{origin}\n7\n{root}\n{}", "more\n".repeat(9)),
            format!("{origin}\n7\n"),
        ] {
            let verifier = VerifierKey::plain(&origin, key.public());
            let line = NoteSignature {
                name: origin.clone(),
                key_id: verifier.id(),
                signature: key.sign_text(&text).to_vec(),
            };
            let note = SignedNote { text: text.clone(), signatures: vec![line] }.to_string();
            assert!(
                matches!(Checkpoint::open(&note, &key.public()), Err(CheckpointError::Form(_))),
                "{text}"
            );
        }
    }

    #[test]
    fn what_it_says_of_documents_is_signed_and_lines_of_others_are_passed_over() {
        let key = OrganisationKey::from_secret([7; 32]);
        let heads = Some(HeadsRoot { count: 12, root: Digest([3; 32]) });
        let origin = Checkpoint::first_origin(&key.public());
        let checkpoint = Checkpoint { origin, size: 7, root: Digest([9; 32]), heads };
        let note = checkpoint.sign(&key);
        assert_eq!(Checkpoint::open(&note, &key.public()).unwrap(), checkpoint);
        assert!(Checkpoint::open(&note.replace("heads 12", "heads 13"), &key.public()).is_err());
        let text = format!("{}other words\n", checkpoint.text());
        let verifier = VerifierKey::plain(&checkpoint.origin, key.public());
        let signature = key.sign_text(&text).to_vec();
        let line = NoteSignature { name: verifier.name.clone(), key_id: verifier.id(), signature };
        let note = SignedNote { text, signatures: vec![line] }.to_string();
        assert_eq!(Checkpoint::open(&note, &key.public()).unwrap(), checkpoint);
    }

    #[test]
    fn a_log_begun_anew_has_a_name_behind_the_organisations() {
        let key = OrganisationKey::from_secret([7; 32]);
        let first = Checkpoint::first_origin(&key.public());
        let named = |origin: String| {
            let checkpoint = Checkpoint { origin, size: 0, root: Digest::of(b""), heads: None };
            Checkpoint::open(&checkpoint.sign(&key), &key.public()).is_ok()
        };
        assert!(named(first.clone()) && named(format!("{first}/0011223344556677")));
        assert!(!named(format!("{first}/x")) && !named(format!("{first}0")) && !named("farsiding".into()));
    }
}
