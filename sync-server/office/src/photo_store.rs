//! Stores photographs: complete ones by digest through `object_store`, and unfinished uploads as plain files
//! that grow.
//!
//! Access rights and the upload protocol are in `http::photo_routes`.

use std::collections::HashMap;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use farsiding_core::ids::{DeviceId, Digest};
use futures_util::stream::BoxStream;
use object_store::local::LocalFileSystem;
use object_store::path::Path as ObjectPath;
use object_store::{ObjectStore, ObjectStoreExt as _, WriteMultipart};
use sha2::Digest as _;
use tokio::io::{AsyncReadExt as _, AsyncSeekExt as _, AsyncWriteExt as _};

use super::photo_uploads::Upload;
use farsiding_host::private_file;

/// Why a photograph could not be stored or read.
#[derive(Debug, thiserror::Error)]
pub enum PhotoError {
    /// The bytes differ from the announced photograph.
    #[error("the bytes received are not the photograph announced: their SHA-256 is {found}")]
    OtherBytes {
        /// The SHA-256 digest of the bytes received.
        found: Digest,
    },
    /// The photograph is not stored here.
    #[error("this photograph is not here")]
    NotHere,
    /// The disk is full.
    #[error("there is no room left for photographs")]
    Full,
    /// The file system or the object store failed.
    #[error("the photograph store failed: {0}")]
    Storage(String),
}

impl From<io::Error> for PhotoError {
    fn from(error: io::Error) -> Self {
        match error.kind() {
            io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => PhotoError::Full,
            _ => PhotoError::Storage(error.to_string()),
        }
    }
}

impl From<object_store::Error> for PhotoError {
    fn from(error: object_store::Error) -> Self {
        match error {
            object_store::Error::NotFound { .. } => PhotoError::NotHere,
            other => PhotoError::Storage(other.to_string()),
        }
    }
}

/// The lock held by the one request that writes to an upload.
type UploadLock = Arc<tokio::sync::Mutex<()>>;

/// The stores of complete photographs and of unfinished uploads.
pub struct PhotoStore {
    whole: Arc<dyn ObjectStore>,
    /// The folder of `whole`.
    folder: PathBuf,
    beginnings: PathBuf,
    busy: Mutex<HashMap<(Digest, DeviceId), UploadLock>>,
}

impl std::fmt::Debug for PhotoStore {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("PhotoStore").field("beginnings", &self.beginnings).finish_non_exhaustive()
    }
}

fn object_path(sha256: Digest) -> ObjectPath {
    let name = sha256.to_string();
    ObjectPath::from_iter([&name[..2], name.as_str()])
}

impl PhotoStore {
    /// Returns a store in local folders. A photograph is flushed to the disk before the store reports it as
    /// present.
    ///
    /// # Errors
    /// Returns [`PhotoError::Storage`] when a folder cannot be created.
    pub fn local(whole: &Path, beginnings: &Path) -> Result<PhotoStore, PhotoError> {
        private_file::make_private_folder(whole)?;
        private_file::make_private_folder(beginnings)?;
        let folder = whole.to_owned();
        let whole = LocalFileSystem::new_with_prefix(whole)?.with_fsync(true);
        Ok(PhotoStore {
            whole: Arc::new(whole),
            folder,
            beginnings: beginnings.to_owned(),
            busy: Mutex::new(HashMap::new()),
        })
    }

    /// Returns a store for reading only. Missing folders are not created.
    ///
    /// # Errors
    /// Returns [`PhotoError::Storage`] when the folder cannot be read.
    pub fn to_read(whole: &Path, beginnings: &Path) -> Result<PhotoStore, PhotoError> {
        // If the folder is missing, its parent is opened instead, in which no photograph is found.
        let there = if whole.is_dir() { whole } else { whole.parent().unwrap_or(whole) };
        Ok(PhotoStore {
            whole: Arc::new(LocalFileSystem::new_with_prefix(there)?),
            folder: whole.to_owned(),
            beginnings: beginnings.to_owned(),
            busy: Mutex::new(HashMap::new()),
        })
    }

    /// Returns the lock of one upload. Two requests that write to the same file would damage it.
    pub fn lock_of(&self, sha256: Digest, device: DeviceId) -> UploadLock {
        let mut busy = self.busy.lock().unwrap_or_else(PoisonError::into_inner);
        busy.retain(|_, lock| Arc::strong_count(lock) > 1);
        Arc::clone(busy.entry((sha256, device)).or_default())
    }

    fn beginning_file(&self, sha256: Digest, device: DeviceId) -> PathBuf {
        self.beginnings.join(format!("{sha256}-{device}"))
    }

    /// Renames unfinished uploads of an earlier version, which named them by the photograph alone, so that
    /// their names include the sending device.
    ///
    /// # Errors
    /// Returns [`PhotoError::Storage`] when a file cannot be renamed.
    pub fn adopt(&self, uploads: &[Upload]) -> Result<(), PhotoError> {
        for upload in uploads {
            let before = self.beginnings.join(upload.sha256.to_string());
            let now = self.beginning_file(upload.sha256, upload.device);
            if before.is_file() && !now.exists() {
                std::fs::rename(before, now)?;
            }
        }
        Ok(())
    }

