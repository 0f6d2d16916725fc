//! A running server and whoever reaches its port: every route sent what nobody should send, signed requests sent
//! again, names of photographs that lead elsewhere, and senders that never end.
//!
//! Bodies too large, noise and one slow head are in `sync-server/tests/office/hostility.rs` and `stopping.rs`,
//! planted sessions and forms of other sites in `pages_doors.rs`.

use std::collections::BTreeSet;
use std::io::{Read as _, Write as _};
use std::net::TcpStream;
use std::path::Path;
use std::time::{Duration, Instant};

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::DeviceId;
use farsiding_core::sync::PassRequest;
use farsiding_core::sync::wire::{ReplyHead, RequestBulk, RequestHead, parts, seal_request};
use farsiding_testkit::Dice;

use crate::mutation::mutated;
use crate::stage::session::{Session, account};
use crate::stage::{self, Answer, Device, Server, now};

/// How long the server may take over anything here.
const PATIENCE: Duration = Duration::from_secs(20);

pub fn connect(server: &Server) -> TcpStream {
    let stream = TcpStream::connect(server.url.strip_prefix("http://").unwrap()).unwrap();
    stream.set_read_timeout(Some(PATIENCE)).unwrap();
    stream.set_write_timeout(Some(PATIENCE)).unwrap();
    stream
}

/// Sends bytes as they are and reads to the end.
pub fn raw(server: &Server, bytes: &[u8]) -> Answer {
    let mut stream = connect(server);
    let _ = stream.write_all(bytes); // it may hang up early
    let (mut answer, mut piece) = (Vec::new(), [0u8; 16_384]);
    loop {
        match stream.read(&mut piece) {
            Ok(0) => break,
            Ok(read) => answer.extend_from_slice(&piece[..read]),
            Err(error) if error.kind() == std::io::ErrorKind::WouldBlock => {
                panic!(
                    "no answer for {PATIENCE:?} to {:?}",
                    String::from_utf8_lossy(&bytes[..bytes.len().min(400)])
                )
            }
            Err(_) => break,
        }
    }
    Answer::of(&answer)
}

pub fn ask(server: &Server, method: &str, path: &str, headers: &[(&str, &str)], body: &[u8]) -> Answer {
    raw(server, &stage::request(method, path, headers, body))
}

pub fn is_well(server: &Server) -> bool {
    server.says_well(&ask(server, "GET", "/healthz", &[], b""))
}

/// Every route: method, path, and a body as it should be.
const ROUTES: &[(&str, &str, &str)] = &[
    ("POST", "/v1/sync", ""),
    ("POST", "/v1/log", ""),
    ("POST", "/v1/enrol", "{\"code\":\"ABCD-EFGH\",\"device\":\"00\",\"name\":\"x\"}"),
    ("POST", "/v1/pass", ""),
    ("POST", "/v1/photos", ""),
    ("HEAD", "/v1/photos/{sha256}", ""),
    ("GET", "/v1/photos/{sha256}", ""),
    ("PATCH", "/v1/photos/{sha256}", "bytes"),
    ("OPTIONS", "/v1/photos/{sha256}", ""),
    ("GET", "/healthz", ""),
    ("GET", "/office/", ""),
    ("GET", "/office/sign-in", ""),
    ("POST", "/office/sign-out", "csrf=x"),
    ("GET", "/office/inquiry?q=ZZQX+4417&from=2026-01-01&to=2026-12-31", ""),
    ("GET", "/office/visits/{visit}", ""),
    ("GET", "/office/visits/{visit}/packet", ""),
    ("GET", "/office/visits/{visit}/photos/{sha256}", ""),
    ("POST", "/office/visits/{visit}/settle", "csrf=x&keep=00&why=x"),
    ("POST", "/office/visits/{visit}/links", "csrf=x&days=7"),
    ("GET", "/office/reconcile?month=2026-11", ""),
    ("GET", "/office/reconcile/export?month=2026-11&form=csv", ""),
    ("GET", "/office/seals?number=K1", ""),
    ("GET", "/office/defects", ""),
    ("GET", "/office/instruments", ""),
    ("GET", "/office/papers", ""),
    ("POST", "/office/papers/preview", "csrf=x&name=a.csv&text=a%2Cb"),
    ("POST", "/office/papers/take", "csrf=x&name=a.csv&text=a%2Cb"),
    ("GET", "/office/papers/files/{sha256}", ""),
    ("GET", "/office/devices", ""),
    ("GET", "/office/devices/{device}/revoke", ""),
    ("GET", "/office/link/AAAA", ""),
    ("GET", "/office/accounts", ""),
    ("GET", "/office/audit?page=1", ""),
    ("GET", "/office/look.css", ""),
];

