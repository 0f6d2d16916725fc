//! A device's book, as every shell opens it: recording, deciding and showing, in coarse calls with JSON where
//! the core has a serde form. Meeting the office is in `office`, photographs and carry files in `carrying`,
//! people's keys in `people`.
//!
//! Only conversion happens here. What was gathered for views is kept between calls and read again where it
//! changed, so that a list of a thousand visits does not wait for the disk.

use std::collections::BTreeMap;
use std::sync::{Mutex, MutexGuard, PoisonError};

use farsiding_core::book::{Book as CoreBook, BookParts, Draft, OpenVisit, Snapshot};
use farsiding_core::entry::DeviceKey;
use farsiding_core::entry::value_reader::from_json;
use farsiding_core::entry::value_writer::to_json;
use farsiding_core::entry::vocabulary::{Gate, StepOutcome};
use farsiding_core::ids::{EntryId, OperatorId, SiteId, Subject, VisitId};
use farsiding_core::procedure::Procedures;
use farsiding_core::store::{SqliteStore, Write};
use farsiding_core::sync::{CarriedPhoto, LogStanding, LogWatch, Session, left};
use farsiding_core::view::{GuidedVisit, Meaning, PreviewedVisit, Sought, VisitView};
use serde::Serialize;
use serde_json::{Value, json};

use crate::outside::{PlatformClock, PlatformRandomness};
use crate::{FarsidingError, storage};

/// An open book: the signed records of one device, in one SQLite file.
///
/// Any thread may call it. Calls wait for each other, block their thread, and none keeps a lock after it
/// returns. A call that makes entries makes all of them or none, and they are on the disk when it returns.
///
/// Texts are UTF-8, JSON where the call says so. Ids are lower-case hexadecimal: 32 digits for visits, cars and
/// sites, 64 for entries, devices and digests. Times are whole milliseconds since 1970-01-01 UTC. Amounts carry
/// their unit: `{"text": "118 psi", "unit": "psi", "value": 118}`, where `text` is what somebody typed.
#[derive(uniffi::Object)]
pub struct Book {
    state: Mutex<State>,
}

pub(crate) struct State {
    pub(crate) book: CoreBook,
    procedures: Procedures,
    pub(crate) gathered: Snapshot,
    pub(crate) session: Option<Session>,
    /// Photographs of the last carry file that the shell has not taken yet, last first.
    pub(crate) carried: Vec<CarriedPhoto>,
    pub(crate) watch: Option<LogWatch>,
    /// Photographs for the next carry file.
    pub(crate) to_carry: Vec<CarriedPhoto>,
}

pub(crate) fn wrong(why: impl ToString) -> FarsidingError {
    FarsidingError::wrong_call(why.to_string())
}

pub(crate) fn read_visit(text: &str) -> Result<VisitId, FarsidingError> {
    VisitId::read(text).map_err(wrong)
}

fn read_subject(text: &str) -> Result<Subject, FarsidingError> {
    Subject::read(text).ok_or_else(|| wrong(format!("{text:?} is no subject")))
}

