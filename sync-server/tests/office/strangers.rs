//! The cost of strangers who send much and of devices that ask for much, for the office and for everybody
//! else.

use std::io::Write as _;
use std::net::TcpStream;
use std::time::{Duration, Instant};

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::DeviceKey;
use farsiding_core::ids::{Digest, EntryId};
use farsiding_core::sync::wire::{RequestBulk, RequestHead, seal_request};

use super::stage::{Answer, Device, Server};

/// The longest duration of an honest device's round while strangers send requests. The tests run beside
/// others, on two processors.
const LONGEST_ROUND: Duration = Duration::from_secs(8);

fn head_of(address: usize, length: usize) -> String {
    format!(
        "POST /v1/sync HTTP/1.1\r\nhost: x\r\nconnection: close\r\nx-forwarded-for: 198.51.{}.{}\r\n\
         content-length: {length}\r\n\r\n",
        address / 200,
        address % 200 + 1
    )
}

fn request(key: &DeviceKey, number: u64, bulk: &RequestBulk) -> Vec<u8> {
    let head =
        RequestHead { number, cursor: None, certificates: 0, at: UtcMillis(0), bulk: None, statement: None };
    seal_request(head, bulk, key).unwrap()
}

fn honest_round(device: &Device) -> Duration {
    device.open("ZZQX 4417");
    let began = Instant::now();
    assert_eq!(device.yes(&["sync"])["unreceipted_entries"], 0);
    began.elapsed()
}

#[test]
fn two_hundred_open_strangers_cost_little_memory_and_keep_nobody_waiting() {
    const STRANGERS: usize = 200;
    const BULK: usize = 4_000_000;
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start_with(&folder.path().join("office"), "127.0.0.1:0", &["--behind-proxy"]);
    let device = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    device.open("ZZQX 4417");
    device.yes(&["sync"]);
    let Some(idle) = server.memory_kb() else { return };
    let [a, b, c, d] = u32::try_from(BULK).unwrap().to_be_bytes();
    let begins = [0xa2, 0x61, b'b', 0x5a, a, b, c, d];
    let most = std::thread::scope(|scope| {
        let open: Vec<_> = (0..STRANGERS)
            .map(|n| {
                let mut stream = server.connect();
                scope.spawn(move || -> TcpStream {
                    stream.write_all(head_of(n, BULK + 200).as_bytes()).unwrap();
                    stream.write_all(&begins).unwrap();
                    let piece = [0u8; 100_000];
                    for _ in 0..BULK / piece.len() {
                        if stream.write_all(&piece).is_err() {
                            break; // refused already
                        }
                    }
                    stream
                })
            })
            .collect();
        let mut most = 0;
        while open.iter().any(|stranger| !stranger.is_finished()) {
            most = most.max(server.memory_kb().unwrap());
            std::thread::sleep(Duration::from_millis(20));
        }
        let round = honest_round(&device);
        assert!(round < LONGEST_ROUND, "an honest round took {round:?}");
        let mut streams: Vec<TcpStream> = open.into_iter().map(|stranger| stranger.join().unwrap()).collect();
        most = most.max(server.memory_kb().unwrap());
        // The message does not end with a signature, so it is refused without being decoded.
        let mut ends = vec![0x61, b'h', 0x58, 196];
        ends.extend([0x83; 196]);
        let _ = streams[0].write_all(&ends);
        assert_eq!(Answer::read(&mut streams[0]).status, 400);
        most
    });
    let more = most.saturating_sub(idle) / 1024;
    println!("{STRANGERS} strangers cost {more} MB above {} MB", idle / 1024);
    assert!(more < 150, "{more} MB above idle");
    assert!(server.is_well());
}