    /// Returns how many bytes of an upload have been received.
    ///
    /// # Errors
    /// Returns [`PhotoError::Storage`] when the file cannot be read.
    pub async fn received(&self, sha256: Digest, device: DeviceId) -> Result<u64, PhotoError> {
        match tokio::fs::metadata(self.beginning_file(sha256, device)).await {
            Ok(metadata) => Ok(metadata.len()),
            Err(e) if e.kind() == io::ErrorKind::NotFound => Ok(0),
            Err(e) => Err(e.into()),
        }
    }

    /// Opens the file of an upload to append to it.
    ///
    /// # Errors
    /// Returns [`PhotoError::Storage`] when the file cannot be opened.
    pub async fn go_on(&self, sha256: Digest, device: DeviceId) -> Result<Beginning, PhotoError> {
        let path = self.beginning_file(sha256, device);
        let mut options = tokio::fs::OpenOptions::new();
        #[cfg(unix)]
        options.mode(0o600);
        let mut file = options.create(true).truncate(false).write(true).open(&path).await?;
        let length = file.seek(io::SeekFrom::End(0)).await?;
        Ok(Beginning { file, started_at: length, length })
    }

    /// Checks a complete upload and moves it to the complete photographs. If the digest is wrong, the bytes
    /// are deleted and the upload can start again, because nobody signed for those bytes.
    ///
    /// # Errors
    /// Returns [`PhotoError::OtherBytes`] for a wrong digest, or [`PhotoError::Storage`].
    pub async fn complete(&self, sha256: Digest, device: DeviceId) -> Result<(), PhotoError> {
        let path = self.beginning_file(sha256, device);
        let mut file = tokio::fs::File::open(&path).await?;
        let mut upload = WriteMultipart::new(self.whole.put_multipart(&object_path(sha256)).await?);
        let (mut hash, mut piece) = (sha2::Sha256::new(), vec![0u8; 256 * 1024]);
        loop {
            let read = file.read(&mut piece).await?;
            if read == 0 {
                break;
            }
            hash.update(&piece[..read]);
            upload.write(&piece[..read]);
            upload.wait_for_capacity(2).await?;
        }
        let found = Digest(hash.finalize().into());
        if found != sha256 {
            upload.abort().await?;
            tokio::fs::remove_file(&path).await?;
            return Err(PhotoError::OtherBytes { found });
        }
        upload.finish().await?;
        private_file::narrow(&self.folder.join(object_path(sha256).as_ref()))?;
        Ok(())
    }

    /// Deletes the file of an upload whose photograph is stored completely.
    ///
    /// # Errors
    /// Returns [`PhotoError::Storage`] when the file cannot be deleted.
    pub async fn clear_beginning(&self, sha256: Digest, device: DeviceId) -> Result<(), PhotoError> {
        match tokio::fs::remove_file(self.beginning_file(sha256, device)).await {
            Err(e) if e.kind() != io::ErrorKind::NotFound => Err(e.into()),
            _ => Ok(()),
        }
    }

    /// Returns the length and the bytes of a complete photograph.
    ///
    /// # Errors
    /// Returns [`PhotoError::NotHere`] or [`PhotoError::Storage`].
    pub async fn read(
        &self,
        sha256: Digest,
    ) -> Result<(u64, BoxStream<'static, object_store::Result<axum::body::Bytes>>), PhotoError> {
        let found = self.whole.get(&object_path(sha256)).await?;
        Ok((found.meta.size, found.into_stream()))
    }
}

/// The file of an upload, opened for appending.
#[derive(Debug)]
pub struct Beginning {
    file: tokio::fs::File,
    started_at: u64,
    length: u64,
}

impl Beginning {
    /// Returns the current length of the file, in bytes.
    pub const fn length(&self) -> u64 {
        self.length
    }

    /// Appends bytes.
    ///
    /// # Errors
    /// Returns [`PhotoError::Storage`] when the file cannot be written.
    pub async fn add(&mut self, bytes: &[u8]) -> Result<(), PhotoError> {
        self.file.write_all(bytes).await?;
        self.length += bytes.len() as u64;
        Ok(())
    }

    /// Flushes the appended bytes to the disk and returns the length of the file.
    ///
    /// # Errors
    /// Returns [`PhotoError::Storage`] when the file cannot be flushed.
    pub async fn keep(mut self) -> Result<u64, PhotoError> {
        self.file.flush().await?;
        self.file.sync_data().await?;
        Ok(self.length)
    }

    /// Removes the bytes that were appended since the file was opened.
    ///
    /// # Errors
    /// Returns [`PhotoError::Storage`] when the file cannot be shortened.
    pub async fn take_back(mut self) -> Result<(), PhotoError> {
        self.file.flush().await?;
        self.file.set_len(self.started_at).await?;
        Ok(())
    }
}
