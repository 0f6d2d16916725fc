//! The world of a simulation: what happens, one event after another, all of it out of one seed.
//!
//! Messages are letters under way: they are delivered in any order, late, twice, cut short, altered, or
//! never. What must hold afterwards is in `checks`.

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

use farsiding_core::book::BookError;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::Role;
use farsiding_core::ids::{Digest, EntryId};
use farsiding_core::procedure::Procedures;
use farsiding_core::store::{Durability, Write};
use farsiding_core::sync::{Step, SyncError};

use crate::disk::{Blow, Disk, Fuse};
use crate::parties::{Office, Phone, PutBack, entries_on};
use crate::recording;
use crate::sites::Given;
use farsiding_testkit::Dice;

const YEAR: i64 = 365 * 24 * 60 * 60 * 1000;
const MOST_PHONES: usize = 6;
/// Rounds after which a phone with a good line must be done.
const ROUNDS: usize = 400;

/// A message under way.
#[derive(Debug, Clone)]
pub struct Letter {
    pub phone: usize,
    pub to_office: bool,
    pub bytes: Vec<u8>,
    /// Whether it is as it was sent.
    pub sound: bool,
}

pub struct World {
    pub dice: Dice,
    pub phones: Vec<Phone>,
    /// Somebody with a key that nobody enrolled.
    pub stranger: Phone,
    pub office: Office,
    pub procedures: Procedures,
    /// Entries for which a phone said "kept", with the number of the event.
    pub acknowledged: BTreeMap<EntryId, usize>,
    /// Entries that a loss nobody can undo may have taken: they stood on the lost disk alone.
    pub may_be_gone: BTreeSet<EntryId>,
    pub photos_may_be_gone: BTreeSet<Digest>,
    pub letters: Vec<Letter>,
    folder: tempfile::TempDir,
    files: usize,
    pub event: usize,
    /// Whether two programs ever had the same random numbers, so that their changes get in each other's way.
    pub twins: bool,
    pub trace: bool,
    /// What happened, counted by kind.
    pub seen: BTreeMap<&'static str, usize>,
}

impl World {
    pub fn new(seed: u64, trace: bool) -> World {
        let mut dice = Dice::of(seed);
        // Memory where there is some to write files to: a simulation has no use for a real disk.
        let shm = std::path::Path::new("/dev/shm");
        let folder = if shm.is_dir() { tempfile::tempdir_in(shm) } else { tempfile::tempdir() }.unwrap();
        let now = UtcMillis(1_795_528_800_000);
        let office_disk = if dice.once_in(4) {
            Disk::File(folder.path().join("office.db"), Durability::WriteAheadLog)
        } else {
            Disk::memory()
        };
        let office = Office::start(office_disk, now, Dice::of(dice.next()));
        let stranger = Phone::start(usize::MAX, [99; 32], Disk::memory(), now, &mut dice);
        let mut world = World {
            phones: Vec::new(),
            stranger,
            office,
            procedures: Procedures::built_in().unwrap(),
            acknowledged: BTreeMap::new(),
            may_be_gone: BTreeSet::new(),
            photos_may_be_gone: BTreeSet::new(),
            letters: Vec::new(),
            folder,
            files: 0,
            event: 0,
            twins: false,
            trace,
            seen: BTreeMap::new(),
            dice,
        };
        for number in 0..2 + world.dice.below(3) {
            let disk = world.new_disk();
            let mut phone = Phone::start(number, [number as u8 + 1; 32], disk, now, &mut world.dice);
            if number == 0 && world.dice.once_in(2) {
                let office = Given::everything(Role::Office, UtcMillis(1));
                world.office.given.insert(phone.device(), office);
            }
            let certificate = world.office.certify(phone.device()).unwrap();
            phone.book.enrolled(world.office.key.public(), &certificate).unwrap();
            world.phones.push(phone);
        }
        for at in 0..world.phones.len() {
            if world.dice.once_in(3) {
                world.give_sites(at);
            }
        }
        world
    }

    fn new_file(&mut self) -> PathBuf {
        self.files += 1;
        self.folder.path().join(format!("{}.db", self.files))
    }

    fn new_disk(&mut self) -> Disk {
        match self.dice.below(6) {
            0 => Disk::File(self.new_file(), Durability::WriteAheadLog),
            1 => Disk::File(self.new_file(), Durability::RollbackJournal),
            _ => Disk::memory(),
        }
    }

