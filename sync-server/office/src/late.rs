//! Late entries: entries that a revoked device delivered afterwards, and which of them the office has
//! admitted.
//!
//! The documents keep every entry, late or not; the core decides that a late entry does not count. This file
//! finds the late entries of a ledger and what the office admitted. It also holds the one-time step for data
//! folders of version one that admits what operators said of sites and people, so that it continues to count.
//! The page itself is in `pages::late`.

use std::collections::{BTreeMap, BTreeSet, btree_map};

use farsiding_core::authority::Authority;
use farsiding_core::book::Draft;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{Entry, OrganisationKey, Role, Statement};
use farsiding_core::ids::{EntryId, OperatorId, Subject};
use farsiding_core::store::{Store, Write};
use farsiding_core::view::Slots;
use farsiding_core::{Arg, Message, message};

use super::data_folder::DataFolder;
use super::index::fold::{Surroundings, sentences_of};
use super::index::ledger_reader::{Held, LedgerReader};
use super::index::{Asking, IndexError};
use super::office_database::{OfficeDatabase, RegisteredDevice};
use super::office_signer::{self, SignError};
use farsiding_host::ProcessClock;

/// The largest number of late entries shown for one device. A thief may sign any number of entries, but the
/// page does not grow with them.
pub const MOST_OF_A_DEVICE: usize = 200;

/// The admission of a late entry.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Admission {
    /// The entry that states the admission.
    pub entry: EntryId,
    /// Who admitted the late entry.
    pub by: OperatorId,
    /// The time of the admission, by the office's clock.
    pub at: UtcMillis,
    /// The reason.
    pub why: String,
}

/// One late entry.
#[derive(Debug, Clone)]
pub struct LateEntry {
    /// The entry with its time of arrival.
    pub held: Held,
    /// The entry as a sentence.
    pub sentence: Message,
    /// The author and time that the entry claims.
    pub claimed: Message,
    /// The subject of the entry, in words.
    pub about: Message,
    /// The admission, if the office has admitted the entry.
    pub admitted: Option<Admission>,
}

/// The late entries of one device.
#[derive(Debug, Clone)]
pub struct LateDevice {
    /// The revoked device.
    pub device: RegisteredDevice,
    /// The device's late entries, in order of arrival.
    pub entries: Vec<LateEntry>,
    /// Whether there are more late entries than are listed.
    pub more: bool,
}

/// Returns whether an entry is late, which means that it arrived after its device was revoked. An entry from
/// before the revocation may be honest and merely have been left on the phone; a person at the office judges
/// that.
pub fn is_late(device: &RegisteredDevice, entry: &Entry, received_at: Option<UtcMillis>) -> bool {
    let came_after = |revoked_at: UtcMillis| received_at.is_some_and(|at| at >= revoked_at);
    entry.device == device.device && device.revoked_at.is_some_and(came_after)
}

/// Returns whether a late entry has a lower number than the last entry the office had when it revoked the
/// device.
pub fn is_before_the_last(device: &RegisteredDevice, entry: &Entry) -> bool {
    device.last.is_some_and(|last| entry.body.seq <= last.seq)
}

/// Returns the late entries of all revoked devices. Devices without late entries are left out.
///
/// # Errors
/// Returns an [`IndexError`] when the ledger cannot be read.
pub fn of_office(
    asking: &Asking<'_>,
    devices: &[RegisteredDevice],
    now: UtcMillis,
) -> Result<Vec<LateDevice>, IndexError> {
    asking.at_one_moment(now, |around, ledger| {
        let mut found = Vec::new();
        for device in devices {
            let Some(revoked_at) = device.revoked_at else { continue };
            let wanted = |entry: &Entry| is_late(device, entry, Some(revoked_at));
            let (held, more) = ledger.arrived_since((device.device, revoked_at), MOST_OF_A_DEVICE, wanted)?;
            if !held.is_empty() {
                let entries = described(around, ledger, held)?;
                found.push(LateDevice { device: device.clone(), entries, more });
            }
        }
        Ok(found)
    })
}

