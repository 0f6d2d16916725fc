//! A third party that the office asks: a few bytes of HTTP on loopback, answered by the test; and a witness.

use std::io::{Read as _, Write as _};
use std::net::TcpListener;
use std::sync::{Arc, Mutex};

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::DeviceKey;
use farsiding_core::evidence::{Checkpoint, Cosignature, VerifierKey};
use farsiding_core::ids::DeviceId;
use sha2::{Digest as _, Sha256};

/// One request.
pub struct Asked {
    /// The first line and the headers, in lower case.
    pub head: String,
    pub body: Vec<u8>,
}

/// The status, the content type and the body.
pub type Told = (u16, &'static str, Vec<u8>);

/// Serves one request after another with `answer`, and returns the address.
pub fn outsider(answer: impl Fn(Asked) -> Told + Send + 'static) -> String {
    let listener = TcpListener::bind("127.0.0.1:0").unwrap();
    let address = format!("http://{}", listener.local_addr().unwrap());
    std::thread::spawn(move || {
        for stream in listener.incoming() {
            let mut stream = stream.unwrap();
            let (mut bytes, mut piece) = (Vec::new(), [0u8; 4096]);
            let asked = loop {
                let n = stream.read(&mut piece).unwrap_or(0);
                bytes.extend_from_slice(&piece[..n]);
                let Some(end) = bytes.windows(4).position(|w| w == b"\r\n\r\n") else {
                    if n == 0 {
                        break None;
                    }
                    continue;
                };
                let head = String::from_utf8_lossy(&bytes[..end]).to_lowercase();
                let length =
                    head.lines().find_map(|l| l.strip_prefix("content-length: ")?.parse::<usize>().ok());
                if bytes.len() >= end + 4 + length.unwrap_or(0) {
                    break Some(Asked { head, body: bytes[end + 4..].to_vec() });
                }
            };
            let Some(asked) = asked else { continue };
            let (status, media, body) = answer(asked);
            let head = format!(
                "HTTP/1.1 {status} x\r\ncontent-type: {media}\r\ncontent-length: {}\r\nconnection: close\r\n\r\n",
                body.len()
            );
            let _ = stream.write_all(&[head.as_bytes(), &body].concat()); // the client may be gone
        }
    });
    address
}

/// A witness's memory of a log: its size and its root.
type Kept = Option<(u64, [u8; 32])>;

/// A witness (C2SP tlog-witness) with its own key, its own memory and its own implementation of RFC 6962.
pub struct Witness {
    pub url: String,
    pub key: VerifierKey,
    kept: Arc<Mutex<Kept>>,
    asked: Arc<Mutex<Vec<u16>>>,
}

impl Witness {
    /// Returns a witness that knows the organisation's log and has seen nothing yet.
    pub fn of(organisation: DeviceId, name: &str, secret: u8) -> Witness {
        let signer = DeviceKey::from_secret([secret; 32]);
        let key = VerifierKey::witness(name, signer.public());
        let (kept, asked) = (Arc::new(Mutex::new(None)), Arc::new(Mutex::new(Vec::new())));
        let (memory, told, name) = (Arc::clone(&kept), Arc::clone(&asked), name.to_owned());
        let url = outsider(move |request| {
            assert!(request.head.starts_with("post /prefix/add-checkpoint "), "{}", request.head);
            let mut memory = memory.lock().unwrap();
            let answer = witnessed(&organisation, (&name, &signer), &mut memory, &request.body);
            told.lock().unwrap().push(answer.0);
            answer
        });
        Witness { url: format!("{url}/prefix/"), key, kept, asked }
    }

    /// Returns the size that the witness signed last.
    pub fn signed(&self) -> u64 {
        self.kept.lock().unwrap().map_or(0, |(size, _)| size)
    }

    /// Returns the statuses of its answers so far.
    pub fn answers(&self) -> Vec<u16> {
        self.asked.lock().unwrap().clone()
    }
}

fn witnessed(
    organisation: &DeviceId,
    (name, signer): (&str, &DeviceKey),
    kept: &mut Kept,
    body: &[u8],
) -> Told {
    let no = |status: u16| (status, "text/plain", b"no\n".to_vec());
    let Ok(text) = std::str::from_utf8(body) else { return no(400) };
    let Some((head, note)) = text.split_once("\n\n") else { return no(400) };
    let mut lines = head.split('\n');
    let old = lines.next().and_then(|line| line.strip_prefix("old ")?.parse::<u64>().ok());
    let hash = |line: &str| <[u8; 32]>::try_from(STANDARD.decode(line).ok()?).ok();
    let (Some(old), Some(proof)) = (old, lines.map(hash).collect::<Option<Vec<_>>>()) else { return no(400) };
    let first = Checkpoint::first_origin(organisation);
    if note.lines().next() != Some(first.as_str()) {
        return no(404);
    }
    let Ok(checkpoint) = Checkpoint::open(note, organisation) else { return no(403) };
    if old > checkpoint.size || proof.len() > 63 {
        return no(400);
    }
    let known = kept.map_or(0, |(size, _)| size);
    if old != known {
        return (409, "text/x.tlog.size", format!("{known}\n").into_bytes());
    }
    let root = checkpoint.root.0;
    let refused = match *kept {
        Some((size, before)) if size == checkpoint.size => (before != root).then_some(409),
        Some((size, before)) if size > 0 => {
            (grown(size, before, checkpoint.size, proof) != Some((before, root))).then_some(422)
        }
        _ => (!proof.is_empty()).then_some(422),
    };
    if let Some(status) = refused {
        return no(status);
    }
    *kept = Some((checkpoint.size, root));
    let now = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap();
    let line = Cosignature::line(note, name, signer, UtcMillis(now.as_millis() as i64)).unwrap();
    (200, "text/plain", line.into_bytes())
}

/// Returns the roots of the first `old` leaves and of all `new` leaves that a consistency proof leads to,
/// where `before` is the old root. The computation follows the recursive definition in RFC 6962, 2.1.2.
fn grown(old: u64, before: [u8; 32], new: u64, mut proof: Vec<[u8; 32]>) -> Option<([u8; 32], [u8; 32])> {
    fn node(left: [u8; 32], right: [u8; 32]) -> [u8; 32] {
        Sha256::new().chain_update([1]).chain_update(left).chain_update(right).finalize().into()
    }
    type Roots = ([u8; 32], [u8; 32]);
    fn walk(old: u64, new: u64, known: Option<[u8; 32]>, proof: &mut Vec<[u8; 32]>) -> Option<Roots> {
        if old == new {
            let here = known.or_else(|| proof.pop())?;
            return Some((here, here));
        }
        let mut half = 1;
        while half * 2 < new {
            half *= 2;
        }
        let beside = proof.pop()?;
        if old <= half {
            let (before, left) = walk(old, half, known, proof)?;
            Some((before, node(left, beside)))
        } else {
            let (before, right) = walk(old - half, new - half, None, proof)?;
            Some((node(beside, before), node(beside, right)))
        }
    }
    let roots = walk(old, new, Some(before), &mut proof)?;
    proof.is_empty().then_some(roots)
}
