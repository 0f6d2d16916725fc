//! The office's log through the calls a phone makes.
#![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{Certificate, OrganisationKey, Role};
use farsiding_core::ids::{DeviceId, OrganisationId};
use farsiding_core::store::{MemoryStore, Store as _, Write};
use farsiding_core::sync::{Answerer, answer_log};
use serde_json::Value;

use crate::{Book, FarsidingError};

const NOW: UtcMillis = UtcMillis(1_795_528_800_000);

/// A server with one enrolled phone.
fn stage() -> (tempfile::TempDir, Book, MemoryStore, OrganisationKey) {
    let folder = tempfile::tempdir().unwrap();
    let place = folder.path().to_str().unwrap().to_owned();
    let book = Book::open(place, "book".into(), vec![3; 32]).unwrap();
    let key = OrganisationKey::from_secret([7; 32]);
    let device = DeviceId::read(&book.device()).unwrap();
    let certificate =
        Certificate::by_role(OrganisationId::of_key(&key.public()), device, "phone", Role::Operator, NOW);
    let bytes = certificate.seal(&key).unwrap();
    let mut store = MemoryStore::new();
    store.commit(&[Write::Certificate { device, bytes: &bytes }]).unwrap();
    book.enrolled(key.public().to_string(), bytes).unwrap();
    (folder, book, store, key)
}

fn sync(book: &Book, store: &mut MemoryStore, key: &OrganisationKey, now: UtcMillis) {
    book.sync_start().unwrap();
    loop {
        let request = book.sync_request().unwrap();
        let reply = Answerer::new(store, key, 1).answer(&request, now).unwrap().reply;
        let said: Value = serde_json::from_str(&book.sync_receive(reply).unwrap()).unwrap();
        if said["done"] == true {
            return;
        }
    }
}

fn remark(book: &Book, text: &str) {
    let subject = format!("visit:{}", "07".repeat(16));
    let drafts = format!(r#"[{{"says": {{"remark": {{"text": "{text}"}}}}}}]"#);
    book.append(subject, drafts, "op-1".into()).unwrap();
}

fn ask(book: &Book, store: &mut MemoryStore, key: &OrganisationKey) -> Value {
    let request = book.log_request().unwrap().unwrap();
    let reply = answer_log(store, key, &request, NOW).unwrap().reply;
    serde_json::from_str(&book.log_receive(reply).unwrap()).unwrap()
}

#[test]
fn a_phone_checks_the_log_after_a_sync_and_status_says_how_it_stands() {
    let (_folder, book, mut store, key) = stage();
    remark(&book, "first");
    sync(&book, &mut store, &key, NOW);
    let said = ask(&book, &mut store, &key);
    assert_eq!((said["done"].as_bool(), said["proven"].as_u64()), (Some(true), Some(1)), "{said}");
    assert_eq!(book.log_request().unwrap(), None, "nothing more to ask");
    let refused = book.log_receive(b"<html>".to_vec());
    assert!(matches!(refused, Err(FarsidingError::WrongCall { .. })), "{refused:?}");
    let status: Value = serde_json::from_str(&book.status().unwrap()).unwrap();
    assert_eq!(status["log"]["size"], 1);
    assert!(status["log"]["alarms"].as_array().unwrap().is_empty());
}

#[test]
fn a_rewritten_log_reaches_the_phone_in_words() {
    let (_folder, book, mut store, key) = stage();
    for text in ["first", "second"] {
        remark(&book, text);
    }
    sync(&book, &mut store, &key, NOW);
    ask(&book, &mut store, &key);
    // Another ledger under the same name: it gets the records anew and dates them anew.
    let mut other = MemoryStore::new();
    for (device, bytes) in store.certificates().unwrap() {
        other.commit(&[Write::Certificate { device, bytes: &bytes }]).unwrap();
    }
    remark(&book, "next");
    sync(&book, &mut other, &key, UtcMillis(NOW.0 + 60_000));
    let said = ask(&book, &mut other, &key);
    assert_eq!(said["contradictions"][0]["kind"], "rewritten", "{said}");
    assert!(said["contradictions"][0]["sentence"].as_str().unwrap().contains("rewritten"));
    let status: Value = serde_json::from_str(&book.status().unwrap()).unwrap();
    assert_eq!(status["log"]["alarms"][0]["kind"], "rewritten");
}