    pub fn note(&mut self, kind: &'static str, what: impl FnOnce() -> String) {
        *self.seen.entry(kind).or_default() += 1;
        if self.trace {
            println!("  {:4} {kind} {}", self.event, what());
        }
    }

    /// The next thing that happens.
    pub fn happen(&mut self) {
        self.event += 1;
        let at = self.dice.below(self.phones.len());
        match self.dice.below(100) {
            0..25 => self.record(at),
            25 => self.tell_of_a_site(at),
            26 => self.give_sites(at),
            27 => self.offer_everywhere(at),
            28..48 => self.send(at),
            48..71 => self.deliver(),
            71..74 => self.watch_log(at),
            74..77 => self.hand_over(at),
            77..80 => self.upload(at),
            80..82 => {
                self.phones[at].reachable = !self.phones[at].reachable;
                let reachable = self.phones[at].reachable;
                self.note("signal", || format!("phone {at}: {reachable}"));
            }
            82..84 => self.turn_clock(at),
            84..88 => self.arm(at),
            88..90 => {
                self.note("killed", || format!("phone {at}"));
                let World { phones, dice, .. } = self;
                phones[at].restart(dice);
            }
            90 => {
                self.note("office restarted", String::new);
                self.office.restart();
            }
            91..93 => {
                let target = self.new_file();
                let copy = self.phones[at].disk.copy(target);
                self.phones[at].backups.push(copy);
                self.note("phone backed up", || format!("phone {at}"));
            }
            93..95 => self.put_phone_back(at),
            95 => {
                let target = self.new_file();
                self.office.back_up(target);
                self.note("office backed up", String::new);
            }
            96 => self.put_office_back(),
            97 => self.revoke(at),
            98 => self.copy_phone(at),
            _ if self.dice.once_in(2) => self.offer_elsewhere(at),
            _ => self.stranger_speaks(at),
        }
        self.revive();
    }

    /// Starts again whatever died.
    pub fn revive(&mut self) {
        let World { phones, dice, office, .. } = self;
        phones.iter_mut().for_each(|phone| phone.revive(dice));
        if Fuse::blown(&office.fuse) {
            office.restart();
        }
    }

    fn record(&mut self, at: usize) {
        let World { phones, procedures, dice, .. } = self;
        match recording::something(&mut phones[at], procedures, dice) {
            Ok(ids) => {
                self.note("recorded", || format!("phone {at}: {ids:?}"));
                let event = self.event;
                self.acknowledged.extend(ids.into_iter().map(|id| (id, event)));
            }
            Err(BookError::Store(error)) => self.note("not recorded", || format!("phone {at}: {error}")),
            // People try what only the office may: they are told so, and nothing is half written.
            Err(BookError::MayNot(why)) => self.note("not allowed", || format!("phone {at}: {why:?}")),
            Err(other) => panic!("phone {at} would not record: {other}"),
        }
    }

    /// A phone sends its next request, or again when no answer came.
    fn send(&mut self, at: usize) {
        let phone = &mut self.phones[at];
        if phone.session.is_none() {
            phone.session = phone.book.sync_session().ok();
        }
        let Some(mut session) = phone.session.take() else { return };
        let request = phone.book.sync_request(&mut session);
        phone.session = Some(session);
        match request {
            Ok(bytes) => {
                self.note("request", || format!("phone {at}: {} bytes", bytes.len()));
                self.letters.push(Letter { phone: at, to_office: true, bytes, sound: true });
            }
            Err(BookError::Sync(_) | BookError::Store(_)) if self.phones[at].session.is_some() => {
                self.note("no request", || format!("phone {at}"));
            }
            Err(other) => panic!("phone {at} cannot ask: {other}"),
        }
    }

    /// Something becomes of a letter under way.
    fn deliver(&mut self) {
        if self.letters.is_empty() {
            return;
        }
        let at = self.dice.below(self.letters.len());
        let mut letter = self.letters.swap_remove(at);
        match self.dice.below(20) {
            0 | 1 => return self.note("letter lost", String::new),
            2 => {
                self.note("letter doubled", String::new);
                self.letters.push(letter.clone());
            }
            3 => {
                let length = self.dice.below(letter.bytes.len());
                letter.bytes.truncate(length);
                letter.sound = false;
                self.note("letter cut short", String::new);
            }
            4 => {
                let place = self.dice.below(letter.bytes.len());
                if let Some(byte) = letter.bytes.get_mut(place) {
                    *byte ^= 1 << self.dice.below(8);
                    letter.sound = false;
                }
                self.note("letter altered", String::new);
            }
            _ => {}
        }
        self.arrive(letter);
    }