const ODD_HEADERS: &[&str] = &[
    "content-length: 99999999999999999999",
    "content-length: -1",
    "transfer-encoding: chunked\r\ncontent-length: 3",
    "upload-offset: 18446744073709551615",
    "upload-length: 18446744073709551615",
    "upload-length: 0",
    "upload-metadata: sha256 !!!,media",
    "content-digest: sha-256=:AAAA:",
    "range: bytes=-99999999999",
    "accept-encoding: \u{ff}\u{fe}",
    "cookie: farsiding=\u{0}",
    "expect: 100-continue",
    "upgrade: h2c\r\nconnection: upgrade",
    "content-type: multipart/form-data; boundary=x",
    "content-type: application/x-www-form-urlencoded; charset=utf-16",
    "authorization: Bearer ",
    "if-none-match: \"\"",
    "x-forwarded-for: ../../etc/passwd",
];

/// A route somebody adds is either sent such things or this says so. Hints go on for as long as somebody listens, and are
/// listened to in `sync-server/tests/office/strangers.rs`.
#[test]
fn no_route_is_left_out_of_what_is_sent() {
    let mut routed: Vec<String> = Vec::new();
    for (_, source) in farsiding_testkit::tree::product_sources("sync-server") {
        let patterns = source.split(".route(").skip(1).filter_map(|piece| piece.split('"').nth(1));
        let of_devices = patterns.filter(|pattern| pattern.starts_with("/v1/") || *pattern == "/healthz");
        routed.extend(of_devices.map(str::to_owned));
    }
    let sent = |pattern: &str| ROUTES.iter().any(|(_, path, _)| *path == pattern);
    for pattern in &routed {
        assert!(sent(pattern) || pattern == "/v1/hints", "{pattern} is sent nothing");
    }
    for (_, path, _) in ROUTES.iter().filter(|(_, path, _)| !path.starts_with("/office")) {
        assert!(routed.iter().any(|pattern| pattern == path), "no source was found that serves {path}");
    }
}

struct Scene {
    folder: tempfile::TempDir,
    server: Server,
    phone: Device,
    visit: String,
    photo: String,
    cookie: String,
}

fn scene() -> Scene {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::in_folder(folder.path());
    let phone = Device::enrolled(&server, &folder.path().join("phone-1"), "ash");
    let visit = phone.open("ZZQX 4417");
    phone.records(&visit, &crate::job::UNLOADING[..20]);
    let file = folder.path().join("seal.jpg");
    std::fs::write(&file, [0xff, 0xd8, 0xff, 1, 2, 3, 4, 5, 6]).unwrap();
    let said = phone.yes(&["photo", &visit, file.to_str().unwrap()]);
    phone.yes(&["sync"]);
    let photo = said["photo"].as_str().unwrap().to_owned();
    let cookie = signed_in(&server);
    Scene { folder, server, phone, visit, photo, cookie }
}

/// A session of the office's.
pub fn signed_in(server: &Server) -> String {
    account(server, "Clerk");
    Session::office(server).cookie
}

