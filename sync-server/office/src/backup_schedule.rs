//! The server's own scheduled backups: when the next one is due, how many are kept, and the result of the
//! last one.
//!
//! The data folder is checked (`check`) before each backup. If anything is damaged, the backup is made all
//! the same, but no older backup is removed, because an older one may hold what is damaged now. Called by
//! `serve`; `health` reports the result.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;

use farsiding_core::clock::UtcMillis;
use farsiding_core::{Arg, Message, message};
use serde::{Deserialize, Serialize};

use super::backup::Outcome;
use super::backup_archive;
use super::check;
use super::data_folder::DataFolder;
use super::state::backup_plan::Plan;
use crate::state::Office;
use farsiding_host::{private_file, whole_file};

/// The file name extension of a backup.
pub const ENDING: &str = "age";
/// The wait before the next attempt after a failure, or the time between two backups if that is shorter.
const AGAIN: Duration = Duration::from_secs(60 * 60);
/// The file with the result of the last backup, which survives a restart of the server.
const RESULT: &str = "backups.json";

/// The results of the last attempts.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Last {
    /// The time of the last successful backup, in milliseconds since 1970.
    pub good_at: Option<i64>,
    /// The file of the last successful backup.
    pub file: String,
    /// The size of that backup before encryption, in bytes.
    pub bytes: u64,
    /// Why the last attempt failed; `None` if it did not.
    pub failed: Option<String>,
    /// The number of damaged rows when the last backup was made.
    #[serde(default)]
    pub damaged: u64,
}

impl Last {
    /// Reads the stored results from a data folder.
    pub fn read(folder: &DataFolder) -> Last {
        let text = fs::read(folder.path().join(RESULT)).unwrap_or_default();
        serde_json::from_slice(&text).unwrap_or_default()
    }

    /// Stores the results. A failure is ignored, because the backup itself is complete.
    pub fn keep(&self, folder: &DataFolder) {
        let path = folder.path().join(RESULT);
        let kept = serde_json::to_vec(self).map_err(std::io::Error::from).and_then(|text| {
            private_file::make_private(&path)?;
            whole_file::write(&path, &text)
        });
        if let Err(error) = kept {
            tracing::warn!(%error, "what came of the backup could not be kept");
        }
    }

    /// Returns the result of a successful backup.
    pub fn made(outcome: &Outcome, at: UtcMillis, damaged: u64) -> Last {
        let file = outcome.folder.display().to_string();
        Last { good_at: Some(at.0), file, bytes: outcome.bytes, failed: None, damaged }
    }
}

/// Returns the state of the backups, as `Err` if something is wrong. Returns `None` if no backup was ever
/// made or asked for.
pub fn says(plan: Option<&Plan>, last: &Last, now: UtcMillis) -> Option<Result<Message, Message>> {
    let good = last.good_at.map(UtcMillis);
    let newest = match good {
        Some(at) => {
            let (at, file) = (Arg::typed(at.rfc3339()), Arg::typed(&last.file));
            message!("office-found-backup-last", at = at, file = file, bytes = last.bytes)
        }
        None => message!("office-found-backup-none"),
    };
    let Some(plan) = plan else {
        return good.map(|_| Ok(message!("office-found-backup-unplanned", last = newest)));
    };
    if let Some(why) = &last.failed {
        return Some(Err(message!("office-found-backup-failed", why = Arg::typed(why), last = newest)));
    }
    if last.damaged > 0 {
        return Some(Err(message!("office-found-backup-damaged", count = last.damaged, last = newest)));
    }
    let patience = i64::try_from(plan.every.as_millis()).unwrap_or(i64::MAX).saturating_mul(2);
    match good {
        Some(at) if now.since(at) > patience => {
            Some(Err(message!("office-found-backup-overdue", last = newest)))
        }
        _ => Some(Ok(newest)),
    }
}

/// Makes the planned backups until the server stops.
pub async fn run(office: Arc<Office>, plan: Plan) {
    let mut stopping = office.stopping.clone();
    loop {
        let last = Last::read(&office.folder);
        let every = i64::try_from(plan.every.as_millis()).unwrap_or(i64::MAX);
        let due = last.good_at.map_or(i64::MIN, |at| at.saturating_add(every));
        let wait = u64::try_from(due.saturating_sub(office.now().0).clamp(0, every)).unwrap_or(0);
        let mut wait = Duration::from_millis(wait).max(Duration::from_secs(1));
        if last.failed.is_some() {
            wait = wait.max(AGAIN.min(plan.every));
        }
        tokio::select! {
            () = tokio::time::sleep(wait) => {}
            _ = stopping.wait_for(|stop| *stop) => return,
        }
        let (making, plan) = (Arc::clone(&office), plan.clone());
        let outcome = tokio::task::spawn_blocking(move || make(&making, &plan)).await;
        let failed = match outcome {
            Ok(Ok(last)) => {
                tracing::info!(file = last.file, bytes = last.bytes, damaged = last.damaged, "backed up");
                last.keep(&office.folder);
                continue;
            }
            Ok(Err(why)) => why,
            Err(_) => "the thread that made it stopped".to_owned(),
        };
        tracing::error!(why = failed, "no backup could be made");
        Last { failed: Some(failed), ..Last::read(&office.folder) }.keep(&office.folder);
    }
}

