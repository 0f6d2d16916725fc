//! Malicious messages, and clients that are merely broken.

use std::io::Write as _;

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::DeviceKey;
use farsiding_core::ids::{Subject, VisitId};
use farsiding_core::sync::wire::{Change, LARGEST_BULK, RequestBulk, RequestHead, seal_request};
use farsiding_testkit::Dice;

use super::stage::{Answer, Device, Server};

fn request(key: &DeviceKey, number: u64, bulk: &RequestBulk) -> Vec<u8> {
    let head =
        RequestHead { number, cursor: None, certificates: 0, at: UtcMillis(0), bulk: None, statement: None };
    seal_request(head, bulk, key).unwrap()
}

fn stage() -> (tempfile::TempDir, Server, Device) {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let device = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    (folder, server, device)
}

#[test]
fn a_body_that_is_too_large_is_refused_before_and_while_it_is_read() {
    let (_folder, server, _) = stage();
    let length = (5 * 1024 * 1024).to_string();
    let answer = server.ask("POST", "/v1/sync", &[("content-length", &length)], b"");
    assert_eq!((answer.status, answer.code().as_str()), (413, "too_large"));
    // The first bytes of a message state its length; what follows its end is not part of it.
    let too_long = [0xa2, 0x61, b'b', 0x5a, 0, 0x50, 0, 0];
    let goes_on = [0xa2, 0x61, b'b', 0x5a, 0, 0x10, 0, 0];
    for (begins, expected) in [(too_long, 413), (goes_on, 400)] {
        let mut stream = server.connect();
        stream.write_all(b"POST /v1/sync HTTP/1.1\r\nhost: x\r\ntransfer-encoding: chunked\r\n\r\n").unwrap();
        stream.write_all(&[b"8\r\n".as_slice(), &begins, b"\r\n"].concat()).unwrap();
        for _ in 0..100 {
            let piece = [b"10000\r\n".as_slice(), &[0; 0x10000], b"\r\n"].concat();
            if stream.write_all(&piece).is_err() {
                break; // the server stopped listening, as it should
            }
        }
        assert_eq!(Answer::read(&mut stream).status, expected);
    }
    assert!(server.is_well());
}

#[test]
fn a_small_body_that_inflates_to_a_large_one_is_refused() {
    let (_folder, server, device) = stage();
    let bytes = vec![0u8; LARGEST_BULK + 1024];
    let bulk = RequestBulk {
        changes: vec![Change { subject: Subject::Visit(VisitId([7; 16])), bytes }],
        ..RequestBulk::default()
    };
    let bomb = request(&device.key(), 1, &bulk);
    assert!(bomb.len() < 20_000, "it is a bomb: {} bytes", bomb.len());
    let answer = server.ask("POST", "/v1/sync", &[], &bomb);
    assert_eq!((answer.status, answer.code().as_str()), (400, "unreadable"));
    assert!(server.is_well());
    device.open("ZZQX 4417");
    assert_eq!(device.yes(&["sync"])["unreceipted_entries"], 0, "honest messages still get through");
}

#[test]
fn strangers_and_noise_are_refused_and_the_server_stays_well() {
    let (folder, server, device) = stage();
    let stranger = Device::new(&folder.path().join("stranger"), "op-9");
    let answer = server.ask("POST", "/v1/sync", &[], &request(&stranger.key(), 1, &RequestBulk::default()));
    assert_eq!((answer.status, answer.code().as_str()), (403, "unknown_device"));

    let seed = 20_260_132;
    println!("seed {seed}");
    let mut dice = Dice::of(seed);
    let sound = request(
        &device.key(),
        1,
        &RequestBulk {
            changes: vec![Change {
                subject: Subject::Visit(VisitId([7; 16])),
                bytes: vec![0x85, 0x6f, 0x4a, 0x83],
            }],
            survey: true,
            ..RequestBulk::default()
        },
    );
    for round in 0..150usize {
        let mut bytes = if round % 3 == 0 { vec![0; round * 7] } else { sound.clone() };
        let mut at = [0u8; 3];
        dice.fill(&mut at);
        if round % 3 == 0 {
            dice.fill(&mut bytes);
        } else {
            let place = (usize::from(at[0]) * 256 + usize::from(at[1])) % bytes.len();
            bytes[place] ^= at[2] | 1;
        }
        let answer = server.ask("POST", "/v1/sync", &[], &bytes);
        assert!(matches!(answer.status, 400 | 403), "round {round}: {answer:?}");
    }
    // A valid message contains an invalid change, which alone is refused, quarantined and answered.
    assert_eq!(server.ask("POST", "/v1/sync", &[], &sound).status, 200);
    assert!(server.is_well());
    for (method, path) in [("GET", "/v1/sync"), ("POST", "/nowhere"), ("GET", "/v1/../../etc/passwd")] {
        assert!(matches!(server.ask(method, path, &[], b"").status, 404 | 405), "{method} {path}");
    }
    for body in [&b"{"[..], b"[]", b"{\"code\":1}", &[0xff; 300]] {
        assert_eq!(server.ask("POST", "/v1/enrol", &[], body).status, 400);
        assert!(matches!(server.ask("POST", "/v1/pass", &[], body).status, 400));
    }
    assert_eq!(server.ask("POST", "/v1/enrol", &[], &[b' '; 5_000]).status, 413);
    assert!(server.is_well());
}

#[test]
fn what_strangers_type_does_not_write_in_the_log() {
    let (folder, server, _) = stage();
    let odd = Device::new(&folder.path().join("odd"), "op-9");
    let (code, _) = server.code("Phone 2", &[]);
    let name = "x\n2026-01-01T00:00:00Z ERROR forged line";
    let body = server.enrol_request(&code, name).seal(&odd.key()).unwrap();
    assert_eq!(server.ask("POST", "/v1/enrol", &[], &body).status, 200);
    server.ask("GET", "/v1/photos/forged%0aline", &[], b"");
    assert!(!server.log().contains("forged"), "{}", server.log());
    assert!(!server.log().contains(&code));
}
