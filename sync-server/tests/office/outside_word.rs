//! What a packet proves beyond the organisation's own word. The server has its log stamped and signed by
//! third parties, and the reader of the packet names the ones to trust.

use std::time::{Duration, Instant};

use serde_json::Value;

use super::log::{office, organisation};
use super::outsider::Witness;
use super::pages_stage::{Session, account};
use super::stage::{Device, Server, farsiding};
use super::timestamps::{Authority, Kind, kept};

fn until(what: &str, mut holds: impl FnMut() -> bool) {
    let began = Instant::now();
    while !holds() {
        assert!(began.elapsed() < Duration::from_secs(40), "never came: {what}");
        std::thread::sleep(Duration::from_millis(200));
    }
}

fn export(server: &Server, car: &str) -> String {
    let out = server.data.with_extension("pdf");
    let (data, out) = (server.data.to_str().unwrap(), out.to_str().unwrap());
    let made = farsiding(&["export", "packet", "--data", data, "--car", car, "--out", out]).output().unwrap();
    assert!(made.status.success(), "{made:?}");
    out.to_owned()
}

fn verify(server: &Server, packet: &str, more: &[&str]) -> (i32, Value) {
    let key = organisation(server).to_string();
    let output = farsiding(&["verify", packet, "--key", &key, "--json"]).args(more).output().unwrap();
    let said = serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("{output:?}"));
    (output.status.code().unwrap(), said)
}

fn codes(said: &Value, outcome: &str) -> Vec<String> {
    let lines = said["lines"].as_array().unwrap().iter().filter(|line| line["outcome"] == outcome);
    lines.map(|line| line["code"].as_str().unwrap().to_owned()).collect()
}

fn has(said: &Value, outcome: &str, code: &str) -> bool {
    codes(said, outcome).iter().any(|found| found == code)
}

