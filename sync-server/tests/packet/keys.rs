//! The keys under which a packet is valid: each fault of a key has its own name and no other.

use std::collections::BTreeSet;

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{
    Certificate, DeviceKey, KeyWord, OrganisationKey, OrganisationKeys, Role, SignedUpTo, WhyWithdrawn, cbor,
};
use farsiding_core::evidence::Checkpoint;
use farsiding_core::evidence::packet::{
    CERTIFICATES, Certificates, CheckReport, Code, Files, KEYS, KeyStatements, LOG, Log, Outcome, SEAL, Seal,
    check_with,
};
use farsiding_core::ids::{Digest, OrganisationId};
use farsiding_core::procedure::Procedures;
use farsiding_packet::{PacketSource, stay_of, take_apart, unchecked};
use farsiding_words::Language;
use serde_bytes::ByteBuf;

use super::{PICTURE, stay};

const DAY: i64 = 86_400_000;

fn root() -> OrganisationKey {
    OrganisationKey::from_secret([42; 32])
}

fn yearly(n: u8, from: i64, until: i64) -> KeyWord {
    let key = OrganisationKey::from_secret([n; 32]).public();
    KeyWord::Key { key, from: UtcMillis(from), until: Some(UtcMillis(until)) }
}

fn withdrawn(n: u8, why: WhyWithdrawn, checkpoint: Option<SignedUpTo>) -> KeyWord {
    KeyWord::KeyWithdrawn { key: OrganisationKey::from_secret([n; 32]).public(), why, checkpoint }
}

/// Returns the root's statements, each with its time.
fn said(words: &[(i64, KeyWord)]) -> OrganisationKeys {
    let mut keys = OrganisationKeys::of_root(root().public());
    for (at, word) in words {
        keys.say(UtcMillis(*at), word.clone(), &root()).unwrap();
    }
    keys
}

/// Returns the synthetic stay sealed with secret 10 under these keys, and the time that the packet speaks
/// for.
fn sealed_by(keys: &OrganisationKeys) -> (Files, i64) {
    let synthetic = stay::record(PICTURE);
    let key = OrganisationKey::among([10; 32], keys.clone());
    let store = &synthetic.office.store;
    let source = PacketSource { store, key: &key, photographs: &synthetic.held, language: Language::ENGLISH };
    let stay = stay_of(store, &key.public(), synthetic.visit).unwrap();
    let files = take_apart(&unchecked(&source, &stay).unwrap()).unwrap().files;
    let at = Seal::open(&files.records[SEAL], &farsiding_core::entry::AnyTime(keys)).unwrap().at.0;
    (files, at)
}

fn told(files: &Files, keys: &OrganisationKeys) -> CheckReport {
    check_with(files, keys, None, &Procedures::built_in().unwrap())
}

fn alone() -> OrganisationKeys {
    OrganisationKeys::of_root(root().public())
}

fn of(report: &CheckReport, outcome: Outcome) -> BTreeSet<Code> {
    report.lines.iter().filter(|line| line.outcome == outcome).map(|line| line.code).collect()
}

fn broken(report: &CheckReport) -> BTreeSet<Code> {
    of(report, Outcome::Broken)
}

/// Returns a span around the time of the stay, with room on both sides.
fn around() -> (i64, i64) {
    let (_, at) = sealed_by(&said(&[(0, yearly(10, 0, i64::MAX))]));
    (at - 300 * DAY, at + 60 * DAY)
}

#[test]
fn a_packet_sealed_by_a_yearly_key_holds_with_the_pinned_root_alone() {
    let (from, until) = around();
    let keys = said(&[(from, yearly(10, from, until))]);
    let (files, _) = sealed_by(&keys);
    for known in [alone(), keys.clone()] {
        let report = told(&files, &known);
        assert_eq!(broken(&report), BTreeSet::new(), "{report:?}");
        assert!(
            of(&report, Outcome::Holds).contains(&Code::Keys)
                && of(&report, Outcome::Holds).contains(&Code::View)
        );
    }
    // Without the root's statements it is the packet of another organisation.
    let mut without = files.clone();
    without.records.remove(KEYS);
    assert!(broken(&told(&without, &alone())).contains(&Code::WrongKey));
    // The same holds with the statements of another root.
    let mut other = OrganisationKeys::of_root(OrganisationKey::from_secret([43; 32]).public());
    other.say(UtcMillis(from), yearly(10, from, until), &OrganisationKey::from_secret([43; 32])).unwrap();
    let mut foreign = files;
    foreign.records.insert(KEYS.to_owned(), cbor::encode(&KeyStatements::of(&other)).unwrap());
    let found = broken(&told(&foreign, &alone()));
    assert!(found.contains(&Code::ForgedKey) && found.contains(&Code::WrongKey), "{found:?}");
}

