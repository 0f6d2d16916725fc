//! What parties other than the organisation state about a packet's checkpoints: witnesses whose keys the
//! reader provides, and the checkpoints against which time stamps are to be checked.
//!
//! The signatures of witnesses are checked here. Time stamps are checked by the server, which can process
//! certificates. This module is called after [`super::check`] with the keys that the reader trusts.

use super::check::CLOCK_PLAY_MILLIS;
use super::parts::{self, Log};
use super::report::{CheckReport, Code, shown};
use super::{Files, LOG};
use crate::clock::UtcMillis;
use crate::entry::Trusts;
use crate::ids::Digest;
use crate::log::{Checkpoint, VerifierKey, cosignatures};
use crate::{Arg, Joint, Message, message};

/// The signature of a witness on a checkpoint.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Witnessed {
    /// The witness's name.
    pub name: String,
    /// The time of signing by the witness's clock.
    pub at: UtcMillis,
    /// The size of the checkpoint.
    pub size: u64,
    /// Whether the checkpoint covers every entry of the packet.
    pub covers_all: bool,
}

/// A time stamp to be checked, with the note that was stamped.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stamped {
    /// The size of the checkpoint.
    pub size: u64,
    /// The signed note.
    pub note: String,
    /// The token (DER).
    pub token: Vec<u8>,
}

/// How an outsider's time agrees with the log's times.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OutsideTime {
    /// The time is not before the arrival of what the checkpoint covers, with a tolerance of ten minutes.
    Agrees,
    /// The time is earlier: the office's clock was ahead by at least this many milliseconds, or the
    /// outsider's was behind.
    Before(i64),
}

fn log_of(files: &Files) -> Option<Log> {
    parts::read::<Log>(LOG, files.records.get(LOG)?).ok()
}

/// Compares the time that an outsider gave for the checkpoint of `size` with the arrival time of the newest
/// entry here that the checkpoint covers.
pub fn outside_time(files: &Files, size: u64, at: UtcMillis) -> OutsideTime {
    let log = log_of(files);
    let covered = log.iter().flat_map(|log| &log.leaves).filter(|leaf| leaf.number < size);
    match covered.map(|leaf| leaf.received_at).max() {
        Some(received) if at.0.saturating_add(CLOCK_PLAY_MILLIS) < received.0 => {
            OutsideTime::Before(received.0.saturating_sub(at.0))
        }
        _ => OutsideTime::Agrees,
    }
}

/// Returns every time stamp of a packet whose checkpoint is valid, with the note that was stamped.
pub fn stamped(files: &Files, key: &dyn Trusts) -> Vec<Stamped> {
    let Some(log) = log_of(files) else { return Vec::new() };
    let mut found = Vec::new();
    for token in &log.tokens {
        let note = log.checkpoints.iter().find(|note| {
            let digest = Digest::of(note.as_bytes());
            Checkpoint::open(note, key).is_ok_and(|checkpoint| checkpoint.size == token.size)
                && token.token.windows(digest.0.len()).any(|window| window == digest.0)
        });
        if let Some(note) = note {
            found.push(Stamped { size: token.size, note: note.clone(), token: token.token.to_vec() });
        }
    }
    found
}

