//! Updates the index: follows the ledger entry by entry, folds the stays that changed, and reports progress
//! on long jobs. An update that is interrupted continues from where it stopped.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::PoisonError;
use std::sync::atomic::Ordering;
use std::time::{Duration, Instant};

use farsiding_core::authority::Authority;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{Entry, Statement};
use farsiding_core::ids::{CarId, Digest, SiteId, Subject, VisitId};
use farsiding_core::view::{self, plain_car};
use rusqlite::{Connection, OptionalExtension as _, params};

use super::chains::Runs;
use super::fold::Surroundings;
use super::ledger_reader::{Held, LedgerReader};
use super::row::IndexRow;
use super::{Index, IndexError};
use farsiding_reconcile::facts::Facts;

/// The number of entries read at a time.
const BATCH: usize = 10_000;
/// The number of stays folded at a time because their site or a certificate changed.
const STALE_BATCH: usize = 500;
/// How often a long job reports its progress.
const TELLS_EVERY: Duration = Duration::from_secs(10);

/// A folded stay, ready to be written.
#[derive(Debug)]
struct Folded {
    visits: Vec<VisitId>,
    car: Option<CarId>,
    line: IndexRow,
    facts: Facts,
}

/// What a batch of new entries affects.
#[derive(Debug, Default)]
struct Touched {
    visits: BTreeSet<VisitId>,
    cars: BTreeSet<CarId>,
    sites: BTreeSet<SiteId>,
    people: bool,
    /// Whether a person's name was removed, so that stays that are over must not show it any longer.
    names: bool,
}

impl Touched {
    fn add(&mut self, subject: Subject) {
        match subject {
            Subject::Visit(visit) => drop(self.visits.insert(visit)),
            Subject::Car(car) => drop(self.cars.insert(car)),
            Subject::Site(site) => drop(self.sites.insert(site)),
            Subject::Roster(_) => self.people = true,
        }
    }
}

/// Returns the car of a paper that the office sent to a site or took back.
fn car_of_paper(entry: &Entry) -> Option<CarId> {
    match &entry.body.says {
        Statement::PaperExpected(paper) => Some(paper.car.id()),
        Statement::PaperTakenBack(taken) => Some(taken.car.id()),
        _ => None,
    }
}

fn number(connection: &Connection, key: &str) -> Result<i64, IndexError> {
    let value: Option<String> = connection
        .prepare_cached("SELECT value FROM meta WHERE key = ?1")?
        .query_row([key], |row| row.get(0))
        .optional()?;
    Ok(value.and_then(|text| text.parse().ok()).unwrap_or(0))
}

fn set(connection: &Connection, key: &str, value: &str) -> Result<(), IndexError> {
    connection
        .prepare_cached("INSERT OR REPLACE INTO meta(key, value) VALUES(?1, ?2)")?
        .execute([key, value])?;
    Ok(())
}

impl Index {
    /// Updates the index to the state of the ledger and returns whether anything changed. The call blocks and
    /// may take minutes for a new index; `go_on` is asked between batches.
    ///
    /// # Errors
    /// Returns an [`IndexError`]; what was written before the failure stays.
    pub fn follow(&self, now: UtcMillis, go_on: &dyn Fn() -> bool) -> Result<bool, IndexError> {
        let mut keeping = self.keeping.lock().unwrap_or_else(PoisonError::into_inner);
        let reader = LedgerReader::open(&self.ledger)?;
        let (newest, newest_change) = reader.newest_positions()?;
        let from = number(&keeping, "entry")?;
        if from == 0 && newest > 0 {
            // A new index folds every stay anyway, so earlier changes need not be followed.
            set(&keeping, "change", &newest_change.to_string())?;
            set(&keeping, "made until", &newest.to_string())?;
        }
        let made_until = number(&keeping, "made until")?;
        let (began, mut told) = (Instant::now(), Instant::now());
        let mut changed = self.notice_certificates(&mut keeping, &reader)?;
        loop {
            let reached = number(&keeping, "entry")?;
            let behind = newest.saturating_sub(reached).max(0);
            self.behind.store(behind.cast_unsigned(), Ordering::Relaxed);
            if told.elapsed() > TELLS_EVERY {
                tracing::info!(
                    reached,
                    of = newest,
                    seconds = began.elapsed().as_secs(),
                    "the index follows the ledger"
                );
                told = Instant::now();
            }
            if !go_on() || !self.take_batch(&mut keeping, &reader, made_until, now)? {
                break;
            }
            changed = true;
        }
        while go_on() && self.fold_stale(&mut keeping, &reader, now)? {
            changed = true;
        }
        self.behind.store(0, Ordering::Relaxed);
        if began.elapsed() > TELLS_EVERY {
            tracing::info!(entries = newest, seconds = began.elapsed().as_secs(), "the index is up to date");
        }
        Ok(changed)
    }

