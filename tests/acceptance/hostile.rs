//! What is not from a friend: altered documents, login pages, servers that answer anything.

use std::io::{Read as _, Write as _};
use std::net::{TcpListener, TcpStream};

use farsiding_core::document::{CheckedChange, Document};
use farsiding_core::entry::Entry;
use farsiding_core::ids::{Digest, EntryId, Subject, VisitId};
use farsiding_core::store::{Durability, MemoryStore, SqliteStore, Store as _, Write};
use farsiding_core::sync::carry_out;

use farsiding_testkit::Dice;

use crate::job::UNLOADING;
use crate::stage::{Device, Server};

/// The bytes every carry file begins with, and the deflated body behind them.
fn opened(file: &[u8]) -> (Vec<u8>, Vec<u8>) {
    let end = (1..64).find(|at| inflated(&file[*at..]).is_some()).expect("a carry file has a deflated body");
    (file[..end].to_vec(), inflated(&file[end..]).unwrap())
}

fn inflated(body: &[u8]) -> Option<Vec<u8>> {
    let mut plain = Vec::new();
    flate2::read::DeflateDecoder::new(body).read_to_end(&mut plain).ok()?;
    (plain.len() > 1000).then_some(plain)
}

fn closed(magic: &[u8], plain: &[u8]) -> Vec<u8> {
    let mut out = flate2::write::DeflateEncoder::new(magic.to_vec(), flate2::Compression::fast());
    out.write_all(plain).unwrap();
    out.finish().unwrap()
}

#[test]
fn a_document_altered_on_its_way_adds_nothing_that_was_not_signed() {
    let mut dice = Dice::thrown();
    let folder = tempfile::tempdir().unwrap();
    let phone = Device::new(&folder.path().join("phone-1"), "ash");
    let visit = phone.open("ZZQX 4417");
    phone.records(&visit, UNLOADING);
    let file = folder.path().join("whole.carry");
    phone.yes(&["carry-out", file.to_str().unwrap()]);
    let (magic, plain) = opened(&std::fs::read(&file).unwrap());
    let signed = phone.view(&visit)["history"].to_string();

    let altered = folder.path().join("altered.carry");
    let mut refused = 0;
    for _ in 0..24 {
        let mut bytes = plain.clone();
        for _ in 0..=dice.below(3) {
            let at = dice.below(bytes.len());
            bytes[at] ^= 1 << dice.below(8);
        }
        std::fs::write(&altered, closed(&magic, &bytes)).unwrap();
        let victim = Device::new(&folder.path().join(format!("victim-{}", dice.next())), "birch");
        let (code, said) = victim.run(&["carry-in", altered.to_str().unwrap()]);
        assert!((0..=5).contains(&code), "carry-in fell over: {said}");
        refused += usize::from(code != 0 || !said["refused"].as_array().is_none_or(Vec::is_empty));
        // Whatever came in was signed by the first phone, word for word.
        let (code, shown) = victim.run(&["show", &visit]);
        if code == 0 {
            for line in shown["visit"]["history"].as_array().unwrap() {
                let entry = line["said"]["entry"].as_str().unwrap();
                assert!(signed.contains(entry), "an entry nobody signed: {line}");
            }
        }
    }
    println!("{refused} of 24 altered files were refused in whole or in part");
    assert!(refused > 12, "only {refused} of 24 alterations were noticed");

    let victim = Device::new(&folder.path().join("victim"), "birch");
    victim.yes(&["carry-in", file.to_str().unwrap()]);
    assert_eq!(victim.view(&visit)["entries"], UNLOADING.len() + 1, "the unaltered file comes in whole");
}

