//! A bad line between a device and the office: slow, far, losing pieces, cut, or taken over by a login page.
//!
//! It carries bytes and knows nothing of HTTP but where a request begins; what goes through is counted when it
//! has left the slow end. That a piece was lost shows a round trip later; it is then sent again, takes the line's
//! time once more, and everything behind it waits for it. A connection costs a round trip before its first byte.
//! That a sender slows down when it notices losses is not modelled.
//!
//! The benches' proxy (`tests/bench/proxy.rs`) tells heads from bodies and neither loses nor cuts; the two share
//! too little to be one.

use std::io::{Read as _, Write as _};
use std::net::{Shutdown, TcpListener, TcpStream};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, mpsc};
use std::thread;
use std::time::{Duration, Instant};

use farsiding_testkit::Dice;

/// 9.6 kbit/s, in bytes a second.
pub const SPEED: f64 = 1200.0;
/// There and back.
pub const ROUND_TRIP: Duration = Duration::from_secs(2);
/// Of a hundred pieces, how many are lost.
pub const LOSS: usize = 20;
/// Bytes of one piece: small ones, as on slow lines.
const PIECE: usize = 256;

/// What a login page answers, whatever is asked.
const LOGIN_PAGE: &str = "HTTP/1.1 200 OK\r\ncontent-type: text/html\r\ncontent-length: 49\r\nconnection: close\r\n\r\n<html><h1>Welcome</h1>Please sign in first</html>";

/// A direction, seen from the device.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Way {
    /// To the office.
    Up = 0,
    /// From the office.
    Down = 1,
}

/// When all connections are cut.
#[derive(Clone, Copy, Debug)]
pub enum Cut {
    /// Once so many more bytes have gone this way.
    After(Way, u64),
    /// Once a photograph's first piece is announced and so many more bytes have gone up.
    InAPhotograph(u64),
}

/// What becomes of new connections.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Reach {
    /// They are carried.
    Carried,
    /// They are closed.
    Dead,
    /// A login page answers.
    LoginPage,
}

/// How good a line is.
#[derive(Clone, Copy, Debug)]
pub struct Quality {
    /// How many times better than the line of the constants above: shorter waits for shorter tests.
    pub better: f64,
    /// Of a hundred pieces, how many are lost.
    pub loss: usize,
    /// Of a thousand pieces, how many cut every connection.
    pub cuts: usize,
}

struct State {
    dice: Dice,
    quality: Quality,
    reach: Reach,
    /// What reach becomes at the next cut, and what cuts.
    next: Vec<(Cut, Reach)>,
    carried: [u64; 2],
    free_at: [Instant; 2],
    lost: u64,
    cuts: u64,
    open: Vec<Arc<Connection>>,
}

struct Connection {
    cut: AtomicBool,
    ends: [TcpStream; 2],
    /// What the device said on it.
    said: Mutex<Vec<u8>>,
}

/// A line to one server.
pub struct Line {
    /// Where a device reaches the office by this line.
    pub url: String,
    state: Arc<Mutex<State>>,
    all: Arc<Mutex<Vec<Arc<Connection>>>>,
}

fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Line {
    /// A line to the server at `url`.
    pub fn to(url: &str, quality: Quality, dice: Dice) -> Line {
        let target = url.strip_prefix("http://").unwrap().to_owned();
        let listener = TcpListener::bind("127.0.0.1:0").unwrap();
        let here = format!("http://{}", listener.local_addr().unwrap());
        let state = Arc::new(Mutex::new(State {
            dice,
            quality,
            reach: Reach::Carried,
            next: Vec::new(),
            carried: [0; 2],
            free_at: [Instant::now(); 2],
            lost: 0,
            cuts: 0,
            open: Vec::new(),
        }));
        let all = Arc::new(Mutex::new(Vec::new()));
        let (shared, kept) = (Arc::clone(&state), Arc::clone(&all));
        thread::spawn(move || {
            for client in listener.incoming() {
                let Ok(mut client) = client else { return };
                let reach = locked(&shared).reach;
                match reach {
                    Reach::Dead => drop(client),
                    Reach::LoginPage => {
                        thread::spawn(move || {
                            let _ = client.read(&mut [0u8; 65_536]);
                            let _ = client.write_all(LOGIN_PAGE.as_bytes());
                            let _ = client.shutdown(Shutdown::Write);
                            while client.read(&mut [0u8; 4096]).is_ok_and(|read| read > 0) {}
                        });
                    }
                    Reach::Carried => carry(client, &target, &shared, &kept),
                }
            }
        });
        Line { url: here, state, all }
    }

    /// What shall happen next: each cut turns the line into what stands beside it.
    pub fn plan(&self, cuts: &[(Cut, Reach)]) {
        locked(&self.state).next = cuts.to_vec();
    }

    /// Makes the line into this at once; connections that are open stay.
    pub fn becomes(&self, reach: Reach) {
        locked(&self.state).reach = reach;
    }

    /// Bytes that have left the slow end this way.
    pub fn carried(&self, way: Way) -> u64 {
        locked(&self.state).carried[way as usize]
    }

    /// Pieces lost and cuts made.
    pub fn lost_and_cut(&self) -> (u64, u64) {
        let state = locked(&self.state);
        (state.lost, state.cuts)
    }

    /// The heads of all requests that went through, in order of their connections.
    pub fn requests(&self) -> Vec<String> {
        let connections = locked(&self.all);
        let said: Vec<u8> = connections.iter().flat_map(|c| locked(&c.said).clone()).collect();
        let text = String::from_utf8_lossy(&said).into_owned();
        let methods = ["POST /", "HEAD /", "PATCH /", "GET /"];
        let starts = methods.iter().flat_map(|method| text.match_indices(method).map(|(at, _)| at));
        let mut starts: Vec<usize> = starts.collect();
        starts.sort_unstable();
        let head = |from: usize| text[from..].split("\r\n\r\n").next().unwrap_or_default().to_lowercase();
        starts.into_iter().map(head).filter(|head| head.contains(" http/1.1\r\n")).collect()
    }
}

