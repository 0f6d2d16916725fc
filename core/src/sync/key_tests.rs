//! Tests of an organisation whose keys change while its devices keep working: the yearly key change, a stolen
//! key, a lost key, and a root key known to somebody else.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed unwrap is a failed test")]

use super::log_tests::watch;
use super::tests::{Server, VISIT, phone, sync, texts, write};
use super::*;
use crate::authority::{Authority, Verdict};
use crate::book::{Book, BookError};
use crate::clock::UtcMillis;
use crate::entry::{
    Certificate, EntryError, KeyFault, KeyWord, OrganisationKey, OrganisationKeys, Role, SignedUpTo,
    WhyWithdrawn,
};
use crate::ids::{DeviceId, OrganisationId};
use crate::log::{Checkpoint, ledger_log};
use crate::store::{MemoryStore, Store, Write};

/// The server's clock in these tests.
const NOW: UtcMillis = UtcMillis(1_000_000);

fn root() -> OrganisationKey {
    OrganisationKey::from_secret([42; 32])
}

/// The root makes the given statements, and the server continues with the key `signs`.
fn say(server: &mut Server, signs: u8, words: impl IntoIterator<Item = KeyWord>) {
    let mut keys = server.key.keys().clone();
    for says in words {
        keys.say(NOW, says, &root()).unwrap();
    }
    server.key = OrganisationKey::among([signs; 32], keys);
}

fn key_of(n: u8) -> DeviceId {
    OrganisationKey::from_secret([n; 32]).public()
}

fn yearly(n: u8) -> KeyWord {
    KeyWord::Key { key: key_of(n), from: UtcMillis(0), until: Some(UtcMillis(1 << 50)) }
}

fn up_to(server: &Server) -> SignedUpTo {
    let newest = server.store.log().newest_checkpoint().unwrap().unwrap();
    Checkpoint::open(&newest.note, server.key.keys()).unwrap().signed_up_to()
}

/// Signs every certificate again with the current key.
fn certify_all(server: &mut Server) {
    let devices: Vec<DeviceId> = server.store.certificates().unwrap().into_iter().map(|c| c.0).collect();
    for device in devices {
        certify(server, device);
    }
}

fn certify(server: &mut Server, device: DeviceId) -> Vec<u8> {
    let bytes = certificate(server.key.signer(), device).seal(&server.key).unwrap();
    let version = server.store.value(CERTIFICATES_VERSION).unwrap();
    let version = version.map_or(1, |v| u64::from_be_bytes(v.try_into().unwrap()) + 1);
    let writes = [
        Write::Certificate { device, bytes: &bytes },
        Write::Value { key: CERTIFICATES_VERSION, value: &version.to_be_bytes() },
    ];
    server.store.commit(&writes).unwrap();
    bytes
}

fn certificate(issuer: DeviceId, device: DeviceId) -> Certificate {
    let organisation = OrganisationId::of_key(&root().public());
    let plain = Certificate::by_role(organisation, device, "phone", Role::Operator, UtcMillis(10));
    Certificate { issuer: Some(issuer), renewed_at: Some(NOW), ..plain }
}

fn refused_by_name(result: Result<Step, BookError>) -> String {
    match result {
        Err(BookError::Sync(SyncError::NotTheServer(why))) => why,
        other => panic!("{other:?}"),
    }
}

/// Sends one request to the server and processes the reply.
fn one_round(book: &mut Book, server: &mut Server) -> Result<Step, BookError> {
    let mut session = book.sync_session()?;
    let request = book.sync_request(&mut session)?;
    let reply = server.answer(&request).unwrap().reply;
    book.sync_receive(&mut session, &reply)
}

#[test]
fn a_phone_goes_on_over_the_yearly_change_and_is_told_once() {
    let mut server = Server::new();
    let (mut a, mut b) = (phone(1, &mut server), phone(2, &mut server));
    write(&mut a, "before");
    sync(&mut a, &mut server);
    say(&mut server, 10, [yearly(10)]);
    write(&mut a, "after");
    assert_eq!(sync(&mut a, &mut server).receipted, 1);
    assert_eq!(a.organisation_keys().unwrap().unwrap().count(), 1);
    assert!(watch(&mut a, &mut server).unwrap().contradictions.is_empty());
    // A year later, a phone returns that missed both key changes.
    say(&mut server, 11, [yearly(11)]);
    certify(&mut server, a.device());
    sync(&mut b, &mut server);
    assert_eq!(texts(b.store()), ["after", "before"]);
    write(&mut b, "later");
    sync(&mut b, &mut server);
    sync(&mut a, &mut server);
    assert!(watch(&mut a, &mut server).unwrap().contradictions.is_empty());
    // The statements are delivered once. After that an idle round costs eight bytes, which name the last
    // known statement.
    let mut session = a.sync_session().unwrap();
    let request = a.sync_request(&mut session).unwrap();
    let reply = server.answer(&request).unwrap().reply;
    println!("idle round under a yearly key: {} + {} bytes", request.len(), reply.len());
    assert!(request.len() + reply.len() <= 320, "{} + {}", request.len(), reply.len());
    assert!(wire::parts(&reply).unwrap().statements.is_empty());
}

