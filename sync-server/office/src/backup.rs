//! Backs up and restores an office's data folder while its server runs.
//!
//! A backup is a folder with one consistent snapshot of each database, all photographs, the keys, and
//! `backup.json`, which lists the length and SHA-256 digest of every file. A photograph that the previous
//! backup also holds is hard-linked instead of copied. A restore checks every file against the list while
//! copying. It also marks the database, so that the restored ledger takes a new name and devices send again
//! what it lacks (see `ledger::epoch_of`). Derived data (`index.db`) and unfinished uploads are not backed
//! up. Called by the command line.

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{self, Read as _, Write as _};
use std::path::{Component, Path, PathBuf};

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::Digest;
use rusqlite::{Connection, OpenFlags};
use serde::{Deserialize, Serialize};
use sha2::{Digest as _, Sha256};

use super::accounts::factor_key;
use super::data_folder::{DataFolder, LOCK, PROBE};
use super::ledger::LedgerPlace;
use super::ledger_copy;
use super::office_database::OfficeDatabase;
use super::reading;
use farsiding_host::private_file;

/// The name of the file list, which is written last.
pub(super) const LIST: &str = "backup.json";
/// Files and folders that are left out because they can be derived or are of no use after a restore.
/// A ledger in a database becomes `ledger.db` in the backup, so that what names the database is left out as well.
const LEFT_OUT: [&str; 10] = [
    "index.db",
    "uploads",
    "check.json",
    "backups.json",
    SNAPSHOTS,
    LOCK,
    PROBE,
    "ledger.database",
    "ledger.arriving",
    "ledger.moved",
];
/// The name of the ledger in a backup.
const LEDGER: &str = "ledger.db";
/// The folder for database snapshots while they are added to an archive.
pub(super) const SNAPSHOTS: &str = ".snapshot";
/// The folder of the photographs. Each photograph is named by its SHA-256 digest.
pub(super) const PHOTOS: &str = "photos";

/// Why a backup or a restore failed. A failure leaves existing files unchanged.
#[derive(Debug, thiserror::Error)]
pub enum BackupError {
    /// A file or folder could not be read or written.
    #[error("{path}: {why}")]
    File {
        /// The path of the file.
        path: String,
        /// The cause.
        why: String,
    },
    /// The folder holds no finished backup.
    #[error("{0} is no backup: it has no {LIST}; a backup that was cut off has none and cannot be used")]
    NotABackup(String),
    /// A file differs from the backup's list.
    #[error("{path} in the backup is damaged: {why}; take an older backup, nothing was restored")]
    Damaged {
        /// The path of the file.
        path: String,
        /// How the file differs.
        why: String,
    },
    /// The target folder is not empty.
    #[error("{0} exists and is not empty; restore into a new folder, then swap them by hand")]
    NotEmpty(String),
    /// A recipient or an identity of the encryption cannot be used.
    #[error("{0}")]
    Key(String),
    /// The backup was written by a later version of the program.
    #[error("this backup was made by a later version (format {0}); update this program first")]
    TooNew(u32),
}

/// One file of a backup, as listed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Listed {
    pub(super) length: u64,
    pub(super) sha256: Digest,
}

#[derive(Debug, Serialize, Deserialize)]
pub(super) struct List {
    pub(super) format: u32,
    pub(super) made_at: String,
    pub(super) files: BTreeMap<String, Listed>,
}

/// The result of a backup, a check or a restore.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Outcome {
    /// The folder of the backup, or the restored folder.
    pub folder: PathBuf,
    /// The number of files.
    pub files: usize,
    /// The total size of the files, in bytes.
    pub bytes: u64,
    /// The number of photographs that were hard-linked to the previous backup.
    pub linked: usize,
}

/// A callback for each file, called with the number of finished files, the total number and the file's name.
pub type Progress<'a> = &'a mut dyn FnMut(usize, usize, &str);

pub(super) fn failed(path: &Path) -> impl FnOnce(io::Error) -> BackupError {
    let path = path.display().to_string();
    |e| BackupError::File { path, why: e.to_string() }
}

fn database_failed(path: &Path) -> impl FnOnce(rusqlite::Error) -> BackupError {
    let path = path.display().to_string();
    |e| BackupError::File { path, why: e.to_string() }
}

