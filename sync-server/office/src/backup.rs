//! Backup and restore of an office's data folder, while its server runs.
//!
//! A backup is a folder of its own: each database as one consistent snapshot, every photograph, the keys, and
//! `backup.json` with length and SHA-256 of every file. Photographs that the backup before holds are linked,
//! not copied. Restoring checks every file against that list while it copies, and marks the database, so that
//! the restored ledger takes a new name and the devices bring back what it missed (see `ledger::epoch_of`).
//! Called by the command line. Not backed up: what is derived (`index.db`) and uploads under way.

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
use super::office_database::OfficeDatabase;
use super::reading;
use farsiding_host::private_file;

/// The list of files, written last.
pub(super) const LIST: &str = "backup.json";
/// Folders and files that are derived, or of no use later.
const LEFT_OUT: [&str; 7] = ["index.db", "uploads", "check.json", "backups.json", SNAPSHOTS, LOCK, PROBE];
/// Where snapshots of databases stand while they are put into an archive.
pub(super) const SNAPSHOTS: &str = ".snapshot";
/// Where photographs lie; each is named by its SHA-256.
pub(super) const PHOTOS: &str = "photos";

/// Why a backup was not made or not restored. Nothing that stood before was changed.
#[derive(Debug, thiserror::Error)]
pub enum BackupError {
    /// A file or folder failed.
    #[error("{path}: {why}")]
    File {
        /// Which.
        path: String,
        /// What is in the way.
        why: String,
    },
    /// There is no finished backup there.
    #[error("{0} is no backup: it has no {LIST}; a backup that was cut off has none and cannot be used")]
    NotABackup(String),
    /// A file is not as the list says.
    #[error("{path} in the backup is damaged: {why}; take an older backup, nothing was restored")]
    Damaged {
        /// Which.
        path: String,
        /// How.
        why: String,
    },
    /// The target is in use.
    #[error("{0} exists and is not empty; restore into a new folder, then swap them by hand")]
    NotEmpty(String),
    /// What it is encrypted to, or what opens it, is not as it must be.
    #[error("{0}")]
    Key(String),
    /// The list was made by a later version.
    #[error("this backup was made by a later version (format {0}); update this program first")]
    TooNew(u32),
}

/// One file of a backup.
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

/// What was done.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Outcome {
    /// The backup's or the restored folder.
    pub folder: PathBuf,
    /// Files in it.
    pub files: usize,
    /// Their bytes.
    pub bytes: u64,
    /// Photographs that were linked to the backup before.
    pub linked: usize,
}

/// Told of each file: how many are done, of how many, and its name.
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
/// [`BackupError`]; an unfinished folder is removed and never has a list.
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
    let outcome = fill(data.path(), &making, before.as_ref(), now, progress)
        .and_then(|outcome| fs::rename(&making, &done).map(|()| outcome).map_err(failed(&done)));
    match outcome {
        Ok(outcome) => {
            private_file::sync_folder(into).map_err(failed(into))?;
            Ok(Outcome { folder: done, ..outcome })
        }
        Err(error) => {
            let _ = fs::remove_dir_all(&making); // what is left over has no list and is never taken for a backup
            Err(error)
        }
    }
}

