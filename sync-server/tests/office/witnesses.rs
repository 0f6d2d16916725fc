//! Witnesses that the server asks on its own: a log that grows is signed, a rewritten log is refused and
//! reported, and nobody who records waits for a witness.

use std::time::{Duration, Instant};

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::DeviceKey;
use farsiding_core::evidence::cosignatures;
use serde_json::Value;

use super::log::{office, organisation, raw, rewrite};
use super::outsider::{Witness, outsider};
use super::pages_stage::{Session, account};
use super::stage::{Device, Server, farsiding};

const QUICK: [&str; 2] = ["--witness-every", "1s"];

fn witness(server: &Server, more: &[&str]) -> (i32, Value) {
    let data = server.data.to_str().unwrap();
    let output =
        farsiding(&["witness", more[0], "--data", data, "--json"]).args(&more[1..]).output().unwrap();
    let said = serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("{output:?}"));
    (output.status.code().unwrap(), said)
}

fn add(server: &Server, of: &Witness) -> Value {
    let (code, said) = witness(server, &["add", "--url", &of.url, "--key", &of.key.to_string()]);
    assert_eq!(code, 0, "{said}");
    said
}

fn until(what: &str, mut holds: impl FnMut() -> bool) {
    let began = Instant::now();
    while !holds() {
        assert!(began.elapsed() < Duration::from_secs(40), "never came: {what}");
        std::thread::sleep(Duration::from_millis(200));
    }
}

/// Returns the known witnesses that signed the newest checkpoint.
fn signed_by(server: &Server) -> Vec<String> {
    let (_, said) = office(server, "checkpoint", &[]);
    said["witnesses"].as_array().unwrap().iter().map(|w| w["name"].as_str().unwrap().to_owned()).collect()
}

/// Returns whether `/healthz` is well, and what the state says about witnesses.
fn health(session: &Session<'_>) -> (bool, Vec<(bool, String)>) {
    let answer = session.get("/healthz");
    let told: Value = serde_json::from_slice(&answer.body).unwrap();
    let findings = told["findings"].as_array().unwrap().iter().filter(|f| f["name"] == "witness");
    let found = findings.map(|f| (f["ok"] == true, f["message"].as_str().unwrap().to_owned())).collect();
    (answer.status == 200, found)
}

#[test]
fn a_log_that_grows_is_signed_by_every_witness_that_is_there() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start_with(&folder.path().join("office"), "127.0.0.1:0", &QUICK);
    let key = organisation(&server);
    let (first, second) =
        (Witness::of(key, "witness.example/w1", 9), Witness::of(key, "witness.example/w2", 8));
    let said = add(&server, &first);
    assert_eq!(said["signed_size"], 0, "it is asked at once, also about an empty log");
    let log_key = farsiding_core::evidence::VerifierKey::read(said["log_key"].as_str().unwrap()).unwrap();
    assert!(
        !log_key.is_witness() && said["origin"] == log_key.name.as_str(),
        "what its keeper is given: {said}"
    );
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    a.open("ZZQX 4417");
    a.yes(&["sync"]);
    until("the first signature", || signed_by(&server) == ["witness.example/w1"]);
    let size = first.signed();
    assert!(size > 0);
    add(&server, &second);
    assert_eq!(second.signed(), size);
    for n in 0..3 {
        a.yes(&["add", "4417", "remark", &format!("remark {n}")]);
        a.yes(&["sync"]);
        until("both", || signed_by(&server).len() == 2);
        let (_, said) = office(&server, "checkpoint", &[]);
        let note = said["note"].as_str().unwrap();
        for witness in [&first, &second] {
            assert_eq!(Some(witness.signed()), said["size"].as_u64());
            assert_eq!(note.matches(&witness.key.name).count(), 1, "{note}");
            let lines = cosignatures(note).unwrap();
            assert!(lines.iter().any(|line| line.check(note, &witness.key).is_ok()));
        }
    }
    // Nothing is new, so nobody is asked.
    let asked = first.answers();
    std::thread::sleep(Duration::from_secs(2));
    assert_eq!(first.answers(), asked);
    assert!(asked.iter().all(|status| *status == 200), "{asked:?}");

    account(&server, "Office");
    let session = Session::of(&server, "Office");
    let (well, found) = health(&session);
    assert!(well && found.len() == 2 && found.iter().all(|(ok, _)| *ok), "{found:?}");
    assert!(found[0].1.contains("witness.example/w1: It signed the log of"), "{found:?}");
    assert!(session.page("/office/state").contains("witness.example/w2: It signed the log of"));
    let (_, said) = witness(&server, &["list"]);
    assert_eq!(said["witnesses"][0]["signed_size"], first.signed(), "{said}");
    assert_eq!(witness(&server, &["remove", "--name", "witness.example/w1"]).1["left"], 1);
    a.yes(&["add", "4417", "remark", "last"]);
    a.yes(&["sync"]);
    until("the second alone", || signed_by(&server) == ["witness.example/w2"]);
    assert!(first.signed() < second.signed());
}

