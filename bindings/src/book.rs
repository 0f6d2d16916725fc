//! A device's book, as every shell opens it: coarse calls, JSON where the core has a serde form.
//!
//! Only conversion happens here. What was gathered for views is kept between calls and read again where
//! it changed, so that a list of a thousand visits does not wait for the disk.

use std::collections::BTreeSet;
use std::sync::{Mutex, MutexGuard, PoisonError};

use farsiding_core::book::{Book as CoreBook, BookParts, Draft, Gathered, OpenVisit};
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::vocabulary::StepOutcome;
use farsiding_core::entry::{DeviceKey, Statement};
use farsiding_core::ids::{DeviceId, Digest, EntryId, OperatorId, SiteId, Subject, VisitId};
use farsiding_core::procedure::Procedures;
use farsiding_core::store::{SqliteStore, StoredPhoto, Write};
use farsiding_core::sync::{CarriedPhoto, LogStanding, LogWatch, Session, Step};
use farsiding_core::view::{GuidedVisit, Meaning, PreviewedVisit, Sought, VisitView, show};
use serde_json::{Value, json};

use crate::outside::{PlatformClock, PlatformRandomness};
use crate::{Trouble, storage};

/// An open book. Calls are serialised; none keeps a lock after it returns.
#[derive(uniffi::Object)]
pub struct Book {
    state: Mutex<State>,
}

pub(crate) struct State {
    pub(crate) book: CoreBook,
    procedures: Procedures,
    gathered: Gathered,
    session: Option<Session>,
    /// Photographs of the last carry file that the shell has not taken yet, last first.
    carried: Vec<CarriedPhoto>,
    watch: Option<LogWatch>,
    /// Photographs for the next carry file.
    to_carry: Vec<CarriedPhoto>,
}

/// A photograph's exact bytes out of a carry file.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct Picture {
    /// Media type, such as `image/jpeg`.
    pub media: String,
    /// The bytes.
    pub bytes: Vec<u8>,
}

fn wrong(why: impl ToString) -> Trouble {
    Trouble::WrongCall { why: why.to_string() }
}

fn read_visit(text: &str) -> Result<VisitId, Trouble> {
    VisitId::read(text).map_err(wrong)
}

fn read_subject(text: &str) -> Result<Subject, Trouble> {
    Subject::read(text).ok_or_else(|| wrong(format!("{text:?} is no subject")))
}

#[uniffi::export]
impl Book {
    /// Opens or makes the book `name` in `folder`. `key` is the device's 32-byte Ed25519 secret.
    ///
    /// # Errors
    /// `NoStorage` before `prepare_storage`, `WrongCall` for a key of another length, `Refused` when the
    /// file was written by a later version.
    #[uniffi::constructor]
    pub fn open(folder: String, name: String, key: Vec<u8>) -> Result<Book, Trouble> {
        let key: [u8; 32] = key.try_into().map_err(|_| wrong("a key has 32 bytes"))?;
        let store = SqliteStore::open(&storage::location(&folder, &name)?, storage::DURABILITY)?;
        let book = CoreBook::open(BookParts {
            store: Box::new(store),
            key: DeviceKey::from_secret(key),
            clock: Box::new(PlatformClock),
            randomness: Box::new(PlatformRandomness),
        });
        let gathered = book.gather()?;
        let procedures =
            Procedures::built_in().map_err(|error| Trouble::Refused { why: error.to_string() })?;
        Ok(Book {
            state: Mutex::new(State {
                book,
                procedures,
                gathered,
                session: None,
                carried: Vec::new(),
                to_carry: Vec::new(),
                watch: None,
            }),
        })
    }

    /// This device: its public key in hexadecimal.
    pub fn device(&self) -> String {
        self.state().book.device().to_string()
    }

