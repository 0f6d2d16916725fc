//! The office's data folder: the paths of its files, and the organisation's key.
//!
//! All files are readable only by their owner (0600), and only one server at a time runs on a folder.
//! `organisation.key` is created at the first start, and whoever copies it can sign receipts and
//! certificates. It is the root key until the root is taken off the server (`keys`). From then on it is a
//! working key that signs for the root, and `organisation.keys` beside it holds the root's statement about
//! that.

use std::fs::{File, TryLockError};
use std::io::Write as _;
use std::path::{Path, PathBuf};

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{OrganisationKey, Trusts as _};
use farsiding_core::ids::{OrganisationId, Randomness};

use super::OfficeError;
use super::key_files;
use super::ledger::LedgerPlace;
use farsiding_host::private_file;

/// The file that a running server keeps locked.
pub const LOCK: &str = "server.lock";
/// The file that is written from time to time to test that the folder is writable.
pub const PROBE: &str = "writable.probe";

/// The lock of a running server on its folder. The operating system releases it when the process ends, even
/// after a crash.
#[derive(Debug)]
pub struct Held {
    _lock: File,
}

/// An office's data folder.
#[derive(Debug, Clone)]
pub struct DataFolder {
    path: PathBuf,
    /// Where the ledger is: read from the folder when it was opened.
    ledger: LedgerPlace,
}

/// The file that names a database as the place of the ledger: the database's address on the first line, and on the
/// second the organisation's id, under which its rows stand there. Without this file the ledger is `ledger.db`.
const DATABASE: &str = "ledger.database";
/// What [`DATABASE`] becomes when the ledger was moved into a file and the database is yet to be marked as left.
const LEFT_DATABASE: &str = "ledger.database.left";
/// The ledger that is moved into a file, until the folder names it.
const ARRIVING: &str = "ledger.arriving.db";
/// How the names of files begin that are left when a ledger is moved into a database.
const MOVED: &str = "ledger.moved-";

/// Reads where the ledger of a folder is.
fn place_in(path: &Path) -> Result<LedgerPlace, String> {
    let text = match std::fs::read_to_string(path.join(DATABASE)) {
        Ok(text) => text,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => {
            return Ok(LedgerPlace::File(path.join("ledger.db")));
        }
        Err(error) => return Err(format!("{DATABASE} cannot be read: {error}")),
    };
    let (address, organisation) = named_in(&text).ok_or_else(|| {
        format!("{DATABASE} does not name a database and an organisation; put it back from its copy")
    })?;
    Ok(LedgerPlace::Database { address, organisation })
}

/// Reads the address of a database and the organisation's id.
fn named_in(text: &str) -> Option<(String, OrganisationId)> {
    let mut lines = text.lines();
    let address = lines.next().map(str::trim).filter(|address| !address.is_empty());
    let organisation = lines.next().and_then(|id| OrganisationId::read(id.trim()).ok());
    Some((address?.to_owned(), organisation?))
}

impl DataFolder {
    /// Opens the folder, or creates it if it does not exist.
    ///
    /// # Errors
    /// Returns [`OfficeError::Folder`] when the folder cannot be used.
    pub fn open_or_make(path: &Path) -> Result<DataFolder, OfficeError> {
        let folder = DataFolder::at(path);
        private_file::make_private_folder(path).map_err(|e| folder.refuse(&e.to_string()))?;
        folder.with_its_ledger()
    }

    /// Opens a folder in which a server has been started before.
    ///
    /// # Errors
    /// Returns [`OfficeError::Folder`] when no server has been started in it.
    pub fn open(path: &Path) -> Result<DataFolder, OfficeError> {
        let folder = DataFolder::at(path);
        if folder.key_file().exists() || folder.key_statements_file().exists() {
            folder.with_its_ledger()
        } else {
            let why =
                "there is no organisation key in it; start `farsiding serve` there once, or check the path";
            Err(folder.refuse(why))
        }
    }

