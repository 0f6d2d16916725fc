//! Each kind of damage has its own name. The records are taken out of the file without their seal, so that no
//! seal reveals the change. `tests/verify` tests the same and more on whole files with both verifiers.

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{Body, Certificate, DeviceKey, Entry, OrganisationKey, Role, cbor};
use farsiding_core::evidence::packet::{
    CERTIFICATES, Certificates, CheckReport, Code, ENTRIES, Entries, Files, LAST_ENTRY, LOG, Log, OtherNote,
    RECEIPTS, Receipts, SEAL, Seal, check, seal,
};
use farsiding_core::evidence::{Checkpoint, LogLeaf, Receipt, tlog_proof};
use farsiding_core::ids::{Digest, OrganisationId};
use farsiding_core::procedure::Procedures;
use farsiding_core::sync::wire::ReplyHead;
use farsiding_packet::take_apart;
use serde_bytes::ByteBuf;

use super::good;

pub fn office() -> OrganisationKey {
    OrganisationKey::from_secret([42; 32])
}

/// Returns the records of the good packet without their seal.
fn unsealed() -> Files {
    let mut files = take_apart(&good().0).unwrap().files;
    files.records.remove(SEAL);
    files
}

fn told(files: &Files, against: Option<&OtherNote>) -> CheckReport {
    check(files, &good().1, against, &Procedures::built_in().unwrap())
}

fn part<T: for<'a> serde::Deserialize<'a>>(files: &Files, name: &str) -> T {
    cbor::decode(&files.records[name]).unwrap()
}

fn put<T: serde::Serialize>(files: &mut Files, name: &str, part: &T) {
    files.records.insert(name.to_owned(), cbor::encode(part).unwrap());
}

/// Returns the codes that were found broken, except for the missing seal and the record that then folds
/// differently.
fn found(report: &CheckReport) -> Vec<Code> {
    use farsiding_core::evidence::packet::Outcome;
    let mut codes: Vec<Code> = report
        .lines
        .iter()
        .filter(|line| line.outcome == Outcome::Broken)
        .map(|line| line.code)
        .filter(|code| !matches!(code, Code::RemovedAttachment | Code::AlteredView))
        .collect();
    codes.dedup();
    codes
}

#[test]
fn without_damage_only_the_seal_is_missed() {
    assert_eq!(found(&told(&unsealed(), None)), []);
}

#[test]
fn an_altered_entry_is_named_and_not_taken_for_a_removed_one() {
    let mut files = unsealed();
    let mut entries: Entries = part(&files, ENTRIES);
    let last = entries.visit[50].len() - 1;
    entries.visit[50][last] ^= 1;
    put(&mut files, ENTRIES, &entries);
    assert_eq!(found(&told(&files, None)), [Code::AlteredEntry]);
}

#[test]
fn a_removed_entry_is_named_from_the_log_and_without_its_leaf_from_the_chain() {
    let mut files = unsealed();
    let mut entries: Entries = part(&files, ENTRIES);
    let gone = entries.visit.remove(60);
    put(&mut files, ENTRIES, &entries);
    let report = told(&files, None);
    assert!(report.lines.iter().any(|line| super::text(line).contains("the log lists")), "{report:?}");
    assert_eq!(found(&report), [Code::RemovedEntry]);
    let mut log: Log = part(&files, LOG);
    log.leaves.retain(|leaf| leaf.entry.0 != Digest::of(&gone).0);
    put(&mut files, LOG, &log);
    let report = told(&files, None);
    assert!(report.lines.iter().any(|line| super::text(line).contains("the chain of device")), "{report:?}");
    assert_eq!(found(&report), [Code::RemovedEntry]);
}

#[test]
fn reordered_entries_are_named() {
    let mut files = unsealed();
    let mut entries: Entries = part(&files, ENTRIES);
    entries.visit.swap(20, 21);
    put(&mut files, ENTRIES, &entries);
    assert_eq!(found(&told(&files, None)), [Code::ReorderedEntries]);
}

#[test]
fn a_device_certified_by_somebody_else_is_named() {
    let mut files = unsealed();
    let forged = Certificate::by_role(
        OrganisationId([1; 16]),
        DeviceKey::from_secret([1; 32]).public(),
        "Yard phone",
        Role::Operator,
        UtcMillis(0),
    );
    let mut certificates: Certificates = part(&files, CERTIFICATES);
    let thief = OrganisationKey::from_secret([66; 32]);
    let own = |bytes: &ByteBuf| Certificate::open(bytes, &good().1).is_ok_and(|c| c.device == forged.device);
    let at = certificates.certificates.iter().position(own).unwrap();
    certificates.certificates[at] = ByteBuf::from(forged.seal(&thief).unwrap());
    put(&mut files, CERTIFICATES, &certificates);
    assert_eq!(found(&told(&files, None)), [Code::ForgedDevice]);
}