/// Checks the data folder, makes one backup, and removes surplus older backups.
fn make(office: &Office, plan: &Plan) -> Result<Last, String> {
    let (now, stopping) = (office.now(), office.stopping.clone());
    let report = check::check(&office.folder, &office.key.public(), now, &mut |_, _, _| !*stopping.borrow())
        .map_err(|error| error.to_string())?;
    check::keep(&office.folder, &report);
    private_file::make_private_folder(&plan.to).map_err(|e| format!("{}: {e}", plan.to.display()))?;
    let file = plan.to.join(name_at(now));
    let outcome = backup_archive::back_up(&office.folder, &file, &plan.recipients, now, &mut |_, _, _| {})
        .map_err(|error| error.to_string())?;
    if report.is_whole() {
        prune(&plan.to, plan.keep).map_err(|e| format!("older backups cannot be removed: {e}"))?;
    }
    Ok(Last::made(&outcome, now, report.damaged()))
}

/// Returns the file name of a backup made at `now`.
pub fn name_at(now: UtcMillis) -> String {
    format!("backup-{}.{ENDING}", now.rfc3339().replace(':', ""))
}

/// Removes the oldest backups in a folder until `keep` are left. Other files are not touched.
fn prune(folder: &Path, keep: usize) -> std::io::Result<()> {
    let mut all: Vec<PathBuf> = fs::read_dir(folder)?
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| {
            let name = path.file_name().unwrap_or_default().to_string_lossy();
            name.starts_with("backup-") && path.extension().is_some_and(|end| end == ENDING) && path.is_file()
        })
        .collect();
    all.sort();
    let spare = all.len().saturating_sub(keep.max(1));
    for path in all.into_iter().take(spare) {
        fs::remove_file(path)?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::backup_archive::Recipients;
    use crate::state::backup_plan::Span;

    #[test]
    fn spans_are_read_as_written_and_nonsense_is_refused() {
        assert_eq!("24h".parse(), Ok(Span(Duration::from_secs(86_400))));
        assert_eq!(" 7d".parse(), Ok(Span(Duration::from_secs(604_800))));
        for wrong in ["", "h", "24", "0h", "-1h", "1é", "99999999999999999999d", "1000000d"] {
            assert!(wrong.parse::<Span>().is_err(), "{wrong}");
        }
    }

    #[test]
    fn the_newest_are_kept_and_what_is_no_backup_is_left_alone() {
        let folder = tempfile::tempdir().unwrap();
        for name in ["backup-1.age", "backup-2.age", "backup-3.age", "backup-0.tar", "letter.age"] {
            fs::write(folder.path().join(name), b"x").unwrap();
        }
        prune(folder.path(), 2).unwrap();
        let mut left: Vec<String> = fs::read_dir(folder.path())
            .unwrap()
            .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
            .collect();
        left.sort();
        assert_eq!(left, ["backup-0.tar", "backup-2.age", "backup-3.age", "letter.age"]);
    }

    #[test]
    fn a_backup_that_is_overdue_failed_or_of_a_damaged_ledger_is_not_well() {
        let plan = Plan {
            to: PathBuf::from("/nowhere"),
            every: Duration::from_secs(3600),
            keep: 2,
            recipients: Recipients::default(),
        };
        let good = Last { good_at: Some(0), ..Last::default() };
        let at = |last: &Last, minutes: i64| {
            let says = says(Some(&plan), last, UtcMillis(minutes * 60_000)).unwrap();
            says.map_err(|says| farsiding_words::english(&says))
        };
        assert!(at(&good, 119).is_ok());
        assert!(at(&good, 121).unwrap_err().contains("overdue"));
        assert!(
            at(&Last { failed: Some("no room".to_owned()), ..good.clone() }, 1)
                .unwrap_err()
                .contains("no room")
        );
        assert!(at(&Last { damaged: 3, ..good.clone() }, 1).unwrap_err().contains("3 rows"));
        assert!(says(None, &Last::default(), UtcMillis(0)).is_none());
        assert!(says(None, &good, UtcMillis(0)).unwrap().is_ok());
    }
}
