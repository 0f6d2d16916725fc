//! What a simulated phone or office keeps its records on, and how it fails.
//!
//! A [`Disk`] outlives the process that uses it: killing a process drops what was [`Opened`] and opens the
//! disk again. A [`Fuse`] makes the k-th commit fail: before anything was written, after everything was
//! (the power went before the program heard of it), or for want of room. What is tested is the core's own
//! stores; nothing of theirs is done over here.

use std::collections::BTreeSet;
use std::path::PathBuf;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use farsiding_core::clock::UtcMillis;
use farsiding_core::evidence::LogLeaf;
use farsiding_core::evidence::heads::HeadsRoot;
use farsiding_core::ids::{DeviceId, Digest, EntryId, SiteId, Subject};
use farsiding_core::store::{
    ApplyError, Batch, Confirm, Durability, Fed, Ledger, LogRows, MemoryStore, Moment, Outcome, Quarantined,
    Rows, Scope, ScopeRows, SetDigest, SqliteStore, Store, StoreError, StoredChange, StoredCheckpoint,
    StoredEntry, StoredPhoto, Write,
};

/// How a commit fails.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Blow {
    /// The process dies before anything was written.
    Before,
    /// The process dies after everything was written and before the caller hears of it.
    After,
    /// There is no room; the process lives on.
    Full,
}

/// What will go wrong, and whether the process died of it.
#[derive(Debug, Default)]
pub struct Fuse {
    armed: Option<(u64, Blow)>,
    dead: bool,
}

/// A fuse its owner and its store share.
pub type SharedFuse = Arc<Mutex<Fuse>>;

fn locked<T>(shared: &Mutex<T>) -> MutexGuard<'_, T> {
    shared.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Fuse {
    /// Makes the commit after `more` others fail.
    pub fn arm(fuse: &SharedFuse, more: u64, blow: Blow) {
        locked(fuse).armed = Some((more, blow));
    }

    /// Nothing will go wrong any more.
    pub fn disarm(fuse: &SharedFuse) {
        *locked(fuse) = Fuse::default();
    }

    /// Whether the process died.
    pub fn blown(fuse: &SharedFuse) -> bool {
        locked(fuse).dead
    }

    fn next(&mut self) -> Option<Blow> {
        match &mut self.armed {
            Some((0, blow)) => {
                let blow = *blow;
                self.armed = None;
                self.dead = blow != Blow::Full;
                Some(blow)
            }
            Some((more, _)) => {
                *more -= 1;
                None
            }
            None => None,
        }
    }
}

/// Where records stay when a process ends.
#[derive(Debug, Clone)]
pub enum Disk {
    /// The core's store in memory.
    Memory(Arc<Mutex<MemoryStore>>),
    /// The core's store in a file.
    File(PathBuf, Durability),
}

impl Disk {
    /// An empty one in memory.
    pub fn memory() -> Disk {
        Disk::Memory(Arc::default())
    }

    /// Opens it, as a program does when it starts.
    pub fn open(&self, fuse: &SharedFuse) -> Opened {
        let on = match self {
            Disk::Memory(store) => On::Memory(Arc::clone(store)),
            Disk::File(path, durability) => {
                On::File(SqliteStore::open(path.to_str().unwrap(), *durability).unwrap())
            }
        };
        Opened { on, fuse: Arc::clone(fuse) }
    }

    /// A backup, or a phone copied whole; a file goes to `target`.
    pub fn copy(&self, target: PathBuf) -> Disk {
        match self {
            Disk::Memory(store) => Disk::Memory(Arc::new(Mutex::new(locked(store).clone()))),
            Disk::File(path, durability) => {
                let store = SqliteStore::open(path.to_str().unwrap(), *durability).unwrap();
                store.copy_to(target.to_str().unwrap()).unwrap();
                Disk::File(target, *durability)
            }
        }
    }

    /// Reads it, whether a process has it open or not.
    pub fn read<T>(&self, look: impl FnOnce(&dyn Store) -> T) -> T {
        look(&self.open(&SharedFuse::default()))
    }
}

#[derive(Debug)]
#[allow(clippy::large_enum_variant, reason = "a few of them")]
enum On {
    Memory(Arc<Mutex<MemoryStore>>),
    File(SqliteStore),
}

/// A disk in use by a process.
#[derive(Debug)]
pub struct Opened {
    on: On,
    fuse: SharedFuse,
}

