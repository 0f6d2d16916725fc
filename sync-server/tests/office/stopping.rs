//! Stopping the server without cutting off requests, and hints while it runs.

use std::io::{Read as _, Write as _};
use std::time::{Duration, Instant};

use super::stage::{Answer, Device, Server};

#[test]
fn a_request_under_way_is_finished_before_the_server_stops() {
    let folder = tempfile::tempdir().unwrap();
    let mut server = Server::start(&folder.path().join("office"));
    let phone = Device::new(&folder.path().join("phone"), "op-1");
    let (code, _) = server.code("Phone 1", &[]);
    let body = server.enrol_request(&code, "").seal(&phone.key()).unwrap();
    let (first, rest) = body.split_at(20);
    let mut stream = server.connect();
    let head = format!(
        "POST /v1/enrol HTTP/1.1\r\nhost: x\r\nconnection: close\r\ncontent-length: {}\r\n\r\n",
        body.len()
    );
    stream.write_all(&[head.as_bytes(), first].concat()).unwrap();
    std::thread::sleep(Duration::from_millis(300));
    server.terminate();
    std::thread::sleep(Duration::from_millis(300));
    stream.write_all(rest).unwrap();
    let answer = Answer::read(&mut stream);
    assert_eq!(answer.status, 200, "{answer:?}");
    assert!(server.wait().success());
    assert!(server.log().contains("stopped"));
    server.restart();
    assert_eq!(server.devices()["devices"].as_array().unwrap().len(), 1);
}

#[test]
fn a_listener_is_told_that_there_is_something_new_and_let_go_at_the_end() {
    let folder = tempfile::tempdir().unwrap();
    let mut server = Server::start(&folder.path().join("office"));
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    let pass = a.pass(&server, 1).unwrap();
    let mut stream = server.connect();
    let head = format!("GET /v1/hints HTTP/1.1\r\nhost: x\r\nauthorization: Bearer {pass}\r\n\r\n");
    stream.write_all(head.as_bytes()).unwrap();
    let heard = read_until(&mut stream, "event: hello");
    assert!(heard.contains("text/event-stream"), "{heard}");
    a.open("ZZQX 4417");
    a.yes(&["sync"]);
    read_until(&mut stream, "event: new");
    server.terminate();
    let began = Instant::now();
    assert!(server.wait().success());
    assert!(began.elapsed() < Duration::from_secs(10), "a listener does not hold the server up");
}

fn read_until(stream: &mut std::net::TcpStream, wanted: &str) -> String {
    let (mut heard, mut piece) = (String::new(), [0u8; 1024]);
    while !heard.contains(wanted) {
        let n = stream.read(&mut piece).unwrap();
        assert!(n > 0, "the stream ended without \"{wanted}\": {heard}");
        heard.push_str(&String::from_utf8_lossy(&piece[..n]));
    }
    heard
}

#[test]
fn a_sender_that_never_finishes_its_head_is_let_go() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let mut stream = server.connect();
    stream.write_all(b"POST /v1/sync HTTP/1.1\r\nhost: ").unwrap();
    let began = Instant::now();
    let answer = Answer::read(&mut stream);
    assert!(matches!(answer.status, 0 | 408), "{answer:?}");
    assert!(began.elapsed() < Duration::from_secs(40), "after {:?}", began.elapsed());
    assert!(server.is_well());
}