/// Runs an office with a rewritten history against a witness that saw the earlier one.
fn rewritten(grown: bool) {
    let folder = tempfile::tempdir().unwrap();
    let mut server = Server::start_with(&folder.path().join("office"), "127.0.0.1:0", &QUICK);
    let honest = Witness::of(organisation(&server), "witness.example/w1", 9);
    add(&server, &honest);
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    a.open("ZZQX 4417");
    a.yes(&["add", "4417", "remark", "first"]);
    a.yes(&["sync"]);
    until("the signature", || signed_by(&server).len() == 1);
    let seen = honest.signed();
    account(&server, "Office");
    server.terminate();
    server.wait();
    rewrite(&server, |leaves| leaves[0].1 = UtcMillis(leaves[0].1.0 - 60_000));
    server.restart();
    let wanted = if grown {
        a.yes(&["add", "4417", "remark", "second"]);
        a.no(6, &["sync"]);
        422
    } else {
        409
    };
    until("the refusal", || honest.answers().last() == Some(&wanted));
    assert_eq!(honest.signed(), seen, "it signs no second story");
    assert!(signed_by(&server).is_empty());
    let session = Session::of(&server, "Office");
    until("health says so", || !health(&session).0);
    let (_, found) = health(&session);
    assert!(!found[0].0, "{found:?}");
    assert!(
        found[0].1.contains("refuses to sign") && found[0].1.contains("the log was rewritten"),
        "{found:?}"
    );
    let page = session.page("/office/state");
    assert!(page.contains("the log was rewritten") && page.contains("not OK"), "{page}");
    assert_eq!(witness(&server, &["list"]).1["witnesses"][0]["history"], true);
    // Recording continues.
    a.yes(&["add", "4417", "remark", "third"]);
    a.no(6, &["sync"]);
    assert_eq!(a.yes(&["receipts"])["unreceipted_entries"], 0);
}

#[test]
fn a_witness_refuses_a_rewritten_log_and_the_office_says_so() {
    rewritten(false);
}

#[test]
fn a_witness_refuses_what_grew_out_of_a_rewritten_log() {
    rewritten(true);
}

#[test]
fn a_log_that_lost_entries_is_said_to_be_shorter_than_what_was_signed() {
    let folder = tempfile::tempdir().unwrap();
    let mut server = Server::start_with(&folder.path().join("office"), "127.0.0.1:0", &QUICK);
    let honest = Witness::of(organisation(&server), "witness.example/w1", 9);
    add(&server, &honest);
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    a.open("ZZQX 4417");
    a.yes(&["add", "4417", "remark", "first"]);
    a.yes(&["sync"]);
    until("the signature", || signed_by(&server).len() == 1);
    account(&server, "Office");
    server.terminate();
    server.wait();
    // Both the ledger and the office's knowledge of the witness forget the last leaf.
    rewrite(&server, |leaves| leaves.truncate(leaves.len() - 1));
    let raw = raw(&server);
    raw.execute_batch("PRAGMA foreign_keys = OFF; DELETE FROM value WHERE key LIKE 'log/witness_calls/%'")
        .unwrap();
    raw.execute("DELETE FROM entry WHERE position NOT IN (SELECT entry FROM log)", []).unwrap();
    server.restart();
    let session = Session::of(&server, "Office");
    until("health says so", || {
        health(&session).1.iter().any(|(ok, words)| !ok && words.contains("entries are gone"))
    });
    assert!(!health(&session).0);
}