#[test]
fn every_route_answers_whatever_it_is_sent() {
    let seconds: f64 = std::env::var("FARSIDING_HOSTILE_SECONDS").map_or(10.0, |text| text.parse().unwrap());
    let mut dice = Dice::thrown();
    let Scene { folder: _folder, server, phone, visit, photo, cookie } = scene();
    let bearer = phone.pass(&server, 1).unwrap();
    let sync = seal_request(
        RequestHead {
            number: 1 << 40,
            cursor: None,
            certificates: 0,
            at: now(),
            bulk: None,
            statement: None,
        },
        &RequestBulk { survey: true, ..RequestBulk::default() },
        &phone.key(),
    )
    .unwrap();
    let device = phone.yes(&["whoami"])["device"].as_str().unwrap_or("00").to_owned();
    let before = server.peak_kb();
    let (began, mut sent) = (Instant::now(), 0u32);
    let mut statuses = std::collections::BTreeMap::<u16, u32>::new();
    while began.elapsed().as_secs_f64() < seconds * 0.4 || sent < 200 {
        let (method, path, body) = ROUTES[dice.below(ROUTES.len())];
        let path = path.replace("{visit}", &visit).replace("{sha256}", &photo).replace("{device}", &device);
        let body = match path.as_str() {
            "/v1/sync" | "/v1/log" => sync.clone(),
            "/v1/pass" => phone.pass_request(&server, dice.next()),
            _ => body.as_bytes().to_vec(),
        };
        let body = if dice.once_in(3) {
            body
        } else {
            mutated(&body, &[sync.clone(), b"a=b&c=%ff".to_vec()], &mut dice)
        };
        let path = if dice.once_in(2) { path.into_bytes() } else { odd_path(path.as_bytes(), &mut dice) };
        let mut request =
            [method.as_bytes(), b" ", &path, b" HTTP/1.1\r\nhost: x\r\nconnection: close\r\n"].concat();
        request.extend(
            format!("authorization: Bearer {bearer}\r\ncookie: {cookie}\r\ntus-resumable: 1.0.0\r\n").bytes(),
        );
        if dice.once_in(2) {
            request.extend(dice.one_of(ODD_HEADERS).bytes());
            request.extend(b"\r\n");
        }
        if body.starts_with(b"csrf") || path.starts_with(b"/office") {
            request.extend(b"content-type: application/x-www-form-urlencoded\r\n");
        }
        request.extend(format!("content-length: {}\r\n\r\n", body.len()).bytes());
        request.extend(&body);
        if dice.once_in(10) {
            let lines = [b"\r\n\r\n".to_vec(), b"HTTP/9.9".to_vec(), vec![0; 20]];
            request = mutated(&request, &lines, &mut dice);
            // What is cut short waits for more: the sender is the one who ends.
            request.truncate(100_000);
        }
        let answer = ended(&server, &request);
        assert!(
            answer.status < 500 || answer.status == 503,
            "{}: {:?}\n{:?}",
            answer.status,
            String::from_utf8_lossy(&answer.body),
            String::from_utf8_lossy(&request[..request.len().min(2000)])
        );
        *statuses.entry(answer.status).or_default() += 1;
        sent += 1;
    }
    assert!(is_well(&server));
    let after = server.peak_kb();
    println!(
        "hostile routes: {sent} requests, answers {statuses:?}, the server's memory at most {before:?} kB before and {after:?} kB after"
    );
    if let (Some(before), Some(after)) = (before, after) {
        assert!(after < before + 64 * 1024, "the server grew from {before} to {after} kB");
    }
    // Signing in takes memory on purpose (each guess costs), and is tried apart from the rest.
    for _ in 0..20 {
        let body = mutated(b"name=Clerk&password=x", &[b"&name=%00".to_vec()], &mut dice);
        let form = [("content-type", "application/x-www-form-urlencoded")];
        let answer = ask(&server, "POST", "/office/sign-in", &form, &body);
        assert!(
            (400..500).contains(&answer.status),
            "{}: {:?}",
            answer.status,
            String::from_utf8_lossy(&body)
        );
    }
    phone.yes(&["add", &visit, "remark", "still here"]);
    // The number above was far ahead; the phone is told and goes on from there.
    assert_eq!(phone.yes(&["sync"])["unreceipted_entries"], 0);
}

/// As [`raw`]; where the server waits for more, the sender goes.
fn ended(server: &Server, bytes: &[u8]) -> Answer {
    let mut stream = connect(server);
    let _ = stream.write_all(bytes);
    stream.set_read_timeout(Some(Duration::from_millis(700))).unwrap();
    let (mut answer, mut piece, mut gone) = (Vec::new(), [0u8; 16_384], false);
    loop {
        match stream.read(&mut piece) {
            Ok(0) => break,
            Ok(read) => answer.extend_from_slice(&piece[..read]),
            Err(error) if error.kind() == std::io::ErrorKind::WouldBlock => {
                assert!(!gone, "no end to {:?}", String::from_utf8_lossy(&bytes[..bytes.len().min(2000)]));
                gone = true;
                let _ = stream.shutdown(std::net::Shutdown::Write);
                stream.set_read_timeout(Some(PATIENCE)).unwrap();
            }
            Err(_) => break,
        }
    }
    Answer::of(&answer)
}

