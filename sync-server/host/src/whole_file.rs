//! Writes files for other people atomically: if the disk fills up halfway, the earlier content stays.
//!
//! Called by the packet, the exports and the device's photographs.

use std::fs;
use std::io::{self, Write as _};
use std::path::Path;

use crate::private_file::{folder_of, sync_folder};

/// Replaces the content of `path` and returns once the content and the name are on the disk. The permissions
/// of the file do not change. If `path` is not a regular file (a pipe, for example), the bytes are written to
/// it directly.
///
/// # Errors
/// Returns the error of the file system, with `path` in its text, and [`io::ErrorKind::PermissionDenied`]
/// when the file is read-only. The earlier content of `path` then stays.
pub fn write(path: &Path, bytes: &[u8]) -> io::Result<()> {
    anew(path, bytes).map_err(|refused| {
        let why = refused.kind(); // the text may name a draft file that the caller does not know
        io::Error::new(why, format!("{} cannot be written: {why}", path.display()))
    })
}

fn anew(path: &Path, bytes: &[u8]) -> io::Result<()> {
    // A symbolic link is kept: the file that it leads to is written.
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
    #[cfg(unix)] // the mode of a new file follows the umask
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