    /// Begins a visit. JSON: `{car, site, receiver, spot?, procedure?}`; the built-in procedure is the
    /// default. Returns the visit's id.
    ///
    /// # Errors
    /// `WrongCall` for other JSON, `NotStored` when the disk refuses.
    pub fn open_visit(&self, opening: String, operator: String) -> Result<String, Trouble> {
        let mut state = self.state();
        let mut opening: Value = serde_json::from_str(&opening)?;
        if opening.get("procedure").is_none() {
            let built_in = state.procedures.default_procedure().map(|p| p.digest.to_string());
            opening["procedure"] = json!(built_in);
        }
        let opening: OpenVisit = serde_json::from_value(opening)?;
        let visit = state.book.open_visit(opening, &OperatorId(operator))?;
        state.read_again(&[Subject::Visit(visit)])?;
        Ok(visit.to_string())
    }

    /// Makes entries in a document (`visit:…`, `site:…`, `roster:…`), all or none; they are on the disk
    /// when this returns. JSON: `[{says, slot?, replaces?, why?, place?}]`. Returns their ids.
    ///
    /// # Errors
    /// `WrongCall` for other JSON, `Refused` when an entry breaks a rule (no reason, no operator),
    /// `NotStored` when the disk refuses.
    pub fn append(&self, subject: String, drafts: String, operator: String) -> Result<Vec<String>, Trouble> {
        let drafts: Vec<Draft> = serde_json::from_str(&drafts)?;
        self.state().append(read_subject(&subject)?, drafts, operator)
    }

    /// The visit as it would be with `drafts` appended; nothing is kept. For showing what a reading
    /// means, with its uncertainty, while it is being typed.
    ///
    /// # Errors
    /// As `append`.
    pub fn preview(&self, visit: String, drafts: String, operator: String) -> Result<String, Trouble> {
        let state = self.state();
        let visit = read_visit(&visit)?;
        let drafts: Vec<Draft> = serde_json::from_str(&drafts)?;
        let sketched = state.book.sketch(Subject::Visit(visit), drafts, &OperatorId(operator))?;
        let view = state.gathered.view_with(visit, &state.procedures, &sketched);
        let view = view.ok_or_else(|| not_here(&visit))?;
        let now = state.gathered.view(visit, &state.procedures).ok_or_else(|| not_here(&visit))?;
        // Beside the record, under `meaning`: what is different from the record as it stands.
        let meaning = Meaning::of(&now, &view);
        Ok(serde_json::to_string(&PreviewedVisit { view, meaning })?)
    }

    /// Makes a step's entries and the step's own in one commit. `outcome`: `done`, `not_right`, `skipped`.
    ///
    /// # Errors
    /// As `append`; a skipped step needs a note.
    pub fn record_step(
        &self,
        visit: String,
        step: String,
        outcome: String,
        note: String,
        drafts: String,
        operator: String,
    ) -> Result<Vec<String>, Trouble> {
        let outcome = StepOutcome::read(&outcome).ok_or_else(|| wrong("an unknown step outcome"))?;
        let mut drafts: Vec<Draft> = serde_json::from_str(&drafts)?;
        drafts.push(Draft::of_step(&step, outcome, &note));
        self.state().append(Subject::Visit(read_visit(&visit)?), drafts, operator)
    }

    /// Settles the disagreement that entry `keeps` is part of in its favour.
    ///
    /// # Errors
    /// `Refused` without a reason, or when nothing disagrees about it.
    pub fn settle(
        &self,
        visit: String,
        keeps: String,
        why: String,
        operator: String,
    ) -> Result<Vec<String>, Trouble> {
        let keeps = EntryId::read(&keeps).map_err(wrong)?;
        self.decide(&visit, operator, |view| Draft::settling(view, keeps, &why))
    }

    /// Takes an entry back; nothing stands in its place.
    ///
    /// # Errors
    /// `Refused` without a reason, or when the record has no such entry.
    pub fn withdraw(
        &self,
        visit: String,
        entry: String,
        why: String,
        operator: String,
    ) -> Result<Vec<String>, Trouble> {
        let entry = EntryId::read(&entry).map_err(wrong)?;
        self.decide(&visit, operator, |view| Draft::withdrawing(view, entry, &why))
    }