fn carry(client: TcpStream, target: &str, state: &Arc<Mutex<State>>, all: &Arc<Mutex<Vec<Arc<Connection>>>>) {
    let Ok(server) = TcpStream::connect(target) else { return };
    client.set_nodelay(true).unwrap();
    server.set_nodelay(true).unwrap();
    let ends = [client.try_clone().unwrap(), server.try_clone().unwrap()];
    let connection = Arc::new(Connection { cut: AtomicBool::new(false), ends, said: Mutex::new(Vec::new()) });
    locked(all).push(Arc::clone(&connection));
    let begins = {
        let mut state = locked(state);
        state.open.push(Arc::clone(&connection));
        Instant::now() + ROUND_TRIP.div_f64(state.quality.better)
    };
    let (up, down) = (client.try_clone().unwrap(), server.try_clone().unwrap());
    for (from, to, way) in [(up, server, Way::Up), (down, client, Way::Down)] {
        let (state, connection) = (Arc::clone(state), Arc::clone(&connection));
        thread::spawn(move || send(from, to, way, begins, &state, &connection));
    }
}

/// One direction of one connection.
fn send(
    mut from: TcpStream,
    mut to: TcpStream,
    way: Way,
    begins: Instant,
    state: &Mutex<State>,
    connection: &Arc<Connection>,
) {
    let (under_way, arriving) = mpsc::channel::<(Instant, Vec<u8>)>();
    let arrival = Arc::clone(connection);
    let deliverer = thread::spawn(move || {
        for (at, bytes) in arriving {
            thread::sleep(at.saturating_duration_since(Instant::now()));
            if arrival.cut.load(Ordering::SeqCst) || to.write_all(&bytes).is_err() {
                return;
            }
        }
        let _ = to.shutdown(Shutdown::Write);
    });
    let mut piece = [0u8; PIECE];
    while let Ok(length @ 1..) = from.read(&mut piece) {
        let bytes = &piece[..length];
        if way == Way::Up {
            locked(&connection.said).extend_from_slice(bytes);
        }
        // On the line: nothing else goes this way meanwhile, and a lost piece goes again.
        let (gone, late) = {
            let mut state = locked(state);
            let quality = state.quality;
            let takes = Duration::from_secs_f64(length as f64 / (SPEED * quality.better));
            let (mut gone, mut late) =
                (state.free_at[way as usize].max(Instant::now()).max(begins), Duration::ZERO);
            loop {
                gone += takes;
                if state.dice.below(100) >= quality.loss {
                    break;
                }
                late += ROUND_TRIP.div_f64(quality.better);
                state.lost += 1;
            }
            state.free_at[way as usize] = gone;
            (gone, late + ROUND_TRIP.div_f64(2.0 * quality.better))
        };
        thread::sleep(gone.saturating_duration_since(Instant::now()));
        if connection.cut.load(Ordering::SeqCst) || under_way.send((gone + late, bytes.to_vec())).is_err() {
            break;
        }
        let mut state = locked(state);
        state.carried[way as usize] += length as u64;
        if due(&mut state, way, length as u64, connection) {
            state.cut();
        }
    }
    drop(under_way);
    let _ = deliverer.join();
}

/// Whether the line is cut now.
fn due(state: &mut State, way: Way, length: u64, connection: &Connection) -> bool {
    if let Some((cut, _)) = state.next.first().copied() {
        match cut {
            Cut::InAPhotograph(bytes) => {
                let said = locked(&connection.said);
                if said.windows(17).any(|window| window == b"PATCH /v1/photos/") {
                    state.next[0].0 = Cut::After(Way::Up, bytes);
                }
            }
            Cut::After(counted, bytes) if counted == way => {
                if bytes <= length {
                    return true;
                }
                state.next[0].0 = Cut::After(counted, bytes - length);
            }
            Cut::After(..) => {}
        }
    }
    let quality = state.quality;
    quality.cuts > 0 && state.dice.below(1000) < quality.cuts
}

impl State {
    /// Cuts every connection: what is under way arrives nowhere.
    fn cut(&mut self) {
        self.cuts += 1;
        if !self.next.is_empty() {
            self.reach = self.next.remove(0).1;
        }
        for connection in self.open.drain(..) {
            connection.cut.store(true, Ordering::SeqCst);
            for end in &connection.ends {
                let _ = end.shutdown(Shutdown::Both);
            }
        }
    }
}
