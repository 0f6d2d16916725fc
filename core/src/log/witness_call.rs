//! The request for a witness's signature (C2SP tlog-witness, `add-checkpoint`), and the meaning of its
//! response.
//!
//! A witness stores for each log the last checkpoint it signed, and signs a later one only with a proof that
//! the log has grown from there. This module converts between bytes and their meaning and decides the next
//! step. The network and the schedule are in the server's `office::third_parties`, and the signature itself
//! in `cosignature`.

use std::fmt::Write as _;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;

use super::cosignature::cosignatures;
use super::signed_note::{NoteError, NoteSignature, SignedNote, VerifierKey};
use crate::ids::Digest;

/// The longest response read, in bytes. A response consists of a few signature lines or a number.
pub const LARGEST_ANSWER: usize = 64 * 1024;
/// The media type of a response that contains a size.
const SIZE_MEDIA: &str = "text/x.tlog.size";

/// The reason why a witness did not sign.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum WitnessRefusal {
    /// The log that the witness signed before is not the beginning of this log.
    #[error(
        "what it signed before, of {0} entries, is not the beginning of this log: the log was rewritten, or a \
         backup was put back"
    )]
    OtherHistory(u64),
    /// The witness has signed a longer log than this one.
    #[error(
        "it has signed a log of {signed} entries, this one has {size}: entries are gone from the log, or a backup was \
         put back"
    )]
    Longer {
        /// The size of the log that the witness signed.
        signed: u64,
        /// The size of this log.
        size: u64,
    },
    /// The witness does not know the log.
    #[error("it does not know this log; whoever keeps it must be given the log's key (404)")]
    UnknownLog,
    /// The witness knows the log by another key.
    #[error("it knows this log by another key (403)")]
    OtherKey,
    /// Another request reached the witness in between; the witness will be asked again.
    #[error("it was asked by somebody else at the same time; it is asked again")]
    Moved,
    /// The witness rejected the request with this HTTP status.
    #[error("it does not take the request ({0})")]
    Status(u16),
    /// The response cannot be interpreted.
    #[error("what it answered is no answer of a witness: {0}")]
    Unreadable(String),
}

impl WitnessRefusal {
    /// Returns true if the refusal says that the log's history has changed.
    pub fn is_about_history(&self) -> bool {
        matches!(self, WitnessRefusal::OtherHistory(_) | WitnessRefusal::Longer { .. })
    }
}

/// The next step after a response.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum WitnessAnswer {
    /// The witness signed; the field is the note with its checked signature line.
    Signed(String),
    /// The request must be repeated with a consistency proof from this size.
    AskFrom(u64),
    /// The witness did not sign.
    Refused(WitnessRefusal),
}

/// A request to a witness: the log of `old` leaves, which it signed last, has grown to `size` leaves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WitnessCall {
    /// The size that the witness signed last as far as known; 0 if it never signed.
    pub old: u64,
    /// The checkpoint's size, not below `old`.
    pub size: u64,
    /// Whether the witness was already asked with another size in this round.
    pub again: bool,
}

impl WitnessCall {
    /// Returns the request body: the old size, the consistency proof from there (at most 63 hashes; none from
    /// size 0 or from the same size), and the checkpoint's note.
    pub fn message(&self, proof: &[Digest], note: &str) -> String {
        let mut message = format!("old {}\n", self.old);
        for hash in proof {
            let _ = writeln!(message, "{}", STANDARD.encode(hash.0)); // a string takes everything
        }
        message.push('\n');
        message.push_str(note);
        message
    }

    /// Interprets a response. `status` is the HTTP status and `media` the content type. A signature counts
    /// only if it is the witness's and valid for the note.
    pub fn read(
        &self,
        status: u16,
        media: &str,
        body: &[u8],
        note: &str,
        witness: &VerifierKey,
    ) -> WitnessAnswer {
        let refused = WitnessAnswer::Refused;
        let unreadable = |why: String| refused(WitnessRefusal::Unreadable(why));
        match status {
            200 => match signature_lines(body).map(|lines| with_cosignature(note, &lines, witness)) {
                Ok(Ok(cosigned)) => WitnessAnswer::Signed(cosigned),
                Ok(Err(why)) => unreadable(why.to_string()),
                Err(why) => unreadable(why.to_string()),
            },
            409 => match size_in(media, body) {
                None if self.old == self.size && self.old > 0 => {
                    refused(WitnessRefusal::OtherHistory(self.old))
                }
                None => unreadable("it refuses the size and gives no other (409)".to_owned()),
                Some(signed) if signed > self.size => {
                    refused(WitnessRefusal::Longer { signed, size: self.size })
                }
                Some(signed) if signed == self.old && signed > 0 => {
                    refused(WitnessRefusal::OtherHistory(signed))
                }
                Some(signed) if self.again || signed == self.old => refused(WitnessRefusal::Moved),
                Some(signed) => WitnessAnswer::AskFrom(signed),
            },
            422 if self.old > 0 => refused(WitnessRefusal::OtherHistory(self.old)),
            404 => refused(WitnessRefusal::UnknownLog),
            403 => refused(WitnessRefusal::OtherKey),
            other => refused(WitnessRefusal::Status(other)),
        }
    }
}