    /// Takes the folder's lock for the one server that may run on it. Other commands open the folder without
    /// the lock, because each of them does its work in one transaction.
    ///
    /// # Errors
    /// Returns [`OfficeError::Folder`] when a server is running on the folder already.
    pub fn hold(&self) -> Result<Held, OfficeError> {
        let path = self.path.join(LOCK);
        let lock = private_file::open_lock(&path).map_err(|e| self.refuse(&format!("{LOCK}: {e}")))?;
        match lock.try_lock() {
            Ok(()) => {
                // The process id is written into the file for the message to a second server. Only the lock
                // itself counts.
                let _ = lock
                    .set_len(0)
                    .and_then(|()| (&lock).write_all(std::process::id().to_string().as_bytes()));
                Ok(Held { _lock: lock })
            }
            Err(TryLockError::WouldBlock) => {
                let who = std::fs::read_to_string(&path).unwrap_or_default();
                let who =
                    who.trim().parse().map_or_else(|_| String::new(), |id: u32| format!(" (process {id})"));
                Err(self.refuse(&format!(
                    "another farsiding server{who} runs on it, or its ledger is being moved; stop that one first, since \
                     two would each sign a history of their own"
                )))
            }
            Err(TryLockError::Error(error)) => Err(self.refuse(&format!("{LOCK} cannot be locked: {error}"))),
        }
    }

    /// Removes the permissions of everybody but the owner from all files in the folder. This covers files of
    /// earlier versions and files that were copied in by hand.
    ///
    /// # Errors
    /// Returns the file system's error for the first file that stays readable to others.
    pub fn narrow(&self) -> std::io::Result<()> {
        let mut outcome = Ok(());
        for entry in std::fs::read_dir(&self.path)? {
            outcome = outcome.and(private_file::narrow(&entry?.path()));
        }
        outcome
    }

    /// Returns the folder at `path` without checking what is in it.
    pub(super) fn at(path: &Path) -> DataFolder {
        DataFolder { path: path.to_owned(), ledger: LedgerPlace::File(path.join("ledger.db")) }
    }

    fn with_its_ledger(self) -> Result<DataFolder, OfficeError> {
        self.end_naming_of_file()?;
        let ledger = place_in(&self.path).map_err(|why| self.refuse(&why))?;
        if matches!(&ledger, LedgerPlace::File(file) if !file.exists())
            && let Some(moved) = self.moved_file()
        {
            return Err(self.refuse(&format!(
                "its ledger was moved into a database, and {DATABASE}, which names that, is missing; put it back from its \
                 copy ({moved} is the ledger as it was then)"
            )));
        }
        Ok(DataFolder { ledger, ..self })
    }

    /// Returns a file that was left when the ledger was moved into a database.
    fn moved_file(&self) -> Option<String> {
        let names = std::fs::read_dir(&self.path).ok()?.flatten();
        names
            .map(|entry| entry.file_name().to_string_lossy().into_owned())
            .find(|name| name.starts_with(MOVED))
    }

    /// Names the database in which the ledger is from now on. A folder that has a ledger in a file keeps it there.
    ///
    /// # Errors
    /// Returns [`OfficeError::Folder`] when the folder has a ledger in a file, or cannot be written to.
    pub fn keep_ledger_in(
        self,
        address: &str,
        organisation: OrganisationId,
    ) -> Result<DataFolder, OfficeError> {
        if self.ledger_file().exists() {
            let why = "its ledger is in ledger.db; move it with farsiding move --to, then start the server without --database \
                 and FARSIDING_DATABASE";
            return Err(self.refuse(why));
        }
        self.name_database(address, organisation)
    }

    /// Names a database as the place of the ledger, whatever file is in the folder. Returns once the name is on the
    /// disk.
    pub(super) fn name_database(
        self,
        address: &str,
        organisation: OrganisationId,
    ) -> Result<DataFolder, OfficeError> {
        let address = address.trim();
        if address.contains('\n') {
            return Err(self.refuse("the database's address has more than one line"));
        }
        let (file, text) = (self.path.join(DATABASE), format!("{address}\n{organisation}\n"));
        // The file appears with all its content, or not at all.
        let written = if file.exists() {
            farsiding_host::whole_file::write(&file, text.as_bytes())
        } else {
            private_file::write_new(&file, text.as_bytes())
        };
        written.map_err(|e| self.refuse(&format!("{DATABASE}: {e}")))?;
        let ledger = LedgerPlace::Database { address: address.to_owned(), organisation };
        Ok(DataFolder { ledger, ..self })
    }

