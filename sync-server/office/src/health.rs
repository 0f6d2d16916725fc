//! The state of the server: whether its folder is writable, how much disk space is left, whether its keys are
//! in order, and whether its databases and the audit chain are intact.
//!
//! Quick checks run when somebody asks, but at most every few seconds, so that many requests from strangers
//! cost nothing. The full check (`check`) runs once a day and when an administrator asks for it.
//! `third_parties` reports on the witnesses and the time stamp authority. The state is served as `/healthz`
//! and on `pages::state`. Nothing is repaired here.

use std::fs::OpenOptions;
use std::io::{self, Write as _};
use std::path::Path;
use std::sync::Arc;
use std::time::{Duration, Instant};

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{DeviceKey, OrganisationKey, PublicKey};
use farsiding_core::{Arg, Message, message};
use rusqlite::{Connection, OpenFlags};

use super::backup_schedule::{self, Last};
use super::check::{self, CheckReport, Damage};
use super::data_folder::{DataFolder, PROBE};
use super::keys;
use super::state::findings::{Finding, ServerState};
use crate::state::Office;
use farsiding_host::private_file;

/// How long the results of the quick checks are reused.
const QUICK_IS_GOOD_FOR: Duration = Duration::from_secs(3);
/// How long the disk may take to answer before it counts as failing.
const PATIENCE: Duration = Duration::from_secs(5);
/// The time between the start and the first full check; later ones follow once a day.
const FIRST_READING: Duration = Duration::from_secs(10 * 60);
const READINGS: Duration = Duration::from_secs(24 * 60 * 60);
/// The disk space below which a warning is given, in bytes. A busy day of photographs needs more.
const LITTLE_ROOM: u64 = 512 * 1024 * 1024;
/// The disk space below which the server counts as unable to work, in bytes. Between the two it still takes
/// records, so that whoever asks `/healthz` where to send phones should go on sending them here.
const NO_ROOM: u64 = 64 * 1024 * 1024;

/// Returns the current state of the server.
pub async fn present(office: &Arc<Office>) -> ServerState {
    let mut last = office.health.last.lock().await; // concurrent callers share one answer
    if let Some((_, state)) = last.as_ref().filter(|(at, _)| at.elapsed() < QUICK_IS_GOOD_FOR) {
        return state.clone();
    }
    let (folder, key, now) = (office.folder.clone(), office.key.clone(), office.now());
    let quick = tokio::task::spawn_blocking(move || look(&folder, &key, now));
    office.clock_watch.look(office.now(), None);
    let quick = match tokio::time::timeout(PATIENCE, quick).await {
        Ok(Ok(mut found)) => {
            found.push(finding("clock", office.clock_watch.says()));
            let last = Last::read(&office.folder);
            let backups = backup_schedule::says(office.backups.as_ref(), &last, office.now());
            found.extend(backups.map(|says| finding("backup", says)));
            found
        }
        _ => vec![finding("folder", Err(message!("office-found-no-answer")))],
    };
    let mut before = last.take().map(|(_, state)| state).unwrap_or_default();
    if before.read_through.is_none() {
        before.read_through = check::last(&office.folder).map(|report| (report.began(), told(&report)));
    }
    let quick = quick.into_iter().chain(office.third_parties.findings()).collect();
    let state = ServerState { quick, ..before };
    *last = Some((Instant::now(), state.clone()));
    state
}

/// Runs the full check of every database and of the audit chain, and returns the state.
pub async fn read_through(office: &Arc<Office>) -> ServerState {
    let (folder, now, key) = (office.folder.clone(), office.now(), office.key.public());
    let stopping = office.stopping.clone();
    let reading = move || look_through(&folder, &key, now, &|| !*stopping.borrow());
    let found = tokio::task::spawn_blocking(reading).await;
    if let Ok(found) = found {
        let mut last = office.health.last.lock().await;
        let (_, state) = last.get_or_insert_with(|| (Instant::now(), ServerState::default()));
        state.read_through = Some((now, found));
    }
    present(office).await
}

/// Checks the state regularly and logs what is wrong, so that readers of the log know before a phone fails.
pub async fn watch(office: Arc<Office>) {
    let began = Instant::now();
    let mut next_reading = FIRST_READING;
    let mut told: Vec<Finding> = Vec::new();
    loop {
        let state = if began.elapsed() >= next_reading {
            next_reading = began.elapsed() + READINGS;
            read_through(&office).await
        } else {
            present(&office).await
        };
        let unwell: Vec<Finding> = state.all().filter(|finding| !finding.well).cloned().collect();
        for finding in unwell.iter().filter(|finding| !told.contains(finding)) {
            tracing::error!(what = finding.name, why = finding.words(), "the server is not well");
        }
        told = unwell;
        tokio::time::sleep(Duration::from_secs(60)).await;
    }
}

