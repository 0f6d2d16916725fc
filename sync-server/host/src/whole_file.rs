//! Files that are handed out, whole or not at all: a disk that fills up halfway leaves what was there before.
//!
//! Called by the packet, the exports and the device's photographs.

use std::fs;
use std::io::{self, Write as _};
use std::path::Path;

use crate::private_file::{folder_of, sync_folder};

/// Writes `path` anew and returns once it and its name are on the disk; who may read it stays as it was.
/// What is no file (a pipe, say) is written to as it is.
///
/// # Errors
/// The file system's, with `path`; [`io::ErrorKind::PermissionDenied`] also where somebody made the file read-only.
/// What was at `path` is then still there.
pub fn write(path: &Path, bytes: &[u8]) -> io::Result<()> {
    anew(path, bytes).map_err(|refused| {
        let why = refused.kind(); // its text may speak of a draft nobody knows
        io::Error::new(why, format!("{} cannot be written: {why}", path.display()))
    })
}

fn anew(path: &Path, bytes: &[u8]) -> io::Result<()> {
    // A link stays one: the file it leads to is written.
    let path = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let found = fs::metadata(&path).ok();
    if found.as_ref().is_some_and(|found| !found.is_file()) {
        return fs::write(path, bytes);
    }
    let permissions = found.map(|found| found.permissions());
    if permissions.as_ref().is_some_and(fs::Permissions::readonly) {
        return Err(io::ErrorKind::PermissionDenied.into());
    }
    let folder = folder_of(&path);
    let mut draft = tempfile::Builder::new();
    #[cfg(unix)] // of a new file: for whoever the umask lets
    draft.permissions(permissions.unwrap_or_else(|| std::os::unix::fs::PermissionsExt::from_mode(0o666)));
    let mut draft = draft.tempfile_in(folder)?;
    draft.write_all(bytes)?;
    draft.as_file().sync_all()?;
    draft.persist(&path).map_err(|refused| refused.error)?;
    sync_folder(folder)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop at a surprise")]

    use super::*;

    #[test]
    fn a_file_is_written_anew_through_a_link_and_beside_nothing() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("packet.pdf");
        write(&file, b"first").unwrap();
        #[cfg(unix)]
        let file = {
            let link = folder.path().join("latest.pdf");
            std::os::unix::fs::symlink(&file, &link).unwrap();
            link
        };
        write(&file, b"second").unwrap();
        assert_eq!(fs::read(folder.path().join("packet.pdf")).unwrap(), b"second");
        let drafts = fs::read_dir(folder.path())
            .unwrap()
            .flatten()
            .filter(|found| found.file_name().to_string_lossy().starts_with(".tmp"));
        assert_eq!(drafts.count(), 0);
    }

    #[cfg(unix)]
    #[test]
    fn who_may_read_and_write_a_file_stays_as_it_was() {
        use std::os::unix::fs::PermissionsExt as _;
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("packet.pdf");
        write(&file, b"first").unwrap();
        fs::set_permissions(&file, fs::Permissions::from_mode(0o600)).unwrap();
        write(&file, b"second").unwrap();
        assert_eq!(fs::metadata(&file).unwrap().permissions().mode() & 0o777, 0o600);
        fs::set_permissions(&file, fs::Permissions::from_mode(0o400)).unwrap();
        assert_eq!(write(&file, b"third").unwrap_err().kind(), io::ErrorKind::PermissionDenied);
        assert_eq!(fs::read(&file).unwrap(), b"second");
    }

    #[test]
    fn what_is_no_file_is_written_to_as_it_is_and_a_missing_folder_is_told() {
        let folder = tempfile::tempdir().unwrap();
        assert!(write(folder.path(), b"a folder is no file").is_err());
        assert!(write(&folder.path().join("nowhere").join("packet.pdf"), b"no such folder").is_err());
        #[cfg(unix)]
        write(Path::new("/dev/null"), b"a device takes it").unwrap();
        #[cfg(unix)]
        assert!(!fs::metadata("/dev/null").unwrap().is_file());
    }
}