#[test]
fn who_is_not_told_of_a_key_takes_its_word_for_nobodys() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    write(&mut a, "kept");
    // Somebody with an unrelated key answers and names that key in a statement of his own.
    let mut keys = OrganisationKeys::of_root(key_of(66));
    keys.say(NOW, yearly(67), &OrganisationKey::from_secret([66; 32])).unwrap();
    let honest = std::mem::replace(&mut server.key, OrganisationKey::among([67; 32], keys));
    let mut session = a.sync_session().unwrap();
    let request = a.sync_request(&mut session).unwrap();
    server.key = honest.clone();
    let reply = {
        let answer = server.answer(&request).unwrap();
        let mut message = wire::parts(&answer.reply).unwrap();
        let head = wire::ReplyHead::open(&message.head, &honest).unwrap();
        let thief = OrganisationKey::from_secret([67; 32]);
        let forged = wire::seal_reply(head, &wire::ReplyBulk::default(), &thief).unwrap();
        message.head = wire::parts(&forged).unwrap().head;
        wire::join_with(message.head, message.bulk, message.statements).unwrap()
    };
    refused_by_name(a.sync_receive(&mut session, &reply));
    assert_eq!(a.store().count_without_receipt().unwrap(), 1);
}

#[test]
fn a_thief_who_answers_with_a_withdrawn_key_is_refused_by_name_and_what_he_receipted_is_sent_again() {
    let mut server = Server::new();
    say(&mut server, 10, [yearly(10)]);
    let mut a = phone_of(1, &mut server);
    write(&mut a, "honest");
    sync(&mut a, &mut server);
    assert!(watch(&mut a, &mut server).unwrap().contradictions.is_empty());
    // A thief has the working key and answers from an empty ledger that knows the phone.
    let mut thief = Server::new();
    thief.key = server.key.clone();
    thief.epoch = server.epoch;
    thief.store = MemoryStore::new();
    certify(&mut thief, a.device());
    write(&mut a, "told to the thief");
    let mut session = a.sync_session().unwrap();
    let request = a.sync_request(&mut session).unwrap();
    let reply = thief.answer(&request).unwrap().reply;
    let _ = a.sync_receive(&mut session, &reply);
    assert_eq!(a.store().count_without_receipt().unwrap(), 0, "nobody can tell until the key is withdrawn");
    assert_eq!(texts(&server.store), ["honest"]);
    // The root withdraws the key, another key takes over, and every certificate is signed again.
    let stolen = KeyWord::KeyWithdrawn {
        key: key_of(10),
        why: WhyWithdrawn::Stolen,
        checkpoint: Some(up_to(&server)),
    };
    say(&mut server, 11, [stolen, yearly(11)]);
    certify_all(&mut server);
    sync(&mut a, &mut server);
    assert_eq!(texts(&server.store), ["honest", "told to the thief"]);
    assert!(watch(&mut a, &mut server).unwrap().contradictions.is_empty());
    assert!(a.log_standing().unwrap().unwrap().alarms.is_empty());
    // When the thief answers again, the phone reports why it does not accept the reply.
    let why = refused_by_name(one_round(&mut a, &mut thief));
    assert!(why.contains("withdrawn as stolen") && why.contains(&key_of(10).to_string()), "{why}");
    // A certificate signed by the withdrawn key is refused too, whatever its date.
    let keys = a.organisation_keys().unwrap().unwrap();
    let forged = certificate(key_of(10), DeviceId([9; 32])).seal(&thief.key).unwrap();
    let opened = Certificate::open(&forged, &keys);
    assert!(matches!(opened, Err(EntryError::Key(KeyFault::Withdrawn { .. }))));
}

/// Returns an enrolled phone of an organisation that has a working key.
fn phone_of(seed: u64, server: &mut Server) -> Book {
    let mut book = phone(seed, &mut Server::new());
    let certificate = certify(server, book.device());
    let statements: Vec<Vec<u8>> = server.key.keys().signed().map(<[u8]>::to_vec).collect();
    book.enrolled_with(server.key.public(), &statements, &certificate).unwrap();
    book
}

#[test]
fn a_certificate_by_a_key_that_was_not_named_enrols_nobody_and_keeps_nothing() {
    let mut server = Server::new();
    say(&mut server, 10, [yearly(10)]);
    let mut book = phone(1, &mut Server::new());
    let certificate = certify(&mut server, book.device());
    assert!(book.enrolled(root().public(), &certificate).is_err());
    assert_eq!(book.organisation_keys().unwrap().unwrap().count(), 0);
}