/// Makes a backup of `data` in a new folder under `into`, named by the time.
///
/// # Errors
/// Returns a [`BackupError`]. The unfinished folder is then removed.
pub fn back_up(
    data: &DataFolder,
    into: &Path,
    now: UtcMillis,
    progress: Progress<'_>,
) -> Result<Outcome, BackupError> {
    private_file::make_private_folder(into).map_err(failed(into))?;
    let name = format!("backup-{}", now.rfc3339().replace(':', ""));
    let (done, making) = (into.join(&name), into.join(format!(".{name}.unfinished")));
    if done.exists() {
        let why = "a backup of this very moment is there already".to_owned();
        return Err(BackupError::File { path: done.display().to_string(), why });
    }
    let before = newest(into);
    let outcome = fill(data, &making, before.as_ref(), now, progress)
        .and_then(|outcome| fs::rename(&making, &done).map(|()| outcome).map_err(failed(&done)));
    match outcome {
        Ok(outcome) => {
            private_file::sync_folder(into).map_err(failed(into))?;
            Ok(Outcome { folder: done, ..outcome })
        }
        Err(error) => {
            let _ = fs::remove_dir_all(&making); // a left-over folder has no list, so nobody takes it for a backup
            Err(error)
        }
    }
}

/// Returns the newest finished backup in a folder.
fn newest(into: &Path) -> Option<(PathBuf, List)> {
    let mut names: Vec<PathBuf> = fs::read_dir(into)
        .ok()?
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| path.file_name().is_some_and(|n| n.to_string_lossy().starts_with("backup-")))
        .collect();
    names.sort();
    names.into_iter().rev().find_map(|path| read_list(&path).ok().map(|list| (path, list)))
}

fn fill(
    data: &DataFolder,
    making: &Path,
    before: Option<&(PathBuf, List)>,
    now: UtcMillis,
    progress: Progress<'_>,
) -> Result<Outcome, BackupError> {
    private_file::make_private_folder(making).map_err(failed(making))?;
    let (databases, others): (Vec<String>, Vec<String>) =
        readable_files_of(data)?.into_iter().partition(|name| name.ends_with(".db"));
    // The databases come first: every photograph that a snapshot refers to is then already on the disk, and
    // photographs are not removed meanwhile.
    let (total, mut files, mut linked) = (databases.len() + others.len(), BTreeMap::new(), 0);
    for (at, name) in databases.iter().chain(&others).enumerate() {
        progress(at, total, name);
        let (from, to) = (data.path().join(name), making.join(name));
        let folder = to.parent().unwrap_or(making);
        private_file::make_private_folder(folder).map_err(failed(folder))?;
        let listed = if name.ends_with(".db") {
            snapshot(data, name, &to)?;
            digest_of(&to)?
        } else if let Some(listed) = link_from(before, name, &from, &to) {
            linked += 1;
            listed
        } else {
            copy(&from, &to)?
        };
        if name.starts_with(PHOTOS) && !name.ends_with(&listed.sha256.to_string()) {
            return Err(BackupError::File {
                path: from.display().to_string(),
                why: "this photograph's bytes no longer fit its name; set the file aside, the devices that \
                      took it may still have it"
                    .to_owned(),
            });
        }
        files.insert(name.clone(), listed);
    }
    let bytes = files.values().map(|file| file.length).sum();
    let outcome = Outcome { folder: making.to_owned(), files: files.len(), bytes, linked };
    let list = List { format: 1, made_at: now.rfc3339(), files };
    let path = making.join(LIST);
    let text = serde_json::to_vec_pretty(&list).map_err(|e| failed(&path)(e.into()))?;
    write_whole(&path, &text)?;
    private_file::sync_folder(making).map_err(failed(making))?;
    Ok(outcome)
}

/// Returns the files of an unencrypted backup. The key of the second factors is left out, so that whoever
/// finds the backup cannot decrypt the second factors in the database.
pub(super) fn readable_files_of(data: &DataFolder) -> Result<Vec<String>, BackupError> {
    let mut names = files_of(data)?;
    names.retain(|name| name != factor_key::FILE);
    Ok(names)
}

/// Returns the paths, relative to the data folder, of everything that is backed up.
pub(super) fn files_of(folder: &DataFolder) -> Result<Vec<String>, BackupError> {
    let data = folder.path();
    let (mut names, mut waiting) = (Vec::new(), vec![PathBuf::new()]);
    while let Some(folder) = waiting.pop() {
        let here = data.join(&folder);
        for entry in fs::read_dir(&here).map_err(failed(&here))? {
            let entry = entry.map_err(failed(&here))?;
            let relative = folder.join(entry.file_name());
            let name = relative.to_string_lossy().into_owned();
            let passing = name.ends_with("-wal") || name.ends_with("-shm") || name.ends_with("-journal");
            // The name of a photograph that is still being written has a '#' and a number in it.
            if passing || name.contains('#') || LEFT_OUT.iter().any(|left| name.starts_with(left)) {
                continue;
            }
            let kind = entry.file_type().map_err(failed(&here))?;
            if kind.is_dir() {
                waiting.push(relative);
            } else if kind.is_file() {
                names.push(name);
            }
        }
    }
    if folder.has_database() {
        names.retain(|name| name != LEDGER);
        names.push(LEDGER.to_owned());
    }
    names.sort();
    Ok(names)
}

