//! What the server bears: rounds a second beside the least an HTTP handler with a durable insert could do, and
//! memory with ten thousand visits.

use std::path::Path;
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

use axum::extract::State;
use axum::routing::post;
use farsiding_core::book::{Book, Draft};
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::DeviceKey;
use farsiding_core::ids::{Subject, VisitId};
use farsiding_core::procedure::Procedures;
use farsiding_core::store::MemoryStore;
use farsiding_core::sync::wire::{self, Change, Cursor, ReplyBulk, ReplyHead, RequestBulk, RequestHead};

use super::office::{Caller, Office, Os, Process, book_at, meet, this_program};
use super::table::{Aim, Figure, Table, middle, timed};
use super::workload::{operator, reading, visit};

/// The argument that makes this program the bare handler.
pub const BARE_HANDLER: &str = "bare-handler";

/// How many clients ask at once, and how many rounds each of them has in one batch. One address may send
/// three thousand requests without a pause, so that all batches of a line together stay below that.
const CLIENTS: [(usize, usize); 4] = [(1, 200), (4, 150), (16, 50), (64, 12)];
const TIMES: usize = 3;

/// An axum handler that writes the body into one table, `synchronous=FULL`, and answers as many bytes as a
/// receipt has: what a server that keeps anything at all cannot do without.
pub fn serve_bare_handler(file: &str) {
    let connection = rusqlite::Connection::open(file).unwrap();
    connection.pragma_update(None, "journal_mode", "WAL").unwrap();
    connection.pragma_update(None, "synchronous", "FULL").unwrap();
    connection.execute_batch("CREATE TABLE IF NOT EXISTS t(id INTEGER PRIMARY KEY, bytes BLOB)").unwrap();
    let shared = Arc::new(Mutex::new(connection));
    let routes = axum::Router::new()
        .route(
            "/v1/sync",
            post(
                |State(shared): State<Arc<Mutex<rusqlite::Connection>>>, body: axum::body::Bytes| async move {
                    let insert = move || {
                        let connection = shared.lock().unwrap();
                        let mut statement =
                            connection.prepare_cached("INSERT INTO t(bytes) VALUES(?1)").unwrap();
                        statement.execute([body.as_ref()]).unwrap();
                    };
                    tokio::task::spawn_blocking(insert).await.unwrap();
                    vec![0u8; 200]
                },
            ),
        )
        .with_state(shared);
    tokio::runtime::Runtime::new().unwrap().block_on(async {
        let listener = tokio::net::TcpListener::bind("127.0.0.1:0").await.unwrap();
        println!("listening on http://{}", listener.local_addr().unwrap());
        axum::serve(listener, routes).await.unwrap();
    });
}

/// Rounds with one new entry each, made beforehand, from one to 64 clients at once.
pub fn rounds_a_second(table: &mut Table, folder: &Path) {
    let synced = fsync_time(folder);
    table.note(&format!("this disk makes 4 kB durable in {synced:.2?} (median of 200)"));
    for (clients, rounds) in CLIENTS {
        let office = Office::start(&folder.join(format!("office-load-{clients}")));
        let mut batches = made_beforehand(&office, clients, rounds);
        let mut command = this_program(&[BARE_HANDLER]);
        command.arg(folder.join(format!("bare-handler-{clients}.db")));
        let bare = Process::start(command);
        let (mut ours, mut theirs) = (Vec::new(), Vec::new());
        while let Some(batch) = batches.pop() {
            theirs.push(time_of(bare.port, &batch));
            ours.push(time_of(office.process.port, &batch));
        }
        let rate = |times| Figure::Rate((clients * rounds) as f64 / middle(times).as_secs_f64());
        let (ours, theirs) = (rate(ours), rate(theirs));
        let rival = "bare axum, one insert, synchronous=FULL";
        let aim = match clients {
            4 => Aim::AtLeast(0.5),
            16.. if synced >= Duration::from_millis(1) => Aim::AtLeast(1.0),
            _ => Aim::Shown,
        };
        table.row(&format!("server: rounds with one entry, clients {clients}"), ours, rival, theirs, aim);
    }
}

/// How long this disk takes to make an appended page durable.
fn fsync_time(folder: &Path) -> Duration {
    use std::io::Write as _;
    let mut file = std::fs::File::create(folder.join("fsync")).unwrap();
    let page = [7u8; 4096];
    let once = |_| {
        file.write_all(&page).unwrap();
        timed(|| file.sync_data().unwrap())
    };
    middle((0..200).map(once).collect())
}