    pub fn arrive(&mut self, letter: Letter) {
        let Letter { phone: at, to_office, bytes, sound } = letter;
        if !self.phones[at].reachable {
            return self.note("no signal", String::new);
        }
        if to_office {
            let reply = self.office.answer(&bytes);
            assert!(sound || reply.is_none() || bytes.is_empty(), "the office answered an altered request");
            self.note("asked", || format!("by phone {at}: {}", reply.is_some()));
            if let Some(bytes) = reply {
                self.check_told(at, &bytes);
                self.letters.push(Letter { phone: at, to_office: false, bytes, sound: true });
            }
            return;
        }
        let phone = &mut self.phones[at];
        let Some(mut session) = phone.session.take() else { return };
        let outcome = phone.book.sync_receive(&mut session, &bytes);
        assert!(sound || outcome.is_err(), "phone {at} took an altered reply for the office's");
        let ended = matches!(outcome, Ok(Step::Done));
        self.note("answered", || format!("phone {at}: {outcome:?} {:?}", session.report()));
        if !session.report().left.is_empty() {
            self.nobody_has_what_left();
        }
        let phone = &mut self.phones[at];
        phone.session = (!ended).then_some(session);
        if !Fuse::blown(&phone.fuse) {
            self.check_receipts(at);
        }
    }

    /// A carry file from one phone to another.
    fn hand_over(&mut self, from: usize) {
        let to = self.dice.below(self.phones.len());
        let subjects = self.phones[from].book.store().subjects();
        let (true, Ok(subjects)) = (from != to, subjects) else { return };
        let Ok(mut file) = self.phones[from].book.carry_out(&subjects, Vec::new()) else { return };
        let whole = file.clone();
        if self.dice.once_in(6) {
            let place = self.dice.below(file.len());
            file[place] ^= 1 << self.dice.below(8);
            let before = entries_on(&self.phones[to].disk);
            match self.phones[to].book.carry_in(&file) {
                Err(BookError::Sync(SyncError::Store(_))) => self.revive(),
                Err(_) => {
                    self.note("altered carry file refused", String::new);
                    assert_eq!(entries_on(&self.phones[to].disk), before, "refused, and something came in");
                }
                Ok(_) => {}
            }
            // Taken in all the same, the alteration was of a bit nobody reads: the whole one adds nothing.
        }
        let file = whole;
        let outcome = self.phones[to].book.carry_in(&file).map(|report| report.received);
        self.note("carried", || format!("phone {from} to {to}: {outcome:?}"));
    }

    /// Photographs go to the office, apart from the records.
    fn upload(&mut self, at: usize) {
        if !self.phones[at].reachable || self.office.is_revoked(self.phones[at].device()) {
            return;
        }
        for photo in self.phones[at].disk.read(|store| store.photos().unwrap()) {
            if photo.here && !photo.held {
                let (sha256, length, media) = (photo.sha256, photo.length, photo.media.as_str());
                let whole = Write::Photo { sha256, length, media, here: true, held: false };
                use farsiding_core::store::Store as _;
                let kept = self.office.store.commit(&[whole]).is_ok();
                self.note("photograph sent", || format!("phone {at}: {kept}"));
                if !kept {
                    return;
                }
            }
        }
    }

    /// A phone asks how the office's log stands; what becomes of it is told by the alarms it keeps.
    pub fn watch_log(&mut self, at: usize) {
        // As shells do it: once the records have been compared with this ledger.
        let read = self.phones[at].disk.read(|store| store.value("sync/cursor").unwrap());
        let epoch = self.scope_of(at).epoch(self.office.epoch);
        let met = read.is_some_and(|cursor| cursor.starts_with(&epoch.to_be_bytes()));
        if !self.phones[at].reachable || !met {
            return;
        }
        let Ok(mut watch) = self.phones[at].book.log_watch() else { return };
        for _ in 0..20 {
            let Ok(Some(request)) = self.phones[at].book.log_request(&mut watch) else { break };
            let Some(reply) = self.office.answer_about_log(&request) else { break };
            match self.phones[at].book.log_receive(&mut watch, &reply) {
                Ok(Step::Again) => {}
                Ok(Step::Done) | Err(_) => break,
            }
        }
        self.note("log watched", || format!("phone {at}: {:?}", watch.report()));
    }

