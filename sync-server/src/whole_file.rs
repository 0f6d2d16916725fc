//! Files that are handed out, whole or not at all: a disk that fills up halfway leaves what was there before.
//!
//! Called by the packet, the exports and the device's photographs.

use std::fs;
use std::io::{self, Write as _};
use std::path::Path;

use crate::private_file::sync_folder;

/// Writes `path` anew and returns once it and its name are on the disk. What is no file (a pipe, say) is written to as it is.
///
/// # Errors
/// The file system's; what was at `path` is then still there.
pub fn write(path: &Path, bytes: &[u8]) -> io::Result<()> {
    match fs::metadata(path) {
        Ok(found) if !found.is_file() => return fs::write(path, bytes),
        _ => {}
    }
    // A link stays one: the file it leads to is written.
    let path = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut draft = tempfile::Builder::new();
    #[cfg(unix)]
    draft.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666)); // less what the umask takes
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

    #[test]
    fn what_is_no_file_is_written_to_and_where_nothing_can_be_made_what_was_there_stays() {
        let folder = tempfile::tempdir().unwrap();
        assert!(write(folder.path(), b"a folder is no file").is_err());
        assert!(write(&folder.path().join("nowhere").join("packet.pdf"), b"no such folder").is_err());
        #[cfg(unix)]
        write(Path::new("/dev/null"), b"a device takes it").unwrap();
        #[cfg(unix)]
        assert!(!fs::metadata("/dev/null").unwrap().is_file());
    }
}
