//! The office's data folder: where each thing lies, and the organisation's key.
//!
//! Every file in it is its owner's alone (0600), and one server at a time runs on it. `organisation.key` is made at the first start: whoever
//! copies it can sign receipts and certificates. It is the root until that is taken off the server (`keys`), and then a
//! key that signs in its place, beside `organisation.keys`, which says so.

use std::fs::{File, TryLockError};
use std::io::Write as _;
use std::path::{Path, PathBuf};

use farsiding_core::entry::{OrganisationKey, Trusts as _};
use farsiding_core::ids::{OrganisationId, Randomness};

use super::OfficeError;
use super::key_files;
use farsiding_host::private_file;

/// The file whose lock says that a server runs here.
pub const LOCK: &str = "server.lock";
/// The file written now and then to see that the folder can be written to.
pub const PROBE: &str = "writable.probe";

/// The claim of a running server on its folder; it ends with the process, however that ends.
#[derive(Debug)]
pub struct Held {
    _lock: File,
}

/// An office's data folder.
#[derive(Debug, Clone)]
pub struct DataFolder {
    path: PathBuf,
}

impl DataFolder {
    /// Opens the folder, making it where there is none.
    ///
    /// # Errors
    /// [`OfficeError::Folder`].
    pub fn open_or_make(path: &Path) -> Result<DataFolder, OfficeError> {
        let folder = DataFolder { path: path.to_owned() };
        private_file::make_private_folder(path).map_err(|e| folder.refuse(&e.to_string()))?;
        Ok(folder)
    }

    /// Opens a folder that a server was started in before.
    ///
    /// # Errors
    /// [`OfficeError::Folder`] when none was.
    pub fn open(path: &Path) -> Result<DataFolder, OfficeError> {
        let folder = DataFolder { path: path.to_owned() };
        if folder.key_file().exists() || folder.key_statements_file().exists() {
            Ok(folder)
        } else {
            let why =
                "there is no organisation key in it; start `farsiding serve` there once, or check the path";
            Err(folder.refuse(why))
        }
    }

    /// Claims the folder for the one server that may run on it. Other commands open it all the same: what they do
    /// is one transaction each.
    ///
    /// # Errors
    /// [`OfficeError::Folder`] when a server runs on it already.
    pub fn hold(&self) -> Result<Held, OfficeError> {
        let path = self.path.join(LOCK);
        let lock = private_file::open_lock(&path).map_err(|e| self.refuse(&format!("{LOCK}: {e}")))?;
        match lock.try_lock() {
            Ok(()) => {
                // Who holds it, for whoever is refused; the lock is what counts.
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
                    "another farsiding server{who} runs on it; stop that one first, since two would each sign a \
                     history of their own"
                )))
            }
            Err(TryLockError::Error(error)) => Err(self.refuse(&format!("{LOCK} cannot be locked: {error}"))),
        }
    }

    /// Takes everything in the folder from everybody but its owner: files of an earlier version, or put back by hand.
    ///
    /// # Errors
    /// The file system's, for the first that stays readable to others.
    pub fn narrow(&self) -> std::io::Result<()> {
        let mut outcome = Ok(());
        for entry in std::fs::read_dir(&self.path)? {
            outcome = outcome.and(private_file::narrow(&entry?.path()));
        }
        outcome
    }

    /// A folder by that name, whatever is in it.
    pub(super) fn at(path: &Path) -> DataFolder {
        DataFolder { path: path.to_owned() }
    }

    /// The folder itself.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// The organisation's key.
    pub fn key_file(&self) -> PathBuf {
        self.path.join("organisation.key")
    }

    /// What the root said of the organisation's keys; nothing in it is secret.
    pub fn key_statements_file(&self) -> PathBuf {
        self.path.join("organisation.keys")
    }

    /// The ledger's file.
    pub fn ledger_file(&self) -> PathBuf {
        self.path.join("ledger.db")
    }

    /// The database's file.
    pub fn database_file(&self) -> PathBuf {
        self.path.join("server.db")
    }

    /// The index's file: derived, made again when it is missing.
    pub fn index_file(&self) -> PathBuf {
        self.path.join("index.db")
    }

    /// The key of the office's own desk, with which it signs what is settled at the office.
    pub fn desk_key_file(&self) -> PathBuf {
        self.path.join("desk.key")
    }

    /// The photographs' folder.
    pub fn photo_folder(&self) -> PathBuf {
        self.path.join("photos")
    }

    /// Where photographs on their way in are kept.
    pub fn upload_folder(&self) -> PathBuf {
        self.path.join("uploads")
    }

    /// The organisation's key, made now if the folder is new.
    ///
    /// # Errors
    /// [`OfficeError::Folder`] when it cannot be read, or when there is a ledger but no key.
    pub fn organisation_key(&self, randomness: &mut dyn Randomness) -> Result<OrganisationKey, OfficeError> {
        let file = self.key_file();
        if !file.exists() {
            if self.key_statements_file().exists() {
                let why = "organisation.key is missing; put it back from its safe copy, or, if it is lost, name \
                           another with the root: farsiding key withdraw --why lost";
                return Err(self.refuse(why));
            }
            if self.ledger_file().exists() {
                let why = "it holds a ledger but organisation.key is missing; put the key back from its safe \
                           copy (a new key could not vouch for this ledger)";
                return Err(self.refuse(why));
            }
            let made = OrganisationKey::random(randomness);
            match private_file::write_secret(&file, made.secret()) {
                Ok(()) => {}
                // Another process was quicker; its key is the one.
                Err(e) if e.kind() == std::io::ErrorKind::AlreadyExists => {}
                Err(e) => return Err(self.refuse(&e.to_string())),
            }
        }
        self.organisation_key_here()
    }

    /// The organisation's key as it lies here: the root, or a key that signs in its place, with what the root said.
    ///
    /// # Errors
    /// [`OfficeError::Folder`] when it cannot be read, or when it signs for a root whose statements are not here.
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

    /// An error about this folder.
    pub fn refuse(&self, why: &str) -> OfficeError {
        OfficeError::Folder { folder: self.path.display().to_string(), why: why.to_owned() }
    }
}

/// The organisation's id: the first sixteen bytes of the SHA-256 of its public key.
pub fn organisation_id(key: &OrganisationKey) -> OrganisationId {
    OrganisationId::of_key(&key.public())
}