fn finding(name: &'static str, found: Result<Message, Message>) -> Finding {
    let well = found.is_ok();
    let (Ok(says) | Err(says)) = found;
    Finding { name, well, loud: true, says }
}

/// Runs the quick checks.
fn look(folder: &DataFolder, key: &OrganisationKey, now: UtcMillis) -> Vec<Finding> {
    let mut found = vec![
        finding("folder", write_probe(&folder.path().join(PROBE))),
        room(folder.path()),
        finding("organisation_key", same_key(folder, key)),
        finding("signing_key", signs(key, now)),
    ];
    if folder.desk_key_file().exists() {
        let read = private_file::read_secret(&folder.desk_key_file());
        let key = |secret| Arg::typed(DeviceKey::from_secret(secret).public().short());
        let read = read.map(|secret| message!("office-found-desk-key", key = key(secret)));
        let read = read.map_err(|e| message!("office-found-desk-key-unusable", why = failure(&e)));
        found.push(finding("desk_key", read));
    }
    found
}

/// Returns what a failing part of the system says, which has no words of ours.
fn failure(error: &dyn std::fmt::Display) -> Arg {
    Arg::typed(error.to_string())
}

/// Writes a file, flushes it to the disk and removes it.
fn write_probe(path: &Path) -> Result<Message, Message> {
    let write = || {
        let mut options = OpenOptions::new();
        options.write(true).create(true).truncate(true);
        #[cfg(unix)]
        {
            use std::os::unix::fs::OpenOptionsExt as _;
            options.mode(0o600);
        }
        let mut file = options.open(path)?;
        file.write_all(&[b'\n'; 4096])?;
        file.sync_all()?;
        std::fs::remove_file(path)
    };
    write().map(|()| message!("office-found-writable")).map_err(|error: io::Error| match error.kind() {
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => message!("office-found-disk-full"),
        _ => message!("office-found-not-writable", why = failure(&error)),
    })
}

#[cfg(unix)]
fn room(path: &Path) -> Finding {
    match rustix::fs::statvfs(path) {
        Ok(seen) => room_finding(seen.f_bavail.saturating_mul(seen.f_frsize)),
        Err(error) => finding("room", Err(message!("office-found-room-unknown", why = failure(&error)))),
    }
}

#[cfg(not(unix))]
fn room(_path: &Path) -> Finding {
    finding("room", Ok(message!("office-found-room-unmeasured")))
}

fn room_finding(free: u64) -> Finding {
    let (gigabytes, megabytes) = (free / 1_000_000_000, free / 1_000_000);
    let room = Arg::typed(match gigabytes {
        10.. => format!("{gigabytes} GB"),
        _ => format!("{megabytes} MB"),
    });
    let found = match free {
        LITTLE_ROOM.. => Ok(message!("office-found-room", room = room)),
        _ => Err(message!("office-found-little-room", room = room)),
    };
    Finding { loud: free < NO_ROOM, ..finding("room", found) }
}

fn same_key(folder: &DataFolder, key: &OrganisationKey) -> Result<Message, Message> {
    let found = folder.organisation_key_here();
    let found = found.map_err(|e| message!("office-found-key-unusable", why = failure(&e)))?;
    if (found.public(), found.signer()) != (key.public(), key.signer()) {
        return Err(message!("office-found-other-key"));
    }
    Ok(message!("office-found-key", key = Arg::typed(found.public().fingerprint())))
}

/// Returns whether the key may still sign, and for how long.
fn signs(key: &OrganisationKey, now: UtcMillis) -> Result<Message, Message> {
    let says = keys::may_sign_says(key, now)?;
    match keys::ends_soon(key, now) {
        Some(until) => Err(message!("office-found-key-ends-soon", until = Arg::typed(until.rfc3339()))),
        None => Ok(says),
    }
}

/// Runs the full check and stores the result.
fn look_through(
    folder: &DataFolder,
    key: &PublicKey,
    now: UtcMillis,
    go_on: &dyn Fn() -> bool,
) -> Vec<Finding> {
    let index = finding("index", whole(&folder.index_file(), &message!("office-found-index-advice")));
    match check::check(folder, key, now, &mut |_, _, _| go_on()) {
        Ok(report) => {
            check::keep(folder, &report);
            let mut found = told(&report);
            found.push(index);
            found
        }
        Err(error) => {
            let failed = message!("office-found-check-failed", why = failure(&error));
            vec![finding("ledger", Err(failed)), index]
        }
    }
}

