//! What answers a device and is no office: pages without end, and pages that never end.

use std::io::{Read as _, Write as _};
use std::net::TcpListener;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::{Duration, Instant};

use crate::stage::{Device, Server};

/// The most that may be taken of any answer: eight megabytes, and what the system holds between the two ends.
const MOST: usize = 40 * 1024 * 1024;

/// Answers every request with this head and `x` for as long as anybody listens.
fn endless(head: &'static str) -> (String, Arc<AtomicUsize>) {
    let listener = TcpListener::bind("127.0.0.1:0").unwrap();
    let url = format!("http://{}", listener.local_addr().unwrap());
    let most = Arc::new(AtomicUsize::new(0));
    let counted = Arc::clone(&most);
    std::thread::spawn(move || {
        for stream in listener.incoming() {
            let Ok(mut stream) = stream else { return };
            let counted = Arc::clone(&counted);
            std::thread::spawn(move || {
                let _ = stream.set_write_timeout(Some(Duration::from_secs(20)));
                let _ = stream.read(&mut [0u8; 65_536]);
                let chunked = head.contains("chunked");
                let piece = if chunked {
                    [b"10000\r\n", [b'x'; 0x10000].as_slice(), b"\r\n"].concat()
                } else {
                    vec![b'x'; 0x10000]
                };
                let mut sent = 0;
                if stream.write_all(head.as_bytes()).is_err() {
                    return;
                }
                // Bounded for when nothing else bounds it.
                while sent < 20 * MOST && stream.write_all(&piece).is_ok() {
                    sent += 0x10000;
                    counted.fetch_max(sent, Ordering::SeqCst);
                }
            });
        }
    });
    (url, most)
}

#[test]
fn a_page_without_end_is_left_in_time_and_takes_no_memory() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::in_folder(folder.path());
    let phone = Device::enrolled(&server, &folder.path().join("phone-1"), "ash");
    let visit = phone.open("ZZQX 4417");
    for head in [
        "HTTP/1.1 200 OK\r\ncontent-type: text/html\r\nconnection: close\r\n\r\n",
        "HTTP/1.1 200 OK\r\ntransfer-encoding: chunked\r\n\r\n",
        "HTTP/1.1 200 OK\r\ncontent-length: 999999999999\r\n\r\n",
        "HTTP/1.1 503 Service Unavailable\r\nconnection: close\r\n\r\n",
    ] {
        let (url, most) = endless(head);
        let began = Instant::now();
        let why = phone.no(4, &["sync", "--server", &url, "--attempts", "1"]);
        let taken = most.load(Ordering::SeqCst);
        println!(
            "hostile endless: left after {} kB and {} ms: {why}",
            taken >> 10,
            began.elapsed().as_millis()
        );
        assert!(why.contains("still here"), "{why}");
        assert!(taken < MOST, "{taken} bytes were taken of a page without end");
        assert_eq!(phone.view(&visit)["unreceipted"], 1);
    }
    assert_eq!(phone.yes(&["sync"])["unreceipted_entries"], 0);
}