impl Opened {
    fn read<T>(&self, look: impl FnOnce(&dyn Store) -> Result<T, StoreError>) -> Result<T, StoreError> {
        if Fuse::blown(&self.fuse) {
            return Err(StoreError::Database("this process is dead".to_owned()));
        }
        match &self.on {
            On::Memory(store) => look(&*locked(store)),
            On::File(store) => look(store),
        }
    }
}

impl Store for Opened {
    fn commit(&mut self, writes: &[Write<'_>]) -> Result<Vec<EntryId>, StoreError> {
        self.read(|_| Ok(()))?;
        let blow = locked(&self.fuse).next();
        match blow {
            Some(Blow::Before) => return Err(StoreError::Database("killed before a commit".to_owned())),
            Some(Blow::Full) => return Err(StoreError::Full),
            Some(Blow::After) | None => {}
        }
        let done = match &mut self.on {
            On::Memory(store) => locked(store).commit(writes),
            On::File(store) => store.commit(writes),
        };
        match blow {
            None => done,
            Some(_) => Err(StoreError::Database("killed after a commit".to_owned())),
        }
    }
    fn entry(&self, id: EntryId) -> Result<Option<StoredEntry>, StoreError> {
        self.read(|store| store.entry(id))
    }
    fn entries_of(&self, subject: Subject) -> Result<Rows<StoredEntry>, StoreError> {
        self.read(|store| store.entries_of(subject))
    }
    fn subjects(&self) -> Result<Vec<Subject>, StoreError> {
        self.read(|store| store.subjects())
    }
    fn changes_of(&self, subject: Subject) -> Result<Rows<StoredChange>, StoreError> {
        self.read(|store| store.changes_of(subject))
    }
    fn has_change(&self, subject: Subject, hash: Digest) -> Result<bool, StoreError> {
        self.read(|store| store.has_change(subject, hash))
    }
    fn changes_not_held(&self, bytes: usize) -> Result<Vec<StoredChange>, StoreError> {
        self.read(|store| store.changes_not_held(bytes))
    }
    fn changes_after(&self, position: u64, bytes: usize) -> Result<Vec<StoredChange>, StoreError> {
        self.read(|store| store.changes_after(position, bytes))
    }
    fn newest_position(&self) -> Result<u64, StoreError> {
        self.read(|store| store.newest_position())
    }
    fn entries_without_receipt(&self, most: usize) -> Result<Vec<EntryId>, StoreError> {
        self.read(|store| store.entries_without_receipt(most))
    }
    fn count_without_receipt(&self) -> Result<u64, StoreError> {
        self.read(|store| store.count_without_receipt())
    }
    fn receipts_of(&self, id: EntryId) -> Result<Vec<Vec<u8>>, StoreError> {
        self.read(|store| store.receipts_of(id))
    }
    fn certificates(&self) -> Result<Vec<(DeviceId, Vec<u8>)>, StoreError> {
        self.read(|store| store.certificates())
    }
    fn certificate(&self, device: DeviceId) -> Result<Option<Vec<u8>>, StoreError> {
        self.read(|store| store.certificate(device))
    }
    fn quarantined(&self) -> Result<Vec<Quarantined>, StoreError> {
        self.read(|store| store.quarantined())
    }
    fn photos(&self) -> Result<Vec<StoredPhoto>, StoreError> {
        self.read(|store| store.photos())
    }
    fn photo(&self, sha256: Digest) -> Result<Option<StoredPhoto>, StoreError> {
        self.read(|store| store.photo(sha256))
    }
    fn drafts(&self) -> Result<Vec<(String, String)>, StoreError> {
        self.read(|store| store.drafts())
    }
    fn value(&self, key: &str) -> Result<Option<Vec<u8>>, StoreError> {
        self.read(|store| store.value(key))
    }
    fn tally(&self) -> Result<SetDigest, StoreError> {
        self.read(|store| store.tally())
    }
    fn log(&self) -> &dyn LogRows {
        self
    }
    fn scopes(&self) -> &dyn ScopeRows {
        self
    }
}

impl Ledger for Opened {
    fn moment(&self) -> Result<Moment, StoreError> {
        self.read(|_| Ok(()))?;
        match &self.on {
            On::Memory(store) => locked(store).moment(),
            On::File(store) => store.moment(),
        }
    }
    fn apply(&mut self, batch: &Batch<'_>, confirm: &mut dyn Confirm) -> Result<Outcome, ApplyError> {
        self.read(|_| Ok(())).map_err(ApplyError::NotWritten)?;
        let blow = locked(&self.fuse).next();
        let not_written = |error| Err(ApplyError::NotWritten(error));
        match blow {
            Some(Blow::Before) => {
                return not_written(StoreError::Database("killed before a batch".to_owned()));
            }
            Some(Blow::Full) => return not_written(StoreError::Full),
            Some(Blow::After) | None => {}
        }
        let done = match &mut self.on {
            On::Memory(store) => locked(store).apply(batch, confirm),
            On::File(store) => store.apply(batch, confirm),
        };
        match blow {
            None => done,
            Some(_) => Err(ApplyError::Unknown(StoreError::Database("killed after a batch".to_owned()))),
        }
    }
}

impl ScopeRows for Opened {
    fn tally_in(&self, scope: &Scope) -> Result<SetDigest, StoreError> {
        self.read(|store| store.scopes().tally_in(scope))
    }
    fn subjects_in(&self, scope: &Scope) -> Result<Vec<Subject>, StoreError> {
        self.read(|store| store.scopes().subjects_in(scope))
    }
    fn tally_of_standings(&self) -> Result<SetDigest, StoreError> {
        self.read(|store| store.scopes().tally_of_standings())
    }
    fn sites_of(&self, subject: Subject) -> Result<BTreeSet<SiteId>, StoreError> {
        self.read(|store| store.scopes().sites_of(subject))
    }
    fn is_in(&self, subject: Subject, scope: &Scope) -> Result<bool, StoreError> {
        self.read(|store| store.scopes().is_in(subject, scope))
    }
    fn weight_in(&self, subject: Subject, scope: &Scope) -> Result<usize, StoreError> {
        self.read(|store| store.scopes().weight_in(subject, scope))
    }
    fn standings_of(&self, id: EntryId) -> Result<Vec<Subject>, StoreError> {
        self.read(|store| store.scopes().standings_of(id))
    }
    fn fed_after(&self, scope: &Scope, position: u64, bytes: usize) -> Result<Vec<Fed>, StoreError> {
        self.read(|store| store.scopes().fed_after(scope, position, bytes))
    }
    fn newest_in(&self, scope: &Scope) -> Result<u64, StoreError> {
        self.read(|store| store.scopes().newest_in(scope))
    }
    fn naming_photo(&self, sha256: Digest) -> Result<Vec<Subject>, StoreError> {
        self.read(|store| store.scopes().naming_photo(sha256))
    }
}

impl LogRows for Opened {
    fn size(&self) -> Result<u64, StoreError> {
        self.read(|store| store.log().size())
    }
    fn leaf(&self, number: u64) -> Result<Option<LogLeaf>, StoreError> {
        self.read(|store| store.log().leaf(number))
    }
    fn place(&self, entry: EntryId) -> Result<Option<(u64, UtcMillis)>, StoreError> {
        self.read(|store| store.log().place(entry))
    }
    fn subtree_hash(&self, level: u32, place: u64) -> Result<Option<Digest>, StoreError> {
        self.read(|store| store.log().subtree_hash(level, place))
    }
    fn subjects(&self, from: u64, most: usize) -> Result<Vec<(EntryId, Option<Subject>)>, StoreError> {
        self.read(|store| store.log().subjects(from, most))
    }
    fn heads(&self, size: u64) -> Result<HeadsRoot, StoreError> {
        self.read(|store| store.log().heads(size))
    }
    fn without_leaf(&self, most: usize) -> Result<Vec<EntryId>, StoreError> {
        self.read(|store| store.log().without_leaf(most))
    }
    fn newest_checkpoint(&self) -> Result<Option<StoredCheckpoint>, StoreError> {
        self.read(|store| store.log().newest_checkpoint())
    }
    fn checkpoint(&self, origin: &str, size: u64) -> Result<Option<StoredCheckpoint>, StoreError> {
        self.read(|store| store.log().checkpoint(origin, size))
    }
    fn first_checkpoint_of(&self, size: u64, stamped: bool) -> Result<Option<StoredCheckpoint>, StoreError> {
        self.read(|store| store.log().first_checkpoint_of(size, stamped))
    }
    fn first_cosigned_of(&self, origin: &str, size: u64) -> Result<Option<StoredCheckpoint>, StoreError> {
        self.read(|store| store.log().first_cosigned_of(origin, size))
    }
    fn proof_of(&self, entry: EntryId) -> Result<Option<Vec<u8>>, StoreError> {
        self.read(|store| store.log().proof_of(entry))
    }
    fn without_proof(&self, most: usize) -> Result<Vec<EntryId>, StoreError> {
        self.read(|store| store.log().without_proof(most))
    }
}
