//! Tests of chains of key statements: what follows from a chain, and which statements do not extend it.

#![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]

use super::*;
use crate::clock::UtcMillis;
use crate::entry::{Certificate, EntryError, OrganisationKey, PublicKey, Role, cbor};
use crate::ids::{DeviceId, Digest, OrganisationId};
use crate::log::{Checkpoint, CheckpointError};

const DAY: i64 = 24 * 60 * 60 * 1000;
const YEAR: i64 = 365 * DAY;

fn root() -> OrganisationKey {
    OrganisationKey::from_secret([1; 32])
}

fn secret(n: u8) -> OrganisationKey {
    OrganisationKey::from_secret([n; 32])
}

fn yearly(n: u8, from: i64) -> KeyWord {
    KeyWord::Key { key: secret(n).public(), from: UtcMillis(from), until: Some(UtcMillis(from + YEAR)) }
}

fn withdrawn(n: u8, why: WhyWithdrawn, checkpoint: Option<SignedUpTo>) -> KeyWord {
    KeyWord::KeyWithdrawn { key: secret(n).public(), why, checkpoint }
}

/// Returns a root and one yearly key.
fn first_year() -> OrganisationKeys {
    let mut keys = OrganisationKeys::of_root(root().public());
    keys.say(UtcMillis(0), yearly(10, 0), &root()).unwrap();
    keys
}

fn among(n: u8, keys: &OrganisationKeys) -> OrganisationKey {
    OrganisationKey::among([n; 32], keys.clone())
}

fn certificate(issuer: PublicKey, at: i64) -> Certificate {
    let organisation = OrganisationId::of_key(&root().public());
    let plain = Certificate::by_role(organisation, DeviceId([9; 32]), "phone", Role::Operator, UtcMillis(at));
    Certificate { issuer: Some(issuer), ..plain }
}

fn checkpoint(size: u64) -> Checkpoint {
    let origin = Checkpoint::first_origin(&root().public());
    Checkpoint { origin, size, root: Digest::of(&size.to_be_bytes()), heads: None }
}

fn up_to(size: u64) -> SignedUpTo {
    checkpoint(size).signed_up_to()
}

#[test]
fn a_working_key_signs_in_the_roots_place_and_only_who_knows_the_statement_believes_it() {
    let keys = first_year();
    let working = among(10, &keys);
    assert_eq!((working.public(), working.signer()), (root().public(), secret(10).public()));
    let bytes = certificate(working.signer(), DAY).seal(&working).unwrap();
    assert_eq!(Certificate::open(&bytes, &keys).unwrap(), certificate(working.signer(), DAY));
    // Version one, and a device that received no statements, know the root alone.
    assert_eq!(Certificate::open(&bytes, &root().public()), Err(EntryError::WrongSigner));
    let note = checkpoint(3).sign(&working);
    assert_eq!(Checkpoint::open(&note, &keys).unwrap(), checkpoint(3));
    assert!(matches!(Checkpoint::open(&note, &root().public()), Err(CheckpointError::Note(_))));
    // What the root itself signed remains valid.
    let bytes = certificate(root().public(), DAY).seal(&root()).unwrap();
    assert!(Certificate::open(&bytes, &keys).is_ok());
}

#[test]
fn nobody_names_a_key_but_the_root() {
    let mut keys = first_year();
    let before = keys.clone();
    for thief in [among(10, &keys), secret(66)] {
        let next = keys.next(UtcMillis(DAY), yearly(66, 0)).unwrap().seal(&thief).unwrap();
        let learned = keys.learn([next]);
        assert_eq!((learned.new, learned.refused), (0, Some(KeyError::WrongSigner(2))));
        assert_eq!(keys, before);
    }
    let other = OrganisationKeys::of_root(secret(2).public());
    let elsewhere = other.next(UtcMillis(0), yearly(66, 0)).unwrap().seal(&root()).unwrap();
    assert_eq!(keys.learn([elsewhere]).refused, Some(KeyError::OtherOrganisation(1)));
}

#[test]
fn a_certificate_of_another_organisations_key_is_none_though_both_named_it() {
    let keys = first_year();
    let foreign =
        Certificate { organisation: OrganisationId([3; 16]), ..certificate(secret(10).public(), DAY) };
    let bytes = foreign.seal(&among(10, &keys)).unwrap();
    assert_eq!(Certificate::open(&bytes, &keys), Err(EntryError::WrongSigner));
}