/// The newest finished backup under a folder.
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
    data: &Path,
    making: &Path,
    before: Option<&(PathBuf, List)>,
    now: UtcMillis,
    progress: Progress<'_>,
) -> Result<Outcome, BackupError> {
    private_file::make_private_folder(making).map_err(failed(making))?;
    let (databases, others): (Vec<String>, Vec<String>) =
        readable_files_of(data)?.into_iter().partition(|name| name.ends_with(".db"));
    // Databases first: a photograph their rows speak of is there already and is never removed.
    let (total, mut files, mut linked) = (databases.len() + others.len(), BTreeMap::new(), 0);
    for (at, name) in databases.iter().chain(&others).enumerate() {
        progress(at, total, name);
        let (from, to) = (data.join(name), making.join(name));
        let folder = to.parent().unwrap_or(making);
        private_file::make_private_folder(folder).map_err(failed(folder))?;
        let listed = if name.ends_with(".db") {
            snapshot(&from, &to)?;
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

/// What goes into a backup that is not encrypted: without the key of the second factors, so that whoever finds it has
/// not both halves.
pub(super) fn readable_files_of(data: &Path) -> Result<Vec<String>, BackupError> {
    let mut names = files_of(data)?;
    names.retain(|name| name != factor_key::FILE);
    Ok(names)
}

/// The names, relative to the data folder, of everything that is backed up.
pub(super) fn files_of(data: &Path) -> Result<Vec<String>, BackupError> {
    let (mut names, mut waiting) = (Vec::new(), vec![PathBuf::new()]);
    while let Some(folder) = waiting.pop() {
        let here = data.join(&folder);
        for entry in fs::read_dir(&here).map_err(failed(&here))? {
            let entry = entry.map_err(failed(&here))?;
            let relative = folder.join(entry.file_name());
            let name = relative.to_string_lossy().into_owned();
            let passing = name.ends_with("-wal") || name.ends_with("-shm") || name.ends_with("-journal");
            // A photograph being written has a number after a '#'.
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
    names.sort();
    Ok(names)
}

/// One consistent copy of a database that others may be writing to.
pub(super) fn snapshot(from: &Path, to: &Path) -> Result<(), BackupError> {
    let connection = if reading::is_write_protected(from) {
        let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_URI;
        Connection::open_with_flags(reading::uri(from).map_err(failed(from))?, flags)
    } else {
        Connection::open_with_flags(from, OpenFlags::SQLITE_OPEN_READ_WRITE)
    }
    .map_err(database_failed(from))?;
    connection.busy_timeout(std::time::Duration::from_secs(30)).map_err(database_failed(from))?;
    private_file::make_private(to).map_err(failed(to))?; // an empty file is filled
    let target = to.to_string_lossy();
    connection.execute("VACUUM INTO ?1", [target.as_ref()]).map_err(database_failed(from))?;
    File::open(to).and_then(|file| file.sync_all()).map_err(failed(to))
}

/// Takes a photograph from the backup before, where that has the same one.
fn link_from(before: Option<&(PathBuf, List)>, name: &str, from: &Path, to: &Path) -> Option<Listed> {
    let (folder, list) = before.filter(|_| name.starts_with(PHOTOS))?;
    let listed = list.files.get(name)?;
    let kept = folder.join(name);
    // It is read again first: a copy that has rotted must not be handed on while a sound one is at hand.
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

/// The list as it was written, its names looked at: nothing outside the folder is ever written.
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

/// Whether a name leads to somewhere within the folder.
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
/// [`BackupError`].
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
/// [`BackupError`]; `data` is then as it was.
pub fn restore(backup: &Path, data: &Path, progress: Progress<'_>) -> Result<Outcome, BackupError> {
    let list = read_list(backup)?;
    if fs::read_dir(data).is_ok_and(|mut entries| entries.next().is_some()) {
        return Err(BackupError::NotEmpty(data.display().to_string()));
    }
    let name = data.file_name().unwrap_or_default().to_string_lossy().into_owned();
    let making = data.with_file_name(format!(".{name}.unfinished"));
    let _ = fs::remove_dir_all(&making); // of an earlier attempt that was cut off
    let outcome = copy_all(backup, &list, &making, progress);
    put_in_place(outcome, &making, data)?;
    let bytes = list.files.values().map(|file| file.length).sum();
    Ok(Outcome { folder: data.to_owned(), files: list.files.len(), bytes, linked: 0 })
}

/// Puts a folder that was filled where it belongs, or removes what was filled of it.
pub(super) fn put_in_place(
    outcome: Result<(), BackupError>,
    making: &Path,
    data: &Path,
) -> Result<(), BackupError> {
    let outcome = outcome.and_then(|()| {
        let _ = fs::remove_dir(data); // it is empty, or not there
        fs::rename(making, data).map_err(failed(data))
    });
    if let Err(error) = outcome {
        let _ = fs::remove_dir_all(making); // nothing in it is needed
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

/// Notes in a restored folder that it came from a backup, so that its ledger takes a new name.
pub(super) fn mark_as_restored(making: &Path) -> Result<(), BackupError> {
    let folder = DataFolder::at(making);
    let database = OfficeDatabase::open(&folder.database_file())
        .map_err(|e| BackupError::Damaged { path: "server.db".to_owned(), why: e.to_string() })?;
    database
        .came_from_backup()
        .map_err(|e| BackupError::File { path: "server.db".to_owned(), why: e.to_string() })?;
    private_file::sync_folder(making).map_err(failed(making))
}