/// Batches of requests, per client; a client's rounds must be sent in order.
fn made_beforehand(office: &Office, clients: usize, rounds: usize) -> Vec<Vec<Vec<Vec<u8>>>> {
    let mut made = vec![vec![Vec::new(); clients]; TIMES];
    let mut phones: Vec<(DeviceKey, Book)> = (0..clients)
        .map(|phone| {
            let key = DeviceKey::random(&mut Os);
            let again = DeviceKey::from_secret(key.secret());
            (key, office.enrol(Box::new(MemoryStore::new()), again, &format!("phone {phone}")))
        })
        .collect();
    // Rounds as they are once a phone knows the ledger and the others' certificates.
    let (epoch, certificates) = ledger_as_known(office, &mut phones[0].1);
    for (phone, (key, mut book)) in phones.into_iter().enumerate() {
        let subject = Subject::Visit(VisitId([phone as u8 + 1; 16]));
        let mut number = 100;
        // Requests are taken from the end, batch by batch.
        for batch in made.iter_mut().rev() {
            for _ in 0..rounds {
                number += 1;
                book.append(subject, vec![Draft::of(reading(number))], &operator()).unwrap();
                let bytes = book.store().changes_of(subject).unwrap().rows.pop().unwrap().bytes;
                // Read to the end: what the other phones bring meanwhile is not asked for.
                let cursor = Some(Cursor { epoch, position: u64::MAX >> 1 });
                let (at, number) = (UtcMillis(1_800_000_000_000), u64::from(number));
                let head = RequestHead { number, cursor, certificates, at, bulk: None, statement: None };
                let changes = vec![Change { subject, bytes }];
                let bulk = RequestBulk { changes, ..RequestBulk::default() };
                batch[phone].push(wire::seal_request(head, &bulk, &key).unwrap());
            }
        }
    }
    made
}

/// The ledger's name and the version of its certificate list, as a first reply tells them.
fn ledger_as_known(office: &Office, book: &mut Book) -> (u64, u64) {
    let mut session = book.sync_session().unwrap();
    let request = book.sync_request(&mut session).unwrap();
    let reply = Caller::to(office.process.port).post("/v1/sync", "application/cbor", &request);
    let parts = wire::parts(&reply).unwrap();
    let head = ReplyHead::open(&parts.head, &book.organisation_key().unwrap().unwrap()).unwrap();
    let bulk: ReplyBulk = wire::open_bulk(&parts, head.bulk, wire::LARGEST_BULK).unwrap();
    (head.cursor.epoch, bulk.certificates.unwrap().version)
}

fn time_of(port: u16, batch: &[Vec<Vec<u8>>]) -> Duration {
    let start = Instant::now();
    std::thread::scope(|threads| {
        for requests in batch {
            threads.spawn(move || {
                let mut caller = Caller::to(port);
                for request in requests {
                    caller.post("/v1/sync", "application/cbor", request);
                }
            });
        }
    });
    start.elapsed()
}

/// The server's memory with 10 000 visits of 12 entries, beside the same server with none; and what a phone
/// pays to ask whether there is anything new.
pub fn memory(table: &mut Table, folder: &Path) {
    const VISITS: u32 = 10_000;
    let empty = Office::start(&folder.join("office-empty"));
    let data = folder.join("office-full");
    let ledger = Office::start(&data).ledger_file(); // makes the folder and ends
    let procedures = Procedures::built_in().unwrap();
    let mut book = book_at(&ledger);
    for n in 0..VISITS {
        if n % 200 == 0 {
            book = book_at(&ledger); // a book remembers the documents it wrote
        }
        visit(&mut book, &procedures, 10_000 + n, 12, 11);
    }
    drop(book);
    let full = Office::start(&data);
    let started = full.process.memory("VmRSS");
    let mut phone = full.phone("phone");
    let took = timed(|| {
        meet(&mut phone, &mut Caller::to(full.process.port));
    });
    let entries = phone.store().tally().unwrap().count;
    let mut caller = Caller::to(full.process.port);
    let idle = middle(
        (0..20)
            .map(|_| {
                timed(|| {
                    meet(&mut phone, &mut caller);
                })
            })
            .collect(),
    );
    let (ours, theirs) =
        (Figure::Bytes(full.process.memory("VmHWM")), Figure::Bytes(empty.process.memory("VmHWM")));
    table.row("server memory, 10 000 visits, most ever", ours, "the same with no visit", theirs, Aim::Shown);
    table.note(&format!(
        "{} kB when started, {} kB now; one phone got all {entries} entries in {took:.1?}; nothing new: {idle:.2?}",
        started / 1024,
        full.process.memory("VmRSS") / 1024,
    ));
}