/// A carry file in which every digest fits and only a signature does not: a reading made milder after it was
/// signed, in a well-formed change of the right document.
fn forged(phone: &Device, visit: &str) -> Vec<u8> {
    let subject = Subject::Visit(VisitId::read(visit).unwrap());
    let record = phone.dir.join("record.db");
    let signed = SqliteStore::open(record.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    let rows = signed.entries_of(subject).unwrap().rows;
    let (says, milder) = (b"92 psi", b"29 psi");
    let row = rows.iter().find(|row| row.bytes.windows(6).any(|window| window == says)).unwrap();
    let at = row.bytes.windows(6).position(|window| window == says).unwrap();
    let mut bytes = row.bytes.clone();
    bytes[at..at + 6].copy_from_slice(milder);
    assert!(Entry::open(&bytes).is_err(), "the signature covers what was altered");
    let entry = Entry::reopen(EntryId(Digest::of(&bytes).0), bytes).unwrap(); // looks at no signature
    let change = Document::new([9; 16]).unwrap().add(&[entry]).unwrap().unwrap();
    let mut store = MemoryStore::new();
    let hash = CheckedChange::hash_of(&change).unwrap();
    store.commit(&[Write::Change { subject, hash, bytes: &change, held: false }]).unwrap();
    carry_out(&store, &[subject], Vec::new()).unwrap()
}

#[test]
fn a_reading_made_milder_after_it_was_signed_is_kept_out() {
    let folder = tempfile::tempdir().unwrap();
    let phone = Device::new(&folder.path().join("phone-1"), "ash");
    let visit = phone.open("ZZQX 4417");
    phone.records(&visit, UNLOADING);
    let (true_file, forged_file) = (folder.path().join("true.carry"), folder.path().join("forged.carry"));
    phone.yes(&["carry-out", true_file.to_str().unwrap()]);
    std::fs::write(&forged_file, forged(&phone, &visit)).unwrap();

    let victim = Device::new(&folder.path().join("phone-2"), "birch");
    victim.yes(&["carry-in", true_file.to_str().unwrap()]);
    let (_, said) = victim.run(&["carry-in", forged_file.to_str().unwrap()]);
    assert!(
        said.to_string().contains("the signature does not hold"),
        "nothing is said of the forgery: {said}"
    );
    let page = victim.words(&["show", &visit]);
    assert!(page.contains("92 psi, on PG-1") && !page.contains("29 psi"), "{page}");
    assert_eq!(victim.view(&visit)["entries"], UNLOADING.len() + 1);
}

#[test]
fn a_file_that_is_no_carry_file_or_a_bomb_is_refused_in_words() {
    let folder = tempfile::tempdir().unwrap();
    let phone = Device::new(&folder.path().join("phone-1"), "ash");
    phone.open("ZZQX 4417");
    let file = folder.path().join("whole.carry");
    phone.yes(&["carry-out", file.to_str().unwrap()]);
    let (magic, plain) = opened(&std::fs::read(&file).unwrap());
    let bomb = closed(&magic, &vec![0u8; 512 * 1024 * 1024]);
    println!("512 MB of zeros in {} bytes", bomb.len());
    let half = closed(&magic, &plain[..plain.len() / 2]);
    for bytes in [Vec::new(), b"hello".to_vec(), magic.clone(), half, bomb] {
        std::fs::write(&file, &bytes).unwrap();
        let (code, said) = phone.run(&["carry-in", file.to_str().unwrap()]);
        assert!(matches!(code, 1 | 3), "{code}: {said}");
        assert!(said["message"].as_str().unwrap().len() > 10, "{said}");
    }
    assert_eq!(phone.view("4417")["entries"], 1, "what was here is here");
}

/// A login page that answers everything the same way.
fn login_page(answer: &'static str) -> String {
    let listener = TcpListener::bind("127.0.0.1:0").unwrap();
    let url = format!("http://{}", listener.local_addr().unwrap());
    std::thread::spawn(move || {
        for stream in listener.incoming() {
            let Ok(mut stream) = stream else { return };
            let mut head = [0u8; 65536];
            let _ = stream.read(&mut head);
            let _ = stream.write_all(answer.as_bytes());
        }
    });
    url
}

#[test]
fn a_login_page_is_not_the_office() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::in_folder(folder.path());
    let phone = Device::enrolled(&server, &folder.path().join("phone-1"), "ash");
    let visit = phone.open("ZZQX 4417");
    phone.records(&visit, UNLOADING);
    let mine = phone.view(&visit)["unreceipted"].as_u64().unwrap();
    assert_eq!(mine, UNLOADING.len() as u64 + 1);
    for answer in [
        "HTTP/1.1 200 OK\r\ncontent-type: text/html\r\ncontent-length: 36\r\nconnection: close\r\n\r\n<html>Welcome! Please log in.</html>",
        "HTTP/1.1 302 Found\r\nlocation: http://127.0.0.1:1/login\r\ncontent-length: 0\r\nconnection: close\r\n\r\n",
        "HTTP/1.1 200 OK\r\ncontent-length: 0\r\nconnection: close\r\n\r\n",
        "HTTP/1.1 511 Network Authentication Required\r\ncontent-length: 0\r\nconnection: close\r\n\r\n",
    ] {
        let page = login_page(answer);
        let why = phone.no(4, &["sync", "--server", &page, "--attempts", "1"]);
        assert!(why.contains("still here"), "{why}");
        assert_eq!(phone.view(&visit)["unreceipted"].as_u64(), Some(mine), "after: {answer}");
    }
    let stranger = Device::new(&folder.path().join("phone-2"), "birch");
    let page = login_page("HTTP/1.1 200 OK\r\ncontent-length: 2\r\nconnection: close\r\n\r\n{}");
    stranger.no(4, &["enrol", "--server", &page, "--code", "ABCD-EFGH"]);
    phone.yes(&["sync"]);
    assert_eq!(phone.view(&visit)["unreceipted"], 0, "the real office is known again at once");
}

