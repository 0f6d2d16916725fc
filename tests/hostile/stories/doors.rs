//! The office's doors: strangers cost little and hold nobody up, nobody locks another out, and whoever looked is noted
//! whatever his request says.

use std::io::Write as _;
use std::net::TcpStream;
use std::time::{Duration, Instant};

use farsiding_core::ids::EntryId;
use farsiding_core::sync::wire::{RequestBulk, seal_request};

use super::{Siding, page};
use crate::requests::{ask, connect, is_well, signed_in};
use crate::stage::Device;

/// A connection from another address of this machine.
fn from_another_address(siding: &Siding) -> TcpStream {
    let to = siding.server.url.strip_prefix("http://").unwrap().parse().unwrap();
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
    let stream = runtime.block_on(async {
        let socket = tokio::net::TcpSocket::new_v4().unwrap();
        socket.bind("127.0.0.2:0".parse().unwrap()).unwrap();
        socket.connect(to).await.unwrap().into_std().unwrap()
    });
    stream.set_nonblocking(false).unwrap();
    stream.set_read_timeout(Some(Duration::from_secs(20))).unwrap();
    stream
}

fn status_of(mut stream: TcpStream, request: &str) -> u16 {
    use std::io::Read as _;
    stream.write_all(request.as_bytes()).unwrap();
    let mut answer = Vec::new();
    let _ = stream.read_to_end(&mut answer);
    String::from_utf8_lossy(&answer).split(' ').nth(1).and_then(|text| text.parse().ok()).unwrap_or(0)
}

#[test]
fn a_stranger_locks_nobody_out_by_guessing() {
    let siding = Siding::set();
    drop(signed_in(&siding.server));
    let guess = "name=Clerk&password=wrong+guess+number+one";
    let request = format!(
        "POST /office/sign-in HTTP/1.1\r\nhost: x\r\nconnection: close\r\n\
         content-type: application/x-www-form-urlencoded\r\ncontent-length: {}\r\n\r\n{guess}",
        guess.len()
    );
    let told: Vec<u16> = (0..14).map(|_| status_of(from_another_address(&siding), &request)).collect();
    println!("the stranger was told {told:?}");
    assert!(told.contains(&429), "and guesses are counted");
    let right = "name=Clerk&password=invented+words+for+a+test";
    let form = [("content-type", "application/x-www-form-urlencoded")];
    let answer = ask(&siding.server, "POST", "/office/sign-in", &form, right.as_bytes());
    println!("the clerk with the right password was told {}", answer.status);
    assert_eq!(answer.status, 303, "the clerk comes in from where the clerk always does");
}

#[test]
fn no_header_keeps_a_look_out_of_the_audit() {
    let siding = Siding::set();
    let cookie = signed_in(&siding.server);
    let visit = format!("/office/visits/{}", siding.visit);
    let live = [("cookie", cookie.as_str()), ("farsiding-live", "1")];
    let answer = ask(&siding.server, "GET", &visit, &live, b"");
    assert!(answer.status == 200 || answer.status >= 400, "{answer:?}");
    let audit = page(&siding.server, &cookie, "/office/audit");
    println!("a look with the header: status {}, noted: {}", answer.status, audit.contains(&siding.visit));
    assert!(answer.status != 200 || audit.contains(&siding.visit), "it was shown and is noted nowhere");
}

#[test]
fn no_header_keeps_an_act_out_of_the_audit() {
    let siding = Siding::set();
    let cookie = signed_in(&siding.server);
    let shown = page(&siding.server, &cookie, "/office/inquiry");
    let csrf = shown.split("name=\"csrf\" value=\"").nth(1).and_then(|rest| rest.split('"').next());
    let csrf = csrf.expect("the page has a form").to_owned();
    let headers = [
        ("cookie", cookie.as_str()),
        ("farsiding-live", "1"),
        ("content-type", "application/x-www-form-urlencoded"),
    ];
    let body = format!("csrf={csrf}&label=nobody+knows+of+me&days=7");
    let path = format!("/office/visits/{}/links", siding.visit);
    let answer = ask(&siding.server, "POST", &path, &headers, body.as_bytes());
    let audit = page(&siding.server, &cookie, "/office/audit");
    println!(
        "a link made with the header: status {}, noted: {}",
        answer.status,
        audit.contains("made a link")
    );
    assert!(answer.status >= 400 || audit.contains("made a link"), "a link was made and noted nowhere");
}

/// Memory the server holds now, kB.
fn memory(siding: &Siding) -> u64 {
    let data = siding.data();
    for item in std::fs::read_dir("/proc").unwrap().flatten() {
        let Ok(line) = std::fs::read_to_string(item.path().join("cmdline")) else { continue };
        if line.contains("serve\0") && line.contains(&data) {
            let status = std::fs::read_to_string(item.path().join("status")).unwrap();
            let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:")).unwrap();
            return line.trim().trim_end_matches(" kB").parse().unwrap();
        }
    }
    panic!("no server");
}