    /// Passes over a blocker, with a reason that the record shows for ever.
    ///
    /// # Errors
    /// `Refused` without a reason, or when nothing of that code blocks now.
    pub fn pass_over(
        &self,
        visit: String,
        blocker: String,
        why: String,
        operator: String,
    ) -> Result<Vec<String>, Trouble> {
        self.decide(&visit, operator, |view| Draft::passing_over(view, &blocker, &why))
    }

    /// Releases the car.
    ///
    /// # Errors
    /// `Refused`, naming what is still open and was not passed over.
    pub fn release(&self, visit: String, as_residue: bool, operator: String) -> Result<Vec<String>, Trouble> {
        self.decide(&visit, operator, |view| Draft::releasing(view, as_residue))
    }

    /// One row per stay, as JSON.
    ///
    /// # Errors
    /// None today.
    pub fn visits(&self) -> Result<String, Trouble> {
        let state = self.state();
        Ok(serde_json::to_string(&state.gathered.rows(&state.procedures))?)
    }

    /// Rows of the stays that are not over: the car stands, or the office has not receipted all of it; as
    /// JSON. What a phone shows first.
    ///
    /// # Errors
    /// None today.
    pub fn standing(&self) -> Result<String, Trouble> {
        let state = self.state();
        Ok(serde_json::to_string(&state.gathered.standing(&state.procedures))?)
    }

    /// How many stays are over, and rows of at most `most` of them after the first `from`, begun last
    /// first. JSON: `{of, rows}`.
    ///
    /// # Errors
    /// None today.
    pub fn over(&self, from: u32, most: u32) -> Result<String, Trouble> {
        let state = self.state();
        let (of, rows) = state.gathered.over(from as usize, most as usize, &state.procedures);
        Ok(json!({ "of": of, "rows": rows }).to_string())
    }

    /// Rows of stays whose car number, seal number or spot contains `text`, as JSON.
    ///
    /// # Errors
    /// None today.
    pub fn find(&self, text: String) -> Result<String, Trouble> {
        let state = self.state();
        Ok(serde_json::to_string(&state.gathered.find(&Sought::new(&text), &state.procedures))?)
    }

    /// A whole stay, as JSON.
    ///
    /// # Errors
    /// `WrongCall` when it is not on this device.
    pub fn visit(&self, visit: String) -> Result<String, Trouble> {
        // Beside the record, under `guide`: what steps ask for, how a slot is said again, where blockers are cleared.
        Ok(serde_json::to_string(&GuidedVisit::from(self.state().view(&visit)?))?)
    }

    /// A whole stay in plain words.
    ///
    /// # Errors
    /// As `visit`.
    pub fn show(&self, visit: String) -> Result<String, Trouble> {
        Ok(show(&self.state().view(&visit)?))
    }

    /// The sites known here, by id, as JSON.
    ///
    /// # Errors
    /// None today.
    pub fn sites(&self) -> Result<String, Trouble> {
        let state = self.state();
        let sites: serde_json::Map<String, Value> = state
            .gathered
            .sites
            .iter()
            .map(|(id, site)| Ok((id.to_string(), serde_json::to_value(site)?)))
            .collect::<Result<_, serde_json::Error>>()?;
        Ok(Value::Object(sites).to_string())
    }

    /// A new site's id, for its first entry.
    pub fn new_site(&self) -> String {
        SiteId::random(self.state().book.randomness()).to_string()
    }

    /// The people of the organisation, as JSON.
    ///
    /// # Errors
    /// None today.
    pub fn people(&self) -> Result<String, Trouble> {
        Ok(serde_json::to_string(&self.state().gathered.people.values().collect::<Vec<_>>())?)
    }

    /// Keeps something half typed under a key; empty text removes it.
    ///
    /// # Errors
    /// `NotStored` when the disk refuses.
    pub fn set_draft(&self, key: String, text: String) -> Result<(), Trouble> {
        self.state().book.store_mut().commit(&[Write::Draft { key: &key, text: &text }])?;
        Ok(())
    }