/// Writes a consistent copy of a database while others may be writing to it. The ledger may be in a database outside
/// the folder.
pub(super) fn snapshot(data: &DataFolder, name: &str, to: &Path) -> Result<(), BackupError> {
    let from = &data.path().join(name);
    if let LedgerPlace::Database { address, organisation } = data.ledger_place()
        && name == LEDGER
    {
        let copied = ledger_copy::into_file((&address, organisation), to, &mut |_, _, _| true);
        copied.map_err(|e| failed(from)(io::Error::other(e.to_string())))?;
        return File::open(to).and_then(|file| file.sync_all()).map_err(failed(to));
    }
    let connection = if reading::is_write_protected(from) {
        let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_URI;
        Connection::open_with_flags(reading::uri(from).map_err(failed(from))?, flags)
    } else {
        Connection::open_with_flags(from, OpenFlags::SQLITE_OPEN_READ_WRITE)
    }
    .map_err(database_failed(from))?;
    connection.busy_timeout(std::time::Duration::from_secs(30)).map_err(database_failed(from))?;
    private_file::make_private(to).map_err(failed(to))?; // SQLite fills the empty file
    let target = to.to_string_lossy();
    connection.execute("VACUUM INTO ?1", [target.as_ref()]).map_err(database_failed(from))?;
    File::open(to).and_then(|file| file.sync_all()).map_err(failed(to))
}

/// Hard-links a photograph from the previous backup, if that backup holds the same photograph.
fn link_from(before: Option<&(PathBuf, List)>, name: &str, from: &Path, to: &Path) -> Option<Listed> {
    let (folder, list) = before.filter(|_| name.starts_with(PHOTOS))?;
    let listed = list.files.get(name)?;
    let kept = folder.join(name);
    // The earlier copy is read again before it is linked: a damaged copy must not be passed on while an
    // intact one exists.
    let sound = fs::metadata(from).ok()?.len() == listed.length && digest_of(&kept).ok()? == *listed;
    (sound && fs::hard_link(&kept, to).is_ok()).then(|| listed.clone())
}

fn read_through(from: &Path, mut each: impl FnMut(&[u8]) -> io::Result<()>) -> Result<Listed, BackupError> {
    let mut file = File::open(from).map_err(failed(from))?;
    let (mut digest, mut length, mut buffer) = (Sha256::new(), 0, vec![0u8; 256 * 1024]);
    loop {
        let read = file.read(&mut buffer).map_err(failed(from))?;
        if read == 0 {
            return Ok(Listed { length, sha256: Digest(digest.finalize().into()) });
        }
        let piece = buffer.get(..read).unwrap_or_default();
        digest.update(piece);
        length += read as u64;
        each(piece).map_err(failed(from))?;
    }
}

fn digest_of(file: &Path) -> Result<Listed, BackupError> {
    read_through(file, |_| Ok(()))
}

fn copy(from: &Path, to: &Path) -> Result<Listed, BackupError> {
    let mut out = create(to)?;
    let listed = read_through(from, |piece| out.write_all(piece))?;
    out.sync_all().map_err(failed(to))?;
    Ok(listed)
}

pub(super) fn create(path: &Path) -> Result<File, BackupError> {
    let mut options = fs::OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt as _;
        options.mode(0o600);
    }
    options.open(path).map_err(failed(path))
}

fn write_whole(path: &Path, bytes: &[u8]) -> Result<(), BackupError> {
    let mut file = create(path)?;
    file.write_all(bytes).and_then(|()| file.sync_all()).map_err(failed(path))
}

fn read_list(backup: &Path) -> Result<List, BackupError> {
    let text =
        fs::read(backup.join(LIST)).map_err(|_| BackupError::NotABackup(backup.display().to_string()))?;
    list_from(&text)
}