#[cfg(target_os = "linux")]
#[test]
fn two_hundred_strangers_with_open_bodies_cost_little() {
    const BODY: usize = 4 * 1024 * 1024;
    let siding = Siding::set();
    let idle = memory(&siding);
    let mut strangers = Vec::new();
    for _ in 0..200 {
        let mut stream = connect(&siding.server);
        stream.set_write_timeout(Some(Duration::from_millis(300))).unwrap();
        let head = format!("POST /v1/sync HTTP/1.1\r\nhost: x\r\ncontent-length: {BODY}\r\n\r\n");
        let _ = stream.write_all(head.as_bytes());
        let _ = stream.write_all(&vec![b'a'; BODY - 1]); // it may be refused before
        strangers.push(stream);
    }
    std::thread::sleep(Duration::from_millis(500));
    let held = memory(&siding);
    println!("idle {idle} kB, with 200 strangers {held} kB");
    assert!(held < idle + 150 * 1024, "{} MB for 200 strangers", (held - idle) / 1024);
    drop(strangers);
    assert!(is_well(&siding.server));
}

/// What an honest round takes now, on this machine.
fn honest_round(siding: &Siding) -> Duration {
    siding.phone.yes(&["add", &siding.visit, "remark", "in between"]);
    let began = Instant::now();
    let (exit, said) = siding.phone.run(&["sync", "--attempts", "1"]);
    assert_eq!(exit, 0, "{said}");
    began.elapsed()
}

/// An honest round beside what others send waits for nobody.
fn held_up_by(siding: &Siding, usual: Duration, what: &str) {
    let took = honest_round(siding);
    println!("an honest sync took {} ms, beside {what} {} ms", usual.as_millis(), took.as_millis());
    assert!(took < 4 * usual + Duration::from_secs(3), "{took:?}");
}

/// A body nobody signed: an array of a million empty ones in CBOR (RFC 8949, section 3).
#[test]
fn arrays_nobody_signed_hold_no_round_up() {
    let siding = Siding::set();
    let usual = honest_round(&siding);
    let many = 1_000_000;
    let mut body = vec![0x9a];
    body.extend(u32::try_from(many).unwrap().to_be_bytes());
    body.resize(many + 5, 0x80);
    let head = format!("POST /v1/sync HTTP/1.1\r\nhost: x\r\ncontent-length: {}\r\n\r\n", body.len());
    let strangers: Vec<TcpStream> = (0..16)
        .map(|_| {
            let mut stream = connect(&siding.server);
            let _ = stream.write_all(head.as_bytes());
            let _ = stream.write_all(&body);
            stream
        })
        .collect();
    held_up_by(&siding, usual, "sixteen arrays nobody signed");
    drop(strangers);
}

/// A signed round of an enrolled device that asks for one thing two hundred thousand times.
#[test]
fn one_thing_asked_for_two_hundred_thousand_times_holds_no_round_up() {
    let siding = Siding::set();
    let usual = honest_round(&siding);
    let other = Device::enrolled_as(&siding.server, &siding.path("phone-2"), "birch", "operator");
    let head = super::head();
    let asks: Vec<EntryId> = vec![siding.entry("38 psi"); 200_000];
    let request = seal_request(head, &RequestBulk { asks, ..RequestBulk::default() }, &other.key()).unwrap();
    let mut stream = connect(&siding.server);
    let head = format!("POST /v1/sync HTTP/1.1\r\nhost: x\r\ncontent-length: {}\r\n\r\n", request.len());
    stream.write_all(head.as_bytes()).unwrap();
    stream.write_all(&request).unwrap();
    held_up_by(&siding, usual, &format!("{} bytes that ask 200,000 times", request.len()));
}

/// A page kept open is an event stream; so many from one session, and others still get theirs.
#[test]
fn one_session_does_not_take_every_event_stream() {
    let siding = Siding::set();
    let cookie = signed_in(&siding.server);
    let request = format!("GET /office/live HTTP/1.1\r\nhost: x\r\ncookie: {cookie}\r\n\r\n");
    let mut open = Vec::new();
    for _ in 0..270 {
        let mut stream = connect(&siding.server);
        let _ = stream.write_all(request.as_bytes());
        open.push(stream);
    }
    std::thread::sleep(Duration::from_secs(1));
    let pass = siding.phone.pass(&siding.server, 1).unwrap();
    let mut stream = connect(&siding.server);
    stream.set_read_timeout(Some(Duration::from_secs(5))).unwrap();
    let hints = format!("GET /v1/hints HTTP/1.1\r\nhost: x\r\nauthorization: Bearer {pass}\r\n\r\n");
    stream.write_all(hints.as_bytes()).unwrap();
    let mut first = [0u8; 512];
    let read = std::io::Read::read(&mut stream, &mut first).unwrap_or(0);
    let told = String::from_utf8_lossy(&first[..read]).lines().next().unwrap_or("nothing").to_owned();
    println!("beside 270 streams of one session a phone that asks for hints is told: {told}");
    assert!(told.contains(" 200 "), "{told}");
    drop(open);
}