    /// Reads the next entries and changes, and returns whether there were any.
    fn take_batch(
        &self,
        keeping: &mut Connection,
        reader: &LedgerReader,
        made_until: i64,
        now: UtcMillis,
    ) -> Result<bool, IndexError> {
        let (from, from_change) = (number(keeping, "entry")?, number(keeping, "change")?);
        let (entries, reached, subjects, reached_change) = reader.at_one_moment(|reader| {
            let (entries, reached) = reader.entries_after(from, BATCH)?;
            let (subjects, reached_change) = reader.changed_after(from_change)?;
            Ok((entries, reached, subjects, reached_change))
        })?;
        if reached == from && reached_change == from_change {
            return Ok(false);
        }
        // While the index is being built, a car's document is read with each of its stays anyway.
        let making = reached <= made_until;
        let mut touched = Touched::default();
        // A paper that was sent to a site concerns the stays of its car, and no other stay of the site.
        let papers = |site: &Subject| {
            let mut said = entries.iter().filter(|entry| entry.body.about == *site).peekable();
            said.peek().is_some() && said.all(|entry| car_of_paper(entry).is_some())
        };
        let told: BTreeSet<Subject> = entries.iter().map(|entry| entry.body.about).chain(subjects).collect();
        told.into_iter().filter(|subject| !papers(subject)).for_each(|subject| touched.add(subject));
        touched.cars.extend(entries.iter().filter_map(car_of_paper));
        touched.names = entries.iter().any(|entry| matches!(entry.body.says, Statement::NameForgotten(_)));
        let mut runs = Runs::default();
        let transaction = keeping.transaction()?;
        for entry in &entries {
            runs.add(&transaction, entry)?;
        }
        runs.write(&transaction)?;
        for entry in &entries {
            if let (Some(on), Subject::Visit(visit)) = (entry.body.rests_on, entry.body.about) {
                transaction
                    .prepare_cached("INSERT OR IGNORE INTO rests(visit, other) VALUES(?1, ?2)")?
                    .execute(params![visit.0, on.visit.0])?;
            }
        }
        self.pair(&transaction, reader, &touched.visits, &entries, now)?;
        if !making {
            spread(&transaction, &mut touched)?;
        }
        let stays = stays_of(&transaction, &touched.visits)?;
        for folded in self.fold_all(reader, stays, now)? {
            write(&transaction, &folded)?;
        }
        self.write_sites(&transaction, reader, &touched.sites, now)?;
        set(&transaction, "entry", &reached.to_string())?;
        set(&transaction, "change", &reached_change.to_string())?;
        transaction.commit()?;
        Ok(true)
    }

    /// Records which visits are stated to be one stay, for the visits with new entries.
    fn pair(
        &self,
        index: &Connection,
        reader: &LedgerReader,
        visits: &BTreeSet<VisitId>,
        entries: &[Entry],
        now: UtcMillis,
    ) -> Result<(), IndexError> {
        let speaks_of_joining: BTreeSet<Subject> = entries
            .iter()
            .filter(|entry| entry.body.slot.starts_with("joined/"))
            .map(|entry| entry.body.about)
            .collect();
        let authority = if speaks_of_joining.is_empty() {
            Authority::default()
        } else {
            reader.authority(&self.key, now)?
        };
        for visit in visits {
            index
                .prepare_cached("INSERT OR IGNORE INTO visit(visit, stay) VALUES(?1, 0)")?
                .execute([visit.0])?;
            if !speaks_of_joining.contains(&Subject::Visit(*visit)) {
                continue;
            }
            let held = reader.entries_of(Subject::Visit(*visit))?;
            // The visits it was joined with before are folded again as well, in case the join was undone.
            index.prepare_cached("DELETE FROM pair WHERE visit = ?1")?.execute([visit.0])?;
            let opened = |visit: VisitId| {
                let held = reader.entries_of(Subject::Visit(visit)).ok()?;
                view::opened_of(&authority, held.iter().map(Held::received))
            };
            // Only statements made in this visit's own document are read here; those of other visits are read
            // with their documents.
            let own = held.iter().filter(|held| held.entry.body.about == Subject::Visit(*visit));
            for other in view::joined_with(&authority, *visit, own.map(Held::received), opened) {
                index
                    .prepare_cached("INSERT OR IGNORE INTO pair(visit, other) VALUES(?1, ?2)")?
                    .execute(params![visit.0, other.0])?;
            }
        }
        Ok(())
    }

