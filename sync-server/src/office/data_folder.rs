//! The office's data folder: where each thing lies, and the organisation's key.
//!
//! `organisation.key` (mode 0600) is made at the first start and never replaced: whoever loses it
//! loses the power to sign receipts and certificates, whoever copies it gains it.

use std::path::{Path, PathBuf};

use farsiding_core::entry::OrganisationKey;
use farsiding_core::ids::{OrganisationId, Randomness};

use super::OfficeError;
use crate::private_file;

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
        if folder.key_file().exists() {
            Ok(folder)
        } else {
            let why =
                "there is no organisation key in it; start `farsiding serve` there once, or check the path";
            Err(folder.refuse(why))
        }
    }

    /// A folder by that name, whatever is in it.
    pub(super) fn at(path: &Path) -> DataFolder {
        DataFolder { path: path.to_owned() }
    }

    /// The folder itself.
    pub fn path(&self) -> &Path {
        &self.path
    }

    fn key_file(&self) -> PathBuf {
        self.path.join("organisation.key")
    }

    /// The ledger's file.
    pub fn ledger_file(&self) -> PathBuf {
        self.path.join("ledger.db")
    }

    /// The register's file.
    pub fn register_file(&self) -> PathBuf {
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
        private_file::read_secret(&file)
            .map(OrganisationKey::from_secret)
            .map_err(|e| self.refuse(&format!("organisation.key cannot be read: {e}")))
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