/// Returns the number of late entries that are not admitted, counted up to the limit of the page.
///
/// # Errors
/// Returns an [`IndexError`] when the ledger cannot be read.
pub fn count(asking: &Asking<'_>, devices: &[RegisteredDevice], now: UtcMillis) -> Result<usize, IndexError> {
    if devices.iter().all(|device| device.revoked_at.is_none()) {
        return Ok(0);
    }
    asking.at_one_moment(now, |around, ledger| {
        let (mut count, mut documents) = (0, BTreeMap::new());
        for device in devices {
            let Some(revoked_at) = device.revoked_at else { continue };
            let wanted = |entry: &Entry| is_late(device, entry, Some(revoked_at));
            let (held, _) = ledger.arrived_since((device.device, revoked_at), MOST_OF_A_DEVICE, wanted)?;
            for late in held {
                let let_in: &BTreeMap<EntryId, Admission> = match documents.entry(late.entry.body.about) {
                    btree_map::Entry::Occupied(known) => known.into_mut(),
                    btree_map::Entry::Vacant(new) => {
                        let about = *new.key();
                        new.insert(admissions(ledger, around.authority(), about)?)
                    }
                };
                count += usize::from(!let_in.contains_key(&late.entry.id));
            }
        }
        Ok(count)
    })
}

fn described(
    around: &mut Surroundings<'_>,
    ledger: &LedgerReader,
    held: Vec<Held>,
) -> Result<Vec<LateEntry>, IndexError> {
    let subjects: BTreeSet<Subject> = held.iter().map(|late| late.entry.body.about).collect();
    let (mut documents, mut admitted) = (BTreeMap::new(), BTreeMap::new());
    for subject in subjects {
        documents.insert(subject, sentences_of(around, subject)?);
        admitted.extend(admissions(ledger, around.authority(), subject)?);
    }
    let mut entries = Vec::new();
    for late in held {
        let about = late.entry.body.about;
        let document = documents.get(&about);
        let line = document.and_then(|(_, lines)| lines.get(&late.entry.id));
        let car = document.and_then(|(opened, _)| opened.as_ref()).map(|opened| opened.car.normal());
        entries.push(LateEntry {
            sentence: line.map_or_else(|| kind_words(&late.entry), |line| line.sentence.clone()),
            claimed: line.map_or_else(|| Message::typed(&late.entry.body.by.0), |line| line.said.signature()),
            about: about_words(around, about, car)?,
            admitted: admitted.get(&late.entry.id).cloned(),
            held: late,
        });
    }
    Ok(entries)
}

fn kind_words(entry: &Entry) -> Message {
    message!("office-late-kind", kind = Arg::typed(entry.body.says.kind().replace('_', " ")))
}

fn about_words(
    around: &mut Surroundings<'_>,
    about: Subject,
    car: Option<String>,
) -> Result<Message, IndexError> {
    let short = |id: String| Arg::typed(id);
    Ok(match about {
        Subject::Visit(visit) => match car.filter(|car| !car.is_empty()) {
            Some(car) => {
                message!("office-late-record-of", car = Arg::typed(car), record = short(visit.short()))
            }
            None => message!("office-accounts-record", record = short(visit.short())),
        },
        Subject::Car(car) => message!("office-late-car", car = short(car.short())),
        Subject::Site(site) => match around.site(site)?.name.as_str() {
            "" => message!("office-late-site", site = short(site.short())),
            name => message!("office-late-site", site = Arg::typed(name)),
        },
        Subject::Roster(_) => message!("office-late-people"),
    })
}

/// Returns the admitted entries of a document, each with its admission. An admission counts if its author had
/// the right to admit and it was not withdrawn.
///
/// # Errors
/// Returns an [`IndexError`] when the ledger cannot be read.
pub fn admissions(
    ledger: &LedgerReader,
    authority: &Authority,
    subject: Subject,
) -> Result<BTreeMap<EntryId, Admission>, IndexError> {
    let held = ledger.entries_of(subject)?;
    let judged = authority.document(subject, held.iter().map(Held::received));
    let slots = Slots::fold(judged.into_iter().filter(|j| j.entry().body.slot.starts_with("admitted/")));
    let received: BTreeMap<EntryId, Option<UtcMillis>> =
        held.iter().map(|held| (held.entry.id, held.received_at)).collect();
    let mut admitted = BTreeMap::new();
    for slot in slots.names_under("admitted/") {
        let Some(item) = slots.latest(slot) else { continue };
        let Some(Statement::Admitted { entry }) = item.claim else { continue };
        let (word, body) = (item.entry.id, &item.entry.body);
        let at = received.get(&word).copied().flatten().unwrap_or(body.when.at);
        let admission = Admission { entry: word, by: body.by.clone(), at, why: body.why.clone() };
        admitted.insert(*entry, admission);
    }
    Ok(admitted)
}

/// The setting that says that the one-time step was done for this ledger.
const RIGHTS_KEPT: &str = "server/rights_kept";
/// The reason written into the admissions of the one-time step.
pub const BEFORE_RIGHTS: &str = "recorded before rights were kept";