/// Reads the size from a response: decimal, without leading zeros, followed by one line feed.
fn size_in(media: &str, body: &[u8]) -> Option<u64> {
    let media = media.split(';').next().unwrap_or_default().trim();
    let text = std::str::from_utf8(body).ok()?.strip_suffix('\n')?;
    let size = text.parse::<u64>().ok()?;
    (media.eq_ignore_ascii_case(SIZE_MEDIA) && size.to_string() == text).then_some(size)
}

fn signature_lines(body: &[u8]) -> Result<Vec<NoteSignature>, NoteError> {
    let text = std::str::from_utf8(body).map_err(|_| NoteError::Form("it is not UTF-8"))?;
    // The parser expects a text above the signature lines; any text serves.
    Ok(SignedNote::read(&format!("x\n\n{text}"))?.signatures)
}

/// Returns the note with the witness's line from `lines` added. An older line by the same witness is
/// replaced.
///
/// # Errors
/// [`NoteError`] if there is no line by that key, or the last such line is invalid for the note's text.
pub fn with_cosignature(
    note: &str,
    lines: &[NoteSignature],
    witness: &VerifierKey,
) -> Result<String, NoteError> {
    let mut signed = SignedNote::read(note)?;
    let id = witness.id();
    let by_witness = |line: &NoteSignature| line.name == witness.name && line.key_id == id;
    let line = lines.iter().rfind(|line| by_witness(line));
    let line = line.ok_or_else(|| NoteError::NotSigned(witness.name.clone()))?.clone();
    signed.signatures.retain(|line| !by_witness(line));
    let alone = SignedNote { signatures: vec![line.clone()], ..signed.clone() }.to_string();
    let cosignature = cosignatures(&alone)?.pop();
    cosignature.ok_or(NoteError::Form("the witness's line has another length"))?.check(&alone, witness)?;
    signed.signatures.push(line);
    Ok(signed.to_string())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::clock::UtcMillis;
    use crate::entry::{DeviceKey, OrganisationKey};
    use crate::log::{Checkpoint, Cosignature};

    /// The example request of C2SP tlog-witness, as printed there.
    const REQUEST: &str = "old 20852014\n\
        PlRNCrwHpqhGrupue0L7gxbjbMiKA9temvuZZDDpkaw=\n\
        jrJZDmY8Y7SyJE0MWLpLozkIVMSMZcD5kvuKxPC3swk=\n\
        5+pKlUdi2LeF/BcMHBn+Ku6yhPGNCswZZD1X/6QgPd8=\n\
        /6WVhPs2CwSsb5rYBH5cjHV/wSmA79abXAwhXw3Kj/0=\n\
        \n\
        example.com/behind-the-sofa\n\
        20852163\n\
        CsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\n\
        \n\
        \u{2014} example.com/behind-the-sofa Az3grlgtzPICa5OS8npVmf1Myq/5IZniMp+ZJurmRDeOoRDe4URYN7u5/Zhcyv2q1gGzGku9nTo+zyWE+xeMcTOAYQ8=\n";

    fn note() -> (String, DeviceKey, VerifierKey) {
        let organisation = OrganisationKey::from_secret([7; 32]);
        let origin = Checkpoint::first_origin(&organisation.public());
        let note = Checkpoint { origin, size: 21, root: Digest([3; 32]), heads: None }.sign(&organisation);
        let secret = DeviceKey::from_secret([9; 32]);
        let key = VerifierKey::witness("witness.example/w1", secret.public());
        (note, secret, key)
    }

    const CALL: WitnessCall = WitnessCall { old: 5, size: 21, again: false };

    #[test]
    fn the_message_is_the_standards_own_example() {
        let hash = |line: &str| Digest(STANDARD.decode(line).unwrap().try_into().unwrap());
        let proof: Vec<Digest> = REQUEST.lines().skip(1).take(4).map(hash).collect();
        let note = REQUEST.split_once("\n\n").unwrap().1;
        let call = WitnessCall { old: 20_852_014, size: 20_852_163, again: false };
        assert_eq!(call.message(&proof, note), REQUEST);
        assert!(WitnessCall { old: 0, ..call }.message(&[], "n\n").starts_with("old 0\n\nn\n"));
    }

    #[test]
    fn a_witness_that_signs_is_believed_by_its_key_alone() {
        let (note, secret, witness) = note();
        let line = Cosignature::line(&note, &witness.name, &secret, UtcMillis(1_795_528_800_000)).unwrap();
        let read = |body: &str| CALL.read(200, "text/plain", body.as_bytes(), &note, &witness);
        let signed = read(&line);
        assert_eq!(signed, WitnessAnswer::Signed(format!("{note}{line}")));
        let stranger = DeviceKey::from_secret([1; 32]);
        let others =
            Cosignature::line(&note, &witness.name, &stranger, UtcMillis(1_795_528_800_000)).unwrap();
        assert_eq!(read(&format!("{others}{line}")), signed, "a stranger's line beside it is left out");
        let unreadable = |answer: WitnessAnswer| {
            assert!(matches!(answer, WitnessAnswer::Refused(WitnessRefusal::Unreadable(_))), "{answer:?}");
        };
        unreadable(read(&others));
        let other_text = note.replace("\n21\n", "\n22\n");
        unreadable(read(&Cosignature::line(&other_text, &witness.name, &secret, UtcMillis(5000)).unwrap()));
        // Altering the time in a valid line invalidates it.
        let mut forged = SignedNote::read(&format!("{note}{line}")).unwrap().signatures.pop().unwrap();
        forged.signature[7] ^= 1;
        unreadable(read(&forged.line()));
        for body in ["", "signed\n", "<html>sign in</html>", &note, line.trim_end()] {
            unreadable(read(body));
        }
        // When the witness signs again, only the newer line remains.
        let WitnessAnswer::Signed(once) = signed else { panic!() };
        let later = Cosignature::line(&note, &witness.name, &secret, UtcMillis(1_795_528_900_000)).unwrap();
        let again = CALL.read(200, "", later.as_bytes(), &once, &witness);
        assert_eq!(again, WitnessAnswer::Signed(format!("{note}{later}")));
    }

    #[test]
    fn each_refusal_says_what_it_is() {
        let (note, _, witness) = note();
        let read = |call: WitnessCall, status: u16, media: &str, body: &str| {
            call.read(status, media, body.as_bytes(), &note, &witness)
        };
        let refused = WitnessAnswer::Refused;
        let size = "text/x.tlog.size";
        assert_eq!(read(CALL, 409, size, "9\n"), WitnessAnswer::AskFrom(9));
        assert_eq!(read(CALL, 409, "Text/X.Tlog.Size; charset=utf-8", "0\n"), WitnessAnswer::AskFrom(0));
        let again = WitnessCall { again: true, ..CALL };
        assert_eq!(read(again, 409, size, "9\n"), refused(WitnessRefusal::Moved), "never in circles");
        let longer = WitnessRefusal::Longer { signed: 22, size: 21 };
        assert!(longer.is_about_history());
        assert_eq!(read(CALL, 409, size, "22\n"), refused(longer));
        let history = refused(WitnessRefusal::OtherHistory(5));
        assert_eq!(read(CALL, 422, "text/plain", "no\n"), history);
        assert_eq!(read(CALL, 409, size, "5\n"), history, "the size was right, so the root was not");
        // An empty log has no other history.
        let fresh = WitnessCall { old: 0, size: 0, again: false };
        assert!(matches!(
            read(fresh, 409, "text/plain", "no\n"),
            WitnessAnswer::Refused(WitnessRefusal::Unreadable(_))
        ));
        assert_eq!(read(fresh, 409, size, "0\n"), refused(WitnessRefusal::Moved));
        assert_eq!(read(fresh, 422, "", ""), refused(WitnessRefusal::Status(422)));
        let same = WitnessCall { old: 21, size: 21, again: false };
        assert_eq!(
            read(same, 409, "text/plain", "roots differ\n"),
            refused(WitnessRefusal::OtherHistory(21))
        );
        for body in ["", "9", "09\n", "+9\n", "nine\n", "9\n\n", "-1\n"] {
            let answer = read(CALL, 409, size, body);
            assert!(matches!(answer, WitnessAnswer::Refused(WitnessRefusal::Unreadable(_))), "{body:?}");
        }
        assert!(matches!(
            read(CALL, 409, "text/html", "9\n"),
            WitnessAnswer::Refused(WitnessRefusal::Unreadable(_))
        ));
        assert_eq!(read(CALL, 404, "", ""), refused(WitnessRefusal::UnknownLog));
        assert_eq!(read(CALL, 403, "", ""), refused(WitnessRefusal::OtherKey));
        for status in [301, 400, 429, 500] {
            assert_eq!(read(CALL, status, "", ""), refused(WitnessRefusal::Status(status)));
        }
    }
}