#[uniffi::export]
impl Book {
    /// Opens the book `name` in `folder`, or makes it when there is none. Call `prepare_storage(folder)`
    /// first, and wait for it.
    ///
    /// `folder` is a path; in a browser it is a folder of the origin's private file system. `name` is the
    /// name of one SQLite file in that folder: 1 to 200 bytes, without slashes. `key` is the device's secret
    /// of exactly 32 bytes (Ed25519), made once with `new_key`. The same key must be given every time:
    /// whoever opens the book with another key continues the records as another device. Opening reads and
    /// checks every record, which takes longer as records grow.
    ///
    /// # Errors
    /// - `WrongCall`: the key has not 32 bytes, or the name is empty, too long or has a slash.
    /// - `NoStorage`: the folder cannot be used, for example because `prepare_storage` has not made it.
    /// - `OpenElsewhere`: another program holds the file.
    /// - `NotStored`: the disk failed or is full.
    /// - `Refused`: a later version of this software wrote the file.
    #[uniffi::constructor]
    pub fn open(folder: String, name: String, key: Vec<u8>) -> Result<Book, FarsidingError> {
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
            Procedures::built_in().map_err(|error| FarsidingError::wrong_call(error.to_string()))?;
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

    /// This device's id: its public key, 64 hexadecimal digits. Never fails.
    pub fn device(&self) -> String {
        self.state().book.device().to_string()
    }

    /// Begins a visit, which is one stay of one car, and returns the visit's id: 32 hexadecimal digits. The
    /// visit is on the disk when this returns.
    ///
    /// `opening` is JSON: `{"car", "site", "receiver", "spot"?, "procedure"?}`. `car` is the car's number as
    /// read from the stencil; any text is kept. `site` is a site's id, 32 hexadecimal digits. `receiver` is
    /// `fixed_tank` or `truck`, what receives the cargo. `spot` is the track or spot as free text.
    /// `procedure` is a procedure's digest, 64 hexadecimal digits; without it the newest edition that the
    /// organisation published for the site is taken, or else the built-in procedure. `operator` is the code
    /// of the person who begins the visit: 1 to 64 printable characters, no
    /// blank at its ends.
    ///
    /// # Errors
    /// - `WrongCall`: `opening` is other JSON, or `operator` is blank.
    /// - `Refused`: `operator` is longer than 64 characters or has characters that are not printed, the entry
    ///   would be larger than 32 KiB, or this device may not begin visits at that site.
    /// - `NotStored`: the disk failed or is full. Nothing was recorded.
    pub fn open_visit(&self, opening: String, operator: String) -> Result<String, FarsidingError> {
        let mut state = self.state();
        let mut opening: Value = serde_json::from_str(&opening)?;
        if let Some(fields) = opening.as_object_mut() {
            let site = fields.get("site").and_then(Value::as_str).and_then(|site| SiteId::read(site).ok());
            let newest = match site {
                Some(site) => state.gathered.procedure_for(site, &state.procedures),
                None => state.procedures.default_procedure().map(|procedure| procedure.digest),
            };
            let newest = newest.map(|digest| digest.to_string());
            fields.entry("procedure").or_insert_with(|| json!(newest));
        }
        let opening: OpenVisit = from_json(&opening.to_string())?;
        let visit = state.book.open_visit(opening, &OperatorId(operator))?;
        state.read_again(&[Subject::Visit(visit)])?;
        Ok(visit.to_string())
    }

    /// Makes entries in one document, all of them or none, and returns their ids in the order of the drafts:
    /// 64 hexadecimal digits each. They are signed and on the disk when this returns.
    ///
    /// `subject` names the document: `visit:`, `car:`, `site:` or `roster:`, then 32 hexadecimal digits.
    /// `drafts` is a JSON list of `{"says", "slot"?, "replaces"?, "why"?, "place"?}`. `says` is one
    /// statement, such as `{"remark": {"text": "…"}}`. An amount in a statement is `{"text", "unit",
    /// "value"?}` as `read_amount` returns it: the text as typed, the unit's symbol, the number in that unit.
    /// A time is milliseconds since 1970-01-01 UTC. `replaces` lists ids of entries that were wrong; `why` is
    /// then required. `place` is `{"latitude", "longitude", "accuracy_m"}`: degrees north from -90 to 90,
    /// degrees east from -180 to 180, and the radius in metres of the circle that holds the true place with
    /// 95 %. `operator` is the person's code: 1 to 64 printable characters, no blank at its ends.
    ///
    /// # Errors
    /// - `WrongCall`: `subject` or `drafts` cannot be read, or `operator` is blank.
    /// - `Refused`: a draft breaks a rule. A reason is missing, an amount's number is not what its text says,
    ///   the entry would be larger than 32 KiB, or this device may not say this. Nothing was recorded.
    /// - `NotStored`: the disk failed or is full. Nothing was recorded.
    pub fn append(
        &self,
        subject: String,
        drafts: String,
        operator: String,
    ) -> Result<Vec<String>, FarsidingError> {
        let drafts: Vec<Draft> = from_json(&drafts)?;
        self.state().append(read_subject(&subject)?, drafts, operator)
    }

    /// The view of a visit as it would be with `drafts` appended, as JSON in the form of `visit`. Nothing is
    /// kept. This is for showing what a reading means, with its uncertainty, while somebody is still typing.
    ///
    /// `visit` is a visit's id of 32 hexadecimal digits; `drafts` and `operator` are as for `append`.
    ///
    /// # Errors
    /// - `WrongCall`: an argument cannot be read, `operator` is blank, or the visit is not on this device.
    /// - `Refused`: as `append` would refuse.
    /// - `NotStored`: the disk cannot be read.
    pub fn preview(&self, visit: String, drafts: String, operator: String) -> Result<String, FarsidingError> {
        let state = self.state();
        let visit = read_visit(&visit)?;
        let drafts: Vec<Draft> = from_json(&drafts)?;
        let sketched = state.book.sketch(Subject::Visit(visit), drafts, &OperatorId(operator))?;
        let view = state.gathered.view_with(visit, &state.procedures, &sketched);
        let view = view.ok_or_else(|| not_here(&visit))?;
        let now = state.gathered.view(visit, &state.procedures).ok_or_else(|| not_here(&visit))?;
        // Beside the record, under `meaning`: what is different from the record as it stands.
        let meaning = Meaning::of(&now, &view);
        Ok(to_json(&PreviewedVisit { view, meaning })?)
    }

    /// Makes the entries of a step of the procedure and the step's own entry together, all of them or none.
    /// Returns the ids in the order of the drafts, the step's own id last: 64 hexadecimal digits each.
    ///
    /// `step` is the step's id in the procedure, with its fitting where the step repeats:
    /// `shut_valve.liquid_a`. `outcome` is `done`, `not_right` or `skipped`. `note` says what was seen, as
    /// free text; a skipped step requires it. `visit` is an id of 32 hexadecimal digits; `drafts` and
    /// `operator` are as for `append`, and `drafts` may be `[]`.
    ///
    /// # Errors
    /// - `WrongCall`: an argument cannot be read, or `outcome` is another word.
    /// - `Refused`: a skipped step has no note, or as `append` refuses. Nothing was recorded.
    /// - `NotStored`: the disk failed or is full. Nothing was recorded.
    pub fn record_step(
        &self,
        visit: String,
        step: String,
        outcome: String,
        note: String,
        drafts: String,
        operator: String,
    ) -> Result<Vec<String>, FarsidingError> {
        let outcome = StepOutcome::read(&outcome).ok_or_else(|| wrong("an unknown step outcome"))?;
        let mut drafts: Vec<Draft> = from_json(&drafts)?;
        drafts.push(Draft::of_step(&step, outcome, &note));
        self.state().append(Subject::Visit(read_visit(&visit)?), drafts, operator)
    }

    /// Settles the open disagreement that the entry `keeps` is part of, in favour of that entry. Returns the
    /// id of the settlement in a list of one: 64 hexadecimal digits.
    ///
    /// `visit` is an id of 32 hexadecimal digits, `keeps` an entry's id of 64. `why` is the reason as free
    /// text, required. `operator` is as for `append`.
    ///
    /// # Errors
    /// - `WrongCall`: an id cannot be read, `operator` is blank, or the visit is not on this device.
    /// - `Refused`: the reason is blank, the entry is in no open disagreement, or this device may not settle.
    /// - `NotStored`: the disk failed or is full. Nothing was recorded.
    pub fn settle(
        &self,
        visit: String,
        keeps: String,
        why: String,
        operator: String,
    ) -> Result<Vec<String>, FarsidingError> {
        let keeps = EntryId::read(&keeps).map_err(wrong)?;
        self.decide(&visit, operator, |view| Draft::settling(view, keeps, &why))
    }

    /// Takes an entry back; nothing stands in its place, and the record shows both for ever. Returns the id
    /// of the withdrawal in a list of one: 64 hexadecimal digits. Arguments are as for `settle`; `entry` is
    /// the entry that is taken back.
    ///
    /// # Errors
    /// - `WrongCall`: an id cannot be read, `operator` is blank, or the visit is not on this device.
    /// - `Refused`: the reason is blank, the visit has no such entry, or this device may not take that entry
    ///   back.
    /// - `NotStored`: the disk failed or is full. Nothing was recorded.
    pub fn withdraw(
        &self,
        visit: String,
        entry: String,
        why: String,
        operator: String,
    ) -> Result<Vec<String>, FarsidingError> {
        let entry = EntryId::read(&entry).map_err(wrong)?;
        self.decide(&visit, operator, |view| Draft::withdrawing(view, entry, &why))
    }

    /// Passes over one thing that speaks against release, with a reason that the record shows for ever.
    /// Returns the entry's id in a list of one: 64 hexadecimal digits.
    ///
    /// `blocker` is the `code` of one of the visit's `blockers`, as `visit` returns them. `why` is the reason
    /// as free text, required. `visit` and `operator` are as for `settle`.
    ///
    /// # Errors
    /// - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
    /// - `Refused`: the reason is blank, nothing of that code speaks against release now, or this device may
    ///   not pass over.
    /// - `NotStored`: the disk failed or is full. Nothing was recorded.
    pub fn pass_over(
        &self,
        visit: String,
        blocker: String,
        why: String,
        operator: String,
    ) -> Result<Vec<String>, FarsidingError> {
        self.decide(&visit, operator, |view| Draft::passing_over(view, &blocker, &why))
    }

    /// Overrides several items of one gate in one act, with one reason that the record shows for ever. Returns
    /// the entry's id in a list of one: 64 hexadecimal digits.
    ///
    /// `gate` is `unload` or `release`. `items` are `code`s of the items open at that gate: of the visit's
    /// `unloading.blockers` or of its `blockers`, as `visit` returns them. `reason` is a key
    /// (`done_not_recorded`, `not_here`, `other_means`, `owner_says_so`, `reported`) or free text, required.
    /// `visit` and `operator` are as for `settle`.
    ///
    /// # Errors
    /// - `WrongCall`: the visit's id or the gate cannot be read, `operator` is blank, or the visit is not on this
    ///   device.
    /// - `Refused`: the reason is blank, no item is named, one of them is not open at this gate now, or this
    ///   device may not override.
    /// - `NotStored`: the disk failed or is full. Nothing was recorded.
    pub fn override_items(
        &self,
        visit: String,
        gate: String,
        items: Vec<String>,
        reason: String,
        operator: String,
    ) -> Result<Vec<String>, FarsidingError> {
        let gate = Gate::read(&gate).ok_or_else(|| wrong(format!("\"{gate}\" is no gate")))?;
        self.decide(&visit, operator, |view| Draft::overriding(view, gate, &items, &reason))
    }

    /// Signs the stay as fit to unload, before the first closure of a line comes out. Returns the entry's id in
    /// a list of one: 64 hexadecimal digits. `visit` and `operator` are as for `settle`. Farsiding never says
    /// that a car is safe: a person decides and signs.
    ///
    /// # Errors
    /// - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
    /// - `Refused`: something is open at this gate and was not overridden (`why` names all of it), the visit's
    ///   procedure has no such gate, or this device may not sign it.
    /// - `NotStored`: the disk failed or is full. Nothing was recorded.
    pub fn fit_to_unload(&self, visit: String, operator: String) -> Result<Vec<String>, FarsidingError> {
        self.decide(&visit, operator, Draft::clearing)
    }

    /// Releases the car. Returns the entry's id in a list of one: 64 hexadecimal digits.
    ///
    /// `as_residue` says whether the car goes as residue, which is neither cleaned nor purged. `visit` and
    /// `operator` are as for `settle`. Farsiding never says that a car is safe: a person decides and signs.
    ///
    /// # Errors
    /// - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
    /// - `Refused`: something still speaks against release and was not passed over (`why` names all of it),
    ///   or this device may not release.
    /// - `NotStored`: the disk failed or is full. Nothing was recorded.
    pub fn release(
        &self,
        visit: String,
        as_residue: bool,
        operator: String,
    ) -> Result<Vec<String>, FarsidingError> {
        self.decide(&visit, operator, |view| Draft::releasing(view, as_residue))
    }

    /// One row for each stay on this device, as a JSON list.
    ///
    /// A row is `{visits, car, site, site_name, spot, stage, released, kept_by, open_blockers, on_hold,
    /// disagreements, alarms, since, since_shown, unreceipted}`. `visits` are the ids of the visits that were
    /// joined into the stay. `since` is the first claimed time in milliseconds since 1970-01-01 UTC, or null;
    /// `since_shown` is the same in the site's zone. `open_blockers`, `disagreements`, `alarms` and
    /// `unreceipted` are counts.
    ///
    /// # Errors
    /// None today.
    pub fn visits(&self) -> Result<String, FarsidingError> {
        let state = self.state();
        Ok(to_json(&state.gathered.rows(&state.procedures))?)
    }

    /// The rows of the stays that are not over, as a JSON list in the form of `visits`: the car still stands
    /// at the site, or the office has not given receipts for all of the stay. This is what a phone shows
    /// first.
    ///
    /// # Errors
    /// None today.
    pub fn standing(&self) -> Result<String, FarsidingError> {
        let state = self.state();
        Ok(to_json(&state.gathered.standing(&state.procedures))?)
    }

    /// How many stays are over, and the rows of a part of them, those begun last first. JSON: `{"of": count,
    /// "rows": […]}` with rows in the form of `visits`. `from` is how many rows are passed over, `most` how
    /// many are returned at most; both are counts from 0 to 4294967295.
    ///
    /// # Errors
    /// None today.
    pub fn over(&self, from: u32, most: u32) -> Result<String, FarsidingError> {
        let state = self.state();
        let (of, rows) = state.gathered.over(from as usize, most as usize, &state.procedures);
        Ok(to_json(&Over { of, rows })?)
    }

    /// The rows of stays whose car number (as recorded or as on the paper), seal number or spot contains
    /// `text`, as a JSON list in the form of `visits`. Letters and digits alone are compared, without regard
    /// to case. The list is empty when `text` has neither.
    ///
    /// # Errors
    /// None today.
    pub fn find(&self, text: String) -> Result<String, FarsidingError> {
        let state = self.state();
        Ok(to_json(&state.gathered.find(&Sought::new(&text), &state.procedures))?)
    }

    /// A whole stay as JSON: header, steps, fittings, readings with their uncertainty, computed quantities,
    /// seals, photographs, disagreements, blockers, findings, and the history as sentences.
    ///
    /// `visit` is the id of any visit of the stay, 32 hexadecimal digits. Amounts in the JSON name their unit. Times
    /// are milliseconds since 1970-01-01 UTC, and those for people stand beside them in the site's zone.
    ///
    /// # Errors
    /// - `WrongCall`: the id cannot be read, or the visit is not on this device.
    pub fn visit(&self, visit: String) -> Result<String, FarsidingError> {
        // Beside the record, under `guide`: what steps ask for, how a slot is said again, where blockers are cleared.
        let mut state = self.state();
        state.look()?;
        let guided = GuidedVisit::of(state.view(&visit)?, &state.procedures);
        let paper = guided
            .view
            .header
            .visits
            .first()
            .and_then(|visit| state.gathered.paper_of(state.gathered.stay_of(*visit)?));
        Ok(to_json(&guided.with_paper(paper))?)
    }

    /// A whole stay in plain English sentences, for a terminal or a log. `visit` is as for `visit`.
    ///
    /// # Errors
    /// - `WrongCall`: the id cannot be read, or the visit is not on this device.
    pub fn show(&self, visit: String) -> Result<String, FarsidingError> {
        let view = self.state().view(&visit)?;
        #[cfg(not(target_arch = "wasm32"))]
        return Ok(farsiding_printed::show(&view, farsiding_words::Words::english()));
        #[cfg(target_arch = "wasm32")]
        Err(FarsidingError::wrong_call(format!(
            "no text of {} in the browser: render the messages of the view",
            view.header.car
        )))
    }

    /// The sites known on this device, as a JSON object from a site's id (32 hexadecimal digits) to the site:
    /// `{id, name, zone, elevation, attendance_gap_minutes, local_rules, organisation, address, tanks, instruments, hoses, contacts,
    /// seal_stock, emergency, disputed, expected}`. `zone` is an IANA time zone. `elevation` is an amount above sea
    /// level with its unit, or null.
    ///
    /// # Errors
    /// None today.
    pub fn sites(&self) -> Result<String, FarsidingError> {
        let state = self.state();
        let sites: BTreeMap<_, _> =
            state.gathered.sites.keys().map(|id| (id, state.gathered.site_now(*id))).collect();
        Ok(to_json(&sites)?)
    }

    /// A new site's id of 32 random hexadecimal digits, for the first entry in its document `site:…`. Nothing
    /// is recorded. Never fails.
    pub fn new_site(&self) -> String {
        SiteId::random(self.state().book.randomness()).to_string()
    }

    /// The people of the organisation, as a JSON list of `{operator, name, name_is, trained_on?, active}`.
    /// `operator` is the code that entries name the person by, `name` the name or, where none is known here, the
    /// code; `name_is` says which: `open` or `kept` with a name, `not_here` or `removed` (at the office) without
    /// one. `trained_on` is a date `YYYY-MM-DD`.
    ///
    /// # Errors
    /// None today.
    pub fn people(&self) -> Result<String, FarsidingError> {
        Ok(to_json(&self.state().gathered.people.values().collect::<Vec<_>>())?)
    }

    /// Keeps a text that is half typed under a key of the caller's own, in place of what stood there. An
    /// empty text removes it. The text is on the disk when this returns; it is not signed and never leaves
    /// this device.
    ///
    /// # Errors
    /// - `NotStored`: the disk failed or is full.
    pub fn set_draft(&self, key: String, text: String) -> Result<(), FarsidingError> {
        self.state().book.store_mut().commit(&[Write::Draft { key: &key, text: &text }])?;
        Ok(())
    }

    /// Every text that `set_draft` keeps, as a JSON object from key to text.
    ///
    /// # Errors
    /// - `NotStored`: the disk cannot be read.
    pub fn drafts(&self) -> Result<String, FarsidingError> {
        let drafts: BTreeMap<String, String> = self.state().book.store().drafts()?.into_iter().collect();
        Ok(to_json(&drafts)?)
    }

    /// How this device stands, as a JSON object:
    /// - `device`: this device's id. `organisation_key`: the key of the organisation that enrolled it, or
    ///   null. 64 hexadecimal digits each.
    /// - `entries`: how many entries are here. `without_receipt`: how many of them the office has not given a
    ///   receipt for.
    /// - `photos_waiting`: how many photographs the office is not known to hold. `quarantined`: how many
    ///   things from outside were refused and kept aside.
    /// - `clock_ahead_millis`: how far this device's clock is ahead of the office's in milliseconds, or null
    ///   when never compared.
    /// - `damaged`: the ids of entries whose rows on the disk are damaged.
    /// - `left`: what left this device because it no longer has the site, and the office holds: `[{site, documents,
    ///   entries}]`, with the site's id and two counts.
    /// - `log`: null before enrolment, otherwise `{size, checked_at, alarms: [{kind, sentence, at}]}` with
    ///   times in milliseconds since 1970-01-01 UTC and `size` as a count of entries.
    /// - `version`: the version of the core.
    ///
    /// # Errors
    /// - `NotStored`: the disk cannot be read.
    pub fn status(&self) -> Result<String, FarsidingError> {
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
            "left": left(book.store())?
                .iter()
                .map(|left| json!({
                    "site": left.site.to_string(), "documents": left.documents, "entries": left.tally.count,
                }))
                .collect::<Vec<_>>(),
            "log": book.log_standing()?.as_ref().map(log_json),
            "version": env!("CARGO_PKG_VERSION"),
        })
        .to_string())
    }
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
    ) -> Result<Vec<String>, FarsidingError> {
        let mut state = self.state();
        let draft = draft(&state.view(visit)?)?;
        state.append(Subject::Visit(read_visit(visit)?), vec![draft], operator)
    }
}

/// How many stays are over, and some of their rows.
#[derive(Serialize)]
struct Over<R> {
    of: usize,
    rows: R,
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

fn not_here(visit: &VisitId) -> FarsidingError {
    wrong(format!("visit {} is not on this device", visit.short()))
}

impl State {
    fn append(
        &mut self,
        subject: Subject,
        drafts: Vec<Draft>,
        operator: String,
    ) -> Result<Vec<String>, FarsidingError> {
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

    pub(crate) fn read_again(&mut self, changed: &[Subject]) -> Result<(), FarsidingError> {
        Ok(self.book.refresh(&mut self.gathered, changed)?)
    }

    /// Takes the present time: something may have become due since the last record.
    fn look(&mut self) -> Result<(), FarsidingError> {
        Ok(self.book.look(&mut self.gathered)?)
    }

    fn view(&self, visit: &str) -> Result<VisitView, FarsidingError> {
        let visit = read_visit(visit)?;
        self.gathered.view(visit, &self.procedures).ok_or_else(|| not_here(&visit))
    }
}