#[test]
fn a_packet_says_on_whose_word_its_times_and_completeness_rest() {
    let folder = tempfile::tempdir().unwrap();
    let authority = Authority::new(folder.path(), "tsa", Kind::RsaOverIntermediate);
    let other = Authority::new(folder.path(), "other", Kind::P256);
    let (root, other_root) = (authority.root(), other.root());
    let tsa = Authority::serve(move |query| (200, authority.answer(&query)));
    let server = Server::start_with(
        &folder.path().join("office"),
        "127.0.0.1:0",
        &["--witness-every", "1s", "--tsa", &tsa, "--tsa-root", &root, "--stamp-every", "1s"],
    );
    let witness = Witness::of(organisation(&server), "witness.example/w1", 9);
    let stranger = Witness::of(organisation(&server), "witness.example/w2", 8);
    let (key, others) = (witness.key.to_string(), stranger.key.to_string());
    let data = server.data.to_str().unwrap();
    let added = farsiding(&["witness", "add", "--data", data, "--url", &witness.url, "--key", &key]).output();
    assert!(added.unwrap().status.success());
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    a.open("ZZQX 4417");
    a.yes(&["add", "4417", "remark", "first"]);
    a.yes(&["sync"]);
    until("stamp and signature", || {
        let (_, said) = office(&server, "checkpoint", &[]);
        said["witnesses"].as_array().unwrap().len() == 1 && !said["time_stamped"].is_null()
    });
    let packet = export(&server, "ZZQX 4417");
    assert_eq!(export(&server, "ZZQX 4417"), packet);

    let both = ["--witness", &key, "--tsa-root", &root];
    let (code, said) = verify(&server, &packet, &both);
    assert_eq!(code, 0, "{said}");
    assert!(has(&said, "holds", "witness") && has(&said, "holds", "time_stamp"), "{said}");
    let outside = &said["outside"];
    assert_eq!(
        (outside["strict"].as_bool(), outside["witnesses"][0]["all"].as_bool()),
        (Some(true), Some(true))
    );
    let verdict = outside["verdict"].as_str().unwrap();
    assert!(
        verdict.contains("Invented-tsa stamped") && verdict.contains("witness.example/w1 signed"),
        "{verdict}"
    );
    assert!(!codes(&said, "marked").iter().any(|code| code.contains("time_stamp")), "{said}");
    assert_eq!(verify(&server, &packet, &[&both[..], &["--strict"]].concat()).0, 0);
    // Several keys are given, one of which signed.
    assert_eq!(verify(&server, &packet, &[&both[..], &["--strict", "--witness", &others]].concat()).0, 0);

    // Without named third parties the packet holds, and the output says on whose word.
    let (code, said) = verify(&server, &packet, &[]);
    assert_eq!((code, has(&said, "marked", "unchecked_time_stamp")), (0, true), "{said}");
    assert!(!has(&said, "marked", "no_witness"), "nobody was asked for");
    let alone = "Times and completeness rest on the organization's word alone. Which devices are its own, and what they \
                 may do, rests on the organization's word alone.";
    assert_eq!(said["outside"]["verdict"], alone);
    let strict = verify(&server, &packet, &["--strict"]);
    assert_eq!(strict.0, 3, "{}", strict.1);
    assert!(has(&strict.1, "broken", "no_witness") && has(&strict.1, "broken", "unchecked_time_stamp"));
    let key_of = organisation(&server).to_string();
    let words = farsiding(&["verify", &packet, "--key", &key_of]).output().unwrap();
    assert_eq!(String::from_utf8(words.stdout).unwrap().lines().last(), Some(alone));

    // The witness did not sign, and the root does not certify the authority.
    let (code, said) = verify(&server, &packet, &["--witness", &others]);
    assert_eq!((code, has(&said, "marked", "no_witness")), (0, true), "{said}");
    let strict = ["--strict", "--tsa-root", &root, "--witness", &others];
    assert_eq!(verify(&server, &packet, &strict).0, 3);
    let (code, said) = verify(&server, &packet, &["--tsa-root", &other_root, "--witness", &key]);
    assert_eq!((code, has(&said, "broken", "forged_time_stamp")), (3, true), "{said}");
    let (code, said) = verify(&server, &packet, &["--strict", "--witness", &key]);
    assert_eq!((code, has(&said, "broken", "unchecked_time_stamp")), (3, true), "{said}");

    // The arguments are mistyped.
    for (more, words) in [
        (["--witness", "witness.example/w1"], "NAME+ID+KEY"),
        (["--tsa-root", "/nowhere.pem"], "no file of roots"),
        (["--tsa-root", &packet], "no certificate"),
    ] {
        let (code, said) = verify(&server, &packet, &more);
        assert!(code == 3 && said["message"].as_str().unwrap().contains(words), "{said}");
    }
    // The proof of the last entry is checked by a tool that knows only the published format.
    let proof = folder.path().join("proof");
    std::fs::write(&proof, last_entry_proof(&packet)).unwrap();
    let text = std::fs::read_to_string(&proof).unwrap();
    assert!(text.starts_with("c2sp.org/tlog-proof@v1\nextra "), "{text}");
    assert!(text.contains("witness.example/w1"), "the witness's line goes along: {text}");
}

fn last_entry_proof(packet: &str) -> Vec<u8> {
    let file = std::fs::read(packet).unwrap();
    let apart = farsiding_packet::take_apart(&file).unwrap();
    apart.files.records["last-entry.tlog-proof"].clone()
}

