//! A backup as one file: a tar stream encrypted to one or more public keys (age, X25519), so that whoever
//! finds the file cannot read it. Without recipients the file is the plain tar stream.
//!
//! The list of files with their lengths and SHA-256 digests is the last member of the stream. A truncated
//! file has no list and is refused; age also refuses a file whose end is missing. Called by the command line
//! and by `backup_schedule`.

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{self, BufReader, BufWriter, Read, Write};
use std::path::Path;

use age::x25519;
use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::Digest;
use sha2::{Digest as _, Sha256};

use super::backup::{
    BackupError, LIST, List, Listed, Outcome, Progress, SNAPSHOTS, create, failed, files_of, is_within,
    list_from, mark_as_restored, put_in_place, readable_files_of, same, snapshot,
};
use super::data_folder::DataFolder;
use super::reading;
use farsiding_host::private_file;

/// The first bytes of an age file.
const AGE: &[u8] = b"age-encryption.org/v1";
/// The largest list that is read, in bytes.
const LARGEST_LIST: u64 = 512 * 1024 * 1024;

/// The public keys whose owners can open a backup.
#[derive(Debug, Clone, Default)]
pub struct Recipients(Vec<x25519::Recipient>);

impl Recipients {
    /// Parses public keys of the form `age1…`.
    ///
    /// # Errors
    /// Returns [`BackupError::Key`] with the first text that is not a key.
    pub fn read<'t>(texts: impl IntoIterator<Item = &'t str>) -> Result<Recipients, BackupError> {
        let mut all = Vec::new();
        for text in texts.into_iter().map(str::trim) {
            let recipient = text.parse().map_err(|why: &str| {
                BackupError::Key(format!(
                    "\u{201c}{text}\u{201d} is no public key for backups (age1…): {why}"
                ))
            })?;
            all.push(recipient);
        }
        Ok(Recipients(all))
    }

    /// Adds the public keys in a file, one per line. Lines that begin with `#` are comments.
    ///
    /// # Errors
    /// Returns a [`BackupError`] when the file cannot be read or a line is not a key.
    pub fn with_file(self, file: &Path) -> Result<Recipients, BackupError> {
        let text = fs::read_to_string(file).map_err(failed(file))?;
        let lines = text.lines().map(str::trim).filter(|line| !line.is_empty() && !line.starts_with('#'));
        let more = Recipients::read(lines)?;
        if more.0.is_empty() {
            return Err(BackupError::Key(format!("{} names nobody", file.display())));
        }
        Ok(Recipients(self.0.into_iter().chain(more.0).collect()))
    }

    /// Returns whether there are no recipients.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

/// A reader or writer that counts and digests the bytes that pass through.
struct Measured<T> {
    inner: T,
    digest: Sha256,
    length: u64,
}

impl<T> Measured<T> {
    fn new(inner: T) -> Measured<T> {
        Measured { inner, digest: Sha256::new(), length: 0 }
    }

    fn listed(self) -> Listed {
        Listed { length: self.length, sha256: Digest(self.digest.finalize().into()) }
    }
}

impl<T: Read> Read for Measured<T> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let read = self.inner.read(buffer)?;
        self.digest.update(buffer.get(..read).unwrap_or_default());
        self.length += read as u64;
        Ok(read)
    }
}

/// Writes a backup of `data` to the file `to`, which must not exist.
///
/// # Errors
/// Returns a [`BackupError`]; no file is left at `to`.
pub fn back_up(
    data: &DataFolder,
    to: &Path,
    recipients: &Recipients,
    now: UtcMillis,
    progress: Progress<'_>,
) -> Result<Outcome, BackupError> {
    if to.exists() {
        let why = "there is a file already; a backup replaces none".to_owned();
        return Err(BackupError::File { path: to.display().to_string(), why });
    }
    let name = to.file_name().unwrap_or_default().to_string_lossy().into_owned();
    let draft = to.with_file_name(format!(".{name}.unfinished"));
    let _ = fs::remove_file(&draft); // left by an interrupted attempt
    let outcome = fill(data, &draft, recipients, now, progress)
        .and_then(|outcome| fs::rename(&draft, to).map(|()| outcome).map_err(failed(to)));
    match outcome {
        Ok(outcome) => {
            let folder = private_file::folder_of(to);
            private_file::sync_folder(folder).map_err(failed(folder))?;
            Ok(Outcome { folder: to.to_owned(), ..outcome })
        }
        Err(error) => {
            let _ = fs::remove_file(&draft); // a draft has no end, so nobody takes it for a backup
            Err(error)
        }
    }
}

