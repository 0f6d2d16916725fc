//! The parties of a simulation: phones, which are books on disks, and the office, which answers.

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

use farsiding_core::book::{Book, BookParts};
use farsiding_core::clock::{HandSetClock, UtcMillis};
use farsiding_core::entry::{Certificate, DeviceKey, Entry, LastEntry, OrganisationKey, Role};
use farsiding_core::evidence::ledger_log;
use farsiding_core::ids::{DeviceId, Digest, EntryId, OrganisationId};
use farsiding_core::store::{Store, StoreError, Write};
use farsiding_core::sync::{Answerer, CERTIFICATES_VERSION, Session, answer_log};
use farsiding_office::ledger::{epoch_of, rename};

use crate::disk::{Disk, Fuse, Opened, SharedFuse};
use crate::sites::{Given, limited};
use farsiding_testkit::Dice;

/// Entries on a disk.
pub fn entries_on(disk: &Disk) -> BTreeSet<EntryId> {
    disk.read(|store| {
        let subjects = store.subjects().unwrap();
        subjects.iter().flat_map(|s| store.entries_of(*s).unwrap().rows).map(|row| row.id).collect()
    })
}

/// A phone: a key, a disk, and a book while its program runs.
pub struct Phone {
    pub number: usize,
    pub secret: [u8; 32],
    pub disk: Disk,
    pub backups: Vec<Disk>,
    pub fuse: SharedFuse,
    pub clock: HandSetClock,
    pub book: Book,
    pub session: Option<Session>,
    /// Whether it has signal.
    pub reachable: bool,
}

impl Phone {
    /// A phone with its program started.
    pub fn start(number: usize, secret: [u8; 32], disk: Disk, now: UtcMillis, dice: &mut Dice) -> Phone {
        let (fuse, clock) = (SharedFuse::default(), HandSetClock::at(now, -360));
        let book = Phone::open(&disk, &fuse, &clock, secret, dice);
        Phone { number, secret, disk, backups: Vec::new(), fuse, clock, book, session: None, reachable: true }
    }

    fn open(disk: &Disk, fuse: &SharedFuse, clock: &HandSetClock, secret: [u8; 32], dice: &mut Dice) -> Book {
        Book::open(BookParts {
            store: Box::new(disk.open(fuse)),
            key: DeviceKey::from_secret(secret),
            clock: Box::new(clock.clone()),
            randomness: Box::new(Dice::of(dice.next())),
        })
    }

    /// Ends the program and starts it again on what the disk holds.
    pub fn restart(&mut self, dice: &mut Dice) {
        Fuse::disarm(&self.fuse);
        self.session = None;
        self.book = Phone::open(&self.disk, &self.fuse, &self.clock, self.secret, dice);
    }

    /// Starts it again if it died.
    pub fn revive(&mut self, dice: &mut Dice) {
        if Fuse::blown(&self.fuse) {
            self.restart(dice);
        }
    }

    pub fn device(&self) -> DeviceId {
        self.book.device()
    }
}

/// What an office server remembers outside its ledger: how far the ledger was written.
#[derive(Debug, Clone)]
pub struct OfficeCopy {
    pub disk: Disk,
    pub reached: u64,
}

/// How an older copy of an office comes back.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PutBack {
    /// The ledger alone: the database remembers more than the ledger holds.
    LedgerAlone,
    /// Everything, by somebody who declares it (`farsiding restored`).
    Declared,
    /// Everything, by somebody who says nothing: the server cannot tell.
    Silently,
}