    /// Everything half typed, as JSON: key -> text.
    ///
    /// # Errors
    /// `NotStored` when the disk cannot be read.
    pub fn drafts(&self) -> Result<String, Trouble> {
        let drafts: serde_json::Map<String, Value> = self
            .state()
            .book
            .store()
            .drafts()?
            .into_iter()
            .map(|(key, text)| (key, Value::String(text)))
            .collect();
        Ok(Value::Object(drafts).to_string())
    }

    /// Notes that the shell keeps a photograph's bytes: their SHA-256 in hexadecimal, length and media type.
    /// Returns the photograph as statements name it, as JSON.
    ///
    /// # Errors
    /// `NotStored` when the disk refuses.
    pub fn photo_taken(&self, sha256: String, length: u64, media: String) -> Result<String, Trouble> {
        let digest = Digest::read(&sha256).map_err(wrong)?;
        let write = Write::Photo { sha256: digest, length, media: &media, here: true, held: false };
        self.state().book.store_mut().commit(&[write])?;
        Ok(json!({ "sha256": sha256, "length": length, "media": media }).to_string())
    }

    /// Photographs the office has not said in a signed reply that it holds, as JSON. Another meeting after
    /// sending them shortens the list.
    ///
    /// # Errors
    /// `NotStored` when the disk cannot be read.
    pub fn photos_waiting(&self) -> Result<String, Trouble> {
        let waiting: Vec<Value> =
            self.state().book.store().photos()?.iter().filter(|p| p.here && !p.held).map(named).collect();
        Ok(Value::Array(waiting).to_string())
    }

    /// How this device stands: what only it has, whether it is enrolled, its clock, how the office's log
    /// stands, as JSON.
    ///
    /// # Errors
    /// `NotStored` when the disk cannot be read.
    pub fn status(&self) -> Result<String, Trouble> {
        let state = self.state();
        let book = &state.book;
        let photos = book.store().photos()?;
        Ok(json!({
            "device": book.device().to_string(),
            "organisation_key": book.organisation_key()?.map(|key| key.to_string()),
            "without_receipt": book.store().count_without_receipt()?,
            "entries": book.store().tally()?.count,
            "photos_waiting": photos.iter().filter(|p| p.here && !p.held).count(),
            "quarantined": book.store().quarantined()?.len(),
            "clock_ahead_millis": book.stamp()?.ahead_millis,
            "damaged": state.gathered.damaged,
            "log": book.log_standing()?.as_ref().map(log_json),
            "version": env!("CARGO_PKG_VERSION"),
        })
        .to_string())
    }

    /// The signed request to send to the office's enrolment address with a one-time code. The office says
    /// its key and its time (milliseconds since 1970) when that address is asked who it is.
    ///
    /// # Errors
    /// `WrongCall` when the key is none.
    pub fn enrol_request(
        &self,
        code: String,
        name: String,
        organisation_key: String,
        server_time: i64,
    ) -> Result<Vec<u8>, Trouble> {
        let key = DeviceId::read(&organisation_key).map_err(wrong)?;
        Ok(self.state().book.enrol_request(&code, &name, &key, UtcMillis(server_time))?)
    }

    /// Takes the office's answer to an enrolment.
    ///
    /// # Errors
    /// `Refused` when the certificate is not this device's or not that organisation's.
    pub fn enrolled(&self, organisation_key: String, certificate: Vec<u8>) -> Result<(), Trouble> {
        let key = DeviceId::read(&organisation_key).map_err(wrong)?;
        let mut state = self.state();
        state.book.enrolled(key, &certificate)?;
        state.read_again(&[])
    }

    /// As `enrolled`, with what the organisation's root said of its keys, as it stands in the office's answer: the key
    /// that signed the certificate may be one the root named.
    ///
    /// # Errors
    /// As `enrolled`.
    pub fn enrolled_with(
        &self,
        organisation_key: String,
        key_statements: Vec<Vec<u8>>,
        certificate: Vec<u8>,
    ) -> Result<(), Trouble> {
        let key = DeviceId::read(&organisation_key).map_err(wrong)?;
        let mut state = self.state();
        state.book.enrolled_with(key, &key_statements, &certificate)?;
        state.read_again(&[])
    }