/// A path with something in it that paths should not have.
fn odd_path(path: &[u8], dice: &mut Dice) -> Vec<u8> {
    let long = "a".repeat(1 << dice.below(14));
    let odd = [
        "../",
        "..%2f",
        "%2e%2e/",
        "%00",
        "//",
        "/./",
        "%ff",
        "%",
        "%zz",
        ";",
        "?",
        "?q=%F0%9F",
        "&month=9999-99",
        "&",
        "=",
        "\\",
        "%5c",
        "*",
        "{",
        "\u{e9}",
        "0",
        long.as_str(),
    ];
    let at = 1 + dice.below(path.len());
    let mut path = path.to_vec();
    path.splice(at..at, dice.one_of(&odd).bytes());
    path.retain(|byte| !matches!(byte, b' ' | b'\r' | b'\n'));
    path
}

#[test]
fn a_signed_request_sent_again_changes_nothing_and_gets_no_receipt() {
    let Scene { folder: _folder, server, phone, .. } = scene();
    let key = phone.key();
    let office = server.organisation();
    let head = RequestHead {
        number: 1 << 40,
        cursor: None,
        certificates: 0,
        at: now(),
        bulk: None,
        statement: None,
    };
    let entries = phone.view("4417")["history"].as_array().unwrap().clone();
    let asks =
        entries.iter().map(|line| serde_json::from_value(line["said"]["entry"].clone()).unwrap()).collect();
    let request = seal_request(head, &RequestBulk { asks, ..RequestBulk::default() }, &key).unwrap();
    let reply = |answer: &Answer| ReplyHead::open(&parts(&answer.body).unwrap().head, &office).unwrap();
    let first = ask(&server, "POST", "/v1/sync", &[], &request);
    let told = reply(&first);
    assert!(told.covers.is_some() && told.old_number.is_none(), "{told:?}");
    for _ in 0..3 {
        let again = reply(&ask(&server, "POST", "/v1/sync", &[], &request));
        assert_eq!(again.old_number, Some(1 << 40));
        assert_eq!((again.covers, again.delivers, again.bulk), (None, None, None), "nothing is told twice");
        assert_eq!((again.count, again.sum), (told.count, told.sum));
    }
    // A request for a pass is honoured once, and one made for another office never.
    let request = phone.pass_request(&server, 3);
    assert_eq!(ask(&server, "POST", "/v1/pass", &[], &request).status, 200);
    assert_eq!(ask(&server, "POST", "/v1/pass", &[], &request).status, 400);
    let other = PassRequest::new(DeviceId([9; 32]), now(), &mut Dice::of(4)).seal(&key).unwrap();
    assert_eq!(ask(&server, "POST", "/v1/pass", &[], &other).status, 400);
    let old = UtcMillis(now().0 - 86_400_000);
    let old = PassRequest::new(office, old, &mut Dice::of(5)).seal(&key).unwrap();
    assert_eq!(ask(&server, "POST", "/v1/pass", &[], &old).status, 401);
}

/// Every file below a folder but the databases.
fn files(folder: &Path) -> BTreeSet<String> {
    let (mut found, mut waiting) = (BTreeSet::new(), vec![folder.to_owned()]);
    while let Some(folder) = waiting.pop() {
        for item in std::fs::read_dir(folder).unwrap() {
            let path = item.unwrap().path();
            if path.is_dir() {
                waiting.push(path);
            } else if !path.to_string_lossy().contains(".db") {
                found.insert(path.to_string_lossy().into_owned());
            }
        }
    }
    found
}