    fn turn_clock(&mut self, at: usize) {
        let by = dice_signed(&mut self.dice, 3 * YEAR);
        if self.dice.once_in(5) {
            self.office.now = UtcMillis(self.office.now.0 + by / 100);
            if by < 0 {
                let revoked = self.office.devices.iter().filter(|(_, revoked)| revoked.is_some());
                self.office.doubtful.extend(revoked.map(|(device, _)| *device));
            }
            return self.note("office clock", String::new);
        }
        self.phones[at].clock.advance(by);
        self.note("clock jump", || format!("phone {at}: {by} ms"));
    }

    fn arm(&mut self, at: usize) {
        let blow = self.dice.one_of(&[Blow::Before, Blow::After, Blow::Full]);
        let more = self.dice.below(8) as u64;
        let fuse = if self.dice.once_in(3) { &self.office.fuse } else { &self.phones[at].fuse };
        Fuse::arm(fuse, more, blow);
        self.note("will fail", || format!("{blow:?} after {more} commits"));
    }

    /// Entries on every disk but one phone's; revoked phones do not count, nothing comes back from them.
    fn elsewhere(&self, but: Option<usize>) -> BTreeSet<EntryId> {
        let mut all = if but.is_some() { entries_on(&self.office.disk) } else { BTreeSet::new() };
        for (at, phone) in self.phones.iter().enumerate() {
            if Some(at) != but && !self.office.is_revoked(phone.device()) {
                all.extend(entries_on(&phone.disk));
            }
        }
        all
    }

    /// What leaves a phone was confirmed by the office, and may be gone if the office was put back since.
    fn nobody_has_what_left(&mut self) {
        self.note("left a phone", String::new);
        let (office, phones) = (entries_on(&self.office.disk), self.elsewhere(None));
        let lost = self.office.lost.iter().filter(|id| !office.contains(id) && !phones.contains(id));
        self.may_be_gone.extend(lost);
        let (office, phones) = (self.office.photos_here(), self.photos_elsewhere(None));
        let lost = self.office.lost_photos.iter().filter(|id| !office.contains(id) && !phones.contains(id));
        self.photos_may_be_gone.extend(lost);
    }

    fn photos_elsewhere(&self, but: Option<usize>) -> BTreeSet<Digest> {
        let mut all = if but.is_some() { self.office.photos_here() } else { BTreeSet::new() };
        for (at, phone) in self.phones.iter().enumerate() {
            if Some(at) != but && !self.office.is_revoked(phone.device()) {
                all.extend(photos_here(&phone.disk));
            }
        }
        all
    }

    /// The phone is drowned; a backup of it goes into a new one.
    fn put_phone_back(&mut self, at: usize) {
        let Some(backup) = self.phones[at].backups.last().cloned() else { return };
        let (before, elsewhere) = (entries_on(&self.phones[at].disk), self.elsewhere(Some(at)));
        let (photos, photos_elsewhere) =
            (photos_here(&self.phones[at].disk), self.photos_elsewhere(Some(at)));
        let target = self.new_file();
        let disk = backup.copy(target);
        let after = entries_on(&disk);
        for gone in before.difference(&after).filter(|id| !elsewhere.contains(id)) {
            // What is gone for good had no receipt, or the office lost it as well.
            let receipted = self.phones[at].disk.read(|s| s.entry(*gone).unwrap().unwrap().receipted);
            assert!(!receipted || self.office.lost.contains(gone), "{gone} had a receipt and is gone");
            self.may_be_gone.insert(*gone);
        }
        let left = photos_here(&disk);
        self.photos_may_be_gone
            .extend(photos.difference(&left).filter(|photo| !photos_elsewhere.contains(photo)));
        let World { phones, dice, .. } = self;
        phones[at].disk = disk;
        phones[at].restart(dice);
        self.note("phone put back", || {
            format!("phone {at}: {} entries before, {}", before.len(), after.len())
        });
    }

    fn put_office_back(&mut self) {
        let Some(copy) = self.office.backups.last().cloned() else { return };
        let before = entries_on(&self.office.disk);
        let photos = self.office.photos_here();
        let how = self.dice.one_of(&[PutBack::LedgerAlone, PutBack::Declared, PutBack::Silently]);
        let target = self.new_file();
        self.office.put_back(&copy, target, how);
        let (after, on_phones) = (entries_on(&self.office.disk), self.elsewhere(None));
        self.may_be_gone.extend(before.difference(&after).filter(|id| !on_phones.contains(id)));
        let (photos_left, photos_on_phones) = (self.office.photos_here(), self.photos_elsewhere(None));
        self.photos_may_be_gone
            .extend(photos.difference(&photos_left).filter(|photo| !photos_on_phones.contains(photo)));
        self.note("office put back", || format!("{} entries before, {}, {how:?}", before.len(), after.len()));
    }

