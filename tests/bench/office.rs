//! The office server as a process of its own, a phone that is enrolled with it, and the plain HTTP both
//! ours and the rivals are called by.

use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{SystemTime, UNIX_EPOCH};

use base64::Engine as _;
use farsiding_core::book::{Book, BookParts};
use farsiding_core::clock::{HandSetClock, UtcMillis};
use farsiding_core::entry::{DeviceKey, EnrolmentRequest};
use farsiding_core::ids::{DeviceId, OrganisationId, Randomness};
use farsiding_core::store::{Durability, MemoryStore, SqliteStore, Store};
use farsiding_core::sync::Step;

/// The operating system's randomness.
pub struct Os;
impl Randomness for Os {
    fn fill(&mut self, bytes: &mut [u8]) {
        getrandom::fill(bytes).unwrap();
    }
}

/// This program, doing what `arguments` say instead of measuring (see `main`).
pub fn this_program(arguments: &[&str]) -> Command {
    let mut command = Command::new(std::env::current_exe().unwrap());
    command.args(arguments).env_remove("FARSIDING_CLOCK").env_remove("FARSIDING_DIR");
    command
}

/// A server process; ended when dropped.
pub struct Process {
    child: Child,
    /// Where it listens.
    pub port: u16,
}

impl Process {
    /// Starts a program that says `listening on …:PORT` first.
    pub fn start(mut command: Command) -> Process {
        let mut child = command.stdout(Stdio::piped()).stderr(Stdio::null()).spawn().unwrap();
        let mut line = String::new();
        BufReader::new(child.stdout.take().unwrap()).read_line(&mut line).unwrap();
        let port = line.trim().rsplit(':').next().unwrap().parse().unwrap();
        Process { child, port }
    }

    /// A figure of `/proc/PID/status`, in bytes: `VmRSS`, `VmHWM`.
    pub fn memory(&self, name: &str) -> u64 {
        let status = std::fs::read_to_string(format!("/proc/{}/status", self.child.id())).unwrap_or_default();
        let line = status.lines().find_map(|line| line.strip_prefix(name)?.strip_prefix(':'));
        let kilobytes = line.and_then(|rest| rest.trim().trim_end_matches(" kB").parse::<u64>().ok());
        kilobytes.unwrap_or(0) * 1024
    }
}

impl Drop for Process {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// An office in a folder.
pub struct Office {
    data: PathBuf,
    /// The server.
    pub process: Process,
}

impl Office {
    /// Starts the server on the folder `data`.
    pub fn start(data: &Path) -> Office {
        let mut command = this_program(&["serve", "--listen", "127.0.0.1:0", "--data"]);
        command.arg(data);
        Office { data: data.to_owned(), process: Process::start(command) }
    }

    /// Where its ledger is.
    pub fn ledger_file(&self) -> PathBuf {
        self.data.join("ledger.db")
    }

    /// A phone with these parts, enrolled.
    pub fn enrol(&self, store: Box<dyn Store>, key: DeviceKey, name: &str) -> Book {
        let told = this_program(&["enrol", "--name", name, "--role", "operator", "--json", "--data"])
            .arg(&self.data)
            .output()
            .unwrap();
        let told: serde_json::Value = serde_json::from_slice(&told.stdout).unwrap();
        let text = told["enrolment"].as_str().unwrap();
        let code = text.split("#enrol=").nth(1).unwrap().split('&').next().unwrap();
        let organisation_key = DeviceId::read(told["organisation_key"].as_str().unwrap()).unwrap();
        let organisation = OrganisationId::of_key(&organisation_key);
        let millis = SystemTime::now().duration_since(UNIX_EPOCH).unwrap().as_millis();
        let at = UtcMillis(i64::try_from(millis).unwrap());
        let request = EnrolmentRequest { code: code.to_owned(), organisation, at, name: name.to_owned() };
        let body = request.seal(&key).unwrap();
        let answer = Caller::to(self.process.port).post("/v1/enrol", "application/cbor", &body);
        let answer: serde_json::Value = serde_json::from_slice(&answer).unwrap();
        let certificate = answer["certificate"].as_str().unwrap();
        let certificate = base64::engine::general_purpose::STANDARD.decode(certificate).unwrap();
        let mut book = book_of(store, key);
        book.enrolled(organisation_key, &certificate).unwrap();
        book
    }

    /// A phone that keeps its records in memory, enrolled.
    pub fn phone(&self, name: &str) -> Book {
        self.enrol(Box::new(MemoryStore::new()), DeviceKey::random(&mut Os), name)
    }
}

/// A book over a store.
pub fn book_of(store: Box<dyn Store>, key: DeviceKey) -> Book {
    let clock = Box::new(HandSetClock::at(UtcMillis(1_800_000_000_000), -360));
    Book::open(BookParts { store, key, clock, randomness: Box::new(Os) })
}

/// A book in a file, as a device keeps it.
pub fn book_at(path: &Path) -> Book {
    let store = SqliteStore::open(path.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    book_of(Box::new(store), DeviceKey::from_secret([5; 32]))
}

/// Syncs until all is done; returns how many rounds that took.
pub fn meet(book: &mut Book, caller: &mut Caller) -> u64 {
    let mut session = book.sync_session().unwrap();
    for round in 1.. {
        let request = book.sync_request(&mut session).unwrap();
        let reply = caller.post("/v1/sync", "application/cbor", &request);
        if book.sync_receive(&mut session, &reply).unwrap() == Step::Done {
            return round;
        }
    }
    unreachable!("a session ends")
}

/// One connection, with the heads the device's own client sends.
pub struct Caller {
    stream: BufReader<TcpStream>,
    port: u16,
}

impl Caller {
    /// Connects.
    pub fn to(port: u16) -> Caller {
        let stream = TcpStream::connect(("127.0.0.1", port)).unwrap();
        stream.set_nodelay(true).unwrap();
        Caller { stream: BufReader::new(stream), port }
    }

    /// Posts a body and returns the answer's.
    pub fn post(&mut self, path: &str, media: &str, body: &[u8]) -> Vec<u8> {
        let mut request = format!(
            "POST {path} HTTP/1.1\r\ncontent-type: {media}\r\naccept: */*\r\nhost: 127.0.0.1:{}\r\ncontent-length: {}\r\n\r\n",
            self.port,
            body.len()
        )
        .into_bytes();
        request.extend_from_slice(body);
        self.stream.get_mut().write_all(&request).unwrap();
        let (mut status, mut length, mut line) = (String::new(), 0, String::new());
        self.stream.read_line(&mut status).unwrap();
        loop {
            line.clear();
            self.stream.read_line(&mut line).unwrap();
            let lower = line.to_lowercase();
            if let Some(value) = lower.strip_prefix("content-length:") {
                length = value.trim().parse().unwrap();
            }
            if line.trim().is_empty() {
                break;
            }
        }
        let mut answer = vec![0; length];
        self.stream.read_exact(&mut answer).unwrap();
        assert!(status.contains(" 200"), "{status}{}", String::from_utf8_lossy(&answer));
        answer
    }
}