#[test]
fn no_name_of_a_photograph_leads_anywhere_but_to_it() {
    let Scene { folder, server, phone, visit, photo, cookie } = scene();
    let bearer = format!("Bearer {}", phone.pass(&server, 1).unwrap());
    let before = files(folder.path());
    let (upper, long) = (photo.to_uppercase(), "a".repeat(7_000));
    let names = [
        "..",
        "../organisation.key",
        "..%2forganisation.key",
        "%2e%2e%2f%2e%2e%2forganisation.key",
        "%2e%2e/organisation.key",
        "..%5corganisation.key",
        "/etc/passwd",
        "%2fetc%2fpasswd",
        "%00",
        &format!("{photo}%00"),
        &format!("{photo}.part"),
        &format!("{photo}/"),
        &format!("{photo}%2f..%2f..%2forganisation.key"),
        &format!("{}/{photo}", &photo[..2]),
        &photo[..63],
        &format!("{photo}0"),
        &long,
        "%ff%fe",
        "con",
        "%c0%ae%c0%ae%2forganisation.key",
        "",
    ];
    let tus = [
        ("authorization", bearer.as_str()),
        ("tus-resumable", "1.0.0"),
        ("upload-offset", "0"),
        ("content-type", "application/offset+octet-stream"),
    ];
    for name in names {
        for method in ["GET", "HEAD", "PATCH"] {
            let answer = ask(&server, method, &format!("/v1/photos/{name}"), &tus, b"");
            assert!(
                matches!(answer.status, 400 | 404 | 405 | 414 | 431),
                "{method} {name:?}: {}",
                answer.status
            );
            assert!(answer.body.len() < 1_000, "{method} {name:?} brought {} bytes", answer.body.len());
        }
        let page = format!("/office/visits/{visit}/photos/{name}");
        let answer = ask(&server, "GET", &page, &[("cookie", cookie.as_str())], b"");
        assert!(matches!(answer.status, 400 | 404 | 414 | 431), "{page}: {}", answer.status);
        // Announced by such a name: decoded, it is no digest.
        let metadata = format!("sha256 {},media {}", STANDARD.encode(name), STANDARD.encode("image/jpeg"));
        let announced = [tus[0], tus[1], ("upload-length", "9"), ("upload-metadata", metadata.as_str())];
        let answer = ask(&server, "POST", "/v1/photos", &announced, b"");
        assert!(matches!(answer.status, 400 | 431), "announcing {name:?}: {}", answer.status);
    }
    // The same digest in capitals or between blanks is the same photograph or none.
    for same in [upper, format!("%20{photo}")] {
        let answer = ask(&server, "GET", &format!("/v1/photos/{same}"), &tus[..1], b"");
        assert!(answer.status == 404 || answer.body.len() == 9, "{answer:?}");
    }
    assert_eq!(files(folder.path()), before, "files came or went");
    assert_eq!(ask(&server, "GET", &format!("/v1/photos/{photo}"), &tus[..1], b"").body.len(), 9);
}

/// Beside so many senders who begin and never end, a device syncs within this time.
fn beside(senders: usize, begun: &[&[u8]], within: Duration) {
    let Scene { folder, server, phone, visit, .. } = scene();
    let mut slow = Vec::new();
    for at in 0..senders {
        let mut stream = connect(&server);
        stream.write_all(begun[at % begun.len()]).unwrap();
        slow.push(stream);
    }
    phone.yes(&["add", &visit, "remark", "in between"]);
    let began = Instant::now();
    assert_eq!(phone.yes(&["sync", "--attempts", "1"])["unreceipted_entries"], 0);
    let took = began.elapsed();
    println!("hostile slow: a sync beside {senders} senders that never end took {} ms", took.as_millis());
    assert!(took < within, "{took:?}");
    assert!(is_well(&server));
    drop(slow);
    drop(folder);
}

#[test]
fn senders_that_never_end_keep_nobody_from_syncing() {
    let begun: [&[u8]; 3] = [
        b"POST /v1/sync HTTP/1.1\r\nhost: x\r\ncontent-length: 4000\r\n\r\nabc",
        b"POST /v1/enrol HTTP/1.1\r\nhost: x\r\ntransfer-encoding: chunked\r\n\r\n3\r\nabc\r\n",
        b"GET /office/ HTTP/1.1\r\nhost: x\r\ncook",
    ];
    beside(180, &begun, Duration::from_secs(10));
}

#[test]
fn senders_that_take_every_place_hold_them_for_half_a_minute_at_most() {
    // Places are 256; each is given back after thirty seconds of silence.
    let begun: [&[u8]; 1] = [b"POST /v1/enrol HTTP/1.1\r\nhost: x\r\ncontent-length: 4000\r\n\r\nabc"];
    beside(300, &begun, Duration::from_secs(45));
}
