//! Checkpoints (C2SP tlog-checkpoint v1.0.0): the organisation's signed word on how long its log is and
//! what the root over it is, as a signed note.
//!
//! Lives here: the three lines and the fourth with the heads of documents, who may sign them, and the names of logs. Does not live here: the form of
//! notes (`signed_note`), witnesses (`cosignature`), comparing two checkpoints (`merkle`).

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;

use super::signed_note::{NoteError, NoteSignature, SignedNote, VerifierKey};
use crate::entry::{KeyFault, OrganisationKey, PublicKey, SignedUpTo, Trusts, Use};
use crate::ids::{Digest, OrganisationId};
use crate::tree::heads::HeadsRoot;

/// Why a checkpoint does not hold.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum CheckpointError {
    /// The note around it.
    #[error("the checkpoint does not hold: {0}")]
    Note(#[from] NoteError),
    /// The text is not that of a checkpoint.
    #[error("the note is signed but is no checkpoint: {0}")]
    Form(&'static str),
    /// Its signature holds, by a key that may not have signed it.
    #[error("the checkpoint is not believed: {0}")]
    Key(#[from] KeyFault),
    /// It is of a log of another organisation.
    #[error("this is a checkpoint of another organisation's log ({0})")]
    OtherLog(String),
}

/// How long a log is and what the root over it is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Checkpoint {
    /// The log's name: `farsiding/<organisation id>`, and behind it `/<name>` for a log that was begun anew
    /// after the ledger came back from a backup.
    pub origin: String,
    /// How many leaves.
    pub size: u64,
    /// The root over them.
    pub root: Digest,
    /// What it says of the documents in them; nothing in a checkpoint of version one.
    pub heads: Option<HeadsRoot>,
}

/// The word that begins the line about documents.
const HEADS: &str = "heads";
/// Lines of extension that are read, or passed over, at most.
const MOST_EXTENSIONS: usize = 8;

/// A number in decimal, in its one form.
fn number(text: &str) -> Option<u64> {
    text.parse::<u64>().ok().filter(|n| n.to_string() == text)
}

fn hash(text: &str) -> Option<Digest> {
    Some(Digest(STANDARD.decode(text).ok()?.try_into().ok()?))
}

impl Checkpoint {
    /// The name of an organisation's first log.
    pub fn first_origin(organisation_key: &PublicKey) -> String {
        format!("farsiding/{}", OrganisationId::of_key(organisation_key))
    }

    /// Whether a log of this name is one of the organisation's.
    fn is_of(origin: &str, organisation_key: &PublicKey) -> bool {
        let first = Checkpoint::first_origin(organisation_key);
        origin.strip_prefix(&first).is_some_and(|rest| {
            rest.is_empty()
                || rest.strip_prefix('/').is_some_and(|name| crate::ids::from_hex::<8>(name).is_some())
        })
    }

    /// As a statement about keys names it.
    pub fn signed_up_to(&self) -> SignedUpTo {
        let Checkpoint { origin, size, root, heads } = self.clone();
        SignedUpTo { origin, size, root, heads: heads.map(|heads| heads.root) }
    }

    /// The text that is signed.
    pub fn text(&self) -> String {
        let mut text = format!("{}\n{}\n{}\n", self.origin, self.size, STANDARD.encode(self.root.0));
        if let Some(HeadsRoot { count, root }) = self.heads {
            text.push_str(&format!("{HEADS} {count} {}\n", STANDARD.encode(root.0)));
        }
        text
    }

    /// Reads the text; the signature is checked elsewhere.
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
            // What other lines say is for whoever knows them; the signature covers them too.
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

    /// Signs it into a note.
    pub fn sign(&self, key: &OrganisationKey) -> String {
        let text = self.text();
        let verifier = VerifierKey::plain(&self.origin, key.signer());
        let signature = key.sign_text(&text).to_vec();
        let line = NoteSignature { name: verifier.name.clone(), key_id: verifier.id(), signature };
        SignedNote { text, signatures: vec![line] }.to_string()
    }

    /// Checks a note against the organisation's keys and reads what it says. Further signature lines
    /// may follow the organisation's; see [`super::cosignatures`].
    ///
    /// # Errors
    /// [`CheckpointError`]; never panics, whatever the text.
    pub fn open(note: &str, organisation: &dyn Trusts) -> Result<Checkpoint, CheckpointError> {
        Ok(Checkpoint::open_signed(note, organisation)?.1)
    }

    /// As [`Checkpoint::open`], with the key that signed it: of several that did, the first that may have.
    ///
    /// # Errors
    /// As [`Checkpoint::open`].
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
            // A key that signed nothing here says nothing; one whose line does not hold says that it was altered.
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