    /// Names the file that arrived as the place of the ledger, by renaming the file that names the database.
    pub(super) fn name_file(self) -> Result<DataFolder, OfficeError> {
        std::fs::rename(self.path.join(DATABASE), self.path.join(LEFT_DATABASE))
            .and_then(|()| private_file::sync_folder(&self.path))
            .map_err(|e| self.refuse(&format!("the ledger was not moved: {DATABASE}: {e}")))?;
        let folder = DataFolder { ledger: LedgerPlace::File(self.ledger_file()), ..self };
        folder.end_naming_of_file()?;
        Ok(folder)
    }

    /// Gives a ledger that arrived and is named its ordinary name. What was interrupted before that is done here.
    fn end_naming_of_file(&self) -> Result<(), OfficeError> {
        let arriving = self.arriving_file();
        let is_named = !self.path.join(DATABASE).exists() && self.path.join(LEFT_DATABASE).exists();
        if !is_named || self.ledger_file().exists() || !arriving.exists() {
            return Ok(());
        }
        match std::fs::rename(arriving, self.ledger_file()) {
            // Another command was faster.
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => Ok(()),
            renamed => renamed.and_then(|()| private_file::sync_folder(&self.path)),
        }
        .map_err(|e| self.refuse(&format!("{ARRIVING} cannot be named ledger.db: {e}")))
    }

    /// Sets aside the file of a ledger that is in a database now. Nothing is lost, and nobody takes it for the ledger.
    pub(super) fn put_old_file_away(&self, now: UtcMillis) -> Result<(), OfficeError> {
        let file = self.ledger_file();
        if !self.has_database() || !file.exists() {
            return Ok(());
        }
        let away = self.path.join(format!("{MOVED}{}.db", now.rfc3339().replace(':', "")));
        // What was written last may stand beside the file, while somebody reads it.
        for end in ["-shm", "-wal", ""] {
            let beside = |path: &Path| {
                let mut name = path.as_os_str().to_owned();
                name.push(end);
                PathBuf::from(name)
            };
            match std::fs::rename(beside(&file), beside(&away)) {
                Err(error) if error.kind() != std::io::ErrorKind::NotFound => {
                    return Err(self.refuse(&format!("ledger.db cannot be set aside: {error}")));
                }
                _ => {}
            }
        }
        private_file::sync_folder(&self.path).map_err(|e| self.refuse(&e.to_string()))
    }

    /// Returns the database that the ledger was moved out of and that is yet to be marked as left.
    pub(super) fn left_database(&self) -> Option<(String, OrganisationId)> {
        named_in(&std::fs::read_to_string(self.path.join(LEFT_DATABASE)).ok()?)
    }

    /// Forgets that database once it is marked.
    pub(super) fn forget_left_database(&self) -> Result<(), OfficeError> {
        std::fs::remove_file(self.path.join(LEFT_DATABASE))
            .and_then(|()| private_file::sync_folder(&self.path))
            .map_err(|e| self.refuse(&format!("{LEFT_DATABASE}: {e}")))
    }

    /// Returns the path of a ledger that is moved into a file, until the folder names it.
    pub(super) fn arriving_file(&self) -> PathBuf {
        self.path.join(ARRIVING)
    }

    /// Returns where the ledger is.
    pub fn ledger_place(&self) -> LedgerPlace {
        self.ledger.clone()
    }

    /// Returns whether the ledger is in a database outside the folder.
    pub fn has_database(&self) -> bool {
        matches!(self.ledger, LedgerPlace::Database { .. })
    }