#[test]
fn a_witness_that_is_away_lies_or_does_not_know_the_log_is_told_and_keeps_nobody_waiting() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start_with(&folder.path().join("office"), "127.0.0.1:0", &QUICK);
    let key = organisation(&server);
    let real = Witness::of(key, "witness.example/w1", 9);
    let said = |url: &str| {
        let (code, said) = witness(&server, &["add", "--url", url, "--key", &real.key.to_string()]);
        assert_eq!(code, 0, "it is kept and asked again: {said}");
        said["trouble"].as_str().unwrap_or_default().to_owned()
    };
    assert!(said("http://127.0.0.1:9").contains("was not reached"));
    let silent = std::net::TcpListener::bind("127.0.0.1:0").unwrap();
    let stranger = Witness::of(key, "witness.example/w1", 1);
    assert!(said(&stranger.url).contains("carries no signature by witness.example/w1"));
    let forgetful = Witness::of(DeviceKey::from_secret([3; 32]).public(), "witness.example/w1", 9);
    assert!(said(&forgetful.url).contains("does not know this log"));
    for (status, body, words) in [
        (403, "", "by another key"),
        (500, "", "(500)"),
        (302, "", "(302)"),
        (200, "<html>sign in</html>", "no answer of a witness"),
        (409, "many\n", "gives no other"),
    ] {
        let url = outsider(move |_| (status, "text/x.tlog.size", body.as_bytes().to_vec()));
        assert!(said(&url).contains(words), "{status}: {}", said(&url));
    }
    let long = outsider(|_| (200, "text/plain", vec![b'x'; 70_000]));
    assert!(said(&long).contains("too long"));
    // The witness accepts the connection and never answers, while a device brings a day's work.
    let url = format!("http://{}", silent.local_addr().unwrap());
    let data = server.data.to_str().unwrap();
    let mut waiting =
        farsiding(&["witness", "add", "--data", data, "--url", &url, "--key", &real.key.to_string()])
            .stdout(std::process::Stdio::null())
            .spawn()
            .unwrap();
    until("it is kept", || witness(&server, &["list"]).1["witnesses"][0]["url"] == url.as_str());
    std::thread::sleep(Duration::from_secs(2));
    let began = Instant::now();
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    a.open("ZZQX 4417");
    a.yes(&["sync"]);
    assert!(began.elapsed() < Duration::from_secs(20), "{:?}", began.elapsed());
    assert!(server.is_well(), "an outsider that is away is no reason to be taken for ill");
    waiting.kill().unwrap();
    waiting.wait().unwrap();
    // The witness is back, and all is well again.
    add(&server, &real);
    assert!(real.signed() > 0);
    assert!(witness(&server, &["list"]).1["witnesses"][0]["trouble"].is_null());
}

#[test]
fn what_is_typed_wrong_is_refused_with_the_reason() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let key = organisation(&server);
    let real = Witness::of(key, "witness.example/w1", 9);
    let no = |url: &str, key: &str, words: &str| {
        let (code, said) = witness(&server, &["add", "--url", url, "--key", key]);
        assert_eq!(code, 3, "{said}");
        assert!(said["message"].as_str().unwrap().contains(words), "{said}");
    };
    let good = real.key.to_string();
    no("witness.example", &good, "is no address");
    no("ftp://witness.example", &good, "begins with http");
    no(&real.url, "witness.example/w1", "NAME+ID+KEY");
    no(&real.url, &good.replace("w1", "w3"), "another key's");
    let plain = farsiding_core::evidence::VerifierKey::plain("farsiding/x", key).to_string();
    no(&real.url, &plain, "no witness's");
    let (code, said) = witness(&server, &["remove", "--name", "nobody"]);
    assert!(code == 3 && said["message"].as_str().unwrap().contains("no witness \"nobody\""), "{said}");
    assert_eq!(witness(&server, &["list"]).1["witnesses"].as_array().unwrap().len(), 0);
}