/// The office: a ledger that answers, and what stands in the database beside it.
pub struct Office {
    pub disk: Disk,
    pub fuse: SharedFuse,
    pub store: Opened,
    pub key: OrganisationKey,
    pub epoch: u64,
    /// How far the database remembers the ledger to have been written.
    pub reached: u64,
    pub now: UtcMillis,
    pub backups: Vec<OfficeCopy>,
    /// Devices it knows, and whether they are revoked, as its people remember them.
    pub devices: Vec<(DeviceId, Option<UtcMillis>)>,
    /// The last entry of each revoked device that was here then.
    pub lasts: BTreeMap<DeviceId, LastEntry>,
    /// When each entry first came in, whatever was put back since.
    pub first_had: BTreeMap<EntryId, UtcMillis>,
    /// Devices that were revoked when the clock was turned back: what came in late may then seem to have come
    /// before.
    pub doubtful: BTreeSet<DeviceId>,
    /// Devices that are given less than everything, or more than an operator.
    pub given: BTreeMap<DeviceId, Given>,
    /// What restored copies did not hold: nothing is claimed of these until a phone brings them again.
    pub lost: BTreeSet<EntryId>,
    pub lost_photos: BTreeSet<Digest>,
    /// Whether the server could tell, each time it was put back, that it was.
    pub noticed: bool,
    dice: Dice,
}

impl Office {
    pub fn start(disk: Disk, now: UtcMillis, mut dice: Dice) -> Office {
        let fuse = SharedFuse::default();
        let mut store = disk.open(&fuse);
        let epoch = epoch_of(&mut store, 0, &mut dice).unwrap();
        let key = OrganisationKey::from_secret([42; 32]);
        ledger_log::publish(&mut store, &key, now).unwrap();
        let (backups, devices, lost) = (Vec::new(), Vec::new(), BTreeSet::new());
        let lost_photos = BTreeSet::new();
        Office {
            disk,
            fuse,
            store,
            key,
            epoch,
            reached: 0,
            now,
            backups,
            devices,
            lasts: BTreeMap::new(),
            first_had: BTreeMap::new(),
            doubtful: BTreeSet::new(),
            given: BTreeMap::new(),
            lost,
            lost_photos,
            noticed: true,
            dice,
        }
    }

    /// The server's process ends and starts again, as the server does it.
    pub fn restart(&mut self) {
        Fuse::disarm(&self.fuse);
        self.store = self.disk.open(&self.fuse);
        let (store, key, now) = (&mut self.store, &self.key, self.now);
        self.epoch = epoch_of(store, self.reached, &mut self.dice).unwrap();
        if store.newest_position().unwrap() < self.reached {
            ledger_log::begin_anew(store, key, self.epoch, u64::MAX, now).unwrap();
            self.reached = 0;
        }
        ledger_log::bring_in(store, &key.public(), now).unwrap();
        ledger_log::note_start(store).unwrap();
        ledger_log::publish(store, key, now).unwrap();
    }

    /// One request as the server's route handles it; `None` when no answer comes of it.
    pub fn answer(&mut self, request: &[u8]) -> Option<Vec<u8>> {
        if Fuse::blown(&self.fuse) {
            self.restart();
        }
        let (key, epoch, now) = (self.key.clone(), self.epoch, self.now);
        let answer = Answerer::new(&mut self.store, &key, epoch).answer(request, now);
        match &answer {
            Ok(answer) => self.note_had(answer.new.iter().map(|(_, id)| *id)),
            // What it kept before it failed is there all the same.
            Err(_) => self.note_had(entries_on(&self.disk)),
        }
        let answer = answer.ok()?;
        // A checkpoint that cannot be published now is published at the next.
        let _ = ledger_log::publish(&mut self.store, &key, now);
        self.reached = self.store.newest_position().ok()?.max(self.reached);
        Some(answer.reply)
    }

    fn note_had(&mut self, entries: impl IntoIterator<Item = EntryId>) {
        for id in entries {
            let first = self.first_had.entry(id).or_insert(self.now);
            *first = self.now.min(*first);
        }
    }

    /// A question about the log.
    pub fn answer_about_log(&mut self, request: &[u8]) -> Option<Vec<u8>> {
        let (key, now) = (self.key.clone(), self.now);
        answer_log(&mut self.store, &key, request, now).ok().map(|answer| answer.reply)
    }