/// Admits, once in the life of a ledger, what operators' devices said of sites and people before the program
/// kept rights. Only entries of enrolled devices that arrived before a revocation are admitted. Returns the
/// number of admitted entries.
///
/// # Errors
/// Returns a [`SignError`]; the next start continues where this one stopped.
pub fn admit_what_was_before(
    folder: &DataFolder,
    (database, ledger): (&mut OfficeDatabase, &mut dyn Store),
    key: &OrganisationKey,
    clock: &ProcessClock,
) -> Result<usize, SignError> {
    if ledger.value(RIGHTS_KEPT)?.is_some() {
        return Ok(0);
    }
    let devices = database.devices()?;
    let reader = LedgerReader::open(&folder.ledger_place())?;
    let authority = reader.authority(&key.public(), clock.time())?;
    let mut admitted = 0;
    let signer = crate::enrolment::office_signer_name(database)?;
    for subject in ledger.subjects()? {
        if !matches!(subject, Subject::Site(_) | Subject::Roster(_)) {
            continue;
        }
        let entries = before_rights(&reader, &devices, &authority, subject)?;
        admitted += entries.len();
        // Entries are admitted in batches, so that one commit is no larger than a phone's would be.
        for entries in entries.chunks(100) {
            let drafts = entries.iter().map(|entry| admitting(*entry, BEFORE_RIGHTS)).collect();
            office_signer::sign_all(folder, (database, ledger), key, clock, (subject, drafts, &signer))?;
        }
    }
    ledger.commit(&[Write::Value { key: RIGHTS_KEPT, value: &clock.time().0.to_be_bytes() }])?;
    Ok(admitted)
}

/// Returns the draft of an entry that admits another entry.
pub fn admitting(entry: EntryId, why: &str) -> Draft {
    Draft::of(Statement::Admitted { entry }).because(why)
}

