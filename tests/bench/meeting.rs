//! What meeting the office costs on the line: bytes and round trips, ours and the rivals' on the same entries
//! through the same proxy; and time on a bad line beside the line's own limit.

use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use base64::Engine as _;
use farsiding_core::book::Book;
use farsiding_core::entry::DeviceKey;
use farsiding_core::ids::{Subject, VisitId};
use farsiding_core::procedure::Procedures;
use farsiding_core::store::{Durability, SqliteStore};

use super::office::{Caller, Office, Os, meet};
use super::proxy::{Count, Line, Proxy};
use super::table::{Aim, Figure, Table};
use super::workload::{one_more, visit};

const VISITS: u32 = 200;
const ENTRIES: u32 = 6;
/// Bytes of bodies, both ways, that a round with nothing new may cost.
const IDLE_MOST: u64 = 300;
/// Bytes of bodies, both ways, that one new entry may cost.
const ONE_MOST: u64 = 900;

/// What each phase cost.
struct Cost {
    name: &'static str,
    first: Count,
    idle: Count,
    one: Count,
}

/// 200 visits: the first meeting, one with nothing new, one with one new entry.
pub fn two_hundred_visits(table: &mut Table, folder: &Path) {
    let office = Office::start(&folder.join("office-200"));
    let proxy = Proxy::before(office.process.port, None);
    let store = SqliteStore::open(folder.join("phone-200.db").to_str().unwrap(), Durability::WriteAheadLog);
    let mut book = office.enrol(Box::new(store.unwrap()), DeviceKey::random(&mut Os), "phone");
    let procedures = Procedures::built_in().unwrap();
    let visits: Vec<VisitId> =
        (0..VISITS).map(|n| visit(&mut book, &procedures, 1000 + n, ENTRIES, 1)).collect();
    let phase = |book: &mut Book| {
        proxy.begin();
        meet(book, &mut Caller::to(proxy.port));
        proxy.count()
    };
    let first = phase(&mut book);
    let idle = phase(&mut book);
    one_more(&mut book, visits[3]);
    let one = phase(&mut book);
    let ours = Cost { name: "ours", first, idle, one };
    let workload = write_workload(folder, &book, &visits);
    let bytes = |n: u64| Figure::Bytes(n.max(1));
    let rivals: Vec<Cost> = match install_rivals() {
        Ok(home) => RIVALS.iter().map(|(name, script)| run_rival(&home, name, script, &workload)).collect(),
        Err(why) => {
            table.skipped("sync beside PouchDB, Yjs, Automerge", &why);
            Vec::new()
        }
    };
    for rival in &rivals {
        let row = |what: &str, ours: u64, theirs: u64, table: &mut Table| {
            table.row(what, bytes(ours), rival.name, bytes(theirs), Aim::Shown);
        };
        row("200 visits, nothing new: bodies", ours.idle.bodies, rival.idle.bodies, table);
        row("200 visits, one new entry: bodies", ours.one.bodies, rival.one.bodies, table);
        row("200 visits, all new: bodies", ours.first.bodies, rival.first.bodies, table);
    }
    for cost in std::iter::once(&ours).chain(&rivals) {
        let shown = |c: Count| format!("{}+{} B, {} round trips", c.bodies, c.heads, c.turns);
        table.note(&format!(
            "{}: nothing new {}; one entry {}; all {} (bodies+heads)",
            cost.name,
            shown(cost.idle),
            shown(cost.one),
            shown(cost.first)
        ));
    }
    table.limit("200 visits, nothing new: bytes of bodies", ours.idle.bodies, IDLE_MOST);
    table.limit("200 visits, nothing new: requests", ours.idle.turns, 1);
    table.limit("200 visits, one new entry: bytes of bodies", ours.one.bodies, ONE_MOST);
}

/// Ten cars with 120 entries each: the first meeting's bytes beside the same changes compressed, and nothing
/// else; then what a second phone pays to get them.
pub fn first_meeting(table: &mut Table, folder: &Path) {
    let office = Office::start(&folder.join("office-10"));
    let proxy = Proxy::before(office.process.port, None);
    let store = SqliteStore::open(folder.join("phone-10.db").to_str().unwrap(), Durability::WriteAheadLog);
    let mut book = office.enrol(Box::new(store.unwrap()), DeviceKey::random(&mut Os), "phone");
    let procedures = Procedures::built_in().unwrap();
    for n in 0..10 {
        visit(&mut book, &procedures, 2000 + n, 120, 1);
    }
    let changes = changes_of(&book);
    let alone = deflated(&changes);
    let limit = |count: Count, what: &str, table: &mut Table| {
        let (ours, theirs) = (Figure::Bytes(count.bodies), Figure::Bytes(alone));
        table.row(what, ours, "the compressed changes alone", theirs, Aim::Promised(1.3));
        table.note(&format!("{} B of heads, {} round trips", count.heads, count.turns));
    };
    proxy.begin();
    meet(&mut book, &mut Caller::to(proxy.port));
    limit(proxy.count(), "first sync, 10 cars x 120 entries, giving", table);
    let mut other = office.phone("another phone");
    proxy.begin();
    meet(&mut other, &mut Caller::to(proxy.port));
    limit(proxy.count(), "first sync, 10 cars x 120 entries, getting", table);
    assert_eq!(other.store().tally().unwrap(), book.store().tally().unwrap());
}

