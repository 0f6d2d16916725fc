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

/// Makes a file readable by its owner alone, whatever the folder or the umask says; makes it, empty, where there is
/// none. For a database it is called before the database is opened: SQLite gives the files beside it the same mode.
///
/// # Errors
/// The file system's.
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
            // A write-protected copy is read as it is.
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

/// Takes a file, or a folder and everything in it, from everybody but its owner. What vanishes meanwhile is no error;
/// links are left alone.
///
/// # Errors
/// The file system's, for the first that cannot be narrowed; the others are narrowed all the same.
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

/// From now on, what this process makes is its owner's alone: also what libraries make, and what stands for a moment.
/// For a process that writes nothing for others, as the server is.
pub fn keep_new_files_private() {
    #[cfg(unix)]
    {
        let private = rustix::fs::Mode::from_bits_truncate(0o077);
        let _before = rustix::process::umask(private);
    }
}

/// Says whether it was a folder.
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

/// Opens a file that stands for a claim on a folder, its owner's alone.
///
/// # Errors
/// The file system's.
pub fn open_lock(path: &Path) -> io::Result<File> {
    make_private(path)?;
    OpenOptions::new().read(true).write(true).open(path)
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
/// As [`write_new`].
pub fn write_secret(path: &Path, secret: [u8; 32]) -> io::Result<()> {
    write_new(path, format!("{}\n", farsiding_core::ids::Digest(secret)).as_bytes())
}
