//! How many entries a second a ledger in PostgreSQL takes: with 1, 4 and 16 clients, each with an organisation of its
//! own or all with the same, one entry a batch or sixteen, beside the time the disk takes to make a small write
//! durable. `cargo bench -p farsiding-postgres`; it starts a server of its own.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    missing_docs,
    reason = "a bench that fails should stop"
)]

use std::io::Write as _;
use std::time::{Duration, Instant};

use farsiding_core::clock::UtcMillis;
use farsiding_core::document::CheckedChange;
use farsiding_core::ids::OrganisationId;
use farsiding_core::store::contract::{VISIT, brought, signed};
use farsiding_core::store::{Batch, Ledger, Outcome, Round};
use farsiding_postgres::{PostgresStore, address_of};
use farsiding_testkit::postgres::Postgres;

/// How long each line measures.
const SPAN: Duration = Duration::from_secs(3);
/// The changes of each client, made before the clock runs.
const MADE: u64 = 3000;
/// Returns how many entries a client wrote, and how often it was overtaken.
fn write(
    address: &str,
    organisation: OrganisationId,
    changes: &[CheckedChange],
    together: usize,
) -> (usize, u64) {
    let mut store = PostgresStore::open(address_of(address).unwrap(), organisation).unwrap();
    let counter = format!("round/{}", changes[0].hash());
    let (began, mut written, mut overtaken) = (Instant::now(), 0, 0);
    for (number, some) in (1u64..).zip(changes.chunks(together)) {
        loop {
            let changes = some.iter().map(|change| (VISIT, change)).collect();
            let round =
                Round { counter: &counter, number, changes, received_at: UtcMillis(1), beside: Vec::new() };
            let batch = Batch { decided: store.moment().unwrap(), rounds: vec![round], beside: Vec::new() };
            match store.apply(&batch, &mut signed).unwrap() {
                Outcome::Applied(_) => break,
                Outcome::Overtaken => overtaken += 1,
            }
        }
        written += some.len();
        if began.elapsed() > SPAN {
            break;
        }
    }
    (written, overtaken)
}

fn fsync_time() -> Duration {
    let folder = std::env::temp_dir().join(format!("farsiding-fsync-{}", std::process::id()));
    let mut file = std::fs::File::create(&folder).unwrap();
    let began = Instant::now();
    for _ in 0..50 {
        file.write_all(&[0; 512]).unwrap();
        file.sync_data().unwrap();
    }
    std::fs::remove_file(folder).unwrap();
    began.elapsed() / 50
}

fn main() {
    if std::env::args().any(|argument| argument == "--test") {
        return;
    }
    let address = Postgres::shared().database("bench");
    println!("the disk makes 512 bytes durable in {:.2} ms", fsync_time().as_secs_f64() * 1000.0);
    let changes: Vec<Vec<CheckedChange>> =
        (0..16).map(|client| (1..=MADE).map(|n| brought(client * MADE + n)).collect()).collect();
    let mut organisation = 0u8;
    for (together, alone) in [(1, true), (16, true), (16, false)] {
        for clients in [1, 4, 16] {
            let began = Instant::now();
            let done: Vec<(usize, u64)> = std::thread::scope(|threads| {
                organisation += 1;
                let writing: Vec<_> = changes[..clients]
                    .iter()
                    .map(|changes| {
                        organisation += u8::from(alone);
                        let (address, whose) = (&address, OrganisationId([organisation; 16]));
                        threads.spawn(move || write(address, whose, changes, together))
                    })
                    .collect();
                writing.into_iter().map(|client| client.join().unwrap()).collect()
            });
            let seconds = began.elapsed().as_secs_f64();
            let entries: usize = done.iter().map(|(written, _)| written).sum();
            let overtaken: u64 = done.iter().map(|(_, overtaken)| overtaken).sum();
            let whose = if alone { "an organisation each" } else { "one organisation" };
            println!(
                "{clients:>2} clients, {whose}, {together:>2} entries a batch: {:>7.0} entries/s, overtaken {overtaken} times",
                entries as f64 / seconds
            );
        }
    }
}