    /// Begins a sync with the office; ask for requests until a reply says done.
    ///
    /// # Errors
    /// `NotEnrolled`.
    pub fn sync_start(&self) -> Result<(), Trouble> {
        let mut state = self.state();
        if let Some(broken_off) = state.session.take() {
            state.read_after_meeting(&broken_off)?;
        }
        state.session = Some(state.book.sync_session()?);
        Ok(())
    }

    /// The next request's body.
    ///
    /// # Errors
    /// `WrongCall` before `sync_start`.
    pub fn sync_request(&self) -> Result<Vec<u8>, Trouble> {
        let State { book, session, .. } = &mut *self.state();
        let session = session.as_mut().ok_or_else(|| wrong("no sync was begun"))?;
        Ok(book.sync_request(session)?)
    }

    /// Takes the reply's body. JSON: `{done, rounds, receipted, received, refused, put_off, set_aside, revoked,
    /// ahead_millis, reconciled, differing}`; `refused` is for good, `put_off` is brought again later, `differing`
    /// names the records that still differ from the office's.
    ///
    /// # Errors
    /// `NotTheOffice` for anything the organisation did not sign; nothing is lost and `sync_request` may
    /// be called again.
    pub fn sync_receive(&self, reply: Vec<u8>) -> Result<String, Trouble> {
        let mut state = self.state();
        let mut session = state.session.take().ok_or_else(|| wrong("no sync was begun"))?;
        let answered = state.book.sync_receive(&mut session, &reply);
        let report = session.report().clone();
        let step = match answered {
            Ok(Step::Done) => {
                state.read_after_meeting(&session)?;
                Step::Done
            }
            Ok(step) => {
                state.read_people_and_sites(&session)?;
                state.session = Some(session);
                step
            }
            Err(error) => {
                state.read_after_meeting(&session)?;
                state.session = Some(session);
                return Err(error.into());
            }
        };
        Ok(json!({
            "done": step == Step::Done,
            "rounds": report.rounds,
            "receipted": report.receipted,
            "received": report.received,
            "refused": report.refused,
            "put_off": report.put_off,
            "set_aside": report.set_aside,
            "revoked": report.revoked,
            "ahead_millis": report.ahead_millis,
            "reconciled": report.reconciled,
            "differing": report.differing.iter().map(ToString::to_string).collect::<Vec<_>>(),
        })
        .to_string())
    }

    /// The next request's body for the office's log address, after a sync; nothing when there is nothing to
    /// ask. Call again after `log_receive` says more is to come, or when a reply got lost.
    ///
    /// # Errors
    /// `NotEnrolled`.
    pub fn log_request(&self) -> Result<Option<Vec<u8>>, Trouble> {
        let State { book, watch, .. } = &mut *self.state();
        if watch.is_none() {
            *watch = Some(book.log_watch()?);
        }
        let Some(watching) = watch.as_mut() else { return Ok(None) };
        let request = book.log_request(watching)?;
        if request.is_none() {
            *watch = None;
        }
        Ok(request)
    }

    /// Takes the reply's body. JSON: `{done, size, proven, contradictions: [{kind, sentence}], restored:
    /// [{at, size}]}`. A contradiction is no error: records stay, sync goes on, `status` keeps it.
    ///
    /// # Errors
    /// `NotTheOffice` for anything the organisation did not sign; `log_request` may be called again.
    pub fn log_receive(&self, reply: Vec<u8>) -> Result<String, Trouble> {
        let mut state = self.state();
        let mut watch = state.watch.take().ok_or_else(|| wrong("the log was not asked for"))?;
        let step = match state.book.log_receive(&mut watch, &reply) {
            Ok(step) => step,
            Err(error) => {
                state.watch = Some(watch);
                return Err(error.into());
            }
        };
        let report = watch.report().clone();
        if step == Step::Again {
            state.watch = Some(watch);
        }
        let contradictions: Vec<Value> = report
            .contradictions
            .iter()
            .map(|kind| json!({ "kind": kind, "sentence": kind.sentence() }))
            .collect();
        let restored: Vec<Value> =
            report.restored.iter().map(|r| json!({ "at": r.at.0, "size": r.size })).collect();
        Ok(json!({
            "done": step == Step::Done,
            "size": report.size,
            "proven": report.proven,
            "contradictions": contradictions,
            "restored": restored,
        })
        .to_string())
    }