#[test]
fn a_witness_that_signs_after_the_stamp_goes_along_as_well() {
    let folder = tempfile::tempdir().unwrap();
    let authority = Authority::new(folder.path(), "tsa", Kind::P256);
    let root = authority.root();
    let tsa = Authority::serve(move |query| (200, authority.answer(&query)));
    let server = Server::start(&folder.path().join("office"));
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    a.open("ZZQX 4417");
    a.yes(&["sync"]);
    let (code, said) = office(&server, "timestamp", &["--tsa", &tsa, "--root", &root]);
    assert_eq!(code, 0, "{said}");
    let witness = Witness::of(organisation(&server), "witness.example/w1", 9);
    let (data, key) = (server.data.to_str().unwrap(), witness.key.to_string());
    let add = ["witness", "add", "--data", data, "--url", &witness.url, "--key", &key];
    let all = ["--witness", &key, "--tsa-root", &root, "--strict"];
    assert!(farsiding(&add).output().unwrap().status.success());
    let (code, said) = verify(&server, &export(&server, "ZZQX 4417"), &all);
    assert_eq!(code, 0, "of one size, once as stamped and once as signed: {said}");
    // This witness first saw the log when it was longer.
    let late = Witness::of(organisation(&server), "witness.example/w2", 8);
    let b = Device::enrolled(&server, &folder.path().join("b"), "op-2");
    b.open("ZZQX 5528");
    b.yes(&["sync"]);
    let key = late.key.to_string();
    let add = ["witness", "add", "--data", data, "--url", &late.url, "--key", &key];
    assert!(farsiding(&add).output().unwrap().status.success());
    let (code, said) = verify(&server, &export(&server, "ZZQX 5528"), &["--witness", &key]);
    assert_eq!((code, has(&said, "holds", "witness")), (0, true), "{said}");
}

#[test]
fn a_server_has_its_log_stamped_by_itself_and_says_when_it_is_not() {
    let folder = tempfile::tempdir().unwrap();
    let authority = Authority::new(folder.path(), "tsa", Kind::P256);
    let root = authority.root();
    let tsa = Authority::serve(move |query| (200, authority.answer(&query)));
    let office_folder = folder.path().join("office");
    let mut server = Server::start_with(&office_folder, "127.0.0.1:0", &["--witness-every", "1s"]);
    account(&server, "Office");
    let finding = |server: &Server| {
        let session = Session::of(server, "Office");
        let told: Value = serde_json::from_slice(&session.get("/healthz").body).unwrap();
        told["findings"].as_array().unwrap().iter().find(|f| f["name"] == "time_stamp").cloned()
    };
    assert_eq!(finding(&server), None, "nobody is asked");
    // The command stores the setting, and the running server uses it without a restart.
    let keep = ["--tsa", &tsa, "--root", &root, "--keep", "--every", "1s"];
    let (code, said) = office(&server, "timestamp", &keep);
    assert_eq!(code, 0, "{said}");
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    a.open("ZZQX 4417");
    a.yes(&["sync"]);
    until("the stamp", || kept(&server).is_some_and(|stamp| stamp.note.contains('\n')));
    until("health says so", || finding(&server).is_some_and(|found| found["ok"] == true));
    let said = finding(&server).unwrap()["message"].as_str().unwrap().to_owned();
    assert!(said.contains("was stamped") && said.contains("Invented-tsa"), "{said}");
    let (_, said) = office(&server, "timestamp", &["--forget"]);
    assert_eq!(said["ok"], true);
    until("nobody is asked any more", || finding(&server).is_none());

    // An authority that does not answer is reported on the state page, and nobody waits for it.
    server.terminate();
    server.wait();
    let more = ["--witness-every", "1s", "--tsa", "http://127.0.0.1:9/", "--stamp-every", "1s"];
    server = Server::start_with(&office_folder, "127.0.0.1:0", &more);
    let b = Device::enrolled(&server, &folder.path().join("b"), "op-2");
    b.open("ZZQX 5528");
    b.yes(&["sync"]);
    until("health says so", || finding(&server).is_some_and(|found| found["ok"] == false));
    let session = Session::of(&server, "Office");
    let page = session.page("/office/state");
    assert!(page.contains("was not reached") && page.contains("not OK"), "{page}");
    assert!(server.is_well(), "the office works on");
    let refused = farsiding(&["serve", "--data", "x", "--tsa", "nowhere"]).output().unwrap();
    assert!(String::from_utf8_lossy(&refused.stderr).contains("is no address"), "{refused:?}");
}