fn fill(
    data: &DataFolder,
    draft: &Path,
    recipients: &Recipients,
    now: UtcMillis,
    progress: Progress<'_>,
) -> Result<Outcome, BackupError> {
    let file = BufWriter::with_capacity(256 * 1024, create(draft)?);
    let (outcome, file) = if recipients.is_empty() {
        put_all((data, readable_files_of(data)?), file, now, progress, draft)?
    } else {
        let keys = recipients.0.iter().map(|one| one as &dyn age::Recipient);
        let unusable =
            |why: &dyn std::fmt::Display| BackupError::Key(format!("it cannot be encrypted: {why}"));
        let encryptor = age::Encryptor::with_recipients(keys).map_err(|why| unusable(&why))?;
        let stream = encryptor.wrap_output(file).map_err(failed(draft))?;
        let (outcome, stream) = put_all((data, files_of(data)?), stream, now, progress, draft)?;
        (outcome, stream.finish().map_err(failed(draft))?)
    };
    let file = file.into_inner().map_err(|why| failed(draft)(why.into_error()))?;
    file.sync_all().map_err(failed(draft))?;
    Ok(outcome)
}

/// Writes every file into the stream, databases as snapshots, and the list at the end.
fn put_all<W: Write>(
    (data, names): (&DataFolder, Vec<String>),
    into: W,
    now: UtcMillis,
    progress: Progress<'_>,
    draft: &Path,
) -> Result<(Outcome, W), BackupError> {
    let folder = data.path();
    let (databases, others): (Vec<String>, Vec<String>) =
        names.into_iter().partition(|name| name.ends_with(".db"));
    let total = databases.len() + others.len();
    let mut stream = tar::Builder::new(into);
    let mut files = BTreeMap::new();
    // The databases come first: every photograph that a snapshot refers to is then already on the disk.
    for (at, name) in databases.iter().chain(&others).enumerate() {
        progress(at, total, name);
        let from = folder.join(name);
        let listed = if name.ends_with(".db") {
            let mut beside = tempfile::Builder::new();
            beside.prefix(SNAPSHOTS);
            let place = if reading::is_write_protected(&from) {
                beside.tempdir()
            } else {
                beside.tempdir_in(folder) // on the same disk as the databases
            };
            let place = place.map_err(failed(folder))?;
            let copy = place.path().join("snapshot.db");
            snapshot(data, name, &copy)?;
            put(&mut stream, name, &copy, draft)?
        } else {
            put(&mut stream, name, &from, draft)?
        };
        files.insert(name.clone(), listed);
    }
    let bytes = files.values().map(|file: &Listed| file.length).sum();
    let count = files.len();
    let list = List { format: 1, made_at: now.rfc3339(), files };
    let text = serde_json::to_vec_pretty(&list).map_err(|e| failed(draft)(e.into()))?;
    let mut header = header_of(text.len() as u64);
    stream.append_data(&mut header, LIST, text.as_slice()).map_err(failed(draft))?;
    let into = stream.into_inner().map_err(failed(draft))?;
    Ok((Outcome { folder: draft.to_owned(), files: count, bytes, linked: 0 }, into))
}

fn header_of(length: u64) -> tar::Header {
    let mut header = tar::Header::new_gnu();
    header.set_size(length);
    header.set_mode(0o600);
    header
}

fn put<W: Write>(
    stream: &mut tar::Builder<W>,
    name: &str,
    from: &Path,
    draft: &Path,
) -> Result<Listed, BackupError> {
    let file = File::open(from).map_err(failed(from))?;
    let length = file.metadata().map_err(failed(from))?.len();
    // The tar header states the length, so of a file that grows meanwhile only that length is read.
    let mut measured = Measured::new(file.take(length));
    stream.append_data(&mut header_of(length), name, &mut measured).map_err(failed(draft))?;
    if measured.length != length {
        let why = "it became shorter while it was read".to_owned();
        return Err(BackupError::File { path: from.display().to_string(), why });
    }
    Ok(measured.listed())
}

/// Reads all members of a backup. `keep` receives the name and content of each file and returns its length
/// and digest; at the end all of them are compared with the list.
fn read_all(
    backup: &Path,
    identities: Option<&Path>,
    progress: Progress<'_>,
    mut keep: impl FnMut(&str, &mut dyn Read) -> Result<Listed, BackupError>,
) -> Result<(usize, u64), BackupError> {
    let damaged = |why: String| BackupError::Damaged { path: backup.display().to_string(), why };
    let stream = opened(backup, identities)?;
    let (mut found, mut list) = (BTreeMap::new(), None);
    let mut archive = tar::Archive::new(stream);
    for entry in archive.entries().map_err(|e| damaged(e.to_string()))? {
        let mut entry = entry.map_err(|e| damaged(e.to_string()))?;
        let name = entry.path().map_err(|e| damaged(e.to_string()))?.to_string_lossy().into_owned();
        if entry.header().entry_type() != tar::EntryType::Regular || !is_within(Path::new(&name)) {
            return Err(BackupError::Damaged { path: name, why: "not a name within it".to_owned() });
        }
        if list.is_some() || found.contains_key(&name) {
            return Err(damaged("something stands twice in it, or after its list".to_owned()));
        }
        if name == LIST {
            let mut text = Vec::new();
            entry.by_ref().take(LARGEST_LIST).read_to_end(&mut text).map_err(|e| damaged(e.to_string()))?;
            list = Some(list_from(&text)?);
            continue;
        }
        progress(found.len(), found.len() + 1, &name);
        let listed = keep(&name, &mut entry)?;
        found.insert(name, listed);
    }
    let list = list.ok_or_else(|| BackupError::NotABackup(backup.display().to_string()))?;
    for (name, listed) in &list.files {
        let found = found
            .get(name)
            .ok_or_else(|| BackupError::Damaged { path: name.clone(), why: "it is not in it".to_owned() })?;
        same(name, found, listed)?;
    }
    if found.len() != list.files.len() {
        return Err(damaged("it holds files that its list does not name".to_owned()));
    }
    Ok((found.len(), list.files.values().map(|file| file.length).sum()))
}