#[test]
fn a_signer_without_a_certificate_is_marked_and_no_damage() {
    let mut files = unsealed();
    let mut certificates: Certificates = part(&files, CERTIFICATES);
    let yard = DeviceKey::from_secret([1; 32]).public();
    let own = |bytes: &ByteBuf| Certificate::open(bytes, &good().1).is_ok_and(|c| c.device == yard);
    certificates.certificates.retain(|bytes| !own(bytes));
    put(&mut files, CERTIFICATES, &certificates);
    let report = told(&files, None);
    assert_eq!(found(&report), []);
    assert!(report.lines.iter().any(|line| super::text(line).contains(&yard.to_string())), "{report:?}");
}

#[test]
fn sites_taken_out_of_a_certificate_are_named() {
    let mut files = unsealed();
    let mut certificates: Certificates = part(&files, CERTIFICATES);
    let limited = |bytes: &ByteBuf| Certificate::open(bytes, &good().1).is_ok_and(|c| c.sites.is_some());
    let at = certificates.certificates.iter().position(limited).unwrap();
    let certificate = Certificate::open(&certificates.certificates[at], &good().1).unwrap();
    let wider = cbor::encode(&Certificate { sites: None, ..certificate }).unwrap();
    // Even the office's own signature for version one does not make it valid for version two.
    certificates.certificates[at] = ByteBuf::from(office().seal(wider, "farsiding certificate 1"));
    put(&mut files, CERTIFICATES, &certificates);
    assert_eq!(found(&told(&files, None)), [Code::ForgedDevice]);
}

#[test]
fn a_persons_signature_lifted_onto_another_entry_is_named() {
    let mut files = unsealed();
    let mut entries: Entries = part(&files, ENTRIES);
    let opened: Vec<Entry> = entries.visit.iter().map(|bytes| Entry::open(bytes).unwrap()).collect();
    let hand = opened.iter().find_map(|entry| entry.body.hand.clone()).unwrap();
    let shared = DeviceKey::from_secret([4; 32]);
    let at = opened.iter().position(|e| e.device == shared.public() && e.body.hand.is_none()).unwrap();
    let lifted = Body { hand: Some(hand), ..opened[at].body.clone() };
    entries.visit[at] = ByteBuf::from(Entry::seal(lifted, &shared).unwrap().bytes().to_vec());
    put(&mut files, ENTRIES, &entries);
    assert_eq!(found(&told(&files, None)), [Code::AlteredEntry]);
}

/// Returns the good packet with its seal made again by the office, with another fold version.
fn sealed_with_fold(fold: Option<u64>) -> Files {
    let mut files = take_apart(&good().0).unwrap().files;
    let sealed = Seal { fold, ..Seal::open(&files.records[SEAL], &good().1).unwrap() };
    files.records.insert(SEAL.to_owned(), seal(&sealed, &office()).unwrap());
    files
}

#[test]
fn a_packet_is_held_to_the_rules_of_the_fold_its_seal_names() {
    let next = farsiding_core::view::FOLD_VERSION + 1;
    let later = told(&sealed_with_fold(Some(next)), None);
    assert_eq!(found(&later), []);
    assert!(later.lines.iter().any(|line| line.code == Code::OtherFold), "{later:?}");
    // Under the rules of version one, a stranger's entry and a wrong length counted as damage.
    let first = told(&sealed_with_fold(None), None);
    assert_eq!(found(&first), [Code::ForgedDevice, Code::AlteredPhoto]);
    let earlier = told(&sealed_with_fold(Some(2)), None);
    assert_eq!(found(&earlier), []);
    assert!(earlier.lines.iter().any(|line| line.code == Code::NoHead), "nothing then said what is whole");
    // Without the office's key the number cannot be changed.
    let mut files = sealed_with_fold(Some(next));
    let changed: Vec<u8> = files.records[SEAL].clone();
    let at = changed.windows(5).position(|w| w == b"dfold").unwrap() + 5;
    files.records.get_mut(SEAL).unwrap()[at] = 2;
    assert_eq!(found(&told(&files, None)), [Code::AlteredSeal]);
}