#[test]
fn what_is_carried_from_phone_to_phone_brings_the_statements_with_the_certificates() {
    let mut server = Server::new();
    let (mut a, mut b) = (phone(1, &mut server), phone(2, &mut server));
    sync(&mut a, &mut server);
    sync(&mut b, &mut server);
    // The yearly key certifies a new phone, while phone b never contacts the office again.
    say(&mut server, 10, [yearly(10)]);
    let mut new = phone_of(3, &mut server);
    sync(&mut a, &mut server);
    write(&mut new, "by the new phone");
    let verdict = |book: &Book| {
        let keys = book.organisation_keys().unwrap().unwrap();
        let bytes = book.store().certificates().unwrap();
        let authority = Authority::read(Some(&keys), bytes.iter().map(|c| c.1.as_slice()), false);
        let entries: Vec<_> = book.entries(VISIT).unwrap().0.into_iter().map(|kept| kept.0).collect();
        let judged = authority.stay(entries.iter().map(|entry| (entry, None)));
        judged.first().map(crate::authority::Judged::verdict)
    };
    // Without the key statement the carried certificate cannot be verified, so the entry is not checked yet.
    let mut without = MemoryStore::new();
    for change in new.store().changes_of(VISIT).unwrap().rows {
        let checked = crate::document::CheckedChange::check(&change.bytes, VISIT).unwrap();
        without.commit(&crate::store::writes_of(&checked, VISIT, false)).unwrap();
    }
    for (device, bytes) in new.store().certificates().unwrap() {
        without.commit(&[Write::Certificate { device, bytes: &bytes }]).unwrap();
    }
    b.carry_in(&carry_out(&without, &[VISIT], Vec::new()).unwrap()).unwrap();
    assert!(matches!(verdict(&b), Some(Verdict::NotChecked(_))), "{:?}", verdict(&b));
    b.carry_in(&new.carry_out(&[VISIT], Vec::new()).unwrap()).unwrap();
    assert_eq!(verdict(&b), Some(Verdict::Counts));
}

#[test]
fn a_root_in_two_hands_is_an_alarm_and_the_keys_known_before_go_on() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    say(&mut server, 10, [yearly(10)]);
    sync(&mut a, &mut server);
    // Somebody else with the root key names a key of his own under the same number and passes it on in a
    // carry file.
    let mut other = Server::new();
    say(&mut other, 66, [yearly(66)]);
    let mut carrier = MemoryStore::new();
    let mut none = OrganisationKeys::of_root(root().public());
    crate::store::learn_keys(&mut carrier, &mut none, other.key.keys().signed()).unwrap();
    let report = a.carry_in(&carry_out(&carrier, &[], Vec::new()).unwrap()).unwrap();
    assert_eq!(report.contradictions, [LogContradiction::TwoRoots]);
    let alarms = a.log_standing().unwrap().unwrap().alarms;
    assert_eq!(alarms.len(), 1);
    assert_eq!(alarms[0].kind, LogContradiction::TwoRoots);
    // His server is refused and reported, and syncing with the genuine one continues.
    certify(&mut other, a.device());
    refused_by_name(one_round(&mut a, &mut other));
    write(&mut a, "goes on");
    assert_eq!(sync(&mut a, &mut server).receipted, 1);
    assert_eq!(a.log_standing().unwrap().unwrap().alarms.len(), 1, "said once");
}

#[test]
fn a_checkpoint_the_stolen_key_signed_is_signed_anew_by_the_next() {
    let mut server = Server::new();
    say(&mut server, 10, [yearly(10)]);
    let mut a = phone_of(1, &mut server);
    write(&mut a, "one");
    sync(&mut a, &mut server);
    watch(&mut a, &mut server).unwrap();
    let stolen = KeyWord::KeyWithdrawn {
        key: key_of(10),
        why: WhyWithdrawn::Stolen,
        checkpoint: Some(up_to(&server)),
    };
    say(&mut server, 11, [stolen, yearly(11)]);
    certify_all(&mut server);
    let newest = ledger_log::publish(&mut server.store, &server.key, NOW).unwrap();
    let (signer, checkpoint) = Checkpoint::open_signed(&newest.note, server.key.keys()).unwrap();
    assert_eq!((signer, checkpoint.size), (key_of(11), 1));
    assert_eq!(ledger_log::publish(&mut server.store, &server.key, NOW).unwrap(), newest);
    write(&mut a, "two");
    sync(&mut a, &mut server);
    assert!(watch(&mut a, &mut server).unwrap().contradictions.is_empty());
}