    /// Gives a device a certificate, or a new one when something about it changed.
    pub fn certify(&mut self, device: DeviceId) -> Result<Vec<u8>, StoreError> {
        let at = self.devices.iter().position(|(known, _)| *known == device).unwrap_or(self.devices.len());
        if at == self.devices.len() {
            self.devices.push((device, None));
        }
        let certificate = Certificate {
            revoked_at: self.devices[at].1,
            ..Certificate::by_role(
                OrganisationId([1; 16]),
                device,
                format!("phone {at}"),
                Role::Operator,
                UtcMillis(0),
            )
        };
        let certificate = limited(certificate, self.given.get(&device), &self.key);
        let last = self.lasts.get(&device).copied();
        let issuer = certificate.issuer.or(last.map(|_| self.key.public()));
        let bytes = Certificate { last, issuer, ..certificate }.seal(&self.key).unwrap();
        let version = self.dice.next(); // it only has to differ from every one before
        self.store.commit(&[
            Write::Certificate { device, bytes: &bytes },
            Write::Value { key: CERTIFICATES_VERSION, value: &version.to_be_bytes() },
        ])?;
        Ok(bytes)
    }

    pub fn revoke(&mut self, device: DeviceId) {
        for (known, revoked) in &mut self.devices {
            if *known == device {
                revoked.get_or_insert(self.now);
            }
        }
        if let Some(last) = self.last_of(device) {
            self.lasts.entry(device).or_insert(last);
        }
        // A server that dies while revoking is asked again by whoever gave the order.
        while self.certify(device).is_err() {
            self.restart();
        }
    }

    /// The last entry of a device that is here.
    pub fn last_of(&self, device: DeviceId) -> Option<LastEntry> {
        let last = self.disk.read(|store| {
            let subjects = store.subjects().unwrap().into_iter();
            let rows = subjects.flat_map(|subject| store.entries_of(subject).unwrap().rows);
            let entries = rows.filter_map(|row| Entry::reopen(row.id, row.bytes).ok());
            entries.filter(|entry| entry.device == device).max_by_key(|entry| entry.body.seq)
        });
        last.map(|last| LastEntry { seq: last.body.seq, entry: last.id })
    }

    pub fn is_revoked(&self, device: DeviceId) -> bool {
        self.devices.iter().any(|(known, revoked)| *known == device && revoked.is_some())
    }

    pub fn back_up(&mut self, target: PathBuf) {
        self.backups.push(OfficeCopy { disk: self.disk.copy(target), reached: self.reached });
    }

    /// Puts an older copy in the server's place.
    pub fn put_back(&mut self, copy: &OfficeCopy, target: PathBuf, how: PutBack) {
        let (before, photos) = (entries_on(&self.disk), self.photos_here());
        self.disk = copy.disk.copy(target);
        if how != PutBack::LedgerAlone {
            self.reached = copy.reached;
        }
        if how == PutBack::Declared {
            let (mut store, now) = (self.disk.open(&SharedFuse::default()), self.now);
            let name = rename(&mut store, &mut self.dice).unwrap();
            ledger_log::begin_anew(&mut store, &self.key, name, u64::MAX, now).unwrap();
            self.reached = 0;
        }
        // A ledger put back twice with no sync between is not noticed the second time either: the database
        // forgot how far the first was written.
        let shorter = self.disk.read(|store| store.newest_position().unwrap()) < self.reached;
        self.noticed &= how == PutBack::Declared || (how == PutBack::LedgerAlone && shorter);
        self.restart();
        self.lost.extend(before.difference(&entries_on(&self.disk)));
        self.lost_photos.extend(photos.difference(&self.photos_here()));
        for (device, _) in self.devices.clone() {
            self.certify(device).unwrap(); // its people enrol and revoke again what the copy forgot
        }
    }

    pub fn photos_here(&self) -> BTreeSet<Digest> {
        let photos = self.disk.read(|store| store.photos().unwrap());
        photos.into_iter().filter(|photo| photo.here).map(|photo| photo.sha256).collect()
    }
}