/// Returns the findings of the full check, one for each part.
fn told(report: &CheckReport) -> Vec<Finding> {
    let part = |parts: &[&str], database: &str, whole: Message| {
        let ours = |damage: &&Damage| match damage.part.as_str() {
            "database" => damage.row == database,
            part => parts.contains(&part),
        };
        let damaged: Vec<&Damage> = report.damage.iter().filter(ours).collect();
        let Some(first) = damaged.first() else { return Ok(whole) };
        Err(message!(
            "office-found-damaged-rows",
            count = damaged.len(),
            part = Arg::typed(&first.part),
            row = Arg::typed(&first.row),
            why = Arg::typed(&first.why),
            advice = message!("office-found-check-advice"),
        ))
    };
    let records = message!(
        "office-found-records",
        entries = report.entries,
        changes = report.changes,
        receipts = report.receipts,
        certificates = report.certificates,
    );
    let log = message!("office-found-leaves", leaves = report.leaves);
    let photographs =
        message!("office-found-photographs", count = report.photographs, bytes = report.photograph_bytes);
    let audit = message!("office-found-audit", rows = report.audit_rows);
    let of_ledger = ["entry", "change", "receipt", "certificate"];
    vec![
        finding("ledger", part(&of_ledger, "ledger.db", records)),
        finding("log", part(&["log"], "", log)),
        finding("photographs", part(&["photograph"], "", photographs)),
        finding("register", part(&[], "server.db", message!("office-found-whole"))),
        finding("audit", part(&["audit"], "", audit)),
    ]
}

fn read_only(file: &Path) -> rusqlite::Result<Connection> {
    let connection = Connection::open_with_flags(file, OpenFlags::SQLITE_OPEN_READ_ONLY)?;
    connection.busy_timeout(Duration::from_secs(10))?;
    Ok(connection)
}

fn whole(file: &Path, advice: &Message) -> Result<Message, Message> {
    let checked = read_only(file).and_then(|connection| {
        connection.query_row("PRAGMA quick_check(1)", [], |row| row.get::<_, String>(0))
    });
    match checked.as_deref() {
        Ok("ok") => Ok(message!("office-found-whole")),
        Ok(damage) => {
            Err(message!("office-found-damaged", why = Arg::typed(damage), advice = advice.clone()))
        }
        Err(error) => Err(message!("office-found-unreadable", why = failure(error), advice = advice.clone())),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use farsiding_words::english;

    fn wrong(found: Result<Message, Message>) -> String {
        english(&found.unwrap_err())
    }

    #[test]
    fn a_full_disk_is_told_from_a_folder_that_cannot_be_written_to() {
        let folder = tempfile::tempdir().unwrap();
        let probe = folder.path().join(PROBE);
        assert!(write_probe(&probe).is_ok());
        assert!(!probe.exists(), "nothing is left behind");
        #[cfg(target_os = "linux")]
        {
            std::os::unix::fs::symlink("/dev/full", &probe).unwrap();
            assert!(wrong(write_probe(&probe)).contains("disk is full"));
            std::fs::remove_file(&probe).unwrap();
        }
        std::fs::create_dir(&probe).unwrap();
        assert!(wrong(write_probe(&probe)).contains("cannot be written to"));
        assert!(write_probe(Path::new("/nowhere/at/all")).is_err());
    }

    #[test]
    fn little_room_is_a_warning_and_no_room_a_failure() {
        let told = |free| {
            let found = room_finding(free);
            let state = ServerState { quick: vec![found.clone()], ..ServerState::default() };
            (found.words(), state.is_well(), state.serves())
        };
        assert_eq!(told(42_000_000_000), ("42 GB free.".to_owned(), true, true));
        assert_eq!(told(LITTLE_ROOM), ("536 MB free.".to_owned(), true, true));
        for (free, serves) in [(LITTLE_ROOM - 1, true), (NO_ROOM, true), (NO_ROOM - 1, false), (0, false)] {
            let (words, well, still_serves) = told(free);
            assert!(words.contains("Free some space"), "{words}");
            assert_eq!((well, still_serves), (false, serves), "{free}");
        }
    }

    #[test]
    fn a_damaged_database_is_seen_by_reading_it_through() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("ledger.db");
        let made = Connection::open(&file).unwrap();
        made.execute_batch(
            "CREATE TABLE t(a); INSERT INTO t SELECT randomblob(3000) FROM generate_series(1, 50)",
        )
        .unwrap_or_else(|_| {
            made.execute_batch("CREATE TABLE IF NOT EXISTS t(a)").unwrap();
            for _ in 0..50 {
                made.execute("INSERT INTO t VALUES(randomblob(3000))", []).unwrap();
            }
        });
        drop(made);
        let advice = Message::typed("Do this.");
        assert!(whole(&file, &advice).is_ok());
        let mut bytes = std::fs::read(&file).unwrap();
        let at = bytes.len() / 2 / 4096 * 4096;
        bytes[at..at + 4096].fill(0xa5);
        std::fs::write(&file, &bytes).unwrap();
        assert!(wrong(whole(&file, &advice)).starts_with("Damaged: "));
        std::fs::write(&file, b"not a database at all, but long enough to be looked at as one").unwrap();
        assert!(wrong(whole(&file, &advice)).ends_with("Do this."));
    }
}
