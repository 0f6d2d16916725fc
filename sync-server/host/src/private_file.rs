//! Files with secrets: written once, atomically, and readable only by their owner.
//!
//! Called by the office for the organisation's key and by devices for their own keys.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Write as _};
use std::path::Path;

/// Creates a folder that only its owner can read, together with its parents. An existing folder is not
/// changed.
///
/// # Errors
/// Returns the error of the file system.
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

/// Writes a new file with mode 0600, and returns once the content and the name are on the disk. An existing
/// file is never replaced.
///
/// # Errors
/// Returns [`io::ErrorKind::AlreadyExists`] when a file of that name exists, or another error of the file
/// system.
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
    let _ = fs::remove_file(&draft); // nobody reads a draft that is left over
    outcome?;
    sync_folder(folder)
}

/// Returns the folder that holds a file. For a bare file name this is the current folder.
pub fn folder_of(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

/// Makes a file readable only by its owner, regardless of the folder and the umask. An empty file is created
/// if none exists. For a database, call this function before the database is opened: SQLite gives the files
/// beside the database the same mode.
///
/// # Errors
/// Returns the error of the file system.
pub fn make_private(path: &Path) -> io::Result<()> {
    let mut options = OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt as _;
        options.mode(0o600);
    }
    match options.open(path) {
        Err(e) if e.kind() == io::ErrorKind::AlreadyExists => {}
        outcome => return outcome.map(|_| ()),
    }
    for beside in ["", "-wal", "-shm", "-journal"] {
        let mut name = path.as_os_str().to_owned();
        name.push(beside);
        match narrow(Path::new(&name)) {
            // A write-protected copy of a database can still be read, so this error is accepted.
            Err(e)
                if matches!(
                    e.kind(),
                    io::ErrorKind::ReadOnlyFilesystem | io::ErrorKind::PermissionDenied
                ) => {}
            outcome => outcome?,
        }
    }
    Ok(())
}

/// Removes the permissions of everybody but the owner from a file, or from a folder and everything in it.
/// Files that vanish meanwhile are skipped, and symbolic links are not followed.
///
/// # Errors
/// Returns the file system's first error; the remaining files are processed all the same.
pub fn narrow(path: &Path) -> io::Result<()> {
    let (mut waiting, mut outcome) = (vec![path.to_owned()], Ok(()));
    while let Some(path) = waiting.pop() {
        let narrowed = narrow_one(&path).and_then(|is_folder| {
            if is_folder {
                for entry in fs::read_dir(&path)? {
                    waiting.push(entry?.path());
                }
            }
            Ok(())
        });
        match narrowed {
            Err(e) if e.kind() == io::ErrorKind::NotFound => {}
            Err(e) => {
                outcome = outcome.and(Err(io::Error::new(e.kind(), format!("{}: {e}", path.display()))))
            }
            Ok(()) => {}
        }
    }
    outcome
}

/// Sets the umask so that every file this process creates from now on is private to its owner. This covers
/// files made by libraries and short-lived files. Suitable only for a process that writes no files for other
/// users, such as the server.
pub fn keep_new_files_private() {
    #[cfg(unix)]
    {
        let private = rustix::fs::Mode::from_bits_truncate(0o077);
        let _before = rustix::process::umask(private);
    }
}

/// Removes the permissions of others from one path. Returns whether the path is a folder.
#[cfg(unix)]
fn narrow_one(path: &Path) -> io::Result<bool> {
    use std::os::unix::fs::PermissionsExt as _;
    let found = fs::symlink_metadata(path)?;
    let mode = found.permissions().mode();
    if !found.is_symlink() && mode & 0o077 != 0 {
        fs::set_permissions(path, fs::Permissions::from_mode(mode & 0o7700))?;
    }
    Ok(found.is_dir())
}

#[cfg(not(unix))]
fn narrow_one(path: &Path) -> io::Result<bool> {
    Ok(fs::symlink_metadata(path)?.is_dir())
}

/// Opens a lock file, which is readable only by its owner.
///
/// # Errors
/// Returns the error of the file system.
pub fn open_lock(path: &Path) -> io::Result<File> {
    make_private(path)?;
    OpenOptions::new().read(true).write(true).open(path)
}

/// Flushes the names in a folder to the disk.
///
/// # Errors
/// Returns the error of the file system.
pub fn sync_folder(folder: &Path) -> io::Result<()> {
    if cfg!(unix) { File::open(folder)?.sync_all() } else { Ok(()) }
}

/// Reads a secret of 32 bytes, written as hexadecimal digits.
///
/// # Errors
/// Returns the error of the file system, or [`io::ErrorKind::InvalidData`] when the file holds anything else.
pub fn read_secret(path: &Path) -> io::Result<[u8; 32]> {
    let text = fs::read_to_string(path)?;
    farsiding_core::ids::Digest::read(&text).map(|digest| digest.0).map_err(|_| {
        let found = text.trim_end().chars().count();
        let why = match found {
            64 => "it holds other characters than 0 to 9 and a to f".to_owned(),
            _ => format!("it holds {found} characters where a key has 64"),
        };
        io::Error::new(io::ErrorKind::InvalidData, format!("{why}; put it back from its safe copy"))
    })
}

/// Writes a secret of 32 bytes as hexadecimal digits into a new file.
///
/// # Errors
/// Returns the same errors as [`write_new`].
pub fn write_secret(path: &Path, secret: [u8; 32]) -> io::Result<()> {
    write_new(path, format!("{}\n", farsiding_core::ids::Digest(secret)).as_bytes())
}
