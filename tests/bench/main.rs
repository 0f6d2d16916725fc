//! Measures what the product costs beside what could stand in its place, in one run, as ratios.
//!
//! `./tests/run bench` prints the lines; `cargo bench -p farsiding-tests -- NAME…` only those parts. Absolute times
//! depend on the machine; the ratios are the point. It fails only where a promise in bytes is broken. The same
//! program is also the servers it measures: started with a command of `farsiding` it does that instead.
#![allow(clippy::unwrap_used, clippy::expect_used, missing_docs, reason = "a bench that fails should stop")]

mod load;
mod log;
mod meeting;
mod office;
mod proxy;
mod recording;
mod sizes;
mod table;
mod workload;

use std::path::Path;
use std::process::ExitCode;

use table::Table;

type Part = (&'static str, fn(&mut Table, &Path));

const PARTS: [Part; 10] = [
    ("append", recording::durable_append),
    ("fold", recording::open_and_fold),
    ("log", log::ledger_log),
    ("visits", meeting::two_hundred_visits),
    ("first", meeting::first_meeting),
    ("line", meeting::bad_line),
    ("rounds", load::rounds_a_second),
    ("memory", load::memory),
    ("module", |table, _| sizes::browser_module(table)),
    ("packet", sizes::packet),
];

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).filter(|a| a != "--bench").collect();
    match arguments.first().map(String::as_str) {
        Some("serve" | "enrol" | "export") => return farsiding_server::command::run(),
        Some(load::BARE_HANDLER) => {
            load::serve_bare_handler(&arguments[1]);
            return ExitCode::SUCCESS;
        }
        _ => {}
    }
    if let Some(unknown) = arguments.iter().find(|a| !PARTS.iter().any(|(name, _)| name == a)) {
        eprintln!("no part is called {unknown}: {}", PARTS.map(|(name, _)| name).join(", "));
        return ExitCode::from(2);
    }
    let folder = tempfile::tempdir().unwrap();
    let mut table = Table::default();
    println!("each line: ours, the rival in the same run, their ratio; load {}", load_average());
    for (name, part) in PARTS {
        if arguments.is_empty() || arguments.iter().any(|wanted| wanted == name) {
            part(&mut table, folder.path());
        }
    }
    println!("load at the end {}", load_average());
    for broken in table.broken() {
        println!("BROKEN {broken}");
    }
    if table.broken().is_empty() { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

fn load_average() -> String {
    let text = std::fs::read_to_string("/proc/loadavg").unwrap_or_else(|_| "unknown".into());
    text.split(' ').take(3).collect::<Vec<_>>().join(" ")
}
