//! What a disk holds after its power went.
//!
//! The model: bytes written to a file are safe once the file was synced. Until then any of the 512-byte
//! pieces of any write may have reached the disk or not, in any order; bytes nobody wrote to do not
//! change. A file's name is safe once its folder was synced, which SQLite's unix file system does when it
//! first syncs a new journal or log and when it deletes one durably; until then the name may lead to what
//! it led to before.

use std::collections::BTreeMap;
use std::path::Path;

use farsiding_testkit::Dice;

use crate::recording::Operation;

const SECTOR: usize = 512;

/// What happens to the writes that were not synced.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kept {
    /// None reached the disk.
    Nothing,
    /// All did.
    Everything,
    /// The first so many did, the last of them in part.
    Beginning(u64),
    /// Any of their pieces did.
    Anything(u64),
}

#[derive(Debug, Default, Clone)]
struct Content {
    synced: Vec<u8>,
    pending: Vec<Change>,
}

#[derive(Debug, Clone)]
enum Change {
    Write(u64, Vec<u8>),
    Truncate(u64),
}

#[derive(Debug, Default)]
struct Name {
    contents: Vec<Content>,
    /// What the name leads to, and what it leads to for certain.
    now: Option<usize>,
    synced: Option<usize>,
}

fn apply(content: &mut Vec<u8>, change: &Change) {
    match change {
        Change::Truncate(length) => content.resize(usize::try_from(*length).unwrap_or(0), 0),
        Change::Write(offset, bytes) => put(content, *offset, bytes),
    }
}

fn put(content: &mut Vec<u8>, offset: u64, bytes: &[u8]) {
    let from = usize::try_from(offset).unwrap_or(0);
    if content.len() < from + bytes.len() {
        content.resize(from + bytes.len(), 0);
    }
    content[from..from + bytes.len()].copy_from_slice(bytes);
}

/// The pieces of a write that reached the disk: those `reached` says yes to.
fn apply_torn(content: &mut Vec<u8>, change: &Change, mut reached: impl FnMut() -> bool) {
    match change {
        Change::Truncate(_) => {
            if reached() {
                apply(content, change);
            }
        }
        Change::Write(offset, bytes) => {
            let mut at = 0;
            while at < bytes.len() {
                let place = usize::try_from(*offset).unwrap_or(0) + at;
                let piece = (SECTOR - place % SECTOR).min(bytes.len() - at);
                if reached() {
                    put(content, place as u64, &bytes[at..at + piece]);
                }
                at += piece;
            }
        }
    }
}

fn content_after(content: &Content, kept: Kept, dice: &mut Dice) -> Vec<u8> {
    let mut bytes = content.synced.clone();
    let pending = &content.pending;
    match kept {
        Kept::Nothing => {}
        Kept::Everything => pending.iter().for_each(|change| apply(&mut bytes, change)),
        Kept::Beginning(_) => {
            let whole = dice.below(pending.len() + 1);
            pending[..whole].iter().for_each(|change| apply(&mut bytes, change));
            if let Some(torn) = pending.get(whole) {
                let mut left = dice.below(8);
                apply_torn(&mut bytes, torn, || {
                    left = left.saturating_sub(1);
                    left > 0
                });
            }
        }
        Kept::Anything(_) => {
            pending.iter().for_each(|change| apply_torn(&mut bytes, change, || dice.once_in(2)));
        }
    }
    bytes
}

/// Writes into `folder` the files a disk holds when the power goes after the first `done` operations.
///
/// # Errors
/// When the files cannot be written.
pub fn after_cut(log: &[Operation], done: usize, kept: Kept, folder: &Path) -> std::io::Result<()> {
    let mut names: BTreeMap<String, Name> = BTreeMap::new();
    for operation in &log[..done.min(log.len())] {
        follow(&mut names, operation);
    }
    let seed = match kept {
        Kept::Beginning(seed) | Kept::Anything(seed) => seed,
        Kept::Nothing | Kept::Everything => 0,
    };
    let mut dice = Dice::of(seed.wrapping_mul(31).wrapping_add(done as u64));
    for (file, name) in &names {
        let leads_to = match kept {
            Kept::Nothing => name.synced,
            Kept::Everything => name.now,
            _ if dice.once_in(2) => name.synced,
            _ => name.now,
        };
        if let Some(content) = leads_to.and_then(|at| name.contents.get(at)) {
            std::fs::write(folder.join(file), content_after(content, kept, &mut dice))?;
        }
    }
    Ok(())
}

fn follow(names: &mut BTreeMap<String, Name>, operation: &Operation) {
    let current = |names: &mut BTreeMap<String, Name>, file: &str, change: Change| {
        let name = names.entry(file.to_owned()).or_default();
        if let Some(content) = name.now.and_then(|at| name.contents.get_mut(at)) {
            content.pending.push(change);
        }
    };
    let sync_folder = |names: &mut BTreeMap<String, Name>| {
        names.values_mut().for_each(|name| name.synced = name.now);
    };
    match operation {
        Operation::Create(file) => {
            let name = names.entry(file.clone()).or_default();
            name.contents.push(Content::default());
            name.now = Some(name.contents.len() - 1);
        }
        Operation::Write(file, offset, bytes) => current(names, file, Change::Write(*offset, bytes.clone())),
        Operation::Truncate(file, length) => current(names, file, Change::Truncate(*length)),
        Operation::Sync(file) => {
            let Some(name) = names.get_mut(file) else { return };
            let new = name.synced != name.now;
            if let Some(content) = name.now.and_then(|at| name.contents.get_mut(at)) {
                for change in std::mem::take(&mut content.pending) {
                    apply(&mut content.synced, &change);
                }
            }
            if new && (file.ends_with("-journal") || file.ends_with("-wal")) {
                sync_folder(names);
            }
        }
        Operation::Delete(file, durably) => {
            if let Some(name) = names.get_mut(file) {
                name.now = None;
            }
            if *durably {
                sync_folder(names);
            }
        }
        Operation::Mark(_) => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn files_after(log: &[Operation], kept: Kept) -> BTreeMap<String, Vec<u8>> {
        let folder = tempfile::tempdir().unwrap();
        after_cut(log, log.len(), kept, folder.path()).unwrap();
        let items = std::fs::read_dir(folder.path()).unwrap().map(|item| item.unwrap());
        items
            .map(|item| (item.file_name().into_string().unwrap(), std::fs::read(item.path()).unwrap()))
            .collect()
    }

    #[test]
    fn what_was_synced_stays_and_what_was_not_may_go() {
        let log = [
            Operation::Create("a-wal".to_owned()),
            Operation::Write("a-wal".to_owned(), 0, vec![1; 600]),
            Operation::Sync("a-wal".to_owned()),
            Operation::Write("a-wal".to_owned(), 0, vec![2; 600]),
        ];
        assert_eq!(files_after(&log, Kept::Nothing)["a-wal"], [1; 600]);
        assert_eq!(files_after(&log, Kept::Everything)["a-wal"], [2; 600]);
        let torn = (0..64).map(|seed| files_after(&log, Kept::Anything(seed))["a-wal"].clone());
        assert!(torn.into_iter().any(|bytes| bytes[0] != bytes[599]), "no write is ever torn");
    }

    #[test]
    fn a_name_that_was_not_synced_may_lead_nowhere() {
        let log = [Operation::Create("a".to_owned()), Operation::Sync("a".to_owned())];
        assert!(files_after(&log, Kept::Nothing).is_empty());
        assert!(files_after(&log, Kept::Everything).contains_key("a"));
    }
}