#[test]
fn a_receipt_older_than_the_logs_word_is_named_and_one_for_other_entries_too() {
    let mut files = unsealed();
    let whole: Receipts = part(&files, RECEIPTS);
    let receipt = Receipt::from_bytes(&whole.receipts[0]).unwrap();
    let head = ReplyHead::open(&receipt.head, &good().1).unwrap();
    let earlier = ReplyHead { at: UtcMillis(head.at.0 - 86_400_000), ..head };
    let backdated = Receipt {
        head: office().seal_addressed(cbor::encode(&earlier).unwrap(), "farsiding reply 1", &[]),
        entries: receipt.entries.clone(),
    };
    put(&mut files, RECEIPTS, &Receipts { receipts: vec![ByteBuf::from(backdated.to_bytes().unwrap())] });
    assert_eq!(found(&told(&files, None)), [Code::BackdatedReceipt]);
    let mut entries = receipt.entries.clone();
    entries.reverse();
    entries.push(entries[0]);
    let forged = Receipt { head: receipt.head, entries };
    put(&mut files, RECEIPTS, &Receipts { receipts: vec![ByteBuf::from(forged.to_bytes().unwrap())] });
    assert_eq!(found(&told(&files, None)), [Code::ForgedReceipt]);
}

#[test]
fn altered_and_swapped_photographs_are_told_apart() {
    let mut files = unsealed();
    let names: Vec<String> =
        files.photos.keys().filter(|name| name.ends_with(".jpg")).take(2).cloned().collect();
    let (first, second) = (files.photos[&names[0]], files.photos[&names[1]]);
    files.photos.insert(names[0].clone(), second);
    assert_eq!(found(&told(&files, None)), [Code::SwappedPhoto]);
    let mut altered = first;
    altered.sha256 = Digest([9; 32]);
    files.photos.insert(names[0].clone(), altered);
    assert_eq!(found(&told(&files, None)), [Code::AlteredPhoto]);
}

#[test]
fn an_entry_the_log_does_not_hold_and_a_second_story_are_named() {
    let files = unsealed();
    let log: Log = part(&files, LOG);
    let mut later = files.clone();
    let mut moved = log.clone();
    moved.leaves.last_mut().unwrap().received_at.0 += 1;
    put(&mut later, LOG, &moved);
    assert_eq!(found(&told(&later, None)), [Code::UnloggedEntry]);

    let own = log.checkpoints.last().unwrap();
    let same = OtherNote { note: own.clone(), ..OtherNote::default() };
    assert_eq!(found(&told(&files, Some(&same))), []);
    let checkpoint = Checkpoint::open(own, &good().1).unwrap();
    let other = Checkpoint { root: Digest([7; 32]), ..checkpoint };
    let fork = OtherNote { note: other.sign(&office()), ..OtherNote::default() };
    assert_eq!(found(&told(&files, Some(&fork))), [Code::LogFork]);
}

#[test]
fn the_last_entrys_open_proof_stands_for_it_alone() {
    let files = unsealed();
    let proof = String::from_utf8(files.records[LAST_ENTRY].clone()).unwrap();
    let (head, note) = proof.split_once("\n\n").unwrap();
    let told_with = |text: String| {
        let mut files = files.clone();
        files.records.insert(LAST_ENTRY.to_owned(), text.into_bytes());
        found(&told(&files, None))
    };
    assert_eq!(told_with(proof.clone()), []);
    let log: Log = part(&files, LOG);
    // The proof is valid, but belongs to another entry of the stay.
    let other = log.leaves.iter().rev().nth(9).unwrap();
    let data = LogLeaf { entry: other.entry, received_at: other.received_at, about: other.about }.to_bytes();
    assert_eq!(told_with(tlog_proof(&data, other.number, &other.path, note)), [Code::UnloggedEntry]);
    assert_eq!(told_with(head.replace("\nindex ", "\nindex 1") + "\n\n" + note), [Code::UnloggedEntry]);
    assert_eq!(told_with(proof.replace("extra ", "extra AAAA")), [Code::UnloggedEntry], "another's data");
    assert_eq!(told_with(proof.replace("@v1", "@v2")), [Code::UnreadableAttachment]);
    let checkpoint = Checkpoint::open(note, &good().1).unwrap();
    let fork = Checkpoint { root: Digest([7; 32]), ..checkpoint.clone() }.sign(&office());
    assert_eq!(told_with(format!("{head}\n\n{fork}")), [Code::LogFork]);
    let forged = checkpoint.sign(&OrganisationKey::from_secret([66; 32]));
    assert_eq!(told_with(format!("{head}\n\n{forged}")), [Code::ForgedCheckpoint]);
}