#[test]
fn what_nobody_signed_is_refused_by_its_first_bytes_and_holds_nobody_up() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start_with(&folder.path().join("office"), "127.0.0.1:0", &["--behind-proxy"]);
    let device = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    // A million arrays are nested in one another. A parser of everything would need hundreds of megabytes for
    // them.
    let mut arrays = vec![0x9a, 0, 0x0f, 0x42, 0x40];
    arrays.resize(4_000_000, 0x80);
    let idle = server.memory_kb();
    std::thread::scope(|scope| {
        for n in 0..16 {
            let (mut stream, arrays) = (server.connect(), &arrays);
            scope.spawn(move || {
                stream.write_all(head_of(n, arrays.len()).as_bytes()).unwrap();
                let _ = stream.write_all(arrays); // refused while it is sent
                let status = Answer::read(&mut stream).status;
                assert!(matches!(status, 0 | 400), "{status}");
            });
        }
        let round = honest_round(&device);
        assert!(round < LONGEST_ROUND, "an honest round took {round:?}");
    });
    if let (Some(idle), Some(now)) = (idle, server.memory_kb()) {
        assert!(now < idle + 60 * 1024, "{now} kB after, {idle} kB before");
    }
    // The message is signed by a key that is not enrolled, and is refused whatever it carries.
    let stranger = DeviceKey::from_secret([9; 32]);
    let asks = vec![EntryId([7; 32]); 1000];
    let signed = request(&stranger, 1, &RequestBulk { asks, ..RequestBulk::default() });
    assert_eq!(server.ask("POST", "/v1/sync", &[], &signed).code(), "unknown_device");
    assert!(!server.log().contains("answering a sync request"), "the ledger was asked");
}

#[test]
fn the_same_thing_asked_for_over_and_over_is_refused_before_the_ledger() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let bad = Device::enrolled(&server, &folder.path().join("bad"), "op-1");
    let good = Device::enrolled(&server, &folder.path().join("good"), "op-2");
    let entry = EntryId([7; 32]);
    let photo = Digest([7; 32]);
    let lists = [
        RequestBulk { asks: vec![entry; 200_000], ..RequestBulk::default() },
        RequestBulk { photos: vec![photo; 200_000], ..RequestBulk::default() },
    ];
    for (bulk, number) in lists.iter().zip(1..) {
        let sent = request(&bad.key(), number, bulk);
        assert!(sent.len() < 100_000, "it costs its sender little: {} bytes", sent.len());
        let began = Instant::now();
        let answer = server.ask("POST", "/v1/sync", &[], &sent);
        assert_eq!((answer.status, answer.code().as_str()), (400, "too_much"));
        assert!(began.elapsed() < Duration::from_secs(4), "{:?}", began.elapsed());
    }
    let round = honest_round(&good);
    assert!(round < LONGEST_ROUND, "an honest round took {round:?}");
}

#[test]
fn one_device_keeps_a_few_streams_open_and_no_more() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let device = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    let other = Device::enrolled(&server, &folder.path().join("b"), "op-2");
    let open = |pass: &str| {
        let mut stream = server.connect();
        let head = format!("GET /v1/hints HTTP/1.1\r\nhost: x\r\nauthorization: Bearer {pass}\r\n\r\n");
        stream.write_all(head.as_bytes()).unwrap();
        let mut begin = [0u8; 12];
        std::io::Read::read_exact(&mut stream, &mut begin).unwrap();
        (String::from_utf8_lossy(&begin[9..]).into_owned(), stream)
    };
    let pass = device.pass(&server, 1).unwrap();
    let mut streams: Vec<(String, TcpStream)> = (0..8).map(|_| open(&pass)).collect();
    let let_in = streams.iter().filter(|(status, _)| status == "200").count();
    assert_eq!(let_in, 6, "a device has a window or two, not dozens");
    assert!(streams.iter().all(|(status, _)| matches!(status.as_str(), "200" | "429")));
    assert_eq!(
        open(&other.pass(&server, 2).unwrap()).0,
        "200",
        "another behind the same address gets its own"
    );
    streams.clear();
    let began = Instant::now();
    while open(&pass).0 != "200" {
        assert!(began.elapsed() < Duration::from_secs(60), "a place is given back when a stream is closed");
        std::thread::sleep(Duration::from_millis(200));
    }
}