/// Posts a body as it is; the status of the answer, 0 when the connection was just closed.
fn post(server: &Server, path: &str, body: &[u8]) -> u16 {
    let mut stream = TcpStream::connect(server.url.strip_prefix("http://").unwrap()).unwrap();
    stream.set_read_timeout(Some(std::time::Duration::from_secs(30))).unwrap();
    let head = format!(
        "POST {path} HTTP/1.1\r\nhost: x\r\nconnection: close\r\ncontent-length: {}\r\n\r\n",
        body.len()
    );
    let _ = stream.write_all(head.as_bytes()).and_then(|()| stream.write_all(body)); // it may hang up early
    let mut answer = Vec::new();
    let _ = stream.read_to_end(&mut answer);
    let answer = String::from_utf8_lossy(&answer).into_owned();
    answer.split(' ').nth(1).and_then(|status| status.parse().ok()).unwrap_or(0)
}

#[test]
fn bodies_nobody_signed_are_refused_and_the_records_stay_well() {
    let mut dice = Dice::thrown();
    let folder = tempfile::tempdir().unwrap();
    let server = Server::in_folder(folder.path());
    let phone = Device::enrolled(&server, &folder.path().join("phone-1"), "ash");
    let visit = phone.open("ZZQX 4417");
    phone.records(&visit, UNLOADING);
    phone.yes(&["sync"]);
    for path in ["/v1/sync", "/v1/enrol", "/v1/pass"] {
        for length in [0, 1, 17, 140, 4096, 300_000] {
            let noise = dice.bytes(length);
            let status = post(&server, path, &noise);
            assert!((400..500).contains(&status), "{length} bytes to {path}: {status}");
        }
        let nested = [0x81u8; 100_000]; // arrays within arrays, as CBOR has it
        assert!((400..500).contains(&post(&server, path, &nested)), "{path}");
    }
    phone.yes(&["add", &visit, "remark", "still here"]);
    assert_eq!(phone.yes(&["sync"])["unreceipted_entries"], 0);
    let other = Device::of_operator(&server, &folder.path().join("phone-2"), "birch");
    other.yes(&["sync"]);
    assert_eq!(other.view("4417")["entries"], UNLOADING.len() + 2);
}