#[test]
fn a_key_signs_in_its_time_and_ten_minutes_around_it() {
    let keys = first_year();
    let key = secret(10).public();
    let allowed = |made: Use<'_>| keys.allows(&key, made).is_ok();
    for (at, holds) in [
        (-CLOCK_PLAY_MILLIS - 1, false),
        (-CLOCK_PLAY_MILLIS, true),
        (YEAR + CLOCK_PLAY_MILLIS, true),
        (YEAR + CLOCK_PLAY_MILLIS + 1, false),
        (i64::MIN, false),
        (i64::MAX, false),
    ] {
        let at = UtcMillis(at);
        assert_eq!(allowed(Use::Certificate { at }), holds, "{at:?}");
        assert_eq!(allowed(Use::Word { at }), holds);
        assert_eq!(allowed(Use::Answer { at }), holds);
        // A stay of years ago may be sealed today.
        assert_eq!(allowed(Use::Past { at }), holds || at.0 < 0);
    }
    let ended = keys.standing(&key, UtcMillis(2 * YEAR));
    assert_eq!(ended, KeyStanding::Ended { until: UtcMillis(YEAR) });
    assert_eq!(keys.standing(&key, UtcMillis(-1)), KeyStanding::NotYet { from: UtcMillis(0) });
    assert_eq!(keys.standing(&root().public(), UtcMillis(2 * YEAR)), KeyStanding::Root);
    assert_eq!(keys.standing(&secret(66).public(), UtcMillis(0)), KeyStanding::Unknown);
}

#[test]
fn a_certificates_last_time_decides_so_that_an_old_key_cannot_renew() {
    let keys = first_year();
    let old = among(10, &keys);
    let renewed = Certificate { renewed_at: Some(UtcMillis(2 * YEAR)), ..certificate(old.signer(), DAY) };
    let bytes = renewed.seal(&old).unwrap();
    assert!(matches!(Certificate::open(&bytes, &keys), Err(EntryError::Key(KeyFault::Ended { .. }))));
    let revoked = Certificate { revoked_at: Some(UtcMillis(2 * YEAR)), ..certificate(old.signer(), DAY) };
    let bytes = revoked.seal(&old).unwrap();
    assert!(matches!(Certificate::open(&bytes, &keys), Err(EntryError::Key(KeyFault::Ended { .. }))));
}

#[test]
fn what_a_stolen_key_signed_is_not_believed_but_for_the_log_that_is_vouched_for() {
    let mut keys = first_year();
    let thief = among(10, &keys);
    let bytes = certificate(thief.signer(), DAY).seal(&thief).unwrap();
    assert!(Certificate::open(&bytes, &keys).is_ok(), "until it is withdrawn nobody can tell");
    let stolen = withdrawn(10, WhyWithdrawn::Stolen, Some(up_to(5)));
    keys.say(UtcMillis(30 * DAY), stolen, &root()).unwrap();
    // The date makes no difference, because a thief can use any date.
    for at in [DAY, 29 * DAY, 31 * DAY] {
        let bytes = certificate(thief.signer(), at).seal(&thief).unwrap();
        assert!(matches!(Certificate::open(&bytes, &keys), Err(EntryError::Key(KeyFault::Withdrawn { .. }))));
        let at = UtcMillis(at);
        for made in [Use::Word { at }, Use::Answer { at }, Use::Past { at }] {
            assert!(keys.allows(&thief.signer(), made).is_err());
        }
    }
    assert!(Checkpoint::open(&checkpoint(5).sign(&thief), &keys).is_ok());
    assert!(Checkpoint::open(&checkpoint(4).sign(&thief), &keys).is_ok());
    let forged = Checkpoint { root: Digest([7; 32]), ..checkpoint(5) };
    let anew = Checkpoint { origin: format!("{}/0011223344556677", checkpoint(5).origin), ..checkpoint(5) };
    for note in [checkpoint(6), forged, anew] {
        let opened = Checkpoint::open(&note.sign(&thief), &keys);
        assert!(matches!(opened, Err(CheckpointError::Key(KeyFault::Withdrawn { .. }))));
    }
}

