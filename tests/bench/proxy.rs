//! The one proxy everything that syncs is measured through: it counts, heads and bodies apart, and can be made
//! as slow as a bad line.
//!
//! It understands as much of HTTP/1.1 and WebSocket as is needed to tell a head from a body: lengths, chunks,
//! and the frames behind an upgrade (a frame's own head counts with the heads).

use std::io::{Read as _, Write as _};
use std::net::{Shutdown, TcpListener, TcpStream};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex, mpsc};
use std::thread;
use std::time::{Duration, Instant};

/// What went through since the count last began.
#[derive(Clone, Copy, Default, Debug, PartialEq)]
pub struct Count {
    /// Bytes of bodies, both ways.
    pub bodies: u64,
    /// Bytes of heads and frames, both ways.
    pub heads: u64,
    /// How often the asking side spoke after the other had: round trips, as far as a bystander sees them.
    pub turns: u64,
    /// Connections made.
    pub connections: u64,
}

/// A line's speed and delay.
#[derive(Clone, Copy)]
pub struct Line {
    /// Bytes a second, each way.
    pub bytes_per_second: f64,
    /// How long a byte is under way.
    pub one_way: Duration,
}

#[derive(Default)]
struct Tally {
    count: Mutex<(Count, Option<Way>)>,
    moved: AtomicU64,
}

#[derive(Clone, Copy, PartialEq)]
enum Way {
    Up,
    Down,
}

/// A proxy before one server.
pub struct Proxy {
    /// Where to connect to.
    pub port: u16,
    tally: Arc<Tally>,
}

impl Proxy {
    /// A proxy before the server on `target`.
    pub fn before(target: u16, line: Option<Line>) -> Proxy {
        let listener = TcpListener::bind("127.0.0.1:0").unwrap();
        let port = listener.local_addr().unwrap().port();
        let tally = Arc::new(Tally::default());
        let counted = Arc::clone(&tally);
        thread::spawn(move || {
            for client in listener.incoming() {
                let (client, server) = (client.unwrap(), TcpStream::connect(("127.0.0.1", target)).unwrap());
                client.set_nodelay(true).unwrap();
                server.set_nodelay(true).unwrap();
                counted.count.lock().unwrap().0.connections += 1;
                let (up, down) = (client.try_clone().unwrap(), server.try_clone().unwrap());
                for (from, to, way) in [(up, server, Way::Up), (down, client, Way::Down)] {
                    let tally = Arc::clone(&counted);
                    thread::spawn(move || pass_on(from, to, way, line, &tally));
                }
            }
        });
        Proxy { port, tally }
    }

    /// Begins the count anew.
    pub fn begin(&self) {
        *self.tally.count.lock().unwrap() = (Count::default(), None);
    }

    /// What went through, once nothing more comes.
    pub fn count(&self) -> Count {
        loop {
            let before = self.tally.moved.load(Ordering::SeqCst);
            thread::sleep(Duration::from_millis(100));
            if self.tally.moved.load(Ordering::SeqCst) == before {
                return self.tally.count.lock().unwrap().0;
            }
        }
    }
}

fn pass_on(mut from: TcpStream, mut to: TcpStream, way: Way, line: Option<Line>, tally: &Tally) {
    let (send, arrive) = mpsc::channel::<(Instant, Vec<u8>)>();
    let writer = thread::spawn(move || {
        for (at, bytes) in arrive {
            thread::sleep(at.saturating_duration_since(Instant::now()));
            if to.write_all(&bytes).is_err() {
                break;
            }
        }
        let _ = to.shutdown(Shutdown::Write);
    });
    let mut parser = Parser::new();
    let mut free_at = Instant::now();
    let mut buffer = vec![0; if line.is_some() { 256 } else { 64 * 1024 }];
    while let Ok(length @ 1..) = from.read(&mut buffer) {
        let bytes = &buffer[..length];
        let (heads, bodies) = parser.feed(bytes);
        {
            let mut counted = tally.count.lock().unwrap();
            counted.0.heads += heads;
            counted.0.bodies += bodies;
            if way == Way::Up && counted.1 != Some(Way::Up) {
                counted.0.turns += 1;
            }
            counted.1 = Some(way);
        }
        tally.moved.fetch_add(length as u64, Ordering::SeqCst);
        let at = match line {
            Some(line) => {
                free_at = free_at.max(Instant::now())
                    + Duration::from_secs_f64(length as f64 / line.bytes_per_second);
                free_at + line.one_way
            }
            None => Instant::now(),
        };
        if send.send((at, bytes.to_vec())).is_err() {
            break;
        }
    }
    drop(send);
    let _ = writer.join();
}