/// Returns the plain stream of a backup. An encrypted backup is decrypted with the keys in the file
/// `identities`.
fn opened(backup: &Path, identities: Option<&Path>) -> Result<Box<dyn Read>, BackupError> {
    let mut file = File::open(backup).map_err(failed(backup))?;
    let mut begins = Vec::new();
    Read::by_ref(&mut file).take(AGE.len() as u64).read_to_end(&mut begins).map_err(failed(backup))?;
    let file = BufReader::new(io::Cursor::new(begins.clone()).chain(file));
    if begins != AGE {
        return Ok(Box::new(file));
    }
    let Some(identities) = identities else {
        return Err(BackupError::Key(format!(
            "{} is encrypted; give the file with its secret key (AGE-SECRET-KEY-…): --identity FILE",
            backup.display()
        )));
    };
    let unusable = |why: &dyn std::fmt::Display| {
        BackupError::Key(format!("{} opens nothing: {why}", identities.display()))
    };
    let text = fs::read_to_string(identities).map_err(failed(identities))?;
    let mut keys: Vec<x25519::Identity> = Vec::new();
    for line in text.lines().map(str::trim).filter(|line| !line.is_empty() && !line.starts_with('#')) {
        keys.push(line.parse().map_err(|why: &str| unusable(&why))?);
    }
    if keys.is_empty() {
        return Err(unusable(&"there is no secret key in it"));
    }
    let decryptor = age::Decryptor::new_buffered(file)
        .map_err(|why| BackupError::Damaged { path: backup.display().to_string(), why: why.to_string() })?;
    let stream = decryptor.decrypt(keys.iter().map(|key| key as &dyn age::Identity)).map_err(|why| {
        BackupError::Key(format!("{} does not open {}: {why}", identities.display(), backup.display()))
    })?;
    Ok(Box::new(stream))
}

/// Reads every file of a backup and compares it with the list.
///
/// # Errors
/// Returns a [`BackupError`] when a file is missing, differs or cannot be read.
pub fn check(
    backup: &Path,
    identities: Option<&Path>,
    progress: Progress<'_>,
) -> Result<Outcome, BackupError> {
    let (files, bytes) = read_all(backup, identities, progress, |name, entry| {
        let mut measured = Measured::new(entry);
        io::copy(&mut measured, &mut io::sink()).map_err(|e| damaged_member(name, &e))?;
        Ok(measured.listed())
    })?;
    Ok(Outcome { folder: backup.to_owned(), files, bytes, linked: 0 })
}

fn damaged_member(name: &str, why: &io::Error) -> BackupError {
    BackupError::Damaged { path: name.to_owned(), why: why.to_string() }
}

/// Restores a backup into `data`, which must be new or empty.
///
/// # Errors
/// Returns a [`BackupError`]; `data` is then unchanged.
pub fn restore(
    backup: &Path,
    identities: Option<&Path>,
    data: &Path,
    progress: Progress<'_>,
) -> Result<Outcome, BackupError> {
    if fs::read_dir(data).is_ok_and(|mut entries| entries.next().is_some()) {
        return Err(BackupError::NotEmpty(data.display().to_string()));
    }
    let name = data.file_name().unwrap_or_default().to_string_lossy().into_owned();
    let making = data.with_file_name(format!(".{name}.unfinished"));
    let _ = fs::remove_dir_all(&making); // left by an interrupted attempt
    private_file::make_private_folder(&making).map_err(failed(&making))?;
    let read = read_all(backup, identities, progress, |name, entry| {
        let to = making.join(name);
        let folder = to.parent().unwrap_or(&making);
        private_file::make_private_folder(folder).map_err(failed(folder))?;
        let (mut measured, mut out) = (Measured::new(entry), create(&to)?);
        let mut buffer = vec![0u8; 256 * 1024];
        loop {
            let read = measured.read(&mut buffer).map_err(|e| damaged_member(name, &e))?;
            if read == 0 {
                break;
            }
            out.write_all(buffer.get(..read).unwrap_or_default()).map_err(failed(&to))?;
        }
        out.sync_all().map_err(failed(&to))?;
        Ok(measured.listed())
    });
    let outcome = match &read {
        Ok(_) => mark_as_restored(&making),
        Err(_) => Ok(()),
    };
    let (files, bytes) = match read {
        Ok(read) => {
            put_in_place(outcome, &making, data)?;
            read
        }
        Err(error) => {
            let _ = fs::remove_dir_all(&making); // decrypted data must not stay behind
            return Err(error);
        }
    };
    Ok(Outcome { folder: data.to_owned(), files, bytes, linked: 0 })
}
