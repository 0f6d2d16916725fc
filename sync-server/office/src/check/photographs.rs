//! Checks every photograph that the ledger lists as present: its file must exist, with the listed length and
//! with the digest that is its name.

use std::fs::File;
use std::io::{self, Read as _};
use std::path::Path;

use farsiding_core::ids::Digest;
use farsiding_core::store::bytes_at;
use sha2::{Digest as _, Sha256};

use super::{CheckReport, Progress, Reading};
use crate::photo_removal;

/// Returns the path of a photograph inside the folder of photographs.
fn place_of(sha256: Digest) -> String {
    let name = sha256.to_string();
    format!("{}/{name}", name.get(..2).unwrap_or_default())
}

fn digest_of(path: &Path) -> io::Result<(u64, Digest)> {
    let mut file = File::open(path)?;
    let (mut digest, mut length, mut buffer) = (Sha256::new(), 0, vec![0u8; 256 * 1024]);
    loop {
        let read = file.read(&mut buffer)?;
        if read == 0 {
            return Ok((length, Digest(digest.finalize().into())));
        }
        digest.update(buffer.get(..read).unwrap_or_default());
        length += read as u64;
    }
}

/// Checks all photographs. Returns false when told to stop.
pub(super) fn check(
    reading: &Reading,
    folder: &Path,
    report: &mut CheckReport,
    progress: Progress<'_>,
) -> Result<bool, rusqlite::Error> {
    let removed = photo_removal::removed(&reading.store).unwrap_or_default();
    let mut statement =
        reading.ledger.prepare("SELECT sha256, length FROM photo WHERE here = 1 ORDER BY sha256")?;
    let rows = statement.query_map([], |row| Ok((bytes_at(row, 0)?, row.get::<_, i64>(1)?)))?;
    let all: Vec<_> = rows.collect::<Result<_, _>>()?;
    let total = all.len() as u64;
    for (at, (sha256, length)) in (0u64..).zip(all) {
        if !progress("photographs", at, total) {
            return Ok(false);
        }
        let Ok(sha256) = <[u8; 32]>::try_from(sha256.as_slice()).map(Digest) else {
            report.damaged_row("photograph", "?", "its name is no digest");
            continue;
        };
        if removed.iter().any(|one| one.sha256 == sha256) {
            continue;
        }
        report.photographs += 1;
        let wrong = match digest_of(&folder.join(place_of(sha256))) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => Some("its file is not there".to_owned()),
            Err(error) => Some(error.to_string()),
            Ok((found, _)) if found != length.cast_unsigned() => {
                Some(format!("its file has {found} bytes and should have {length}"))
            }
            Ok((found, digest)) => {
                report.photograph_bytes += found;
                (digest != sha256).then(|| "its file's bytes are not those of its name".to_owned())
            }
        };
        if let Some(why) = wrong {
            report.damaged_row("photograph", sha256.to_string(), why);
        }
    }
    Ok(true)
}
