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
            found.push(finding("clock", "This machine's clock", office.clock_watch.words()));
            let last = Last::read(&office.folder);
            let backups = backup_schedule::words(office.backups.as_ref(), &last, office.now());
            found.extend(backups.map(|words| finding("backup", "Backups", words)));
            found
        }
        _ => vec![finding("folder", "Data folder", Err("Its disk does not answer.".to_owned()))],
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
            tracing::error!(what = finding.name, why = finding.words, "the server is not well");
        }
        told = unwell;
        tokio::time::sleep(Duration::from_secs(60)).await;
    }
}

fn finding(name: &'static str, title: &'static str, found: Result<String, String>) -> Finding {
    let well = found.is_ok();
    let (Ok(words) | Err(words)) = found;
    Finding { name, title, well, loud: true, words }
}

/// Runs the quick checks.
fn look(folder: &DataFolder, key: &OrganisationKey, now: UtcMillis) -> Vec<Finding> {
    let mut found = vec![
        finding("folder", "Data folder", write_probe(&folder.path().join(PROBE))),
        finding("room", "Room on its disk", room(folder.path())),
        finding("organisation_key", "Organisation's key", same_key(folder, key)),
        finding("signing_key", "The key that signs", signs(key, now)),
    ];
    if folder.desk_key_file().exists() {
        let read = private_file::read_secret(&folder.desk_key_file());
        let read = read.map(|secret| {
            format!("It is the key of desk {}.", DeviceKey::from_secret(secret).public().short())
        });
        found.push(finding(
            "desk_key",
            "Office desk's key",
            read.map_err(|e| format!("desk.key cannot be used: {e}.")),
        ));
    }
    found
}

/// Writes a file, flushes it to the disk and removes it.
fn write_probe(path: &Path) -> Result<String, String> {
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
    write().map(|()| "It can be written to.".to_owned()).map_err(|error: io::Error| match error.kind() {
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => {
            "Its disk is full: nothing phones send can be taken in. Make room; phones keep what they have until then.".to_owned()
        }
        _ => format!(
            "It cannot be written to: {error}. Nothing phones send can be taken in. Look at the folder's owner and at \
             whether its disk is mounted for reading only."
        ),
    })
}

#[cfg(unix)]
fn room(path: &Path) -> Result<String, String> {
    let seen = rustix::fs::statvfs(path).map_err(|e| format!("It cannot be told: {e}."))?;
    room_words(seen.f_bavail.saturating_mul(seen.f_frsize))
}

#[cfg(not(unix))]
fn room(_path: &Path) -> Result<String, String> {
    Ok("It is not measured on this system.".to_owned())
}

fn room_words(free: u64) -> Result<String, String> {
    let (gigabytes, megabytes) = (free / 1_000_000_000, free / 1_000_000);
    let words =
        if gigabytes >= 10 { format!("{gigabytes} GB are free") } else { format!("{megabytes} MB are free") };
    if free < LITTLE_ROOM {
        return Err(format!("{words}: a day's photographs may not fit. Make room."));
    }
    Ok(format!("{words}."))
}

fn same_key(folder: &DataFolder, key: &OrganisationKey) -> Result<String, String> {
    let found = folder.organisation_key_here()
        .map_err(|e| format!("organisation.key cannot be used: {e}. The server runs on until it is stopped, and will not start again."))?;
    if (found.public(), found.signer()) != (key.public(), key.signer()) {
        return Err("organisation.key is another key than the one this server started with: put the right one back from its safe copy.".to_owned());
    }
    Ok(format!("It is the key {} …", found.public().fingerprint()))
}

/// Returns whether the key may still sign, and for how long.
fn signs(key: &OrganisationKey, now: UtcMillis) -> Result<String, String> {
    let words = keys::may_sign(key, now)?;
    match keys::ends_soon(key, now) {
        Some(until) => Err(format!(
            "The signing key ends at {}, and phones are answered by it until then. Name the next one with the root: \
             farsiding key renew, or key request, sign and take.",
            until.rfc3339()
        )),
        None => Ok(words),
    }
}

/// Runs the full check and stores the result.
fn look_through(
    folder: &DataFolder,
    key: &PublicKey,
    now: UtcMillis,
    go_on: &dyn Fn() -> bool,
) -> Vec<Finding> {
    let derived = "It is derived: stop the server, remove index.db, start again.";
    let index = finding("index", "Index of stays (index.db)", whole(&folder.index_file(), derived));
    match check::check(folder, key, now, &mut |_, _, _| go_on()) {
        Ok(report) => {
            check::keep(folder, &report);
            let mut found = told(&report);
            found.push(index);
            found
        }
        Err(error) => vec![finding("ledger", "Records (ledger.db)", Err(error.to_string())), index],
    }
}

