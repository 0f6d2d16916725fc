//! Witness signatures (C2SP tlog-cosignature, cosignature/v1). A witness states, with its own time, that a
//! checkpoint is the largest it has seen of a log and is consistent with the earlier ones.
//!
//! A verifier must obtain the keys of the witnesses it relies on beforehand; a line signed by an unknown key
//! proves nothing.

use super::signed_note::{COSIGNATURE, NoteError, NoteSignature, SignedNote, VerifierKey};
use crate::clock::UtcMillis;
use crate::entry::{DeviceKey, text_signature_holds};

/// A witness's signature line on a note.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cosignature {
    /// The witness's name as given in the line.
    pub witness: String,
    /// The first four bytes of the digest of the witness's name and key.
    pub key_id: [u8; 4],
    /// The time of signing by the witness's clock, in whole seconds.
    pub at: UtcMillis,
    seconds: u64,
    signature: Vec<u8>,
}

/// Returns the signature lines that have the length of a cosignature. [`Cosignature::check`] tells whose they
/// are and whether they are valid.
///
/// # Errors
/// [`NoteError::Form`] if the text is not a signed note.
pub fn cosignatures(note: &str) -> Result<Vec<Cosignature>, NoteError> {
    Ok(SignedNote::read(note)?.signatures.iter().filter_map(Cosignature::read).collect())
}

fn message(seconds: u64, text: &str) -> String {
    format!("cosignature/v1\ntime {seconds}\n{text}")
}

impl Cosignature {
    fn read(line: &NoteSignature) -> Option<Cosignature> {
        let (seconds, signature) = line.signature.split_first_chunk::<8>()?;
        let seconds = u64::from_be_bytes(*seconds);
        let at = UtcMillis(i64::try_from(seconds).ok()?.checked_mul(1000)?);
        (signature.len() == 64).then(|| Cosignature {
            witness: line.name.clone(),
            key_id: line.key_id,
            at,
            seconds,
            signature: signature.to_vec(),
        })
    }

    /// Checks that the line is the given witness's and is a valid signature of the note's text.
    ///
    /// # Errors
    /// [`NoteError::NotSigned`] for another witness's line, [`NoteError::BadSignature`] for an invalid one,
    /// [`NoteError::Form`] if the text is not a signed note.
    pub fn check(&self, note: &str, witness: &VerifierKey) -> Result<(), NoteError> {
        let ours = self.witness == witness.name && self.key_id == witness.id();
        if !ours || witness.kind != COSIGNATURE {
            return Err(NoteError::NotSigned(witness.name.clone()));
        }
        let text = message(self.seconds, &SignedNote::read(note)?.text);
        if text_signature_holds(&witness.key, &text, &self.signature) {
            Ok(())
        } else {
            Err(NoteError::BadSignature(witness.name.clone()))
        }
    }

    /// Returns a witness's signature line for a note. Before signing, the witness must have checked that the
    /// checkpoint is consistent with the last one it signed.
    ///
    /// # Errors
    /// [`NoteError::Form`] if the text is not a signed note.
    pub fn line(note: &str, name: &str, key: &DeviceKey, now: UtcMillis) -> Result<String, NoteError> {
        let seconds = u64::try_from(now.0 / 1000).unwrap_or(0);
        let text = message(seconds, &SignedNote::read(note)?.text);
        let signature = [seconds.to_be_bytes().as_slice(), &key.sign_text(&text)].concat();
        let key_id = VerifierKey::witness(name, key.public()).id();
        Ok(NoteSignature { name: name.to_owned(), key_id, signature }.line())
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::entry::OrganisationKey;
    use crate::ids::DeviceId;
    use crate::log::Checkpoint;

    #[derive(serde::Deserialize)]
    struct Golden {
        cosigned: String,
        witness: String,
        witness_key: DeviceId,
        witness_key_id: String,
    }

    fn golden() -> Golden {
        serde_json::from_str(include_str!("../../../tests/golden/log/checkpoint.json")).unwrap()
    }

    #[test]
    fn a_witness_of_another_implementation_is_understood_and_matched_byte_for_byte() {
        let golden = golden();
        let witness = VerifierKey::witness(&golden.witness, golden.witness_key);
        assert_eq!(crate::ids::to_hex(&witness.id()), golden.witness_key_id);
        let organisation = OrganisationKey::from_secret([7; 32]).public();
        assert!(
            Checkpoint::open(&golden.cosigned, &organisation).is_ok(),
            "the line beside does not disturb"
        );
        let found = cosignatures(&golden.cosigned).unwrap();
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].check(&golden.cosigned, &witness), Ok(()));
        let ours = Cosignature::line(
            &golden.cosigned,
            &golden.witness,
            &DeviceKey::from_secret([9; 32]),
            found[0].at,
        );
        assert!(golden.cosigned.ends_with(&ours.unwrap()));
    }

    #[test]
    fn a_witness_did_not_sign_another_text_nor_at_another_time() {
        let golden = golden();
        let witness = VerifierKey::witness(&golden.witness, golden.witness_key);
        let bad = Err(NoteError::BadSignature(golden.witness.clone()));
        let other_text = golden.cosigned.replace("\n21\n", "\n22\n");
        let found = cosignatures(&golden.cosigned).unwrap().remove(0);
        assert_eq!(found.check(&other_text, &witness), bad);
        let later = Cosignature { seconds: found.seconds + 1, ..found.clone() };
        assert_eq!(later.check(&golden.cosigned, &witness), bad);
        let stranger = VerifierKey::witness(&golden.witness, DeviceKey::from_secret([1; 32]).public());
        assert_eq!(
            found.check(&golden.cosigned, &stranger),
            Err(NoteError::NotSigned(golden.witness.clone()))
        );
    }
}