    /// The signed request for a pass to the office's photographs.
    ///
    /// # Errors
    /// `NotEnrolled`.
    pub fn pass_request(&self) -> Result<Vec<u8>, Trouble> {
        Ok(self.state().book.pass_request(None)?)
    }

    /// The photographs that visits speak of and whose bytes are here, those first that the office is not
    /// known to hold. JSON: `[{sha256, length, media}]`.
    ///
    /// # Errors
    /// `WrongCall` for an unknown visit, `NotStored` when the disk cannot be read.
    pub fn photos_of(&self, visits: Vec<String>) -> Result<String, Trouble> {
        let state = self.state();
        let wanted = visits.iter().map(|v| read_visit(v)).collect::<Result<Vec<_>, _>>()?;
        let spoken_of: BTreeSet<Digest> = state
            .gathered
            .entries_of(&wanted)
            .filter_map(|(_, entry)| match &entry.body.says {
                Statement::Photo { photo, .. } => Some(photo.sha256),
                _ => None,
            })
            .collect();
        let mut photos = state.book.store().photos()?;
        photos.retain(|photo| photo.here && spoken_of.contains(&photo.sha256));
        photos.sort_by_key(|photo| photo.held);
        Ok(Value::Array(photos.iter().map(named).collect()).to_string())
    }

    /// Takes a photograph's exact bytes for the next carry file, one at a time.
    ///
    /// # Errors
    /// `WrongCall` for bytes that are no photograph known here, or when no more fit into a carry file.
    pub fn carry_photo(&self, bytes: Vec<u8>) -> Result<(), Trouble> {
        let mut state = self.state();
        let Some(known) = state.book.store().photo(Digest::of(&bytes))? else {
            return Err(wrong("these bytes are no photograph that was taken"));
        };
        if state.to_carry.iter().any(|photo| photo.bytes == bytes) {
            return Ok(());
        }
        if state.to_carry.iter().map(|photo| photo.bytes.len()).sum::<usize>() + bytes.len()
            > MOST_CARRIED_BYTES
        {
            return Err(wrong(format!("photographs beyond {MOST_CARRIED_BYTES} bytes do not fit")));
        }
        state.to_carry.push(CarriedPhoto { media: known.media, bytes });
        Ok(())
    }

    /// Writes visits with their cars, sites and people into a carry file, with the photographs handed to
    /// `carry_photo` since the last one.
    ///
    /// # Errors
    /// `WrongCall` for an unknown visit.
    pub fn carry_out(&self, visits: Vec<String>) -> Result<Vec<u8>, Trouble> {
        let mut state = self.state();
        let photos = std::mem::take(&mut state.to_carry);
        let wanted = visits.iter().map(|v| read_visit(v)).collect::<Result<Vec<_>, _>>()?;
        let mut subjects = Vec::new();
        for subject in state.book.store().subjects()? {
            let take = match subject {
                Subject::Visit(visit) => wanted.contains(&visit),
                _ => true,
            };
            if take {
                subjects.push(subject);
            }
        }
        Ok(state.book.carry_out(&subjects, photos)?)
    }

    /// Takes a carry file in. JSON: `{received, contained, refused, photos, contradictions}`; as many photographs are then
    /// to be had from `carried_photo`.
    ///
    /// # Errors
    /// `Refused` when it is none.
    pub fn carry_in(&self, file: Vec<u8>) -> Result<String, Trouble> {
        let mut state = self.state();
        let report = state.book.carry_in(&file)?;
        state.read_again(&report.touched)?;
        let (received, contained, refused) = (report.received, report.contained, report.refused);
        state.carried = report.photos;
        state.carried.reverse();
        let photos = state.carried.len();
        let contradictions: Vec<Value> = report
            .contradictions
            .iter()
            .map(|kind| json!({ "kind": kind, "sentence": kind.sentence() }))
            .collect();
        Ok(json!({
            "received": received, "contained": contained, "refused": refused, "photos": photos,
            "contradictions": contradictions,
        })
        .to_string())
    }

