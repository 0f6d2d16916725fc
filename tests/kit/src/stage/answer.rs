//! Requests and answers as they stand on a socket, for what no client would send.

use std::io::Read as _;
use std::net::TcpStream;

use serde_json::Value;

/// A request's bytes. Host and length are added where `headers` does not name them.
pub fn request(method: &str, path: &str, headers: &[(&str, &str)], body: &[u8]) -> Vec<u8> {
    let named = |wanted: &str| headers.iter().any(|(name, _)| *name == wanted);
    let mut head = format!("{method} {path} HTTP/1.1\r\nconnection: close\r\n");
    if !named("host") {
        head.push_str("host: x\r\n");
    }
    for (name, value) in headers {
        head.push_str(&format!("{name}: {value}\r\n"));
    }
    if !named("content-length") {
        head.push_str(&format!("content-length: {}\r\n", body.len()));
    }
    [head.as_bytes(), b"\r\n", body].concat()
}

/// An HTTP answer; its status is 0 where the connection was just closed.
#[derive(Debug)]
pub struct Answer {
    pub status: u16,
    /// The head in lower case, for looking names up; and as it came.
    pub head: String,
    pub raw_head: String,
    pub body: Vec<u8>,
}

impl Answer {
    pub fn read(stream: &mut TcpStream) -> Answer {
        let mut bytes = Vec::new();
        let mut piece = [0u8; 4096];
        loop {
            match stream.read(&mut piece) {
                Ok(0) | Err(_) => break,
                Ok(n) => bytes.extend_from_slice(&piece[..n]),
            }
        }
        Answer::of(&bytes)
    }

    /// What was read of an answer.
    pub fn of(bytes: &[u8]) -> Answer {
        let end = bytes.windows(4).position(|w| w == b"\r\n\r\n").map_or(bytes.len(), |at| at + 4);
        let raw_head = String::from_utf8_lossy(&bytes[..end]).into_owned();
        let head = raw_head.to_lowercase();
        let status = head.split(' ').nth(1).and_then(|text| text.parse().ok()).unwrap_or(0);
        Answer { status, head, raw_head, body: bytes[end..].to_vec() }
    }

    pub fn header(&self, name: &str) -> Option<String> {
        self.head
            .lines()
            .find_map(|line| line.strip_prefix(&format!("{name}: ")).map(|v| v.trim().to_owned()))
    }

    pub fn code(&self) -> String {
        let body: Value = serde_json::from_slice(&self.body).unwrap_or_default();
        body["error"].as_str().unwrap_or_default().to_owned()
    }
}