    /// Folds stays on as many threads as there are processors.
    fn fold_all(
        &self,
        reader: &LedgerReader,
        stays: Vec<Vec<VisitId>>,
        now: UtcMillis,
    ) -> Result<Vec<Folded>, IndexError> {
        let threads = std::thread::available_parallelism().map_or(1, usize::from).clamp(1, 8);
        if stays.len() < 16 || threads == 1 {
            return self.fold_some(reader, &stays, now);
        }
        std::thread::scope(|scope| {
            let each = stays.len().div_ceil(threads);
            let working: Vec<_> = stays
                .chunks(each)
                .map(|some| scope.spawn(|| self.fold_some(&LedgerReader::open(&self.ledger)?, some, now)))
                .collect();
            let mut folded = Vec::with_capacity(stays.len());
            for thread in working {
                folded.extend(thread.join().map_err(|_| IndexError::Stopped)??);
            }
            Ok(folded)
        })
    }

    fn fold_some(
        &self,
        reader: &LedgerReader,
        stays: &[Vec<VisitId>],
        now: UtcMillis,
    ) -> Result<Vec<Folded>, IndexError> {
        let parts = (&self.procedures, &self.formulas);
        let mut around = Surroundings::read(reader, &self.key, parts, now)?;
        let mut folded = Vec::with_capacity(stays.len());
        for visits in stays {
            let stay = around.gather(visits)?;
            let view = around.fold(&stay, &[])?;
            let line = IndexRow { visits: visits.clone(), ..IndexRow::of(&view, stay.entries()) };
            let judged = stay.judged(around.authority());
            let site = match &stay.opened {
                Some(opened) => Some(around.site(opened.site)?),
                None => None,
            };
            let facts = Facts::of(&view, judged, site);
            folded.push(Folded { visits: visits.clone(), car: stay.car_id(), line, facts });
        }
        Ok(folded)
    }

    fn write_sites(
        &self,
        index: &Connection,
        reader: &LedgerReader,
        sites: &BTreeSet<SiteId>,
        now: UtcMillis,
    ) -> Result<(), IndexError> {
        let mut around = Surroundings::read(reader, &self.key, (&self.procedures, &self.formulas), now)?;
        for site in sites {
            let view = around.site(*site)?;
            index
                .prepare_cached("INSERT OR REPLACE INTO site(site, name, zone) VALUES(?1, ?2, ?3)")?
                .execute(params![site.0, view.name, view.zone])?;
        }
        Ok(())
    }

    /// Notices changed certificates. When a device was revoked or renamed, its statements may count
    /// differently, so the stays it took part in that are still at a site are folded again.
    fn notice_certificates(
        &self,
        keeping: &mut Connection,
        reader: &LedgerReader,
    ) -> Result<bool, IndexError> {
        let said: BTreeMap<String, String> = reader
            .certificates()?
            .into_iter()
            .map(|(device, bytes)| (device.to_string(), Digest::of(&bytes).to_string()))
            .collect();
        let text = serde_json::to_string(&said)?;
        let known: Option<String> = keeping
            .query_row("SELECT value FROM meta WHERE key = 'devices'", [], |row| row.get(0))
            .optional()?;
        if known.as_deref() == Some(&text) {
            return Ok(false);
        }
        let before: BTreeMap<String, String> =
            known.as_deref().and_then(|known| serde_json::from_str(known).ok()).unwrap_or_default();
        // A new device has made no statements yet. A changed certificate of a known device may change what
        // counts in every stay it took part in, including finished ones.
        let replaced = before.iter().any(|(device, digest)| said.get(device) != Some(digest));
        let which = if replaced || before.is_empty() { "1 = 1" } else { "released = 0" };
        keeping.execute(&format!("UPDATE stay SET stale = 1 WHERE {which}"), [])?;
        set(keeping, "devices", &text)?;
        Ok(known.is_some())
    }

    /// Folds some of the stays whose site, car or certificates changed, beginning with those still at a site.
    fn fold_stale(
        &self,
        keeping: &mut Connection,
        reader: &LedgerReader,
        now: UtcMillis,
    ) -> Result<bool, IndexError> {
        let waiting: i64 =
            keeping.query_row("SELECT count(*) FROM stay WHERE stale = 1", [], |row| row.get(0))?;
        self.behind.store(waiting.cast_unsigned(), Ordering::Relaxed);
        if waiting == 0 {
            return Ok(false);
        }
        let mut visits = BTreeSet::new();
        {
            let mut statement = keeping.prepare_cached(
                "SELECT visit FROM visit WHERE stay IN
                   (SELECT number FROM stay WHERE stale = 1 ORDER BY released, since DESC LIMIT ?1)",
            )?;
            let most = i64::try_from(STALE_BATCH).unwrap_or(i64::MAX);
            for visit in statement.query_map([most], |row| Ok(VisitId(row.get(0)?)))? {
                visits.insert(visit?);
            }
        }
        let transaction = keeping.transaction()?;
        let stays = stays_of(&transaction, &visits)?;
        for folded in self.fold_all(reader, stays, now)? {
            write(&transaction, &folded)?;
        }
        transaction.commit()?;
        Ok(true)
    }
}