/// Parses the list of a backup. Names that lead outside the folder are refused.
pub(super) fn list_from(text: &[u8]) -> Result<List, BackupError> {
    let list: List = serde_json::from_slice(text)
        .map_err(|e| BackupError::Damaged { path: LIST.to_owned(), why: e.to_string() })?;
    if list.format != 1 {
        return Err(BackupError::TooNew(list.format));
    }
    for name in list.files.keys() {
        if !is_within(Path::new(name)) {
            return Err(BackupError::Damaged { path: name.clone(), why: "not a name within it".to_owned() });
        }
    }
    Ok(list)
}

/// Returns whether a relative path stays inside its folder.
pub(super) fn is_within(name: &Path) -> bool {
    !name.as_os_str().is_empty() && name.components().all(|part| matches!(part, Component::Normal(_)))
}

pub(super) fn same(name: &str, found: &Listed, listed: &Listed) -> Result<(), BackupError> {
    let damaged = |why: String| Err(BackupError::Damaged { path: name.to_owned(), why });
    if found.length != listed.length {
        return damaged(format!("it has {} bytes and should have {}", found.length, listed.length));
    }
    if found.sha256 != listed.sha256 {
        return damaged("its bytes changed since the backup was made".to_owned());
    }
    Ok(())
}

/// Reads every file of a backup and compares it with the list.
///
/// # Errors
/// Returns a [`BackupError`] when a file is missing, differs or cannot be read.
pub fn check(backup: &Path, progress: Progress<'_>) -> Result<Outcome, BackupError> {
    let list = read_list(backup)?;
    for (at, (name, listed)) in list.files.iter().enumerate() {
        progress(at, list.files.len(), name);
        same(name, &digest_of(&backup.join(name))?, listed)?;
    }
    let bytes = list.files.values().map(|file| file.length).sum();
    Ok(Outcome { folder: backup.to_owned(), files: list.files.len(), bytes, linked: 0 })
}

/// Restores a backup into `data`, which must be new or empty.
///
/// # Errors
/// Returns a [`BackupError`]; `data` is then unchanged.
pub fn restore(backup: &Path, data: &Path, progress: Progress<'_>) -> Result<Outcome, BackupError> {
    let list = read_list(backup)?;
    if fs::read_dir(data).is_ok_and(|mut entries| entries.next().is_some()) {
        return Err(BackupError::NotEmpty(data.display().to_string()));
    }
    let name = data.file_name().unwrap_or_default().to_string_lossy().into_owned();
    let making = data.with_file_name(format!(".{name}.unfinished"));
    let _ = fs::remove_dir_all(&making); // left by an interrupted attempt
    let outcome = copy_all(backup, &list, &making, progress);
    put_in_place(outcome, &making, data)?;
    let bytes = list.files.values().map(|file| file.length).sum();
    Ok(Outcome { folder: data.to_owned(), files: list.files.len(), bytes, linked: 0 })
}

/// Moves a restored folder to its final place, or removes it if the restore failed.
pub(super) fn put_in_place(
    outcome: Result<(), BackupError>,
    making: &Path,
    data: &Path,
) -> Result<(), BackupError> {
    let outcome = outcome.and_then(|()| {
        let _ = fs::remove_dir(data); // the folder is empty or does not exist
        fs::rename(making, data).map_err(failed(data))
    });
    if let Err(error) = outcome {
        let _ = fs::remove_dir_all(making); // nothing in this folder is needed
        return Err(error);
    }
    if let Some(parent) = data.parent().filter(|parent| !parent.as_os_str().is_empty()) {
        private_file::sync_folder(parent).map_err(failed(parent))?;
    }
    Ok(())
}

fn copy_all(backup: &Path, list: &List, making: &Path, progress: Progress<'_>) -> Result<(), BackupError> {
    private_file::make_private_folder(making).map_err(failed(making))?;
    for (at, (name, listed)) in list.files.iter().enumerate() {
        progress(at, list.files.len(), name);
        let to = making.join(name);
        let folder = to.parent().unwrap_or(making);
        private_file::make_private_folder(folder).map_err(failed(folder))?;
        same(name, &copy(&backup.join(name), &to)?, listed)?;
    }
    mark_as_restored(making)
}

/// Marks a restored folder as restored from a backup, so that its ledger takes a new name.
pub(super) fn mark_as_restored(making: &Path) -> Result<(), BackupError> {
    let folder = DataFolder::at(making);
    let database = OfficeDatabase::open(&folder.database_file())
        .map_err(|e| BackupError::Damaged { path: "server.db".to_owned(), why: e.to_string() })?;
    database
        .came_from_backup()
        .map_err(|e| BackupError::File { path: "server.db".to_owned(), why: e.to_string() })?;
    private_file::sync_folder(making).map_err(failed(making))
}
