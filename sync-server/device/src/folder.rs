//! The device's folder: its key, its book, its photographs, and the settings kept between commands.
//!
//! The folder holds `device.key`, `record.db` and `photos/`, each readable only by its owner (0600). Only one
//! process at a time may make entries, because each entry of a device follows the one before. The process
//! that opens the book therefore holds `device.lock`.

use std::fs::File;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use farsiding_core::book::{Book, BookParts};
use farsiding_core::entry::DeviceKey;
use farsiding_core::ids::{Digest, OperatorId};
use farsiding_core::store::{Durability, SqliteStore, Write};
use serde_json::json;

use super::DeviceError;
use farsiding_host::CommandOutput;
use farsiding_host::private_file;
use farsiding_host::{ProcessClock, SystemRandomness};

const OPERATOR: &str = "device/operator";
const SERVER: &str = "device/server";
const NAME: &str = "device/name";
const AUTHORITY_FILE: &str = "device/authority_file";

/// How long a command waits for another command to release the lock.
const PATIENCE: Duration = Duration::from_secs(20);

/// An opened device folder, whose lock is held.
#[derive(Debug)]
pub struct DeviceFolder {
    path: PathBuf,
    book: Book,
    lock: File,
    speaking: Option<OperatorId>,
}

fn failed(path: &Path, why: impl std::fmt::Display) -> DeviceError {
    DeviceError::Folder(format!("the device folder {} cannot be used: {why}", path.display()))
}

/// Creates a device: a folder with a new key.
///
/// # Errors
/// Returns a [`DeviceError`] when the folder holds a device already or cannot be written.
pub fn init(path: &Path, name: Option<&str>, operator: Option<&str>) -> Result<CommandOutput, DeviceError> {
    private_file::make_private_folder(path).map_err(|e| failed(path, e))?;
    let mut randomness = SystemRandomness::new().map_err(|e| failed(path, e))?;
    let key = DeviceKey::random(&mut randomness);
    match private_file::write_secret(&path.join("device.key"), key.secret()) {
        Err(e) if e.kind() == std::io::ErrorKind::AlreadyExists => {
            let why = "there is a device in it already; its records are kept";
            return Err(DeviceError::Refused(format!("{}: {why}", path.display())));
        }
        outcome => outcome.map_err(|e| failed(path, e))?,
    }
    let mut folder = DeviceFolder::open(path)?;
    if let Some(name) = name {
        folder.remember(NAME, name)?;
    }
    if let Some(operator) = operator {
        folder.remember(OPERATOR, operator)?;
    }
    let id = folder.book.device();
    let text = format!(
        "Device {} is ready in {}. Next: `farsiding device enrol` with a code from the office \
         (it records without one, but nothing is at the office until then).",
        id.short(),
        path.display()
    );
    Ok(CommandOutput::new(text, json!({ "device": id.to_string(), "dir": path.display().to_string() })))
}

impl DeviceFolder {
    /// Opens a device's folder and takes its lock.
    ///
    /// # Errors
    /// Returns [`DeviceError::Folder`] when there is no device in the folder or the lock is not free in time.
    pub fn open(path: &Path) -> Result<DeviceFolder, DeviceError> {
        let key_file = path.join("device.key");
        if !key_file.exists() {
            return Err(failed(
                path,
                "there is no device in it; make one with `farsiding device init --dir DIR`",
            ));
        }
        let secret =
            private_file::read_secret(&key_file).map_err(|e| failed(path, format!("device.key: {e}")))?;
        let lock = take_lock(&path.join("device.lock")).map_err(|e| failed(path, e))?;
        let file = path.join("record.db");
        private_file::make_private(&file).map_err(|e| failed(path, e))?;
        private_file::make_private(&key_file).map_err(|e| failed(path, e))?;
        // Earlier versions left the permissions of photographs to the umask.
        let _ = private_file::narrow(&path.join("photos"));
        let file = file.to_str().ok_or_else(|| failed(path, "its name is not UTF-8"))?;
        let store = SqliteStore::open(file, Durability::WriteAheadLog)?;
        let book = Book::open(BookParts {
            store: Box::new(store),
            key: DeviceKey::from_secret(secret),
            clock: Box::new(ProcessClock::from_environment().map_err(|e| failed(path, e))?),
            randomness: Box::new(SystemRandomness::new().map_err(|e| failed(path, e))?),
        });
        Ok(DeviceFolder { path: path.to_owned(), book, lock, speaking: None })
    }

    /// Returns the book.
    pub fn book(&mut self) -> &mut Book {
        &mut self.book
    }

    /// Returns the book for reading only.
    pub const fn read(&self) -> &Book {
        &self.book
    }