/// Where in a stream one direction is.
enum State {
    /// In a head; what was read of it.
    Head(Vec<u8>),
    /// In a body with so many bytes to come.
    Body(u64),
    /// In the line that gives a chunk's length.
    ChunkLine(Vec<u8>),
    /// In a chunk with so many bytes to come.
    Chunk(u64),
    /// In the two bytes behind a chunk; true behind the last.
    ChunkEnd(u8, bool),
    /// In a frame's head.
    FrameHead(Vec<u8>),
    /// In a frame with so many bytes to come.
    Frame(u64),
}

struct Parser(State);

impl Parser {
    fn new() -> Parser {
        Parser(State::Head(Vec::new()))
    }

    /// How many of these bytes are head and how many body.
    fn feed(&mut self, bytes: &[u8]) -> (u64, u64) {
        let (mut heads, mut bodies, mut at) = (0, 0, 0);
        while at < bytes.len() {
            if let State::Body(left) | State::Chunk(left) | State::Frame(left) = &mut self.0 {
                let taken = (*left).min((bytes.len() - at) as u64);
                (at, bodies, *left) = (at + taken as usize, bodies + taken, *left - taken);
                if *left == 0 {
                    self.0 = match self.0 {
                        State::Chunk(_) => State::ChunkEnd(2, false),
                        State::Frame(_) => State::FrameHead(Vec::new()),
                        _ => State::Head(Vec::new()),
                    };
                }
                continue;
            }
            let byte = bytes[at];
            (at, heads) = (at + 1, heads + 1);
            match &mut self.0 {
                State::Head(read) => {
                    read.push(byte);
                    if read.ends_with(b"\r\n\r\n") {
                        self.0 = behind_head(&String::from_utf8_lossy(read).to_lowercase());
                    }
                }
                State::ChunkLine(read) => {
                    read.push(byte);
                    if read.ends_with(b"\r\n") {
                        let text = String::from_utf8_lossy(read);
                        let length = u64::from_str_radix(text.trim().split(';').next().unwrap(), 16).unwrap();
                        self.0 = if length == 0 { State::ChunkEnd(2, true) } else { State::Chunk(length) };
                    }
                }
                State::ChunkEnd(left @ 2.., _) => *left -= 1,
                State::ChunkEnd(_, true) => self.0 = State::Head(Vec::new()),
                State::ChunkEnd(_, false) => self.0 = State::ChunkLine(Vec::new()),
                State::FrameHead(read) => {
                    read.push(byte);
                    if let Some(length) = frame_length(read) {
                        self.0 =
                            if length == 0 { State::FrameHead(Vec::new()) } else { State::Frame(length) };
                    }
                }
                State::Body(_) | State::Chunk(_) | State::Frame(_) => unreachable!("taken above"),
            }
        }
        (heads, bodies)
    }
}

fn behind_head(head: &str) -> State {
    assert!(!head.starts_with("head "), "a HEAD's answer has a length and no body: teach the proxy");
    let field = |name: &str| head.lines().find_map(|line| line.strip_prefix(name)).map(str::trim);
    if field("upgrade:").is_some() {
        return State::FrameHead(Vec::new());
    }
    if field("transfer-encoding:").is_some_and(|coding| coding.contains("chunked")) {
        return State::ChunkLine(Vec::new());
    }
    match field("content-length:").map_or(0, |length| length.parse().unwrap()) {
        0 => State::Head(Vec::new()),
        length => State::Body(length),
    }
}

/// The payload's length once a frame's head is whole (RFC 6455, 5.2).
fn frame_length(head: &[u8]) -> Option<u64> {
    let second = *head.get(1)?;
    let mask = if second & 0x80 == 0 { 0 } else { 4 };
    let extended = match second & 0x7f {
        126 => 2,
        127 => 8,
        _ => 0,
    };
    if head.len() < 2 + extended + mask {
        return None;
    }
    let long = head[2..2 + extended].iter().fold(0, |sum, byte| sum << 8 | u64::from(*byte));
    Some(if extended == 0 { u64::from(second & 0x7f) } else { long })
}