/// Marks the other stays of changed cars as affected, and all stays at changed sites for a later turn.
fn spread(index: &Connection, touched: &mut Touched) -> Result<(), IndexError> {
    let mut of_car = index.prepare_cached(
        "SELECT visit FROM visit JOIN stay ON stay.number = visit.stay WHERE stay.car_id = ?1",
    )?;
    for car in &touched.cars {
        for visit in of_car.query_map([car.0], |row| Ok(VisitId(row.get(0)?)))? {
            touched.visits.insert(visit?);
        }
    }
    // What another car of the track rests on may have changed.
    let mut resting = index.prepare_cached("SELECT visit FROM rests WHERE other = ?1")?;
    for visit in touched.visits.clone() {
        for other in resting.query_map([visit.0], |row| Ok(VisitId(row.get(0)?)))? {
            touched.visits.insert(other?);
        }
    }
    for site in &touched.sites {
        index.execute("UPDATE stay SET stale = 1 WHERE site = ?1", [site.0])?;
    }
    if touched.names {
        index.execute("UPDATE stay SET stale = 1", [])?;
    } else if touched.people {
        index.execute("UPDATE stay SET stale = 1 WHERE released = 0", [])?;
    }
    Ok(())
}

/// Returns the stays that visits belong to, now and before, each with all its visits in ascending order.
fn stays_of(index: &Connection, visits: &BTreeSet<VisitId>) -> Result<Vec<Vec<VisitId>>, IndexError> {
    let mut waiting: BTreeSet<VisitId> = visits.clone();
    // A visit that was in one stay with these before may no longer be so.
    let mut together = index.prepare_cached(
        "SELECT b.visit FROM visit AS a JOIN visit AS b ON b.stay = a.stay WHERE a.visit = ?1 AND a.stay <> 0",
    )?;
    for visit in visits {
        for other in together.query_map([visit.0], |row| Ok(VisitId(row.get(0)?)))? {
            waiting.insert(other?);
        }
    }
    let mut neighbours = index.prepare_cached(
        "SELECT other FROM pair WHERE visit = ?1 AND other IN (SELECT visit FROM visit)
         UNION SELECT visit FROM pair WHERE other = ?1",
    )?;
    let mut stays = Vec::new();
    while let Some(first) = waiting.pop_first() {
        let (mut stay, mut next) = (BTreeSet::from([first]), vec![first]);
        while let Some(visit) = next.pop() {
            for other in neighbours.query_map([visit.0], |row| Ok(VisitId(row.get(0)?)))? {
                let other = other?;
                if stay.insert(other) {
                    waiting.remove(&other);
                    next.push(other);
                }
            }
        }
        stays.push(stay.into_iter().collect());
    }
    Ok(stays)
}

/// Writes a stay in place of the stays its visits belonged to before.
fn write(index: &Connection, folded: &Folded) -> Result<(), IndexError> {
    let Folded { visits, car, line, facts } = folded;
    let Some(first) = visits.first() else { return Ok(()) };
    for visit in visits {
        let before: Option<i64> = index
            .prepare_cached("SELECT stay FROM visit WHERE visit = ?1")?
            .query_row([visit.0], |row| row.get(0))
            .optional()?;
        if let Some(before) = before.filter(|stay| *stay != 0) {
            index.prepare_cached("DELETE FROM stay WHERE number = ?1")?.execute([before])?;
            index.prepare_cached("DELETE FROM seal WHERE stay = ?1")?.execute([before])?;
        }
    }
    let plain = plain_car(&line.car);
    let digits: String = plain.chars().filter(char::is_ascii_digit).collect();
    index
        .prepare_cached(
            "INSERT INTO stay(first, car, car_plain, car_digits, car_id, site, since, latest, released,
                              released_at, pulled, line, facts)
             VALUES(?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13)",
        )?
        .execute(params![
            first.0,
            line.car,
            plain,
            digits,
            car.map(|car| car.0),
            line.site.map(|site| site.0),
            line.since.0,
            line.latest.0,
            line.released,
            line.released_at.map(|at| at.0),
            line.pulled,
            serde_json::to_string(line)?,
            serde_json::to_string(facts)?
        ])?;
    let stay = index.last_insert_rowid();
    for visit in visits {
        index
            .prepare_cached("INSERT OR REPLACE INTO visit(visit, stay) VALUES(?1, ?2)")?
            .execute(params![visit.0, stay])?;
    }
    for (plain, said) in &line.seals {
        index.prepare_cached("INSERT INTO seal(stay, plain, said) VALUES(?1, ?2, ?3)")?.execute(params![
            stay,
            plain,
            serde_json::to_string(said)?
        ])?;
    }
    Ok(())
}