/// Returns the findings of the full check, one for each part.
fn told(report: &CheckReport) -> Vec<Finding> {
    let again = "Run farsiding check --data on this folder: it names every row, and with --mend puts entries right. Else \
                 keep the folder as it is and restore the newest backup into a new one; phones bring back what it lacks.";
    let part = |parts: &[&str], database: &str, whole: String| {
        let ours = |damage: &&Damage| match damage.part.as_str() {
            "database" => damage.row == database,
            part => parts.contains(&part),
        };
        let damaged: Vec<&Damage> = report.damage.iter().filter(ours).collect();
        let Some(first) = damaged.first() else { return Ok(whole) };
        let count = damaged.len();
        Err(format!(
            "{count} damaged {}. The first: {} {}: {}. {again}",
            if count == 1 { "row" } else { "rows" },
            first.part,
            first.row,
            first.why
        ))
    };
    let records = format!(
        "{} entries, {} changes, {} receipts, {} certificates, each as it was signed or written.",
        report.entries, report.changes, report.receipts, report.certificates
    );
    let log = format!("{} leaves, and every hash above them is what they give.", report.leaves);
    let photographs =
        format!("{} photographs, {} bytes, each as it came.", report.photographs, report.photograph_bytes);
    vec![
        finding(
            "ledger",
            "Records (ledger.db)",
            part(&["entry", "change", "receipt", "certificate"], "ledger.db", records),
        ),
        finding("log", "The records' log", part(&["log"], "", log)),
        finding("photographs", "Photographs", part(&["photograph"], "", photographs)),
        finding(
            "register",
            "Accounts, devices, papers (server.db)",
            part(&[], "server.db", "Read through: whole.".to_owned()),
        ),
        finding(
            "audit",
            "The audit's chain",
            part(&["audit"], "", format!("{} rows, each fits the one before it.", report.audit_rows)),
        ),
    ]
}

fn read_only(file: &Path) -> rusqlite::Result<Connection> {
    let connection = Connection::open_with_flags(file, OpenFlags::SQLITE_OPEN_READ_ONLY)?;
    connection.busy_timeout(Duration::from_secs(10))?;
    Ok(connection)
}

fn whole(file: &Path, advice: &str) -> Result<String, String> {
    let checked = read_only(file).and_then(|connection| {
        connection.query_row("PRAGMA quick_check(1)", [], |row| row.get::<_, String>(0))
    });
    match checked.as_deref() {
        Ok("ok") => Ok("Read through: whole.".to_owned()),
        Ok(damage) => Err(format!("Damaged: {damage}. {advice}")),
        Err(error) => Err(format!("It cannot be read: {error}. {advice}")),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;

    #[test]
    fn a_full_disk_is_told_from_a_folder_that_cannot_be_written_to() {
        let folder = tempfile::tempdir().unwrap();
        let probe = folder.path().join(PROBE);
        assert!(write_probe(&probe).is_ok());
        assert!(!probe.exists(), "nothing is left behind");
        #[cfg(target_os = "linux")]
        {
            std::os::unix::fs::symlink("/dev/full", &probe).unwrap();
            assert!(write_probe(&probe).unwrap_err().contains("disk is full"));
            std::fs::remove_file(&probe).unwrap();
        }
        std::fs::create_dir(&probe).unwrap();
        assert!(write_probe(&probe).unwrap_err().contains("cannot be written to"));
        assert!(write_probe(Path::new("/nowhere/at/all")).is_err());
    }

    #[test]
    fn little_room_is_not_well() {
        assert_eq!(room_words(LITTLE_ROOM).unwrap(), "536 MB are free.");
        assert!(room_words(LITTLE_ROOM - 1).unwrap_err().contains("Make room"));
        assert_eq!(room_words(42_000_000_000).unwrap(), "42 GB are free.");
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
        assert!(whole(&file, "").is_ok());
        let mut bytes = std::fs::read(&file).unwrap();
        let at = bytes.len() / 2 / 4096 * 4096;
        bytes[at..at + 4096].fill(0xa5);
        std::fs::write(&file, &bytes).unwrap();
        assert!(whole(&file, "Do this.").unwrap_err().starts_with("Damaged: "));
        std::fs::write(&file, b"not a database at all, but long enough to be looked at as one").unwrap();
        assert!(whole(&file, "Do this.").unwrap_err().ends_with("Do this."));
    }
}
