//! Secrets on the disk: written once, whole or not at all, readable by their owner alone.
//!
//! Called by the office for the organisation's key and by devices for theirs.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Write as _};
use std::path::Path;

/// Makes a folder only its owner can look into, with its parents; one that exists is left as it is.
///
/// # Errors
/// The file system's.
pub fn make_private_folder(path: &Path) -> io::Result<()> {
    let mut builder = fs::DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::DirBuilderExt as _;
        builder.mode(0o700);
    }
    builder.create(path)
}

/// Writes a new file, mode 0600, and returns once it and its name are on the disk. Never replaces one.
///
/// # Errors
/// [`io::ErrorKind::AlreadyExists`] when there is one by that name; otherwise the file system's.
pub fn write_new(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let folder = folder_of(path);
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    let draft = folder.join(format!(".{name}.{}", std::process::id()));
    let mut options = OpenOptions::new();
    options.write(true).create(true).truncate(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt as _;
        options.mode(0o600);
    }
    let outcome = (|| {
        let mut file = options.open(&draft)?;
        file.write_all(bytes)?;
        file.sync_all()?;
        fs::hard_link(&draft, path)
    })();
    let _ = fs::remove_file(&draft); // a left-over draft holds nothing anybody reads
    outcome?;
    sync_folder(folder)
}

/// The folder a file stands in; a bare name stands in the current one.
pub fn folder_of(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

/// Puts a folder's names on the disk.
///
/// # Errors
/// The file system's.
pub fn sync_folder(folder: &Path) -> io::Result<()> {
    if cfg!(unix) { File::open(folder)?.sync_all() } else { Ok(()) }
}

/// Reads a secret of 32 bytes written as hexadecimal digits.
///
/// # Errors
/// The file system's, or [`io::ErrorKind::InvalidData`] when it is anything else.
pub fn read_secret(path: &Path) -> io::Result<[u8; 32]> {
    let text = fs::read_to_string(path)?;
    farsiding_core::ids::Digest::read(&text)
        .map(|digest| digest.0)
        .map_err(|_| io::Error::new(io::ErrorKind::InvalidData, "it does not hold a key"))
}

/// Writes a secret of 32 bytes as hexadecimal digits into a new file.
///
/// # Errors
/// As [`write_new`].
pub fn write_secret(path: &Path, secret: [u8; 32]) -> io::Result<()> {
    write_new(path, format!("{}\n", farsiding_core::ids::Digest(secret)).as_bytes())
}