/// Returns the entries of a document that an operator's device made and that nobody has admitted yet.
fn before_rights(
    reader: &LedgerReader,
    devices: &[RegisteredDevice],
    authority: &Authority,
    subject: Subject,
) -> Result<Vec<EntryId>, IndexError> {
    let admitted = admissions(reader, authority, subject)?;
    let is_operators = |held: &Held| {
        let device = devices.iter().find(|device| device.device == held.entry.device);
        device.is_some_and(|device| {
            let in_time = match (device.revoked_at, held.received_at) {
                (None, _) => true,
                (Some(revoked_at), at) => at.is_some_and(|at| at < revoked_at),
            };
            // The office database says which devices are enrolled; the certificates in the ledger must agree.
            device.role == Role::Operator && in_time && authority.device(&device.device).is_some()
        })
    };
    let mut found = Vec::new();
    for held in reader.entries_of(subject)? {
        if is_operators(&held) && !admitted.contains_key(&held.entry.id) {
            found.push(held.entry.id);
        }
    }
    Ok(found)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::enrolment::{self, Invitation};
    use crate::grants::Grant;
    use crate::index::Index;
    use crate::ledger::{Ledger as _, OfficeLedger};
    use farsiding_core::book::{Book, BookParts};
    use farsiding_core::clock::HandSetClock;
    use farsiding_core::entry::DeviceKey;
    use farsiding_core::entry::site_facts::Contact;
    use farsiding_core::evidence::ledger_log;
    use farsiding_core::ids::{OrganisationId, SiteId, VisitId};
    use farsiding_host::SystemRandomness;

    struct Scene {
        folder: DataFolder,
        database: OfficeDatabase,
        ledger: OfficeLedger,
        key: OrganisationKey,
        clock: ProcessClock,
        _temporary: tempfile::TempDir,
    }

    const VISIT: Subject = Subject::Visit(VisitId([3; 16]));
    const SITE: Subject = Subject::Site(SiteId([4; 16]));

    fn remark(text: &str) -> Draft {
        Draft::of(Statement::Remark { text: text.to_owned() })
    }

    fn contact(number: &str) -> Draft {
        Draft::of(Statement::Contact(Contact {
            role: "emergency".into(),
            name: "Invented".to_owned(),
            telephone: number.to_owned(),
            note: String::new(),
        }))
    }

    impl Scene {
        fn new() -> Scene {
            let temporary = tempfile::tempdir().unwrap();
            let folder = DataFolder::open_or_make(temporary.path()).unwrap();
            let key = folder.organisation_key(&mut SystemRandomness::new().unwrap()).unwrap();
            let ledger = OfficeLedger::open(&folder.ledger_place()).unwrap();
            let database = OfficeDatabase::open(&folder.database_file()).unwrap();
            let clock = ProcessClock::System;
            Scene { folder, database, ledger, key, clock, _temporary: temporary }
        }

        fn enrol(&mut self, name: &str, role: Role, device: u8) -> DeviceKey {
            let device = DeviceKey::from_secret([device; 32]);
            let mut dice = SystemRandomness::new().unwrap();
            let invitation = Invitation { name, role, grant: Grant::default(), minutes: 60 };
            let now = self.clock.time();
            let code = enrolment::issue(&self.database, &invitation, now, &mut dice).unwrap().code;
            let (store, public) = (self.ledger.store_mut(), device.public());
            enrolment::redeem(&self.database, store, &self.key, &code, public, name, now).unwrap();
            device
        }

        fn revoke(&mut self, name: &str, at: UtcMillis) {
            let file = self.folder.ledger_place();
            let office = (self.ledger.store_mut(), &file);
            enrolment::revoke(&self.database, office, &self.key, name, at).unwrap();
        }

        /// Delivers what a device recorded at a time of the office's clock.
        fn comes(
            &mut self,
            device: &DeviceKey,
            about: Subject,
            drafts: Vec<Draft>,
            at: UtcMillis,
        ) -> Vec<EntryId> {
            let mut book = Book::open(BookParts {
                store: office_signer::own_connection(&self.folder.ledger_place()).unwrap(),
                key: device.clone(),
                clock: Box::new(HandSetClock::at(at, 0)),
                randomness: Box::new(SystemRandomness::new().unwrap()),
            });
            let made = book.append(about, drafts, &OperatorId("op".to_owned())).unwrap();
            let leaves: Vec<Write<'_>> = made
                .iter()
                .map(|entry| Write::Leaf { entry: *entry, received_at: at, about: Some(about) })
                .collect();
            self.ledger.store_mut().commit(&leaves).unwrap();
            ledger_log::publish(self.ledger.store_mut(), &self.key, at).unwrap();
            made
        }

        fn late(&self) -> Vec<LateDevice> {
            let (file, ledger) = (self.folder.index_file(), self.folder.ledger_place());
            let index = Index::open(&file, &ledger, "1", self.key.public()).unwrap();
            let devices = self.database.devices().unwrap();
            index.ask(|asking| of_office(asking, &devices, self.clock.time())).unwrap()
        }

        fn admit_what_was_before(&mut self) -> usize {
            let office = (&mut self.database, self.ledger.store_mut());
            super::admit_what_was_before(&self.folder, office, &self.key, &self.clock).unwrap()
        }

        fn admission(&self, subject: Subject, id: EntryId) -> Option<Admission> {
            let reader = LedgerReader::open(&self.folder.ledger_place()).unwrap();
            let authority = self.authority();
            admissions(&reader, &authority, subject).unwrap().remove(&id)
        }

        /// Returns the authority after everything has arrived.
        fn authority(&self) -> Authority {
            let reader = LedgerReader::open(&self.folder.ledger_place()).unwrap();
            reader.authority(&self.key.public(), UtcMillis(self.clock.time().0 + 60_000)).unwrap()
        }

        fn counts(&self, subject: Subject, id: EntryId) -> bool {
            let reader = LedgerReader::open(&self.folder.ledger_place()).unwrap();
            let held = reader.entries_of(subject).unwrap();
            let authority = self.authority();
            let judged = authority.document(subject, held.iter().map(Held::received));
            judged.iter().any(|judged| judged.entry().id == id && judged.verdict().counts())
        }
    }

    #[test]
    fn the_tray_is_bounded_and_holds_what_came_after_the_revocation() {
        let mut scene = Scene::new();
        let lost = scene.enrol("Lost", Role::Operator, 1);
        let honest = scene.enrol("Honest", Role::Operator, 2);
        let now = scene.clock.time();
        let after = UtcMillis(now.0 + 1000);
        scene.comes(&lost, VISIT, vec![remark("before")], UtcMillis(now.0 - 1000));
        scene.revoke("Lost", now);
        assert!(scene.late().is_empty());
        scene.comes(&honest, VISIT, vec![remark("of another device")], after);
        let many = (0..MOST_OF_A_DEVICE + 5).map(|at| remark(&format!("late {at}"))).collect();
        scene.comes(&lost, VISIT, many, after);
        let late = scene.late();
        assert_eq!((late.len(), late[0].entries.len(), late[0].more), (1, MOST_OF_A_DEVICE, true));
        let sentence = farsiding_words::english(&late[0].entries[0].sentence);
        assert!(sentence.contains("late 0"), "{sentence:?}");
        assert_eq!(late[0].device.last.unwrap().seq, 1);
    }

    #[test]
    fn only_the_office_lets_anything_in() {
        let mut scene = Scene::new();
        let lost = scene.enrol("Lost", Role::Operator, 1);
        let honest = scene.enrol("Honest", Role::Operator, 2);
        let desk = scene.enrol("Desk", Role::Office, 3);
        let stolen_desk = scene.enrol("Stolen desk", Role::Office, 4);
        let now = scene.clock.time();
        let after = UtcMillis(now.0 + 1000);
        scene.revoke("Lost", now);
        scene.revoke("Stolen desk", now);
        let late = scene.comes(&lost, VISIT, vec![remark("late")], after)[0];
        let stranger = DeviceKey::from_secret([9; 32]);
        for device in [&lost, &honest, &stolen_desk, &stranger] {
            scene.comes(device, VISIT, vec![admitting(late, "trust me")], after);
            assert_eq!(scene.admission(VISIT, late), None);
        }
        assert!(!scene.counts(VISIT, late));
        let word = scene.comes(&desk, VISIT, vec![admitting(late, "asked")], after)[0];
        assert!(scene.counts(VISIT, late));
        assert_eq!(
            scene.admission(VISIT, late).map(|word| (word.entry, word.why)),
            Some((word, "asked".into()))
        );
        // An operator cannot withdraw any of these entries.
        let slot = Statement::Admitted { entry: late }.slot();
        let back = Draft::instead_of(Statement::Withdrawn {}, vec![word], "no");
        let back = Draft { slot, ..back };
        scene.comes(&honest, VISIT, vec![back.clone()], after);
        assert!(scene.admission(VISIT, late).is_some());
        scene.comes(&desk, VISIT, vec![back], after);
        assert_eq!(scene.admission(VISIT, late), None);
        assert!(!scene.counts(VISIT, late));
    }

    #[test]
    fn what_operators_said_of_sites_before_rights_were_kept_is_let_in_once() {
        let mut scene = Scene::new();
        let operator = scene.enrol("Phone", Role::Operator, 1);
        let lost = scene.enrol("Lost", Role::Operator, 2);
        let desk = scene.enrol("Desk", Role::Office, 3);
        let stranger = DeviceKey::from_secret([9; 32]);
        let now = scene.clock.time();
        let (before, after) = (UtcMillis(now.0 - 1000), UtcMillis(now.0 + 1000));
        let roster = Subject::Roster(OrganisationId::of_key(&scene.key.public()));
        let mut good = scene.comes(&operator, SITE, vec![contact("555-0100"), contact("555-0101")], before);
        good.extend(scene.comes(&operator, roster, vec![remark("of the people")], before));
        good.extend(scene.comes(&lost, SITE, vec![contact("555-0102")], before));
        scene.comes(&operator, VISIT, vec![remark("of a stay")], before);
        scene.comes(&desk, SITE, vec![contact("555-0103")], before);
        scene.revoke("Lost", now);
        let bad = scene.comes(&lost, SITE, vec![contact("555-6666")], after)[0];
        let worse = scene.comes(&stranger, SITE, vec![contact("555-7777")], before)[0];

        assert_eq!(scene.admit_what_was_before(), good.len());
        for id in good {
            let subject = if scene.is_in(roster, id) { roster } else { SITE };
            assert_eq!(scene.admission(subject, id).unwrap().why, BEFORE_RIGHTS);
            assert!(scene.counts(subject, id));
        }
        for id in [bad, worse] {
            assert_eq!(scene.admission(SITE, id), None);
            assert!(!scene.counts(SITE, id));
        }
        // The step runs only once: what an operator says of a site from now on is judged normally.
        let later = scene.comes(&operator, SITE, vec![contact("555-0104")], after)[0];
        assert_eq!(scene.admit_what_was_before(), 0);
        assert_eq!(scene.admission(SITE, later), None);
    }

    impl Scene {
        fn is_in(&self, subject: Subject, id: EntryId) -> bool {
            let reader = LedgerReader::open(&self.folder.ledger_place()).unwrap();
            reader.entries_of(subject).unwrap().iter().any(|held| held.entry.id == id)
        }
    }

    #[test]
    fn a_folder_nobody_was_in_has_nothing_to_let_in_and_makes_no_desk() {
        let mut scene = Scene::new();
        assert_eq!(scene.admit_what_was_before(), 0);
        assert!(scene.database.devices().unwrap().is_empty());
    }
}