#[test]
fn what_a_lost_or_replaced_key_signed_before_holds() {
    for why in [WhyWithdrawn::Lost, WhyWithdrawn::Replaced] {
        let mut keys = first_year();
        keys.say(UtcMillis(30 * DAY), withdrawn(10, why, Some(up_to(5))), &root()).unwrap();
        let key = secret(10).public();
        for (at, holds) in [(DAY, true), (29 * DAY, true), (31 * DAY, false)] {
            let at = UtcMillis(at);
            assert_eq!(keys.allows(&key, Use::Certificate { at }).is_ok(), holds);
            assert_eq!(keys.allows(&key, Use::Word { at }).is_ok(), holds);
            assert_eq!(keys.allows(&key, Use::Past { at }).is_ok(), holds);
            assert!(keys.allows(&key, Use::Answer { at }).is_err(), "nobody answers with it any more");
        }
        assert!(Checkpoint::open(&checkpoint(6).sign(&among(10, &keys)), &keys).is_ok());
        // The key was first reported lost and later found to be in other hands.
        keys.say(UtcMillis(40 * DAY), withdrawn(10, WhyWithdrawn::Stolen, None), &root()).unwrap();
        assert!(keys.allows(&key, Use::Word { at: UtcMillis(DAY) }).is_err());
        let again = keys.say(UtcMillis(50 * DAY), withdrawn(10, why, None), &root());
        assert!(matches!(again, Err(KeyError::NotAllowed(3..=4, _))), "stolen stays stolen");
    }
}

#[test]
fn a_successor_takes_the_roots_place_and_the_organisation_keeps_its_id() {
    let mut keys = first_year();
    let id = keys.organisation();
    let heir = secret(2);
    keys.say(UtcMillis(YEAR), KeyWord::Successor { key: heir.public() }, &root()).unwrap();
    assert_eq!((keys.organisation(), keys.root(), keys.root_now()), (id, root().public(), heir.public()));
    let by_the_old = keys.next(UtcMillis(YEAR), yearly(11, YEAR)).unwrap().seal(&root()).unwrap();
    assert_eq!(keys.clone().learn([by_the_old]).refused, Some(KeyError::WrongSigner(3)));
    keys.say(UtcMillis(YEAR), yearly(11, YEAR), &heir).unwrap();
    let working = among(11, &keys);
    let bytes = certificate(working.signer(), YEAR + DAY).seal(&working).unwrap();
    // A reader that pinned the first root can read the whole chain.
    let read = OrganisationKeys::read(root().public(), keys.signed()).unwrap();
    assert!(Certificate::open(&bytes, &read).is_ok());
    assert_eq!(read, keys);
    // What the first root signed in its time is valid; what it signs afterwards is not.
    for (at, holds) in [(DAY, true), (2 * YEAR, false)] {
        let bytes = certificate(root().public(), at).seal(&root()).unwrap();
        assert_eq!(Certificate::open(&bytes, &keys).is_ok(), holds);
        let bytes = certificate(heir.public(), 3 * YEAR).seal(&among(2, &keys)).unwrap();
        assert!(Certificate::open(&bytes, &keys).is_ok());
    }
    // The first root may be withdrawn now, but the new one may not.
    let mut told = keys.clone();
    told.say(UtcMillis(2 * YEAR), withdrawn(1, WhyWithdrawn::Stolen, None), &heir).unwrap();
    assert!(keys.say(UtcMillis(2 * YEAR), withdrawn(2, WhyWithdrawn::Stolen, None), &heir).is_err());
}

#[test]
fn two_statements_of_one_number_are_a_fork_and_the_chain_known_before_stays() {
    let mut here = first_year();
    let mut there = here.clone();
    here.say(UtcMillis(DAY), yearly(11, YEAR), &root()).unwrap();
    let theirs = there.say(UtcMillis(DAY), yearly(66, 0), &root()).unwrap();
    let further = there.say(UtcMillis(DAY), yearly(67, 0), &root()).unwrap();
    let before = here.clone();
    let learned = here.learn([theirs.clone(), further]);
    assert_eq!(learned.refused, Some(KeyError::Fork(2)));
    let fork = learned.fork.unwrap();
    assert_eq!((fork.number, &fork.theirs), (2, &theirs));
    assert_eq!(Some(fork.ours.as_slice()), before.signed().nth(1));
    assert_eq!(here, before);
    // Only a statement signed by the root is a fork.
    let false_alarm = first_year().next(UtcMillis(DAY), yearly(66, 0)).unwrap().seal(&secret(66)).unwrap();
    assert_eq!(here.learn([false_alarm]).fork, None);
}