    /// Returns the path of the folder.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Returns the path of the organisation's key.
    pub fn key_file(&self) -> PathBuf {
        self.path.join("organisation.key")
    }

    /// Returns the path of the root's statements about the organisation's keys. The file holds no secrets.
    pub fn key_statements_file(&self) -> PathBuf {
        self.path.join("organisation.keys")
    }

    /// Returns the path of the ledger's database.
    pub fn ledger_file(&self) -> PathBuf {
        self.path.join("ledger.db")
    }

    /// Returns the path of the office database.
    pub fn database_file(&self) -> PathBuf {
        self.path.join("server.db")
    }

    /// Returns the path of the index. The index is derived and is built again when the file is missing.
    pub fn index_file(&self) -> PathBuf {
        self.path.join("index.db")
    }

    /// Returns the path of the office signer's key, which signs what is settled at the office.
    pub fn desk_key_file(&self) -> PathBuf {
        self.path.join("desk.key")
    }

    /// Returns the path of the folder with the photographs.
    pub fn photo_folder(&self) -> PathBuf {
        self.path.join("photos")
    }

    /// Returns the path of the folder with unfinished uploads.
    pub fn upload_folder(&self) -> PathBuf {
        self.path.join("uploads")
    }

    /// Returns the organisation's key. If the folder is new, the key is created.
    ///
    /// # Errors
    /// Returns [`OfficeError::Folder`] when the key cannot be read, or when there is a ledger without a key.
    pub fn organisation_key(&self, randomness: &mut dyn Randomness) -> Result<OrganisationKey, OfficeError> {
        let file = self.key_file();
        if !file.exists() {
            if self.key_statements_file().exists() {
                let why = "organisation.key is missing; put it back from its safe copy, or, if it is lost, name \
                           another with the root: farsiding key withdraw --why lost";
                return Err(self.refuse(why));
            }
            if self.ledger_file().exists() || self.has_database() {
                let why = "it holds a ledger but organisation.key is missing; put the key back from its safe \
                           copy (a new key could not vouch for this ledger)";
                return Err(self.refuse(why));
            }
            let made = OrganisationKey::random(randomness);
            match private_file::write_secret(&file, made.secret()) {
                Ok(()) => {}
                // Another process created the key first, so that key is used.
                Err(e) if e.kind() == std::io::ErrorKind::AlreadyExists => {}
                Err(e) => return Err(self.refuse(&e.to_string())),
            }
        }
        self.organisation_key_here()
    }

    /// Returns the organisation's key from the folder: the root key, or a working key with the root's
    /// statements about it.
    ///
    /// # Errors
    /// Returns [`OfficeError::Folder`] when the key cannot be read, or when the statements of the root it
    /// signs for are missing.
    pub fn organisation_key_here(&self) -> Result<OrganisationKey, OfficeError> {
        let (secret, signs_for) = key_files::read_signing(&self.key_file())
            .map_err(|e| self.refuse(&format!("organisation.key cannot be read: {e}")))?;
        let file = self.key_statements_file();
        let root = match signs_for {
            None if !file.exists() => return Ok(OrganisationKey::from_secret(secret)),
            None => OrganisationKey::from_secret(secret).public(),
            Some(root) => root,
        };
        let keys = key_files::read_statements(&file).map_err(|e| {
            self.refuse(&format!(
                "{e}; put organisation.keys back from its copy, or take it from the root's keeper"
            ))
        })?;
        if keys.root() != root {
            return Err(
                self.refuse("organisation.keys is about another organisation's root than organisation.key")
            );
        }
        Ok(OrganisationKey::among(secret, keys))
    }

    /// Returns an error about this folder with the cause `why`.
    pub fn refuse(&self, why: &str) -> OfficeError {
        OfficeError::Folder { folder: self.path.display().to_string(), why: why.to_owned() }
    }
}

/// Returns the organisation's id: the first sixteen bytes of the SHA-256 digest of its public key.
pub fn organisation_id(key: &OrganisationKey) -> OrganisationId {
    OrganisationId::of_key(&key.public())
}
