//! A line to a server on this machine that stops or breaks where a test says: at the first message that holds a word.

use std::io::{Read as _, Write as _};
use std::net::{Shutdown, TcpListener, TcpStream};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

/// What happens at the word.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum At {
    /// The message does not arrive, and nothing more passes until the asker goes away.
    StopsBefore,
    /// The message arrives, and nothing more passes: the asker waits for its answer.
    StopsAfter,
    /// The connection breaks before the message arrives. Connections made later are whole.
    Breaks,
}

/// The line.
pub struct Line {
    port: u16,
    at: Arc<Mutex<Option<(&'static str, At)>>>,
    met: Arc<AtomicBool>,
}

impl Line {
    /// A line to a port.
    pub fn to(port: u16) -> Line {
        let listener = TcpListener::bind("127.0.0.1:0").unwrap();
        let line =
            Line { port: listener.local_addr().unwrap().port(), at: Arc::default(), met: Arc::default() };
        let (at, met) = (Arc::clone(&line.at), Arc::clone(&line.met));
        std::thread::spawn(move || {
            for asker in listener.incoming().flatten() {
                let Ok(server) = TcpStream::connect(("127.0.0.1", port)) else { continue };
                carry(asker, server, &at, &met);
            }
        });
        line
    }

    /// Returns the port it listens on.
    pub fn port(&self) -> u16 {
        self.port
    }

    /// Says where the line stops or breaks next.
    pub fn at(&self, word: &'static str, at: At) {
        self.met.store(false, Ordering::SeqCst);
        *self.at.lock().unwrap() = Some((word, at));
    }

    /// Waits until the word came.
    pub fn wait(&self) {
        let began = Instant::now();
        while !self.met.load(Ordering::SeqCst) {
            assert!(began.elapsed() < Duration::from_secs(120), "the word did not come");
            std::thread::sleep(Duration::from_millis(5));
        }
    }
}

/// Carries one connection, in two threads of its own.
fn carry(
    asker: TcpStream,
    server: TcpStream,
    at: &Arc<Mutex<Option<(&'static str, At)>>>,
    met: &Arc<AtomicBool>,
) {
    let stopped = Arc::new(AtomicBool::new(false));
    let (mut hears, mut from) = (asker.try_clone().unwrap(), server.try_clone().unwrap());
    let silent = Arc::clone(&stopped);
    std::thread::spawn(move || {
        let mut bytes = [0; 1 << 16];
        while let Ok(length @ 1..) = from.read(&mut bytes) {
            if !silent.load(Ordering::SeqCst) && hears.write_all(&bytes[..length]).is_err() {
                break;
            }
        }
        let _ = hears.shutdown(Shutdown::Both);
    });
    let (mut asks, mut to, at, met) = (asker, server, Arc::clone(at), Arc::clone(met));
    std::thread::spawn(move || {
        let mut bytes = [0; 1 << 16];
        while let Ok(length @ 1..) = asks.read(&mut bytes) {
            let holds = |word: &str| bytes[..length].windows(word.len()).any(|some| some == word.as_bytes());
            let now = {
                let mut at = at.lock().unwrap();
                at.take_if(|(word, _)| holds(word)).map(|(_, at)| at)
            };
            if now.is_some() {
                stopped.store(true, Ordering::SeqCst);
            }
            let passes = now == Some(At::StopsAfter) || !stopped.load(Ordering::SeqCst);
            if passes && to.write_all(&bytes[..length]).is_err() {
                break;
            }
            if now.is_some() {
                std::thread::sleep(Duration::from_millis(200)); // what arrived is carried out
                met.store(true, Ordering::SeqCst);
            }
            if now == Some(At::Breaks) {
                break;
            }
        }
        let _ = asks.shutdown(Shutdown::Both);
        let _ = to.shutdown(Shutdown::Both);
    });
}