    /// Releases the lock while `work` waits for the network, so that other commands can record. `work` must
    /// not use the book.
    ///
    /// # Errors
    /// Returns [`DeviceError::Folder`] when the lock cannot be taken again.
    pub fn meanwhile<T>(&mut self, work: impl FnOnce() -> T) -> Result<T, DeviceError> {
        self.lock.unlock().map_err(|e| failed(&self.path, e))?;
        let outcome = work();
        wait_for_lock(&self.lock).map_err(|e| failed(&self.path, e))?;
        Ok(outcome)
    }

    /// Sets who makes the entries of this command.
    pub fn speak_as(&mut self, operator: Option<String>) {
        self.speaking = operator.map(OperatorId);
    }

    /// Returns who makes the entries: the operator of this command, or else the remembered one.
    ///
    /// # Errors
    /// Returns a [`DeviceError`] when the device's folder cannot be read or written.
    pub fn operator(&self) -> Result<OperatorId, DeviceError> {
        if let Some(operator) = &self.speaking {
            return Ok(operator.clone());
        }
        // The book refuses an empty operator with a message that says what to do.
        Ok(OperatorId(self.recall(OPERATOR)?.unwrap_or_default()))
    }

    /// Remembers who makes the entries of later commands.
    ///
    /// # Errors
    /// Returns a [`DeviceError`] when the device's folder cannot be read or written.
    pub fn remember_operator(&mut self, code: &str) -> Result<(), DeviceError> {
        self.remember(OPERATOR, code.trim())
    }

    /// Returns the office server's address.
    ///
    /// # Errors
    /// Returns a [`DeviceError`] when the device's folder cannot be read or written.
    pub fn server(&self) -> Result<Option<String>, DeviceError> {
        self.recall(SERVER)
    }

    /// Remembers the office server's address, and the certificate by which to trust the server if its own is
    /// not from a public authority.
    ///
    /// # Errors
    /// Returns a [`DeviceError`] when the device's folder cannot be read or written.
    pub fn remember_server(&mut self, url: &str, authority: Option<&str>) -> Result<(), DeviceError> {
        self.remember(SERVER, url.trim().trim_end_matches('/'))?;
        if let Some(file) = authority {
            self.remember(AUTHORITY_FILE, file)?;
        }
        Ok(())
    }

    /// Returns the certificate file by which the server is trusted, if its own certificate is not from a
    /// public authority.
    ///
    /// # Errors
    /// Returns a [`DeviceError`] when the device's folder cannot be read or written.
    pub fn authority_file(&self) -> Result<Option<String>, DeviceError> {
        self.recall(AUTHORITY_FILE)
    }

    /// Returns the device's name for itself.
    ///
    /// # Errors
    /// Returns a [`DeviceError`] when the device's folder cannot be read or written.
    pub fn own_name(&self) -> Result<String, DeviceError> {
        Ok(self.recall(NAME)?.unwrap_or_default())
    }

    /// Returns the device's certificate, with its name at the organisation and its rights, once the device is
    /// enrolled.
    ///
    /// # Errors
    /// Returns a [`DeviceError`] when the device's folder cannot be read or written.
    pub fn certified(&self) -> Result<Option<farsiding_core::entry::Certificate>, DeviceError> {
        let Some(keys) = self.book.organisation_keys()? else { return Ok(None) };
        let own = self.book.store().certificates()?.into_iter().find(|(id, _)| *id == self.book.device());
        Ok(own.and_then(|(_, bytes)| farsiding_core::entry::Certificate::open(&bytes, &keys).ok()))
    }

    /// Returns the path of a photograph's file.
    pub fn photo_file(&self, sha256: Digest) -> PathBuf {
        let name = sha256.to_string();
        self.path.join("photos").join(&name[..2]).join(name)
    }

    fn remember(&mut self, key: &str, text: &str) -> Result<(), DeviceError> {
        self.book.store_mut().commit(&[Write::Value { key, value: text.as_bytes() }])?;
        Ok(())
    }

    fn recall(&self, key: &str) -> Result<Option<String>, DeviceError> {
        let value = self.book.store().value(key)?;
        Ok(value.and_then(|bytes| String::from_utf8(bytes).ok()).filter(|text| !text.is_empty()))
    }
}

fn take_lock(path: &Path) -> std::io::Result<File> {
    let file = private_file::open_lock(path)?;
    wait_for_lock(&file)?;
    Ok(file)
}

fn wait_for_lock(file: &File) -> std::io::Result<()> {
    let began = Instant::now();
    loop {
        match file.try_lock() {
            Ok(()) => return Ok(()),
            Err(std::fs::TryLockError::WouldBlock) if began.elapsed() < PATIENCE => {
                std::thread::sleep(Duration::from_millis(20));
            }
            Err(std::fs::TryLockError::WouldBlock) => {
                let why = "another farsiding command has been using it for a while; wait for it or end it";
                return Err(std::io::Error::new(std::io::ErrorKind::WouldBlock, why));
            }
            Err(std::fs::TryLockError::Error(error)) => return Err(error),
        }
    }
}