    /// Hands over the next photograph of the carry file taken in last, once; nothing when there are no
    /// more. The shell keeps the bytes and says so with `photo_taken`.
    pub fn carried_photo(&self) -> Option<Picture> {
        let CarriedPhoto { media, bytes } = self.state().carried.pop()?;
        Some(Picture { media, bytes })
    }
}

/// What a carry file may hold of photographs: records and the file's own limit need the rest.
const MOST_CARRIED_BYTES: usize = 48 * 1024 * 1024;

fn named(photo: &StoredPhoto) -> Value {
    json!({ "sha256": photo.sha256.to_string(), "length": photo.length, "media": photo.media })
}

impl Book {
    pub(crate) fn state(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn decide(
        &self,
        visit: &str,
        operator: String,
        draft: impl FnOnce(&VisitView) -> Result<Draft, farsiding_core::book::BookError>,
    ) -> Result<Vec<String>, Trouble> {
        let mut state = self.state();
        let draft = draft(&state.view(visit)?)?;
        state.append(Subject::Visit(read_visit(visit)?), vec![draft], operator)
    }
}

/// How the office's log stands: its length, when it was checked, and every contradiction ever noticed.
fn log_json(standing: &LogStanding) -> Value {
    let alarms: Vec<Value> = standing
        .alarms
        .iter()
        .map(|alarm| json!({ "kind": alarm.kind, "sentence": alarm.kind.sentence(), "at": alarm.at.0 }))
        .collect();
    json!({
        "size": standing.checkpoint.as_ref().map(|kept| kept.size),
        "checked_at": standing.checked_at.map(|at| at.0),
        "alarms": alarms,
    })
}

fn not_here(visit: &VisitId) -> Trouble {
    wrong(format!("visit {} is not on this device", visit.short()))
}

impl State {
    fn append(
        &mut self,
        subject: Subject,
        drafts: Vec<Draft>,
        operator: String,
    ) -> Result<Vec<String>, Trouble> {
        let car_too = drafts.iter().any(|draft| draft.says.follows_the_car());
        let ids = self.book.append(subject, drafts, &OperatorId(operator))?;
        self.read_again(&[subject])?;
        // Only what is known of the car went into its document too. Reading it again for every reading
        // would cost the rows of all stays that are over.
        if let (Subject::Visit(visit), true) = (subject, car_too) {
            let stay = self.gathered.stay_of(visit).unwrap_or_default();
            let car = self.gathered.opened(stay).map(|opened| Subject::Car(opened.car.id()));
            self.read_again(car.as_slice())?;
        }
        Ok(ids.iter().map(ToString::to_string).collect())
    }

    pub(crate) fn read_again(&mut self, changed: &[Subject]) -> Result<(), Trouble> {
        Ok(self.book.refresh(&mut self.gathered, changed)?)
    }

    /// What came with a meeting changed its documents; receipts change how entries sent are shown, and come
    /// only for entries that had none.
    fn read_after_meeting(&mut self, session: &Session) -> Result<(), Trouble> {
        let mut changed: BTreeSet<Subject> = self.gathered.without_receipt().into_iter().collect();
        changed.extend(&session.report().touched);
        self.read_again(&changed.into_iter().collect::<Vec<_>>())
    }

    /// A first meeting may bring a thousand stays: who holds the phone is asked for meanwhile.
    fn read_people_and_sites(&mut self, session: &Session) -> Result<(), Trouble> {
        let about = |subject: &&Subject| matches!(subject, Subject::Site(_) | Subject::Roster(_));
        self.read_again(&session.report().touched.iter().filter(about).copied().collect::<Vec<_>>())
    }

    fn view(&self, visit: &str) -> Result<VisitView, Trouble> {
        let visit = read_visit(visit)?;
        self.gathered.view(visit, &self.procedures).ok_or_else(|| not_here(&visit))
    }
}