/// One car's day over 9.6 kbit/s with two seconds there and back, beside the time the same bytes take on that
/// line when nothing ever waits.
pub fn bad_line(table: &mut Table, folder: &Path) {
    let line = Line { bytes_per_second: 1200.0, one_way: Duration::from_secs(1) };
    let office = Office::start(&folder.join("office-line"));
    let proxy = Proxy::before(office.process.port, Some(line));
    let mut book = office.phone("phone");
    visit(&mut book, &Procedures::built_in().unwrap(), 3000, 120, 1);
    let own_limit = line.one_way * 2 + Duration::from_secs_f64(deflated(&changes_of(&book)) as f64 / 1200.0);
    let start = Instant::now();
    meet(&mut book, &mut Caller::to(proxy.port));
    let ours = start.elapsed();
    let what = "120 entries over 9.6 kbit/s, 2 s there and back";
    let rival = "the compressed changes at the line's speed";
    table.row(what, Figure::Time(ours), rival, Figure::Time(own_limit), Aim::AtMost(1.2));
}

fn changes_of(book: &Book) -> Vec<u8> {
    let changes = book.store().changes_not_held(usize::MAX).unwrap();
    changes.into_iter().flat_map(|change| change.bytes).collect()
}

/// Length after the same compression a round's bulk gets.
fn deflated(bytes: &[u8]) -> u64 {
    let mut out = Vec::new();
    let level = flate2::Compression::new(6);
    flate2::read::DeflateEncoder::new(bytes, level).read_to_end(&mut out).unwrap();
    out.len() as u64
}

const RIVALS: [(&str, &str); 3] = [
    ("PouchDB and express-pouchdb", "pouchdb.mjs"),
    ("Yjs by y-protocols, one WebSocket", "yjs.mjs"),
    ("bare Automerge sync, one WebSocket", "automerge.mjs"),
];

/// The rivals' folder, with their libraries in it.
fn install_rivals() -> Result<PathBuf, String> {
    let home = Path::new(env!("CARGO_MANIFEST_DIR")).join("bench/rivals");
    if !home.join("node_modules").exists() {
        let npm = Command::new("npm")
            .args(["ci", "--ignore-scripts", "--no-audit", "--no-fund", "--silent"])
            .current_dir(&home)
            .output()
            .map_err(|e| format!("npm cannot be run ({e})"))?;
        if !npm.status.success() {
            return Err(format!("npm ci failed: {}", String::from_utf8_lossy(&npm.stderr).trim()));
        }
    }
    Ok(home)
}

fn write_workload(folder: &Path, book: &Book, visits: &[VisitId]) -> PathBuf {
    let encode = |bytes: &[u8]| base64::engine::general_purpose::STANDARD.encode(bytes);
    let mut later = serde_json::Value::Null;
    let listed: Vec<serde_json::Value> = visits
        .iter()
        .map(|visit| {
            let mut rows = book.store().entries_of(Subject::Visit(*visit)).unwrap().rows;
            if rows.len() > ENTRIES as usize {
                let row = rows.pop().unwrap();
                later = serde_json::json!({ "visit": visit, "id": row.id, "bytes": encode(&row.bytes) });
            }
            let entries: Vec<_> = rows
                .iter()
                .map(|row| serde_json::json!({ "id": row.id, "bytes": encode(&row.bytes) }))
                .collect();
            serde_json::json!({ "id": visit, "entries": entries })
        })
        .collect();
    let file = folder.join("workload.json");
    let text = serde_json::json!({ "visits": listed, "one": later }).to_string();
    std::fs::write(&file, text).unwrap();
    file
}

/// Lets one rival do the phases through a proxy of the same kind (`rivals/told.mjs` has the other side).
fn run_rival(home: &Path, name: &'static str, script: &str, workload: &Path) -> Cost {
    let mut child = Command::new("node")
        .arg(home.join(script))
        .arg(workload)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut tell = child.stdin.take().unwrap();
    let (mut proxy, mut counts) = (None, Vec::new());
    for line in BufReader::new(child.stdout.take().unwrap()).lines() {
        let line = line.unwrap();
        if let Some(port) = line.strip_prefix("listening ") {
            let before = proxy.insert(Proxy::before(port.parse().unwrap(), None));
            writeln!(tell, "proxy {}", before.port).unwrap();
        } else if line.starts_with("ready ") {
            proxy.as_ref().unwrap().begin();
            writeln!(tell, "go").unwrap();
        } else if line.starts_with("done ") {
            counts.push(proxy.as_ref().unwrap().count());
        }
    }
    assert!(child.wait().unwrap().success(), "{script} failed");
    let [first, idle, one] = counts.try_into().expect("three phases");
    Cost { name, first, idle, one }
}