    fn revoke(&mut self, at: usize) {
        let unrevoked = self.phones.iter().filter(|p| !self.office.is_revoked(p.device())).count();
        if unrevoked < 3 || !self.dice.once_in(2) {
            return;
        }
        let device = self.phones[at].device();
        self.office.revoke(device);
        self.note("revoked", || format!("phone {at}"));
        // What the office lost and only this phone, or a copy of it, still has does not come back by itself.
        let copies = self.phones.iter().filter(|phone| phone.device() == device);
        let own: BTreeSet<EntryId> = copies.clone().flat_map(|phone| entries_on(&phone.disk)).collect();
        let photos: BTreeSet<Digest> = copies.flat_map(|phone| photos_here(&phone.disk)).collect();
        let (elsewhere, photos_elsewhere) = (self.elsewhere(Some(at)), self.photos_elsewhere(Some(at)));
        let lost = own.iter().filter(|id| self.office.lost.contains(id) && !elsewhere.contains(id));
        self.may_be_gone.extend(lost);
        self.photos_may_be_gone.extend(photos.difference(&photos_elsewhere));
    }

    /// A phone copied whole: two with one key. Sometimes even its random numbers go on alike.
    fn copy_phone(&mut self, at: usize) {
        if self.phones.len() >= MOST_PHONES {
            return;
        }
        let target = self.new_file();
        let (disk, secret) = (self.phones[at].disk.copy(target), self.phones[at].secret);
        let (number, now) = (self.phones.len(), self.office.now);
        let mut dice = Dice::of(self.dice.next());
        if self.dice.once_in(2) {
            let World { phones, .. } = self;
            phones[at].restart(&mut dice.clone());
            self.twins = true;
            self.note("twin", || format!("phone {at} and {number}"));
        }
        self.phones.push(Phone::start(number, secret, disk, now, &mut dice));
        self.note("phone copied", || format!("phone {at} to {number}"));
    }

    /// Everything under way arrives, everything works, everybody syncs until there is nothing to do.
    pub fn make_quiet(&mut self) {
        let now = UtcMillis(self.office.now.0.max(1_795_528_800_000) + 1000);
        self.office.now = now;
        Fuse::disarm(&self.office.fuse);
        self.office.restart();
        let World { phones, dice, .. } = self;
        for phone in phones.iter_mut() {
            phone.restart(dice);
            phone.reachable = true;
            phone.clock.set(now);
        }
        while let Some(letter) = self.letters.pop() {
            self.arrive(letter);
        }
        for _ in 0..2 {
            for at in 0..self.phones.len() {
                self.sync_to_the_end(at);
                self.upload(at);
                self.sync_to_the_end(at);
                self.watch_log(at);
            }
        }
    }

    fn sync_to_the_end(&mut self, at: usize) {
        let revoked = self.office.is_revoked(self.phones[at].device());
        self.phones[at].session = None;
        let mut session = self.phones[at].book.sync_session().unwrap();
        for _ in 0..ROUNDS {
            let request = self.phones[at].book.sync_request(&mut session).unwrap();
            let reply = self.office.answer(&request).expect("the office answers");
            self.check_told(at, &reply);
            let step = self.phones[at].book.sync_receive(&mut session, &reply);
            if !session.report().left.is_empty() {
                self.nobody_has_what_left();
            }
            let phone = &mut self.phones[at];
            match step {
                Ok(Step::Done) if !revoked => return,
                // A revoked phone is done after each round; what it has goes over all the same.
                Ok(Step::Done) if phone.book.store().changes_not_held(1).unwrap().is_empty() => return,
                Ok(_) => {}
                Err(error) => panic!("phone {at} cannot sync on a good line: {error}"),
            }
        }
        panic!("phone {at} never came to an end: {:?}", session.report());
    }
}

/// Photographs whose bytes are on a disk.
pub fn photos_here(disk: &Disk) -> BTreeSet<Digest> {
    let photos = disk.read(|store| store.photos().unwrap());
    photos.into_iter().filter(|photo| photo.here).map(|photo| photo.sha256).collect()
}

fn dice_signed(dice: &mut Dice, bound: i64) -> i64 {
    i64::try_from(dice.next() % (2 * bound).unsigned_abs()).unwrap() - bound
}