#[test]
fn what_is_said_of_keys_and_does_not_hold_is_a_forged_key() {
    let (from, until) = around();
    let keys = said(&[(from, yearly(10, from, until)), (from, yearly(11, until, until + DAY))]);
    let (mut files, _) = sealed_by(&keys);
    files.records.remove(SEAL); // without a seal only the change itself can be noticed
    let statements: KeyStatements = cbor::decode(&files.records[KEYS]).unwrap();
    let mut altered = statements.clone();
    altered.statements[1][200] ^= 1;
    let mut swapped = statements.clone();
    swapped.statements.swap(0, 1);
    let mut by_a_thief = statements.clone();
    let thief = OrganisationKey::among([10; 32], keys.clone());
    by_a_thief.statements.push(ByteBuf::from(
        keys.next(UtcMillis(from), yearly(66, from, until)).unwrap().seal(&thief).unwrap(),
    ));
    for changed in [altered, swapped, by_a_thief] {
        files.records.insert(KEYS.to_owned(), cbor::encode(&changed).unwrap());
        let report = told(&files, &alone());
        assert_eq!(broken(&report), BTreeSet::from([Code::RemovedAttachment, Code::ForgedKey]), "{report:?}");
    }
    // The root made different statements to the source of the newer ones.
    files.records.insert(KEYS.to_owned(), cbor::encode(&statements).unwrap());
    let elsewhere = said(&[(from, yearly(66, from, until))]);
    assert!(broken(&told(&files, &elsewhere)).contains(&Code::ForgedKey));
}

#[test]
fn a_key_that_signed_outside_its_time_is_an_expired_key() {
    let (from, until) = around();
    let (files, _) = sealed_by(&said(&[(from, yearly(10, from, from + DAY))]));
    let report = told(&files, &alone());
    assert_eq!(broken(&report), BTreeSet::from([Code::ExpiredKey]), "{report:?}");
    // A certificate and a checkpoint are signed by keys that are valid at another time.
    let keys = said(&[
        (from, yearly(10, from, until)),
        (from, yearly(11, from + 290 * DAY, until)),
        (from, yearly(12, from, from + DAY)),
    ]);
    let (mut files, _) = sealed_by(&keys);
    files.records.remove(SEAL);
    let whole = files.clone();
    let early = OrganisationKey::among([11; 32], keys.clone());
    let mut certificates: Certificates = cbor::decode(&files.records[CERTIFICATES]).unwrap();
    let (organisation, device) =
        (OrganisationId::of_key(&root().public()), DeviceKey::from_secret([99; 32]).public());
    let plain = Certificate::by_role(organisation, device, "x", Role::Operator, UtcMillis(from));
    let certificate = Certificate { issuer: Some(early.signer()), ..plain };
    certificates.certificates.push(ByteBuf::from(certificate.seal(&early).unwrap()));
    files.records.insert(CERTIFICATES.to_owned(), cbor::encode(&certificates).unwrap());
    let only = BTreeSet::from([Code::RemovedAttachment, Code::ExpiredKey]);
    assert_eq!(broken(&told(&files, &alone())), only);
    let mut files = whole;
    let mut log: Log = cbor::decode(&files.records[LOG]).unwrap();
    let last = log.checkpoints.last_mut().unwrap();
    *last = Checkpoint::open(last, &root().public()).unwrap().sign(&OrganisationKey::among([12; 32], keys));
    files.records.insert(LOG.to_owned(), cbor::encode(&log).unwrap());
    assert_eq!(broken(&told(&files, &alone())), only);
}

#[test]
fn a_key_lost_or_replaced_later_is_marked_and_one_used_after_that_is_not_believed() {
    let (from, until) = around();
    for why in [WhyWithdrawn::Lost, WhyWithdrawn::Replaced] {
        let keys = said(&[(from, yearly(10, from, until))]);
        let (files, at) = sealed_by(&keys);
        for (later, holds) in [(DAY, true), (-DAY, false)] {
            let mut newer = keys.clone();
            newer.say(UtcMillis(at + later), withdrawn(10, why, None), &root()).unwrap();
            let report = told(&files, &newer);
            let outcome = if holds { Outcome::Marked } else { Outcome::Broken };
            assert!(of(&report, outcome).contains(&Code::WithdrawnKey), "{report:?}");
            assert_eq!(report.all_holds(), holds);
        }
    }
}

#[test]
fn a_stolen_key_is_believed_as_far_as_the_root_vouches_for_the_log() {
    let (from, until) = around();
    let keys = said(&[(from, yearly(10, from, until))]);
    let (files, at) = sealed_by(&keys);
    let log: Log = cbor::decode(&files.records[LOG]).unwrap();
    let last = Checkpoint::open(log.checkpoints.last().unwrap(), &root().public()).unwrap();
    let its_own = last.signed_up_to();
    let another = SignedUpTo { root: Digest([7; 32]), ..its_own.clone() };
    let shorter = SignedUpTo { size: its_own.size - 1, ..its_own.clone() };
    let longer = SignedUpTo { size: its_own.size + 1, root: Digest([7; 32]), ..its_own.clone() };
    let other_heads = SignedUpTo { heads: Some(Digest([7; 32])), ..its_own.clone() };
    for (checkpoint, holds) in [
        (Some(its_own), true),
        (Some(another), false),
        (Some(shorter), false),
        (Some(longer), false),
        (Some(other_heads), false),
        (None, false),
    ] {
        let mut newer = keys.clone();
        // A date before the theft, chosen by the thief, does not help.
        newer.say(UtcMillis(at + DAY), withdrawn(10, WhyWithdrawn::Stolen, checkpoint), &root()).unwrap();
        let report = told(&files, &newer);
        assert_eq!(report.all_holds(), holds, "{report:?}");
        let outcome = if holds { Outcome::Marked } else { Outcome::Broken };
        assert!(of(&report, outcome).contains(&Code::WithdrawnKey), "{report:?}");
        if !holds {
            assert_eq!(broken(&report), BTreeSet::from([Code::WithdrawnKey]), "{report:?}");
        }
    }
}