#[test]
fn a_chain_is_read_in_its_order_and_without_gaps() {
    let mut keys = first_year();
    keys.say(UtcMillis(DAY), yearly(11, YEAR), &root()).unwrap();
    keys.say(UtcMillis(DAY), yearly(12, 2 * YEAR), &root()).unwrap();
    let all: Vec<Vec<u8>> = keys.signed().map(<[u8]>::to_vec).collect();
    assert_eq!(OrganisationKeys::read(root().public(), &all).unwrap(), keys);
    let mut late = OrganisationKeys::of_root(root().public());
    assert_eq!(late.learn(&all[1..]).refused, Some(KeyError::NoLink(2)));
    assert_eq!(late.learn(&all[..1]).new, 1);
    assert_eq!(late.learn(&all).new, 2, "what is known is passed over");
    assert_eq!(late, keys);
    let swapped = [&all[0], &all[2], &all[1]];
    assert_eq!(OrganisationKeys::read(root().public(), swapped), Err(KeyError::NoLink(3)));
    // With another first statement the second one no longer matches its predecessor.
    let mut other = OrganisationKeys::of_root(root().public());
    other.say(UtcMillis(1), yearly(10, 0), &root()).unwrap();
    assert_eq!(other.learn(&all[1..]).refused, Some(KeyError::NoLink(2)));
}

#[test]
fn what_cannot_be_said_of_keys_is_refused_with_its_reason() {
    let keys = first_year();
    let says = |says| keys.next(UtcMillis(DAY), says).map(|_| ());
    let of = |key, from, until| KeyWord::Key { key, from: UtcMillis(from), until };
    let new = secret(11).public();
    assert_eq!(says(of(new, 0, None)), Ok(()));
    for wrong in [
        of(new, 5, Some(UtcMillis(5))),
        of(DeviceId([0xff; 32]), 0, None),
        of(DeviceId([0; 32]), 0, None),
        of(root().public(), 0, None),
        yearly(10, YEAR),
        KeyWord::Successor { key: root().public() },
        KeyWord::Successor { key: secret(10).public() },
        withdrawn(66, WhyWithdrawn::Stolen, None),
        withdrawn(1, WhyWithdrawn::Stolen, None),
    ] {
        assert!(matches!(says(wrong.clone()), Err(KeyError::NotAllowed(2, _))), "{wrong:?}");
        // The statement is refused even though a root signed it.
        let said = keys.next(UtcMillis(DAY), of(new, 0, None)).unwrap();
        let bytes = KeyStatement { says: wrong, ..said }.seal(&root()).unwrap();
        assert!(matches!(keys.clone().learn([bytes]).refused, Some(KeyError::NotAllowed(2, _))));
    }
}

#[test]
fn no_altered_statement_is_read_and_none_that_says_more() {
    let keys = first_year();
    let bytes = keys.signed().next().unwrap().to_vec();
    for at in 0..bytes.len() {
        for bit in [1, 0x80] {
            let mut altered = bytes.clone();
            altered[at] ^= bit;
            let read = OrganisationKeys::read(root().public(), [&altered]);
            assert!(matches!(read, Err(KeyError::Envelope { number: 1, .. })), "byte {at}");
        }
    }
    for cut in 0..bytes.len() {
        assert!(OrganisationKeys::read(root().public(), [&bytes[..cut]]).is_err());
    }
    let statement = keys.statements().next().unwrap();
    let mut value = ciborium::Value::serialized(statement).unwrap();
    value.as_map_mut().unwrap().push(("more".into(), true.into()));
    let more = root().seal(cbor::encode(&value).unwrap(), "farsiding key 1");
    assert!(OrganisationKeys::read(root().public(), [more]).is_err());
    // A payload signed for another purpose is not a statement.
    let other = root().seal(cbor::encode(statement).unwrap(), "farsiding certificate 2");
    assert!(OrganisationKeys::read(root().public(), [other]).is_err());
}

/// The first bytes ever written of each kind must remain readable.
#[test]
fn the_form_of_statements_is_frozen() {
    let mut keys = OrganisationKeys::of_root(root().public());
    keys.say(UtcMillis(1_000), yearly(10, 2_000), &root()).unwrap();
    keys.say(UtcMillis(3_000), withdrawn(10, WhyWithdrawn::Stolen, Some(up_to(5))), &root()).unwrap();
    keys.say(UtcMillis(4_000), KeyWord::Successor { key: secret(2).public() }, &root()).unwrap();
    let lines: Vec<String> = keys.signed().map(crate::ids::to_hex).collect();
    let golden = include_str!("../../../../tests/golden/keys/statements.txt");
    assert_eq!(lines.join("\n"), golden.trim());
}