/// Finds the signatures of the `trusted` witnesses on the packet's checkpoints, for each witness the one that
/// covers most. If witnesses were requested and none has signed, the report gets [`Code::NoWitness`]; if none
/// was requested, nothing is reported.
pub fn witnesses(
    files: &Files,
    key: &dyn Trusts,
    trusted: &[VerifierKey],
    report: &mut CheckReport,
) -> Vec<Witnessed> {
    let Some(log) = log_of(files) else { return Vec::new() };
    let all = log.leaves.iter().map(|leaf| leaf.number.saturating_add(1)).max().unwrap_or(0);
    let (mut found, mut odd): (Vec<Witnessed>, Vec<Message>) = (Vec::new(), Vec::new());
    for witness in trusted {
        let mut best: Option<Witnessed> = None;
        for note in &log.checkpoints {
            let Ok(checkpoint) = Checkpoint::open(note, key) else { continue };
            for line in cosignatures(note).unwrap_or_default() {
                if line.witness != witness.name || line.key_id != witness.id() {
                    continue;
                }
                if line.check(note, witness).is_err() {
                    odd.push(message!("verify-witness-forged", name = shown(&witness.name)));
                    continue;
                }
                let size = checkpoint.size;
                if best.as_ref().is_none_or(|best| best.size <= size) {
                    let (name, at) = (witness.name.clone(), line.at);
                    best = Some(Witnessed { name, at, size, covers_all: size >= all });
                }
            }
        }
        found.extend(best);
    }
    for witnessed in &found {
        let Witnessed { name, at, size, covers_all } = witnessed;
        let (name, size_shown, at_shown) = (shown(name), shown(size), shown(at.rfc3339()));
        let what = match covers_all {
            true => message!("verify-witness", name = name, size = size_shown, at = at_shown),
            false => message!("verify-witness-older", name = name, size = size_shown, at = at_shown),
        };
        match outside_time(files, *size, *at) {
            OutsideTime::Agrees => report.holds(Code::Witness, what),
            OutsideTime::Before(millis) => {
                let minutes = millis / 60_000;
                let minutes = shown(minutes);
                report.mark(Code::Witness, message!("verify-clocks-differ", what = what, minutes = minutes));
            }
        }
    }
    if found.is_empty() && !trusted.is_empty() {
        let names = trusted.iter().map(|witness| Message::typed(witness.name.as_str()));
        let what = message!("verify-no-witness", names = Arg::list(Joint::Or, names));
        let parts = Arg::list(Joint::Semicolon, [what].into_iter().chain(odd));
        report.mark(Code::NoWitness, message!("verify-parts", parts = parts));
    }
    found
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::entry::{DeviceKey, OrganisationKey};
    use crate::evidence::packet::{Leaf, Outcome};
    use crate::ids::EntryId;
    use crate::log::{Cosignature, SignedNote};

    const AT: i64 = 1_795_528_800_000;

    fn office() -> OrganisationKey {
        OrganisationKey::from_secret([7; 32])
    }

    fn note(size: u64) -> String {
        let origin = Checkpoint::first_origin(&office().public());
        Checkpoint { origin, size, root: Digest([3; 32]), heads: None }.sign(&office())
    }

    fn witness(name: &str, secret: u8) -> (DeviceKey, VerifierKey) {
        let signer = DeviceKey::from_secret([secret; 32]);
        let key = VerifierKey::witness(name, signer.public());
        (signer, key)
    }

    /// Returns a packet's files with these checkpoints and an entry with number 8, received at [`AT`].
    fn files(checkpoints: Vec<String>) -> Files {
        let leaf = Leaf {
            entry: EntryId([1; 32]),
            number: 8,
            received_at: UtcMillis(AT),
            path: Vec::new(),
            about: None,
        };
        let log = Log {
            checkpoints,
            consistency: Vec::new(),
            leaves: vec![leaf],
            chains: Vec::new(),
            tokens: Vec::new(),
            heads: Vec::new(),
            seen: Vec::new(),
            photos_elsewhere: Vec::new(),
        };
        let mut files = Files::default();
        files.records.insert(LOG.to_owned(), parts::write(&log).unwrap());
        files
    }

    fn told(files: &Files, trusted: &[VerifierKey]) -> (Vec<Witnessed>, Vec<(Outcome, Code)>) {
        let mut report = CheckReport::default();
        let found = witnesses(files, &office().public(), trusted, &mut report);
        (found, report.lines.iter().map(|line| (line.outcome, line.code)).collect())
    }

    #[test]
    fn a_witness_given_is_found_with_what_it_covers_and_when() {
        let (signer, key) = witness("witness.example/w1", 9);
        let signed = |size: u64, at: i64| {
            let note = note(size);
            let line = Cosignature::line(&note, &key.name, &signer, UtcMillis(at)).unwrap();
            format!("{note}{line}")
        };
        let (found, lines) = told(&files(vec![note(4), signed(9, AT)]), std::slice::from_ref(&key));
        let expected = Witnessed { name: key.name.clone(), at: UtcMillis(AT), size: 9, covers_all: true };
        assert_eq!(found, [expected]);
        assert_eq!(lines, [(Outcome::Holds, Code::Witness)]);
        // With an earlier checkpoint alone, and with both: the larger one is reported.
        let (found, _) = told(&files(vec![signed(4, AT), note(9)]), std::slice::from_ref(&key));
        assert_eq!((found[0].size, found[0].covers_all), (4, false));
        let (found, _) = told(&files(vec![signed(4, AT), signed(9, AT + 1000)]), std::slice::from_ref(&key));
        assert_eq!((found.len(), found[0].size), (1, 9));
        // One key of two suffices.
        let (_, other) = witness("witness.example/w2", 8);
        let (found, lines) = told(&files(vec![signed(9, AT)]), &[other.clone(), key.clone()]);
        assert_eq!((found.len(), lines), (1, vec![(Outcome::Holds, Code::Witness)]));
        // No witness was requested, so nothing is reported.
        assert_eq!(told(&files(vec![signed(9, AT)]), &[]), (vec![], vec![]));
        // The witness signed before the office claims to have received the entry, so one of the clocks was
        // wrong.
        let ten_minutes = 600_000;
        let lines = |at: i64| told(&files(vec![signed(9, at)]), std::slice::from_ref(&key)).1;
        assert_eq!(lines(AT - ten_minutes), [(Outcome::Holds, Code::Witness)]);
        assert_eq!(lines(AT - ten_minutes - 1000), [(Outcome::Marked, Code::Witness)]);
    }

    #[test]
    fn nobody_passes_for_a_witness() {
        let (signer, key) = witness("witness.example/w1", 9);
        let none = (vec![], vec![(Outcome::Marked, Code::NoWitness)]);
        assert_eq!(told(&files(vec![note(9)]), std::slice::from_ref(&key)), none);
        let of = |signer: &DeviceKey, name: &str, text: &str| {
            Cosignature::line(text, name, signer, UtcMillis(AT)).unwrap()
        };
        let stranger = of(&DeviceKey::from_secret([1; 32]), &key.name, &note(9));
        let other_name = of(&signer, "witness.example/w2", &note(9));
        let of_another = of(&signer, &key.name, &note(8));
        // The witness's line with a later time.
        let mut later =
            SignedNote::read(&format!("{}{}", note(9), of(&signer, &key.name, &note(9)))).unwrap();
        later.signatures.last_mut().unwrap().signature[7] ^= 1;
        let later = later.signatures.last().unwrap().line();
        for line in [stranger, other_name, of_another, later] {
            let files = files(vec![format!("{}{line}", note(9))]);
            assert_eq!(told(&files, std::slice::from_ref(&key)), none, "{line}");
        }
        // The witness signed a checkpoint that the organisation did not sign.
        let thief = OrganisationKey::from_secret([8; 32]);
        let origin = Checkpoint::first_origin(&office().public());
        let forged = Checkpoint { origin, size: 9, root: Digest([4; 32]), heads: None }.sign(&thief);
        let forged = format!("{forged}{}", of(&signer, &key.name, &forged));
        assert_eq!(told(&files(vec![forged]), std::slice::from_ref(&key)), none);
        // There is nothing to read, which the preceding check has reported.
        assert_eq!(told(&Files::default(), &[key]), (vec![], vec![]));
    }
}
